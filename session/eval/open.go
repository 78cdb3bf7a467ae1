package eval

import (
	"slices"

	"steelyard/lang/algebra"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
)

// maxOpened bounds how deep functions within functions are opened.
const maxOpened = 8

// Opened writes out the calls of formulas and of functions of the worksheet as a
// line sees them, so that a name among their arguments can be reached. A name that the
// line binds, an unknown or what a curve is drawn against, is in the body of a function
// still what it was there: x@2. Slopes and areas are written by their rules, where there is one.
//
// Whatever must see through a call asks here: solving, slopes by rule, scaling, what a result
// was worked out from. The text of a page stays as it is; only the tree that is worked with is
// written out.
//
// Opening costs as much as the tree it makes, which functions of functions can make very large:
// it is taken from the line's budget, and past it the call stays closed.
func (p *Page) Opened(x syntax.Expr, line int, bound ...string) syntax.Expr {
	return p.openedAt(x, line, bound, 0)
}

// openedAt is Opened within calls. What is bound, the unknowns of an equation or the variable
// of a slope, keeps its name even where a line above has one.
func (p *Page) openedAt(x syntax.Expr, line int, bound []string, depth int) syntax.Expr {
	if depth > maxOpened || !p.spend(x) {
		return x
	}
	return syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
		if _, derived := x.(syntax.Derived); derived {
			_, value, ok := p.calculus(x, line, bound, depth+1)
			return &syntax.Paren{X: value}, ok
		}
		c, ok := x.(*syntax.Call)
		if !ok || ops.IsFunction(c.Func) {
			return nil, false
		}
		if d := p.Above(c.Func, line); d != nil && d.Kind == plan.Function {
			if d.Func.X == nil || len(d.Func.Params) != len(c.Args) {
				return nil, false
			}
			by := map[string]syntax.Expr{}
			for i, name := range d.Func.Params {
				by[name] = p.openedAt(c.Args[i].X, line, bound, depth+1)
			}
			if !p.OpensParts(d.Func.X, by, line) {
				return nil, false
			}
			// The body sees the functions above its own line.
			body := p.openedAt(syntax.Unplaced(d.Func.X), d.Line, nil, depth+1)
			return &syntax.Paren{X: algebra.Substitute(p.Pinned(body, d, line, bound...), by)}, true
		}
		f, ok := p.FormulaAbove(c.Func, line)
		if !ok {
			return nil, false
		}
		by := Arguments(c, f)
		for name, a := range by {
			by[name] = p.openedAt(a, line, bound, depth+1)
		}
		if !p.OpensParts(f.Right, by, line) {
			return nil, false
		}
		return &syntax.Paren{X: algebra.Substitute(syntax.Unplaced(f.Right), by)}, true
	})
}

// Calculus is a slope or an area by a rule: the derivative or the antiderivative of the curve
// as a line sees it, and what that makes at the place, or from one to the other. It is false
// where no rule is known, and where the curve holds the name that it runs along only by way
// of the lines above.
func (p *Page) Calculus(x syntax.Expr, line int) (rule, value syntax.Expr, ok bool) {
	return p.calculus(x, line, nil, 0)
}

// For U(x) = 1/2*k*x^2 the slope is k*x by rule, exact for every x, and the working can show
// it. A curve of readings has no rule.
func (p *Page) calculus(x syntax.Expr, line int, bound []string, depth int) (rule, value syntax.Expr, ok bool) {
	var of syntax.Expr
	var along string
	known := algebra.Derivative
	switch x := x.(type) {
	case *syntax.SlopeOf:
		of, along = x.X, x.Var.Name
	case *syntax.AreaUnder:
		of, along, known = x.X, x.Var.Name, algebra.Antiderivative
	}
	if of == nil || !syntax.Holds(of, along) || p.Planner.OfReadings(of, along) {
		return nil, nil, false
	}
	if rule, ok = known(p.openedAt(of, line, append(bound[:len(bound):len(bound)], along), depth), along); !ok {
		return nil, nil, false
	}
	at := func(place syntax.Expr) syntax.Expr {
		return algebra.Substitute(rule, map[string]syntax.Expr{along: p.openedAt(place, line, bound, depth)})
	}
	switch x := x.(type) {
	case *syntax.SlopeOf:
		value = at(x.Place)
	case *syntax.AreaUnder:
		if x.All {
			return nil, nil, false
		}
		if value = at(x.To); !syntax.IsZero(x.From) || !algebra.ZeroAt(rule, along) {
			value = &syntax.Binary{Op: syntax.Sub, X: value, Y: &syntax.Paren{X: at(x.From)}}
		}
	}
	return rule, value, true
}

