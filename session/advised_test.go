package session

import (
	"testing"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
)

// TestAdvised enters a line of an unusual kind as the last that is looked through
// for a reason, and as the next.
func TestAdvised(t *testing.T) {
	for line, told := range map[int]bool{limit.Advised: true, limit.Advised + 1: false} {
		p := New()
		p.EnterAt(t.Context(), 1, "m = 2 kg")
		e := p.EnterAt(t.Context(), line, "F = m*3")
		if got := len(e.Findings) > 0 && e.Findings[0].ID == finding.LackingUnit; got != told {
			t.Errorf("line %d: %v", line, e.Findings)
		}
	}
}
