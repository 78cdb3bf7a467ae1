package algebra

import (
	"steelyard/lang/ops"
	"steelyard/lang/syntax"
)

// undone is an expression in which a function of its own inverse is what that is of:
// ln(exp(x)) is x. It is the same where both have a value.
func undone(x syntax.Expr) syntax.Expr {
	return syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
		outer, ok := x.(*syntax.Call)
		if !ok || len(outer.Args) != 1 {
			return nil, false
		}
		inner, ok := syntax.Unbracket(outer.Args[0].X).(*syntax.Call)
		if !ok || len(inner.Args) != 1 || !undoes(outer.Func, inner.Func) {
			return nil, false
		}
		return closedExpr(undone(inner.Args[0].X), true), true
	})
}

// undoes tells whether a function takes back what another does to any number: exp does
// so for ln, and sin for asin, but asin not for sin.
func undoes(outer, inner string) bool {
	f, ok1 := ops.Named(outer)
	g, ok2 := ops.Named(inner)
	if !ok1 || !ok2 {
		return false
	}
	back, ok1 := f.Op.Inverse()
	once, ok2 := g.Op.Inverse()
	return ok1 && ok2 && back.By[0] == inner+"(y)" && len(once.By) == 1 && !once.Turns
}
