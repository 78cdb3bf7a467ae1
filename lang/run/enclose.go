package run

import (
	"cmp"
	"math"
	"slices"

	"steelyard/lang/ops"
)

// enclosed is what is known of a slot over an interval of the unknown: the
// values and the slopes.
type enclosed struct {
	v, d ops.Interval
	// gap is a part of v without values, its ends apart, where the function jumps
	// or leads through a pole; its ends are equal where none is known.
	gap ops.Interval
	// partly: some numbers of the interval have no value, or the value jumps or
	// has no bounded slope, so that nothing follows from the slopes.
	partly bool
}

// intervals is the domain of enclosures. A slot that no number of the interval
// has a value for has a cause. It holds by how great a part of itself a number
// that does not vary may be off.
//
// Every operation gives an interval that holds all the values it can have (R. E. Moore, Interval
// Analysis, 1966; from memory): that of an expression is never too narrow, and may be too wide
// where a name stands in it twice, as x - x does.
type intervals struct{ given float64 }

type intervalWalker struct {
	walker[enclosed, intervals]
	// lifts are places at which a pole of the function liftsOf is lifted.
	lifts   []lifted
	liftsOf int
}

// A number that was written in decimals is not quite the one that is held, so that it may be
// widened.
func (d intervals) of(v float64) enclosed {
	by := d.given * math.Abs(v)
	return enclosed{v: ops.Between(v-by, v+by), d: ops.Point(0)}
}

func (d intervals) constant(in *Instr) enclosed { return d.of(in.K) }

func (d intervals) load(_ Slot, _ int32, v float64) enclosed { return d.of(v) }

// Slopes are enclosed by the chain rule. An operand that does not vary is left out of it, as 0
// times a slope without bounds would be anything.
func (intervals) apply(op ops.Op, a, b enclosed, k float64) (enclosed, ops.Fault) {
	v, extent := op.Over(a.v, b.v, k)
	out := enclosed{v: v, d: ops.Point(0), partly: a.partly || b.partly || extent == ops.Partly}
	if extent == ops.None {
		return out, ops.NoReal
	}
	if out.partly {
		out.part(op, &a, &b, k)
	}
	zero := ops.Point(0)
	if a.d == zero && b.d == zero {
		return out, ops.NoFault
	}
	da, db := op.SlopesOver(a.v, b.v, k)
	switch {
	case b.d == zero:
		out.d = da.Mul(a.d)
	case a.d == zero:
		out.d = db.Mul(b.d)
	default:
		out.d = da.Mul(a.d).Add(db.Mul(b.d))
	}
	return out, ops.NoFault
}

// Over an interval both branches may be taken, by some numbers the one and by some the other.
func (intervals) branch(condition enclosed) (yes, no bool) {
	return condition.v.Hi >= 1, condition.v.Lo < 1
}

// Where the function jumps from one to the other, nothing follows from slopes.
func (intervals) either(_, a, b enclosed) enclosed {
	return enclosed{v: a.v.Hull(b.v), d: a.d.Hull(b.d), gap: widestGap(append(a.parts(), b.parts()...)), partly: true}
}

// parts are the one or two intervals that the values lie in.
func (e *enclosed) parts() []ops.Interval {
	if e.parted() {
		return []ops.Interval{ops.Between(e.v.Lo, e.gap.Lo), ops.Between(e.gap.Hi, e.v.Hi)}
	}
	return []ops.Interval{e.v}
}

// parted tells whether there is a gap in the values.
func (e *enclosed) parted() bool { return e.gap.Lo < e.gap.Hi }

// rounded is by how great a part of what lies between them values on both sides of a
// jump may be off, since numbers written in decimals are rounded.
const rounded = 1e-12

// holdsZero tells whether some value may be 0.
func (e *enclosed) holdsZero() bool {
	room := 0.0
	if w := width(e.v); e.partly && w-w == 0 {
		room = rounded * w
	}
	if !e.parted() {
		return e.v.Lo <= room && -room <= e.v.Hi
	}
	return e.v.Lo <= room && -room <= e.gap.Lo || e.gap.Hi <= room && -room <= e.v.Hi
}

