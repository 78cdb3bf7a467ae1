package syntax

// Walk calls f for an expression and, as long as f answers true, for the parts
// of it, from left to right.
func Walk(x Expr, f func(Expr) bool) {
	if x == nil || !f(x) {
		return
	}
	switch x := x.(type) {
	case *Mixed:
		for _, q := range x.Parts {
			Walk(q, f)
		}
	case *Measured:
		Walk(x.X, f)
	case *Paren:
		Walk(x.X, f)
	case *Unary:
		Walk(x.X, f)
	case *Root:
		Walk(x.X, f)
	case *Binary:
		Walk(x.X, f)
		Walk(x.Y, f)
	case *Call:
		for _, a := range x.Args {
			Walk(a.X, f)
		}
	case *List:
		for _, item := range x.Items {
			Walk(item, f)
		}
	case *Uncertain:
		Walk(x.X, f)
		Walk(x.By, f)
	}
}
