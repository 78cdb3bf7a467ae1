package run

import (
	"math"

	"steelyard/lang/ops"
)

// dual is a value with its slope: the rules of differentiation run beside the
// arithmetic. One that does not vary is still, which is more than to have no slope at
// a place.
type dual struct {
	v, d  float64
	still bool
}

// duals is the domain of values with slopes.
type duals struct{}

func (duals) of(v float64) dual { return dual{v, 0, true} }

func (d duals) constant(in *Instr) dual { return d.of(in.K) }

func (d duals) load(_ Slot, _ int32, v float64) dual { return d.of(v) }

// At a corner both sides have slopes of their own, and none is taken; where both operands have
// the same slope there is no corner after all.
func (d duals) apply(op ops.Op, a, b dual, k float64) (dual, ops.Fault) {
	v, fault := floats{}.apply(op, a.v, b.v, k)
	if op.Operands() < 2 {
		b = d.of(0)
	}
	if fault != ops.NoFault || a.still && b.still {
		return d.of(v), fault
	}
	if op.Bends(a.v, b.v) && a.d != b.d {
		return dual{v: v, d: math.NaN()}, fault // a corner
	} else if op.Bends(a.v, b.v) {
		return dual{v: v, d: a.d}, fault
	}
	da, db := op.Slopes(a.v, b.v, k)
	return dual{v: v, d: a.chain(da) + b.chain(db)}, fault
}

// chain multiplies a slope by that of an outer function. What does not vary has no
// slope, wherever the outer function has one; for what only rests at the place, as x³
// at 0 within a root, 0 times infinity is not known.
func (n dual) chain(outer float64) float64 {
	if n.still {
		return 0
	}
	return float64(n.d * outer)
}

func (duals) branch(condition dual) (yes, no bool) { return floats{}.branch(condition.v) }

func (duals) either(_, a, _ dual) dual { return a }

func (duals) still(n dual) (float64, bool) { return n.v, n.still }

// slopeOf: the slope of a slope is not worked out.
func (d duals) slopeOf([]dual, curve[dual]) (dual, ops.Fault) { return d.unknown() }

// areaOf changes at its ends, by the curve there.
func (duals) areaOf(from, to dual, rest []dual, still []float64, of curve[dual]) (dual, ops.Fault) {
	t, fault := of.area(from.v, to.v, still)
	out := dual{v: t.value()}
	for _, end := range [2]dual{{v: from.v, d: -from.d}, to} {
		if end.d == 0 {
			continue
		}
		y, ok := of.at(append([]dual{{v: end.v, still: true}}, rest...)...)
		if !ok {
			return out, ops.NoSlope
		}
		out.d += float64(end.d * y.v)
	}
	return out, fault
}

func (duals) unknown() (dual, ops.Fault) { return dual{}, ops.NoSlope }

func (duals) steps() int64 { return 2 }

// Slope is the exact derivative of a function of one number. It returns false
// if the function has no value, or no slope, there.
func (p *Program) Slope(st *State, fn int, x float64) (value, slope float64, ok bool) {
	return p.floats(st).slope(fn, x)
}

// slope is the slope of a function by the first of its arguments; the others do
// not vary.
func (w *floatWalker) slope(fn int, x float64, still ...float64) (value, slope float64, ok bool) {
	if w.duals == nil {
		own := newWalker[dual](w.p, w.st, w.depth, duals{})
		w.duals = &own
	}
	own := w.duals
	own.budget, own.depth = w.budget, w.depth
	given := make([]dual, 1, 1+len(still))
	given[0] = dual{v: x, d: 1}
	for _, v := range still {
		given = append(given, own.d.of(v))
	}
	out, ok := own.at(fn, given)
	return out.v, out.d, ok && out.v-out.v == 0 && out.d-out.d == 0
}
