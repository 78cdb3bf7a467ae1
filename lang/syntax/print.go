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
func PrintExpr(x Expr) string {
	if x == nil {
		return ""
	}
	var p printer
	p.expr(x)
	return p.b.String()
}

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

func (p *printer) Number(x *Number) { p.text(x.Value.Written()) }
func (p *printer) Pi(*Pi)           { p.text("π") }
func (p *printer) That(*That)       { p.text("that") }

func (p *printer) Quantity(x *Quantity) {
	if x.Value.Off != nil && x.Unit.Text == "%" {
		p.text(x.Value.Text, " %")
		p.text(" ± ", x.Value.Off.Text)
	} else {
		p.text(x.Value.Written())
	}
	if x.Unit.Text == "1" {
		return
	}
	p.unit(x.Unit, x.Unit.Text == "°" || x.Unit.Text == "′" || x.Unit.Text == "″")
	if off := x.Value.Off; off != nil && off.Shape != units.Normal {
		p.text(" ", off.Shape.String())
	}
}

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

func (p *printer) Measured(x *Measured) {
	p.expr(x.X)
	p.unit(x.Unit, false)
}

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

func (p *printer) Unary(x *Unary) {
	if x.Op == Sub {
		p.text("-")
	} else {
		p.text("+")
	}
	p.expr(x.X)
}

func (p *printer) Root(x *Root) {
	p.text("√")
	p.expr(x.X)
}

func (p *printer) Call(x *Call) {
	p.text(x.Func, "(")
	for i, a := range x.Args {
		if i > 0 {
			p.text(", ")
		}
		if a.Name != "" {
			p.text(a.Name, " = ")
		}
		p.expr(a.X)
	}
	p.text(")")
}

func (p *printer) With(x *With) {
	p.expr(x.X)
	for i, b := range x.By {
		p.text([]string{" with ", ", "}[min(i, 1)])
		p.Name(&Name{Name: b.Name, Line: b.Line})
		p.text(" = ")
		p.expr(b.X)
	}
}

func (p *printer) SlopeOf(x *SlopeOf) {
	p.text("slope of ")
	p.expr(x.X)
	p.text(" at ", x.Var.Name, " = ")
	p.expr(x.Place)
}

func (p *printer) AreaUnder(x *AreaUnder) {
	p.text("area under ")
	p.expr(x.X)
	if x.Var.NameAt != (Span{}) {
		p.text(" against ", x.Var.Name)
	}
	p.text(" from ")
	p.expr(x.From)
	p.text(" to ")
	p.expr(x.To)
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
