package syntax

import (
	"strings"

	"steelyard/lang/finding"
)

// What a statement that is read by hand asks of its tokens.

// taken takes a word of the language if it stands next.
func (p *exprParser) taken(word string) bool {
	if p.tok.kind != wordToken || p.tok.text != word {
		return false
	}
	p.take()
	return true
}

// word takes a word of the language, which has to stand next.
func (p *exprParser) word(word string) {
	if !p.taken(word) {
		p.refuse()
	}
}

// sign takes a sign, which has to stand next, and returns its place.
func (p *exprParser) sign(text string) Span {
	if !p.tok.sign(text) {
		p.refuse()
	}
	return p.take().span()
}

// comma takes a comma if one stands next.
func (p *exprParser) comma() bool {
	more := p.tok.sign(",")
	if more {
		p.take()
	}
	return more
}

// ident takes a name, which has to stand next.
func (p *exprParser) ident() Ident {
	if p.tok.kind != nameToken {
		p.refuse()
		return Ident{}
	}
	t := p.take()
	return t.ident()
}

// inUnit reads the clause [in UNIT].
//
// Without it there is no unit, and that is no fault.
func (p *exprParser) inUnit() UnitText {
	if !p.taken("in") {
		return UnitText{}
	}
	return p.unitNext() // which the scanner has asked for
}

// ends refuses what stands after the end of a statement, and returns the first fault
// of all that was read.
func (p *exprParser) ends() *fault {
	if p.tok.kind != eofToken {
		p.refuse()
	}
	return p.bad
}

// lineParser reads expressions from the tokens of a line.
type lineParser struct {
	exprParser
	line tokenLine
	last trail
}

// line reads from a token of a line on.
//
// The words of the statement before that token have been read by the caller.
func (r *reader) line(tokens []token, from int) *exprParser {
	return new(lineParser).over(tokens, from, r.to)
}

func (p *lineParser) over(tokens []token, from, end int) *exprParser {
	p.line = tokenLine{tokens: tokens, at: from, end: end}
	p.exprParser = exprParser{from: &p.line, tok: p.line.peek(0)}
	return &p.exprParser
}

// again reads the sum of a reading, from where it differs from the one that was read before.
func (p *lineParser) again(r *Reading) Expr {
	p.trail, p.last.line = &p.last, &p.line
	last, ok := p.last.begin(r.Text, r.tokens)
	var x Expr
	if ok {
		p.line.at = last.next
		p.tok, p.end = p.line.peek(0), p.line.tokens[last.next-1].to
		x = p.terms(last.partial)
	} else {
		x = p.sum()
	}
	p.trail = nil // what is behind is no part of the sum
	return x
}

// result reads EXPR [in UNIT] [with …], which the rest of a line has to be. The
// unit may stand last, too.
func (r *reader) result(tokens []token, from int) (Expr, UnitText, *fault) {
	if r.parser == nil {
		r.parser = new(lineParser)
	}
	p := r.parser.over(tokens, from, r.to)
	var x Expr
	if r.reading == nil || len(tokens) != len(r.reading.tokens) {
		x = p.sum()
	} else {
		x = r.parser.again(r.reading)
	}
	in := p.inUnit()
	if x = p.replaced(x); !in.Present() {
		in = p.inUnit()
	}
	bad := p.ends()
	if bad == nil {
		bad = r.treeSlips(x)
	}
	if w := curveWord(&tokens[min(from, len(tokens)-1)]); w != nil && bad != nil {
		bad = w.form(bad)
	}
	return x, in, bad
}

// form adds to a finding about a statement how it is written.
func (w *StatementWord) form(bad *fault) *fault {
	if bad.ID == finding.Unreadable || bad.ID == finding.Incomplete {
		bad.Message = strings.Replace(bad.Message, "A second = doesn't", "= doesn't", 1)
		bad.Hint = "Write it like `" + w.firstExample() + "`; `help " + w.Word + "` shows more."
	}
	return bad
}
