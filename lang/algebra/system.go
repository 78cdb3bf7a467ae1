package algebra

import (
	"slices"
	"sort"

	"steelyard/lang/limit"
	"steelyard/lang/syntax"
)

// elimination solves equations one after the other.
//
// Substitution is how systems are solved in class, and it needs no matrix: an equation
// that one unknown stands in by itself gives it, whatever the others are. Where each
// step would make the lines grow, or the unknowns stand in roots and products, it
// gives up, and numbers are searched for.
type elimination struct {
	budget *limit.Budget
	asked  []string
	turns  Turns
	// done are the unknowns found so far, and steps those that led to them. Lost tells that
	// one of these may have lost solutions.
	done    []isolated
	steps   []Step
	lost    bool
	notZero []syntax.Expr // unless something of this is 0
}

// isolated is an unknown with what it was found to be, later unknowns included.
//
// What it was found to be may hold the unknowns that are still left; putBack puts
// these in when they are known.
type isolated struct {
	name string
	x    syntax.Expr
}

// solve finds the unknowns that are left.
//
// Each way is followed to its end before the next is tried: the simplest choice may
// lead to an equation that can't be solved for the last unknown.
func (e elimination) solve(eqs []Equation, left []string) (*Solution, bool) {
	if len(left) == 1 {
		return e.last(eqs[0], left[0])
	}
	for i, eq := range eqs {
		if factors := eq.zeroFactors(left); len(factors) > 1 {
			return e.factorByFactor(eqs, i, factors, left)
		}
	}
	failed := &Solution{}
	for _, c := range e.simplest(eqs, left) {
		name, x := left[c.unknown], c.root.X[0]
		more := e
		more.lost = e.lost || c.widened || eqs[c.equation].Rooted(left)
		more.done = append(slices.Clone(e.done), isolated{name, x})
		more.steps = slices.Concat(e.steps, c.root.Working())
		if by := c.root.divisor(left); by != nil {
			more.notZero = append(slices.Clone(e.notZero), by)
		}
		out, ok := more.solve(putInto(eqs, c.equation, name, x), slices.Delete(slices.Clone(left), c.unknown, c.unknown+1))
		switch {
		case ok:
			return out, true
		case out != nil && len(failed.Alone) == 0:
			failed = out
		}
	}
	return failed, false
}

// zeroFactors are the factors of a product that is to be 0, of which one must be: all
// those that hold an unknown, if there are no others but numbers.
//
// A 0 on either side will do, and 0 N as well, which is 0 of its unit.
func (eq Equation) zeroFactors(left []string) []syntax.Expr {
	x, value := eq.Left, eq.Right
	if isZeroValue((normalizer{}).sum(x)) {
		x, value = value, x
	}
	if !isZeroValue((normalizer{}).sum(value)) {
		return nil
	}
	var all []syntax.Expr
	for _, name := range left {
		s := &isolator{normalizer: normalizer{unknown: name}}
		with, _ := s.zeroFactors(x)
		for _, f := range with {
			if !slices.Contains(all, f) {
				all = append(all, f)
			}
		}
	}
	return all
}

// factorByFactor solves equations of which one is a product that is to be 0: with each
// of its factors in its place.
//
// x·y = 0 with x + y = 1 is two systems, with x = 0 and with y = 0; eliminated at
// once, one of them would be lost.
func (e elimination) factorByFactor(eqs []Equation, at int, factors []syntax.Expr, left []string) (*Solution, bool) {
	all := &Solution{}
	for _, f := range factors {
		with := slices.Clone(eqs)
		with[at] = Equation{f, zeroExpr()}
		one := e
		one.steps = append(slices.Clone(e.steps), Step{Left: eqs[at].Left, Right: eqs[at].Right}, Step{Left: f, Right: zeroExpr(), Reason: factorZero})
		s, ok := one.solve(with, left)
		if !ok {
			return nil, false
		}
		all.Roots, all.Rests = append(all.Roots, s.Roots...), append(all.Rests, s.Rests...)
		all.Repeats, all.Widened = all.Repeats || s.Repeats, all.Widened || s.Widened
		all.NotZero = append(all.NotZero, s.NotZero...)
		if all.Alone = append(all.Alone, s.Alone...); len(s.Alone) == 0 {
			e.lost = true
		}
	}
	if e.lost {
		all.Alone = nil
	}
	return all, true
}

// loses tells whether a root in which other unknowns are left may lose solutions: it
// was divided by what may be 0 without that being a contradiction.
//
// F = k·x solved for k divides by x: where x may be 0, F is 0 too, and k may be
// anything. What is left of such a case is put back in by nobody, so that the way is
// not taken.
func (r Root) loses(left []string) bool {
	holds := func(x syntax.Expr) bool {
		return slices.ContainsFunc(left, func(name string) bool { return syntax.Holds(x, name) })
	}
	switch {
	case r.Lead == nil || !holds(r.Lead):
		return false
	case r.Rest == nil:
		return true
	}
	rest := (normalizer{}).sum(r.Rest)
	return rest.lost() || holds(r.Rest) || isZeroValue(rest)
}

