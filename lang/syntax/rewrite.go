package syntax

// copier copies expressions.
type copier struct {
	replace func(Expr) (Expr, bool) // what is put in for a node; nil if nothing is
	places  bool                    // are kept
}

// part is what becomes of a part of a node.
func (c *copier) part(x Expr) Expr {
	if x == nil {
		return nil
	}
	if c.replace != nil {
		if to, ok := c.replace(x); ok {
			return to
		}
		if x.part(0) == nil {
			return x
		}
	}
	return x.copied(c)
}

// within is what becomes of a part in which a name is bound.
func (c *copier) within(x Expr, bound Ident) Expr {
	if c.replace != nil && bound.Name != "" {
		return Rewrite(x, keeping(bound, c.replace))
	}
	return c.part(x)
}

// kept tells whether a node with such a part can be the one that it was.
func (c *copier) kept(was, now Expr) bool { return c.places && was == now }

func (c *copier) at(s Span) Span {
	if c.places {
		return s
	}
	return Span{}
}

func (c *copier) unit(u UnitText) UnitText { return UnitText{Text: u.Text, At: c.at(u.At)} }

// Rewrite returns an expression in which a function has replaced what it knows.
// The function is asked before the parts of a node are, and what it puts in is
// not looked at again. Where nothing is replaced, the expression is the same one.
func Rewrite(x Expr, replace func(Expr) (Expr, bool)) Expr {
	c := copier{replace: replace, places: true}
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
	var c copier
	return c.part(x)
}
