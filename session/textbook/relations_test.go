package textbook

import (
	"context"
	"encoding/csv"
	"math"
	"os"
	"regexp"
	"strings"
	"testing"

	"steelyard/lang/finding"
	"steelyard/session"
	"steelyard/session/entry"
	"steelyard/units"
)

// relation is one row of testdata/relations.csv: an equation of school physics
// with the units of its symbols and the section of the open textbook (OpenStax
// University Physics Vol. 1, College Physics 2e, Physics) that has it.
type relation struct {
	id, equation, result, unit string
	symbols                    [][2]string // name and unit
}

func relations(t testing.TB) []relation {
	t.Helper()
	f, err := os.Open("testdata/relations.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	symbol := regexp.MustCompile(`(\w+) = [^\[]*\[([^\]]+)\]`)
	var out []relation
	for _, row := range rows[1:] {
		r := relation{id: row[0], equation: row[3], result: row[4], unit: unitText(row[5])}
		for _, m := range symbol.FindAllStringSubmatch(row[6], -1) {
			r.symbols = append(r.symbols, [2]string{m[1], unitText(m[2])})
		}
		out = append(out, r)
	}
	return out
}

// unitText writes a unit of the table as the language does.
func unitText(u string) string {
	top, bottom, quotient := strings.Cut(u, "/")
	text := strings.ReplaceAll(top, "*", " ")
	if quotient {
		bottom = strings.ReplaceAll(bottom, "*", " ")
		if strings.Contains(bottom, " ") {
			bottom = "(" + bottom + ")"
		}
		text += "/" + bottom
	}
	return text
}

// TestRelations gives every symbol of every relation a value in its unit, and
// expects the result in the declared unit without a finding.
func TestRelations(t *testing.T) {
	all := relations(t)
	if len(all) != 117 {
		t.Fatalf("%d relations", len(all))
	}
	for _, r := range all {
		t.Run(r.id, func(t *testing.T) {
			p := session.New()
			// The values fall along the list, so that roots of differences are
			// of positive numbers.
			values := []string{"0.9", "0.5", "0.3", "0.2", "0.1", "0.05", "0.04", "0.03"}
			for i, s := range r.symbols {
				if s[0] == r.result {
					continue
				}
				unit := s[1]
				if unit == "1" {
					unit = ""
				}
				enter(t, p, s[0]+" = "+values[i%len(values)]+" "+unit)
			}
			text := r.equation
			if r.unit != "1" {
				text += " in " + r.unit
			}
			e := enter(t, p, text)
			if len(e.Values()) != 1 {
				t.Fatalf("%s has no value", text)
			}
			want, bad := units.NewTable().Parse(r.unit, units.AloneInPlace)
			if bad != nil || e.Values()[0].Dim != want.Dim() || r.unit != "1" && !e.Values()[0].Unit.SameAs(want) {
				t.Errorf("%s has the dimension %s and the unit %s", text, e.Values()[0].Dim, e.Values()[0].Unit.Text())
			}
			if v := e.Values()[0].SI; v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%s is %g", text, v)
			}
			// No relation here gives an amount of substance.
			p.Undo()
			wrong := p.Enter(context.Background(), r.equation+" in mol")
			if len(wrong.Findings) != 1 || wrong.Findings[0].ID != finding.UnitMismatch {
				t.Errorf("%s in mol: %v", r.equation, wrong.Findings)
			}
		})
	}
}

// enter enters a line that must have no finding.
func enter(t *testing.T, p *session.Pad, text string) *entry.Entry {
	t.Helper()
	e := p.Enter(context.Background(), text)
	for _, f := range e.Findings {
		if f.Severity != finding.Note {
			t.Errorf("%s: %s: %s %s", text, f.ID, f.Message, f.Hint)
		}
	}
	return e
}
