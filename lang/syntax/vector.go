package syntax

import (
	"cmp"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
)

// A vector is written by its components, (3.0, 4.0) m/s, as a List in round brackets, or
// by its magnitude and direction, 12 m/s at 37°, as a Polar.

// Axes are the letters of the components of a vector, in their order: v_x, v_y, v_z.
const Axes = "xyz"

// Polar is a vector in the plane by its magnitude and an angle: 12 m/s at 37°, 40 m at 30°
// north of east, 25 N at 20° below +x.
//
// The angle goes counter-clockwise from +x; a bearing says from which axis it goes, and
// towards which. At binds more loosely than a product and more closely than a sum: 2*v at
// 30° + u is (2*v at 30°) + u.
type Polar struct {
	At       Span
	X, Angle Expr
	Bearing  Bearing
}

func (x *Polar) Span() Span      { return x.At }
func (x *Polar) Visit(v Visitor) { v.Polar(x) }
func (x *Polar) part(i int) Expr { return nth(i, x.X, x.Angle) }
func (x *Polar) copied(c *copier) Expr {
	return &Polar{At: c.at(x.At), X: c.part(x.X), Angle: c.part(x.Angle), Bearing: x.Bearing}
}

// Polar writes 12 m/s at 37°, and behind the angle the words for where it goes from.
func (p *printer) Polar(x *Polar) {
	p.expr(x.X)
	p.text(" at ")
	p.expr(x.Angle)
	if words := x.Bearing.String(); words != "" {
		p.text(" ", words)
	}
}

// Bearing is where the angle of a vector goes: the zero one counter-clockwise from +x,
// any other from one axis towards another.
//
// The sides are +x, -x, +y and -y. In north of east the angle goes from east, which is
// +x, towards north.
type Bearing struct {
	Side, Towards string
}

// compass are the sides that the four winds stand for, on a map with north up.
var compass = map[string]string{"east": "+x", "west": "-x", "north": "+y", "south": "-y"}

// String is a bearing in words; empty for the one that has none.
func (b Bearing) String() string {
	switch b.Towards {
	case "":
		return ""
	case "above", "below":
		return b.Towards + " " + b.Side
	}
	return b.Towards + " of " + b.Side
}

// Turn says which component has the cosine of the angle, the other has its sine, and the
// signs of both: of x, then of y.
func (b Bearing) Turn() (cosine int, signs [2]int) {
	signs = [2]int{1, 1}
	for _, word := range [...]string{b.Side, b.Towards} {
		side := compass[word]
		switch {
		case word == "-x", side == "-x":
			signs[0] = -1
		case word == "below", side == "-y":
			signs[1] = -1
		}
	}
	if strings.HasSuffix(compass[b.Side], "y") {
		cosine = 1
	}
	return cosine, signs
}

// vector reads the other components of a vector, of which the first and its bracket have
// been read, and the unit behind them.
func (p *exprParser) vector(at Span, first Expr) Expr {
	x := &List{At: at, Elems: []Expr{first}, Vector: true}
	p.take()
	trail := p.trail
	p.trail = nil // these sums are within a bracket
	x.At = p.several(at, "This bracket has", limit.Args, "lines", ")", func() { x.Elems = append(x.Elems, p.sum()) })
	p.trail = trail
	if n := len(x.Elems); n > len(Axes) {
		p.fail(&fault{finding.New(finding.NotWritten, x.At, "A vector has two or three components; this one has more.",
			"For a list of values, write square brackets.")})
	}
	if x.Unit = p.unitNext(); x.Unit.Present() {
		x.At = x.At.Join(x.Unit.At)
	}
	return x
}

// alone tells whether no equals sign may follow what is read, as one does in an equation that
// is solved.
func (p *exprParser) alone() bool {
	_, line := p.from.(*tokenLine)
	return line && !p.equation
}

// polar reads the direction of a vector behind its magnitude, and the one along which, or
// across which, a component is asked for, if they stand here.
func (p *exprParser) polar(x Expr) Expr {
	x = p.directed(x)
	for p.tok.kind == wordToken && (p.tok.text == "along" || p.tok.text == "across") {
		word := p.take()
		angle := p.unary()
		x = &Call{At: x.Span().Join(angle.Span()), Func: word.text, Name: word.span(), Args: []Arg{{X: x}, {X: angle}}, Signed: true}
	}
	return x
}

// angleGoesOn says that a product begins behind at: π/3 is an angle, but 30°*2 may be one, or
// twice the vector.
func angleGoesOn(v *Polar, whole Expr) *fault {
	angle, product := PrintExpr(v.Angle), PrintExpr(whole)
	if _, written := v.Angle.(*Quantity); !written {
		return &fault{finding.New(finding.NotWritten, whole.Span(), "The angle after `at` is one number or name.", "Put brackets round it.", "("+product+")")}
	}
	of := PrintExpr(v.X) + " at "
	return &fault{finding.New(finding.TwoReadings, v.X.Span().Join(whole.Span()), "It isn't clear whether the angle goes on after "+angle+".", "Put brackets round what belongs together.",
		of+"("+product+")", "("+of+angle+")"+strings.TrimPrefix(product, angle))}
}

