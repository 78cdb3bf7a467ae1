package syntax

import (
	"strconv"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/units"
	"steelyard/units/writing"
)

// exprParser is the one production of expressions: precedence climbing with a
// guard of its depth.
//
//	sum      product  { ("+" | "-") product }
//	product  implied  { ("*" | "/") implied }
//	implied  unary    { power }             2πr, 2 sin(θ), (a+b)(a-b)
//	unary    { "-" | "+" } power
//	power    operand  [ "^" unary | "²" ]
type exprParser struct {
	from  source
	tok   token // the next one
	depth int
	end   int // of the last token that was taken
}

// source hands tokens out one after the other. Past the last one it hands out
// an eofToken for ever.
type source interface {
	peek(ahead int) token
	next()
}

func newParser(from source) *exprParser { return &exprParser{from: from, tok: from.peek(0)} }

// expression reads an expression from a source of tokens, and leaves there what
// follows it.
func expression(from source) (Expr, *fault) { return newParser(from).sum() }

// whole reads an expression with what it is to be worked out with.
func (p *exprParser) whole() (Expr, *fault) {
	x, bad := p.sum()
	if bad != nil {
		return nil, bad
	}
	return p.replaced(x)
}

func (p *exprParser) take() token {
	t := p.tok
	p.from.next()
	p.tok = p.from.peek(0)
	p.end = t.to
	return t
}

