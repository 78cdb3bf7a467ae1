package referee

import (
	"maps"
	"math/big"
	"sync"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// reading is a page as the referee reads it: names and functions, each meaning
// what the last line said. Values are in coherent SI units; what dimension they
// have is for others to judge.
type reading struct {
	names map[string]between
	funcs map[string]*syntax.FuncDef
	// rough is how far each number written, and each step, may be off as a part
	// of it: 0 for what is meant, some 2^-52 for what a careful program of 53 bits
	// may make of it.
	rough float64
}

// bits is the roughness of a program that works with 53 bits: two units in the
// last place for each step.
const bits = 4.5e-16

func newReading(rough float64) *reading {
	r := &reading{names: map[string]between{}, funcs: map[string]*syntax.FuncDef{}, rough: rough}
	r.names["g"] = r.step(exactly(big.NewRat(980665, 100000))) // CGPM 1901, 9.80665 m/s²
	return r
}

func (r *reading) step(x between) between {
	if r.rough == 0 {
		return x
	}
	return x.loosened(r.rough)
}

// with is the reading with one name given another value.
func (r *reading) with(name string, x between) *reading {
	out := *r
	out.names = make(map[string]between, len(r.names)+1)
	maps.Copy(out.names, r.names)
	out.names[name] = x
	return &out
}

// learn takes a line of the page in.
func (r *reading) learn(line syntax.Stmt) {
	switch s := line.(type) {
	case *syntax.Define:
		if v, ok := r.value(s.X); ok {
			r.names[s.Name] = v
		} else {
			delete(r.names, s.Name)
		}
	case *syntax.FuncDef:
		r.funcs[s.Name] = s
	}
}

// unit is the size of a unit. Pages use a few, again and again.
func (r *reading) unit(text string) (between, bool) {
	size, known := sizes.Load(text)
	if !known {
		size = sizeOf(text)
		sizes.Store(text, size)
	}
	out := size.(between)
	return out, out.lo != nil
}

var sizes sync.Map

// sizeOf is the size of a unit, or nothing if it is none, or begins elsewhere than at 0.
func sizeOf(text string) between {
	u, bad := units.NewTable().Parse(text, units.AfterNumber)
	if bad != nil || u.Affine() {
		return between{}
	}
	p, _ := piBetween().power(u.PiPower())
	return exactly(u.Factor()).mul(p)
}

// value is the value of an expression; false where it has none, or may have none
// somewhere in the intervals that its names stand for.
func (r *reading) value(x syntax.Expr) (between, bool) {
	v, ok := r.raw(x)
	if !ok {
		return v, false
	}
	return r.step(v), true
}

func (r *reading) raw(x syntax.Expr) (between, bool) {
	switch x := x.(type) {
	case *syntax.Number:
		return exactly(x.Value.Rat()), true
	case *syntax.Pi:
		return piBetween(), true
	case *syntax.Quantity:
		u, ok := r.unit(x.Unit.Text)
		return exactly(x.Value.Rat()).mul(u), ok
	case *syntax.Mixed:
		sum := whole(0)
		for _, q := range x.Parts {
			v, ok := r.raw(q)
			if !ok {
				return v, false
			}
			sum = sum.add(v)
		}
		if x.Neg {
			sum = sum.neg()
		}
		return sum, true
	case *syntax.Measured:
		v, ok := r.value(x.X)
		u, known := r.unit(x.Unit.Text)
		return v.mul(orZero(u)), ok && known
	case *syntax.Name:
		v, ok := r.names[x.Name]
		return v, ok
	case *syntax.Paren:
		return r.value(x.X)
	case *syntax.Unary:
		v, ok := r.value(x.X)
		if ok && x.Op == syntax.Sub {
			v = v.neg()
		}
		return v, ok
	case *syntax.Root:
		v, ok := r.value(x.X)
		if !ok {
			return v, false
		}
		return r.notBelow(v).sqrt()
	case *syntax.Binary:
		return r.binary(x)
	case *syntax.Call:
		return r.call(x)
	case *syntax.With:
		with := r
		for _, b := range x.By {
			v, ok := r.value(b.X)
			if !ok {
				return v, false
			}
			with = with.with(b.Name, v)
		}
		return with.value(x.X)
	}
	return between{}, false
}

func orZero(x between) between {
	if x.lo == nil {
		return whole(0)
	}
	return x
}

// notBelow cuts off what rounding alone has put below 0.
func (r *reading) notBelow(v between) between {
	if r.rough > 0 && v.hi.Sign() >= 0 || v.isZero() {
		return v.max(whole(0))
	}
	return v
}

func (r *reading) binary(b *syntax.Binary) (between, bool) {
	x, ok1 := r.value(b.X)
	y, ok2 := r.value(b.Y)
	if !ok1 || !ok2 {
		return between{}, false
	}
	switch b.Op {
	case syntax.Add:
		return x.add(y), true
	case syntax.Sub:
		return x.sub(y), true
	case syntax.Mul:
		return x.mul(y), true
	case syntax.Div:
		return x.div(y)
	}
	p, ok := rationalOf(b.Y)
	if !ok {
		// Of a pure number to a power that is worked out.
		l, ok := x.ln()
		if !ok {
			return l, false
		}
		return l.mul(y).exp(), true
	}
	return x.rational(p)
}

// rationalOf is an exponent as a fraction.
func rationalOf(x syntax.Expr) (*big.Rat, bool) {
	switch x := x.(type) {
	case *syntax.Number:
		return x.Value.Rat(), true
	case *syntax.Paren:
		return rationalOf(x.X)
	case *syntax.Unary:
		p, ok := rationalOf(x.X)
		if ok && x.Op == syntax.Sub {
			p = new(big.Rat).Neg(p)
		}
		return p, ok
	case *syntax.Binary:
		p, ok1 := rationalOf(x.X)
		q, ok2 := rationalOf(x.Y)
		if ok1 && ok2 && x.Op == syntax.Div && q.Sign() != 0 {
			return new(big.Rat).Quo(p, q), true
		}
	}
	return nil, false
}

func (r *reading) call(c *syntax.Call) (between, bool) {
	args := make([]between, len(c.Args))
	for i, a := range c.Args {
		v, ok := r.value(a.X)
		if !ok {
			return v, false
		}
		args[i] = v
	}
	if f, own := r.funcs[c.Func]; own && len(args) == len(f.Params) {
		return r.own(f, args)
	}
	switch {
	case len(args) == 1:
		return r.function(c.Func, args[0])
	case len(args) == 0:
		return between{}, false
	}
	switch c.Func {
	case "hypot":
		return args[0].mul(args[0]).add(args[1].mul(args[1])).sqrt()
	case "min", "max":
		out := args[0]
		for _, a := range args[1:] {
			if c.Func == "min" {
				out = out.min(a)
			} else {
				out = out.max(a)
			}
		}
		return out, true
	}
	return between{}, false
}

// function is one of the language's own of one argument.
func (r *reading) function(name string, x between) (between, bool) {
	half := func(a between) between { return a.mul(exactly(big.NewRat(1, 2))) }
	switch name {
	case "sqrt":
		return r.notBelow(x).sqrt()
	case "cbrt":
		return x.rational(big.NewRat(1, 3))
	case "abs":
		return x.abs(), true
	case "sin":
		return x.sin(), true
	case "cos":
		return x.cos(), true
	case "tan":
		return x.sin().div(x.cos())
	case "asin", "arcsin":
		return x.asin()
	case "acos", "arccos":
		a, ok := x.asin()
		return half(piBetween()).sub(orZero(a)), ok
	case "atan", "arctan":
		return x.atan(), true
	case "exp":
		return x.exp(), true
	case "ln":
		return x.ln()
	case "log10":
		l, ok := x.ln()
		ten, _ := whole(10).ln()
		if !ok {
			return l, false
		}
		return l.div(ten)
	case "sinh":
		return half(x.exp().sub(x.neg().exp())), true
	case "cosh":
		x = x.abs()
		return x.rising(func(e *big.Float) between { p := between{e, e}; return half(p.exp().add(p.neg().exp())) }), true
	case "tanh":
		return x.rising(func(e *big.Float) between {
			p := between{e, e}
			v, _ := p.exp().sub(p.neg().exp()).div(p.exp().add(p.neg().exp()))
			return v
		}), true
	case "sgn":
		return between{down().SetInt64(int64(x.lo.Sign())), up().SetInt64(int64(x.hi.Sign()))}, true
	case "round":
		return x.rising(func(e *big.Float) between { return whole(rounded(e)) }), true
	}
	return between{}, false
}

// rounded is the whole number nearest to a number, a half away from 0.
func rounded(x *big.Float) int64 {
	n, _ := plus(new(big.Float).SetPrec(work).Abs(x), wide(0.5)).Int64()
	if x.Sign() < 0 {
		n = -n
	}
	return n
}

// own is a function of the page. One by intervals is the hull of every piece that
// its argument may lie in.
func (r *reading) own(f *syntax.FuncDef, args []between) (between, bool) {
	in := r
	for i, p := range f.Params {
		in = in.with(p, args[i])
	}
	if f.X != nil {
		return in.value(f.X)
	}
	var out between
	for i := range f.Pieces {
		p := &f.Pieces[i]
		at := in.names[p.Var]
		if p.Lo != nil {
			if lo, ok := in.value(p.Lo); !ok || at.hi.Cmp(lo.lo) < 0 || p.LoOpen && at.hi.Cmp(lo.lo) == 0 {
				continue
			}
		}
		if p.Hi != nil {
			if hi, ok := in.value(p.Hi); !ok || at.lo.Cmp(hi.hi) > 0 || p.HiOpen && at.lo.Cmp(hi.hi) == 0 {
				continue
			}
		}
		v, ok := in.value(p.X)
		if !ok {
			return v, false
		}
		if out.lo == nil {
			out = v
		} else {
			out = hull(out, v)
		}
		if at.lo.Cmp(at.hi) == 0 {
			break // the first piece that holds a place gives its value
		}
	}
	return out, out.lo != nil
}
