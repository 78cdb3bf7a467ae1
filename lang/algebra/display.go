package algebra

import (
	"strings"

	"steelyard/lang/syntax"
	"steelyard/units/writing"
)

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

// raisedExponents turns whole exponents into raised digits.
func raisedExponents(text string) string {
	var b strings.Builder
	for {
		i := strings.IndexByte(text, '^')
		if i < 0 {
			b.WriteString(text)
			return b.String()
		}
		b.WriteString(text[:i])
		rest := text[i+1:]
		n := 0
		for n < len(rest) && (rest[n] >= '0' && rest[n] <= '9' || n == 0 && rest[n] == '-') {
			n++
		}
		if n == 0 || rest[:n] == "-" || n < len(rest) && (rest[n] == '.' || rest[n] == 'e') {
			b.WriteByte('^')
			n = 0
		} else {
			b.WriteString(writing.Raised(rest[:n]))
		}
		text = rest[n:]
	}
}
