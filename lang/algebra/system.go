package algebra

import (
	"sort"

	"steelyard/lang/syntax"
)

// SystemRoot is one solution of several equations: an expression for each
// unknown, free of all of them, in the order in which they were asked.
type SystemRoot struct {
	X     []syntax.Expr
	Steps []Step
}

// isolated is an unknown with what it was found to be, later unknowns included.
type isolated struct {
	name string
	x    syntax.Expr
}

// System solves as many equations as there are unknowns, by elimination: an
// equation is solved for one unknown, which is put into the others, until one
// equation with one unknown is left. It returns false if no order of
// elimination leads to the end.
func System(eqs []Equation, unknowns []string) ([]SystemRoot, bool) {
	return eliminate(eqs, unknowns, nil, nil, unknowns)
}

func eliminate(eqs []Equation, left []string, done []isolated, steps []Step, asked []string) ([]SystemRoot, bool) {
	if len(left) == 1 {
		return lastUnknown(eqs, left[0], done, steps, asked)
	}
	for _, c := range simplest(eqs, left) {
		eq, name, x := eqs[c.equation], left[c.unknown], c.solution.Roots[0].X
		more := append(append([]Step{}, steps...), StepsTo(eq.Left, eq.Right, name, c.solution, 0)...)
		others := putInto(eqs, c.equation, name, x)
		rest := append(append([]string{}, left[:c.unknown]...), left[c.unknown+1:]...)
		if roots, ok := eliminate(others, rest, append(append([]isolated{}, done...), isolated{name, x}), more, asked); ok {
			return roots, true
		}
	}
	return nil, false
}

// choice is an equation solved for one of the unknowns.
type choice struct {
	equation, unknown int
	solution          *Solution
	length            int
}

// simplest lists which equation gives which unknown, the shortest first.
func simplest(eqs []Equation, left []string) []choice {
	var all []choice
	for i, eq := range eqs {
		for j, name := range left {
			s, ok := Solve(eq.Left, eq.Right, name)
			if ok && len(s.Roots) == 1 && s.Roots[0].Also == nil {
				all = append(all, choice{i, j, s, len(syntax.PrintExpr(s.Roots[0].X))})
			}
		}
	}
	sort.SliceStable(all, func(i, j int) bool { return all[i].length < all[j].length })
	return all
}

// putInto puts an unknown into all equations but the one it was found from.
func putInto(eqs []Equation, but int, name string, x syntax.Expr) []Equation {
	by := map[string]syntax.Expr{name: x}
	var out []Equation
	for i, eq := range eqs {
		if i != but {
			out = append(out, Equation{Substitute(eq.Left, by), Substitute(eq.Right, by)})
		}
	}
	return out
}

// lastUnknown solves the equation that is left, and puts its roots into what
// the others were found to be.
func lastUnknown(eqs []Equation, name string, done []isolated, steps []Step, asked []string) ([]SystemRoot, bool) {
	s, ok := Solve(eqs[0].Left, eqs[0].Right, name)
	if !ok {
		return nil, false
	}
	var out []SystemRoot
	for k, r := range s.Roots {
		root := r.X
		found := map[string]syntax.Expr{name: root}
		mine := StepsTo(eqs[0].Left, eqs[0].Right, name, s, k)
		mine[0].Reason = PutOthersIn
		if short, ok := OneFraction(root); ok && len(steps) > 0 {
			found[name] = short
			mine = append(mine, Step{Left: &syntax.Name{Name: name}, Right: short, Reason: Gather})
		}
		all := append(append([]Step{}, steps...), mine...)
		for i := len(done) - 1; i >= 0; i-- {
			x := Substitute(done[i].x, found)
			left := &syntax.Name{Name: done[i].name}
			all = append(all, Step{Left: left, Right: x, Reason: PutBack})
			if short := gathered(x); len(syntax.PrintExpr(short)) < len(syntax.PrintExpr(x)) {
				x = short
				all = append(all, Step{Left: left, Right: x, Reason: Gather})
			}
			found[done[i].name] = x
		}
		result := SystemRoot{Steps: all}
		for _, u := range asked {
			result.X = append(result.X, found[u])
		}
		out = append(out, result)
	}
	return out, true
}
