package algebra

import "steelyard/lang/syntax"

// Unplaced returns an expression without its places in a text, for one that is
// put into a statement it was not written in.
func Unplaced(x syntax.Expr) syntax.Expr {
	return Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
		switch x := x.(type) {
		case *syntax.Number:
			return &syntax.Number{Value: x.Value}, true
		case *syntax.Quantity:
			return &syntax.Quantity{Value: x.Value, Unit: syntax.UnitText{Text: x.Unit.Text}}, true
		case *syntax.Name:
			return &syntax.Name{Name: x.Name, Line: x.Line}, true
		case *syntax.Pi:
			return &syntax.Pi{}, true
		case *syntax.Paren:
			return &syntax.Paren{X: Unplaced(x.X)}, true
		case *syntax.Unary:
			return &syntax.Unary{Op: x.Op, X: Unplaced(x.X)}, true
		case *syntax.Binary:
			return &syntax.Binary{Op: x.Op, Implied: x.Implied, X: Unplaced(x.X), Y: Unplaced(x.Y)}, true
		case *syntax.Root:
			return &syntax.Root{X: Unplaced(x.X)}, true
		case *syntax.Measured:
			return &syntax.Measured{X: &syntax.Paren{X: Unplaced(x.X.X)}, Unit: syntax.UnitText{Text: x.Unit.Text}}, true
		case *syntax.Mixed:
			out := &syntax.Mixed{Neg: x.Neg}
			for _, q := range x.Parts {
				out.Parts = append(out.Parts, &syntax.Quantity{Value: q.Value, Unit: syntax.UnitText{Text: q.Unit.Text}})
			}
			return out, true
		case *syntax.Call:
			out := &syntax.Call{Func: x.Func}
			for _, a := range x.Args {
				out.Args = append(out.Args, syntax.Arg{Name: a.Name, X: Unplaced(a.X)})
			}
			return out, true
		}
		return nil, false
	})
}
