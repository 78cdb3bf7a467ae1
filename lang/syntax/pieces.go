package syntax

import (
	"slices"
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"steelyard/lang/ops"
)

// times, over and plusOrMinus tell the signs that a product and a sum are written with.
//
// All signs for one operator count: * × · for times, / and ÷ for a bar.
func (t *token) times() bool {
	op, ok := productOp(t)
	return ok && op == Mul
}

func (t *token) over() bool {
	op, ok := productOp(t)
	return ok && op == Div
}

func (t *token) plusOrMinus() bool {
	_, ok := sumOp(t)
	return ok
}

// bounds tells whether an expression ends before a token: a relation, a comma or
// a word.
func (t *token) bounds() bool {
	return t.kind == wordToken || t.kind == signToken && !t.times() && !t.over() && !t.plusOrMinus() &&
		t.text != "^" && t.text != "(" && t.text != ")" && t.text != "√"
}

// begins tells whether an operand may begin with a token.
//
// Minus and plus are signs before an operand, and not its beginning.
func (t *token) begins() bool {
	switch t.kind {
	case numToken, nameToken, piToken, thatToken:
		return true
	}
	return t.sign("(") || t.sign("√")
}

// ends tells whether an operand may end with a token.
func (t *token) ends() bool {
	switch t.kind {
	case numToken, unitToken, piToken, thatToken, superToken, lineToken:
		return true
	case nameToken:
		return !t.call
	}
	return t.sign(")")
}

// pieces are the tokens of a line or of a reading of it.
//
// How a line may be read otherwise is found on its tokens, not on a tree: a tree has settled
// already what is under a bar, and which letters are units. A reading is made by putting other
// pieces in the place of some, and brackets round others; then it is written out and read
// like any line. So whatever a reading means, its text says it in the language.
type pieces []token

// piecesOf makes the pieces of the stretches of a text; what is between them, before
// and behind is a piece that bounds.
func piecesOf(text string, lines [][]token) pieces {
	n := 2 * len(lines)
	for _, tokens := range lines {
		n += len(tokens)
	}
	ps := make(pieces, 0, n)
	at := 0
	for k, tokens := range lines {
		if from := tokens[0].from; from > at && (k > 0 || strings.TrimSpace(text[at:from]) != "") {
			ps = append(ps, token{kind: wordToken, text: text[at:from], from: at, to: from})
		}
		for i := range tokens {
			t := &tokens[i]
			p := *t
			if i > 0 && !(tokens[i-1].text == "(" && tokens[i-1].from == tokens[i-1].to) {
				p.gap = text[tokens[i-1].to:t.from]
			}
			ps = append(ps, p)
		}
		at = tokens[len(tokens)-1].to
	}
	if strings.TrimSpace(text[at:]) != "" {
		ps = append(ps, token{kind: wordToken, text: text[at:], from: at, to: len(text)})
	}
	return ps
}

// implied tells whether the piece at i is a factor without a sign before it.
//
// After a unit a number is no factor but the next part of a quantity: 3 lb 8 oz. What is behind
// a function without brackets begins its argument: cos θ L.
func (ps pieces) implied(i int) bool {
	if i == 0 || i >= len(ps) || !ps[i].begins() || !ps[i-1].ends() || ps[i-1].kind == nameToken && bareFunction(ps[i-1].text) {
		return false
	}
	return !(ps[i].kind == numToken && ps[i-1].kind == unitToken) // a mixed quantity
}

// opens and closes tell whether a token is a bracket, of a list or of anything else.
func (t *token) opens() bool  { return t.sign("(") || t.sign("[") }
func (t *token) closes() bool { return t.sign(")") || t.sign("]") }

// severalNumbers tells whether a list or a vector ends at i.
func (ps pieces) severalNumbers(i int) bool {
	if i < 0 || !ps[i].closes() {
		return false
	}
	from := ps.opening(i)
	for at := from + 1; at < i; at++ {
		if ps[at].sign(",") {
			return from == 0 || !ps[from-1].call
		}
		if ps[at].opens() {
			at = ps.closing(at)
		}
	}
	return ps[i].sign("]")
}

// closing is the place of the bracket that closes the one at i.
func (ps pieces) closing(i int) int {
	depth := 0
	for ; i < len(ps); i++ {
		if ps[i].opens() {
			depth++
		} else if ps[i].closes() {
			if depth--; depth == 0 {
				return i
			}
		}
	}
	return len(ps) - 1
}

