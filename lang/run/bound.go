package run

import (
	"math"

	"steelyard/lang/ops"
)

// exact is the error of a number that was rounded once, as a part of it.
const exact = 0x1p-53

// lostAngle is the error of an angle, in rad, beyond which its sine is not known: a
// sine that could be any number is not shown as 0.
const lostAngle = 1e-3 * 2 * math.Pi

// fewRoundings is the error of a place that a search comes to, as a part of it.
const fewRoundings = 16 * exact

// bounded is a value with a bound of its error: how far rounding, and what its
// operands are off by, can have moved it. To first order, as errors are small.
type bounded struct{ v, e float64 }

// zero tells that a number is 0 but for its error: the one rule by which a number
// is 0. An error without a bound says nothing of the number.
func (n bounded) zero() bool { return n.e-n.e == 0 && math.Abs(n.v) <= n.e }

// settled is the value, or 0 where it is 0 but for its error.
func (n bounded) settled() float64 {
	if n.zero() {
		return 0
	}
	return n.v
}

// bounds is the domain of values with a bound of their error. It holds by how
// great a part of itself a number that does not vary may be off, and what is
// known of the main code. Where strict is not nil, it goes by one branch of a selection alone,
// and notes a place that is the bound of a strict condition, as 3 is of x < 3.
type bounds struct {
	given  float64
	main   *mainBounds
	strict *bool
}

type boundWalker struct{ walker[bounded, bounds] }

func (d bounds) of(v float64) bounded { return bounded{v, d.given * math.Abs(v)} }

func (d bounds) constant(in *Instr) bounded { return d.of(in.K) }

// load is a slot of the main code, which may be off by more than one rounding.
func (d bounds) load(s Slot, i int32, v float64) bounded {
	n := d.of(v)
	n.e = max(n.e, d.main.load(s, i, v).e)
	return n
}

// The error of a result is what its operands are off by, each times the slope there, and what
// the operation itself rounds (Off). It is a bound and not a likely size: parts are added as
// they are.
//
// A strict condition is 0 or 1 on both sides of its bound, so that the comparison alone shows
// that a place is one.
func (d bounds) apply(op ops.Op, a, b bounded, k float64) (bounded, ops.Fault) {
	if d.strict != nil && op == ops.Less && a.v == b.v {
		*d.strict = true
	}
	d.main.residue = d.main.residue || a.v != 0 && a.zero() || b.v != 0 && b.zero()
	if inverse, ok := op.Inverse(); ok && inverse.Turns && a.e > lostAngle {
		return bounded{}, ops.LostAngle
	}
	switch {
	case op == ops.Div && b.e > 0 && b.zero(), op == ops.Tan && a.atPole():
		return bounded{}, ops.DivZero
	case op == ops.PowVar && a.e > 0 && a.zero() && b.e > 0 && b.zero():
		// 0 to the power 0 is 1; close to it any number may be.
		return bounded{1, math.Inf(1)}, ops.NoFault
	case op == ops.PowVar && b.v == math.Trunc(b.v) && b.e <= 2*exact*math.Abs(b.v):
		// A whole exponent is exact, and a negative number has such a power.
		op, k, b = ops.Pow, b.v, bounded{}
	case op == ops.Round && b.e <= 2*exact*math.Abs(b.v):
		b.e = 0 // a written step is meant as it is
	}
	v, fault := floats{}.apply(op, a.v, b.v, k)
	off := op.Off(b.v, k, v)
	if fault == ops.NoFault {
		da, db := op.Slopes(a.v, b.v, k)
		moved := math.Abs(chain(a.e, da)) + math.Abs(chain(b.e, db))
		if e := off + moved; e-e == 0 && (moved > 0 || a.e == 0 && b.e == 0) {
			return bounded{v, e}, fault
		}
	}
	// Where the slope says nothing, as at the end of what a root takes, the
	// enclosure does.
	over, extent := op.Over(a.reach(), b.reach(), k)
	edge, ok := op.Edge(a.v)
	switch {
	case fault == ops.NoFault:
		return bounded{v, max(v-over.Lo, over.Hi-v, off)}, fault
	case extent == ops.None || !ok:
		return bounded{v, 0}, fault
	}
	v = op.Value(edge, b.v, k)
	return bounded{v, max(v-over.Lo, over.Hi-v)}, ops.NoFault
}

