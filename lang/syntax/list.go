package syntax

import (
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
)

// List is values of one kind in square brackets: [1.21, 1.19, 1.24] s. The unit
// belongs to each of them, and then they are written numbers; without it each has its
// own. In round brackets they are the two or three components of a vector.
//
// A list is a series of readings, and is counted with as one value: what is done
// to it is done to each element. Elements may have units of their own if they are
// of one kind, [1 m, 20 cm]; that they are is found when the line is planned, as
// it is known only there what a name has. [1, 2 s] is refused there.
type List struct {
	At     Span
	Elems  []Expr
	Unit   UnitText
	Vector bool
}

func (x *List) Span() Span      { return x.At }
func (x *List) Visit(v Visitor) { v.List(x) }
func (x *List) part(i int) Expr { return nth(i, x.Elems...) }
func (p *printer) List(x *List) { p.list(x) }
func (x *List) copied(c *copier) Expr {
	out := &List{At: c.at(x.At), Elems: make([]Expr, len(x.Elems)), Unit: c.unit(x.Unit), Vector: x.Vector}
	for i, e := range x.Elems {
		out.Elems[i] = c.part(e)
	}
	return out
}

// Measured is element i with the unit of its list.
//
// So [1.21, 1.19] s has the elements 1.21 s and 1.19 s, and [1/2, 3/4] s has (1/2)
// s and (3/4) s: to whoever works a list out, both ways to write it are the same.
// A place that is out of range is the fault of the caller.
func (x *List) Measured(i int) Expr {
	e := x.Elems[i]
	if !x.Unit.Present() {
		return e
	}
	switch one := Unbracket(e).(type) {
	case *Number:
		return &Quantity{At: one.At, Value: one.Value, Unit: x.Unit}
	case *List: // a vector of a list
		v := *one
		v.Unit = x.Unit
		return &v
	}
	return &Measured{At: e.Span(), X: &Paren{At: e.Span(), X: e}, Unit: x.Unit}
}

// Brackets are the two round its values.
func (x *List) Brackets() string {
	if x.Vector {
		return "()"
	}
	return "[]"
}

// list writes a comma and a blank between elements: a comma with no blank could be
// the decimal point of a list such as [1,21, 1,19].
func (p *printer) list(x *List) {
	brackets := x.Brackets()
	p.text(brackets[:1])
	for i, e := range x.Elems {
		if i > 0 {
			p.text(", ")
		}
		p.expr(e)
	}
	p.text(brackets[1:])
	p.unit(x.Unit, x.Unit.Text == "°")
}

// list reads the values between square brackets, and the unit behind them.
//
// A list has two values or more: a bracket such as [3] s is most often meant as a
// round one, and is refused with (3) s as the offer. How many values there may be
// at most is limit.Written.
func (p *exprParser) list() Expr {
	at := p.take().span()
	x := &List{At: at}
	return p.nested(at, func() Expr {
		x.At = p.several(at, "This list has", limit.Written, "lists", "]", func() { x.Elems = append(x.Elems, p.sum()) })
		if x.Unit = p.unitNext(); x.Unit.Present() {
			x.At = x.At.Join(x.Unit.At)
			p.unitOfList(x)
		}
		if len(x.Elems) == 1 && p.bad == nil {
			inner := PrintExpr(x.Elems[0])
			p.fail(&fault{finding.New(finding.NotWritten, x.At, "A list in square brackets has two values or more.",
				"Write round brackets.", "("+inner+")"+strings.TrimSuffix(" "+x.Unit.Text, " "))})
		}
		return x
	})
}

// unitOfList refuses a unit behind a list of what has one of its own: [c, 2] cm.
//
// With c a name it can't be seen whether the unit is meant for c too: [c, 2] cm
// may be a c that lacks its unit, or one that has it. So each value is to have its
// own, and the message writes them out: [c, 2 cm].
func (p *exprParser) unitOfList(x *List) {
	k := slices.IndexFunc(x.Elems, func(e Expr) bool { return !isBare(e) })
	if k < 0 {
		return
	}
	each := make([]string, len(x.Elems))
	for i, e := range x.Elems {
		if each[i] = PrintExpr(e); isBare(e) {
			each[i] += " " + x.Unit.Text
		}
	}
	p.fail(&fault{finding.New(finding.NotWritten, x.Elems[k].Span(), "A unit after a list is for written numbers only.",
		"Give each value its own unit: ["+strings.Join(each[:min(len(each), 4)], ", ")+"].")})
}

// isBare tells whether an expression is made of written numbers without units.
//
// The unit 1 of a measured pure number, 4.0 ± 0.1, is none that was written.
func isBare(x Expr) bool {
	return IsWritten(x) && !Any(x, func(x Expr) bool {
		switch x := x.(type) {
		case *Quantity:
			return x.Unit.Text != "1"
		case *Mixed, *Measured:
			return true
		case *List:
			return !x.Vector || x.Unit.Present()
		}
		return false
	})
}