// OpensParts adds to what parameters stand for what their components do: v_x of a body is
// w_x where v is the vector w, and 3 m where it is (3, 4) m. It is false where one has no
// such form, and the call stays closed.
//
// F(v) = m*v_x has a component in its body, which is asked of what the call has in the place of
// v.
func (p *Page) OpensParts(body syntax.Expr, by map[string]syntax.Expr, line int) bool {
	for n := range syntax.Each[*syntax.Name](body) {
		base, axis, part := plan.AxisOf(n.Name)
		if _, own := by[n.Name]; own || !part {
			continue
		}
		switch x := syntax.Unbracket(by[base]).(type) {
		case nil:
		case *syntax.Name:
			if d := p.Planner.Names.Above(x.Name, line); d != nil && d.Slot != run.NoSlot && p.Planner.Static(d.Slot).Shape != run.Vector {
				continue // v_x is then the page's own
			}
			by[n.Name] = &syntax.Name{At: x.At, Name: x.Name + n.Name[len(base):], Line: x.Line}
		case *syntax.List:
			if x.Vector && axis < len(x.Elems) {
				by[n.Name] = &syntax.Paren{X: x.Measured(axis)}
				continue
			}
			return false
		default:
			return false
		}
	}
	return true
}

// nodeSteps is how many elementary steps writing out a node of an expression takes.
const nodeSteps = 16

// spend takes what writing an expression out costs from the budget.
//
// A budget that has ended leaves the call closed, and the line goes on without seeing into it.
func (p *Page) spend(x syntax.Expr) bool {
	return p.State.Budget == nil || syntax.Spend(p.State.Budget, nodeSteps, x)
}

// Pinned is the body of a function as another line reads it: a name that has been
// given anew since, or that the line binds, has the line beside it that it had for the
// function, and standard gravity, which has no line, is written out.
//
// Without this a function would read the value that a later line gives: with k = 2 N/m, then
// F(x) = k*x and k = 5 N/m, F(1 m) is 2 N wherever it is called.
func (p *Page) Pinned(x syntax.Expr, d *plan.Def, line int, bound ...string) syntax.Expr {
	return p.pinned(x, d.Line, line, d.Func.Params, bound)
}

// pinned is an expression of one line as another reads it, but for some names; those that
// are bound mean something else there.
func (p *Page) pinned(x syntax.Expr, from, line int, but, bound []string) syntax.Expr {
	return syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
		n, ok := x.(*syntax.Name)
		if !ok || n.Line != 0 || slices.Contains(but, n.Name) {
			return nil, false
		}
		then, now := p.Above(n.Name, from), p.Above(n.Name, line)
		if then == nil || then == now && (then.Kind == plan.Symbol || !slices.Contains(bound, n.Name)) {
			return nil, false
		}
		if then.Line == 0 {
			x, ok := p.AsQuantity(then)
			return &syntax.Paren{X: x}, ok
		}
		return &syntax.Name{At: n.At, Name: n.Name, Line: then.Line}, true
	})
}

// Arguments are what the symbols of a formula stand for in a call of it.
func Arguments(c *syntax.Call, f *syntax.FormulaDef) map[string]syntax.Expr {
	by := map[string]syntax.Expr{}
	symbols, args, _, _ := f.Match(c)
	for i, s := range symbols {
		if args[i] != nil {
			by[s.Name] = args[i]
		}
	}
	return by
}

// Above is the definition that a name had for a line; that of g is standard
// gravity as long as no line gives it another value.
func (p *Page) Above(name string, line int) *plan.Def {
	found := p.Planner.Names.Above(name, line)
	if name == "g" && (found == nil || found.Failed()) {
		return p.Planner.StandardGravity()
	}
	return found
}

// FormulaAbove is the formula that a name stood for in a line: one of the
// worksheet above it, or one of the library.
func (p *Page) FormulaAbove(name string, line int) (*syntax.FormulaDef, bool) {
	if d := p.Above(name, line); d != nil && d.Kind == plan.Formula {
		return d.Formula, true
	}
	return p.libraryFormula(name)
}
