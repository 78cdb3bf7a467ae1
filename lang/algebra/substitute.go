package algebra

import (
	"steelyard/lang/syntax"
)

// Substitute returns an expression in which names are replaced by what they
// stand for, in brackets.
func Substitute(x syntax.Expr, by map[string]syntax.Expr) syntax.Expr {
	if len(by) == 0 {
		return x
	}
	return syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
		n, ok := x.(*syntax.Name)
		if !ok || n.Line != 0 {
			return nil, false
		}
		to, ok := by[n.Name]
		if !ok {
			return nil, false
		}
		return closedExpr(to, true), true
	})
}
