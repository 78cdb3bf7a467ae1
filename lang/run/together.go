package run

import (
	"cmp"
	"slices"

	"steelyard/lang/ops"
)

// together works out what puts the elements of a list together, in any domain: of
// sums, products, and the smaller and greater of two. With plain numbers a list is
// sorted at once.
type together struct{ arithmetic }

// mostVarying is how many elements that vary are put in order: each is compared with
// every other.
const mostVarying = 1 << 10

// put fills out with what an operation makes of the elements of a list, of which there
// is at least one; false where they vary and are too many to be put in order.
//
// Pick takes one column of a list, Tally its length, and Scatter is 0: what that is uncertain
// by is known elsewhere (readings.go).
func (t together) put(op ops.Op, k float64, list, out []int32) bool {
	switch op {
	case ops.Pick:
		copy(out, picked(list, len(out), k))
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
			out[i] = t.do(ops.Sub, nowhere, list[i+1], list[i], 0)
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
			out[0] = t.do(ops.Div, nowhere, t.do(ops.Add, nowhere, sorted[n/2-1], out[0], 0), t.of(2), 0)
		}
	}
	return true
}

// fold goes through a list from the left with an operation of two operands.
func (t together) fold(op ops.Op, list []int32) int32 {
	acc, into := list[0], int32(nowhere)
	for _, n := range list[1:] {
		acc = t.do(op, into, acc, n, 0)
		into = acc
	}
	return acc
}

// picked are n elements of a list, the k-th of such.
func picked[T any](list []T, n int, k float64) []T {
	from := min(int(k)*n, len(list)-n)
	return list[from : from+n]
}

func (t together) sum(list []int32) int32 { return t.fold(ops.Add, list) }

// mean is the sum over the number of elements, and then corrected by the mean of what is
// left: the sum of many numbers that hardly differ has lost their last figures.
func (t together) mean(list []int32) int32 {
	n := t.of(float64(len(list)))
	mean := t.do(ops.Div, nowhere, t.sum(list), n, 0)
	left := t.sum(t.from(list, mean))
	return t.do(ops.Add, nowhere, mean, t.do(ops.Div, nowhere, left, n, 0), 0)
}

// from is how far each element lies from a number.
func (t together) from(list []int32, mean int32) []int32 {
	out := make([]int32, len(list))
	for i, x := range list {
		out[i] = t.do(ops.Sub, nowhere, x, mean, 0)
	}
	return out
}

// deviation is the standard deviation of n - 1 degrees of freedom, by the two-pass
// formula: √((Σd² − (Σd)²/n)/(n − 1)), of which the second sum is what rounding of the
// mean has left (T. F. Chan, G. H. Golub and R. J. LeVeque, The American Statistician 37,
// 1983, p. 242; from memory).
func (t together) deviation(list []int32) int32 {
	d := t.from(list, t.mean(list))
	squares := make([]int32, len(d))
	for i, x := range d {
		squares[i] = t.do(ops.Pow, nowhere, x, x, 2)
	}
	left := t.do(ops.Div, nowhere, t.do(ops.Pow, nowhere, t.sum(d), d[0], 2), t.of(float64(len(d))), 0)
	spread := t.do(ops.Sub, nowhere, t.sum(squares), left, 0)
	spread = t.do(ops.Max, nowhere, spread, t.of(0), 0) // never below 0 for rounding
	return t.do(ops.Sqrt, nowhere, t.do(ops.Div, nowhere, spread, t.of(float64(len(d)-1)), 0), spread, 0)
}

// Deviation is the standard deviation of two numbers or more, with n - 1 as the divisor.
func Deviation(x []float64) float64 {
	h, list := hold(floats{}, x)
	return h.all[together{h}.deviation(list)]
}

// MeanOfNumbers is the mean of some numbers.
func MeanOfNumbers(x []float64) float64 {
	h, list := hold(floats{}, x)
	return h.all[together{h}.mean(list)]
}

// sorted is the list in rising order.
//
// Only the places are compared; what goes with them, a slope or a figure, comes along.
func (t together) sorted(list []int32) ([]int32, bool) {
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
	out := make([]int32, len(list))
	for i, from := range order {
		out[i] = list[from]
	}
	return out, true
}

// ordered sorts what varies: each in its turn goes down past those that are greater.
//
// The smaller and the greater of two are operations of every domain, while comparing two
// intervals has no answer: so the order is made of those alone.
func (t together) ordered(list []int32) ([]int32, bool) {
	if len(list) > mostVarying {
		return nil, false
	}
	out, free := slices.Clone(list), int32(nowhere)
	for i := 1; i < len(out); i++ {
		for j := i; j > 0; j-- {
			a, b := out[j-1], out[j]
			out[j-1] = t.do(ops.Min, free, a, b, 0)
			out[j], free = t.do(ops.Max, a, a, b, 0), b
		}
	}
	return out, true
}
