package algebra

import (
	"steelyard/lang/syntax"
)

// Equation is a left and a right side.
type Equation struct{ Left, Right syntax.Expr }

// Root is one solution for the unknown.
type Root struct {
	X syntax.Expr
	// Steps lead from the end of the common steps to this root.
	Steps []Step
	// Also is a further solution that the inverse of a function leaves out, or
	// nil.
	Also *Root
	// Turns are solutions a few full turns of an angle away from these two; none
	// unless they are asked for.
	Turns []Root
}

// Quadratic is a quadratic equation in standard form, A·t² + B·t + C = 0.
type Quadratic struct {
	In           syntax.Expr // what t is
	A, B, C      syntax.Expr
	Discriminant syntax.Expr
	// Double are the roots if the discriminant is 0. Rounding may make it a little
	// less than that, and take the roots away.
	Double []Root
}

// Solution is what became of an equation.
type Solution struct {
	Steps     []Step // what all roots share
	Roots     []Root
	Quadratic *Quadratic // nil if it was none
}

// Solve isolates an unknown. Where it occurs once, one operation after the other
// is undone; else it is collected, and what is linear, quadratic, a product that
// is 0 or one power is solved. It returns false where none of this leads to the
// unknown alone.
func Solve(left, right syntax.Expr, unknown string) (*Solution, bool) {
	return solve(&isolator{normalizer: normalizer{unknown: unknown}}, left, right)
}

// SolveTurns is Solve, with the solutions that are a few full turns of an angle
// away from the principal one.
func SolveTurns(left, right syntax.Expr, unknown string) (*Solution, bool) {
	return solve(&isolator{normalizer: normalizer{unknown: unknown}, turns: true}, left, right)
}

func solve(s *isolator, left, right syntax.Expr) (*Solution, bool) {
	s.steps = []Step{{Left: left, Right: right}}
	roots, ok := s.equation(left, right)
	if !ok || len(roots) == 0 {
		return nil, false
	}
	roots = distinct(roots)
	for i, r := range roots {
		if once(left, right, s.unknown) && len(s.steps)+len(r.Steps) > 1 {
			roots[i].X = Arrange(r.X, left, right)
		}
	}
	return &Solution{Steps: s.steps, Roots: roots, Quadratic: s.quadratic}, true
}

// distinct drops roots that are the same expression as one before them.
func distinct(roots []Root) []Root {
	out := roots[:0:0]
	seen := map[string]bool{}
	for _, r := range roots {
		key := syntax.PrintExpr(r.X)
		if s, ok := (normalizer{}).sum(r.X); ok {
			key = sumKey(collect(s))
		}
		if !seen[key] {
			seen[key] = true
			out = append(out, r)
		}
	}
	return out
}

// once tells whether a name occurs once in an equation, so that it is isolated
// without collecting.
func once(left, right syntax.Expr, name string) bool {
	return occurrences(left, name)+occurrences(right, name) == 1
}

// StepsTo are the steps from an equation to one of its roots. The first step is a
// copy, and factors are in the order of the equation. The last step's right side
// is the root, perhaps in another form.
func StepsTo(left, right syntax.Expr, unknown string, s *Solution, root int) []Step {
	steps := append(append([]Step{}, s.Steps...), s.Roots[root].Steps...)
	if !once(left, right, unknown) {
		return steps
	}
	last := steps[len(steps)-1]
	x := s.Roots[root].X
	if short, ok := OneFraction(last.Right); ok && len(steps) > 1 && last.Reason != OtherAngle {
		steps = append(steps, Step{Left: last.Left, Right: short, Reason: Gather})
	} else if len(steps) == 1 && 5*len(syntax.PrintExpr(x)) < 4*len(syntax.PrintExpr(last.Right)) {
		steps = append(steps, Step{Left: last.Left, Right: x, Reason: Simplify})
	}
	for k := range steps[1:] {
		at := &steps[k+1]
		at.Left, at.Right = Arrange(at.Left, left, right), Arrange(at.Right, left, right)
		if at.By != nil {
			at.By = Arrange(at.By, left, right)
		}
	}
	return steps
}
