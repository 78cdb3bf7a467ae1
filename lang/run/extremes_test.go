package run

import (
	"math"
	"testing"

	"steelyard/lang/limit"
	"steelyard/lang/ops"
	"steelyard/lang/syntax"
)

// TestExtremesLimit has as many places of the greatest value as are told at most, and
// one more: pieces apart from each other over which a curve is 5.
func TestExtremesLimit(t *testing.T) {
	f := &Func{Params: 1, Cost: 1, Depth: 1}
	f.Result = f.Code.Add(Instr{Op: ops.Const, K: 5}, syntax.Span{}, Static{})
	p := &Program{Funcs: []*Func{f}}
	for _, n := range []int{limit.Extremes, limit.Extremes + 1} {
		s := &peakSearch{w: p.intervals(&State{}), by: 1, best: 5, worst: math.Inf(1)}
		var parts []peakPart
		for i := range n {
			parts = append(parts, peakPart{x: ops.Between(2*float64(i), 2*float64(i)+1), top: 5, bottom: 5})
		}
		if got, ok := s.peak(parts, ops.Between(0, 2*float64(n))); ok != (n == limit.Extremes) || ok && len(got.At) != n {
			t.Errorf("of %d places %d are told, %t", n, len(got.At), ok)
		}
	}
}
