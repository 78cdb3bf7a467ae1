package algebra

import (
	"steelyard/lang/ops"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// Derivative is the derivative of an expression by a name, its like terms
// gathered; false where a rule is not known.
//
// It is used for the period with which solutions come again and for workings, not for
// numbers: slopes of curves are worked out beside the arithmetic in lang/run.
func Derivative(x syntax.Expr, name string) (syntax.Expr, bool) {
	d := deriver{normalizer{unknown: name}}
	out, ok := d.of(x, 0)
	if !ok {
		return nil, false
	}
	return arrange(gathered(out), x), true
}

// Slope is the slope of a plot of y against x, where both depend on a name. It is y/x
// where that is the same everywhere, and else dy/dx, the one derivative over the other.
// It is false where a rule is not known, and where the slope holds the name, so that
// the plot is not straight.
func Slope(y, x syntax.Expr, name string) (syntax.Expr, bool) {
	over := &syntax.Binary{Op: syntax.Div, X: closedExpr(y, false), Y: closedExpr(x, true)}
	if short, ok := OneFraction(over); ok && !syntax.Holds(short, name) {
		return short, true
	}
	up, ok1 := Derivative(y, name)
	across, ok2 := Derivative(x, name)
	if !ok1 || !ok2 {
		return nil, false
	}
	slope := gathered(&syntax.Binary{Op: syntax.Div, X: closedExpr(up, false), Y: closedExpr(across, true)})
	return slope, !syntax.Holds(slope, name)
}

// gathered is an expression with its like terms gathered, as one fraction where
// that is shorter.
//
// Rules of differentiation leave 2·x·1 + x²·0; nobody is shown that.
func gathered(x syntax.Expr) syntax.Expr {
	if s := (normalizer{}).sum(x); !s.lost() {
		x = sumExpr(s)
	}
	if short, ok := OneFraction(x); ok {
		x = short
	}
	return x
}

// The depth bounds how far functions stand within functions: by the chain rule each
// level may make the result several times as long.
type deriver struct{ normalizer }

// of differentiates by the rules for sums, products, quotients, powers and
// functions.
//
// What does not hold the name has a slope of 0, whatever it is, so that no rule is
// asked for a function that this package does not know.
func (d deriver) of(x syntax.Expr, depth int) (syntax.Expr, bool) {
	if depth > 60 {
		return nil, false
	}
	if !d.holds(x) {
		return zeroExpr(), true
	}
	if base, e, ok := powerOf(x); ok {
		return d.power(base, e, depth)
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
	case *syntax.Call:
		return d.call(x, depth)
	case *syntax.Binary:
		return d.binary(x, depth)
	}
	return nil, false
}

// With a and b for the slopes of X and Y: (X·Y)′ = a·Y + X·b, and (X/Y)′ = (a·Y -
// X·b)/Y². A power whose exponent holds the name is left alone.
func (d deriver) binary(x *syntax.Binary, depth int) (syntax.Expr, bool) {
	if x.Op == syntax.Pow {
		return nil, false
	}
	a, ok1 := d.of(x.X, depth+1)
	b, ok2 := d.of(x.Y, depth+1)
	if !ok1 || !ok2 {
		return nil, false
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
//
// (u^e)′ = e·u^(e-1)·u′. A negative power is written as a quotient at once, which the
// normal form would make of it anyway.
func (d deriver) power(base syntax.Expr, e units.Exp, depth int) (syntax.Expr, bool) {
	in, ok := d.of(base, depth+1)
	less := e.Add(expMinus)
	if !ok || less.Lost() {
		return nil, false
	}
	raised := powerExpr(factor{"", closedExpr(syntax.Unbracket(base), true), less})
	if less.IsZero() {
		raised = written("1")
	}
	if less.Num() < 0 {
		raised = &syntax.Binary{Op: syntax.Div, X: written("1"), Y: &syntax.Paren{X: powerExpr(factor{"", closedExpr(syntax.Unbracket(base), true), less.Neg()})}}
	}
	k := ratExpr(expRat(e))
	return times(times(k, &syntax.Paren{X: raised}), &syntax.Paren{X: in}), true
}

// call differentiates a function of one argument, by its slope in the table of
// operations.
//
// That slope is text such as "cos(a)" in the row of the function, with `a` for its
// argument: one text serves here, for numbers and for intervals. The rest is the chain
// rule.
func (d deriver) call(x *syntax.Call, depth int) (syntax.Expr, bool) {
	f, ok := ops.Named(x.Func)
	if !ok || len(x.Args) != 1 || f.Op.Derivative() == "" {
		return nil, false
	}
	u := x.Args[0].X
	in, ok := d.of(u, depth+1)
	if !ok {
		return nil, false
	}
	outer, _ := syntax.ParseExpr(f.Op.Derivative()) // the table's own
	outer = Substitute(syntax.Unplaced(outer), map[string]syntax.Expr{"a": syntax.Unbracket(u)})
	return times(closedExpr(outer, false), &syntax.Paren{X: in}), true
}
