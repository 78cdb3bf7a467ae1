package syntax

import (
	"strconv"
	"strings"

	"steelyard/lang/finding"
)

// Report is report NAME [in UNIT] [as FORM] [to N figures] [for N points], or report
// sign of NAME.
//
// For instance report k in N/m to 3 figures for 2 points: k is an answer of the
// part that the line is in, is shown so in the key, and is worth two points. Of
// report sign of W the answer is whether W is negative, positive or zero.
type Report struct {
	X       Expr
	In      UnitText
	Form    VectorForm
	Figures int // 0 if none was asked
	Points  int // 0 if none was given
	Sign    bool
}

// VectorForm is how a vector is reported.
type VectorForm uint8

// The forms: by its components, with its magnitude and direction told beside them on a screen,
// unless a line asks for one of the two.
const (
	UsualForm VectorForm = iota
	AsComponents
	AsPolar // as magnitude and direction
)

var reportWord = StatementWord{
	Word: "report", Form: "report NAME [in UNIT] [as components] [to N figures] [for N points]",
	Summary: "Makes a value an answer of its part.",
	Example: "report k in N/m to 3 figures for 2 points", Stored: true, Ready: true, read: clauses(readReport),
	expr: true, phrases: phrases("as components", "as magnitude and direction", "as …"), next: []string{"in", "as", "to", "for"},
}

func (s *Report) Exprs() []Expr  { return []Expr{s.X} }
func (*Report) Defines() []Ident { return nil }
func (*Report) is() nature       { return nature{kept, Answer, nil} }

// form reads as components, or as magnitude and direction.
func (p *exprParser) form() VectorForm {
	switch {
	case !p.taken("as"):
		return UsualForm
	case p.taken("components"):
		return AsComponents
	}
	p.word("magnitude")
	p.word("and")
	p.word("direction")
	return AsPolar
}

// The clauses come in the order of the form, each once or not at all.
func readReport(r *reader, tokens []token) (Stmt, *fault) {
	p := r.line(tokens, 1)
	s := &Report{}
	if s.Sign = p.taken("sign"); s.Sign {
		p.word("of")
	}
	s.X = p.whole()
	s.Form = p.form()
	if s.In = p.inUnit(); s.Form == UsualForm {
		s.Form = p.form()
	}
	if p.taken("to") {
		s.Figures = p.count("figure", mostFigures)
	}
	if p.taken("for") {
		s.Points = p.count("point", mostPoints)
	}
	return s, p.ends()
}

// The greatest numbers that count reads.
const (
	mostFigures = 15 // a float64 holds no more for certain
	mostPoints  = 1000
)

// count reads N figures or N points.
//
// Either form of the word will do, 1 figure and 1 figures. Refused are 0, 2.5 and
// more than most, and other words for figures, which are told by themselves.
func (p *exprParser) count(thing string, most int) int {
	if p.tok.kind != numToken {
		p.refuse()
	}
	t := p.take()
	if !p.taken(thing) && !p.taken(thing+"s") {
		if figureWord(p.tok.text) {
			p.fail(notFigures(p.tok.span(), p.tok.text))
		}
		p.refuse()
	}
	return p.counted(t.text, t.span(), most)
}

// counted is the number that a text writes, from 1 to the most.
func (p *exprParser) counted(text string, at Span, most int) int {
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > most {
		p.fail(&fault{finding.New(finding.BadNumber, at, "A whole number from 1 to "+strconv.Itoa(most)+" is missing here.", "Write it in digits.")})
	}
	return n
}

// figureWord tells whether a word behind a number is another for figures or for
// decimals: to 3 sf, to 2 d.p.
//
// They are in the way of marking schemes, each another; a worksheet has one.
func figureWord(word string) bool {
	switch strings.ReplaceAll(word, ".", "") {
	case "sf", "SF", "sigfig", "sigfigs", "sig figs", "sig fig", "significant figures", "digits", "significant digits",
		"dp", "DP", "decimals", "decimal places":
		return true
	}
	return false
}

// notFigures says that a value is rounded to figures.
//
// For sf the word figures is offered in its place. For dp there is no offer: how
// many figures that is depends on the value.
func notFigures(at Span, word string) *fault {
	f := finding.New(finding.NotWritten, at, "`"+word+"` isn't used here; write figures.", "", "figures")
	if strings.ContainsAny(word[:1], "dD") && word != "digits" {
		f.Message, f.Readings = "A value is rounded to figures here, not to decimal places.", nil
		f.Hint = "Count all its digits, but not the zeros in front: 5.12 and 0.0512 have 3 figures. Write it as in `to 3 figures`."
	}
	return &fault{f}
}
