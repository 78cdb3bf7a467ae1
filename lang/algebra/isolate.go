package algebra

import (
	"math/big"
	"slices"

	"steelyard/lang/limit"
	"steelyard/lang/ops"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// isolator rearranges one equation for its unknown, and keeps the steps.
//
// Forks share what they point to, so that a warning of one way reaches the whole.
type isolator struct {
	normalizer
	budget    *limit.Budget
	steps     []Step
	quadratic *quadratic
	turns     Turns // which solutions some full turns away are wanted
	// alone tells that there is no other unknown. Of several, what a principal value
	// leaves out is found by a search alone.
	alone   bool
	repeats *bool // solutions come again with each turn of an angle
	// widened tells that a step may have added solutions where both sides have a
	// value: what holds after it need not have held before.
	widened *bool
}

// root is one solution for the unknown, or what is left where that cancels.
type root struct {
	x syntax.Expr
	// Lead is what was divided by, if it may be 0: then, and where there is no x, the
	// unknown cancels and rest must be 0.
	lead, rest syntax.Expr
	flat       []root // the roots where lead is 0, if these are others
	// angle is what is within the function that repeats with turns.
	angle   syntax.Expr
	tangent bool
	steps   []Step // from the end of the common steps to this root
	also    *root  // what the inverse of a function leaves out, or nil
	turns   []root // those some full turns of an angle away
}

// quadratic is a quadratic equation that was solved, with the roots that it has
// if its discriminant is 0.
type quadratic struct {
	discriminant syntax.Expr
	double       []root
}

// maxDepth bounds how often an equation is collected anew.
const maxDepth = 12

// nodeSteps is how many elementary steps a node of an expression takes to be
// brought into normal form, and termSteps a term of a sum to be collected.
const nodeSteps, termSteps = 512, 2048

// spend takes what looking at expressions costs from the budget.
func (s *isolator) spend(all ...syntax.Expr) bool {
	return !slices.ContainsFunc(all, func(x syntax.Expr) bool { return !syntax.Spend(s.budget, nodeSteps, x) })
}

// equation finds the roots of left = right.
//
// A person solves U = ½·k·x² for x by undoing what was done to x, last first, and
// leaves the rest as it stands. So that is tried first where x stands in one place;
// the normal form, which sorts the line anew, is for equations where it stands in
// several.
func (s *isolator) equation(left, right syntax.Expr) ([]root, bool) {
	if !s.spend(left, right) {
		return nil, false
	}
	l, r := occurrences(left, s.unknown), occurrences(right, s.unknown)
	if l == 0 || r == 0 {
		x, other := left, right
		if l == 0 {
			x, other = right, left
		}
		value := normalizer{}.sum(other)
		if l+r == 0 {
			return nil, false
		}
		if l+r == 1 || isZeroValue(value) {
			s.note(x, other, swapSides)
			if roots, ok := s.isolated(x, value, 0); ok {
				return roots, true
			}
			s.steps = s.steps[:1]
		}
	}
	x, y := s.sum(left), s.sum(right)
	for _, side := range []*sum{&x, &y} {
		if isZeroValue(*side) {
			*side = nil // a 0 with a unit is no coefficient
		}
	}
	return s.collected(x.minus(y), 0)
}

// solve finds the values of the unknown for which x is a value without it.
func (s *isolator) solve(x syntax.Expr, value sum, depth int) ([]root, bool) {
	if !s.spend(x) {
		return nil, false
	}
	before := len(s.steps)
	if roots, ok := s.isolated(x, value, depth); ok {
		return roots, true
	}
	s.steps = s.steps[:before]
	return s.collected(s.sum(x).minus(value), depth+1)
}

// isolated finds the values of the unknown without collecting: x is the unknown,
// holds it once, or is a product that is to be 0.
//
// A product that is to be 0 comes before all else: undone factor by factor, it would
// lose every root but one.
func (s *isolator) isolated(x syntax.Expr, value sum, depth int) ([]root, bool) {
	if x = syntax.Unbracket(x); value.lost() {
		return nil, false
	}
	if isName(x, s.unknown) {
		return []root{{x: sumExpr(value)}}, true
	}
	if isZeroValue(value) {
		before := len(s.steps)
		if roots, ok := s.zeroProduct(x, depth); ok {
			return roots, true
		}
		s.steps = s.steps[:before]
	}
	if p, ok := x.(*syntax.Binary); ok && p.Op == syntax.Pow && s.holds(p.X) && s.holds(p.Y) {
		return s.ofItself(p, value, depth)
	}
	if occurrences(x, s.unknown) != 1 {
		return s.oneOf(x, value, depth)
	}
	return s.undo(x, value, depth)
}

// ofItself finds where a power of what holds the unknown, to what holds it too, is 0 or 1:
// it is 0 only where that is, and 1 only where that is 1 or -1, or where the exponent is 0.
// Not all of these need be solutions: 0^0 is 1, and (-1)^3 is -1.
func (s *isolator) ofItself(x *syntax.Binary, value sum, depth int) ([]root, bool) {
	one := sum{number(1, 1)}
	*s.widened = true
	switch {
	case len(value) == 0:
		return s.branch(x.X, nil, powerZero, depth+1)
	case len(value.minus(one)) > 0:
		return nil, false
	}
	roots, ok := s.branches(x.X, []sum{one, one.neg()}, powerOne, depth+1)
	if !ok {
		return nil, false
	}
	more, ok := s.branch(x.Y, nil, powerOne, depth+1)
	return append(roots, more...), ok
}

// oneOf solves for the least or the greatest of several expressions, all with the
// unknown: one of them has the value. Which one it is tells who puts the roots back.
//
// Where one has it whatever the unknown is, a whole stretch may be solutions, which no
// root says.
func (s *isolator) oneOf(x syntax.Expr, value sum, depth int) ([]root, bool) {
	c, ok := x.(*syntax.Call)
	if !ok || c.Func != "min" && c.Func != "max" {
		return nil, false
	}
	*s.widened = true
	var all []root
	for _, a := range c.Args {
		if !s.holds(a.X) {
			return nil, false
		}
		roots, ok := s.branch(a.X, value, oneArgument, depth+1)
		if !ok || slices.ContainsFunc(roots, func(r root) bool { return r.x == nil || r.lead != nil }) {
			return nil, false
		}
		all = append(all, roots...)
	}
	return all, true
}

// to goes on with an inner expression and its value.
func (s *isolator) to(x syntax.Expr, value sum, depth int, reason Reason, by ...syntax.Expr) ([]root, bool) {
	s.note(x, sumExpr(value), reason, by...)
	return s.solve(x, value, depth)
}

// fork is an isolator that goes on from the last step, for one of several ways.
//
// It begins with the last step that the ways have in common, which note compares the
// next one with; lead leaves that one out when the steps are joined.
func (s *isolator) fork() *isolator {
	return &isolator{normalizer: s.normalizer, budget: s.budget, turns: s.turns, alone: s.alone, repeats: s.repeats, widened: s.widened, steps: []Step{s.steps[len(s.steps)-1]}}
}

// lead puts the steps since a fork before those of the roots found there.
func (s *isolator) lead(roots []root) {
	for i := range roots {
		roots[i].after(s.steps[1:])
	}
}

// branch goes on with one of several values.
func (s *isolator) branch(x syntax.Expr, value sum, reason Reason, depth int) ([]root, bool) {
	b := s.fork()
	roots, ok := b.to(x, value, depth, reason)
	b.lead(roots)
	return roots, ok
}

// after puts steps before those of a root.
func (r *root) after(steps []Step) {
	r.steps = slices.Concat(steps, r.steps)
	if r.also != nil {
		r.also.after(steps)
	}
	for i := range r.turns {
		r.turns[i].after(steps)
	}
}

// undo undoes the outermost operation of an expression.
//
// One operation for each step of the working, from the outside in.
func (s *isolator) undo(x syntax.Expr, value sum, depth int) ([]root, bool) {
	if base, e, ok := powerOf(x); ok {
		return s.undoPower(base, e, value, depth)
	}
	switch x := x.(type) {
	case *syntax.Unary:
		if x.Op == syntax.Sub {
			return s.to(x.X, value.neg(), depth, changeSigns)
		}
		return s.solve(x.X, value, depth)
	case *syntax.Call:
		return s.undoCall(x, value, depth)
	case *syntax.Binary:
		switch x.Op {
		case syntax.Add, syntax.Sub:
			return s.undoSum(x, value, depth)
		case syntax.Mul, syntax.Div:
			return s.undoProduct(x, value, depth)
		}
		return s.undoExponent(x, value, depth)
	}
	return nil, false
}

// split takes the term or the factor with the unknown out.
func (s *isolator) split(all []syntax.Link) (mine syntax.Link, rest []syntax.Link) {
	for _, p := range all {
		if s.holds(p.X) {
			mine = p
		} else {
			rest = append(rest, p)
		}
	}
	return mine, rest
}

// undoSum moves the other terms to the other side.
//
// The step is said as it would be in class: add, where all the others are subtracted,
// else subtract.
func (s *isolator) undoSum(x *syntax.Binary, value sum, depth int) ([]root, bool) {
	mine, rest := s.split(syntax.Terms(x))
	var moved sum
	subtracted := 0
	for _, r := range rest {
		one := normalizer{}.sum(r.X)
		if r.Minus {
			subtracted++
			one = one.neg()
		}
		moved = append(moved, one...)
	}
	moved = collect(moved)
	reason, by := subtractBoth, moved
	if subtracted == len(rest) {
		reason, by = addBoth, moved.neg()
	}
	inner := mine.X
	if mine.Minus {
		inner = &syntax.Unary{Op: syntax.Sub, X: closedExpr(syntax.Unbracket(mine.X), false)}
		if t := (normalizer{}).sum(mine.X); len(t) == 1 && !t.lost() {
			inner = &syntax.Unary{Op: syntax.Sub, X: mine.X}
		}
	}
	return s.to(inner, value.minus(moved), depth, reason, sumExpr(by))
}

// undoProduct divides by the other factors.
//
// There are two cases. The unknown stands above, as in m·a/b: what is above is divided
// by and what is below multiplied with, in one step. Or it stands below, as in
// a/(b·x): both sides are turned over, which fails where the value is 0, and is kept
// as what was divided by.
func (s *isolator) undoProduct(x *syntax.Binary, value sum, depth int) ([]root, bool) {
	n := normalizer{}
	mine, rest := s.split(syntax.Factors(x))
	over, under := sum{number(1, 1)}, sum{number(1, 1)}
	multiplied, divided := false, false
	for _, r := range rest {
		if r.Minus {
			divided, under = true, n.product(under, n.sum(r.X))
		} else {
			multiplied, over = true, n.product(over, n.sum(r.X))
		}
	}
	if mine.Minus { // over/(under·x) = value
		below := n.product(value, under)
		roots, ok := s.to(mine.X, n.quotient(over, below), depth, turnOver, mine.X, sumExpr(value))
		return dividedBy(roots, below, over), ok
	}
	left := n.product(value, under)
	value, by := n.quotient(left, over), n.quotient(over, under)
	if by.lost() {
		return nil, false
	}
	if under.isNumber() && !over.isNumber() || !divided || multiplied {
		roots, ok := s.to(mine.X, value, depth, divideBoth, sumExpr(by))
		return dividedBy(roots, over, left), ok
	}
	return s.to(mine.X, value, depth, multiplyBoth, sumExpr(under))
}

// dividedBy notes what was divided by to come to roots, unless it is a number, and
// what is left if it is 0.
func dividedBy(roots []root, lead, rest sum) []root {
	if lead.isNumber() {
		return roots
	}
	for i := range roots {
		if r := &roots[i]; r.x != nil && r.lead == nil {
			r.lead, r.rest = sumExpr(lead), sumExpr(rest)
		}
	}
	return roots
}

// undoPower finds where x^e is a value. The inverse of an even power has two
// branches, the positive one first.
//
// Raising both sides to an even power, for a root, may add solutions: -√x = 2 has
// none, and 4 is found. So widened is set, and whoever has numbers puts the roots
// back. A root is 0 where what it is taken of is, and nowhere else.
func (s *isolator) undoPower(x syntax.Expr, e units.Exp, value sum, depth int) ([]root, bool) {
	if e == expOne {
		return s.solve(x, value, depth)
	}
	inv := e.Inv()
	if inv.Lost() {
		return nil, false
	}
	root := normalizer{}.raised(value, inv)
	*s.widened = *s.widened || e.Den()%2 == 0 && !isZeroValue(value)
	if inv.Den()%2 != 0 || len(value) == 0 {
		return s.to(x, root, depth, powerReason(inv))
	}
	return s.branches(x, []sum{root, root.neg()}, powerReason(inv), depth)
}

// branches goes on with each of several values.
func (s *isolator) branches(x syntax.Expr, values []sum, reason Reason, depth int) ([]root, bool) {
	var all []root
	for _, v := range values {
		roots, ok := s.branch(x, v, reason, depth)
		if !ok {
			return nil, false
		}
		all = append(all, roots...)
	}
	return all, true
}

// undoExponent finds where n^x is a value.
//
// n^x = y is x = ln(y)/ln(n), for n other than 1: of 1, it is y = 1 that is left.
func (s *isolator) undoExponent(x *syntax.Binary, value sum, depth int) ([]root, bool) {
	if s.holds(x.X) {
		return nil, false
	}
	if base := s.sum(x.X); len(base) == 1 && base[0].isOne() {
		return []root{{rest: sumExpr(value.minus(base))}}, true
	}
	quotient := &syntax.Binary{Op: syntax.Div, X: call("ln", sumExpr(value)), Y: call("ln", x.X)}
	return s.to(x.Y, sum{atomTerm(quotient)}, depth, takeLogarithm)
}

// undoCall finds where a function has a value, by the inverse that the table of
// operations has for it. Its solutions are roots of their own; but where a full
// turn makes no difference, the first is the principal value, and the other is
// what that leaves out.
func (s *isolator) undoCall(x *syntax.Call, value sum, depth int) ([]root, bool) {
	inverse, inner, other, ok := s.inverseOf(x)
	if !ok {
		return nil, false
	}
	put := map[string]syntax.Expr{"y": syntax.Unbracket(sumExpr(value)), "b": other}
	angles := make([]sum, len(inverse.By))
	for i, text := range inverse.By {
		angles[i] = fromTable(text, put)
	}
	*s.widened = true
	reason := Reason(inverse.Reason)
	if inverse.Turns {
		*s.repeats = true
		roots, ok := s.to(inner, angles[0], depth, reason)
		if ok && len(roots) == 1 && roots[0].x != nil {
			s.otherAngles(&roots[0], inner, angles, depth)
			roots[0].angle, roots[0].tangent = inner, x.Func == "tan"
		}
		return roots, ok
	}
	if len(angles) == 1 {
		return s.to(inner, angles[0], depth, reason)
	}
	return s.branches(inner, angles, reason, depth)
}

// inverseOf is the inverse of a function, the argument with the unknown, and the
// other argument of one of two, whose order must not matter.
func (s *isolator) inverseOf(x *syntax.Call) (inverse ops.Inverse, inner, other syntax.Expr, ok bool) {
	f, ok := ops.Named(x.Func)
	if !ok || len(x.Args) == 0 || len(x.Args) > 1 && f.Op != ops.Hypot {
		return inverse, nil, nil, false
	}
	var rest []syntax.Arg
	for _, a := range x.Args {
		if inner == nil && s.holds(a.X) {
			inner = a.X
		} else {
			rest = append(rest, a)
		}
	}
	if len(rest) == 1 {
		other = rest[0].X
	} else {
		other = &syntax.Call{Func: x.Func, Args: rest} // a long side over the others
	}
	inverse, ok = f.Op.Inverse()
	return inverse, inner, other, ok && inner != nil
}

// fromTable is an expression of the table of operations in normal form, with
// what its letters mean put in.
func fromTable(text string, put map[string]syntax.Expr) sum {
	x, _ := syntax.ParseExpr(text) // which a test of the table has read
	return normalizer{}.sum(Substitute(syntax.Unplaced(x), put))
}

// otherAngles adds the solutions that the principal value of an angle leaves out.
//
// The table has the inverses of sine, cosine and tangent with each solution between
// two turns, as in asin(y) and π - asin(y). All others lie whole turns away from
// these; turns says how many are wanted, which only the statement knows.
func (s *isolator) otherAngles(r *root, inner syntax.Expr, angles []sum, depth int) {
	for _, other := range angles[1:] {
		r.also = s.instead(*r, inner, other, depth)
	}
	for k := s.turns.From; k <= s.turns.To; k++ {
		for _, angle := range angles {
			if k == 0 {
				continue
			}
			turn := atomTerm(&syntax.Pi{})
			turn.coef = big.NewRat(int64(2*k), 1)
			if at := s.instead(*r, inner, angle.plus(sum{turn}), depth); at != nil {
				r.turns = append(r.turns, *at)
			}
		}
	}
}

// instead is the root with another angle in the place of the principal one; nil
// if that is not one root.
func (s *isolator) instead(principal root, inner syntax.Expr, angle sum, depth int) *root {
	b := &isolator{normalizer: s.normalizer, budget: s.budget, alone: s.alone, repeats: s.repeats, widened: s.widened, steps: []Step{{Left: inner, Right: sumExpr(angle)}}}
	roots, ok := b.solve(inner, angle, depth)
	if !ok || len(roots) != 1 || roots[0].x == nil {
		return nil
	}
	name := &syntax.Name{Name: s.unknown}
	steps := append(slices.Clone(principal.steps), Step{Left: name, Right: roots[0].x, Reason: otherAngle})
	return &root{x: roots[0].x, steps: steps}
}
