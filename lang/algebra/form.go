package algebra

import (
	"steelyard/lang/syntax"
	"steelyard/units"
)

// FormKind is what an expression is as a function of one name.
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
type Form struct {
	Kind    FormKind
	C       []syntax.Expr
	Exp     units.Exp
	Squared bool // of a WaveForm: the square of the sine or cosine
	Cosine  bool
}

// FormOf brings an expression into a form; false if it is none of them.
func FormOf(x syntax.Expr, name string) (Form, bool) {
	s := &solver{normalizer: normalizer{unknown: name}}
	t, ok := s.sum(x)
	if !ok {
		return Form{}, false
	}
	if out, changed := s.opened(collect(t)); changed {
		t = out
	}
	t = collect(t)
	if f, ok := s.byPowers(t); ok {
		return f, true
	}
	return s.byCall(t)
}

// byPowers reads a sum of powers of the name.
func (s *solver) byPowers(t sum) (Form, bool) {
	byExp := map[units.Exp]sum{}
	for _, one := range t {
		e, rest, _ := apart(one, s.unknown)
		for _, f := range rest.factors {
			if s.holds(f.base) {
				return Form{}, false
			}
		}
		byExp[e] = append(byExp[e], rest)
	}
	var zero units.Exp
	whole := true
	for e := range byExp {
		whole = whole && e.IsInt() && e.Num() >= 0 && e.Num() <= 2
	}
	switch {
	case whole:
		f := Form{Kind: PolynomialForm}
		for n := range 3 {
			e := zero
			if n > 0 {
				e = mustExp(n)
			}
			f.C = append(f.C, sumExpr(collect(byExp[e])))
		}
		return f, true
	case len(byExp) == 1:
		for e, c := range byExp {
			return Form{Kind: PowerForm, C: []syntax.Expr{sumExpr(collect(c))}, Exp: e}, true
		}
	}
	return Form{}, false
}

// byCall reads a constant and one multiple of a sine, a cosine, the square of
// one, or an exponential, of a line.
func (s *solver) byCall(t sum) (Form, bool) {
	var free, with sum
	for _, one := range t {
		if s.holds(termExpr(one)) {
			with = append(with, one)
		} else {
			free = append(free, one)
		}
	}
	if len(with) != 1 {
		return Form{}, false
	}
	var call *syntax.Call
	rest := term{coef: with[0].coef}
	square := false
	for _, f := range with[0].factors {
		c, is := f.base.(*syntax.Call)
		switch {
		case !s.holds(f.base):
			rest.factors = append(rest.factors, f)
		case is && call == nil && len(c.Args) == 1 && f.exp.IsInt() && (f.exp.Num() == 1 || f.exp.Num() == 2):
			call, square = c, f.exp.Num() == 2
		default:
			return Form{}, false
		}
	}
	if call == nil {
		return Form{}, false
	}
	inner, ok := FormOf(call.Args[0].X, s.unknown)
	if !ok || inner.Kind != PolynomialForm || !isZero(inner.C[2]) {
		return Form{}, false
	}
	f := Form{C: []syntax.Expr{sumExpr(collect(free)), termExpr(rest), inner.C[1], inner.C[0]}, Squared: square, Cosine: call.Func == "cos"}
	switch {
	case call.Func == "sin" || call.Func == "cos":
		f.Kind = WaveForm
	case call.Func == "exp" && !square:
		f.Kind = ExponentialForm
	default:
		return Form{}, false
	}
	return f, true
}

func isZero(x syntax.Expr) bool {
	n, ok := x.(*syntax.Number)
	return ok && n.Value.Float() == 0
}
