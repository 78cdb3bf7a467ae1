package algebra

import (
	"steelyard/lang/syntax"
	"steelyard/units"
)

// FormKind is what an expression is as a function of one name.
//
// They are those that a first course has names for: the line and the parabola, a power
// law, a decay or growth, and a harmonic oscillation.
type FormKind uint8

// The kinds.
const (
	PolynomialForm  FormKind = iota // C[0] + C[1]·x + C[2]·x²
	PowerForm                       // C[0]·x^Exp
	ExponentialForm                 // C[0] + C[1]·exp(C[2]·x + C[3])
	WaveForm                        // C[0] + C[1]·sin(C[2]·x + C[3]), or its cosine or square
)

// Form is an expression seen as a function of one name, with its coefficients
// as expressions of what else stands in it.
//
// A curve whose equation has one of these forms is described in words with its own
// numbers (vertex, period, half-life) and needs no samples.
type Form struct {
	Kind    FormKind
	C       []syntax.Expr
	Exp     units.Exp
	Squared bool // of a WaveForm: the square of the sine or cosine
	Cosine  bool
}

// FormOf brings an expression into a form; false if it is none of them.
//
// Brackets with the name in them are opened first: (t - 2 s)² is a polynomial, too.
func FormOf(x syntax.Expr, name string) (Form, bool) {
	n := normalizer{unknown: name}
	s := n.sum(x)
	if s.lost() {
		return Form{}, false
	}
	if out, changed := n.opened(s); changed {
		s = out
	}
	if f, ok := n.byPowers(s); ok {
		return f, true
	}
	return n.byCall(s)
}

// byPowers reads a sum of powers of the name.
//
// A sum of several powers that is no polynomial of degree 2 has no name that a course
// gives it.
func (n normalizer) byPowers(s sum) (Form, bool) {
	byExp := map[units.Exp]sum{}
	polynomial := true
	for _, t := range s {
		e, rest := t.exponentOf(n.unknown), t.without(n.unknown)
		if n.inTerm(rest) {
			return Form{}, false
		}
		byExp[e] = append(byExp[e], rest)
		polynomial = polynomial && e.IsInt() && e.Num() >= 0 && e.Num() <= 2
	}
	if polynomial {
		f := Form{Kind: PolynomialForm}
		for e := range 3 {
			f.C = append(f.C, sumExpr(byExp[units.NewExp(e, 1)]))
		}
		return f, true
	}
	if len(byExp) == 1 {
		for e, c := range byExp {
			return Form{Kind: PowerForm, C: []syntax.Expr{sumExpr(c)}, Exp: e}, true
		}
	}
	return Form{}, false
}

// byCall reads a constant and one multiple of a sine, a cosine, the square of
// one, or an exponential, of a line.
//
// The argument must be linear in the name: sin(ω·t + φ) is a wave, sin(t²) is none.
func (n normalizer) byCall(s sum) (Form, bool) {
	free, with := n.apart(s)
	if len(with) != 1 {
		return Form{}, false
	}
	var c *syntax.Call
	squared := false
	rest := with[0]
	for _, f := range with[0].factors {
		if !n.holds(f.base) {
			continue
		}
		call, is := f.base.(*syntax.Call)
		if !is || c != nil || len(call.Args) != 1 || f.exp != expOne && f.exp != expTwo {
			return Form{}, false
		}
		c, squared, rest = call, f.exp == expTwo, rest.without(f.key)
	}
	line, ok := FormOf(c.Args[0].X, n.unknown)
	if !ok || line.Kind != PolynomialForm || !syntax.IsBareZero(line.C[2]) {
		return Form{}, false
	}
	f := Form{C: []syntax.Expr{sumExpr(free), termExpr(rest), line.C[1], line.C[0]}, Squared: squared, Cosine: c.Func == "cos"}
	switch {
	case c.Func == "sin" || c.Func == "cos":
		f.Kind = WaveForm
	case c.Func == "exp" && !squared:
		f.Kind = ExponentialForm
	default:
		return Form{}, false
	}
	return f, true
}

// apart parts the terms of a sum into those without and those with the unknown.
//
// What is without the unknown goes to the right side, or is the constant of a form.
func (n normalizer) apart(s sum) (without, with sum) {
	for _, t := range s {
		if n.inTerm(t) {
			with = append(with, t)
		} else {
			without = append(without, t)
		}
	}
	return without, with
}
