package session

import (
	"strings"
	"testing"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
)

// TestAdvised enters a line of an unusual kind, and one with symbols that have no value,
// as the last that is looked through for a reason, and as the next.
func TestAdvised(t *testing.T) {
	for line, told := range map[int]bool{limit.Advised: true, limit.Advised + 1: false} {
		p := New()
		p.EnterAt(t.Context(), 1, "m = 2 kg")
		e := p.EnterAt(t.Context(), line, "F = m*3")
		if got := len(e.Findings) > 0 && e.Findings[0].ID == finding.LackingUnit; got != told {
			t.Errorf("line %d: %v", line, e.Findings)
		}
		e = p.EnterAt(t.Context(), line, "W = kx")
		if got := len(e.Findings) > 0 && strings.HasPrefix(e.Findings[0].Message, "k and x have"); got != told {
			t.Errorf("line %d: %v", line, e.Findings)
		}
	}
}