// directed reads a magnitude with its direction. The at of a slope, that of v = a*t at
// t = 2 s and one that no operand follows belong to no vector.
func (p *exprParser) directed(x Expr) Expr {
	if p.tok.kind != wordToken || p.tok.text != "at" || p.slopes == p.depth && p.depth > 0 {
		return x
	}
	next, second := p.from.peek(1), p.from.peek(2)
	if next.kind == eofToken {
		p.take()
		p.refuse() // the angle is still to come
		return x
	}
	if !next.begins() && !next.plusOrMinus() && !next.is("[") || p.alone() && next.kind == nameToken && second.sign("=") {
		return x
	}
	p.take()
	out := &Polar{X: x, Angle: p.unary()}
	if _, more := productOp(p.tok); more {
		p.fail(angleGoesOn(out, p.productOf(partial{factors: out.Angle})))
	}
	out.At = x.Span().Join(out.Angle.Span())
	if p.tok.kind != wordToken || !facing(p.tok.text) {
		return out
	}
	out.Bearing.Towards = p.take().text
	switch _, wind := compass[out.Bearing.Towards]; {
	case wind:
		p.word("of")
		t := p.tok
		out.Bearing.Side = t.text
		if side := compass[t.text]; side == "" || side[1] == compass[out.Bearing.Towards][1] {
			p.refuse()
		}
		p.take()
	default:
		sign, ok := sumOp(p.tok)
		if !ok {
			p.refuse()
		}
		p.take()
		out.Bearing.Side = [...]string{Add: "+x", Sub: "-x"}[min(sign, Sub)]
		if !p.tok.is("x") {
			p.refuse()
		}
		p.take()
	}
	out.At.To = p.end
	return out
}

// Calling is a function of an expression, and with other givens if that is so.
func Calling(function string, x Expr) Expr {
	if with, ok := x.(*With); ok {
		return &With{At: with.At, X: Calling(function, with.X), By: with.By}
	}
	return &Call{At: x.Span(), Func: function, Args: []Arg{{X: x}}}
}

// facing tells whether a word says where the angle of a vector goes.
func facing(word string) bool { return compass[word] != "" || word == "above" || word == "below" }

// bar reads a stroke: it opens a magnitude where an operand may begin, and closes the one
// that is open. To whoever reads the tokens, |v| is abs(v).
func (l *scanner) bar(at Span) *fault {
	n, t := len(l.open), l.last(1)
	if n > 0 && l.open[n-1].sign == '|' && t.ends() {
		l.open = l.open[:n-1]
		l.emit(signToken, at.To).text = ")"
		return nil
	}
	if !strings.Contains(l.text[at.To:l.end], "|") {
		return &fault{finding.New(finding.Unreadable, at, "The stroke | has no partner.", "A magnitude has one on each side: |v|.")}
	}
	if n >= limit.Nesting {
		return tooDeep(at)
	}
	l.open = append(l.open, bracket{sign: '|', at: l.pos, first: len(l.tokens) + 2, call: true})
	l.tokens = append(l.tokens, token{kind: nameToken, call: true, from: l.pos, to: l.pos, text: "abs"})
	l.emit(signToken, at.To).text = "("
	return nil
}

// unitVectors finds 3.0 i + 4.0 j and (2 N i - 3 N k): components with the letters of unit
// vectors, which are names here.
func (p among) unitVectors() *fault {
	if p.i == 0 || p.tokens[p.i].kind != unitToken || p.i+1 >= len(p.tokens) || !p.tokens[p.i+1].plusOrMinus() {
		return nil
	}
	from := p.i - 1 // of the first component, with its sign
	if from > 0 && p.tokens[from-1].plusOrMinus() && (from == 1 || !p.tokens[from-2].ends()) {
		from--
	}
	parts, next, n := [len(Axes)]string{}, from, 0
	first, _, _ := p.component(from)
	for ; ; n++ {
		c, to, ok := p.component(next)
		if !ok || parts[c.axis] != "" || c.unit != first.unit || n > 0 && !p.tokens[next].plusOrMinus() {
			break
		}
		parts[c.axis], next = c.number, to
	}
	if n < 2 {
		return nil // one letter may be a slip for a unit
	}
	for k := range parts {
		parts[k] = cmp.Or(parts[k], "0")
	}
	width := len(parts)
	if parts[2] == "0" {
		width = 2
	}
	text, at := "("+strings.Join(parts[:width], ", ")+")", Span{From: p.tokens[from].from, To: p.tokens[next-1].to}
	if first.unit != "" {
		text += " " + first.unit
	} else if at.From > 0 && at.To < len(p.text) && p.text[at.From-1] == '(' && p.text[at.To] == ')' {
		at = Span{From: at.From - 1, To: at.To + 1}
	}
	return &fault{finding.New(finding.NotWritten, at, "i, j and k are plain names here.", "Write a vector's components in brackets, with commas between them.", text)}
}

// unitComponent is a number with the letter of a unit vector: -3 N j.
type unitComponent struct {
	axis         int
	number, unit string
}

// hats takes the hats off unit vectors, which two letters have as one sign.
var hats = strings.NewReplacer("î", "i", "ĵ", "j", "\u0302", "")

// component reads such a component from a token on, with its sign; next is the token behind.
func (p among) component(at int) (c unitComponent, next int, ok bool) {
	if at < len(p.tokens) && p.tokens[at].plusOrMinus() {
		if isMinus(firstRune(p.tokens[at].text)) {
			c.number = "-"
		}
		at++
	}
	if at+1 >= len(p.tokens) || p.tokens[at].kind != numToken || p.tokens[at+1].kind != unitToken {
		return c, at, false
	}
	unit := hats.Replace(p.tokens[at+1].text)
	cut := max(len(unit)-1, 0)
	c.axis, c.number = strings.Index("ijk", unit[cut:]), c.number+p.tokens[at].text
	c.unit = strings.TrimRight(unit[:cut], " ")
	apart := cut == 0 || c.unit != unit[:cut]
	return c, at + 2, unit != "" && c.axis >= 0 && apart && (p.known == nil || !p.known(unit[cut:]))
}
