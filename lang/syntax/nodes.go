package syntax

// What each kind of node answers for itself.

func (x *Number) Span() Span   { return x.At }
func (x *Quantity) Span() Span { return x.At }
func (x *Mixed) Span() Span    { return x.At }
func (x *Measured) Span() Span { return x.At }
func (x *Pi) Span() Span       { return x.At }
func (x *That) Span() Span     { return x.At }
func (x *Name) Span() Span     { return x.At }
func (x *Paren) Span() Span    { return x.At }
func (x *Unary) Span() Span    { return x.At }
func (x *Binary) Span() Span   { return x.At }
func (x *Root) Span() Span     { return x.At }
func (x *Call) Span() Span     { return x.At }

func (x *Number) Visit(v Visitor)   { v.Number(x) }
func (x *Quantity) Visit(v Visitor) { v.Quantity(x) }
func (x *Mixed) Visit(v Visitor)    { v.Mixed(x) }
func (x *Measured) Visit(v Visitor) { v.Measured(x) }
func (x *Pi) Visit(v Visitor)       { v.Pi(x) }
func (x *That) Visit(v Visitor)     { v.That(x) }
func (x *Name) Visit(v Visitor)     { v.Name(x) }
func (x *Paren) Visit(v Visitor)    { v.Paren(x) }
func (x *Unary) Visit(v Visitor)    { v.Unary(x) }
func (x *Binary) Visit(v Visitor)   { v.Binary(x) }
func (x *Root) Visit(v Visitor)     { v.Root(x) }
func (x *Call) Visit(v Visitor)     { v.Call(x) }

func (*Number) part(int) Expr       { return nil }
func (*Quantity) part(int) Expr     { return nil }
func (*Pi) part(int) Expr           { return nil }
func (*That) part(int) Expr         { return nil }
func (*Name) part(int) Expr         { return nil }
func (x *Measured) part(i int) Expr { return nth(i, x.X) }
func (x *Paren) part(i int) Expr    { return nth(i, x.X) }
func (x *Unary) part(i int) Expr    { return nth(i, x.X) }
func (x *Root) part(i int) Expr     { return nth(i, x.X) }
func (x *Binary) part(i int) Expr   { return nth(i, x.X, x.Y) }

func (x *Mixed) part(i int) Expr {
	if i < len(x.Parts) {
		return x.Parts[i]
	}
	return nil
}

// The name of a function is no part, nor are those of its parameters.
func (x *Call) part(i int) Expr {
	if i < len(x.Args) {
		return x.Args[i].X
	}
	return nil
}

// nth returns one of the parts of a node.
//
// Part of a node is asked for by its number until there is none: walking so needs no list of
// parts for each node, and no memory.
//
// The parts of a Binary are X and Y, so that its third is nil.
func nth(i int, parts ...Expr) Expr {
	if i < len(parts) {
		return parts[i]
	}
	return nil
}

// A copy keeps its places in the text, or has none where it goes into another line, as a
// function's body goes into a call's (Unplaced).
func (x *Number) copied(c *copier) Expr { return &Number{At: c.at(x.At), Value: x.Value} }
func (x *Pi) copied(c *copier) Expr     { return &Pi{At: c.at(x.At)} }
func (x *That) copied(c *copier) Expr   { return &That{At: c.at(x.At)} }
func (x *Name) copied(c *copier) Expr {
	return &Name{At: c.at(x.At), Name: x.Name, Line: x.Line, Vector: x.Vector}
}

func (x *Paren) copied(c *copier) Expr {
	in := c.part(x.X)
	if c.kept(x.X, in) {
		return x
	}
	return &Paren{At: c.at(x.At), X: in}
}

func (x *Unary) copied(c *copier) Expr {
	in := c.part(x.X)
	if c.kept(x.X, in) {
		return x
	}
	return &Unary{At: c.at(x.At), Op: x.Op, X: in}
}

func (x *Root) copied(c *copier) Expr {
	in := c.part(x.X)
	if c.kept(x.X, in) {
		return x
	}
	return &Root{At: c.at(x.At), X: in}
}

func (x *Quantity) copied(c *copier) Expr {
	return &Quantity{At: c.at(x.At), Value: x.Value, Unit: c.unit(x.Unit)}
}

func (x *Mixed) copied(c *copier) Expr {
	out := &Mixed{At: c.at(x.At), Neg: x.Neg, Parts: make([]*Quantity, len(x.Parts))}
	for i, q := range x.Parts {
		out.Parts[i] = &Quantity{At: c.at(q.At), Value: q.Value, Unit: c.unit(q.Unit)}
	}
	return out
}

// A copied node shares nothing with its first one, so that its parts may be
// replaced.
func (x *Measured) copied(c *copier) Expr {
	return &Measured{At: c.at(x.At), X: &Paren{At: c.at(x.X.At), X: c.part(x.X.X)}, Unit: c.unit(x.Unit)}
}

func (x *Binary) copied(c *copier) Expr {
	left, right := c.part(x.X), c.part(x.Y)
	if c.kept(x.X, left) && c.kept(x.Y, right) {
		return x
	}
	return &Binary{At: c.at(x.At), OpFrom: x.OpFrom, Op: x.Op, Implied: x.Implied, By: x.By, Vectors: x.Vectors, X: left, Y: right}
}

func (x *Call) copied(c *copier) Expr {
	args := make([]Arg, len(x.Args))
	for i, a := range x.Args {
		args[i] = Arg{Name: a.Name, NameAt: c.at(a.NameAt), X: c.part(a.X), Figures: a.Figures}
	}
	return &Call{At: c.at(x.At), Func: x.Func, Name: c.at(x.Name), Args: args, Signed: x.Signed}
}
