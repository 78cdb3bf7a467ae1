package run

import (
	"cmp"
	"math"

	"steelyard/lang/ops"
)

// at is the columns of an argument.
//
// Without a code every argument has one column, as in a search for places.
func (a *args[N]) at(s Slot) span {
	if a.code == nil {
		return span{int32(s), 1}
	}
	return a.code.span(s)
}

// wide is the other half of the walker's loop (walk.go), for codes that hold a list or a vector.
// The many that hold none never come here, and pay nothing for it: a slot of theirs is its own
// column.
//
// It runs one instruction of a code in which slots may have several columns:
// element by element, where an operand of one element serves for all. It
// returns the cause if any element has no value; those that have none lack a number, so that
// a selection can take the others.
func (w *walker[N, D]) wide(in *Instr, code *Code, fn *Func, i Slot, vals []N, causes []int32, given args[N]) int32 {
	own := code.span(i)
	out := vals[own.first : own.first+own.width]
	cause, each := int32(0), false
	switch _, all := in.Op.Elements(0); {
	case all:
		cause = w.together(in, code, fn, i, out, vals, causes)
	case in.Op == ops.Const:
		spread(out, []N{w.d.constant(in)}, span{0, 1})
		if in.K-in.K != 0 {
			cause = w.fail(ops.OutOfRange, fn, i)
		}
	case in.Op.Operands() == 0, in.Op == ops.Select:
		cause, each = w.special(in, code, fn, i, out, vals, causes, given)
	default:
		cause, each = w.elements(in, code, fn, i, out, vals, causes), true
	}
	if cause != 0 && !each && w.st.failures[cause-1].Kind != ops.Grown {
		for e := range out {
			out[e] = w.d.of(math.NaN())
		}
	}
	return cause
}

// spread copies the elements of a slot; one alone serves for all.
//
// So a list times a number needs no list of that number.
func spread[N any](out, vals []N, from span) {
	for e := range out {
		out[e] = vals[from.at(int32(e))]
	}
}

// together puts the elements of a list together.
//
// Which arithmetic that takes is written once for all domains (together.go), and handed the
// operations of this one. The first fault among them is that of the slot: a sum of a hundred
// numbers that leaves the range once has no value.
func (w *walker[N, D]) together(in *Instr, code *Code, fn *Func, i Slot, out, vals []N, causes []int32) int32 {
	from := code.span(in.A)
	w.budget.Spend(w.steps * int64(from.width))
	if causes[in.A] != 0 {
		return causes[in.A]
	}
	all := vals[from.first : from.first+from.width]
	if in.Op == ops.Pick {
		copy(out, picked(all, len(out), in.K))
		return 0
	}
	h, list := hold(w.d, all)
	var one [1]int32
	to := one[:]
	if len(out) > 1 {
		to = make([]int32, len(out))
	}
	if !(together{h}).put(in.Op, in.K, list, to) {
		_, h.why = w.d.unknown()
	}
	if h.why != ops.NoFault {
		return w.fail(h.why, fn, i)
	}
	for e, n := range to {
		out[e] = h.all[n]
	}
	return 0
}

// elements applies an arithmetic operation to each element, which costs one step each, as that
// many instructions would.
//
// An element whose operands fail fails for their cause, which is then that of the slot; else the
// first that fails by itself gives the slot its cause. All elements are worked out even so, since what follows may
// read another.
func (w *walker[N, D]) elements(in *Instr, code *Code, fn *Func, i Slot, out, vals []N, causes []int32) int32 {
	w.budget.Spend(w.steps * int64(len(out)-1))
	two := in.Op.Operands() == 2
	failed := causes[in.A]
	if two && failed == 0 {
		failed = causes[in.B]
	}
	from, by := code.span(in.A), span{}
	if two {
		by = code.span(in.B)
	}
	carried, own := int32(0), int32(0)
	for e := range out {
		var b N
		if two {
			b = vals[by.at(int32(e))]
		}
		a, fault := vals[from.at(int32(e))], ops.NoFault
		if failed != 0 && (w.lacks(a) || two && w.lacks(b)) {
			var why int32
			if out[e], why = w.settles(in, a, b, failed, causes); why != 0 {
				carried, fault = cmp.Or(carried, why), w.st.failures[why-1].Kind
			}
		} else if out[e], fault = w.d.apply(in.Op, a, b, in.K); fault != ops.NoFault && own == 0 {
			own = w.fail(fault, fn, i)
		}
		if fault != ops.NoFault && fault != ops.Grown {
			out[e] = w.d.of(math.NaN())
		}
	}
	return cmp.Or(carried, own)
}

// lacks tells whether an element of a slot that has a cause is one that has no value.
//
// A value that is missing is held as not a number, in any domain.
func (w *walker[N, D]) lacks(n N) bool {
	v, _ := w.d.still(n)
	return v-v != 0
}

// selected takes each element of a selection by its condition, or all by one.
//
// A branch that is not taken may fail unseen, element by element.
func (w *walker[N, D]) selected(in *Instr, code *Code, out, vals []N, causes []int32) int32 {
	if causes[in.A] != 0 {
		return causes[in.A]
	}
	condition, yes, no := code.span(in.A), code.span(in.B), code.span(in.C)
	cause, wide := int32(0), code.Wide()
	for e := range out {
		i := int32(e)
		a, b, failsA, failsB := vals[yes.at(i)], vals[no.at(i)], causes[in.B], causes[in.C]
		if wide && !w.lacks(a) {
			failsA = 0 // another element of it does
		}
		if wide && !w.lacks(b) {
			failsB = 0
		}
		v, fails := w.either(vals[condition.at(i)], a, b, failsA, failsB)
		if out[e] = v; wide && fails != 0 && w.st.failures[fails-1].Kind != ops.Grown {
			out[e] = w.d.of(math.NaN())
		}
		cause = cmp.Or(cause, fails)
	}
	return cause
}