// Rooted tells whether an even root of an unknown stands in an equation: such are multiplied as
// if both were of positive numbers.
//
// √(x)*√(y) is √(x*y) for positive numbers alone, so that with such roots solutions may be lost
// as well as won.
func (eq Equation) Rooted(unknowns []string) bool {
	varies := func(x syntax.Expr) bool {
		return slices.ContainsFunc(unknowns, func(name string) bool { return syntax.Holds(x, name) })
	}
	root := func(x syntax.Expr) bool {
		switch x := x.(type) {
		case *syntax.Root:
			return varies(x.X)
		case *syntax.Call:
			return x.Func == "sqrt" && varies(x)
		case *syntax.Binary:
			return x.Op == syntax.Pow && varies(x.X) && !syntax.Rational(x.Y).IsInt()
		}
		return false
	}
	return syntax.Any(eq.Left, root) || syntax.Any(eq.Right, root)
}

// divisor is what must not be 0 for a root in which other unknowns are left to be the only one:
// what was divided by, or where that holds one of them, what is left where it is 0.
func (r Root) divisor(left []string) syntax.Expr {
	if r.Lead != nil && slices.ContainsFunc(left, func(name string) bool { return syntax.Holds(r.Lead, name) }) {
		return r.Rest
	}
	return r.Lead
}

// choice is an equation solved for one of the unknowns.
//
// The length is that of the text in letters. Widened tells that a step may have added solutions.
type choice struct {
	equation, unknown int
	root              Root
	length            int
	widened           bool
}

// simplest lists which equation gives which unknown, the shortest first, and last those that
// were squared on the way.
//
// The length of the text is a good measure for that, and cheap: a short one was got by
// few steps, and makes the other equations grow least.
func (e elimination) simplest(eqs []Equation, left []string) []choice {
	var all []choice
	for i, eq := range eqs {
		for j, name := range left {
			s, ok := one(e.budget, eq, name, Turns{}, false)
			if ok && len(s.Roots) == 1 && len(s.Rests) == 0 && s.Roots[0].Also == nil && !s.Roots[0].loses(left) {
				all = append(all, choice{i, j, s.Roots[0], len(syntax.PrintExpr(s.Roots[0].X[0])), s.Widened})
			}
		}
	}
	sort.SliceStable(all, func(i, j int) bool {
		if all[i].widened != all[j].widened {
			return all[j].widened
		}
		return all[i].length < all[j].length
	})
	return all
}

// putInto puts an unknown into all equations but the one it was found from.
//
// Put into its own equation an unknown would leave 0 = 0, which says nothing.
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

// last solves the equation that is left, and puts its roots into what the other
// unknowns were found to be.
func (e elimination) last(eq Equation, name string) (*Solution, bool) {
	s, ok := one(e.budget, eq, name, e.turns, len(e.asked) == 1)
	if len(e.done) == 0 {
		return s, ok
	}
	var alone []Alone
	if !e.lost {
		alone = []Alone{{eq, name}}
	}
	if !ok {
		return &Solution{Alone: alone, NotZero: e.notZero}, false
	}
	s.Alone, s.NotZero = alone, e.notZero
	for k, r := range s.Roots {
		s.Roots[k] = e.putBack(r, name)
		if r.Also != nil {
			also := e.putBack(*r.Also, name)
			s.Roots[k].Also = &also
		}
		for _, t := range r.Turns {
			s.Roots[k].Turns = append(s.Roots[k].Turns, e.putBack(t, name))
		}
	}
	return s, true
}

// putBack works the other unknowns out from the last one.
//
// In the reverse of the order in which they were eliminated: each needs those that
// were found after it.
func (e elimination) putBack(r Root, name string) Root {
	found := map[string]syntax.Expr{name: r.X[0]}
	steps := slices.Concat(e.steps, r.Working())
	steps[len(e.steps)].Reason = putOthersIn
	put := func(name string, x syntax.Expr, reason Reason) {
		found[name] = x
		steps = append(steps, Step{Left: &syntax.Name{Name: name}, Right: x, Reason: reason})
	}
	if short, ok := OneFraction(r.X[0]); ok {
		put(name, short, gatherTerms)
	}
	for _, d := range slices.Backward(e.done) {
		x := Substitute(d.x, found)
		put(d.name, x, putBackIn)
		if short := arrange(gathered(x), x); len(syntax.PrintExpr(short)) < len(syntax.PrintExpr(x)) {
			put(d.name, short, gatherTerms)
		}
	}
	out := Root{Steps: steps}
	for _, u := range e.asked {
		out.X = append(out.X, found[u])
	}
	return out
}
