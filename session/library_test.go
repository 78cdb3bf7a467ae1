package session

import (
	"context"
	"strings"
	"testing"

	"steelyard/lang/finding"
	"steelyard/lang/formula"
	"steelyard/lang/syntax"
)

// TestLibrary defines every built-in formula as one of a worksheet, so that its
// sides are checked in the units it declares, and calls it with a value for
// each of its symbols.
func TestLibrary(t *testing.T) {
	names := formula.Names()
	if len(names) < 117 {
		t.Fatalf("%d formulas", len(names))
	}
	for _, name := range names {
		t.Run(name, func(t *testing.T) {
			text, _ := formula.Source(name)
			own := New()
			if e := own.Enter(context.Background(), text); len(e.Findings) > 0 {
				t.Fatalf("as a formula of a worksheet: %v", e.Findings)
			}
			f, ok := New().Formula(name)
			if !ok {
				t.Fatal("not found")
			}
			left := f.Left.(*syntax.Name).Name
			// The values fall along the list, so that roots of differences are
			// of positive numbers.
			values := []string{"0.9", "5", "0.3", "0.2", "0.1", "0.05", "0.04", "0.03"}
			var args []string
			for i, s := range f.Symbols {
				if s.Name == left || s.Name == "g" || s.Default != nil {
					continue
				}
				unit := s.Unit.Text
				if unit == "1" {
					unit = ""
				}
				args = append(args, values[i%len(values)]+" "+unit)
			}
			e := New().Enter(context.Background(), name+"("+strings.Join(args, ", ")+")")
			if worst, some := finding.Worst(e.Findings); some && worst != finding.Note || len(e.Values()) != 1 {
				t.Errorf("%s: values %v, findings %v", e.Text, e.Values(), e.Findings)
			}
		})
	}
}