// opening is the place of the bracket that the one at i closes.
func (ps pieces) opening(i int) int {
	depth := 0
	for ; i > 0; i-- {
		if ps[i].closes() {
			depth++
		} else if ps[i].opens() {
			if depth--; depth == 0 {
				break
			}
		}
	}
	return i
}

// operand returns where the operand ends that begins at i, with its power.
//
// A quantity is one operand with its unit, a call with its bracket.
//
// So of sin(θ)^2*m at sin it is the place of the *, and of 3 m^2*g that too.
func (ps pieces) operand(i int) int {
	for i < len(ps) && (ps[i].plusOrMinus() || ps[i].sign("√")) {
		i++
	}
	if i >= len(ps) {
		return i
	}
	called := ps[i].kind == nameToken && ps[i].call
	if called && i+1 < len(ps) {
		i++
	}
	if ps[i].opens() {
		i = ps.closing(i)
	}
	i++
	for i < len(ps) && (ps[i].kind == unitToken || ps[i].kind == lineToken ||
		ps[i].kind == numToken && ps[i-1].kind == unitToken) {
		i++
	}
	return ps.power(i)
}

// start is the place of the piece with which the operand begins that ends at i.
func (ps pieces) start(i int) int {
	for power := powerStart(ps, i); power > 0; power = powerStart(ps, i) {
		i = power - 1
	}
	switch {
	case ps[i].closes():
		if i = ps.opening(i); i > 0 && ps[i-1].call {
			i--
		}
	case i > 0 && (ps[i].kind == unitToken || ps[i].kind == lineToken):
		return ps.start(i - 1)
	}
	if i > 0 && ps[i-1].sign("√") {
		i--
	}
	return i
}

// power returns where the power ends that the piece at i begins; i if it begins none.
func (ps pieces) power(i int) int {
	switch {
	case i < len(ps) && ps[i].kind == superToken:
		i++
	case i+1 < len(ps) && ps[i].sign("^"):
		i = ps.operand(i + 1)
	}
	return i
}

// factors returns where each factor of the product without signs ends that begins
// at i.
//
// Of 2πr at the 2 there are three ends.
func (ps pieces) factors(i int) []int {
	ends := []int{ps.operand(i)}
	for ps.implied(ends[len(ends)-1]) {
		ends = append(ends, ps.operand(ends[len(ends)-1]))
	}
	return ends
}

// term returns where the term of a sum begins and ends that the piece at i is in,
// within its brackets.
//
// In a + 2*b*c, from any of 2, b and c it is 2*b*c.
func (ps pieces) term(i int) (from, to int) {
	from = i
	if ps[i].sign(")") {
		from = ps.opening(i)
	}
	for from > 0 {
		b := &ps[from-1]
		if b.bounds() || b.sign("(") || b.plusOrMinus() && !(from > 1 && ps[from-2].sign("^")) {
			break
		}
		if from--; ps[from].sign(")") {
			from = ps.opening(from)
		}
	}
	for to = i; to < len(ps); to++ {
		if ps[to].sign("(") {
			to = ps.closing(to)
			continue
		}
		if b := &ps[to]; b.bounds() || b.sign(")") || b.plusOrMinus() && to > from && !ps[to-1].sign("^") {
			break
		}
	}
	return from, to
}

// numbers tells whether a stretch holds written numbers and signs only; open
// brackets count, names and units do not.
func (ps pieces) numbers() bool {
	return !slices.ContainsFunc(ps, func(p token) bool {
		return p.kind == nameToken || p.kind == unitToken || p.kind == thatToken || p.bounds()
	})
}

// bracketing puts a bracket round the pieces from one place to another.
//
// It goes before from and behind the piece before to.
type bracketing struct{ from, to int }

// text writes the pieces with brackets put round some, and each product so that it
// is read as it is meant; with its tokens, as a scan of the text would find them, or
// nil where a piece is several.
func (ps pieces) text(put []bracketing) (string, []place) {
	return new(pieceWriter).write(ps, put)
}

// write is text in the room of the writer.
func (w *pieceWriter) write(ps pieces, put []bracketing) (string, []place) {
	put = ps.withQuantities(put)
	size, signs := 2*len(put), 2*len(put)
	for i := range ps {
		size += len(ps[i].gap) + len(ps[i].text) + 1
		if ps.implied(i) {
			signs++
		}
	}
	w.begin(size, len(ps)+signs)
	for i := 0; i <= len(ps); i++ {
		closed, opened := 0, 0
		for _, r := range put {
			if r.to == i {
				closed++
			}
			if r.from == i {
				opened++
			}
		}
		w.signs(")", closed)
		if i == len(ps) {
			break
		}
		p := &ps[i]
		if ps.implied(i) && !ps.besides(i, closed > 0, opened > 0) {
			w.signs("*", 1)
		} else {
			w.WriteString(p.gap)
		}
		w.signs("(", opened)
		w.add(p.kind, p.text, p.call)
		if p.several {
			w.lost = true
		}
	}
	text, tokens := w.String()[w.from:], w.tokens[w.first:len(w.tokens):len(w.tokens)]
	if w.lost {
		tokens = nil
	}
	return text, tokens
}

