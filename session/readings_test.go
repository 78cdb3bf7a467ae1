package session

import (
	"context"
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"steelyard/lang/finding"
	"steelyard/session/entry"
	"steelyard/units"
)

// meant is a line as someone writes it, with the value that the writer means.
type meant struct {
	scope, line string
	value       float64
	unit        string
	treacherous bool // another reading than the meant one is near
}

// readTable reads a table with its heads; a line that begins with # is a remark.
func readTable(t testing.TB, path string) [][]string {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// readMeant reads a table of lines.
func readMeant(t testing.TB, path string) []meant {
	t.Helper()
	var out []meant
	for _, row := range readTable(t, path)[1:] {
		value, err := strconv.ParseFloat(row[2], 64)
		if err != nil {
			t.Fatalf("%s: %s: %v", path, row[1], err)
		}
		out = append(out, meant{row[0], row[1], value, row[3], row[4] == "treacherous"})
	}
	return out
}

// enter enters a line below its scope.
func (m meant) enter(text string) *entry.Entry {
	p := New()
	for line := range strings.SplitSeq(m.scope, "; ") {
		if line != "" {
			p.Enter(context.Background(), line)
		}
	}
	return p.Enter(context.Background(), text)
}

// right tells whether an entry has the value that is meant.
func (m meant) right(e *entry.Entry) bool {
	values := e.Values()
	if e.Failed() || len(values) == 0 {
		return false
	}
	u, bad := units.NewTable().Parse(m.unit, units.AloneInPlace)
	if bad != nil {
		return false
	}
	return values[0].Dim == u.Dim() && math.Abs(values[0].SI-m.value) <= 1e-6*math.Abs(m.value)
}

// offered is the place of the meant reading among those that are offered: 1 for
// the first, 0 for none.
func (m meant) offered(e *entry.Entry) int {
	n := 0
	for _, f := range e.Findings {
		if f.Severity == finding.Note {
			continue
		}
		for _, r := range f.Readings {
			n++
			if m.right(m.enter(e.Text[:f.At.From] + r + e.Text[f.At.To:])) {
				return n
			}
		}
	}
	return 0
}

// verdict says what became of a treacherous line.
func (m meant) verdict() string {
	e := m.enter(m.line)
	cautioned := slices.ContainsFunc(e.Findings, func(f finding.Finding) bool { return f.Severity == finding.Caution })
	switch n := m.offered(e); {
	case m.right(e):
		return "right"
	case e.Failed() && n == 1:
		return "offered first"
	case e.Failed() && n > 1:
		return "offered later"
	case e.Failed():
		return "wrong offer"
	case cautioned && n > 0:
		return "cautioned"
	}
	return "silent"
}

// isCustom tells whether a finding is a caution from what names are used for, but for
// the torque in J that some collections have.
func isCustom(f finding.Finding) bool {
	return f.Severity == finding.Caution && f.ID != finding.TorqueOrEnergy
}

// TestReadingsOfLines holds what becomes of lines with another reading near
// against what their writers mean.
func TestReadingsOfLines(t *testing.T) {
	for _, path := range []string{"testdata/readings.csv", "testdata/readings-own.csv"} {
		count := map[string]int{}
		for _, m := range readMeant(t, path) {
			if !m.treacherous {
				if e := m.enter(m.line); !m.right(e) {
					t.Errorf("%s | %s: is refused or has another value: %+v", m.scope, m.line, e.Findings)
				} else if i := slices.IndexFunc(e.Findings, isCustom); i >= 0 {
					t.Errorf("%s | %s: is right, and cautioned: %+v", m.scope, m.line, e.Findings[i])
				}
				continue
			}
			v := m.verdict()
			count[v]++
			if v == "silent" || v == "wrong offer" {
				t.Errorf("%s: %s | %s: %+v", v, m.scope, m.line, m.enter(m.line).Findings)
			} else if v == "offered later" {
				t.Logf("%s: %s | %s: %+v", v, m.scope, m.line, m.enter(m.line).Findings)
			}
		}
		t.Logf("%s: %v", path, count)
		if later := count["offered later"]; later*20 > count["offered first"]+later {
			t.Errorf("%s: of the right offers %d are not the first", path, later)
		}
	}
}
