package algebra

import (
	"math/big"
	"slices"

	"steelyard/lang/limit"
	"steelyard/lang/syntax"
	"steelyard/units/each"
)

// Equation is a left and a right side.
type Equation struct{ Left, Right syntax.Expr }

// Root is one solution of equations.
type Root struct {
	// X is what the unknowns are, in the order in which they were asked. None of
	// them is in it.
	X []syntax.Expr
	// Steps lead from the equations as they were given to this root.
	Steps []Step
	// Also is a further solution that the inverse of a function leaves out, or
	// nil.
	Also *Root
	// Turns are solutions some full turns of an angle away from these two, by
	// rising number of turns; none unless they are asked for.
	Turns []Root
	// Lead is what was divided by on the way, if that may be 0, and Rest what must be
	// 0 then for any number to be a solution; nil if there is no such.
	Lead, Rest syntax.Expr
	// Flat are the roots where Lead is 0, if that leaves an equation with the unknown:
	// those of a quadratic one without its square. Rest is nil then.
	Flat []Root
	// angle is what holds the unknown within the sine, cosine or tangent that was
	// undone, if there was one.
	angle   syntax.Expr
	tangent bool
	unknown string
	// like is the order that the steps are arranged in, that of the equation; nil if they are
	// to stay as they are.
	like *order
}

// Turns are the least and the greatest number of full turns by which an angle may
// differ from the principal one.
type Turns struct{ From, To int }

// Working is the steps to a root as they are read: the first is the equation,
// without a reason; the last has the root on its right side, perhaps in a shorter
// form than X. Factors are in the order of the equation.
func (r Root) Working() []Step {
	if r.like == nil {
		return r.Steps
	}
	return r.like.gathered(r.Steps, r.X[0])
}

// Quadratic is a quadratic equation that was solved on the way.
type Quadratic struct {
	Discriminant syntax.Expr
	// Double are the roots if the discriminant is 0. Rounding may make it a little
	// less than that, and take the roots away.
	Double []Root
}

// Solution is what became of equations.
type Solution struct {
	Roots     []Root
	Quadratic *Quadratic // nil if there was none
	// Repeats tells that solutions come again with each turn of an angle.
	Repeats bool
	// Rests are what is left where the unknown cancels: where one is 0, every number
	// for which both sides have a value is a solution; where not, it adds none.
	Rests []syntax.Expr
	// Widened tells that a step may have added solutions, so that a rest that is 0
	// says nothing.
	Widened bool
	// Alone are the equations with one unknown that are left of a system when the others
	// are put in: each of its solutions solves one of them. There are none where a step may
	// have lost solutions.
	Alone []Alone
	// NotZero is what was divided by to put an unknown into the other equations: where some
	// of it is 0, solutions may be lost.
	NotZero []syntax.Expr
}

// Alone is an equation with one unknown.
type Alone struct {
	Equation
	Unknown string
}

// Solve finds as many unknowns as there are equations: an equation is solved for
// one unknown, which is put into the others, until one equation with one unknown
// is left. It returns false if no order of elimination leads to the end, with the
// equations that are left alone, if any. With
// turns, the solutions are listed too that are so many full turns of an angle away
// from the principal one. Where the budget ends, nothing is found.
func Solve(budget *limit.Budget, eqs []Equation, unknowns []string, turns Turns) (*Solution, bool) {
	e := elimination{budget: budget, asked: unknowns, turns: turns}
	return e.solve(eqs, unknowns)
}

