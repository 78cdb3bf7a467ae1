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

// wide runs one instruction of a code in which slots may have several columns:
// element by element, where an operand of one element serves for all. It
// returns the cause if any element has no value; those that have none lack a number, so that
// a selection can take the others.
func (w *walker[N, D]) wide(in *Instr, code *Code, fn *Func, i Slot, vals []N, causes []int32, given args[N]) int32 {
	own := code.span(i)
	out := vals[own.first : own.first+own.width]
	cause, each := w.put(in, code, fn, i, out, vals, causes, given)
	if cause != 0 && !each && w.st.failures[cause-1].Kind != ops.Grown {
		for e := range out {
			out[e] = w.d.of(math.NaN())
		}
	}
	return cause
}

// put works the elements of one instruction out; each tells that a cause is of some alone, of
// which it is known which.
//
// It is the other half of the walker's loop (walk.go), for codes that hold a list or a vector.
// The many that hold none never come here, and pay nothing for it: a slot of theirs is its own
// column.
//
// An instruction costs one step for each element, as that many instructions would.
func (w *walker[N, D]) put(in *Instr, code *Code, fn *Func, i Slot, out, vals []N, causes []int32, given args[N]) (cause int32, each bool) {
	switch in.Op {
	case ops.Param:
		if fn != nil && int(in.A) < len(given.slots) {
			s := given.slots[in.A]
			spread(out, given.vals, given.at(s))
			return given.causes[s], false
		}
	case ops.Load:
		from := w.p.Main.span(in.A)
		for e := range out {
			out[e] = w.d.load(in.A, int32(e), w.st.vals[from.at(int32(e))])
		}
		return w.st.causes[in.A], false
	case ops.Call:
		before := len(w.st.failures)
		all, cause := w.called(in, code, fn, i, vals, causes)
		if cause == 0 {
			spread(out, all, span{0, int32(len(all))})
		}
		if fn == nil {
			cause = w.st.keep(before, cause)
		}
		return cause, false
	case ops.Data:
		for e := range out {
			out[e] = w.d.constant(&w.p.Data[in.A][e])
		}
		return 0, true
	case ops.Join:
		for _, s := range code.Args[in.B : in.B+in.C] {
			from := code.span(s)
			out = out[copy(out, vals[from.first:from.first+from.width]):]
			cause = cmp.Or(cause, causes[s])
		}
		return cause, false
	case ops.Spread:
		return w.spread(in, code, fn, i, out), false
	case ops.Select:
		return w.selectedWide(in, code, out, vals, causes), causes[in.A] == 0
	}
	w.budget.Spend(w.steps * int64(len(out)-1))
	if _, all := in.Op.Elements(0); all {
		return w.together(in, code, fn, i, out, vals, causes), false
	}
	if in.Op.Operands() == 0 {
		if in.Op != ops.Const {
			v, cause := w.special(in, code, fn, i, vals, causes, given)
			spread(out, []N{v}, span{0, 1})
			return cause, false
		}
		spread(out, []N{w.d.constant(in)}, span{0, 1})
		if in.K-in.K != 0 {
			return w.fail(ops.OutOfRange, fn, i), false
		}
		return 0, true
	}
	return w.elements(in, code, fn, i, out, vals, causes), true
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

// elements applies an arithmetic operation to each element.
//
// An element whose operands fail fails for their cause, which is then that of the slot; else the
// first that fails by itself gives the slot its cause. All elements are worked out even so, since what follows may
// read another.
func (w *walker[N, D]) elements(in *Instr, code *Code, fn *Func, i Slot, out, vals []N, causes []int32) int32 {
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

// selectedWide selects each element by its condition, or all by one.
//
// A branch that is not taken may fail unseen, element by element.
func (w *walker[N, D]) selectedWide(in *Instr, code *Code, out, vals []N, causes []int32) int32 {
	if causes[in.A] != 0 {
		return causes[in.A]
	}
	condition, yes, no := code.span(in.A), code.span(in.B), code.span(in.C)
	cause := int32(0)
	for e := range out {
		i := int32(e)
		a, b, failsA, failsB := vals[yes.at(i)], vals[no.at(i)], causes[in.B], causes[in.C]
		if failsA != 0 && !w.lacks(a) {
			failsA = 0
		}
		if failsB != 0 && !w.lacks(b) {
			failsB = 0
		}
		v, fails := w.either(vals[condition.at(i)], a, b, failsA, failsB)
		if out[e] = v; fails != 0 {
			out[e] = w.d.of(math.NaN())
		}
		if cause == 0 {
			cause = fails
		}
	}
	return cause
}
