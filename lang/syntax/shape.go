package syntax

import (
	"strconv"
	"strings"
)

// Shape is an expression as a list of its parts, without its brackets and blanks:
// two with the same shape are the same product, sum or call.
//
// The shape of a*(b+c) is "* a+ b c", and that of (a)*b is the one of a*b. It is
// made to be compared, and read by nobody. The order of factors counts: a*b is not
// b*a here.
func Shape(x Expr) string {
	var b strings.Builder
	Walk(x, func(x Expr) bool {
		switch x := x.(type) {
		case *Paren:
		case *With:
			b.WriteString(" with")
			for _, by := range x.By {
				b.WriteString(" " + by.Name)
			}
		case *SlopeOf:
			b.WriteString(" slope " + x.Var.Name)
		case *AreaUnder:
			b.WriteString(" area " + x.Var.Name)
		case *Binary:
			b.WriteByte("+-*/^"[x.Op])
		case *Root:
			b.WriteString("√")
		case *Unary:
			b.WriteString([]string{"plus", "minus"}[x.Op])
		case *Call:
			b.WriteString(x.Func + "(")
		case *Name:
			b.WriteByte(' ')
			b.WriteString(x.Name)
			if x.Line != 0 {
				b.WriteString("@" + strconv.Itoa(x.Line))
			}
		case *Number:
			b.WriteByte(' ')
			b.WriteString(x.Value.Text)
		default:
			b.WriteString(" " + strings.ReplaceAll(PrintExpr(x), " ", "·"))
			return false
		}
		return true
	})
	return b.String()
}
