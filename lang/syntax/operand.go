package syntax

import (
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/units"
	"steelyard/units/writing"
)

// raised reads an exponent in raised digits.
//
// There are raised signs for whole numbers and n alone: none for a point or a stroke.
//
// So x² has the exponent 2, x⁻¹² the exponent -12, and xⁿ the name n. In a raised
// exponent the sign belongs to the number; more than that is written with ^.
func (p *exprParser) raised(t *token) Expr {
	text, at := writing.OnTheLine(t.text), t.span()
	if text == "n" {
		return &Name{At: at, Name: "n"}
	}
	negative := false
	if text != "" && (text[0] == '-' || text[0] == '+') {
		negative, text = text[0] == '-', text[1:]
	}
	if text == "" || strings.Trim(text, "0123456789") != "" {
		p.fail(&fault{finding.New(finding.Unreadable, at, "This raised text isn't a whole number.", "Write the exponent with ^, as in x^2.")})
	}
	return &Number{At: at, Value: p.decimal(text, at, negative)}
}

// decimal is the value of a written number.
//
// A number that is too large or too long is a fault at its place.
func (p *exprParser) decimal(text string, at Span, negative bool) units.Decimal {
	d, bad := decimal(text, at, negative)
	if bad != nil {
		p.fail(bad)
	}
	return d
}

// unitNext takes a unit if one follows.
//
// Whether letters are a unit has been settled by the scanner, by their place
// alone; here it is only taken. Without one, the result is not Present.
func (p *exprParser) unitNext() UnitText {
	if p.tok.kind != unitToken {
		return UnitText{}
	}
	t := p.take()
	return t.unit()
}

// operand reads what a sign can stand before. It always returns one: after a fault
// a π that nobody looks at.
//
// A number, π, that, a name or a call, a bracket, a list, a root. Where the number is bare,
// as an exponent and under a root without brackets, a unit behind it does not belong to it.
//
// What is read for some texts:
//
//	3 m          Quantity
//	(1/2) kg     Measured: a bracket of written numbers and its unit
//	√(2*3) m     Measured round a root of numbers
//	v@12         Name with a line
//	[1, 2] s     List
//
// A slope or an area is none: in a sum or a product it needs brackets.
func (p *exprParser) operand() Expr {
	at, bare := p.tok.span(), p.bare
	p.bare = false
	switch p.tok.kind {
	case numToken:
		return p.number(bare)
	case piToken:
		p.take()
		pi := &Pi{At: at}
		if p.tok.kind == unitToken {
			return p.measured(&Paren{At: at, X: pi})
		}
		return pi
	case thatToken:
		p.take()
		return &That{At: at}
	case nameToken:
		return p.name()
	case signToken:
		switch p.tok.text {
		case "(":
			return p.paren(bare)
		case "[":
			return p.list()
		case "√":
			p.take()
			p.bare = true
			x := p.nested(at, p.operand)
			root := &Root{At: at.Join(x.Span()), X: x}
			if bare {
				return root
			}
			return p.measured(root)
		}
	}
	if curveWord(p.tok) != nil {
		p.fail(needsBrackets(*p.tok))
	} else {
		p.fail(p.missing())
	}
	return &Pi{At: at}
}

// missing says that an operand is missing before the next token.
//
// A word of the language where an operand should be was most likely meant as a name: at is
// a times t in kinematics.
//
// At the end of a line it is unfinished, m +; before a sign it lacks a part, m + *
// 2. A word of the language at the beginning of an expression is told to be no
// name.
func (p *exprParser) missing() *fault {
	t := p.tok
	at := t.span()
	if t.kind == wordToken && t.text == "at" {
		return timesT(at)
	}
	if t.kind == wordToken && p.end == 0 {
		return keptWord(at, t.text)
	}
	if t.kind == eofToken {
		return &fault{finding.New(finding.Incomplete, at, "This line is unfinished.",
			"Write the rest, or take the last sign out.")}
	}
	return &fault{finding.New(finding.Unreadable, at, "A number, a name or a bracket is missing before \""+t.text+"\" here.",
		"Write it, or take the sign out.")}
}

// timesT says that the word at is no product.
func timesT(at Span) *fault {
	return &fault{finding.New(finding.NameKind, at, "`at` has its own meaning here.", "For a times t, put `*` between them.", "a*t")}
}

