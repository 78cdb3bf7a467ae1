package run

import (
	"math"
	"math/big"
	"slices"

	"steelyard/lang/ops"
)

// kept is by how great a part of itself a value may be off, that is shown as it is. One that
// may be off by more is worked out again in digits.
const kept = 1e-9

// MostDigits is how many digits of a decimal a number of the usual kind tells.
const MostDigits = 15

// digits is the domain of numbers with some sixty digits, which begin with the decimals as they
// were written. It is for what sixteen digits don't tell: whether 0.1 + 0.2 - 0.3 is 0, and what
// 10¹⁶ + 1 - 10¹⁶ is.
type digits struct{ main *mainDigits }

// mainDigits are the digits of slots of the main code, as far as they have been asked for.
type mainDigits struct {
	asked[precise, digits]
	bounds *mainBounds
}

func newMainDigits(of *mainBounds) *mainDigits {
	m := &mainDigits{bounds: of}
	m.asked = asked[precise, digits]{p: of.p, st: of.st, d: digits{m}, found: m.found}
	return m
}

// found is known to the digits that the search left, a root to as many as its expression.
func (m *mainDigits) found(s Slot) []precise {
	if in := &m.p.Main.Instrs[s]; in.Op == ops.Solve {
		if n, ok := m.candidate(m.p.Solves[in.A], m.p.Main.list(in), m.st.At(s)); ok {
			return []precise{n}
		}
	}
	n := m.bounds.found(s)[0]
	return []precise{inexact(n.v, n.e)}
}

// inexact is a number that may be off; one that is none is off by any amount.
func inexact(v, off float64) precise {
	if v-v != 0 {
		return precise{newBig(), math.Inf(1)}
	}
	return precise{newBig().SetFloat64(v), off}
}

var noDigits = inexact(math.NaN(), 0)

// of is off by a rounding, unless it is a whole number: the count of a list, a divisor.
func (digits) of(v float64) precise {
	if v == math.Trunc(v) && math.Abs(v) < 1/exact {
		return exactly(newBig().SetFloat64(v))
	}
	return inexact(v, exact*math.Abs(v))
}

// constant is as many of its last figure as were written: of 50.0 km/h as many 0.1 km/h.
func (d digits) constant(in *Instr) precise {
	if in.isRounded() {
		return d.of(in.K)
	}
	if place := in.Place(); place > 0 {
		one := simplest(ops.Between(place*(1-4*exact), place*(1+4*exact)))
		v := newBig().Mul(one.v, newBig().SetFloat64(math.Round(in.K/place)))
		if within(v, ops.Point(in.K)) {
			return exactly(v)
		}
	}
	return d.written(in.K)
}

// written is a number as it was written: the nearest short decimal, fraction or part of a turn,
// else the nearest decimal or number of degrees, if it is not near both.
func (d digits) written(v float64) precise {
	if v-v != 0 || v == 0 {
		return d.of(v)
	}
	if n := simplest(ops.Point(v)); n.off > 0 {
		return n
	}
	n, isDecimal := nearestDecimal(v, MostDigits)
	turned, isAngle := nearestDegrees(v, MostDigits)
	switch {
	case isDecimal && !isAngle:
		return exactly(n)
	case isAngle && !isDecimal:
		return exactly(turned)
	}
	return d.of(v)
}

func (d digits) load(s Slot, i int32, v float64) precise { return d.main.load(s, i, v) }

