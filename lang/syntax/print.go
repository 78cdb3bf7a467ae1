package syntax

import (
	"strconv"
	"strings"

	"steelyard/units"
	"steelyard/units/writing"
)

// PrintExpr writes an expression so that reading it gives the same tree. Names
// stand in their canonical form, powers with ^, and brackets only where the tree
// has them.
//
// What comes out is text of the language, not of the page that a reader sees: it
// is used where a line is written anew, as in an offer, in the shape of an
// expression and where a formula is shown. Some texts and what is printed for
// them:
//
//	x²                 x^2
//	1.6×10⁻¹⁹ C        1.6e-19 C
//	½²                 (1/2)^2
//	0.842(2) m         0.842 ± 0.002 m
//	(a+b)(a-b)         (a + b)(a - b)
//	hypot(3,4)         hypot(3, 4)
//
// Figures stay as they were typed, so that 3.0e4 J still has two of them. Nil
// prints as nothing.
func PrintExpr(x Expr) string {
	if x == nil {
		return ""
	}
	var p printer
	p.b.Grow(32) // which most expressions fit into
	p.expr(x)
	return p.b.String()
}

// printer is the visitor that writes each kind of node. It never adds a bracket:
// the tree has a Paren wherever one was typed, and a tree that is made by hand
// must have them too.
type printer struct {
	b strings.Builder
	// raised counts the factors, round what is printed, that another follows
	// without a sign.
	raised int
}

func (p *printer) text(parts ...string) {
	for _, s := range parts {
		p.b.WriteString(s)
	}
}

func (p *printer) expr(x Expr) {
	if x != nil {
		x.Visit(p)
	}
}

// A number, π and that are written as they are read.
func (p *printer) Number(x *Number) { p.text(x.Value.Written()) }
func (p *printer) Pi(*Pi)           { p.text("π") }
func (p *printer) That(*That)       { p.text("that") }

// Quantity writes number, unit and uncertainty in the order in which they are read
// back: 0.842 ± 0.002 m uniform. With a percentage the unit comes twice, 30 % ± 2
// %, since 30 ± 2 % could be an uncertainty of 2 % of the 30. The unit 1 is that
// of a measured pure number, 4.0 ± 0.1, and has no text.
func (p *printer) Quantity(x *Quantity) {
	if x.Value.Off != nil && x.Unit.Text == "%" {
		p.text(x.Value.Text, " %")
		p.text(" ± ", x.Value.Off.Text)
	} else {
		p.text(x.Value.Written())
	}
	if x.Unit.Text != "1" {
		p.unit(x.Unit, x.Unit.Text == "°" || x.Unit.Text == "′" || x.Unit.Text == "″")
	}
	if off := x.Value.Off; off != nil && off.Shape != units.Normal {
		p.text(" ", off.Shape.String())
	}
}

// Mixed writes the parts with blanks between: 13 h 4 min 58 s. Its one minus is
// before the first part and applies to all of them.
func (p *printer) Mixed(x *Mixed) {
	if x.Neg {
		p.text("-")
	}
	for i, q := range x.Parts {
		if i > 0 {
			p.text(" ")
		}
		p.Quantity(q)
	}
}

// Measured writes (1/2) kg. The bracket is a part of the tree.
func (p *printer) Measured(x *Measured) {
	p.expr(x.X)
	p.unit(x.Unit, false)
}

// Name writes v, and v@3 for the v of line 3.
func (p *printer) Name(x *Name) {
	p.text(x.Name)
	if x.Line > 0 {
		p.text("@", strconv.Itoa(x.Line))
	}
}

func (p *printer) Paren(x *Paren) {
	p.text("(")
	p.expr(x.X)
	p.text(")")
}

// Unary writes a sign close to what is behind it: -3^2, which is the negative of a
// square and is read as that again.
func (p *printer) Unary(x *Unary) {
	if x.Op == Sub {
		p.text("-")
	} else {
		p.text("+")
	}
	p.expr(x.X)
}

// Root writes √ without a bracket of its own: √(2*g*h) has a Paren below the root,
// and √2*π is the product of a root and π.
func (p *printer) Root(x *Root) {
	p.text("√")
	p.expr(x.X)
}

// Call writes the arguments by their place or, where the line has it so, by name,
// as those of a formula may be: spring_energy(k, x = 2 cm).
func (p *printer) Call(x *Call) {
	switch {
	case x.Signed && len(x.Args) == 2:
		p.expr(x.Args[0].X)
		p.text(" ", x.Func, " ")
		p.expr(x.Args[1].X)
		return
	case x.Signed:
		p.text("|")
		p.expr(x.Args[0].X)
		p.text("|")
		return
	}
	p.text(x.Func, "(")
	for i, a := range x.Args {
		if i > 0 {
			p.text(", ")
		}
		if a.Name != "" {
			p.text(a.Name, " = ")
		}
		p.expr(a.X)
		if counted := a.Counted(); counted != "" {
			p.text(" ", counted)
		}
	}
	p.text(")")
}