// number reads a written number with what belongs to it; a bare one has no unit.
//
// ½ is the bracket (1/2), so that ½² is a quarter. A number with ± is a quantity even without
// a unit, since it was measured. 5.00π rad is one quantity, as it is printed.
//
// A bare number in x^2 m leaves the m for what is outside of the power. Behind a
// quantity another number may be its next part, 13 h 4 min; see mixed.
func (p *exprParser) number(bare bool) Expr {
	t := p.take()
	at := t.span()
	if a, b, ok := isVulgar(firstRune(t.text)); ok { // ½ is (1/2)
		x, _ := units.ParseDecimal(a)
		y, _ := units.ParseDecimal(b)
		return p.measured(&Paren{At: at, X: &Binary{At: at, OpFrom: at.From, Op: Div, X: &Number{At: at, Value: x}, Y: &Number{At: at, Value: y}}})
	}
	d := p.decimal(t.text, at, false)
	if bare {
		return &Number{At: at, Value: d}
	}
	if u := p.unitNext(); u.Present() {
		q := &Quantity{At: at.Join(u.At), Value: d, Unit: u}
		if p.tok.kind == numToken {
			return p.mixed(q)
		}
		return q
	}
	if d.Off != nil { // it was measured, and is no coefficient
		return &Quantity{At: at, Value: d, Unit: UnitText{Text: "1", At: at}}
	}
	n := &Number{At: at, Value: d}
	if p.tok.kind == piToken && p.from.peek(1).kind == unitToken { // 5.00π rad
		pi := &Pi{At: p.take().span()}
		b := binary(Mul, Span{From: at.To, To: pi.At.From}, n, pi)
		b.Implied = true
		return p.measured(&Paren{At: b.At, X: b})
	}
	return n
}

// paren reads a bracket, in which an expression may have a with: (v with m = 2
// kg).
func (p *exprParser) paren(bare bool) Expr {
	at := p.take().span()
	x := &Paren{X: p.nested(at, p.whole)}
	if p.tok.sign(",") {
		return p.vector(at, x.X)
	}
	if x.At = at.Join(p.sign(")")); bare {
		return x
	}
	return p.measured(x)
}

// name reads a name, or a call where a bracket follows.
//
// The name is in canonical form, so that v_0 and v₀ are one. Behind @ is the
// number of a line of the page, from 1 on; whether that line has the name is found
// later, as is whether a name before a bracket is a function at all.
func (p *exprParser) name() Expr {
	t := p.take()
	at := t.span()
	name := Canonical(t.text)
	if p.tok.sign("(") {
		return p.measured(p.call(name, at))
	}
	x := &Name{At: at, Name: name}
	if p.tok.kind == lineToken {
		line := p.take()
		x.Line, _ = strconv.Atoi(line.text[1:])
		x.At = at.Join(line.span())
		if x.Line < 1 || x.Line > 1<<30 {
			p.fail(&fault{finding.New(finding.Unreadable, line.span(), "The number of a line is missing after @.", "Write it as in v@12.")})
		}
	}
	return x
}

// call reads arguments. How many a function takes is not known here; limit.Args is
// only the bound of any call.
func (p *exprParser) call(name string, at Span) Expr {
	c := &Call{At: at, Func: name, Name: at, Args: make([]Arg, 0, 2), Signed: at.From == at.To}
	return p.nested(p.take().span(), func() Expr {
		c.At = p.several(at, "These brackets have", limit.Args, "lines", ")", func() { c.Args = append(c.Args, p.arg(name)) })
		return c
	})
}

// several reads values with commas between them as far as the bracket that shuts them,
// and returns where they are. There may be so many at the most.
//
// It serves calls and lists, which differ in their words: these and into are parts
// of the message for too many, "These brackets have more than … values. Split it
// into several lines."
func (p *exprParser) several(at Span, these string, most int, into, shut string, one func()) Span {
	for n := 0; ; n++ {
		if n == most {
			p.fail(&fault{finding.New(finding.TooLong, at, these+" more than "+strconv.Itoa(most)+" values.",
				"Split it into several "+into+".")})
		}
		if one(); !p.tok.sign(",") {
			return at.Join(p.sign(shut))
		}
		p.take()
	}
}

// arg reads one argument, given by its place or by its name.
//
// A name with = behind it is that of a symbol of a formula, spring_energy(k, x = 2
// cm), and not a comparison: there are none within brackets.
func (p *exprParser) arg(of string) Arg {
	var a Arg
	if p.tok.kind == nameToken {
		if after := p.from.peek(1); after.sign("=") {
			t := p.take()
			a.Name, a.NameAt = Canonical(t.text), t.span()
			p.take()
		}
	}
	a.X = p.sum()
	switch x := a.X.(type) {
	case *Number:
		if of == "round" && (p.taken("figures") || p.taken("figure")) {
			a.Figures = p.counted(x.Value.Text, x.At, mostFigures)
		}
	case *Quantity:
		if of == "round" && figureWord(x.Unit.Text) {
			p.fail(notFigures(x.Unit.At, x.Unit.Text))
		}
	}
	return a
}

// Counted is what is written behind an argument that counts figures; nothing behind another.
func (a *Arg) Counted() string { return [...]string{"", "figure", "figures"}[min(a.Figures, 2)] }
