package syntax

import (
	"steelyard/lang/finding"
	"steelyard/lang/limit"
)

// exprParser is the one production of expressions: precedence climbing with a
// guard of its depth.
//
//	sum      polar    { ("+" | "-") polar }
//	polar    product  [ "at" unary [ bearing ] ] { ( "along" | "across" ) unary }
//	product  implied  { ("*" | "/") implied }
//	implied  unary    { power }             2πr, 2 sin(θ), (a+b)(a-b)
//	unary    { "-" | "+" } power
//	power    operand  [ "^" unary | "²" ]
//
// The first fault stays. After it no token follows any more and what is read has no
// meaning, so that a rule reads its parts one after the other, and only who began
// the reading asks for the fault.
type exprParser struct {
	from  source
	tok   *token // the next one
	depth int
	end   int // of the last token that was taken
	bad   *fault
	// equation tells that an equals sign may follow what is read.
	equation bool
	bare     bool   // an exponent follows, or what a root is of, which takes no unit
	trail    *trail // of a reading, or nil
	// slopes is how deep a slope is whose curve is being read, which ends at its at.
	slopes int
}

// source hands tokens out one after the other. Past the last one it hands out
// an eofToken for ever.
type source interface {
	peek(ahead int) *token
	next()
}

func newParser(from source) *exprParser { return &exprParser{from: from, tok: from.peek(0)} }

// fail keeps the first fault, and ends what can be read.
func (p *exprParser) fail(bad *fault) {
	if p.bad == nil {
		p.bad, p.tok = bad, &token{kind: eofToken, from: p.tok.from, to: p.tok.from}
	}
}

// refuse says that the next token does not fit.
func (p *exprParser) refuse() { p.fail(unexpected(*p.tok)) }

// whole reads an expression with what it is to be worked out with.
func (p *exprParser) whole() Expr { return p.replaced(p.sum()) }

// take returns the next token and goes on. After a fault it returns the same for
// ever.
func (p *exprParser) take() *token {
	t := p.tok
	if p.bad == nil {
		p.from.next()
		p.tok = p.from.peek(0)
		p.end = t.to
	}
	return t
}

// nested reads what is one level deeper than the sign or bracket at a place.
func (p *exprParser) nested(at Span, read func() Expr) Expr {
	if p.depth++; p.depth > limit.Nesting {
		p.fail(tooDeep(at))
	}
	x := read()
	p.depth--
	return x
}

// sumOp tells whether a token adds or subtracts.
func sumOp(t *token) (Op, bool) {
	if t.kind != signToken {
		return 0, false
	}
	switch t.text {
	case "+":
		return Add, true
	case "-", "−", "–", "‐", "‑":
		return Sub, true
	}
	return 0, false
}

// productOp tells whether a token multiplies or divides.
func productOp(t *token) (Op, bool) {
	if t.kind != signToken {
		return 0, false
	}
	switch t.text {
	case "*", "×", "·", "⋅", "∙", "•", "・", "∗":
		return Mul, true
	case "/", "÷", "∕", "⁄":
		return Div, true
	}
	return 0, false
}

// times is the sign of a product, of a vector's in particular.
func times(t *token) Times {
	switch r := firstRune(t.text); {
	case isDot(r):
		return Dot
	case r == '×':
		return Cross
	}
	return Star
}

// binary is an operation whose place goes from its first operand to its last.
func binary(op Op, at Span, x, y Expr) *Binary {
	return &Binary{At: x.Span().Join(y.Span()), OpFrom: at.From, Op: op, X: x, Y: y}
}

// sum goes from the left, so that 5 - 2 - 1 is 2. A slope or an area may be all of
// it, and nothing else.
func (p *exprParser) sum() Expr {
	if w := curveWord(p.tok); w != nil {
		p.trail = nil
		return p.reading(w)
	}
	return p.terms(partial{factors: p.implied()})
}

// partial is what has been read of a sum: its terms so far, if there are any, with the operator
// behind them and its place, and the factors so far of the next.
type partial struct {
	terms, factors Expr
	op             Op
	at             Span
}

// terms reads on from a part of a sum.
func (p *exprParser) terms(read partial) Expr {
	for {
		x := p.polar(p.productOf(read))
		if read.terms != nil {
			x = binary(read.op, read.at, read.terms, x)
		}
		op, ok := sumOp(p.tok)
		if !ok {
			return x
		}
		at := p.take().span()
		read = partial{terms: x, op: op, at: at, factors: p.implied()}
	}
}

