package syntax

// copier copies expressions: what becomes of a part in which a name is bound, or
// none, and of a place in the text.
type copier struct {
	within func(part Expr, bound Ident) Expr
	places bool // are kept
}

func (c *copier) part(x Expr) Expr { return c.within(x, Ident{}) }

func (c *copier) at(s Span) Span {
	if c.places {
		return s
	}
	return Span{}
}

func (c *copier) unit(u UnitText) UnitText { return UnitText{Text: u.Text, At: c.at(u.At)} }

// Rewrite returns an expression in which a function has replaced what it knows.
// The function is asked before the parts of a node are, and what it puts in is
// not looked at again. What has no parts and stays is shared with the expression.
func Rewrite(x Expr, replace func(Expr) (Expr, bool)) Expr {
	c := &copier{places: true}
	c.within = func(x Expr, bound Ident) Expr {
		if bound.Name != "" {
			return Rewrite(x, keeping(bound, replace))
		}
		if x == nil {
			return nil
		}
		if to, ok := replace(x); ok {
			return to
		}
		if x.part(0) == nil {
			return x
		}
		return x.copied(c)
	}
	return c.part(x)
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
	if x == nil {
		return nil
	}
	c := &copier{}
	c.within = func(x Expr, _ Ident) Expr { return x.copied(c) }
	return x.copied(c)
}
