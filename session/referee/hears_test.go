package referee

import (
	"slices"
	"testing"

	"steelyard/lang/finding"
)

// TestHears holds the referee's ears against the words that the scratchpad uses now:
// what it does not hear it can't judge.
func TestHears(t *testing.T) {
	in := func(lines ...string) *hearing { return hear(lines) }
	message := func(h *hearing, id finding.ID) string {
		t.Helper()
		f := h.found(id)
		if f == nil {
			t.Fatalf("%s: no %s", h.said(), id)
		}
		return f.Message
	}
	h := in("solve cos(w) = 1 - w^2/2 + w^4/24 - w^6/720 for w where w < 2 and w > -3")
	for id, want := range map[finding.ID][2]float64{finding.Searched: {-3, 2}, finding.NotSettled: {-0.7, 0.7}} {
		lo, hi, ok := h.piece(message(h, id))
		if !ok || lo.is.mid() < want[0]-0.01 || hi.is.mid() > want[1]+0.01 {
			t.Errorf("%s: %v to %v, heard: %t", message(h, id), lo.is.mid(), hi.is.mid(), ok)
		}
	}
	h = in("solve x^2 - 6*x + 8 = 0 for x")
	var heard []float64
	for _, p := range h.families(message(h, finding.WhichRoot)) {
		heard = append(heard, p.is.mid())
	}
	if !slices.Equal(heard, []float64{2, 4}) {
		t.Errorf("%s: heard %v", h.said(), heard)
	}
	h = in("solve sin(θ) = 0.5 for θ in °")
	if m := message(h, finding.OtherRoot); !turns(m) || !endless(m) || len(h.families(m)) != 2 || !(roots{period: turn()}).comesBy(h, m) {
		t.Errorf("%s: heard %d", m, len(h.families(m)))
	}
	h = in("solve x + 1 = 1 + x for x")
	if r := (roots{every: true}).always(h); !r.solved {
		t.Errorf("%s: not heard as every x", h.said())
	}
}
