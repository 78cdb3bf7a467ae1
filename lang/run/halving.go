package run

import (
	"math"

	"steelyard/lang/ops"
)

// pieces are the pieces of a range that a search has still to look at. Those that wait
// longest come first, and so the widest: what can't be settled is narrow in the end.
type pieces []ops.Interval

// next takes the next piece out; false if there is none.
func (p *pieces) next() (x ops.Interval, some bool) {
	if len(*p) == 0 {
		return x, false
	}
	x, *p = (*p)[0], (*p)[1:]
	return x, true
}

// halve puts the halves of a piece behind the others; false if its ends are
// neighbouring numbers.
func (p *pieces) halve(x ops.Interval) bool {
	mid := middle(x)
	if mid <= x.Lo || mid >= x.Hi {
		return false
	}
	*p = append(*p, ops.Between(x.Lo, mid), ops.Between(mid, x.Hi))
	return true
}

// middle halves a piece: at 0, to which halving comes by chance alone, and by ratio
// where it spans many powers of ten.
func middle(x ops.Interval) float64 {
	if x.Lo < 0 && x.Hi > 0 {
		return 0
	}
	if x.Lo > 0 && x.Hi/x.Lo > 16 {
		return math.Sqrt(x.Lo) * math.Sqrt(x.Hi)
	}
	if x.Hi < 0 && x.Lo/x.Hi > 16 {
		return -math.Sqrt(-x.Lo) * math.Sqrt(-x.Hi)
	}
	return x.Lo + (x.Hi-x.Lo)/2
}
