package algebra

import (
	"math/big"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// asTerm closes a sum into one term.
func (s *solver) asTerm(t sum) term {
	switch t = collect(t); len(t) {
	case 0:
		return number(0, 1)
	case 1:
		return t[0]
	}
	return atomTerm(sumExpr(t))
}

// binomial solves c·A^e + d = 0.
func (s *solver) binomial(base syntax.Expr, e units.Exp, c, d sum, depth int) ([]Root, bool) {
	if allNegative(c) {
		c, d = negate(c), negate(d)
	}
	coefficient, other := s.asTerm(c), s.asTerm(negate(d))
	if coefficient.coef.Sign() == 0 {
		return nil, false
	}
	power := powerExpr(factor{"", base, e})
	left, ok := coefficient.mul(term{coef: big.NewRat(1, 1), factors: []factor{{syntax.PrintExpr(base), base, e}}})
	if !ok {
		return nil, false
	}
	s.note(termExpr(left), termExpr(other), "bring what holds "+s.unknown+" to one side", nil)
	inverse, ok := coefficient.inv()
	if !ok {
		return nil, false
	}
	value, ok := other.mul(inverse)
	if !ok {
		return nil, false
	}
	if other.coef.Sign() == 0 {
		value = number(0, 1)
	}
	if !coefficient.isNumber() || coefficient.coef.Cmp(big.NewRat(1, 1)) != 0 {
		reason, by := "divide both sides by", coefficient
		if divisorOnly(coefficient) {
			reason, by = "multiply both sides by", inverse
		}
		s.note(power, termExpr(value), reason, termExpr(by))
	}
	return s.undoPower(base, e, value, depth)
}

// divisorOnly tells whether a coefficient is one over something.
func divisorOnly(t term) bool {
	for _, f := range t.factors {
		if f.exp.Num() > 0 {
			return false
		}
	}
	return t.coef.Num().IsInt64() && t.coef.Num().Int64() == 1 && (len(t.factors) > 0 || !t.coef.IsInt())
}

// undoPower solves A^e = value.
func (s *solver) undoPower(base syntax.Expr, e units.Exp, value term, depth int) ([]Root, bool) {
	if e.Num() == 1 && e.Den() == 1 {
		return s.undo(base, value, depth)
	}
	inv, ok := e.Inv()
	if !ok {
		return nil, false
	}
	root, ok := value.pow(inv)
	if !ok {
		return nil, false
	}
	reason := powerReason(inv)
	if e.Num()%2 != 0 {
		s.note(base, termExpr(root), reason, nil)
		return s.undo(base, root, depth)
	}
	if value.coef.Sign() == 0 {
		s.note(base, termExpr(root), reason, nil)
		return s.undo(base, root, depth)
	}
	// An even power has two roots; the positive one stands first.
	var out []Root
	for _, t := range []term{root, root.neg()} {
		roots, ok := s.branch(base, termExpr(t), reason, func(b *solver) ([]Root, bool) { return b.undo(base, t, depth) })
		if !ok {
			return nil, false
		}
		out = append(out, roots...)
	}
	return out, true
}

// branch goes on from one of several possible steps, and gives the roots found
// there the steps that led to them.
func (s *solver) branch(left, right syntax.Expr, reason string, on func(*solver) ([]Root, bool)) ([]Root, bool) {
	b := &solver{normalizer: s.normalizer, steps: []Step{s.steps[len(s.steps)-1]}}
	b.note(left, right, reason, nil)
	roots, ok := on(b)
	for i := range roots {
		roots[i].Steps = append(append([]Step{}, b.steps[1:]...), roots[i].Steps...)
	}
	return roots, ok
}

// powerReason says which power both sides are raised to.
func powerReason(e units.Exp) string {
	switch {
	case e.Num() == 1 && e.Den() == 2:
		return "take the square root of both sides"
	case e.Num() == 1 && e.Den() == 3:
		return "take the cube root of both sides"
	case e.Num() == 2 && e.Den() == 1:
		return "square both sides"
	case e.Num() == -1 && e.Den() == 1:
		return "turn both sides upside down"
	case e.Den() == 1:
		return "raise both sides to the power " + e.String()
	}
	return "raise both sides to the power (" + e.String() + ")"
}

// undo solves A = value, where A is the unknown, a bracket or a call.
func (s *solver) undo(base syntax.Expr, value term, depth int) ([]Root, bool) {
	switch x := base.(type) {
	case *syntax.Name:
		return []Root{{X: termExpr(value)}}, x.Name == s.unknown
	case *syntax.Call:
		return s.undoCall(x, value, depth)
	case *syntax.Binary:
		if x.Op == syntax.Pow {
			return s.undoExponent(x, value, depth)
		}
	}
	inner, ok := s.sum(base)
	if !ok {
		return nil, false
	}
	return s.solve(collect(append(append(sum{}, inner...), value.neg())), depth+1)
}

// undoExponent solves n^B = value for what stands in the exponent.
func (s *solver) undoExponent(x *syntax.Binary, value term, depth int) ([]Root, bool) {
	if s.holds(x.X) || !s.holds(x.Y) {
		return nil, false
	}
	ln := func(x syntax.Expr) syntax.Expr { return &syntax.Call{Func: "ln", Args: []syntax.Arg{{X: x}}} }
	quotient := &syntax.Binary{Op: syntax.Div, X: ln(termExpr(value)), Y: ln(x.X)}
	s.note(x.Y, quotient, "take the logarithm of both sides", nil)
	inner, ok := s.sum(x.Y)
	if !ok {
		return nil, false
	}
	return s.solve(collect(append(append(sum{}, inner...), atomTerm(quotient).neg())), depth+1)
}

// inverse is the function that undoes another.
type inverse struct {
	of, by string
	reason string
	// also builds the solution that the principal value leaves out.
	also func(principal syntax.Expr) syntax.Expr
}

func pi() syntax.Expr { return &syntax.Pi{} }

var inverses = []inverse{
	{"sin", "asin", "take the angle with this sine", func(x syntax.Expr) syntax.Expr { return &syntax.Binary{Op: syntax.Sub, X: pi(), Y: x} }},
	{"cos", "acos", "take the angle with this cosine", func(x syntax.Expr) syntax.Expr { return &syntax.Unary{Op: syntax.Sub, X: x} }},
	{"tan", "atan", "take the angle with this tangent", func(x syntax.Expr) syntax.Expr { return &syntax.Binary{Op: syntax.Add, X: x, Y: pi()} }},
	{"asin", "sin", "take the sine of both sides", nil},
	{"acos", "cos", "take the cosine of both sides", nil},
	{"atan", "tan", "take the tangent of both sides", nil},
	{"exp", "ln", "take the natural logarithm of both sides", nil},
	{"ln", "exp", "take the exponential of both sides", nil},
}

// undoCall solves f(B) = value.
func (s *solver) undoCall(x *syntax.Call, value term, depth int) ([]Root, bool) {
	if len(x.Args) != 1 {
		return nil, false
	}
	inner, ok := s.sum(x.Args[0].X)
	if !ok {
		return nil, false
	}
	if x.Func == "abs" {
		return s.undoAbs(x, inner, value, depth)
	}
	for _, inv := range inverses {
		if inv.of != x.Func {
			continue
		}
		principal := syntax.Expr(&syntax.Call{Func: inv.by, Args: []syntax.Arg{{X: termExpr(value)}}})
		s.note(x.Args[0].X, principal, inv.reason, nil)
		roots, ok := s.solve(collect(append(append(sum{}, inner...), atomTerm(principal).neg())), depth+1)
		if ok && inv.also != nil && len(roots) == 1 {
			other := inv.also(principal)
			roots[0].Also = s.instead(x, inner, other, depth)
			for k := -maxTurns; s.turns && k <= maxTurns; k++ {
				for _, angle := range []syntax.Expr{principal, other} {
					if k == 0 {
						continue
					}
					if at := s.instead(x, inner, turned(angle, k), depth); at != nil {
						roots[0].Turns = append(roots[0].Turns, at)
					}
				}
			}
		}
		return roots, ok
	}
	return nil, false
}

// maxTurns is how many full turns away solutions are listed.
const maxTurns = 3

// turned is an angle some full turns on.
func turned(angle syntax.Expr, turns int) syntax.Expr {
	two := &syntax.Binary{Op: syntax.Mul, X: numberExpr(big.NewRat(int64(2*max(turns, -turns)), 1)), Y: pi()}
	op := syntax.Add
	if turns < 0 {
		op = syntax.Sub
	}
	return &syntax.Binary{Op: op, X: angle, Y: two}
}

// instead solves for the unknown with another angle in the place of the principal
// one; nil if that is not one root.
func (s *solver) instead(x *syntax.Call, inner sum, angle syntax.Expr, depth int) syntax.Expr {
	branch := &solver{normalizer: s.normalizer, steps: []Step{{Left: x, Right: x}}}
	more, ok := branch.solve(collect(append(append(sum{}, inner...), atomTerm(angle).neg())), depth+1)
	if !ok || len(more) != 1 {
		return nil
	}
	return more[0].X
}

// undoAbs solves |B| = value: B is the value or its negative.
func (s *solver) undoAbs(x *syntax.Call, inner sum, value term, depth int) ([]Root, bool) {
	var out []Root
	for _, t := range []term{value, value.neg()} {
		roots, ok := s.branch(x.Args[0].X, termExpr(t), "the size leaves the sign open", func(b *solver) ([]Root, bool) {
			return b.solve(collect(append(append(sum{}, inner...), t.neg())), depth+1)
		})
		if !ok {
			return nil, false
		}
		out = append(out, roots...)
	}
	return out, true
}

// factored solves c1·A^e1 + c2·A^e2 = 0: A is zero, or a binomial is left.
func (s *solver) factored(base syntax.Expr, powers []units.Exp, byExp map[units.Exp]sum, depth int) ([]Root, bool) {
	diff, ok := powers[1].Add(powers[0].Neg())
	if !ok {
		return nil, false
	}
	before := len(s.steps)
	other, ok := s.binomial(base, diff, byExp[powers[1]], byExp[powers[0]], depth)
	if !ok {
		return nil, false
	}
	tail := append([]Step{}, s.steps[before:]...)
	s.steps = s.steps[:before]
	for i := range other {
		other[i].Steps = append(append([]Step{}, tail...), other[i].Steps...)
	}
	zero, ok := s.undo(base, number(0, 1), depth)
	if !ok {
		return nil, false
	}
	return append(other, zero...), true
}

// quadratic solves a·A^2e + b·A^e + c = 0 by the formula.
func (s *solver) quadratic(base syntax.Expr, e units.Exp, a, b, c sum, depth int) ([]Root, bool) {
	if allNegative(a) {
		a, b, c = negate(a), negate(b), negate(c)
	}
	ta, tb, tc := s.asTerm(a), s.asTerm(b), s.asTerm(c)
	square, ok1 := tb.pow(mustExp(2))
	four, ok2 := ta.mul(tc)
	if !ok1 || !ok2 || ta.coef.Sign() == 0 {
		return nil, false
	}
	four.coef = new(big.Rat).Mul(four.coef, big.NewRat(-4, 1))
	discriminant := sumExpr(collect(sum{square, four}))
	in := powerExpr(factor{"", base, e})
	s.quad = &Quadratic{In: in, A: termExpr(ta), B: termExpr(tb), C: termExpr(tc), Discriminant: discriminant}
	s.note(s.standardForm(base, e, ta, tb, tc), numberExpr(new(big.Rat)), "set it in standard form", nil)
	twice := ta
	twice.coef = new(big.Rat).Mul(ta.coef, big.NewRat(2, 1))
	var out []Root
	for _, op := range []syntax.Op{syntax.Add, syntax.Sub} {
		numerator := &syntax.Binary{Op: op, X: termExpr(tb.neg()), Y: squareRoot(discriminant)}
		x := syntax.Expr(&syntax.Binary{Op: syntax.Div, X: &syntax.Paren{X: numerator}, Y: group(termExpr(twice))})
		roots, ok := s.branch(in, x, "the quadratic formula", func(b *solver) ([]Root, bool) {
			return b.undoPower(base, e, atomTerm(x), depth+1)
		})
		if !ok {
			return nil, false
		}
		out = append(out, roots...)
	}
	return out, true
}

func mustExp(n int) units.Exp {
	e, _ := units.NewExp(n, 1)
	return e
}

// standardForm is a·A^2e + b·A^e + c.
func (s *solver) standardForm(base syntax.Expr, e units.Exp, a, b, c term) syntax.Expr {
	key := syntax.PrintExpr(base)
	double, _ := e.Add(e)
	x, _ := a.mul(term{coef: big.NewRat(1, 1), factors: []factor{{key, base, double}}})
	y, _ := b.mul(term{coef: big.NewRat(1, 1), factors: []factor{{key, base, e}}})
	return sumExpr(collect(sum{x, y, c}))
}

// squared isolates a square root that holds the unknown, beside other terms
// that hold it too, and squares both sides. What this adds to the solutions is
// found when they are put back.
func (s *solver) squared(eq sum, depth int) ([]Root, bool) {
	for i, t := range eq {
		for _, f := range t.factors {
			if f.exp.Den() != 2 || !s.holds(f.base) || isUnknown(f.base, s.unknown) {
				continue
			}
			rest := append(append(sum{}, eq[:i]...), eq[i+1:]...)
			if alone(rest, f.key) {
				return s.squareSides(t, rest, depth)
			}
		}
	}
	return nil, false
}

// alone tells whether no term of a sum has a factor.
func alone(s sum, key string) bool {
	for _, t := range s {
		for _, f := range t.factors {
			if f.key == key {
				return false
			}
		}
	}
	return true
}

// squareSides squares t = -rest.
func (s *solver) squareSides(t term, rest sum, depth int) ([]Root, bool) {
	s.note(termExpr(t), sumExpr(negate(rest)), "leave the root alone on one side", nil)
	left, ok1 := t.pow(mustExp(2))
	right, ok2 := s.power(sumExpr(negate(rest)), mustExp(2))
	if !ok1 || !ok2 {
		return nil, false
	}
	opened, ok := s.open(left)
	if !ok {
		return nil, false
	}
	s.note(sumExpr(opened), sumExpr(right), "square both sides", nil)
	return s.solve(collect(append(opened, negate(right)...)), depth+1)
}
