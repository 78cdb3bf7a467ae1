package eval

import (
	"steelyard/lang/algebra"
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
		x = s.X
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

// WrittenOut is an expression of a line in which the results that it is worked out
// from are put in, as far as they hold the given; false where one was not worked
// out from an expression.
func (p *Page) WrittenOut(x syntax.Expr, line int, by *plan.Def) (syntax.Expr, bool) {
	return p.writtenOut(x, line, by, 0)
}

func (p *Page) writtenOut(x syntax.Expr, line int, by *plan.Def, depth int) (syntax.Expr, bool) {
	good := true
	put := map[string]syntax.Expr{}
	syntax.Walk(x, func(x syntax.Expr) bool {
		n, ok := x.(*syntax.Name)
		if !ok || put[n.Name] != nil {
			return good
		}
		from := p.Above(n.Name, line)
		if from != nil && from != by && !from.Given && from.Kind != plan.Symbol && from.Line > 0 {
			inner, ok := p.written(from, by, depth+1)
			good = good && ok
			put[n.Name] = inner
		}
		return good
	})
	if !good {
		return nil, false
	}
	return p.openedAt(algebra.Substitute(x, put), line, 0), true
}
