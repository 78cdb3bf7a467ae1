package run

import (
	"math"

	"steelyard/lang/ops"
)

// dual is a value with its slope: the rules of differentiation run beside the
// arithmetic.
type dual struct{ v, d float64 }

// duals is the domain of values with slopes.
type duals struct{}

func (duals) of(v float64) dual { return dual{v, 0} }

func (duals) load(_ Slot, _ int32, v float64) dual { return dual{v, 0} }

func (duals) apply(op ops.Op, a, b dual, k float64) (dual, ops.Fault) {
	v, fault := floats{}.apply(op, a.v, b.v, k)
	if fault != ops.NoFault || a.d == 0 && b.d == 0 {
		return dual{v, 0}, fault
	}
	if op.Bends(a.v, b.v) {
		if a.d != b.d {
			return dual{v, math.NaN()}, fault // a corner
		}
		return dual{v, a.d}, fault
	}
	da, db := op.Slopes(a.v, b.v, k)
	return dual{v, chain(a.d, da) + chain(b.d, db)}, fault
}

// chain multiplies a slope by that of an outer function; what does not vary has
// no slope, wherever the outer function has one.
func chain(d, outer float64) float64 {
	if d == 0 {
		return 0
	}
	return float64(d * outer)
}

func (duals) branch(condition dual) (yes, no bool) { return floats{}.branch(condition.v) }

func (duals) either(a, _ dual) dual { return a }

func (duals) still(n dual) (float64, bool) { return n.v, n.d == 0 }

func (d duals) slopeOf([]dual, func([]dual) (dual, bool)) (dual, ops.Fault) { return d.unknown() }

// unknown: the slope of a slope or an area is not worked out.
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
	own := newWalker[dual](w.p, w.st, w.depth, duals{})
	given := make([]dual, 1, 1+len(still))
	given[0] = dual{x, 1}
	for _, v := range still {
		given = append(given, dual{v, 0})
	}
	out, ok := own.at(fn, given)
	return out.v, out.d, ok && out.v-out.v == 0 && out.d-out.d == 0
}