// productOf reads on from the first factors of a product. It goes from the left too: a/b*c has
// the c above the bar. What is written without a sign binds more tightly, see implied.
func (p *exprParser) productOf(read partial) Expr {
	x := read.factors
	for {
		if p.trail != nil && p.depth == 0 && p.bad == nil {
			read.factors = x
			p.trail.add(read)
		}
		op, ok := productOp(p.tok)
		if !ok {
			return x
		}
		by, at := times(p.tok), p.take().span()
		b := binary(op, at, x, p.implied())
		b.By, x = by, b
	}
}

// implied reads a product without signs. Which neighbours make one has been
// looked at before; here every operand that follows goes with it.
//
// It binds more tightly than a stroke: ω/2π is ω/(2π). Whether print means something else by
// a line is asked on its tokens (openbar.go).
//
// The place of such a product's operator is the gap between its factors.
func (p *exprParser) implied() Expr {
	x := p.unary()
	for {
		t := p.tok
		if t.kind != nameToken && t.kind != piToken && !t.sign("(") && !t.sign("√") {
			return x
		}
		at := Span{From: p.end, To: t.from}
		y := p.power()
		b := binary(Mul, at, x, y)
		b.Implied = !namesMeet(x, y)
		x = b
	}
}

// namesMeet tells whether two names of the page stand side by side: a product
// that is printed with its sign, since elsewhere it is none.
func namesMeet(x, y Expr) bool {
	if b, ok := x.(*Binary); ok && b.Op == Mul {
		x = b.Y
	}
	_, call := y.(*Call)
	if b, ok := x.(*Binary); ok && b.Op == Pow && !call {
		x = b.X
	}
	if b, ok := y.(*Binary); ok && b.Op == Pow {
		y = b.X
	}
	_, name := y.(*Name)
	_, after := x.(*Name)
	return after && (name || call)
}

// unary reads signs before an operand. A minus directly before a written
// quantity belongs to it, and before a power it is applied last.
//
// -3 m is one quantity, but -3^2 is the negative of a square, as everywhere.
func (p *exprParser) unary() Expr {
	op, ok := sumOp(p.tok)
	if !ok {
		return p.power()
	}
	at := p.take().span()
	number := p.tok.kind == numToken
	x := p.nested(at, p.unary)
	if op == Sub && (number || IsZero(x)) && negated(x, at.From) {
		return x
	}
	return &Unary{At: at.Join(x.Span()), Op: op, X: x}
}

// negated makes a minus part of a written number.
func negated(x Expr, from int) bool {
	switch x := x.(type) {
	case *Number:
		x.Value, x.At.From = x.Value.Neg(), from
	case *Quantity:
		x.Value, x.At.From = x.Value.Neg(), from
	case *Mixed:
		x.Neg, x.At.From = true, from
	default:
		return false
	}
	return true
}

// power reads an operand with its exponent. A tower goes from the right, as in
// print: 2^3^2 is 2^(3^2), or 512. Behind a raised exponent a second one is
// refused, x²^3, as it could be meant for the x or for the 2.
func (p *exprParser) power() Expr {
	bare := p.bare
	x := p.operand()
	switch {
	case p.tok.kind == superToken:
		t := p.take()
		x = binary(Pow, Span{From: t.from, To: t.from}, x, p.raised(t))
	case p.tok.sign("^"):
		at := p.take().span()
		p.bare = true
		y := p.nested(at, p.unary)
		x = binary(Pow, at, x, y)
	default:
		return x
	}
	if p.tok.kind == superToken || p.tok.sign("^") {
		p.fail(&fault{finding.New(finding.Unreadable, p.tok.span(), "There are two exponents in a row.",
			"Put brackets round one of the powers.")})
	}
	if bare {
		return x
	}
	return p.measured(x)
}

// ownUnit returns the unit behind a number, or behind a bracket of numbers; its
// parts have their own.
func ownUnit(x Expr) (UnitText, bool) {
	switch x := x.(type) {
	case *Quantity:
		return x.Unit, true
	case *Measured:
		return x.Unit, true
	}
	return UnitText{}, false
}
