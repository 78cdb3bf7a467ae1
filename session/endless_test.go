package session

import (
	"fmt"
	"strings"
	"testing"

	"steelyard/lang/finding"
)

// TestEndless enters lines in which equations clash, nest or multiply, so that a
// search through all the ways to put one into another would never end. Each has
// its answer, or is ended with a finding. Values by hand: the products clash since
// (ab)(cd)(pq) = 48 and (bc)(dp)(qa) = 105.
func TestEndless(t *testing.T) {
	nested := "x"
	for range 20 {
		nested = "1/(x + " + nested + ")"
	}
	var stiff, forces, rows []string
	for i := 1; i <= 5; i++ {
		var row []string
		for j := 1; j <= 5; j++ {
			stiff = append(stiff, fmt.Sprintf("k%d%d", i, j))
			row = append(row, fmt.Sprintf("k%d%d*x%d", i, j, j))
		}
		forces = append(forces, fmt.Sprintf("F%d", i))
		rows = append(rows, strings.Join(row, " + ")+fmt.Sprintf(" = F%d", i))
	}
	for _, c := range []struct {
		above []string
		line  string
		id    finding.ID
		says  string
	}{
		{nil, "solve a*b = 2 and b*c = 3 and c*d = 4 and d*p = 5 and p*q = 6 and q*a = 7 for a, b, c, d, p, q",
			finding.NoSolution, "contradict each other"},
		{nil, "solve a + b = 1 and b + c = 2 and c + d = 3 and d + p = 4 and p + q = 5 and 2*a + b - c = 1 for a, b, c, d, p, q",
			finding.NoSolution, "Equations 1, 2 and 6 contradict each other"},
		{nil, "solve a + b = 1 and b + c = 2 and c + d = 3 and d + p = 4 and p + q = 5 and q + r = 6 and r + w = 7 and 2*a + b - c = 1 for a, b, c, d, p, q, r, w",
			finding.NoSolution, "Equations 1, 2 and 8 contradict each other"},
		{nil, "solve " + nested + " = 0.3 for x", finding.WhichRoot, "0.0282677 and 3.03333"},
		{[]string{"let " + strings.Join(stiff, ", ") + " in N/m", "let " + strings.Join(forces, ", ") + " in N"},
			"solve " + strings.Join(rows, " and ") + " for x1, x2, x3, x4, x5", finding.TooLong, "it was stopped"},
	} {
		p := New()
		for _, text := range c.above {
			p.Enter(t.Context(), text)
		}
		e := p.Enter(t.Context(), c.line)
		var said []string
		found := false
		for _, f := range e.Findings {
			said = append(said, f.Message)
			found = found || f.ID == c.id && strings.Contains(f.Message, c.says)
		}
		if !found {
			t.Errorf("%s: %q", c.line[:min(len(c.line), 60)], said)
		}
	}
}
