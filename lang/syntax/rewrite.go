package syntax

// Rewrite returns an expression in which a function has replaced what it knows.
// The function is asked before the parts of a node are, and what it puts in is
// not looked at again. Numbers and names that stay are shared with the expression.
func Rewrite(x Expr, replace func(Expr) (Expr, bool)) Expr {
	if x == nil {
		return nil
	}
	if to, ok := replace(x); ok {
		return to
	}
	in := func(x Expr) Expr { return Rewrite(x, replace) }
	switch x := x.(type) {
	case *Paren:
		return &Paren{At: x.At, X: in(x.X)}
	case *Unary:
		return &Unary{At: x.At, Op: x.Op, X: in(x.X)}
	case *Binary:
		return &Binary{At: x.At, OpAt: x.OpAt, Op: x.Op, Implied: x.Implied, X: in(x.X), Y: in(x.Y)}
	case *Root:
		return &Root{At: x.At, X: in(x.X)}
	case *Call:
		args := make([]Arg, len(x.Args))
		for i, a := range x.Args {
			args[i] = Arg{Name: a.Name, NameAt: a.NameAt, X: in(a.X)}
		}
		return &Call{At: x.At, Func: x.Func, Name: x.Name, Args: args}
	case *With:
		by := make([]Binding, len(x.By))
		for i, b := range x.By {
			by[i] = Binding{Name: b.Name, NameAt: b.NameAt, X: in(b.X)}
		}
		return &With{At: x.At, X: in(x.X), By: by}
	case *SlopeOf:
		return &SlopeOf{At: x.At, X: Rewrite(x.X, keeping(x.Var, replace)), Var: x.Var, Place: in(x.Place)}
	case *AreaUnder:
		return &AreaUnder{At: x.At, X: Rewrite(x.X, keeping(x.Var, replace)), Var: x.Var, From: in(x.From), To: in(x.To)}
	case *List:
		items := make([]Expr, len(x.Items))
		for i, item := range x.Items {
			items[i] = in(item)
		}
		return &List{At: x.At, Items: items, Unit: x.Unit}
	case *Uncertain:
		return &Uncertain{At: x.At, X: in(x.X), By: in(x.By), Unit: x.Unit}
	}
	return x
}

// keeping leaves the name alone that a curve is drawn against: within the curve it
// is no other's.
func keeping(bound Ident, replace func(Expr) (Expr, bool)) func(Expr) (Expr, bool) {
	return func(x Expr) (Expr, bool) {
		if n, ok := x.(*Name); ok && n.Name == bound.Name && n.Line == 0 {
			return x, true
		}
		return replace(x)
	}
}

// Unplaced returns an expression without its places in a text, for one that is
// put into a statement that it was not written in.
func Unplaced(x Expr) Expr {
	return Rewrite(x, func(x Expr) (Expr, bool) {
		switch x := x.(type) {
		case *Number:
			return &Number{Value: x.Value}, true
		case *Quantity:
			return unplacedQuantity(x), true
		case *Mixed:
			out := &Mixed{Neg: x.Neg}
			for _, q := range x.Parts {
				out.Parts = append(out.Parts, unplacedQuantity(q))
			}
			return out, true
		case *Measured:
			return &Measured{X: &Paren{X: Unplaced(x.X.X)}, Unit: UnitText{Text: x.Unit.Text}}, true
		case *Pi:
			return &Pi{}, true
		case *That:
			return &That{}, true
		case *Name:
			return &Name{Name: x.Name, Line: x.Line}, true
		case *Paren:
			return &Paren{X: Unplaced(x.X)}, true
		case *Unary:
			return &Unary{Op: x.Op, X: Unplaced(x.X)}, true
		case *Binary:
			return &Binary{Op: x.Op, Implied: x.Implied, X: Unplaced(x.X), Y: Unplaced(x.Y)}, true
		case *Root:
			return &Root{X: Unplaced(x.X)}, true
		case *Call:
			out := &Call{Func: x.Func}
			for _, a := range x.Args {
				out.Args = append(out.Args, Arg{Name: a.Name, X: Unplaced(a.X)})
			}
			return out, true
		case *With:
			out := &With{X: Unplaced(x.X)}
			for _, b := range x.By {
				out.By = append(out.By, Binding{Name: b.Name, X: Unplaced(b.X)})
			}
			return out, true
		case *SlopeOf:
			return &SlopeOf{X: Unplaced(x.X), Var: x.Var, Place: Unplaced(x.Place)}, true
		case *AreaUnder:
			return &AreaUnder{X: Unplaced(x.X), Var: x.Var, From: Unplaced(x.From), To: Unplaced(x.To)}, true
		}
		return nil, false
	})
}

func unplacedQuantity(q *Quantity) *Quantity {
	return &Quantity{Value: q.Value, Unit: UnitText{Text: q.Unit.Text}}
}
