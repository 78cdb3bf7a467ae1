package algebra

import (
	"math/big"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// Derivative is the derivative of an expression by a name, its like terms
// gathered; false where a rule is not known.
func Derivative(x syntax.Expr, name string) (syntax.Expr, bool) {
	d := deriver{normalizer{unknown: name}}
	out, ok := d.of(x, 0)
	if !ok {
		return nil, false
	}
	if s, ok := (normalizer{}).sum(out); ok {
		out = sumExpr(collect(s))
	}
	if short, ok := OneFraction(out); ok {
		out = short
	}
	return Arrange(out, x), true
}

type deriver struct{ normalizer }

func zeroExpr() syntax.Expr { return numberExpr(new(big.Rat)) }

// of differentiates by the rules for sums, products, quotients, powers and
// functions.
func (d deriver) of(x syntax.Expr, depth int) (syntax.Expr, bool) {
	if depth > 60 {
		return nil, false
	}
	if !d.holds(x) {
		return zeroExpr(), true
	}
	switch x := x.(type) {
	case *syntax.Name:
		return written("1"), true
	case *syntax.Paren:
		return d.of(x.X, depth+1)
	case *syntax.Unary:
		in, ok := d.of(x.X, depth+1)
		if x.Op == syntax.Sub {
			in = &syntax.Unary{Op: syntax.Sub, X: closedExpr(in, false)}
		}
		return in, ok
	case *syntax.Root:
		return d.power(x.X, expHalf, depth)
	case *syntax.Call:
		return d.call(x, depth)
	case *syntax.Binary:
		return d.binary(x, depth)
	}
	return nil, false
}

func (d deriver) binary(x *syntax.Binary, depth int) (syntax.Expr, bool) {
	if x.Op == syntax.Pow {
		if e, ok := syntax.Rational(x.Y); ok {
			return d.power(x.X, e, depth)
		}
		return nil, false
	}
	a, ok1 := d.of(x.X, depth+1)
	b, ok2 := d.of(x.Y, depth+1)
	if !ok1 || !ok2 {
		return nil, false
	}
	binary := func(op syntax.Op, x, y syntax.Expr) syntax.Expr {
		return &syntax.Binary{Op: op, X: &syntax.Paren{X: x}, Y: &syntax.Paren{X: y}}
	}
	switch x.Op {
	case syntax.Add, syntax.Sub:
		return binary(x.Op, a, b), true
	case syntax.Mul:
		return binary(syntax.Add, binary(syntax.Mul, a, x.Y), binary(syntax.Mul, x.X, b)), true
	}
	if !d.holds(x.Y) {
		return binary(syntax.Div, a, x.Y), true
	}
	top := binary(syntax.Sub, binary(syntax.Mul, a, x.Y), binary(syntax.Mul, x.X, b))
	return binary(syntax.Div, top, binary(syntax.Mul, x.Y, x.Y)), true
}

// power differentiates a power with a rational exponent.
func (d deriver) power(base syntax.Expr, e units.Exp, depth int) (syntax.Expr, bool) {
	in, ok := d.of(base, depth+1)
	less, fits := e.Add(mustExp(-1))
	if !ok || !fits {
		return nil, false
	}
	raised := powerExpr(factor{"", closedExpr(unbracket(base), true), less})
	if less.IsZero() {
		raised = written("1")
	}
	if less.Num() < 0 {
		raised = &syntax.Binary{Op: syntax.Div, X: written("1"), Y: &syntax.Paren{X: powerExpr(factor{"", closedExpr(unbracket(base), true), less.Neg()})}}
	}
	k := ratExpr(big.NewRat(int64(e.Num()), int64(e.Den())))
	return times(times(k, &syntax.Paren{X: raised}), &syntax.Paren{X: in}), true
}

// call differentiates a function of one argument.
func (d deriver) call(x *syntax.Call, depth int) (syntax.Expr, bool) {
	if len(x.Args) != 1 {
		return nil, false
	}
	u := x.Args[0].X
	if x.Func == "sqrt" {
		return d.power(u, expHalf, depth)
	}
	in, ok := d.of(u, depth+1)
	if !ok {
		return nil, false
	}
	call := func(name string) syntax.Expr {
		return &syntax.Call{Func: name, Args: []syntax.Arg{{X: u}}}
	}
	var outer syntax.Expr
	switch x.Func {
	case "sin":
		outer = call("cos")
	case "cos":
		outer = &syntax.Paren{X: &syntax.Unary{Op: syntax.Sub, X: call("sin")}}
	case "tan":
		outer = &syntax.Paren{X: &syntax.Binary{Op: syntax.Div, X: written("1"), Y: &syntax.Binary{Op: syntax.Pow, X: call("cos"), Y: written("2")}}}
	case "exp":
		outer = x
	case "ln":
		outer = &syntax.Paren{X: &syntax.Binary{Op: syntax.Div, X: written("1"), Y: closedExpr(unbracket(u), true)}}
	default:
		return nil, false
	}
	return times(outer, &syntax.Paren{X: in}), true
}

// Antiderivative is an expression whose derivative by a name is the given one,
// for powers, exponentials and sinusoids; false for any other.
func Antiderivative(x syntax.Expr, name string) (syntax.Expr, bool) {
	f, ok := FormOf(x, name)
	if !ok || f.Squared {
		return nil, false
	}
	t := integral{at: &syntax.Name{Name: name}}
	switch f.Kind {
	case PolynomialForm:
		for n, c := range f.C {
			ok = ok && t.power(c, mustExp(n))
		}
	case PowerForm:
		ok = t.power(f.C[0], f.Exp)
	default:
		ok = t.power(f.C[0], units.Exp{})
		t.call(f)
	}
	switch {
	case !ok:
		return nil, false
	case t.sum == nil:
		return zeroExpr(), true
	}
	if s, ok := (normalizer{}).sum(t.sum); ok {
		t.sum = sumExpr(collect(s))
	}
	return Arrange(t.sum, x), true
}

// integral is an antiderivative, term by term.
type integral struct {
	at  *syntax.Name
	sum syntax.Expr
}

func (t *integral) add(x syntax.Expr) {
	if t.sum == nil {
		t.sum = x
	} else {
		t.sum = &syntax.Binary{Op: syntax.Add, X: t.sum, Y: x}
	}
}

func over(a, b syntax.Expr) syntax.Expr {
	return &syntax.Binary{Op: syntax.Div, X: &syntax.Paren{X: a}, Y: &syntax.Paren{X: b}}
}

// power integrates c·x^e; false for 1/x, whose logarithm would need a number
// without a unit.
func (t *integral) power(c syntax.Expr, e units.Exp) bool {
	up, ok := e.Add(mustExp(1))
	if isZero(c) || !ok || up.IsZero() {
		return isZero(c)
	}
	raised := powerExpr(factor{t.at.Name, t.at, up})
	t.add(over(times(&syntax.Paren{X: c}, raised), ratExpr(big.NewRat(int64(up.Num()), int64(up.Den())))))
	return true
}

// call integrates an exponential or a sinusoid of a line.
func (t *integral) call(f Form) {
	inner := times(closedExpr(f.C[2], false), t.at)
	if !isZero(f.C[3]) {
		inner = &syntax.Binary{Op: syntax.Add, X: inner, Y: f.C[3]}
	}
	c, of := f.C[1], "exp"
	switch {
	case f.Kind == WaveForm && f.Cosine:
		of = "sin"
	case f.Kind == WaveForm:
		of, c = "cos", &syntax.Unary{Op: syntax.Sub, X: closedExpr(c, false)}
	}
	call := &syntax.Call{Func: of, Args: []syntax.Arg{{X: inner}}}
	t.add(over(times(&syntax.Paren{X: c}, call), f.C[2]))
}