// part finds the gap that an operation leaves: its own, or what becomes of those of its
// operands, and no values but those that the parts of these lead to.
func (e *enclosed) part(op ops.Op, a, b *enclosed, k float64) {
	if lower, upper, ok := op.Apart(a.v, b.v, k); ok {
		e.gap = ops.Between(lower.Hi, upper.Lo)
		return
	}
	if !a.parted() && !b.parted() {
		return
	}
	var all []ops.Interval
	for _, x := range a.parts() {
		for _, y := range b.parts() {
			if v, extent := op.Over(x, y, k); extent != ops.None {
				all = append(all, v)
			}
		}
	}
	if len(all) > 0 {
		e.v = all[0]
		for _, x := range all[1:] {
			e.v = e.v.Hull(x)
		}
		e.gap = widestGap(all)
	}
}

// widestGap is the widest between some intervals.
func widestGap(all []ops.Interval) (gap ops.Interval) {
	slices.SortFunc(all, func(a, b ops.Interval) int { return cmp.Compare(a.Lo, b.Lo) })
	end := all[0].Hi
	for _, x := range all[1:] {
		if x.Lo-end > gap.Hi-gap.Lo {
			gap = ops.Between(end, x.Lo)
		}
		end = max(end, x.Hi)
	}
	return gap
}

func (intervals) still(n enclosed) (float64, bool) {
	return n.v.Lo, n.v.IsPoint() && n.d == ops.Point(0) && !n.partly
}

// slopeOf changes by the second derivative, where nothing but the place varies.
func (intervals) slopeOf(x []enclosed, of curve[enclosed]) (enclosed, ops.Fault) {
	given, all := []enclosed{{v: x[0].v, d: ops.Point(1), partly: x[0].partly}}, []*series{along(x[0].v)}
	alone := true
	for _, n := range x[1:] {
		alone = alone && n.d == ops.Point(0)
		given, all = append(given, enclosed{v: n.v, d: ops.Point(0), partly: n.partly}), append(all, fixed(n.v))
	}
	y, ok := of.at(given...)
	if !ok {
		return y, ops.NoReal
	}
	out := enclosed{v: y.d, d: ops.Everything(), partly: y.partly}
	if s, ok := of.series(all...); ok && alone {
		out.d = s.at(2).Mul(ops.Point(2)).Mul(x[0].d)
	}
	return out, ops.NoFault
}

// areaOf changes at its ends, by the curve there.
func (intervals) areaOf(from, to enclosed, rest []enclosed, still []float64, of curve[enclosed]) (enclosed, ops.Fault) {
	a, ok1 := of.at(append([]enclosed{{v: from.v, d: ops.Point(0)}}, rest...)...)
	b, ok2 := of.at(append([]enclosed{{v: to.v, d: ops.Point(0)}}, rest...)...)
	switch { // an end that does not move needs no value: the curve may begin behind it
	case !ok1 && from.v.IsPoint() && ok2:
		a, ok1 = enclosed{v: ops.Point(0), d: ops.Point(0)}, true
	case !ok2 && to.v.IsPoint() && ok1:
		b, ok2 = enclosed{v: ops.Point(0), d: ops.Point(0)}, true
	}
	if !ok1 || !ok2 {
		return a, ops.NoReal // the curve does not reach that far
	}
	return enclosed{v: between(from.v, to.v, a.v, b.v, still, of.area), d: b.v.Mul(to.d).Sub(a.v.Mul(from.d)),
		partly: a.partly || b.partly || from.partly || to.partly}, ops.NoFault
}

func (intervals) unknown() (enclosed, ops.Fault) {
	return enclosed{v: ops.Everything(), d: ops.Everything(), partly: true}, ops.NoFault
}

func (intervals) steps() int64 { return 10 }

// intervals returns a walker that runs functions of a program over intervals.
func (p *Program) intervals(st *State) *intervalWalker {
	return &intervalWalker{walker: newWalker[enclosed](p, st, 0, intervals{})}
}