// atPole tells whether an angle is one of those without a tangent but for its error,
// or for a few roundings if that is more.
func (n bounded) atPole() bool {
	return min(n.e, fewRoundings*math.Abs(n.v))*math.Abs(ops.Tangent(n.v)) >= 1
}

// chain multiplies an error by the slope of an outer function; what is exact stays so,
// wherever the outer function has a slope.
func chain(e, outer float64) float64 {
	if e == 0 {
		return 0
	}
	return float64(e * outer)
}

// reach is the interval that the true value lies in.
func (n bounded) reach() ops.Interval { return ops.Between(n.v-n.e, n.v+n.e) }

// Where the condition itself may be off, both branches are taken.
func (d bounds) branch(condition bounded) (yes, no bool) {
	if d.strict != nil {
		return condition.v == 1, condition.v != 1
	}
	return condition.v+condition.e >= 1, condition.v-condition.e < 1
}

// The value is that of the branch that is taken. Where the other one is another value, and not
// only off by as much, it is a jump: how far that goes says nothing of the value.
func (bounds) either(condition, a, b bounded) bounded {
	if condition.v < 1 {
		a, b = b, a
	}
	if math.Abs(a.v-b.v) > a.e+b.e {
		return bounded{a.v, math.Inf(1)}
	}
	h := a.reach().Hull(b.reach())
	return bounded{a.v, max(a.v-h.Lo, h.Hi-a.v)}
}

func (bounds) still(n bounded) (float64, bool) { return n.v, true }

// betweenEnds are the places at which a curve is asked how far its values may be off, as
// parts of the range of an area.
var betweenEnds = [...]float64{0.07, 0.5, 0.93}

// found is off by as much as the slope moves where its place, and what else the curve takes,
// may lie; an area by what its ends cut off, and by what the curve may be off between them. A
// curve that bends where the place may lie tells nothing.
func (d bounds) found(op ops.Op, v, doubt float64, x []bounded, of curve[bounded]) bounded {
	n := d.of(v)
	if op == ops.Slope {
		given := []*series{along(x[0].reach())}
		for _, a := range x[1:] {
			given = append(given, fixed(a.reach()))
		}
		if s, ok := of.series(given...); ok && !s.lost && width(s.at(1)) < math.Inf(1) {
			n.e += max(v-s.at(1).Lo, s.at(1).Hi-v)
		}
		return n
	}
	from, to, rest := x[0], x[1], x[2:]
	at := func(place float64) bounded {
		y, _ := of.at(append([]bounded{{place, 0}}, rest...)...)
		return y
	}
	off := 0.0
	for _, part := range betweenEnds {
		off = max(off, at(from.v+float64(part*(to.v-from.v))).e)
	}
	n.e += doubt + math.Abs(to.v-from.v)*off + from.e*math.Abs(at(from.v).v) + to.e*math.Abs(at(to.v).v)
	return n
}

func (bounds) unknown() (bounded, ops.Fault) { return bounded{}, ops.NoReal }

func (bounds) steps() int64 { return 5 }

// bounds returns a walker over numbers with a bound of their error, for one over
// plain numbers.
func (w *floatWalker) bounds(given float64) *boundWalker {
	return &boundWalker{newWalker[bounded](w.p, w.st, w.depth, bounds{given: given, main: w.st.bounds(w.p)})}
}

// boundAt is the value of a function of some numbers and the bound of its error,
// where each argument may be off by off as a part of itself, and of least.
func (w *boundWalker) boundAt(fn int, x []float64, off, least float64) (bounded, bool) {
	given := make([]bounded, len(x))
	for k, v := range x {
		given[k] = bounded{v, off * max(math.Abs(v), least)}
	}
	return w.at(fn, given)
}
