package session

import (
	"context"
	"fmt"
	"math"
	"strconv"
	"testing"

	"steelyard/lang/finding"
	"steelyard/lang/formula"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
)

// notRearranged are the symbols that no inverse operation and no quadratic
// reaches; they are searched for.
var notRearranged = map[string]bool{"throw_path for θ": true, "oscillator_velocity for ω": true, "oscillator_acceleration_time for ω": true}

// TestSolveLibrary solves every formula of the library for every one of its
// symbols: the values of the others are those of a working of the formula, and
// the solution must be the value that was used there.
func TestSolveLibrary(t *testing.T) {
	solved := 0
	for _, name := range formula.Names() {
		f, _ := New().Formula(name)
		values := workedValues(t, f)
		for _, unknown := range f.Symbols {
			key := name + " for " + unknown.Name
			want, ok := values[unknown.Name]
			if !ok {
				continue
			}
			p := New()
			for _, s := range f.Symbols {
				if v, ok := values[s.Name]; ok && s.Name != unknown.Name {
					give(p, s, v)
				}
			}
			line := "solve " + name + " for " + unknown.Name
			if unit := unknown.Unit.Text; unit != "1" {
				line += " in " + unit
			}
			line += fmt.Sprintf(" where %s > %s and %s < %s", unknown.Name, bound(want, unknown, -1), unknown.Name, bound(want, unknown, 1))
			e := p.Enter(context.Background(), line)
			searched := false
			for _, f := range e.Findings {
				searched = searched || f.ID == finding.Searched
			}
			if searched != notRearranged[key] {
				t.Errorf("%s: rearranged, or searched for, against what was expected: %v", key, e.Findings)
			}
			if len(e.Values()) != 1 {
				t.Errorf("%s: %v", line, e.Findings)
				continue
			}
			solved++
			if got := e.Values()[0].InUnit; math.Abs(got-want) > 1e-9*math.Abs(want) {
				t.Errorf("%s: %v, want %v", line, got, want)
			}
		}
	}
	if solved < 400 {
		t.Errorf("only %d solved", solved)
	}
}

// bound is a quantity a little below or above a value.
func bound(v float64, s syntax.FormulaSymbol, side float64) string {
	text := strconv.FormatFloat(v+side*math.Abs(v)*0.01, 'g', 15, 64)
	if s.Unit.Text != "1" {
		text += " " + s.Unit.Text
	}
	return text
}

func give(p *Pad, s syntax.FormulaSymbol, v float64) *entry.Entry {
	text := s.Name + " = " + strconv.FormatFloat(v, 'g', 17, 64)
	if s.Unit.Text != "1" {
		text += " " + s.Unit.Text
	}
	return p.Enter(context.Background(), text)
}

// workedValues gives the symbols of a formula values that satisfy it.
func workedValues(t *testing.T, f *syntax.FormulaDef) map[string]float64 {
	t.Helper()
	left := f.Left.(*syntax.Name).Name
	fall := []float64{0.9, 5, 0.3, 0.2, 0.1, 0.05, 0.04, 0.03}
	out := map[string]float64{}
	p := New()
	for i, s := range f.Symbols {
		if s.Name != left {
			out[s.Name] = fall[i%len(fall)]
			if s.Unit.Text == "rad" {
				out[s.Name] = min(out[s.Name], 0.6) // within the principal values
			}
			if e := give(p, s, out[s.Name]); len(e.Values()) != 1 {
				t.Fatalf("%s: %v", e.Text, e.Findings)
			}
		}
	}
	line := "result_value = " + syntax.PrintExpr(f.Right)
	for _, s := range f.Symbols {
		if s.Name == left && s.Unit.Text != "1" {
			line += " in " + s.Unit.Text
		}
	}
	e := p.Enter(context.Background(), line)
	if len(e.Values()) != 1 {
		t.Fatalf("%s: %v", line, e.Findings)
	}
	out[left] = e.Values()[0].InUnit
	return out
}

// BenchmarkSolve rearranges, plans and works out a formula and a quadratic.
func BenchmarkSolve(b *testing.B) {
	for _, line := range []string{"solve spring_energy for k in N/m", "solve h = v0*t - 1/2*g*t^2 for the later t in s"} {
		b.Run(line, func(b *testing.B) {
			p := New()
			for _, given := range []string{"U = 3 J", "x = 5 cm", "v0 = 20 m/s", "h = 12 m", "g = 9.80 m/s^2"} {
				p.Enter(context.Background(), given)
			}
			for b.Loop() {
				p.Enter(context.Background(), line)
				p.Undo()
			}
		})
	}
}