// place is a token of a text that is kept: all else of it is what the text has there.
type place struct {
	from, to int32
	kind     int8
	call     bool
}

// tokensAt makes the tokens of a text that are at some places, where there may be room for them.
func tokensAt(room []token, text string, places []place) []token {
	room = slices.Grow(room[:0], len(places))
	for _, p := range places {
		room = append(room, token{kind: lexer.TokenType(p.kind), from: int(p.from), to: int(p.to), text: text[p.from:p.to], call: p.call})
	}
	return room
}

// pieceWriter writes tokens and notes where they are. What it has written stays as it is, and the
// next goes behind it as long as there is room: readings of a line are about as long.
type pieceWriter struct {
	strings.Builder
	tokens      []place
	lost        bool
	from, first int // where what is being written begins
	expected    int // how many there will be, about
}

// mostTogether is for how many texts there is room at most when it is made.
const mostTogether = 16

// begin makes room for a text of so many bytes and tokens.
func (w *pieceWriter) begin(size, tokens int) {
	room := min(max(w.expected, 1), mostTogether)
	if w.Cap()-w.Len() < size {
		w.Reset()
		w.Grow(room * size)
	}
	if cap(w.tokens)-len(w.tokens) < tokens {
		w.tokens = make([]place, 0, room*tokens)
	}
	w.from, w.first, w.lost = w.Len(), len(w.tokens), false
}

func (w *pieceWriter) add(kind lexer.TokenType, text string, call bool) {
	from := int32(w.Len() - w.from)
	w.tokens = append(w.tokens, place{from: from, to: from + int32(len(text)), kind: int8(kind), call: call})
	w.WriteString(text)
}

func (w *pieceWriter) signs(sign string, n int) {
	for range n {
		w.add(signToken, sign, false)
	}
}

// besides tells whether the factor at i may stand beside the one before it
// without a sign and be read as a product, as print has it.
//
// A name or a number is not written beside another, since those would run together or read as
// a unit: m*g, 2*3. Beside π, a bracket and a function nothing can be mistaken.
func (ps pieces) besides(i int, closed, opened bool) bool {
	p, before := &ps[i], &ps[i-1]
	bracket := opened || p.sign("(") || p.sign("√")
	function := p.kind == nameToken && p.call && ops.IsFunction(p.text)
	switch {
	case closed, before.sign(")"):
		return bracket || function || p.kind == piToken
	case before.kind == piToken:
		return bracket || p.kind == nameToken
	case before.kind == numToken && i > 1 && (ps[i-2].sign("^") || ps[i-2].sign("√") || ps[i-2].plusOrMinus()),
		before.kind == unitToken, before.kind == thatToken, before.kind == lineToken, before.kind == nameToken:
		return false
	}
	return bracket || function || p.kind == piToken
}

// withQuantities adds the brackets round written quantities to others, but for one
// that has a bracket already; the unit of a fraction of numbers takes the fraction
// in.
func (ps pieces) withQuantities(put []bracketing) []bracketing {
	out := slices.Clip(put)
	for _, q := range ps.quantities() {
		for _, r := range put {
			if r.to == q.to-1 && r.from < q.from {
				q.from = r.from
			}
		}
		if !slices.Contains(put, q) {
			out = append(out, q)
		}
	}
	return out
}

// quantities are the brackets that written quantities get whose unit may be read
// as a name: all that do not fill a bracket.
//
// The reading with the unit is written (3 m), which can mean nothing else; the one with the
// name is 3*m.
func (ps pieces) quantities() []bracketing {
	var out []bracketing
	for i := range ps {
		if ps[i].kind != unitToken || !ps[i].open || i == 0 {
			continue
		}
		from := ps.start(i - 1)
		if from > 0 && ps[from-1].plusOrMinus() && (from == 1 || !ps[from-2].ends()) {
			from-- // a minus before a number belongs to it
		}
		if from > 0 && ps[from-1].sign("(") && i+1 < len(ps) && ps[i+1].sign(")") && !(from > 1 && ps[from-2].call) {
			continue
		}
		out = append(out, bracketing{from, i + 1})
	}
	return out
}
