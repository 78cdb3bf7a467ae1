package algebra

import (
	"math/big"
	"slices"
	"sort"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// collected finds the roots of a sum that is to be 0, in which the unknown
// occurs more than once.
//
// The ways are tried from the surest to the last resort, and the steps of one that
// leads nowhere are taken back. First all denominators go; then an equation in powers
// of one thing is solved as a power, as a product or as a quadratic one; then several
// functions of one argument are written by one of them; then brackets are opened; and
// at last a root is left alone and squared, which may add solutions.
func (s *isolator) collected(eq sum, depth int) ([]root, bool) {
	if depth > maxDepth || eq.lost() || !s.budget.Spend(termSteps*int64(1+len(eq))) {
		return nil, false
	}
	if by, ok := s.divisor(eq); ok {
		if over, under, less := s.shared(eq, by); less {
			return s.onward(over, depth, multiplyBoth, under)
		}
		return s.multiplied(eq, by, depth)
	}
	kinds := s.kinds(eq)
	if len(kinds) == 0 {
		return []root{{rest: sumExpr(eq)}}, true
	}
	before := len(s.steps)
	if len(kinds) == 1 {
		if roots, ok := s.oneKind(eq, kinds[0], depth); ok {
			return roots, true
		}
		s.steps = s.steps[:before]
	}
	for _, way := range []func(sum, []factor, int) ([]root, bool){s.common, s.quarterTurns, s.wave, s.identities} {
		if roots, ok := way(eq, kinds, depth); ok {
			return roots, true
		}
		s.steps = s.steps[:before]
	}
	if out, changed := s.opened(eq); changed {
		return s.onward(out, depth, openBrackets)
	}
	return s.squared(eq, depth)
}

// divisor is what both sides are multiplied by to have nothing with the unknown
// below: the highest power of a bracket that is divided by, else of the unknown.
// A function's value below is left to its inverse.
//
// Brackets go before the unknown itself: multiplied by both at once, the degree would
// grow by more than it must, and a cubic equation can't be solved here.
func (s *isolator) divisor(eq sum) (factor, bool) {
	var bracket, name factor
	for _, t := range eq {
		for _, f := range t.factors {
			if f.exp.Num() >= 0 || !s.holds(f.base) {
				continue
			}
			if isName(f.base, s.unknown) {
				if f.exp.Float() < name.exp.Float() {
					name = f
				}
				continue
			}
			if _, called := f.base.(*syntax.Call); called || !f.exp.IsInt() {
				continue
			}
			if bracket.base == nil || f.key == bracket.key && f.exp.Float() < bracket.exp.Float() {
				bracket = f
			}
		}
	}
	if bracket.base == nil {
		bracket = name
	}
	bracket.exp = bracket.exp.Neg()
	return bracket, bracket.base != nil
}

// multiplied goes on after both sides are multiplied by a factor.
//
// The brackets are opened at once: what the factor was below is gone then, and only
// then do like terms come together.
func (s *isolator) multiplied(eq sum, by factor, depth int) ([]root, bool) {
	var out sum
	for _, t := range eq {
		out = append(out, s.open(t.mul(factorTerm(by)))...)
	}
	return s.onward(collect(out), depth, multiplyBoth, powerExpr(by))
}

// shared is an equation as one fraction, if several brackets are divided by and the upper
// side has one of them as a factor: that goes out, and what is below is multiplied with.
// Multiplied with first, the factor would be 0 where the equation has no value.
func (s *isolator) shared(eq sum, by factor) (over sum, under syntax.Expr, less bool) {
	several := slices.ContainsFunc(s.kinds(eq), func(f factor) bool {
		_, sum := f.base.(*syntax.Binary)
		return sum && f.key != by.key
	})
	if !several {
		return nil, nil, false
	}
	whole := sumExpr(eq)
	for _, x := range [2]syntax.Expr{whole, inBaseUnits(whole)} {
		f := s.fraction(x)
		before := len(f.under)
		f.divide()
		if f.over.lost() || len(f.under) == before {
			continue
		}
		for _, u := range f.under {
			under = times(under, group(sumExpr(u)))
		}
		return f.over, under, under != nil
	}
	return nil, nil, false
}

// onward notes what an equation has become, and goes on with that.
func (s *isolator) onward(eq sum, depth int, reason Reason, by ...syntax.Expr) ([]root, bool) {
	l, r := s.sides(eq)
	s.note(l, r, reason, by...)
	return s.collected(eq, depth+1)
}

// sides sets the terms with the unknown on the left and the others on the
// right, the first of the left not negative.
//
// A line of a working is read more easily without a minus in front, and 2·x = 6 is the
// line that a person writes for -2·x = -6.
func (s *isolator) sides(eq sum) (left, right syntax.Expr) {
	without, with := s.apart(eq)
	if len(with) > 0 && with.allNegative() {
		return sumExpr(with.neg()), sumExpr(without)
	}
	return sumExpr(with), sumExpr(without.neg())
}

// kinds lists what holds the unknown: the unknown itself, calls and brackets.
//
// In the order in which they are met, so that the same line leads to the same working
// each time.
func (s *isolator) kinds(eq sum) []factor {
	var all []factor
	seen := map[string]bool{}
	for _, t := range eq {
		for _, f := range t.factors {
			if s.holds(f.base) && !seen[f.key] {
				seen[f.key] = true
				all = append(all, f)
			}
		}
	}
	return all
}

// oneKind solves an equation in powers of one thing that holds the unknown.
//
// With A for the thing and e for the lowest power of it, these are solved:
//
//	c·A^e + d = 0             one power alone
//	A^e·(…) = 0               every term has A^e, so that A is 0, or the bracket
//	a·A^2e + b·A^e + c = 0    a quadratic equation in A^e
func (s *isolator) oneKind(eq sum, kind factor, depth int) ([]root, bool) {
	byExp := map[units.Exp]sum{}
	var powers []units.Exp
	for _, t := range eq {
		e := t.exponentOf(kind.key)
		if _, seen := byExp[e]; !seen && !e.IsZero() {
			powers = append(powers, e)
		}
		byExp[e] = append(byExp[e], t.without(kind.key))
	}
	sort.Slice(powers, func(i, j int) bool { return powers[i].Float() < powers[j].Float() })
	constant := byExp[units.Exp{}]
	low := powers[0]
	switch {
	case len(powers) == 1:
		return s.binomial(kind.base, low, byExp[low], constant, depth)
	case len(constant) == 0:
		return s.factored(eq, factor{kind.key, kind.base, low}, depth)
	case len(powers) == 2 && powers[1].Float() == 2*low.Float():
		return s.quadraticIn(kind.base, low, byExp[powers[1]], byExp[low], constant, depth)
	case !isName(kind.base, s.unknown): // of the unknown itself a search finds all
		return s.rationalRoot(kind, powers, byExp, depth)
	}
	return nil, false
}

// asTerm closes a sum into one term.
//
// A coefficient of several terms becomes a factor in brackets, (a + b), which can be
// divided by as a whole.
func asTerm(s sum) term {
	if s = (normalizer{}).closed(s); len(s) == 1 {
		return s[0]
	}
	return number(0, 1)
}

// binomial solves c·A^e + d = 0.
//
// Where c holds other names it may be 0, and then the unknown cancels: dividedBy keeps
// that case. A coefficient such as 1/m is multiplied by its inverse, since a person
// says `multiply by m` of it.
func (s *isolator) binomial(base syntax.Expr, e units.Exp, c, d sum, depth int) ([]root, bool) {
	if c.allNegative() {
		c, d = c.neg(), d.neg()
	}
	d = d.neg()
	coefficient := asTerm(c)
	inverse := coefficient.inv()
	value := sum{}
	if len(d) > 0 {
		value = sum{asTerm(d).mul(inverse)}
	}
	if inverse.lost || value.lost() {
		return nil, false
	}
	s.note(termExpr(coefficient.mul(factorTerm(s.factorOf(base, e)))), termExpr(asTerm(d)), bringOver, &syntax.Name{Name: s.unknown})
	if !coefficient.isOne() {
		reason, by := divideBoth, coefficient
		if divisorOnly(coefficient) {
			reason, by = multiplyBoth, inverse
		}
		s.note(powerExpr(factor{"", base, e}), sumExpr(value), reason, termExpr(by))
	}
	roots, ok := s.undoPower(base, e, value, depth+1)
	return dividedBy(roots, sum{coefficient}, d), ok
}

// factorOf is a power of something as a factor.
func (s *isolator) factorOf(base syntax.Expr, e units.Exp) factor {
	return factor{syntax.PrintExpr(base), base, e}
}

// divisorOnly tells whether a coefficient is one over something.
//
// 1/m and 1/(2·m) are, and so is 1/2, in whichever way that was written.
func divisorOnly(t term) bool {
	for _, f := range t.factors {
		if f.exp.Num() > 0 {
			return false
		}
	}
	return t.coef.Num().IsInt64() && t.coef.Num().Int64() == 1 && (len(t.factors) > 0 || !t.coef.IsInt())
}

// factored solves an equation of which every term has one factor: what is left
// without it is 0, or the factor is.
//
// Both ways are followed: what was divided by a name alone would lose the root 0,
// which is one of those that are asked for (the moment of launch, the equal height).
func (s *isolator) factored(eq sum, by factor, depth int) ([]root, bool) {
	b := s.fork()
	roots, ok := b.collected(eq.by(factorTerm(by).inv()), depth+1)
	if !ok {
		return nil, false
	}
	b.lead(roots)
	if s.quadratic = b.quadratic; s.quadratic != nil {
		b.lead(s.quadratic.double)
	}
	zero, ok := s.branch(by.base, nil, factorZero, depth+1)
	return append(roots, zero...), ok
}

// quadraticIn solves a·A^2e + b·A^e + c = 0 by the formula.
//
// The roots are A^e = (-b ± √(b² - 4·a·c))/(2·a). The discriminant is kept, for its
// sign is known only when there are numbers: rounding may leave a little below 0 of
// what is 0, and then the double root -b/(2·a) is meant. Where a holds names it may be
// 0 as well, and what is left is linear: flatten keeps its root, since the formula
// would divide by 0.
func (s *isolator) quadraticIn(base syntax.Expr, e units.Exp, a, b, c sum, depth int) ([]root, bool) {
	if a.allNegative() {
		a, b, c = a.neg(), b.neg(), c.neg()
	}
	ta, tb, tc := asTerm(a), asTerm(b), asTerm(c)
	product := ta.mul(tc)
	product.coef = new(big.Rat).Mul(product.coef, big.NewRat(-4, 1))
	reach := collect(sum{tb.pow(expTwo), product})
	if reach.lost() || ta.coef.Sign() == 0 {
		return nil, false
	}
	discriminant := sumExpr(reach)
	in := powerExpr(factor{"", base, e})
	s.quadratic = &quadratic{discriminant: discriminant}
	s.note(s.standardForm(base, e, ta, tb, tc), zeroExpr(), inStandardForm)
	twice := ta
	twice.coef = new(big.Rat).Mul(ta.coef, big.NewRat(2, 1))
	if x := collect(sum{tb.neg().mul(twice.inv())}); !x.lost() {
		s.quadratic.double, _ = s.branch(in, x, doubleRoot, depth+1)
	}
	var out []root
	for _, op := range []syntax.Op{syntax.Add, syntax.Sub} {
		numerator := &syntax.Binary{Op: op, X: termExpr(tb.neg()), Y: squareRoot(discriminant)}
		x := syntax.Expr(&syntax.Binary{Op: syntax.Div, X: &syntax.Paren{X: numerator}, Y: group(termExpr(twice))})
		roots, ok := s.branch(in, sum{atomTerm(x)}, quadraticRule, depth+1)
		if !ok {
			return nil, false
		}
		out = append(out, roots...)
	}
	if !ta.isNumber() {
		s.flatten(out, in, ta, tb, tc, depth)
	}
	return out, true
}

// flatten notes what the roots of a quadratic equation are where its first
// coefficient is 0.
func (s *isolator) flatten(roots []root, in syntax.Expr, a, b, c term, depth int) {
	flat, ok := s.branch(in, collect(sum{c.neg().mul(b.inv())}), withoutSquare, depth+1)
	flat = dividedBy(flat, sum{b}, sum{c})
	for i := range roots {
		if r := &roots[i]; ok && r.x != nil && r.lead == nil {
			r.lead, r.flat = termExpr(a), flat
		}
	}
}

// standardForm is a·A^2e + b·A^e + c.
//
// It is a line of the working by itself, from which a reader takes a, b and c for the
// formula.
func (s *isolator) standardForm(base syntax.Expr, e units.Exp, a, b, c term) syntax.Expr {
	x, y := a.mul(factorTerm(s.factorOf(base, e.Add(e)))), b.mul(factorTerm(s.factorOf(base, e)))
	return sumExpr(collect(sum{x, y, c}))
}

// common solves an equation of several kinds of which every term has one.
func (s *isolator) common(eq sum, kinds []factor, depth int) ([]root, bool) {
	for _, f := range kinds {
		if low := eq.least(f.key); len(kinds) > 1 && low.Num() > 0 {
			return s.factored(eq, factor{f.key, f.base, low}, depth)
		}
	}
	return nil, false
}

// squared isolates a square root that holds the unknown, beside other terms
// that hold it too, and squares both sides. What this adds to the solutions is
// found when they are put back.
//
// Each squaring takes one root away, and depth ends what would go on for ever.
func (s *isolator) squared(eq sum, depth int) ([]root, bool) {
	for i, t := range eq {
		for _, f := range t.factors {
			if f.exp.Den() != 2 || !s.holds(f.base) || isName(f.base, s.unknown) {
				continue
			}
			rest := append(append(sum{}, eq[:i]...), eq[i+1:]...)
			if !rest.has(f.key) {
				return s.squareSides(t, rest.neg(), depth)
			}
		}
	}
	return nil, false
}

// has tells whether a term of a sum has a factor.
func (s sum) has(key string) bool {
	return slices.ContainsFunc(s, func(t term) bool { return t.find(key) >= 0 })
}

// squareSides squares both sides of t = rest.
//
// The left side is opened at once, so that its square root is gone in the step that
// says so.
func (s *isolator) squareSides(t term, rest sum, depth int) ([]root, bool) {
	s.note(termExpr(t), sumExpr(rest), leaveRoot)
	*s.widened = true
	opened, right := s.open(t.pow(expTwo)), s.raised(rest, expTwo)
	s.note(sumExpr(opened), sumExpr(right), powerReason(expTwo))
	return s.collected(opened.minus(right), depth+1)
}
