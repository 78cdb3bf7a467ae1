package algebra

import (
	"strings"

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

// Display writes an expression as on paper.
func Display(x syntax.Expr) string {
	return strings.ReplaceAll(raisedExponents(syntax.PrintExpr(bareArguments(unbracket(x)))), "*", "·")
}

// bareArguments takes the brackets off arguments that stand in those of a call.
func bareArguments(x syntax.Expr) syntax.Expr {
	return syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
		c, ok := x.(*syntax.Call)
		if !ok {
			return nil, false
		}
		args := make([]syntax.Arg, len(c.Args))
		for i, a := range c.Args {
			args[i] = syntax.Arg{Name: a.Name, NameAt: a.NameAt, X: bareArguments(unbracket(a.X))}
		}
		return &syntax.Call{At: c.At, Func: c.Func, Name: c.Name, Args: args}, true
	})
}
