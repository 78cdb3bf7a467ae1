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
func (w *walker[N, D]) pieces(in *Instr, code *Code, fn *Func, i Slot, vals []N, causes []int32) (v N, cause int32) {
	var (
		p    straight
		each []N
	)
	places := true
	for k, s := range code.list(in) {
		if causes[s] != 0 {
			return w.d.of(0), causes[s]
		}
		own := code.span(s)
		at, still := w.still(code, s, vals)
		p.add(k, int32(len(each)), at)
		each, places = append(each, vals[own.first:own.first+own.width]...), places && (still || k == 0)
	}
	w.budget.Spend(w.steps * int64(len(p.y)))
	if !places {
		return w.unknown(fn, i)
	}
	h, _ := hold(w.d, each)
	out, bad := p.read(h, in.K == 1)
	if bad = cmp.Or(bad, h.why); bad != ops.NoFault {
		return w.d.of(0), w.fail(bad, fn, i)
	}
	return h.all[out], 0
}

// straight is the pieces between readings y at x, and the places that are asked for.
type straight struct {
	arithmetic
	y, x, ends []int32
	at, places []float64 // x and ends as plain numbers
	by         float64   // 1 where x rises from reading to reading, and -1 where it falls
}

// add adds what comes next, numbers from a place on: y, then x, then the ends.
func (p *straight) add(k int, from int32, at []float64) {
	own := span{from, int32(len(at))}
	switch k {
	case 0:
		p.y = own.columns()
	case 1:
		p.x, p.at = own.columns(), at
	default:
		p.ends, p.places = append(p.ends, from), append(p.places, at[0])
	}
}

// read is the slope or the area, unless the readings have none there.
func (p *straight) read(of arithmetic, slope bool) (int32, ops.Fault) {
	p.arithmetic = of
	if bad := p.whole(); bad != ops.NoFault {
		return 0, bad
	}
	if slope {
		return p.slopeAt(), ops.NoFault
	}
	return p.area(), ops.NoFault
}

// whole finds out which way the readings go, and whether the places are within them.
//
// Between readings a straight piece is a guess that a reader can check in a graph. Beyond the
// last there is nothing to go by, so that a place there is refused.
func (p *straight) whole() ops.Fault {
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
func (p *straight) slopeAt() int32 {
	i := p.cell(p.places[0])
	if i > 0 && p.at[i] == p.places[0] {
		return p.slope(i-1, i+1)
	}
	return p.slope(i, i+1)
}

// The pieces must be told apart by their x: whole has seen to that.
func (p *straight) slope(i, j int) int32 {
	return p.apply(ops.Div, p.apply(ops.Sub, p.y[j], p.y[i]), p.apply(ops.Sub, p.x[j], p.x[i]))
}

// apply is what an operation makes of two numbers, in a place of its own.
func (p *straight) apply(op ops.Op, a, b int32) int32 { return p.do(op, nowhere, a, b, 0) }

// area adds trapezoids up from one place to the other.
//
// The half of all trapezoids is taken once at the end: that costs one rounding and not one for
// each.
func (p *straight) area() int32 {
	from, to := 0, 1
	if p.by*(p.places[1]-p.places[0]) < 0 { // the other way than the readings
		from, to = 1, 0
	}
	first, last := p.cell(p.places[from]), p.cell(p.places[to])
	x, y := p.ends[from], p.height(first, p.ends[from])
	sum, wide, high := p.of(0), int32(nowhere), int32(nowhere)
	add := func(toX, toY int32) {
		wide, high = p.do(ops.Sub, wide, toX, x, 0), p.do(ops.Add, high, y, toY, 0)
		wide = p.do(ops.Mul, wide, wide, high, 0)
		sum, x, y = p.do(ops.Add, sum, sum, wide, 0), toX, toY
	}
	for i := first + 1; i <= last; i++ {
		add(p.x[i], p.y[i])
	}
	add(p.ends[to], p.height(last, p.ends[to]))
	if sum = p.apply(ops.Mul, sum, p.of(0.5)); from == 1 {
		sum = p.apply(ops.Neg, sum, sum)
	}
	return sum
}

// cell is the piece that a place is in, by the reading that it begins with.
//
// A place that is a reading begins its piece, but for the last, which ends one.
func (p *straight) cell(place float64) int {
	i := 0
	for i < len(p.at)-2 && p.by*(place-p.at[i+1]) >= 0 {
		i++
	}
	return i
}

// height is what a piece has at a place.
func (p *straight) height(i int, place int32) int32 {
	return p.apply(ops.Add, p.y[i], p.apply(ops.Mul, p.slope(i, i+1), p.apply(ops.Sub, place, p.x[i])))
}
