package session

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"steelyard/lang/limit"
	"steelyard/session/entry"
)

// TestNamedLimits asks for as many solutions, and places of a curve, as are named at
// most, and for one more.
func TestNamedLimits(t *testing.T) {
	for _, tt := range []struct {
		limit  int
		line   func(n int) string
		beyond string
	}{
		{limit.Listed, func(n int) string {
			return fmt.Sprintf("solve sin(π*x) = 0 for x where 0.5 < x < %d.5", n)
		}, "and more"},
		{limit.Turns, func(n int) string { // farther away they are searched for
			return fmt.Sprintf("solve sin(θ) = 0.5 for θ where %d° < θ < %d°", (n-3)*360+100, (n-3)*360+200)
		}, "was searched for"},
		{limit.Places, func(n int) string {
			return fmt.Sprintf("graph x + round(x) against x from 0 to %d", n)
		}, "and further places"},
		{limit.ListedSystems, func(n int) string { // n of the four have a positive y
			return [...]string{
				"solve (x^2 - 1)*(x - 3) = 0 and y = x + 5 for x, y",
				"solve (x^2 - 1)*(x^2 - 4) = 0 and y = x + 5 for x, y",
			}[n-3]
		}, "and more"},
	} {
		for _, n := range []int{tt.limit, tt.limit + 1} {
			e := New().Enter(context.Background(), tt.line(n))
			said := fmt.Sprint(e.Findings)
			if g, ok := e.Outcome.(*entry.Graph); ok {
				said = fmt.Sprint(g.Shapes)
			}
			if strings.Contains(said, tt.beyond) != (n > tt.limit) {
				t.Errorf("%s: %s", tt.line(n), said)
			}
		}
	}
}

// TestSolvedLimit solves for as many elements of a list as that is done for, and for
// one more.
func TestSolvedLimit(t *testing.T) {
	for _, n := range []int{limit.Solved, limit.Solved + 1} {
		pad := New()
		pad.Enter(t.Context(), "x = ["+strings.Repeat("1, ", n-1)+"4] m")
		e := pad.Enter(t.Context(), "solve x = v*(2 s) for v")
		if n > limit.Solved != e.Failed() || !e.Failed() && len(e.Values()[0].List.SI) != n {
			t.Errorf("%d elements: %v", n, e.Findings)
		}
	}
}