// apply is an operation on operands of which those that may be 0 are 0, and those that may be
// the end of what it takes are that. Its slopes say how far the result may be off; where they
// don't, as that of a root at 0, its values at the ends of the operands do.
func (d digits) apply(op ops.Op, a, b precise, k float64) (precise, ops.Fault) {
	if a = a.orZero(); op.Operands() == 1 {
		b = a
	}
	b = b.orZero()
	if off := a.off + b.off; off-off != 0 {
		return noDigits, ops.NoFault
	}
	if (op == ops.Less || op == ops.AtMost) && a.minus(b).certainty() == 0 {
		b = a
	}
	x, y := a.nearest(), b.nearest()
	v := op.Digits(a.v, b.v, k)
	if edge, ok := op.Edge(x); v == nil && ok && math.Abs(x-edge) <= a.off {
		v = op.Digits(newBig().SetFloat64(edge), b.v, k)
	}
	inverse, _ := op.Inverse()
	switch {
	case inverse.Turns && a.off > lostAngle:
		return noDigits, ops.LostAngle
	case v == nil:
		n, fault := floats{}.apply(op, x, y, k)
		if fault == ops.NoFault && (op == ops.Round || op == ops.LastFigure) {
			return d.written(n), fault
		}
		return noDigits, fault
	case op == ops.Tan && a.off*magnitude(v) >= 1:
		return noDigits, ops.DivZero
	}
	da, db := op.Slopes(x, y, k)
	n := exactly(v)
	off := math.Abs(chain(a.off, da))
	if op.Operands() == 2 {
		off += math.Abs(chain(b.off, db))
	}
	if off-off != 0 {
		off = 0
		for _, at := range [...][2]float64{{a.off, b.off}, {a.off, -b.off}, {-a.off, b.off}, {-a.off, -b.off}} {
			if w := op.Digits(a.moved(at[0]), b.moved(at[1]), k); w != nil {
				off = max(off, magnitude(w.Sub(w, v)))
			}
		}
	}
	n.off += off
	return n, ops.NoFault
}

func (x precise) moved(by float64) *big.Float { return newBig().Add(x.v, newBig().SetFloat64(by)) }

// orZero is the number, or 0 where it may be; one that has never been worked out is unknown.
func (x precise) orZero() precise {
	switch {
	case x.v == nil:
		return noDigits
	case x.off-x.off == 0 && x.certainty() == 0:
		return precise{newBig(), x.off}
	}
	return x
}

// nearest is the nearest number of the usual kind.
func (x precise) nearest() float64 {
	if x.v == nil {
		return math.NaN()
	}
	v, _ := x.v.Float64()
	return v
}

func (digits) branch(condition precise) (yes, no bool) {
	return condition.nearest() == 1, condition.nearest() != 1
}

func (digits) either(_, a, _ precise) precise { return a }

func (digits) still(n precise) (float64, bool) { return n.orZero().nearest(), true }

func (digits) unknown() (precise, ops.Fault) { return noDigits, ops.NoFault }

func (digits) steps() int64 { return 100 }

// found is known to no more than its sixteen digits, and these may be off too.
func (digits) found(ops.Op, float64, float64, []precise, curve[precise]) precise { return noDigits }

// sure is the elements of a slot with the bounds of their errors, by their digits where it has
// no value, is made of a residue, or where more than a billionth of one may be off; nil if it
// has none, for the failure.
func (m *mainBounds) sure(s Slot) ([]bounded, Failure) {
	m.residue, m.failed = false, Failure{}
	all, failed := m.at(s), m.failed
	if m.st.causes[s] == 0 && all != nil && !m.residue && !slices.ContainsFunc(all, bounded.doubtful) {
		return all, failed
	}
	if m.digits == nil {
		m.digits = newMainDigits(m)
	}
	m.digits.failed = Failure{}
	known := m.digits.at(s)
	if known == nil {
		if m.digits.failed.Kind == ops.NoFault {
			return all, failed
		}
		return nil, m.digits.failed
	}
	out := make([]bounded, len(known))
	for i, n := range known {
		v := n.float()
		switch {
		case n.off-n.off == 0 && ops.Held(v):
			out[i] = bounded{v, n.off + exact*math.Abs(v)}
		case i < len(all):
			out[i] = all[i]
		default:
			return nil, failed
		}
	}
	return out, Failure{}
}

// doubtful tells whether more than a billionth of a number may be off.
func (n bounded) doubtful() bool { return n.e > kept*math.Abs(n.v) }
