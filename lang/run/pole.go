package run

import (
	"math"

	"steelyard/lang/ops"
)

const (
	// tailWidth is how narrow a piece without bounds is, as a part of the range,
	// before the area over it is judged from what is beside it.
	tailWidth = 0x1p-33
	// tailSteps is how many pieces beside it are looked at, each twice as wide as
	// the one before, and tailParts the parts that each is taken in.
	tailSteps = 6
	tailParts = 4
	// tailEnds is how much smaller the area over the next piece nearer to a pole
	// must be for their sum to end, tailGoes on how much for it to have none: of
	// 1/x^0.999 it is 0.9993.
	tailEnds = 0.95
	tailGoes = 0.9999
)

// judged is a piece; where it is narrow and the curve has no bound on it, as 1/√x
// by 0, with the area judged from what is beside it: the areas over pieces each
// half as far away as the one before go down like a geometric series.
func (s *survey) judged(lo, hi float64) piece {
	p := s.piece(lo, hi)
	if !math.IsInf(p.doubt, 1) || hi-lo > tailWidth*(s.hi-s.lo) {
		return p
	}
	p.done = true
	pole := s.pole(p)
	sum, doubt := 0.0, 0.0
	for _, d := range [2]float64{lo - pole, hi - pole} {
		if d == 0 {
			continue
		}
		t, ok := s.beside(pole, d)
		if !ok {
			return p
		}
		if t.ratio > tailGoes && t.drift < 0.01 {
			s.fault = ops.Unbounded
		}
		if !(t.ratio < tailEnds) {
			return p
		}
		part := t.nearest * t.ratio / (1 - t.ratio)
		sum += part
		doubt += math.Abs(part) * t.drift / (1 - t.ratio)
	}
	p.sum, p.doubt = ops.Between(sum-doubt, sum+doubt), doubt
	return p
}

// pole finds the place in a piece at which the curve has no bound; an end of the
// piece where it is as good as there.
func (s *survey) pole(p piece) float64 {
	a, b := p.lo, p.hi
	fault := s.fault
	defer func() { s.fault = fault }() // the place itself, which may have no value, is no part of the range
	for {
		mid := a + (b-a)/2
		if mid <= a || mid >= b {
			break
		}
		if left := s.piece(a, mid); math.IsInf(left.doubt, 1) {
			b = mid
		} else {
			a = mid
		}
	}
	near := max(1e-6*(p.hi-p.lo), 32*exact*max(math.Abs(p.lo), math.Abs(p.hi)))
	switch {
	case a-p.lo < near:
		return p.lo
	case p.hi-b < near:
		return p.hi
	}
	return a
}

// beside is how the areas go on by the side of a pole: what the nearest is, how
// much smaller each is than the next one farther away, and by how much that
// changes from one to the next, or is in doubt, as a part of it.
type beside struct{ nearest, ratio, drift float64 }

// beside looks at the pieces from a distance on one side of a pole to twice that,
// and so on.
//
// Over 1/x^p each is 2^(1-p) of the next: below p = 1 they add up to an end, from there on
// they do not. What has another law of growth, as 1/(x·ln²x), drifts, and is left open.
func (s *survey) beside(pole, d float64) (out beside, ok bool) {
	var before, ratio float64
	for i := range tailSteps {
		area, doubt := 0.0, 0.0
		for k := range tailParts {
			a, b := pole+d*(1+float64(k)/tailParts), pole+d*(1+float64(k+1)/tailParts)
			p := s.piece(min(a, b), max(a, b))
			area, doubt = area+p.sum.Middle(), doubt+p.doubt
		}
		if area == 0 || pole+2*d < s.lo || pole+2*d > s.hi {
			return out, false
		}
		d *= 2
		if i == 0 {
			out.nearest = area
		} else {
			if ratio = before / area; i == 1 {
				out.ratio = ratio
			}
			out.drift = max(out.drift, math.Abs(ratio/out.ratio-1))
		}
		before = area
		out.drift = max(out.drift, doubt/math.Abs(area))
	}
	return out, true
}
