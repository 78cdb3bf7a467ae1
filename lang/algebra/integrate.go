package algebra

import (
	"steelyard/lang/syntax"
	"steelyard/units"
)

// Antiderivative is an expression whose derivative by a name is the given one,
// for powers, exponentials and sinusoids; false for any other.
//
// It is given for the working of an area, whose number comes from a search all the
// same: what is integrated by rule is checked by that.
func Antiderivative(x syntax.Expr, name string) (syntax.Expr, bool) {
	f, ok := FormOf(x, name)
	if !ok || f.Squared {
		return nil, false
	}
	t := integral{at: &syntax.Name{Name: name}}
	switch f.Kind {
	case PolynomialForm:
		for n, c := range f.C {
			ok = ok && t.power(c, units.NewExp(n, 1))
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
	if s := (normalizer{}).sum(t.sum); !s.lost() {
		t.sum = sumExpr(s)
	}
	return arrange(t.sum, x), true
}

// integral is an antiderivative, term by term.
//
// There is no term yet where the sum is nil; the antiderivative of 0 is written 0.
type integral struct {
	at  *syntax.Name
	sum syntax.Expr
}

// Without a constant: an area is the difference of two values, in which it cancels.
func (t *integral) add(x syntax.Expr) {
	if t.sum == nil {
		t.sum = x
	} else {
		t.sum = &syntax.Binary{Op: syntax.Add, X: t.sum, Y: x}
	}
}

// power integrates c·x^e; false for 1/x, whose logarithm would need a number
// without a unit.
//
// ∫c·x^e dx = c·x^(e+1)/(e+1).
func (t *integral) power(c syntax.Expr, e units.Exp) bool {
	up := e.Add(expOne)
	if syntax.IsBareZero(c) || up.Lost() || up.IsZero() {
		return syntax.IsBareZero(c)
	}
	raised := powerExpr(factor{t.at.Name, t.at, up})
	t.add(binary(syntax.Div, times(&syntax.Paren{X: c}, raised), ratExpr(expRat(up))))
	return true
}

// call integrates an exponential or a sinusoid of a line.
//
// With u = C[2]·x + C[3]: ∫exp(u) dx = exp(u)/C[2], ∫sin(u) dx = -cos(u)/C[2], ∫cos(u)
// dx = sin(u)/C[2].
func (t *integral) call(f Form) {
	inner := times(closedExpr(f.C[2], false), t.at)
	if !syntax.IsBareZero(f.C[3]) {
		inner = &syntax.Binary{Op: syntax.Add, X: inner, Y: f.C[3]}
	}
	c, of := f.C[1], "exp"
	switch {
	case f.Kind == WaveForm && f.Cosine:
		of = "sin"
	case f.Kind == WaveForm:
		of, c = "cos", &syntax.Unary{Op: syntax.Sub, X: closedExpr(c, false)}
	}
	t.add(binary(syntax.Div, times(&syntax.Paren{X: c}, call(of, inner)), f.C[2]))
}