// listParts finds a list with another sign between its values, or with blanks alone:
// [1; 2; 3], [1 2 3].
func (l *scanner) listParts(sign string) *fault {
	open := l.open[len(l.open)-1]
	inner, _, closed := strings.Cut(l.text[open.at+1:l.end], "]")
	if !closed {
		inner = strings.TrimRight(inner, " \t")
	}
	values := strings.FieldsFunc(inner, func(r rune) bool { return isBlank(r) && sign == " " || strings.ContainsRune(",;", r) })
	for i := range values {
		values[i] = strings.TrimSpace(values[i])
	}
	f := finding.New(finding.NotWritten, Span{From: open.at, To: open.at + 1 + len(inner)}, "The values of a list have commas between them.", "Write commas.")
	if closed {
		f.At.To++
		f.Readings = []string{"[" + strings.Join(values, ", ") + "]"}
	}
	if points := strings.Fields(inner); closed && sign == " " && len(points) > 1 && !slices.ContainsFunc(points, func(v string) bool { return !decimalComma(v) }) {
		f.Hint = "Write decimal points, and a comma between two values."
		f.Readings = []string{"[" + strings.ReplaceAll(strings.Join(points, "; "), ",", ".") + "]", f.Readings[0]}
		f.Readings[0] = strings.ReplaceAll(f.Readings[0], ";", ",")
	}
	return &fault{f}
}

// decimalComma tells whether a text is a number with a comma in it: 1,21.
func decimalComma(text string) bool {
	whole, part, comma := strings.Cut(text, ",")
	return comma && whole != "" && part != "" && strings.Trim(whole+part, "0123456789") == ""
}

// listCommas finds [1,21; 1,19] and [1,21, 1,19], where a comma may be a decimal
// point. Commas that are all alike are those between the values.
//
// Half of the world writes 1,21 for 1.21. Three forms are told apart:
//
//	[1,2,3]           commas between values, all tight
//	[1, 2, 3]         commas between values, all with a blank
//	[1,21, 1,19]      of two minds: [1.21, 1.19] or [1, 21, 1, 19]
//	[1,21; 1,19]      a semicolon: the commas are decimal points
//
// In round brackets (3,5) is of two minds too: 3.5, or a vector. The first two are read. Taken in silence as values, the others would make a list
// of other numbers and of another length, and a mean that is off.
func (n numeral) listCommas(open bracket) *fault {
	length := strings.Index(n.text[open.at:n.end], open.closing())
	if length < 0 {
		return nil
	}
	inner := n.text[open.at+1 : open.at+length]
	tight, loose, deep := 0, 0, 0
	for i := range len(inner) {
		switch inner[i] {
		case '(':
			deep++
		case ')':
			deep--
		}
		if inner[i] == ',' && deep == 0 { // those of a vector are its own
			if after := strings.TrimLeft(inner[i+1:], " \t"); after != inner[i+1:] {
				loose++
			} else {
				tight++
			}
		}
	}
	at := Span{From: open.at, To: open.at + length + 1}
	apart := strings.Contains(inner, ";")
	within := len(n.open) > 1 && n.open[len(n.open)-2].sign == '['                       // [(3,5), (1,2)] m
	single := open.sign == '(' && tight == 1 && !within && !strings.Contains(inner, ".") // (3,5) m
	if !apart && !single && (tight == 0 || loose == 0) {
		return nil
	}
	points, values := commasAsPoints.Replace(inner), commasApart.Replace(inner)
	bracketed := func(text string) string { return string(open.sign) + text + open.closing() }
	f := finding.New(finding.BadNumber, at, "A comma in this list may be a decimal point, or a comma between two values.",
		"Write decimal points, and a comma between two values.", bracketed(points))
	if open.sign == '(' {
		f.Message = "A comma in these brackets may be a decimal point, or a comma between two components of a vector."
	}
	if !apart && (open.sign == '[' || strings.Count(values, ",") < len(Axes)) {
		f.Readings = append(f.Readings, bracketed(values))
	}
	if open.sign == '(' { // nobody puts a single value in brackets
		slices.Reverse(f.Readings)
	}
	return &fault{f}
}

// parts tells whether a bracket holds the components of a vector, so that a comma behind
// a number may part them: (3, 4) m and (3.0,4.0) m, (1,2,3) m, but not (1,250 N - 3 N).
func (n numeral) parts(open bracket) bool {
	inner, _, closed := strings.Cut(n.text[open.at+1:n.end], ")")
	digits := n.digits(n.to + 1)
	return closed && open.sign == '(' && !open.with && !(strings.Count(inner, ",") == 1 && digits == n.to+4 && !strings.Contains(inner, "."))
}

// commasAsPoints reads the tight commas of a list as decimal points, commasApart as commas
// between values: the inner part of [1,21, 1,19] becomes 1.21, 1.19 and 1, 21, 1, 19. A comma is
// tight where no blank is behind it; a semicolon is always between two values.
var (
	commasAsPoints = strings.NewReplacer(", ", ", ", ",\t", ", ", ",", ".", "; ", ", ", ";", ", ")
	commasApart    = strings.NewReplacer(", ", ", ", ",\t", ", ", ",", ", ", "; ", ", ", ";", ", ")
)
