package run

import (
	"context"
	"math"

	"steelyard/lang/ops"
)

// exact is the error of a number that was rounded once, as a part of it.
const exact = 0x1p-53

// bounded is a value with a bound of its error: how far rounding, and what its
// operands are off by, can have moved it. To first order, as errors are small.
type bounded struct{ v, e float64 }

// bounds is the domain of values with a bound of their error. It holds by how
// great a part of itself a number that does not vary may be off.
type bounds struct{ given float64 }

type boundWalker struct{ walker[bounded, bounds] }

func (d bounds) of(v float64) bounded { return bounded{v, d.given * math.Abs(v)} }

func (bounds) apply(op ops.Op, a, b bounded, k float64) (bounded, ops.Fault) {
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
	mid, far := over.Lo+(over.Hi-over.Lo)/2, (over.Hi-over.Lo)/2
	switch {
	case fault == ops.NoFault:
		return bounded{v, max(v-over.Lo, over.Hi-v, off)}, fault
	case extent == ops.None || far-far != 0:
		return bounded{v, 0}, fault
	}
	return bounded{mid, far}, ops.NoFault
}

// reach is the interval that the true value lies in.
func (n bounded) reach() ops.Interval { return ops.Between(n.v-n.e, n.v+n.e) }

func (bounds) branch(condition bounded) (yes, no bool) {
	return condition.v+condition.e >= 1, condition.v-condition.e < 1
}

func (bounds) either(a, b bounded) bounded {
	h := a.reach().Hull(b.reach())
	return bounded{a.v, max(a.v-h.Lo, h.Hi-a.v)}
}

func (bounds) still(n bounded) (float64, bool) { return n.v, true }

func (bounds) unknown() (bounded, ops.Fault) { return bounded{}, ops.NoReal }

// bounds returns a walker over numbers with a bound of their error, for one over
// plain numbers.
func (w *floatWalker) bounds(given float64) *boundWalker {
	return &boundWalker{walker[bounded, bounds]{p: w.p, st: w.st, ctx: w.ctx, left: w.left, depth: w.depth, d: bounds{given}}}
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

// AddedUp is the size of what a slot of the main code is added up from, in its
// own unit: the bound of its value's error, divided by that of one number of
// its size. Slots below from count as exact to their last bit.
func (p *Program) AddedUp(st *State, s, from Slot) float64 {
	size := math.Abs(st.At(s))
	if s < from {
		return size
	}
	code := p.tail(from, s)
	n := len(code.Instrs)
	w := p.floats(context.Background(), st).bounds(exact)
	vals, causes := make([]bounded, n), make([]int32, n)
	before := len(st.failures)
	w.exec(&code, nil, vals, causes, 0, Slot(n), args[bounded]{})
	st.failures = st.failures[:before]
	if added := vals[n-1].e / exact; causes[n-1] == 0 && added-added == 0 {
		return max(size, added)
	}
	return size
}

// tail copies the instructions from ≤ i ≤ s of the main code; those before
// are loaded.
func (p *Program) tail(from, s Slot) Code {
	var out Code
	local := make(map[Slot]Slot)
	add := func(old Slot, in Instr) {
		local[old] = Slot(len(out.Instrs))
		out.Instrs = append(out.Instrs, in)
	}
	place := func(old Slot) Slot {
		if _, ok := local[old]; !ok {
			add(old, Instr{Op: ops.Load, A: old})
		}
		return local[old]
	}
	for i := from; i <= s; i++ {
		add(i, p.Main.Instrs[i].moved(p.Main.Args, &out.Args, place))
	}
	return out
}
