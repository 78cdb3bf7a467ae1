package algebra

import (
	"steelyard/lang/syntax"
)

// Substitute returns an expression in which names are replaced by what they
// mean, in brackets where they are not the whole argument of a function.
//
// A name of another line, as m@3, means that line's value and is left alone. Brackets
// are put in first and taken out by the normal form: 2·(a + b) must not become 2·a + b
// on the way.
//
// The name that a slope or an area is taken against stays, as syntax.Rewrite keeps it.
func Substitute(x syntax.Expr, by map[string]syntax.Expr) syntax.Expr {
	if len(by) == 0 {
		return x
	}
	meant := func(x syntax.Expr) (syntax.Expr, bool) {
		n, ok := x.(*syntax.Name)
		if !ok || n.Line != 0 {
			return nil, false
		}
		to, ok := by[n.Name]
		return to, ok
	}
	return syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
		if to, ok := meant(x); ok {
			return closedExpr(to, true), true
		}
		c, ok := x.(*syntax.Call)
		if !ok {
			return nil, false
		}
		args := make([]syntax.Arg, len(c.Args))
		for i, a := range c.Args {
			if to, ok := meant(a.X); ok {
				a.X = to
			} else {
				a.X = Substitute(a.X, by)
			}
			args[i] = a
		}
		return &syntax.Call{At: c.At, Func: c.Func, Name: c.Name, Args: args, Signed: c.Signed}, true
	})
}
