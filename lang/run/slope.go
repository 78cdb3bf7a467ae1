package run

import (
	"math"

	"steelyard/lang/ops"
)

// dual is a value with its slope.
type dual struct{ v, d float64 }

// maxCalls bounds how deep functions call each other while slopes are followed.
const maxCalls = 64

// Slope is the exact derivative of a function of one number: the rules of
// differentiation run beside the arithmetic. It returns false if the function
// has no value, or no slope, there.
func (p *Program) Slope(st *State, fn int, x float64) (value, slope float64, ok bool) {
	r := runner{p: p, st: st, left: runEvery}
	return r.slope(fn, x)
}

// Value runs a function of one number, and tells whether it has a value.
func (p *Program) Value(st *State, fn int, x float64) (float64, bool) {
	r := runner{p: p, st: st, left: runEvery}
	return r.at(fn, []float64{x})
}

func (r *runner) slope(fn int, x float64) (value, slope float64, ok bool) {
	v, good := r.at(fn, []float64{x})
	if !good {
		return 0, 0, false
	}
	out := r.dual(r.p.Funcs[fn], []dual{{x, 1}}, 0)
	return v, out.d, out.v-out.v == 0 && out.d-out.d == 0
}

// dual runs a function with the slopes of its arguments.
func (r *runner) dual(f *Func, args []dual, depth int) dual {
	none := dual{math.NaN(), math.NaN()}
	if depth > maxCalls {
		return none
	}
	slots := make([]dual, f.Result+1)
	for i := range slots {
		in := &f.Code.Instrs[i]
		switch in.Op {
		case ops.Const:
			slots[i] = dual{in.K, 0}
		case ops.Param:
			slots[i] = args[in.A]
		case ops.Load:
			slots[i] = none
			if v, ok := r.loaded(in.A); ok {
				slots[i] = dual{v, 0}
			}
		case ops.Call:
			inner := make([]dual, in.C)
			for k := range inner {
				inner[k] = slots[f.Code.Args[in.B+Slot(k)]]
			}
			slots[i] = r.dual(r.p.Funcs[in.A], inner, depth+1)
		case ops.Select:
			slots[i] = slots[in.C]
			if slots[in.A].v == 1 {
				slots[i] = slots[in.B]
			}
		case ops.Nothing, ops.Solve, ops.Slope, ops.Area:
			slots[i] = none
		default:
			slots[i] = dualOp(in, slots)
		}
	}
	return slots[f.Result]
}

// dualOp applies one instruction to values with slopes.
func dualOp(in *Instr, slots []dual) dual {
	a := slots[in.A]
	b := dual{}
	if in.Op.Operands() == 2 {
		b = slots[in.B]
	}
	v := in.Op.Value(a.v, b.v, in.K)
	var d float64
	switch in.Op {
	case ops.Copy:
		d = a.d
	case ops.Neg:
		d = -a.d
	case ops.Add:
		d = a.d + b.d
	case ops.Sub:
		d = a.d - b.d
	case ops.Mul:
		d = a.d*b.v + a.v*b.d
	case ops.Div:
		d = (a.d - v*b.d) / b.v
	case ops.Pow:
		d = chain(a.d, func() float64 { return in.K * math.Pow(a.v, in.K-1) })
	case ops.PowVar:
		d = chain(a.d, func() float64 { return b.v * math.Pow(a.v, b.v-1) }) + chain(b.d, func() float64 { return v * math.Log(a.v) })
	case ops.Sqrt:
		d = chain(a.d, func() float64 { return 1 / (2 * v) })
	case ops.Cbrt:
		d = chain(a.d, func() float64 { return 1 / (3 * v * v) })
	case ops.Root:
		d = chain(a.d, func() float64 { return v / (in.K * a.v) })
	case ops.Abs:
		d = chain(a.d, func() float64 { return math.Copysign(1, a.v) })
		if a.v == 0 && a.d != 0 {
			d = math.NaN()
		}
	case ops.Hypot:
		d = (a.v*a.d + b.v*b.d) / v
	case ops.Atan2:
		d = (a.d*b.v - a.v*b.d) / (a.v*a.v + b.v*b.v)
	case ops.Min:
		if d = b.d; a.v < b.v {
			d = a.d
		}
	case ops.Max:
		if d = b.d; a.v > b.v {
			d = a.d
		}
	case ops.Sgn, ops.Round, ops.Less, ops.AtMost, ops.Both:
		d = 0
	default:
		d = chain(a.d, func() float64 { return slopeOf(in.Op, a.v, v) })
	}
	return dual{v, d}
}