// With writes v with m = 3 kg, g = 2 m/s^2. A name with a line keeps it.
func (p *printer) With(x *With) {
	p.expr(x.X)
	for i, b := range x.By {
		p.text([]string{" with ", ", "}[min(i, 1)])
		p.Name(&Name{Name: b.Name, Line: b.Line})
		p.text(" = ")
		p.expr(b.X)
	}
}

// SlopeOf writes slope of x(t) at t = 2 s.
func (p *printer) SlopeOf(x *SlopeOf) {
	p.text("slope of ")
	p.expr(x.X)
	p.text(" at ", x.Var.Name, " = ")
	p.expr(x.Place)
}

// AreaUnder writes area under F(x) from 0 m to 1 m. The clause with against is
// there only if it was written: where it was not, the name is the one in the call.
func (p *printer) AreaUnder(x *AreaUnder) {
	p.text("area under ")
	p.expr(x.X)
	if x.Var.NameAt != (Span{}) {
		p.text(" against ", x.Var.Name)
	}
	if !x.All {
		p.text(" from ")
		p.expr(x.From)
		p.text(" to ")
		p.expr(x.To)
	}
}

// unit prints a unit behind a number, some signs close to it.
func (p *printer) unit(u UnitText, close bool) {
	if !u.Present() {
		return
	}
	if !close {
		p.text(" ")
	}
	p.text(u.Text)
}

// Binary writes the operators as people type them: blanks round + and -, none
// round the others. A product without a sign stays one, 2πr, since its place among
// the operators is another: ω/2π divides by π, and ω/2*π does not.
//
// A stroke behind a unit has blanks round it. Without them the unit would go on:
//
//	5 m / s      5 m divided by a name s
//	5 m/s        one quantity
func (p *printer) Binary(x *Binary) {
	if x.Op == Pow && p.raisedPower(x) {
		return
	}
	if x.Implied {
		p.raised++
	}
	p.expr(x.X)
	if x.Implied {
		p.raised--
	}
	switch {
	case x.Implied:
		if gapNeeded(x.X, x.Y) {
			p.text(" ")
		}
	case x.Op == Add:
		p.text(" + ")
	case x.Op == Sub:
		p.text(" - ")
	case x.Op == Mul:
		p.text("*")
	case x.Op == Div && endsInUnit(x.X):
		p.text(" / ") // 5 m / s divides by s; 5 m/s is a unit
	case x.Op == Div:
		p.text("/")
	case x.Op == Pow:
		p.text("^")
	}
	p.expr(x.Y)
}

// raisedPower prints π² with a raised exponent where π^2 would run into a name that
// follows without a sign: π^2 E0.
func (p *printer) raisedPower(b *Binary) bool {
	n, ok := b.Y.(*Number)
	if _, pi := b.X.(*Pi); !pi || !ok || p.raised == 0 || strings.Trim(n.Value.Text, "0123456789") != "" {
		return false
	}
	p.text("π", writing.Raised(n.Value.Text))
	return true
}

// gapNeeded tells whether a blank stands between the factors of an implied
// product: before a function's name, after a number (0.5(2) is an uncertainty)
// and after a number under a root (√2π could be read in two ways).
//
// The first factor of y and the last of x are what meet: in 2 sin(θ) the 2 and the
// call, in 2πr the π and the r, between which nothing can be mistaken.
func gapNeeded(x, y Expr) bool {
	first := y
	for {
		b, ok := first.(*Binary)
		if !ok {
			break
		}
		first = b.X
	}
	if _, call := first.(*Call); call {
		return true
	}
	_, pi := first.(*Pi)
	rooted := false
	for {
		switch t := x.(type) {
		case *Binary:
			x = t.Y
		case *Unary:
			x = t.X
		case *Root:
			x, rooted = t.X, true
		case *Number:
			return rooted || !pi
		default:
			return false
		}
	}
}

// endsInUnit tells whether the text of an expression ends with a unit.
//
// Of a product or a sum the last operand counts, of a sign what is behind it. A
// unit in a bracket is shut off by it, so that (5 m)/s needs no blanks.
func endsInUnit(x Expr) bool {
	for {
		switch t := x.(type) {
		case *Quantity, *Mixed, *Measured:
			return true
		case *Binary:
			x = t.Y
		case *Unary:
			x = t.X
		default:
			return false
		}
	}
}
