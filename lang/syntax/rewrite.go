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
	return copied(x, func(at Span) Span { return at }, func(x Expr, bound Ident) Expr {
		if bound.Name != "" {
			return Rewrite(x, keeping(bound, replace))
		}
		return Rewrite(x, replace)
	})
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
	switch x := x.(type) {
	case nil:
		return nil
	case *Number:
		return &Number{Value: x.Value}
	case *Quantity:
		return unplacedQuantity(x)
	case *Mixed:
		out := &Mixed{Neg: x.Neg}
		for _, q := range x.Parts {
			out.Parts = append(out.Parts, unplacedQuantity(q))
		}
		return out
	case *Measured:
		return &Measured{X: &Paren{X: Unplaced(x.X.X)}, Unit: UnitText{Text: x.Unit.Text}}
	case *Pi:
		return &Pi{}
	case *That:
		return &That{}
	case *Name:
		return &Name{Name: x.Name, Line: x.Line}
	}
	return copied(x, func(Span) Span { return Span{} }, func(x Expr, _ Ident) Expr { return Unplaced(x) })
}

func unplacedQuantity(q *Quantity) *Quantity {
	return &Quantity{Value: q.Value, Unit: UnitText{Text: q.Unit.Text}}
}

// copied returns a node with parts and places in its text of its own: what part
// makes of each, and at of each place. A part in which a name is bound comes with
// that name, any other with none. A node without parts is returned as it is.
func copied(x Expr, at func(Span) Span, part func(x Expr, bound Ident) Expr) Expr {
	in := func(x Expr) Expr { return part(x, Ident{}) }
	unit := func(u UnitText) UnitText { return UnitText{Text: u.Text, At: at(u.At)} }
	switch x := x.(type) {
	case *Paren:
		return &Paren{At: at(x.At), X: in(x.X)}
	case *Unary:
		return &Unary{At: at(x.At), Op: x.Op, X: in(x.X)}
	case *Binary:
		return &Binary{At: at(x.At), OpAt: at(x.OpAt), Op: x.Op, Implied: x.Implied, X: in(x.X), Y: in(x.Y)}
	case *Root:
		return &Root{At: at(x.At), X: in(x.X)}
	case *Call:
		args := make([]Arg, len(x.Args))
		for i, a := range x.Args {
			args[i] = Arg{Name: a.Name, NameAt: at(a.NameAt), X: in(a.X)}
		}
		return &Call{At: at(x.At), Func: x.Func, Name: at(x.Name), Args: args}
	case *With:
		by := make([]Binding, len(x.By))
		for i, b := range x.By {
			by[i] = Binding{Name: b.Name, Line: b.Line, NameAt: at(b.NameAt), X: in(b.X)}
		}
		return &With{At: at(x.At), X: in(x.X), By: by}
	case *SlopeOf:
		return &SlopeOf{At: at(x.At), X: part(x.X, x.Var), Var: x.Var, Place: in(x.Place)}
	case *AreaUnder:
		return &AreaUnder{At: at(x.At), X: part(x.X, x.Var), Var: x.Var, From: in(x.From), To: in(x.To)}
	case *List:
		items := make([]Expr, len(x.Items))
		for i, item := range x.Items {
			items[i] = in(item)
		}
		return &List{At: at(x.At), Items: items, Unit: unit(x.Unit)}
	case *Uncertain:
		return &Uncertain{At: at(x.At), X: in(x.X), By: in(x.By), Unit: unit(x.Unit)}
	}
	return x
}
