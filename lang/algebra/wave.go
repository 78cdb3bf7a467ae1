package algebra

import "steelyard/lang/syntax"

// wave solves a·sin(A) + b·cos(A) = c, which is R·cos(A - φ) = c with the long side
// R of a and b and the angle φ = atan2(a, b).
//
// The left side is the dot product of (b, a) with a unit vector at the angle A, which
// is R times the cosine of the angle between them. It has solutions where |c| ≤ R
// alone.
//
// One kind is a sine and one a cosine of the same angle, each to the first power and
// never multiplied with the other. Everything else is left to the identities.
func (s *isolator) wave(eq sum, kinds []factor, depth int) ([]root, bool) {
	if len(kinds) != 2 {
		return nil, false
	}
	sine, ok1 := kinds[0].base.(*syntax.Call)
	cosine, ok2 := kinds[1].base.(*syntax.Call)
	if !ok1 || !ok2 {
		return nil, false
	}
	a, b := kinds[0], kinds[1]
	if sine.Func == "cos" {
		sine, cosine, a, b = cosine, sine, b, a
	}
	if sine.Func != "sin" || cosine.Func != "cos" || !s.alike(sine.Args[0].X, cosine.Args[0].X) {
		return nil, false
	}
	var of, beside, rest sum
	for _, t := range eq {
		switch x, y := t.exponentOf(a.key), t.exponentOf(b.key); {
		case x == expOne && y.IsZero():
			of = append(of, t.without(a.key))
		case y == expOne && x.IsZero():
			beside = append(beside, t.without(b.key))
		case x.IsZero() && y.IsZero():
			rest = append(rest, t)
		default:
			return nil, false
		}
	}
	if len(rest) == 0 {
		return s.slope(of, beside, sine.Args[0].X, depth)
	}
	p, q := sumExpr(of), sumExpr(beside)
	value := (normalizer{}).quotient(rest.neg(), sum{atomTerm(call("hypot", p, q))})
	l, r := s.sides(eq)
	s.note(l, r, bringOver, &syntax.Name{Name: s.unknown})
	s.quadratic = s.justReached(of, beside, rest, sine.Args[0].X, depth)
	inner := &syntax.Binary{Op: syntax.Sub, X: sine.Args[0].X, Y: call("atan2", p, q)}
	return s.branch(call("cos", inner), value, oneWave, depth+1)
}

// justReached is what tells whether a wave reaches c at all, R² - c², and the roots
// where it just does: there the angle is φ, or half a turn from it.
//
// Rounding may put c a little beyond R there, and the arc cosine has no value.
func (s *isolator) justReached(a, b, c sum, angle syntax.Expr, depth int) *quadratic {
	var reach sum
	for i, x := range []sum{a, b, c} {
		square := asTerm(x).pow(expTwo)
		if i == 2 {
			square = square.neg()
		}
		reach = append(reach, square)
	}
	if reach = collect(reach); reach.lost() {
		return nil
	}
	out := &quadratic{discriminant: sumExpr(reach)}
	for _, side := range [][2]sum{{a, b}, {a.neg(), b.neg()}} {
		at := call("atan2", sumExpr(side[0]), sumExpr(side[1]))
		roots, ok := s.branch(angle, sum{atomTerm(at)}, oneWave, depth+1)
		if !ok {
			return nil
		}
		out.double = append(out.double, roots...)
	}
	return out
}

// slope solves a·sin(A) + b·cos(A) = 0, which is tan(A) = -b/a.
//
// Sine and cosine are never 0 together, so that dividing by the cosine loses no
// solution.
func (s *isolator) slope(a, b sum, angle syntax.Expr, depth int) ([]root, bool) {
	return s.to(call("tan", angle), (normalizer{}).quotient(b.neg(), a), depth+1, oneTangent)
}

// alike tells whether two expressions are the same in normal form.
//
// ω·t and t·ω are alike: the same text would be too much to ask.
func (s *isolator) alike(x, y syntax.Expr) bool {
	return len(s.sum(x).minus(s.sum(y))) == 0
}
