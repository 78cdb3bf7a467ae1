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
	switch x := x.(type) {
	case *syntax.Name:
		if to, ok := by[x.Name]; ok && x.Line == 0 {
			return closedExpr(to, true)
		}
	case *syntax.Paren:
		return &syntax.Paren{At: x.At, X: Substitute(x.X, by)}
	case *syntax.Unary:
		return &syntax.Unary{At: x.At, Op: x.Op, X: Substitute(x.X, by)}
	case *syntax.Binary:
		return &syntax.Binary{At: x.At, OpAt: x.OpAt, Op: x.Op, Implied: x.Implied, X: Substitute(x.X, by), Y: Substitute(x.Y, by)}
	case *syntax.Root:
		return &syntax.Root{At: x.At, X: Substitute(x.X, by)}
	case *syntax.Call:
		args := make([]syntax.Arg, len(x.Args))
		for i, a := range x.Args {
			args[i] = syntax.Arg{Name: a.Name, NameAt: a.NameAt, X: Substitute(a.X, by)}
		}
		return &syntax.Call{At: x.At, Func: x.Func, Name: x.Name, Args: args}
	}
	return x
}

// screen turns the signs of the file form into those of print.
var screen = strings.NewReplacer("*", "·", "^2", "²", "^3", "³", "^4", "⁴", "^-1", "⁻¹", "^-2", "⁻²")

// Display writes an expression as on paper.
func Display(x syntax.Expr) string {
	if p, ok := x.(*syntax.Paren); ok {
		x = p.X
	}
	return screen.Replace(syntax.PrintExpr(x))
}
