package syntax

import (
	"strings"

	"steelyard/lang/finding"
)

// What the reader of a statement asks of its tokens. Statements are read by hand: a clause is a
// line or two, and what is out of place in one is told as in all others.

// clauses makes the reader of a statement from one of what is behind its word.
func clauses(read func(r *reader, p *exprParser) (Stmt, *fault)) func(*reader, int) (Stmt, *fault) {
	return func(r *reader, _ int) (Stmt, *fault) {
		tokens, bad := r.tokens(r.word.Word)
		if bad != nil {
			if bad.ID == finding.NamesTogether && !r.word.expr {
				bad.ID, bad.Message, bad.Readings = finding.Unreadable, "\""+r.source(bad.At)+"\" doesn't fit here.", nil
				bad = r.word.form(bad)
			}
			return nil, r.remarkBehind(bad)
		}
		s, bad := read(r, r.line(tokens, 1))
		if bad == nil {
			bad = r.treeSlips(s.Exprs()...)
		}
		if bad != nil {
			return nil, r.remarkBehind(r.word.form(bad))
		}
		return s, r.noBody()
	}
}

// reads is clauses for a statement of which nothing more is asked than that its parts are there.
func reads(parts func(p *exprParser) Stmt) func(*reader, int) (Stmt, *fault) {
	return clauses(func(_ *reader, p *exprParser) (Stmt, *fault) {
		s := parts(p)
		return s, p.ends()
	})
}

// taken takes a word of the language if it stands next.
func (p *exprParser) taken(word string) bool {
	if p.tok.kind != wordToken || p.tok.text != word {
		return false
	}
	p.take()
	return true
}

// words takes several words if the first stands next: the others have to follow it, whatever
// else they may be elsewhere.
func (p *exprParser) words(all string) bool {
	for i, word := range strings.Fields(all) {
		if !p.tok.is(word) {
			if i > 0 {
				p.refuse()
			}
			return false
		}
		p.take()
	}
	return true
}

// after takes a word if it stands next, and the expression behind it.
func (p *exprParser) after(word string) Expr {
	if !p.taken(word) {
		return nil
	}
	return p.sum()
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

// listOf reads one or several of a kind with commas between them.
func listOf[T any](p *exprParser, one func(*exprParser) T) (all []T) {
	for more := true; more; more = p.comma() {
		all = append(all, one(p))
	}
	return all
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

// unexpected says that a token does not fit where it stands.
//
// One place for it, so that a comma, a unit or a second = that is out of place is
// told alike in all statements.
func unexpected(t token) *fault {
	at := t.span()
	if t.kind == eofToken {
		return &fault{finding.New(finding.Incomplete, at, "This line is unfinished.", "Write the rest of it.")}
	}
	message, hint := "\""+t.text+"\" doesn't fit here.", "`help` shows how to write lines."
	switch {
	case t.kind == unitToken:
		message, hint = "The unit "+t.text+" doesn't fit here.", "A unit comes after a number or after `in`."
	case t.text == ",":
		message, hint = "A comma doesn't fit here.", "Write decimals with a point, and one statement on a line."
	case t.text == "=":
		message, hint = "A second = doesn't fit here.", "A line can define one name. To compare, write `check A = B`."
	case t.text == "in":
		message, hint = "`in` doesn't fit here.", "Write it once, at the end of the line, before the unit of the result."
	case t.text == "at":
		return &fault{finding.New(finding.NameKind, at, "The word `at` doesn't fit here.", "It has its own meaning here. For a times t, put `*` between them.", "*a*t")}
	case t.text == "for" || t.text == "to" || t.text == "within" || t.text == "from":
		message = "The word `" + t.text + "` doesn't fit here."
		hint = "It has its own meaning here, so it can't be a name."
	case t.text == "<", t.text == ">", t.text == "≤", t.text == "≥", t.text == "<=", t.text == ">=":
		hint = "Compare with check, as in `check m < 2 kg`."
	}
	return &fault{finding.New(finding.Unreadable, at, message, hint)}
}

// result reads EXPR [in UNIT] [with …], which the rest of a line has to be. The
// unit may stand last, too.
func (r *reader) result(tokens []token, from int) (Expr, UnitText, *fault) {
	p := r.line(tokens, from)
	x := p.sum()
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
