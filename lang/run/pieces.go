package run

import (
	"cmp"

	"steelyard/lang/ops"
)

// pieces is a slope of readings at a place, or the area under them between two: neighbours
// have a straight piece between them. Where the readings are, and the places, must be known;
// what is read there is a number of any domain.
//
// A slope of readings is a difference of readings, and the area one sum: both are made of the
// operations of the domain, so that uncertainties and figures of the readings come through as
// in any line.
func (w *walker[N, D]) pieces(in *Instr, code *Code, fn *Func, i Slot, vals []N, causes []int32) (N, int32) {
	fault := ops.NoFault
	p := straight[N]{none: w.d.of(0), half: w.d.of(0.5), apply: func(op ops.Op, a, b N) N {
		v, bad := w.d.apply(op, a, b, 0)
		fault = cmp.Or(fault, bad)
		return v
	}}
	still := true
	for k, s := range code.list(in) {
		if causes[s] != 0 {
			return p.none, causes[s]
		}
		own := code.span(s)
		all := vals[own.first : own.first+own.width]
		at := make([]float64, len(all))
		for e, n := range all {
			if k > 0 {
				v, known := w.d.still(n)
				at[e], still = v, still && known
			}
		}
		switch k {
		case 0:
			p.y = all
		case 1:
			p.x, p.at = all, at
		default:
			p.ends, p.places = append(p.ends, all[0]), append(p.places, at[0])
		}
	}
	w.budget.Spend(w.steps * int64(len(p.y)))
	v, bad := p.none, p.whole()
	switch {
	case !still:
		v, bad = w.d.unknown()
	case bad != ops.NoFault:
	case in.K == 1:
		v = p.slopeAt()
	default:
		v = p.area()
	}
	if bad = cmp.Or(bad, fault); bad != ops.NoFault {
		return v, w.fail(bad, fn, i)
	}
	return v, 0
}

// straight is the pieces between readings y at places x, and the places that are asked for.
type straight[N any] struct {
	apply      func(op ops.Op, a, b N) N
	none, half N // 0 and 1/2
	y, x, ends []N
	at, places []float64 // x and ends as plain numbers
	by         float64   // 1 where the places rise from reading to reading, and -1 where they fall
}

// whole finds out which way the readings go, and whether the places are within them.
//
// Between readings a straight piece is a guess that a reader can check in a graph. Beyond the
// last there is nothing to go by, so that a place there is refused.
func (p *straight[N]) whole() ops.Fault {
	n := len(p.at)
	if n < 2 || len(p.y) != n {
		return ops.BackAndForth
	}
	if p.by = 1; p.at[1] < p.at[0] {
		p.by = -1
	}
	for i := 1; i < n; i++ {
		if p.by*(p.at[i]-p.at[i-1]) <= 0 {
			return ops.BackAndForth
		}
	}
	for _, at := range p.places {
		if p.by*(at-p.at[0]) < 0 || p.by*(at-p.at[n-1]) > 0 {
			return ops.BeyondReadings
		}
	}
	return ops.NoFault
}

// slopeAt is that of the straight piece at a place; at a reading, of the line between its
// neighbours on both sides, if it has two.
//
// At a reading the curve has a corner: the line between both neighbours is what one draws as
// the tangent.
func (p *straight[N]) slopeAt() N {
	i := p.cell(p.places[0])
	if i > 0 && p.at[i] == p.places[0] {
		return p.slope(i-1, i+1)
	}
	return p.slope(i, i+1)
}

// The pieces must be told apart by their x: whole has seen to that.
func (p *straight[N]) slope(i, j int) N {
	return p.apply(ops.Div, p.apply(ops.Sub, p.y[j], p.y[i]), p.apply(ops.Sub, p.x[j], p.x[i]))
}

// area adds trapezoids up from one place to the other.
//
// The half of all trapezoids is taken once at the end: that costs one rounding and not one for
// each.
func (p *straight[N]) area() N {
	from, to := 0, 1
	if p.by*(p.places[1]-p.places[0]) < 0 { // the other way than the readings
		from, to = 1, 0
	}
	first, last := p.cell(p.places[from]), p.cell(p.places[to])
	x, y := p.ends[from], p.height(first, p.ends[from])
	sum := p.none
	add := func(toX, toY N) {
		trapezoid := p.apply(ops.Mul, p.apply(ops.Sub, toX, x), p.apply(ops.Add, y, toY))
		sum, x, y = p.apply(ops.Add, sum, trapezoid), toX, toY
	}
	for i := first + 1; i <= last; i++ {
		add(p.x[i], p.y[i])
	}
	add(p.ends[to], p.height(last, p.ends[to]))
	if sum = p.apply(ops.Mul, sum, p.half); from == 1 {
		sum = p.apply(ops.Neg, sum, sum)
	}
	return sum
}

// cell is the piece that a place is in, by the reading that it begins with.
//
// A place that is a reading begins its piece, but for the last, which ends one.
func (p *straight[N]) cell(place float64) int {
	i := 0
	for i < len(p.at)-2 && p.by*(place-p.at[i+1]) >= 0 {
		i++
	}
	return i
}

// height is what a piece has at a place.
func (p *straight[N]) height(i int, place N) N {
	return p.apply(ops.Add, p.y[i], p.apply(ops.Mul, p.slope(i, i+1), p.apply(ops.Sub, place, p.x[i])))
}
