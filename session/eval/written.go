package eval

import (
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
)

// maxWritten bounds how many results are put into each other.
const maxWritten = 20

// Written is WrittenOut for the expression of a definition.
func (p *Page) Written(d, by *plan.Def) (syntax.Expr, bool) { return p.written(d, by, 0) }

func (p *Page) written(d, by *plan.Def, depth int) (syntax.Expr, bool) {
	e := p.EntryAt(d.Line)
	if e == nil || depth > maxWritten {
		return nil, false
	}
	var x syntax.Expr
	switch s := e.Stmt.(type) {
	case *syntax.Define:
		x = component(s.X, d)
	case *syntax.Solve:
		by, _ := e.By.(*Solved)
		for i, u := range s.Unknowns {
			if by != nil && u.Name == d.Name && i < len(by.Roots) {
				x = by.Roots[i].X
			}
		}
	}
	if x == nil {
		return nil, false
	}
	return p.writtenOut(x, d.Line, by, depth)
}

// component is the expression of a definition by an expression: of v_x that of the first
// component, where v is written by its components, else nil.
func component(x syntax.Expr, d *plan.Def) syntax.Expr {
	if d.Vector == nil {
		return x
	}
	list, ok := syntax.Unbracket(x).(*syntax.List)
	_, axis, part := plan.AxisOf(d.Name)
	if !ok || !list.Vector || !part || axis >= len(list.Elems) {
		return nil
	}
	return &syntax.Paren{X: list.Measured(axis)}
}

// WrittenOut is an expression of a line in which the results that it is worked out
// from are put in, as far as they hold the given; false where one was not worked
// out from an expression.
func (p *Page) WrittenOut(x syntax.Expr, line int, by *plan.Def) (syntax.Expr, bool) {
	return p.writtenOut(x, line, by, 0)
}

// Scaling and the shape of a curve need the way from the given to the result as one expression.
// Results on the way are put in, and only those that hold the given: the others stay names,
// which keeps the expression short.
func (p *Page) writtenOut(x syntax.Expr, line int, by *plan.Def, depth int) (syntax.Expr, bool) {
	var but []string // names of that given alone, as Varied has found
	if by != nil {
		but = []string{by.Name}
	}
	good := true
	known := map[*plan.Def]syntax.Expr{}
	// What the body of a function says is written out too, and may hold the given.
	x = syntax.Rewrite(p.Opened(x, line), func(x syntax.Expr) (syntax.Expr, bool) {
		n, ok := x.(*syntax.Name)
		if !ok || !good {
			return nil, false
		}
		d := p.standsFor(n, line)
		switch {
		case d == nil:
			return nil, false
		case d == by:
			return &syntax.Name{At: n.At, Name: n.Name}, true // A@1, which is A
		case d.Given || d.Kind == plan.Symbol || d.Line == 0:
			return nil, false
		}
		if known[d] == nil {
			inner, ok := p.written(d, by, depth+1)
			if !ok {
				good = false
				return nil, false
			}
			known[d] = &syntax.Paren{X: p.pinned(inner, d.Line, line, but, nil)}
		}
		return known[d], true
	})
	if !good {
		return nil, false
	}
	return p.Opened(x, line), true
}

// standsFor is the definition that a name, or a name at a line, had for a line.
func (p *Page) standsFor(n *syntax.Name, line int) *plan.Def {
	if n.Line == 0 {
		return p.Above(n.Name, line)
	}
	d, _ := p.Planner.Find(n)
	return d
}
