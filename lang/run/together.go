package run

import (
	"cmp"
	"slices"

	"steelyard/lang/ops"
)

// together works out what puts the elements of a list together, in any domain: of
// sums, products, and the smaller and greater of two. With plain numbers a list is
// sorted at once.
type together[N any] struct {
	apply func(op ops.Op, a, b N, k float64) N
	of    func(v float64) N
	// still is the number of one that does not vary.
	still func(n N) (float64, bool)
}

// mostVarying is how many elements that vary are put in order: each is compared with
// every other.
const mostVarying = 1 << 10

// put fills out with what an operation makes of the elements of a list, of which there
// is at least one; false where they vary and are too many to be put in order.
//
// Pick takes one column of a list, Tally its length, and Scatter is 0: what that is uncertain
// by is known elsewhere (readings.go).
func (t *together[N]) put(op ops.Op, k float64, list, out []N) bool {
	switch op {
	case ops.Pick:
		n := len(out)
		copy(out, list[min(int(k)*n, len(list)-n):])
	case ops.Tally:
		out[0] = t.of(float64(len(list)))
	case ops.Scatter:
		out[0] = t.of(0)
	case ops.Sum:
		out[0] = t.sum(list)
	case ops.Mean:
		out[0] = t.mean(list)
	case ops.SD:
		out[0] = t.deviation(list)
	case ops.Lowest:
		out[0] = t.fold(ops.Min, list)
	case ops.Highest:
		out[0] = t.fold(ops.Max, list)
	case ops.Steps:
		for i := range out {
			out[i] = t.apply(ops.Sub, list[i+1], list[i], 0)
		}
	case ops.Sort, ops.Median:
		sorted, ok := t.sorted(list)
		if !ok {
			return false
		}
		if op == ops.Sort {
			copy(out, sorted)
			return true
		}
		n := len(sorted)
		out[0] = sorted[n/2]
		if n%2 == 0 {
			out[0] = t.apply(ops.Div, t.apply(ops.Add, sorted[n/2-1], out[0], 0), t.of(2), 0)
		}
	}
	return true
}

// fold goes through a list from the left with an operation of two operands.
func (t *together[N]) fold(op ops.Op, list []N) N {
	acc := list[0]
	for _, n := range list[1:] {
		acc = t.apply(op, acc, n, 0)
	}
	return acc
}

func (t *together[N]) sum(list []N) N { return t.fold(ops.Add, list) }

// mean is the sum over the number of elements, and then corrected by the mean of what is
// left: the sum of many numbers that hardly differ has lost their last figures.
func (t *together[N]) mean(list []N) N {
	n := t.of(float64(len(list)))
	mean := t.apply(ops.Div, t.sum(list), n, 0)
	left := t.sum(t.from(list, mean))
	return t.apply(ops.Add, mean, t.apply(ops.Div, left, n, 0), 0)
}

// from is how far each element lies from a number.
func (t *together[N]) from(list []N, mean N) []N {
	out := make([]N, len(list))
	for i, x := range list {
		out[i] = t.apply(ops.Sub, x, mean, 0)
	}
	return out
}

// deviation is the standard deviation of n - 1 degrees of freedom, by the two-pass
// formula: √((Σd² − (Σd)²/n)/(n − 1)), of which the second sum is what rounding of the
// mean has left (T. F. Chan, G. H. Golub and R. J. LeVeque, The American Statistician 37,
// 1983, p. 242; from memory).
func (t *together[N]) deviation(list []N) N {
	d := t.from(list, t.mean(list))
	squares := make([]N, len(d))
	for i, x := range d {
		squares[i] = t.apply(ops.Pow, x, x, 2)
	}
	left := t.apply(ops.Div, t.apply(ops.Pow, t.sum(d), d[0], 2), t.of(float64(len(d))), 0)
	spread := t.apply(ops.Sub, t.sum(squares), left, 0)
	spread = t.apply(ops.Max, spread, t.of(0), 0) // never below 0 for rounding
	return t.apply(ops.Sqrt, t.apply(ops.Div, spread, t.of(float64(len(d)-1)), 0), spread, 0)
}

// Deviation is the standard deviation of two numbers or more, with n - 1 as the divisor.
func Deviation(list []float64) float64 {
	t := together[float64]{of: floats{}.of, apply: func(op ops.Op, a, b, k float64) float64 { return op.Value(a, b, k) }}
	return t.deviation(list)
}

// sorted is the list in rising order.
//
// Only the places are compared; what goes with them, a slope or a figure, comes along.
func (t *together[N]) sorted(list []N) ([]N, bool) {
	plain := make([]float64, len(list))
	for i, n := range list {
		var still bool
		if plain[i], still = t.still(n); !still {
			return t.ordered(list)
		}
	}
	order := make([]int, len(list))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(plain[i], plain[j]) })
	out := make([]N, len(list))
	for i, from := range order {
		out[i] = list[from]
	}
	return out, true
}

// ordered sorts what varies: each in its turn goes down past those that are greater.
//
// The smaller and the greater of two are operations of every domain, while comparing two
// intervals has no answer: so the order is made of those alone.
func (t *together[N]) ordered(list []N) ([]N, bool) {
	if len(list) > mostVarying {
		return nil, false
	}
	out := slices.Clone(list)
	for i := 1; i < len(out); i++ {
		for j := i; j > 0; j-- {
			a, b := out[j-1], out[j]
			out[j-1], out[j] = t.apply(ops.Min, a, b, 0), t.apply(ops.Max, a, b, 0)
		}
	}
	return out, true
}