// one solves one equation for an unknown. Where that occurs once, one operation
// after the other is undone; else it is collected, and what is linear, quadratic,
// a product that is 0 or one power is solved. It returns false where none of this
// leads to the unknown alone. Alone tells that no other is asked for.
func one(budget *limit.Budget, eq Equation, unknown string, turns Turns, alone bool) (*Solution, bool) {
	s := &isolator{normalizer: normalizer{unknown: unknown}, budget: budget, turns: turns, alone: alone, repeats: new(bool), widened: new(bool), steps: []Step{{Left: eq.Left, Right: eq.Right}}}
	left, right := undone(eq.Left), undone(eq.Right)
	if s.holds(eq.Left) || s.holds(eq.Right) {
		s.note(left, right, simplify)
	}
	found, ok := s.equation(left, right)
	if !ok || len(found) == 0 {
		return nil, false
	}
	shown := eq.shown(unknown, s.steps)
	out := &Solution{Repeats: *s.repeats, Widened: *s.widened}
	for _, r := range distinct(found) {
		if r.x == nil {
			out.Rests = append(out.Rests, r.rest)
		} else {
			out.Roots = append(out.Roots, shown(r))
		}
	}
	if q := s.quadratic; q != nil {
		out.Quadratic = &Quadratic{Discriminant: q.discriminant}
		out.Quadratic.Double = each.Of(q.double, shown)
	}
	return out, true
}

// distinct drops roots that are written as another, those first that do not repeat
// with a turn of an angle.
//
// A factor and its square give one root twice, which is no news to anyone.
func distinct(roots []root) []root {
	if len(roots) == 1 {
		return roots
	}
	at := map[string]int{}
	var out []root
	for _, r := range roots {
		if r.x == nil {
			out = append(out, r)
			continue
		}
		key := syntax.PrintExpr(r.x)
		i, twice := at[key]
		switch {
		case !twice:
			at[key] = len(out)
			out = append(out, r)
		case out[i].also == nil:
			out[i] = r
		}
	}
	return out
}

// shown returns what makes a root of a whole solution. Where the unknown occurs
// once, factors are put in the order of the equation; what was collected stays in
// the order in which it was.
func (eq Equation) shown(unknown string, common []Step) func(root) Root {
	once := occurrences(eq.Left, unknown)+occurrences(eq.Right, unknown) == 1
	o := orderOf(eq.Left, eq.Right)
	var show func(root) Root
	show = func(r root) Root {
		out := Root{X: []syntax.Expr{r.x}, Steps: slices.Concat(common, r.steps), Lead: r.lead, Rest: r.rest, angle: r.angle, tangent: r.tangent, unknown: unknown}
		if once {
			out.like = o
			if len(common)+len(r.steps) > 1 {
				out.X[0] = o.arrange(r.x)
			}
		}
		if r.also != nil {
			also := show(*r.also)
			out.Also = &also
		}
		out.Flat, out.Turns = each.Of(r.flat, show), each.Of(r.turns, show)
		return out
	}
	return show
}

// gathered arranges the steps to a root like the equation, and adds its short
// form.
//
// The short form is a step of its own: it is the line that a reader knows by heart,
// and the one above shows where it comes from.
func (o *order) gathered(of []Step, x syntax.Expr) []Step {
	steps := append(make([]Step, 0, len(of)+1), of...)
	last := steps[len(steps)-1]
	if len(steps) == 1 {
		if 5*len(syntax.PrintExpr(x)) < 4*len(syntax.PrintExpr(last.Right)) {
			steps = append(steps, Step{Left: last.Left, Right: x, Reason: simplify})
		}
	} else if last.Reason != otherAngle {
		if short, ok := OneFraction(last.Right); ok {
			steps = append(steps, Step{Left: last.Left, Right: short, Reason: gatherTerms})
		}
	}
	for k := range steps[1:] {
		at := &steps[k+1]
		at.Left, at.Right = o.arrange(at.Left), o.arrange(at.Right)
		at.By = each.Of(at.By, o.arrange)
	}
	return steps
}

// Period is what lies between a root and the next of its kind, where these come again
// evenly with the turns of an angle; those of a tangent do with half a turn. It
// returns false where they do not.
func (r Root) Period() (period syntax.Expr, ok bool) {
	if r.angle == nil {
		return nil, false
	}
	by, ok := Derivative(r.angle, r.unknown)
	if !ok || occurrences(by, r.unknown) > 0 {
		return nil, false
	}
	var turn syntax.Expr = &syntax.Pi{}
	if !r.tangent {
		turn = times(numberExpr(big.NewRat(2, 1)), turn)
	}
	return gathered(binary(syntax.Div, turn, by)), true
}

// Tangent tells whether a root comes again with half a turn, so that Also is one of
// its kind.
func (r Root) Tangent() bool { return r.tangent }