// deeper counts a level of nesting.
func (p *exprParser) deeper(at Span) *fault {
	p.depth++
	if p.depth > limit.Nesting {
		return tooDeep(at)
	}
	return nil
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

func binary(op Op, at Span, x, y Expr) *Binary {
	return &Binary{At: x.Span().Join(y.Span()), OpAt: at, Op: op, X: x, Y: y}
}

func (p *exprParser) sum() (Expr, *fault) {
	if w := curveWord(&p.tok); w != nil {
		return p.reading(w)
	}
	x, bad := p.product()
	for bad == nil {
		op, ok := sumOp(&p.tok)
		if !ok {
			break
		}
		at := p.take().span()
		var y Expr
		if y, bad = p.product(); bad == nil {
			x = binary(op, at, x, y)
		}
	}
	return x, bad
}

func (p *exprParser) product() (Expr, *fault) {
	x, bad := p.implied()
	for bad == nil {
		op, ok := productOp(&p.tok)
		if !ok {
			break
		}
		at := p.take().span()
		var y Expr
		if y, bad = p.implied(); bad == nil {
			x = binary(op, at, x, y)
		}
	}
	return x, bad
}

// implied reads a product without signs. Which neighbours make one has been
// looked at before; here every operand that follows goes with it.
func (p *exprParser) implied() (Expr, *fault) {
	x, bad := p.unary()
	for bad == nil {
		t := &p.tok
		if t.kind != nameToken && t.kind != piToken && !t.sign("(") && !t.sign("√") {
			break
		}
		at := Span{From: p.end, To: t.from}
		var y Expr
		if y, bad = p.power(); bad == nil {
			b := binary(Mul, at, x, y)
			b.Implied = !namesMeet(x, y)
			x = b
		}
	}
	return x, bad
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
func (p *exprParser) unary() (Expr, *fault) {
	op, ok := sumOp(&p.tok)
	if !ok {
		return p.power()
	}
	at := p.take().span()
	if bad := p.deeper(at); bad != nil {
		return nil, bad
	}
	number := p.tok.kind == numToken
	x, bad := p.unary()
	p.depth--
	if bad != nil {
		return nil, bad
	}
	if op == Sub && (number || isZero(x)) && negated(x, at.From) {
		return x, nil
	}
	return &Unary{At: at.Join(x.Span()), Op: op, X: x}, nil
}

// isZero tells whether an expression is a written zero, which has no sign.
func isZero(x Expr) bool {
	switch x := x.(type) {
	case *Number:
		return x.Value.Hi == 0
	case *Quantity:
		return x.Value.Hi == 0
	}
	return false
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

func (p *exprParser) power() (Expr, *fault) {
	x, bad := p.operand()
	if bad != nil {
		return nil, bad
	}
	switch {
	case p.tok.kind == superToken:
		t := p.take()
		y, bad := raised(&t)
		if bad != nil {
			return nil, bad
		}
		x = binary(Pow, Span{From: t.from, To: t.from}, x, y)
	case p.tok.sign("^"):
		at := p.take().span()
		if bad := p.deeper(at); bad != nil {
			return nil, bad
		}
		y, bad := p.unary()
		p.depth--
		if bad != nil {
			return nil, bad
		}
		if u, ok := unitOf(y); ok {
			return nil, &fault{finding.New(finding.Unreadable, u.At, "An exponent can't have a unit.", "Put the exponent in brackets, or leave the unit out.")}
		}
		x = binary(Pow, at, x, y)
	default:
		return x, nil
	}
	if p.tok.kind == superToken || p.tok.sign("^") {
		return nil, &fault{finding.New(finding.Unreadable, p.tok.span(), "There are two exponents in a row.",
			"Put brackets round one of the powers.")}
	}
	return x, nil
}

// unitOf returns the unit of an expression that is one quantity, whatever its
// signs.
func unitOf(x Expr) (UnitText, bool) {
	switch x := x.(type) {
	case *Quantity:
		return x.Unit, true
	case *Measured:
		return x.Unit, true
	case *Mixed:
		return x.Parts[0].Unit, true
	case *Unary:
		return unitOf(x.X)
	case *Root:
		return unitOf(x.X)
	}
	return UnitText{}, false
}

// raised reads an exponent in raised digits.
func raised(t *token) (Expr, *fault) {
	text, at := writing.OnTheLine(t.text), t.span()
	if text == "n" {
		return &Name{At: at, Name: "n"}, nil
	}
	negative := false
	if text != "" && (text[0] == '-' || text[0] == '+') {
		negative, text = text[0] == '-', text[1:]
	}
	for i := range len(text) {
		if text[i] < '0' || text[i] > '9' {
			text = ""
			break
		}
	}
	if text == "" {
		return nil, &fault{finding.New(finding.Unreadable, at, "This raised text isn't a whole number.", "Write the exponent with ^, as in x^2.")}
	}
	d, bad := decimal(text, at, negative)
	if bad != nil {
		return nil, bad
	}
	return &Number{At: at, Value: d}, nil
}

// unitNext takes a unit if one follows.
func (p *exprParser) unitNext() UnitText {
	if p.tok.kind != unitToken {
		return UnitText{}
	}
	t := p.take()
	return t.unit()
}

func (p *exprParser) operand() (Expr, *fault) {
	at := p.tok.span()
	switch p.tok.kind {
	case numToken:
		return p.number()
	case piToken:
		p.take()
		pi := &Pi{At: at}
		if u := p.unitNext(); u.Present() {
			return &Measured{At: at.Join(u.At), X: &Paren{At: at, X: pi}, Unit: u}, nil
		}
		return pi, nil
	case thatToken:
		p.take()
		return &That{At: at}, nil
	case nameToken:
		return p.name()
	case signToken:
		switch p.tok.text {
		case "(":
			return p.paren()
		case "√":
			p.take()
			if bad := p.deeper(at); bad != nil {
				return nil, bad
			}
			x, bad := p.operand()
			p.depth--
			if bad != nil {
				return nil, bad
			}
			return &Root{At: at.Join(x.Span()), X: x}, nil
		}
	}
	if curveWord(&p.tok) != nil {
		return nil, needsBrackets(p.tok)
	}
	return nil, p.missing()
}

// missing says that an operand is missing before the next token.
func (p *exprParser) missing() *fault {
	t := &p.tok
	at := t.span()
	if t.kind == wordToken && t.text == "at" {
		return timesT(at, "a*t")
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
func timesT(at Span, product string) *fault {
	return &fault{finding.New(finding.NameKind, at, "`at` has its own meaning here.", "For a times t, put `*` between them.", product)}
}

// number reads a written number with what belongs to it.
func (p *exprParser) number() (Expr, *fault) {
	t := p.take()
	at := t.span()
	if a, b, ok := isVulgar(firstRune(t.text)); ok {
		return p.fraction(a, b, at)
	}
	d, bad := decimal(t.text, at, false)
	if bad != nil {
		return nil, bad
	}
	if u := p.unitNext(); u.Present() {
		q := &Quantity{At: at.Join(u.At), Value: d, Unit: u}
		if p.tok.kind == numToken {
			return p.mixed(q)
		}
		return q, nil
	}
	n := &Number{At: at, Value: d}
	if p.tok.kind == piToken {
		return p.numberPi(n), nil
	}
	return n, nil
}

// numberPi reads 5.00π rad; without a unit it is a product like any other.
func (p *exprParser) numberPi(n *Number) Expr {
	if after := p.from.peek(1); after.kind != unitToken {
		return n
	}
	pi := &Pi{At: p.take().span()}
	u := p.unitNext()
	b := binary(Mul, Span{From: n.At.To, To: pi.At.From}, n, pi)
	b.Implied = true
	return &Measured{At: n.At.Join(u.At), X: &Paren{At: b.At, X: b}, Unit: u}
}

// fraction reads ½ as (1/2).
func (p *exprParser) fraction(a, b string, at Span) (Expr, *fault) {
	x, _ := units.ParseDecimal(a)
	y, _ := units.ParseDecimal(b)
	half := &Paren{At: at, X: &Binary{At: at, OpAt: at, Op: Div, X: &Number{At: at, Value: x}, Y: &Number{At: at, Value: y}}}
	if u := p.unitNext(); u.Present() {
		return &Measured{At: at.Join(u.At), X: half, Unit: u}, nil
	}
	return half, nil
}

func (p *exprParser) paren() (Expr, *fault) {
	at := p.take().span()
	if bad := p.deeper(at); bad != nil {
		return nil, bad
	}
	x, bad := p.whole()
	p.depth--
	if bad != nil {
		return nil, bad
	}
	if !p.tok.sign(")") {
		return nil, unexpected(p.tok)
	}
	b := &Paren{At: at.Join(p.take().span()), X: x}
	if u := p.unitNext(); u.Present() {
		return &Measured{At: b.At.Join(u.At), X: b, Unit: u}, nil
	}
	return b, nil
}

// name reads a name, or a call where a bracket follows.
func (p *exprParser) name() (Expr, *fault) {
	t := p.take()
	at := t.span()
	name := Canonical(t.text)
	if p.tok.sign("(") {
		return p.call(name, at)
	}
	x := &Name{At: at, Name: name}
	if p.tok.kind == lineToken {
		line := p.take()
		x.Line, _ = strconv.Atoi(line.text[1:])
		x.At = at.Join(line.span())
		if x.Line < 1 || x.Line > 1<<30 {
			return nil, &fault{finding.New(finding.Unreadable, line.span(), "The number of a line is missing after @.", "Write it as in v@12.")}
		}
	}
	return x, nil
}

func (p *exprParser) call(name string, at Span) (Expr, *fault) {
	open := p.take().span()
	if bad := p.deeper(open); bad != nil {
		return nil, bad
	}
	c := &Call{At: at, Func: name, Name: at, Args: make([]Arg, 0, 2)}
	for {
		if len(c.Args) == limit.Args {
			return nil, &fault{finding.New(finding.TooLong, at, "These brackets have more than "+strconv.Itoa(limit.Args)+" values.",
				"Split it into several lines.")}
		}
		a, bad := p.arg()
		if bad != nil {
			return nil, bad
		}
		c.Args = append(c.Args, a)
		if p.tok.sign(",") {
			p.take()
			continue
		}
		if !p.tok.sign(")") {
			return nil, unexpected(p.tok)
		}
		c.At = at.Join(p.take().span())
		p.depth--
		return c, nil
	}
}

// arg reads one argument, given by its place or by its name.
func (p *exprParser) arg() (Arg, *fault) {
	var a Arg
	if p.tok.kind == nameToken {
		if after := p.from.peek(1); after.sign("=") {
			t := p.take()
			a.Name, a.NameAt = Canonical(t.text), t.span()
			p.take()
		}
	}
	x, bad := p.sum()
	a.X = x
	return a, bad
}
