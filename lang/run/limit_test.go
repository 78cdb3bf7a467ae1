package run_test

import (
	"testing"

	"steelyard/lang/limit"
	"steelyard/lang/ops"
)

// TestRootsLimit looks for as many zeros as a search finds at most, and for one more.
func TestRootsLimit(t *testing.T) {
	p, st, fn := rootFunc(t, "sin(π*u)", "0")
	for _, n := range []int{limit.Roots, limit.Roots + 1} {
		got := p.Zeros(st, fn, ops.Between(0.5, float64(n)+0.5))
		if n == limit.Roots && (len(got.Found) != n || len(got.Unsettled) > 0) || n > limit.Roots && len(got.Unsettled) == 0 {
			t.Errorf("of %d zeros %d are found, %d pieces are open", n, len(got.Found), len(got.Unsettled))
		}
	}
}
