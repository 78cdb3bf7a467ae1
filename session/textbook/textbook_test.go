package textbook

import (
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"steelyard/lang/finding"
	"steelyard/session/entry"
	"steelyard/session/worksheet"
)

// problem is one block: a worksheet whose last line checks the published value.
type problem struct {
	id, source, text string
	indifferent      map[string]bool // givens that the answer does not depend on
}

// problems reads every block of every file.
func problems(t testing.TB) []problem {
	t.Helper()
	paths, err := filepath.Glob("testdata/*.txt")
	if err != nil || len(paths) == 0 {
		t.Fatal("no problems")
	}
	var out []problem
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, block := range strings.Split("\n"+string(data), "\n## ")[1:] {
			head, text, _ := strings.Cut(block, "\n")
			id, source, _ := strings.Cut(head, " | ")
			p := problem{id: id, source: source, text: strings.TrimSpace(text) + "\n", indifferent: map[string]bool{}}
			for _, m := range regexp.MustCompile(`(?m)^# indifferent: ([^\s;]+);`).FindAllStringSubmatch(text, -1) {
				p.indifferent[m[1]] = true
			}
			out = append(out, p)
		}
	}
	return out
}

// replay works a problem out as a worksheet.
func replay(t testing.TB, p problem, text string) *worksheet.Report {
	t.Helper()
	sheet, bad := worksheet.Parse(p.id, "worksheet 1  "+p.id+"\n\n"+text)
	if bad != nil {
		t.Fatalf("%s: %v", p.id, bad)
	}
	return worksheet.Replay(context.Background(), sheet, worksheet.Options{})
}

// verdict is what a check comes to, or nil if it could not be worked out.
func verdict(e *entry.Entry) *entry.Verdict {
	v, _ := e.Outcome.(*entry.Verdict)
	return v
}

// holds tells whether all checks of a report hold, and how many there are.
func holds(r *worksheet.Report) (all bool, n int) {
	all = true
	for _, row := range r.Rows {
		if _, isCheck := strings.CutPrefix(row.Entry.Text, "check "); isCheck {
			n++
			v := verdict(row.Entry)
			all = all && v != nil && v.Holds
		}
	}
	return all, n
}

// TestProblems works every problem out to its published value and unit,
// without a finding.
func TestProblems(t *testing.T) {
	all := problems(t)
	if len(all) < 200 {
		t.Fatalf("%d problems", len(all))
	}
	for _, p := range all {
		t.Run(p.id, func(t *testing.T) {
			r := replay(t, p, p.text)
			for _, row := range r.Rows {
				for _, f := range row.Entry.Findings {
					if f.Severity != finding.Note {
						t.Errorf("%s: %s: %s %s", row.Entry.Text, f.ID, f.Message, f.Hint)
					}
				}
			}
			if ok, n := holds(r); !ok || n == 0 {
				t.Errorf("%s (%s): the published value is not reached", p.id, p.source)
			}
			if p.source == "" {
				t.Error("no source")
			}
		})
	}
}

// given finds the lines that give a number.
var given = regexp.MustCompile(`(?m)^(\S+) = (-?[0-9.]+(?:e[+-]?[0-9]+)?)((?:°| [^\n=]*)?)$`)

// TestTenPercent changes each given by ten parts in a hundred, up or, where
// that is rounded away, down: the published value must then be missed, unless
// the block says that the answer is too coarse to show it.
func TestTenPercent(t *testing.T) {
	all, coarse := 0, 0
	for _, p := range problems(t) {
		t.Run(p.id, func(t *testing.T) {
			moved := 0
			for _, at := range given.FindAllStringSubmatchIndex(p.text, -1) {
				name, number := p.text[at[2]:at[3]], p.text[at[4]:at[5]]
				v, err := strconv.ParseFloat(number, 64)
				if err != nil || v == 0 {
					continue
				}
				all++
				switch missed := missedByTenPercent(t, p, v, at[4], at[5]); {
				case missed && p.indifferent[name]:
					t.Errorf("%s is said to make no difference, and does", name)
				case missed:
					moved++
				case p.indifferent[name]:
					coarse++
				default:
					t.Errorf("%s by 10 %% more or less: the check still holds", name)
				}
			}
			if moved == 0 {
				t.Error("no given makes a difference")
			}
		})
	}
	t.Logf("%d givens changed, %d of them rounded away", all, coarse)
}

// missedByTenPercent tells whether the check fails with the number v between
// two bytes of a problem made a tenth larger or a tenth smaller.
func missedByTenPercent(t *testing.T, p problem, v float64, from, to int) bool {
	for _, factor := range []float64{1.1, 0.9} {
		number := strconv.FormatFloat(v*factor, 'g', 12, 64)
		r := replay(t, p, p.text[:from]+number+p.text[to:])
		if last := r.Rows[len(r.Rows)-1].Entry; verdict(last) == nil {
			t.Errorf("%s with %s: %s is not worked out", p.id, number, last.Text)
		} else if !verdict(last).Holds {
			return true
		}
	}
	return false
}

// TestGivens finds no line with a number alone at its right that the ten per
// cent test would pass over, and no remark about a given that is not there.
func TestGivens(t *testing.T) {
	number := regexp.MustCompile(`^\S+ = -?[0-9]`)
	operators := regexp.MustCompile(`[*+(]| - | in |[0-9]/`)
	for _, p := range problems(t) {
		names := map[string]bool{}
		for line := range strings.Lines(p.text) {
			line = strings.TrimSuffix(line, "\n")
			if m := given.FindStringSubmatch(line); m != nil {
				names[m[1]] = true
			} else if number.MatchString(line) && !operators.MatchString(line) {
				t.Errorf("%s: %s is not changed", p.id, line)
			}
		}
		for name := range p.indifferent {
			if !names[name] {
				t.Errorf("%s: %s is not given", p.id, name)
			}
		}
	}
}

// TestCorrectLines counts the different lines of the problems that are worked
// out without any finding.
func TestCorrectLines(t *testing.T) {
	seen := map[string]bool{}
	for _, p := range problems(t) {
		for _, row := range replay(t, p, p.text).Rows {
			if strings.HasPrefix(row.Entry.Text, "note ") || strings.HasPrefix(row.Entry.Text, "#") {
				continue
			}
			if worst, some := finding.Worst(row.Entry.Findings); some && (worst != finding.Note || row.Entry.Findings[0].ID != finding.OtherRoot) {
				t.Errorf("%s: %s: %v", p.id, row.Entry.Text, row.Entry.Findings)
			}
			seen[row.Entry.Text] = true
		}
	}
	if len(seen) < 200 {
		t.Errorf("only %d different lines", len(seen))
	}
}
