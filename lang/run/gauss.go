package run

import (
	"math"

	"steelyard/lang/ops"
)

// gauss are the places on one side of the middle of a piece that reaches from -1 to
// 1, with their weights: M. Abramowitz and I. A. Stegun, Handbook of Mathematical
// Functions (1964), table 25.4 for n = 8. The sum is exact for every polynomial up to
// the power order - 1.
var gauss = [order / 4][2]float64{
	{0.183434642495649804939476142360, 0.362683783378361982965150449277},
	{0.525532409916328985817739049189, 0.313706645877887287337962201987},
	{0.796666477413626739591553936476, 0.222381034453374470544355994426},
	{0.960289856497536231683560868569, 0.101228536290376259152531354310},
}

const (
	// gaussRest is what is left out of a piece of the width h: gaussRest·c·h^(order+1),
	// where c is a coefficient order of the Taylor series over it (formula 25.4.30):
	// (8!)⁴/(17·(16!)²).
	gaussRest = 3.5514e-10
	// gaussAim is how small that is to be made, as a part of the greatest value times
	// the width, and gaussParts is in how many parts at most a piece is taken for it.
	gaussAim   = 1e-14
	gaussParts = 64
	// shifts is by how much rounding a place may change a value, as a part of the
	// greatest, before it is mended.
	shifts = 1e-13
)

// summed is the area over a piece by a sum over its points.
type summed struct {
	sum, size float64 // of the curve, and of the curve's size, roughly
	// rest is what the sum may leave out, which halving makes smaller, and rounding what
	// it does not.
	rest, rounding float64
}

// summed sums a piece; false where the curve is not known to be smooth, or bends too
// much for few parts to do. V is the enclosure of the values.
func (s *survey) summed(lo, hi float64, v ops.Interval) (out summed, ok bool) {
	s.powers[0] = alongMiddle(ops.Between(lo, hi))
	over, known := s.series.at(s.fn, s.powers)
	if !known || over.lost {
		return out, false
	}
	wide, most, c := hi-lo, max(-v.Lo, v.Hi), over.at(order)
	steep := max(-c.Lo, c.Hi) * gaussRest
	parts := math.Ceil(math.Pow(steep/most/gaussAim, 1.0/order) * wide)
	if parts = max(parts, 1); !(parts <= gaussParts) {
		return out, false
	}
	h := wide / parts
	out.rest = steep * wide * math.Pow(h, order)
	value := s.value
	if d := over.at(1); max(-d.Lo, d.Hi)*max(math.Abs(lo), math.Abs(hi))*exact > shifts*most {
		value = s.shifted
	}
	for i := range int(parts) {
		mid := float64((float64(i) + 0.5) * h)
		for _, g := range gauss {
			off, weight := float64(g[0]*h/2), float64(g[1]*h/2)
			a, ok1 := value(lo, mid-off)
			b, ok2 := value(lo, mid+off)
			if !ok1 || !ok2 {
				return out, false
			}
			out.sum += float64(weight * (a + b))
			out.size += float64(weight * (math.Abs(a) + math.Abs(b)))
		}
	}
	// What rounding may make of a value is seen at three places.
	for _, x := range [3]float64{lo, lo + wide/2, hi} {
		s.over[0] = enclosed{v: ops.Point(x), d: ops.Point(1)}
		if n, some := s.ranges.at(s.fn, s.over); some {
			out.rounding = max(out.rounding, n.v.Radius())
		}
	}
	out.rounding = wide * (2*out.rounding + 8*exact*most)
	return out, true
}

// about is an interval round a number.
func about(v, by float64) ops.Interval { return ops.Between(v-by, v+by) }

// value is the curve at a distance from a place.
func (s *survey) value(x, off float64) (float64, bool) {
	s.at[0] = x + off
	return s.floats.at(s.fn, s.at)
}

// shifted is value where the curve is so steep that it matters that the sum of place
// and distance is rounded.
func (s *survey) shifted(x, off float64) (float64, bool) {
	at := x + off
	v, slope, ok := s.floats.slope(s.fn, at, s.at[1:]...)
	return v + float64(slope*((x-at)+off)), ok
}
