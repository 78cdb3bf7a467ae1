package algebra

import (
	"math/big"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// Peel isolates an unknown that occurs once by undoing one operation after the
// other, as it is done on paper, and returns the steps to a root that is known
// already. It returns false where the unknown occurs more than once, or where
// the steps end elsewhere.
func Peel(left, right syntax.Expr, unknown string, root syntax.Expr) ([]Step, bool) {
	if occurrences(left, unknown)+occurrences(right, unknown) != 1 {
		return nil, false
	}
	n := normalizer{}
	want, ok := n.sum(root)
	if !ok {
		return nil, false
	}
	for _, negative := range []bool{false, true} {
		p := &peeler{normalizer: n, unknown: unknown, negative: negative}
		got, ok := p.run(left, right)
		if ok && len(collect(append(append(sum{}, got...), negate(want)...))) == 0 {
			if last := len(p.steps) - 1; last > 0 {
				p.steps[last].Right = root
			} else if was := syntax.PrintExpr(right); 5*len(syntax.PrintExpr(root)) < 4*len(was) {
				p.steps = append(p.steps, Step{Left: left, Right: root, Reason: "simplify"})
			}
			return p.steps, true
		}
		if ok && alike(sumExpr(collect(got)), root) {
			return p.steps, true
		}
		if !p.squared {
			break
		}
	}
	return nil, false
}

// StepsTo are the steps from an equation to one of its roots: one operation after
// the other where the unknown occurs once, else as the solution found them. The
// first step is a copy, and factors stand in the order of the equation. The last
// step's right side is the root, perhaps in another form.
func StepsTo(left, right syntax.Expr, unknown string, s *Solution, root int) []Step {
	steps, ok := Peel(left, right, unknown, s.Roots[root].X)
	if !ok {
		steps = append(append([]Step{}, s.Steps...), s.Roots[root].Steps...)
		last := steps[len(steps)-1]
		if n, is := last.Left.(*syntax.Name); is && n.Name == unknown && !alike(last.Right, s.Roots[root].X) {
			steps = append(steps, Step{Left: last.Left, Right: Arrange(s.Roots[root].X, left, right), Reason: "the angle that is asked for"})
		}
		return steps
	}
	if last := steps[len(steps)-1]; len(steps) > 1 {
		if short, ok := OneFraction(last.Right); ok {
			steps = append(steps, Step{Left: last.Left, Right: short, Reason: "gather"})
		}
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

func occurrences(x syntax.Expr, name string) int {
	n := 0
	syntax.Walk(x, func(x syntax.Expr) bool {
		if at, ok := x.(*syntax.Name); ok && at.Name == name && at.Line == 0 {
			n++
		}
		return true
	})
	return n
}

// peeler keeps an equation whose left side holds the unknown.
type peeler struct {
	normalizer
	unknown string
	steps   []Step
	// negative chooses the negative root of an even power; squared tells that
	// there was one.
	negative, squared bool
	x                 syntax.Expr // the side with the unknown
	value             sum         // the other side
}

// maxPeeled bounds how many operations are undone.
const maxPeeled = 40

// run undoes operations until the unknown stands alone.
func (p *peeler) run(left, right syntax.Expr) (sum, bool) {
	p.steps = []Step{{Left: left, Right: right}}
	p.x = left
	other := right
	if occurrences(right, p.unknown) > 0 {
		p.x, other = right, left
		p.steps = append(p.steps, Step{Left: right, Right: left, Reason: "swap the sides"})
	}
	var ok bool
	if p.value, ok = p.sum(other); !ok {
		return nil, false
	}
	for range maxPeeled {
		p.x = unbracket(p.x)
		if n, ok := p.x.(*syntax.Name); ok && n.Name == p.unknown {
			return p.value, true
		}
		if !p.undo() {
			return nil, false
		}
	}
	return nil, false
}

// to goes on with an inner expression and a value.
func (p *peeler) to(x syntax.Expr, value sum, reason string, by syntax.Expr) bool {
	p.x, p.value = unbracket(x), collect(value)
	p.steps = append(p.steps, Step{Left: p.x, Right: sumExpr(p.value), Reason: reason, By: by})
	return true
}

// undo undoes the outermost operation.
func (p *peeler) undo() bool {
	switch x := p.x.(type) {
	case *syntax.Unary:
		if x.Op == syntax.Sub {
			return p.to(x.X, negate(p.value), "change the signs on both sides", nil)
		}
		p.x = x.X
		return true
	case *syntax.Root:
		return p.raise(x.X, mustExp(2))
	case *syntax.Call:
		return p.undoCall(x)
	case *syntax.Binary:
		switch x.Op {
		case syntax.Add, syntax.Sub:
			return p.undoSum(x)
		case syntax.Mul, syntax.Div:
			return p.undoProduct(x)
		case syntax.Pow:
			return p.undoPower(x)
		}
	}
	return false
}

// signed is a term or a factor of an expression, with its sign or side.
type signed struct {
	x     syntax.Expr
	minus bool // subtracted, or divided by
}

// parts lists the terms of a sum, or the factors of a product.
func parts(x syntax.Expr, plus, minus syntax.Op, inverse bool) []signed {
	b, ok := unbracket(x).(*syntax.Binary)
	if !ok || b.Op != plus && b.Op != minus {
		return []signed{{x, inverse}}
	}
	return append(parts(b.X, plus, minus, inverse), parts(b.Y, plus, minus, inverse != (b.Op == minus))...)
}

// split takes the part with the unknown out.
func (p *peeler) split(all []signed) (mine signed, rest []signed) {
	for _, s := range all {
		if occurrences(s.x, p.unknown) > 0 {
			mine = s
		} else {
			rest = append(rest, s)
		}
	}
	return mine, rest
}

// undoSum moves the other terms to the other side.
func (p *peeler) undoSum(x *syntax.Binary) bool {
	mine, rest := p.split(parts(x, syntax.Add, syntax.Sub, false))
	var moved sum
	minus := 0
	for _, r := range rest {
		one, ok := p.sum(r.x)
		if !ok {
			return false
		}
		if r.minus {
			minus++
			one = negate(one)
		}
		moved = append(moved, one...)
	}
	moved = collect(moved)
	value := append(append(sum{}, p.value...), negate(moved)...)
	reason, by := "subtract … from both sides", moved
	if minus == len(rest) {
		reason, by = "add … to both sides", negate(moved)
	}
	inner := mine.x
	if mine.minus {
		inner = &syntax.Unary{Op: syntax.Sub, X: closedExpr(unbracket(mine.x), false)}
		if t, ok := p.sum(mine.x); ok && len(t) == 1 {
			inner = &syntax.Unary{Op: syntax.Sub, X: mine.x}
		}
	}
	return p.to(inner, value, reason, sumExpr(by))
}

// undoProduct divides by the other factors.
func (p *peeler) undoProduct(x *syntax.Binary) bool {
	mine, rest := p.split(parts(x, syntax.Mul, syntax.Div, false))
	by, times := sum{{coef: big.NewRat(1, 1)}}, sum{{coef: big.NewRat(1, 1)}}
	over, under := 0, 0
	for _, r := range rest {
		one, ok := p.sum(r.x)
		if !ok {
			return false
		}
		if r.minus {
			under++
			times, ok = p.product(nil, nil, times, one)
		} else {
			over++
			by, ok = p.product(nil, nil, by, one)
		}
		if !ok {
			return false
		}
	}
	if mine.minus {
		return p.turnOver(mine.x, by, times, over+under > 1)
	}
	value, ok := p.product(nil, nil, p.value, times)
	if !ok {
		return false
	}
	if value, ok = p.divided(value, by); !ok {
		return false
	}
	rested, ok := p.divided(by, times)
	if !ok {
		return false
	}
	if pureNumber(times) && !pureNumber(by) || under == 0 || over > 0 && under > 0 {
		return p.to(mine.x, value, "divide both sides by", sumExpr(collect(rested)))
	}
	return p.to(mine.x, value, "multiply both sides by", sumExpr(collect(times)))
}

func pureNumber(s sum) bool { return len(s) == 1 && s[0].isNumber() }

// turnOver isolates a divisor: A/x = B becomes x = A/B.
func (p *peeler) turnOver(x syntax.Expr, by, times sum, _ bool) bool {
	under, ok := p.product(nil, nil, p.value, times)
	if !ok {
		return false
	}
	value, ok := p.divided(by, under)
	if !ok {
		return false
	}
	reason := "multiply both sides by " + Display(x) + ", divide them by " + Display(sumExpr(p.value))
	return p.to(x, value, reason, nil)
}

// divided is one sum over another.
func (p *peeler) divided(a, b sum) (sum, bool) {
	b = collect(b)
	if len(b) == 0 {
		return nil, false
	}
	if len(b) > 1 {
		b = sum{atomTerm(&syntax.Paren{X: sumExpr(b)})}
	}
	inv, ok := b[0].inv()
	if !ok {
		return nil, false
	}
	if len(a) > 1 {
		a = p.closed(a)
	}
	return p.product(nil, nil, a, sum{inv})
}

// undoPower undoes a written rational exponent.
func (p *peeler) undoPower(x *syntax.Binary) bool {
	e, ok := syntax.Rational(x.Y)
	if !ok {
		return false
	}
	inv, ok := e.Inv()
	return ok && p.raise(x.X, inv)
}

// raise raises the value to a power.
func (p *peeler) raise(x syntax.Expr, inv units.Exp) bool {
	v := p.closed(p.value)
	if len(v) != 1 {
		return false
	}
	root, ok := v[0].pow(inv)
	if !ok {
		return false
	}
	if inv.Den()%2 == 0 {
		p.squared = true
		if p.negative {
			root = root.neg()
		}
	}
	return p.to(x, sum{root}, powerReason(inv), nil)
}

// undoCall undoes a function of one number.
func (p *peeler) undoCall(x *syntax.Call) bool {
	if len(x.Args) != 1 {
		return false
	}
	if x.Func == "sqrt" {
		return p.raise(x.Args[0].X, mustExp(2))
	}
	for _, inv := range inverses {
		if inv.of == x.Func {
			call := &syntax.Call{Func: inv.by, Args: []syntax.Arg{{X: unbracket(sumExpr(p.value))}}}
			return p.to(x.Args[0].X, sum{atomTerm(call)}, inv.reason, nil)
		}
	}
	return false
}
