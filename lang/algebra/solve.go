package algebra

import (
	"math/big"
	"sort"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// Step is one rewriting of an equation: what stands on both sides after it, and
// why. The first step of a solution is the equation as it was given and has no
// reason.
type Step struct {
	Left, Right syntax.Expr
	Reason      string
	// By is what the reason speaks of ("divide both sides by …"), or nil.
	By syntax.Expr
}

// Root is one solution for the unknown.
type Root struct {
	X syntax.Expr
	// Steps lead from the end of the common steps to this root.
	Steps []Step
	// Also is a further solution that the inverse of a function leaves out, or
	// nil.
	Also syntax.Expr
	// Turns are solutions a few full turns of an angle away from these two; none
	// unless they are asked for.
	Turns []syntax.Expr
}

// Quadratic is a quadratic equation in standard form, A·t² + B·t + C = 0.
type Quadratic struct {
	In           syntax.Expr // what t is
	A, B, C      syntax.Expr
	Discriminant syntax.Expr
}

// Solution is what became of an equation.
type Solution struct {
	Steps     []Step
	Roots     []Root
	Quadratic *Quadratic // nil if it was none
}

// maxDepth bounds how often brackets, roots and functions are undone.
const maxDepth = 12

// solver keeps the steps of one rearrangement.
type solver struct {
	normalizer
	steps []Step
	quad  *Quadratic
	turns bool // solutions some full turns away are wanted
}

// Solve rearranges left = right for the unknown. It returns false where the
// unknown can't be isolated by inverse operations and is no root of a linear or
// quadratic equation.
func Solve(left, right syntax.Expr, unknown string) (*Solution, bool) {
	return solve(&solver{normalizer: normalizer{unknown: unknown}}, left, right)
}

// SolveTurns is Solve, with the solutions that lie a few full turns of an angle
// away from the principal one.
func SolveTurns(left, right syntax.Expr, unknown string) (*Solution, bool) {
	return solve(&solver{normalizer: normalizer{unknown: unknown}, turns: true}, left, right)
}

func solve(s *solver, left, right syntax.Expr) (*Solution, bool) {
	s.steps = []Step{{Left: left, Right: right}}
	l, ok1 := s.sum(left)
	r, ok2 := s.sum(right)
	if !ok1 || !ok2 {
		return nil, false
	}
	roots, ok := s.solve(collect(append(append(sum{}, l...), negate(r)...)), 0)
	if !ok || len(roots) == 0 {
		return nil, false
	}
	return &Solution{Steps: s.steps, Roots: roots, Quadratic: s.quad}, true
}

// note adds a step, unless it says again what the last one said.
func (s *solver) note(left, right syntax.Expr, reason string, by syntax.Expr) {
	left, right = unbracket(left), unbracket(right)
	last := s.steps[len(s.steps)-1]
	if syntax.PrintExpr(last.Left) == syntax.PrintExpr(right) && syntax.PrintExpr(last.Right) == syntax.PrintExpr(left) {
		reason, by = "swap the sides", nil
	}
	if syntax.PrintExpr(last.Left) == syntax.PrintExpr(left) && syntax.PrintExpr(last.Right) == syntax.PrintExpr(right) {
		return
	}
	s.steps = append(s.steps, Step{Left: left, Right: right, Reason: reason, By: by})
}

// unbracket takes brackets round a whole side off.
func unbracket(x syntax.Expr) syntax.Expr {
	for {
		p, ok := x.(*syntax.Paren)
		if !ok {
			return x
		}
		x = p.X
	}
}

// solve finds the roots of a sum that is to be zero.
func (s *solver) solve(eq sum, depth int) ([]Root, bool) {
	if depth > maxDepth {
		return nil, false
	}
	if base, k, ok := s.denominator(eq); ok {
		return s.multiplied(eq, base, k, depth)
	}
	if e, ok := s.lowest(eq); ok {
		return s.raised(eq, e, depth)
	}
	kinds := s.kinds(eq)
	if len(kinds) == 0 {
		return nil, false
	}
	before := len(s.steps)
	if len(kinds) == 1 {
		if roots, ok := s.oneKind(eq, kinds[0], depth); ok {
			return roots, true
		}
		s.steps = s.steps[:before]
	}
	if out, changed := s.opened(eq); changed {
		l, r := s.sides(out)
		s.note(l, r, "multiply the brackets out", nil)
		return s.solve(out, depth+1)
	}
	return s.squared(eq, depth)
}

// opened multiplies out the brackets that hold the unknown; false if there are
// none.
func (s *solver) opened(eq sum) (sum, bool) {
	var out sum
	changed := false
	for _, t := range eq {
		one, ok := s.open(t)
		if !ok {
			return nil, false
		}
		changed = changed || len(one) > 1
		out = append(out, one...)
	}
	return collect(out), changed
}

// denominator finds a bracket with the unknown that is divided by.
func (s *solver) denominator(eq sum) (factor, int, bool) {
	var base factor
	most := 0
	for _, t := range eq {
		for _, f := range t.factors {
			if f.exp.Num() >= 0 || !f.exp.IsInt() || isUnknown(f.base, s.unknown) || !s.holds(f.base) {
				continue
			}
			if _, bracket := f.base.(*syntax.Call); bracket {
				continue // 1/sin(θ) is left to the inverse of the function
			}
			if most == 0 || f.key == base.key {
				base, most = f, max(most, -f.exp.Num())
			}
		}
	}
	return base, most, most > 0
}

func isUnknown(x syntax.Expr, unknown string) bool {
	n, ok := x.(*syntax.Name)
	return ok && n.Name == unknown
}

// multiplied goes on after both sides are multiplied by a bracket.
func (s *solver) multiplied(eq sum, base factor, k int, depth int) ([]Root, bool) {
	e, _ := units.NewExp(k, 1)
	by := factor{base.key, base.base, e}
	var out sum
	for _, t := range eq {
		p, ok := t.mul(term{coef: big.NewRat(1, 1), factors: []factor{by}})
		if !ok {
			return nil, false
		}
		open, ok := s.open(p)
		if !ok {
			return nil, false
		}
		out = append(out, open...)
	}
	out = collect(out)
	l, r := s.sides(out)
	s.note(l, r, "multiply both sides by", powerExpr(by))
	return s.solve(out, depth+1)
}

// open multiplies out the brackets of a term that hold the unknown and have a
// whole positive power.
func (s *solver) open(t term) (sum, bool) {
	out := sum{{coef: t.coef}}
	for _, f := range t.factors {
		one := sum{{coef: big.NewRat(1, 1), factors: []factor{f}}}
		if f.exp.Num() > 0 && f.exp.IsInt() && s.holds(f.base) && !isUnknown(f.base, s.unknown) {
			var ok bool
			if one, ok = s.expand(f); !ok {
				return nil, false
			}
		}
		var ok bool
		if out, ok = s.product(nil, nil, out, one); !ok {
			return nil, false
		}
	}
	return out, true
}

// maxPower is the highest whole power of a bracket that is multiplied out.
const maxPower = 4

// expand multiplies a power of a bracket out.
func (s *solver) expand(f factor) (sum, bool) {
	closed := sum{{coef: big.NewRat(1, 1), factors: []factor{f}}}
	if b, ok := f.base.(*syntax.Binary); !ok || b.Op == syntax.Pow || f.exp.Num() > maxPower {
		return closed, true
	}
	inner, ok := s.sum(f.base)
	if !ok {
		return nil, false
	}
	out := inner
	for range f.exp.Num() - 1 {
		if out, ok = s.product(nil, nil, out, inner); !ok {
			return nil, false
		}
	}
	return out, true
}

// lowest finds the lowest power of the unknown, if that is negative.
func (s *solver) lowest(eq sum) (units.Exp, bool) {
	var low units.Exp
	for _, t := range eq {
		for _, f := range t.factors {
			if isUnknown(f.base, s.unknown) && f.exp.Float() < low.Float() {
				low = f.exp
			}
		}
	}
	return low, low.Num() < 0
}

// raised goes on after both sides are multiplied by a power of the unknown.
func (s *solver) raised(eq sum, low units.Exp, depth int) ([]Root, bool) {
	name := &syntax.Name{Name: s.unknown}
	by := factor{s.unknown, name, low.Neg()}
	var out sum
	for _, t := range eq {
		p, ok := t.mul(term{coef: big.NewRat(1, 1), factors: []factor{by}})
		if !ok {
			return nil, false
		}
		out = append(out, p)
	}
	out = collect(out)
	l, r := s.sides(out)
	s.note(l, r, "multiply both sides by", termExpr(term{coef: big.NewRat(1, 1), factors: []factor{by}}))
	return s.solve(out, depth+1)
}

// kinds lists what holds the unknown: the unknown itself, calls and brackets.
func (s *solver) kinds(eq sum) []string {
	var keys []string
	for _, t := range eq {
		for _, f := range t.factors {
			if !s.holds(f.base) {
				continue
			}
			known := false
			for _, k := range keys {
				known = known || k == f.key
			}
			if !known {
				keys = append(keys, f.key)
			}
		}
	}
	return keys
}

// power of a kind in a term, with the rest of the term.
func apart(t term, key string) (e units.Exp, rest term, base syntax.Expr) {
	rest = term{coef: t.coef}
	for _, f := range t.factors {
		if f.key == key {
			e, base = f.exp, f.base
			continue
		}
		rest.factors = append(rest.factors, f)
	}
	return e, rest, base
}

// oneKind solves an equation in which one thing holds the unknown.
func (s *solver) oneKind(eq sum, key string, depth int) ([]Root, bool) {
	byExp := map[units.Exp]sum{}
	var exps []units.Exp
	var base syntax.Expr
	for _, t := range eq {
		e, rest, b := apart(t, key)
		if b != nil {
			base = b
		}
		if _, seen := byExp[e]; !seen {
			exps = append(exps, e)
		}
		byExp[e] = append(byExp[e], rest)
	}
	sort.Slice(exps, func(i, j int) bool { return exps[i].Float() < exps[j].Float() })
	var zero units.Exp
	constant := byExp[zero]
	var powers []units.Exp
	for _, e := range exps {
		if !e.IsZero() {
			powers = append(powers, e)
		}
	}
	switch {
	case len(powers) == 1:
		return s.binomial(base, powers[0], byExp[powers[0]], constant, depth)
	case len(powers) == 2 && len(constant) == 0:
		return s.factored(base, powers, byExp, depth)
	case len(powers) == 2 && powers[1].Float() == 2*powers[0].Float():
		return s.quadratic(base, powers[0], byExp[powers[1]], byExp[powers[0]], constant, depth)
	}
	return nil, false
}

// sides sets the terms with the unknown on the left and the others on the
// right, the first of the left not negative.
func (s *solver) sides(eq sum) (left, right syntax.Expr) {
	var with, without sum
	for _, t := range eq {
		holds := false
		for _, f := range t.factors {
			holds = holds || s.holds(f.base)
		}
		if holds {
			with = append(with, t)
		} else {
			without = append(without, t.neg())
		}
	}
	if len(with) > 0 && allNegative(with) {
		with, without = negate(with), negate(without)
	}
	return sumExpr(with), sumExpr(without)
}

func allNegative(s sum) bool {
	for _, t := range s {
		if t.coef.Sign() > 0 {
			return false
		}
	}
	return true
}
