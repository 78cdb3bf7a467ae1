package syntax

import "steelyard/lang/finding"

// CheckStmt is check A = B [within C], or check A is negative.
//
// For instance check m = 3.01 kg within 1 %, check m < 4 kg and check W is
// negative. Within is how far apart the two sides may be.
type CheckStmt struct {
	Left   Expr
	Op     Comparison
	Right  Expr // nil if Sign is set
	Sign   SignWord
	Within Expr // nil if none was given; a percentage or a quantity
}

// SignWord is what "check W is …" asks.
type SignWord uint8

// The signs a check may ask for; NoSign means that a comparison is asked.
const (
	NoSign SignWord = iota
	Negative
	Positive
	Zero
)

var checkWord = StatementWord{
	Word: "check", Form: "check A = B [within 1 %]",
	Summary: "Tests that two sides agree, or that a value is negative, positive or zero.",
	Example: "check 1/2*4 kg*(3 m/s)^2 = 18 J", Stored: true, Ready: true, read: clauses(readCheck),
	expr: true, next: []string{"within", "is"},
}

func (s *CheckStmt) Exprs() []Expr  { return exprs(s.Left, s.Right, s.Within) }
func (*CheckStmt) Defines() []Ident { return nil }
func (*CheckStmt) is() nature       { return nature{kept, Support, nil} }

// Both sides may be worked out again: check v = v with m = 2*m says that the mass does not
// matter.
//
// A check that fails is no fault of the line: it runs, and says so.
func readCheck(r *reader, tokens []token) (Stmt, *fault) {
	p := r.line(tokens, 1)
	s := &CheckStmt{Left: p.whole()}
	if p.taken("is") {
		if s.Sign = signWords[p.tok.text]; s.Sign == NoSign {
			p.refuse()
		}
		p.take()
		return s, p.ends()
	}
	var ok bool
	if s.Op, ok = p.tok.compares(); !ok {
		p.refuse()
	}
	p.take()
	s.Right = p.whole()
	if p.taken("within") {
		s.Within = p.sum()
	}
	bad := p.ends()
	if bad == nil {
		bad = r.bothSides(s)
	}
	return s, bad
}

var signWords = map[string]SignWord{"negative": Negative, "positive": Positive, "zero": Zero}

// bothSides asks whether what is replaced after the right side of a check is
// replaced on the left side, too.
//
// A with goes as far as it can, and so takes the right side alone: with a name on the left,
// that is rarely meant.
func (r *reader) bothSides(s *CheckStmt) *fault {
	w, ok := s.Right.(*With)
	if !ok || IsWritten(s.Left) {
		return nil
	}
	left, right := r.source(s.Left.Span()), r.source(w.X.Span())
	sign, by := r.source(Span{From: s.Left.Span().To, To: w.X.Span().From}), r.source(Span{From: w.X.Span().To, To: w.At.To})
	return &fault{finding.New(finding.TwoReadings, s.Left.Span().Join(w.At), "This can be read in two ways: is the value replaced on the right side only, or on both?",
		"Use brackets to show what belongs together.",
		left+sign+"("+right+by+")", "("+left+by+")"+sign+"("+right+by+")")}
}
