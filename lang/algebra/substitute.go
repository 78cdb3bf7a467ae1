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
	return Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
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

// Rewrite returns an expression in which a function has replaced what it knows;
// what is put in is not looked at again.
func Rewrite(x syntax.Expr, replace func(syntax.Expr) (syntax.Expr, bool)) syntax.Expr {
	if to, ok := replace(x); ok {
		return to
	}
	in := func(x syntax.Expr) syntax.Expr { return Rewrite(x, replace) }
	switch x := x.(type) {
	case *syntax.Paren:
		return &syntax.Paren{At: x.At, X: in(x.X)}
	case *syntax.Unary:
		return &syntax.Unary{At: x.At, Op: x.Op, X: in(x.X)}
	case *syntax.Binary:
		return &syntax.Binary{At: x.At, OpAt: x.OpAt, Op: x.Op, Implied: x.Implied, X: in(x.X), Y: in(x.Y)}
	case *syntax.Root:
		return &syntax.Root{At: x.At, X: in(x.X)}
	case *syntax.Call:
		args := make([]syntax.Arg, len(x.Args))
		for i, a := range x.Args {
			args[i] = syntax.Arg{Name: a.Name, NameAt: a.NameAt, X: in(a.X)}
		}
		return &syntax.Call{At: x.At, Func: x.Func, Name: x.Name, Args: args}
	}
	return x
}

// Display writes an expression as on paper.
func Display(x syntax.Expr) string {
	return strings.ReplaceAll(raisedExponents(syntax.PrintExpr(bareArguments(unbracket(x)))), "*", "·")
}

// bareArguments takes the brackets off arguments that stand in those of a call.
func bareArguments(x syntax.Expr) syntax.Expr {
	return Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
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
