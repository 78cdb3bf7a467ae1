package run

import (
	"math"

	"steelyard/lang/ops"
)

// mostOfSum is how many instructions a sum of written numbers may take that is looked at for
// being 0.
const mostOfSum = 64

// nothing is by how great a part of its terms a sum may be off of which no digit is left.
const nothing = 1e-30

// Vanishing is the 0 that a slot is, with its place, if that is a sum of nothing but numbers
// which were written from a slot on, and 0 but for rounding, as 0.1 + 0.2 - 0.3 is. What works
// with the sum then works with 0, in whatever domain and at however many places it runs.
func (c *Code) Vanishing(s, from Slot) (Instr, bool) {
	in := &c.Instrs[s]
	if in.Op != ops.Add && in.Op != ops.Sub {
		return Instr{}, false
	}
	left := mostOfSum
	a, isWritten := writtenOut[float64](floats{}, c, in.A, from, &left)
	b, isToo := writtenOut[float64](floats{}, c, in.B, from, &left)
	if !isWritten || !isToo || !(math.Abs(in.Op.Value(a, b, 0)) < small*math.Abs(a)) {
		return Instr{}, false
	}
	left = mostOfSum
	if n, ok := writtenOut[precise](digits{}, c, s, from, &left); !ok || n.certainty() > 0 || !(n.off <= nothing*math.Abs(a)) {
		return Instr{}, false
	}
	left = mostOfSum
	n, _ := writtenOut[Figured](figures{}, c, s, from, &left)
	return Written(0, n.Place, 0), true
}

// IsSumOfLoads tells whether a slot of a function is a sum made of values of the main code and
// written numbers, and of nothing else.
func (c *Code) IsSumOfLoads(s Slot) bool {
	in := &c.Instrs[s]
	if in.Op != ops.Add && in.Op != ops.Sub {
		return false
	}
	left, loads := mostOfSum, false
	var still func(s Slot) bool
	still = func(s Slot) bool {
		in := &c.Instrs[s]
		left--
		_, together := in.Op.Elements(0)
		switch n := in.Op.Operands(); {
		case left < 0 || together || n > 2:
			return false
		case n == 0:
			loads = loads || in.Op == ops.Load
			return in.Op == ops.Load || in.Op == ops.Const
		default:
			return still(in.A) && (n < 2 || still(in.B))
		}
	}
	return still(s) && loads
}

// Alike tells whether two slots are the same operations on the same slots and numbers, as far
// as a few steps tell.
func (c *Code) Alike(a, b Slot) bool {
	left := mostOfSum
	var alike func(a, b Slot) bool
	alike = func(a, b Slot) bool {
		x, y := &c.Instrs[a], &c.Instrs[b]
		left--
		switch n := x.Op.Operands(); {
		case a == b:
			return true
		case left < 0 || x.Op != y.Op || x.K != y.K || n > 2 || x.Op.List():
			return false
		case n == 0:
			return *x == *y && x.Uncertainty() == 0
		default:
			return alike(x.A, y.A) && (n < 2 || alike(x.B, y.B))
		}
	}
	return alike(a, b)
}

// writtenOut works out a slot that is made of numbers which were written from a slot on and of
// nothing else; false of another, of one without a value, and where that takes too many
// instructions.
func writtenOut[N any, D domain[N]](d D, c *Code, s, from Slot, left *int) (n N, ok bool) {
	if *left--; *left < 0 || s < from {
		return n, false
	}
	in := &c.Instrs[s]
	operands := in.Op.Operands()
	switch _, together := in.Op.Elements(0); {
	case in.Op == ops.Const:
		return d.constant(in), in.A > uncertain
	case operands == 0 || operands > 2 || together:
		return n, false
	}
	a, ok := writtenOut(d, c, in.A, from, left)
	b := a
	if ok && operands == 2 {
		b, ok = writtenOut(d, c, in.B, from, left)
	}
	if !ok {
		return n, false
	}
	n, fault := d.apply(in.Op, a, b, in.K)
	return n, fault == ops.NoFault
}
