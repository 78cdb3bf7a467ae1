package run

import (
	"math"

	"steelyard/lang/ops"
)

// enclosed is what is known of a slot over an interval of the unknown: the
// values, the slopes, and where it has none.
type enclosed struct {
	v, d Interval
	// none: no number of the interval has a value. partly: some have none, or
	// the slope is not bounded, so that nothing follows from it.
	none, partly bool
}

// Enclose runs a function of one number over an interval.
func (p *Program) Enclose(st *State, fn int, x Interval) (values, slopes Interval, none, partly bool) {
	r := runner{p: p, st: st}
	return r.enclose(fn, x)
}

func (r *runner) enclose(fn int, x Interval) (values, slopes Interval, none, partly bool) {
	e := r.encloseFunc(r.p.Funcs[fn], []enclosed{{v: x, d: point(1)}}, 0)
	return e.v, e.d, e.none, e.partly
}

func (r *runner) encloseFunc(f *Func, args []enclosed, depth int) enclosed {
	if depth > 64 {
		return enclosed{v: everything, d: everything, partly: true}
	}
	slots := make([]enclosed, f.Result+1)
	for i := range slots {
		in := &f.Code.Instrs[i]
		switch in.Op {
		case ops.Const:
			slots[i] = enclosed{v: point(in.K), d: point(0)}
		case ops.Param:
			slots[i] = args[in.A]
		case ops.Load:
			v, ok := r.loaded(in.A)
			slots[i] = enclosed{v: point(v), d: point(0), none: !ok}
		case ops.Call:
			inner := make([]enclosed, in.C)
			for k := range inner {
				inner[k] = slots[f.Code.Args[in.B+Slot(k)]]
			}
			slots[i] = r.encloseFunc(r.p.Funcs[in.A], inner, depth+1)
		default:
			slots[i] = encloseOp(in, slots)
		}
	}
	return slots[f.Result]
}

// encloseOp applies one instruction to what is known of its operands.
func encloseOp(in *Instr, slots []enclosed) enclosed {
	a := slots[in.A]
	out := enclosed{none: a.none, partly: a.partly}
	b := enclosed{v: point(0), d: point(0)}
	switch in.Op {
	case ops.Add, ops.Sub, ops.Mul, ops.Div, ops.PowVar, ops.Atan2, ops.Hypot, ops.Min, ops.Max, ops.Round, ops.Less, ops.AtMost, ops.Both, ops.Select:
		b = slots[in.B]
		out.none, out.partly = out.none || b.none, out.partly || b.partly
	}
	if out.none {
		return out
	}
	switch in.Op {
	case ops.Copy:
		out.v, out.d = a.v, a.d
	case ops.Neg:
		out.v, out.d = a.v.neg(), a.d.neg()
	case ops.Add:
		out.v, out.d = a.v.add(b.v), a.d.add(b.d)
	case ops.Sub:
		out.v, out.d = a.v.sub(b.v), a.d.sub(b.d)
	case ops.Mul:
		out.v, out.d = a.v.mul(b.v), a.d.mul(b.v).add(a.v.mul(b.d))
	case ops.Div:
		out.divide(a, b)
	case ops.Pow:
		out.power(a, in.K)
	case ops.Sqrt:
		out.power(a, 0.5)
	default:
		out.function(in.Op, a)
	}
	return out
}

// divide encloses a quotient.
func (out *enclosed) divide(a, b enclosed) {
	if b.v == point(0) {
		out.none = true
		return
	}
	out.partly = out.partly || b.v.holdsZero()
	inv := b.v.inv()
	out.v = a.v.mul(inv)
	out.d = a.d.sub(out.v.mul(b.d)).mul(inv)
}

// power encloses a power with a written exponent.
func (out *enclosed) power(a enclosed, k float64) {
	if n := int(k); float64(n) == k && n > -100 && n < 100 {
		out.partly = out.partly || n < 0 && a.v.holdsZero()
		out.v = a.v.whole(n)
		out.d = point(k).mul(a.v.whole(n - 1)).mul(a.d)
		return
	}
	if a.v.Hi < 0 {
		out.none = true
		return
	}
	if a.v.Lo <= 0 {
		out.partly = true
		a.v.Lo = 0
	}
	if k > 0 {
		out.v = a.v.rising(func(x float64) float64 { return math.Pow(x, k) })
	} else {
		out.v = a.v.rising(func(x float64) float64 { return math.Pow(x, -k) }).inv()
	}
	out.d = point(k).mul(out.v).mul(a.v.inv()).mul(a.d)
}

// function encloses the functions of one number that an equation may hold. Of
// any other nothing is known.
func (out *enclosed) function(op ops.Op, a enclosed) {
	switch op {
	case ops.Sin:
		out.v, out.d = a.v.sine(), a.v.cosine().mul(a.d)
	case ops.Cos:
		out.v, out.d = a.v.cosine(), a.v.sine().neg().mul(a.d)
	case ops.Tan:
		c := a.v.cosine()
		out.partly = out.partly || c.holdsZero()
		out.v = a.v.sine().mul(c.inv())
		out.d = c.whole(2).inv().mul(a.d)
	case ops.Exp:
		out.v = a.v.rising(math.Exp)
		out.d = out.v.mul(a.d)
	case ops.Ln, ops.Log10:
		if a.v.Hi <= 0 {
			out.none = true
			return
		}
		if a.v.Lo <= 0 {
			out.partly = true
			a.v.Lo = 0
		}
		f, scale := math.Log, 1.0
		if op == ops.Log10 {
			f, scale = math.Log10, 1/math.Ln10
		}
		out.v, out.d = a.v.rising(f), outward(scale, scale).mul(a.v.inv()).mul(a.d)
	case ops.Atan:
		out.v, out.d = a.v.rising(math.Atan), point(1).add(a.v.whole(2)).inv().mul(a.d)
	case ops.Sinh:
		out.v, out.d = a.v.rising(math.Sinh), everything
	case ops.Tanh:
		out.v, out.d = a.v.rising(math.Tanh), everything
	case ops.Cbrt:
		out.v, out.d = a.v.rising(math.Cbrt), everything
	case ops.Abs:
		out.v, out.d = a.v.abs(), Interval{-1, 1}.mul(a.d)
		if a.v.Lo > 0 {
			out.d = a.d
		} else if a.v.Hi < 0 {
			out.d = a.d.neg()
		}
	default:
		out.v, out.d, out.partly = everything, everything, true
	}
}