// chain multiplies a slope by that of an outer function; what does not vary has
// no slope, wherever the outer function has one.
func chain(d float64, outer func() float64) float64 {
	if d == 0 {
		return 0
	}
	return d * outer()
}

// slopeOf is the slope of a function of one number at a, where it has value v.
func slopeOf(op ops.Op, a, v float64) float64 {
	switch op {
	case ops.Sin:
		return math.Cos(a)
	case ops.Cos:
		return -math.Sin(a)
	case ops.Tan:
		return 1 + v*v
	case ops.Asin:
		return 1 / math.Sqrt((1-a)*(1+a))
	case ops.Acos:
		return -1 / math.Sqrt((1-a)*(1+a))
	case ops.Atan:
		return 1 / (1 + a*a)
	case ops.Sinh:
		return math.Cosh(a)
	case ops.Cosh:
		return math.Sinh(a)
	case ops.Tanh:
		return 1 - v*v
	case ops.Exp:
		return v
	case ops.Ln:
		return 1 / a
	case ops.Log10:
		return 1 / (a * math.Ln10)
	}
	return math.NaN()
}

// Bend is what a curve does at a point.
type Bend uint8

// The bends.
const (
	Smooth Bend = iota
	Corner      // the slope jumps
	Jump        // the value jumps
)

// BendAt tells whether a curve has a corner or a jump at a point, from both
// sides of it: what stays when the two places come a thousand times closer. The
// slopes on the left and on the right are returned.
func (p *Program) BendAt(st *State, fn int, x, scale float64) (b Bend, left, right float64) {
	h := 1e-6 * math.Max(math.Abs(x), scale)
	v1, s1, ok1 := p.Slope(st, fn, x-h)
	v2, s2, ok2 := p.Slope(st, fn, x+h)
	h /= 1000
	v3, s3, ok3 := p.Slope(st, fn, x-h)
	v4, s4, ok4 := p.Slope(st, fn, x+h)
	if !ok1 || !ok2 || !ok3 || !ok4 {
		return Smooth, 0, 0
	}
	if far, near := math.Abs(v2-v1), math.Abs(v4-v3); near > far/2 && near > 1e-9*(math.Abs(v3)+math.Abs(v4)) {
		return Jump, s3, s4
	}
	if far, near := math.Abs(s2-s1), math.Abs(s4-s3); near > far/2 && near > 1e-9*(math.Abs(s3)+math.Abs(s4)) {
		return Corner, s3, s4
	}
	return Smooth, s3, s4
}

// curve runs one ops.Slope or ops.Area, with a runner of its own so that none other
// is kept.
func (r *runner) curve(in *Instr, code *Code, fn *Func, i Slot, vals []float64, causes []int32) (float64, int32) {
	args := code.Args[in.B : in.B+in.C]
	for _, a := range args {
		if causes[a] != 0 {
			return 0, causes[a]
		}
	}
	own := *r
	v, kind := 0.0, ops.NoFault
	if in.Op == ops.Slope {
		var ok bool
		if _, v, ok = own.slope(int(in.A), vals[args[0]]); !ok {
			kind = ops.NoSlope
		}
	} else {
		v, kind = own.area(int(in.A), vals[args[0]], vals[args[1]])
	}
	r.halted, r.left = own.halted, own.left
	if kind == ops.NoFault && ops.Suspect(v) && v-v != 0 {
		kind = ops.OutOfRange
	}
	if kind != ops.NoFault {
		return 0, r.fail(kind, fn, i)
	}
	return v, 0
}
