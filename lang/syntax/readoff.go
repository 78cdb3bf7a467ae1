package syntax

import "steelyard/lang/finding"

type (
	// SlopeOf is slope of F(x) at x = A: the derivative of a curve at a place. Var
	// is bound in X: there it means the place, whatever it means outside.
	SlopeOf struct {
		At    Span
		X     Expr
		Var   Ident
		Place Expr
	}
	// AreaUnder is area under F(x) [against x] from A to B: the integral of a curve.
	// Var is bound in X. Where it is not written, it is the argument of the curve's
	// only call, and its span is empty; it has no name if there is no such call.
	//
	// The name that it is against may be left out, as in area under F(x), where the curve shows it.
	AreaUnder struct {
		At       Span
		X        Expr
		Var      Ident
		From, To Expr
		// All tells that no range was written: it goes over all readings of Var, from the
		// least to the greatest.
		All bool
	}
)

func (x *SlopeOf) Span() Span   { return x.At }
func (x *AreaUnder) Span() Span { return x.At }

func (*SlopeOf) derived()   {}
func (*AreaUnder) derived() {}

func (x *SlopeOf) Visit(v Visitor)   { v.SlopeOf(x) }
func (x *AreaUnder) Visit(v Visitor) { v.AreaUnder(x) }

func (x *SlopeOf) part(i int) Expr   { return nth(i, x.X, x.Place) }
func (x *AreaUnder) part(i int) Expr { return nth(i, x.X, x.From, x.To) }

func (x *SlopeOf) copied(c *copier) Expr {
	return &SlopeOf{At: c.at(x.At), X: c.within(x.X, x.Var), Var: x.Var, Place: c.part(x.Place)}
}

func (x *AreaUnder) copied(c *copier) Expr {
	return &AreaUnder{At: c.at(x.At), X: c.within(x.X, x.Var), Var: x.Var, From: c.part(x.From), To: c.part(x.To), All: x.All}
}

var slopeWord = StatementWord{
	Word: slopeText, Form: "slope of F(x) at x = A [in UNIT]",
	Summary: "The derivative of a function at a point.",
	Example: "slope of (5 m/s^2)*t^2 at t = 3 s", Stored: true, Ready: true,
	second: "of", next: []string{"of", "at", "in"},
}

var areaWord = StatementWord{
	Word: areaText, Form: "area under F(x) [against x] [from A to B] [in UNIT]",
	Summary: "The integral of a function between two bounds.",
	Example: "area under (3 N/m)*x against x from 0 m to 4 m", Stored: true, Ready: true,
	second: "under", next: []string{"under", "against", "from", "to", "in"},
}

// The words that a slope and an area begin with, where their second one follows.
const (
	slopeText = "slope"
	areaText  = "area"
)

// curveWord is the word of a slope or an area if a token is its first.
func curveWord(t *token) *StatementWord {
	switch {
	case t.kind != wordToken:
	case t.text == slopeText:
		return &slopeWord
	case t.text == areaText:
		return &areaWord
	}
	return nil
}

// readsCurve tells whether a word with the one after it begins a slope or an
// area, so that both are words of the language.
func readsCurve(word, next string) bool {
	return word == slopeText && next == slopeWord.second || word == areaText && next == areaWord.second
}

// reading reads a slope or an area. What it takes goes as far as it can, so that
// in a sum or a product it needs brackets.
//
// So a slope in a sum must be in brackets: without, slope of x(t) at t = 3 s + 1 m/s would have
// its place at 3 s + 1 m/s.
func (p *exprParser) reading(w *StatementWord) Expr {
	first := p.take()
	x := p.nested(first.span(), func() Expr {
		if p.word(w.second); w == &slopeWord {
			return p.slope(first.from)
		}
		return p.area(first.from)
	})
	if p.bad != nil {
		w.form(p.bad)
	}
	return x
}

// slope reads what follows slope of.
func (p *exprParser) slope(from int) Expr {
	p.slopes = p.depth
	s := &SlopeOf{X: p.sum()}
	p.slopes = 0
	p.word("at")
	if s.Var = p.ident(); p.tok.sign("=") {
		p.take()
		s.Place = p.sum()
	} else { // at t is at t = t
		s.Place = &Name{At: s.Var.NameAt, Name: s.Var.Name}
	}
	s.At = Span{From: from, To: p.end}
	return s
}

// area reads what follows area under.
func (p *exprParser) area(from int) Expr {
	s := &AreaUnder{X: p.sum()}
	if p.taken("against") {
		s.Var = p.ident()
	} else if call, ok := s.X.(*Call); ok && len(call.Args) == 1 {
		if n, ok := call.Args[0].X.(*Name); ok {
			s.Var.Name = n.Name
		}
	}
	if s.All = s.Var.NameAt != (Span{}) && !p.tok.is("from"); s.All {
		x := []Arg{{X: &Name{At: s.Var.NameAt, Name: s.Var.Name}}}
		s.From = &Call{At: s.Var.NameAt, Name: s.Var.NameAt, Func: "min", Args: x}
		s.To = &Call{At: s.Var.NameAt, Name: s.Var.NameAt, Func: "max", Args: x}
	} else {
		p.word("from")
		s.From = p.sum()
		p.word("to")
		s.To = p.sum()
	}
	s.At = Span{From: from, To: p.end}
	return s
}

// needsBrackets says that a slope or an area stands in a sum or a product.
func needsBrackets(t token) *fault {
	return &fault{finding.New(finding.Unreadable, t.span(), "A slope or an area in a sum or a product needs brackets.",
		"Put ( before `"+t.text+"`, and ) after its last part.")}
}
