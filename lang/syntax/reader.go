package syntax

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
)

// Parse reads one statement with its indented lines. The statement is nil if it
// can't be read; the findings then say why, and else are notes of what is written in
// another way than print does. Spans are byte offsets in text.
func Parse(text string) (Stmt, []finding.Finding) { return ParseWith(text, nil) }

// ParseWith is Parse where names are known: those that stand side by side, with
// blanks between, are a product then, as in m g h.
func ParseWith(text string, known func(name string) bool) (Stmt, []finding.Finding) {
	return (&Reader{Known: known}).Read(text)
}

// Reader reads statements, one after the other, each in the room of the one before.
type Reader struct {
	Known func(name string) bool // as in ParseWith
	last  reader
}

// Read is ParseWith.
func (rd *Reader) Read(text string) (Stmt, []finding.Finding) {
	return rd.read(text, reader{})
}

// read is Read in a way: silently, or as a reading has the line.
func (rd *Reader) read(text string, way reader) (Stmt, []finding.Finding) {
	if bad := guard(text); bad != nil {
		return nil, []finding.Finding{bad.Finding}
	}
	r := &rd.last
	way.text, way.known, way.room, way.parser = unaddressed(text), rd.Known, r.room, r.parser
	*r = way
	r.split()
	s, bad := r.statement()
	if bad != nil {
		return nil, []finding.Finding{bad.Finding}
	}
	return s, r.notes
}

// ParseExpr reads an expression that stands alone.
func ParseExpr(text string) (Expr, []finding.Finding) {
	if bad := guard(text); bad != nil {
		return nil, []finding.Finding{bad.Finding}
	}
	r := reader{text: text, alone: true}
	r.from, r.to = trimBlanks(text, 0, len(text))
	tokens, bad := r.tokens("")
	var x Expr
	if bad == nil {
		p := r.line(tokens, 0)
		x, bad = p.whole(), p.ends()
	}
	if bad == nil {
		bad = r.treeSlips(x)
	}
	if bad != nil {
		return nil, []finding.Finding{bad.Finding}
	}
	return x, nil
}

// reader reads one statement: the range of its first line, which may go on over
// several if a bracket is open, and its indented lines.
//
// What it is to read comes in with it, and what it has found stays in it: the readers of the
// kinds of statements are methods, each in its own file, that take the tokens and give the
// statement or the one fault that is told. The first is enough: what follows a fault may only
// follow from it.
type reader struct {
	text     string
	from, to int
	words    string // behind its comma, for the name that it gives
	body     []Span
	word     *StatementWord         // that it begins with, or nil
	known    func(name string) bool // tells names of the page, or nil
	placed   *placed                // the tokens of the reading that is taken, or nil
	alone    bool                   // it is an expression that stands alone, and nothing works out
	silent   bool                   // nobody asks why it can't be read
	scanned  []token                // of the line, if it has been scanned
	room     []token                // where those of the line may go
	parser   *lineParser            // of results
	reading  *Reading               // that is read, or nil
	notes    []finding.Finding      // what is read though print writes it in another way
}

// split finds the first line and those under it.
//
// A line without an indent begins a statement. What is indented under it is its body: the
// intervals of a function, the symbols of a formula, more of a note.
func (r *reader) split() {
	text := r.text
	words, end, rest := headLines(text)
	r.from, r.to = trimBlanks(text, 0, words)
	if words < end {
		if shape := shapeFirst(text[r.from:words], text[words:end]); shape > 0 {
			_, r.to = trimBlanks(text, r.from, words+shape)
			words += shape
		}
		r.words = r.meaning(Span{From: min(words+1, end), To: end})
	}
	for rest < len(text) {
		end := strings.IndexByte(text[rest:], '\n')
		if end < 0 {
			end = len(text)
		} else {
			end += rest
		}
		if from, to := trimBlanks(text, rest, end); from < to {
			r.body = append(r.body, Span{From: from, To: to})
		}
		rest = end + 1
	}
}

// statement reads the statement by the words that it begins with.
//
// Slips of whole lines are looked for only where a line can't be read: a line that can is never
// taken for another.
func (r *reader) statement() (Stmt, *fault) {
	line := r.text[r.from:r.to]
	switch {
	case line == "":
		return &Remark{}, r.noBody()
	case line[0] == '#':
		return &Remark{Text: strings.TrimSpace(line[1:])}, r.noBody()
	case line[0] == '=':
		return nil, &fault{finding.New(finding.StrayRecord, Span{From: r.from, To: r.to},
			"There is no name before the = of this line.",
			"For a new value write `W = 3 J`; to compare, `check W = 3 J`.")}
	}
	if w := leadingStatement(line); w != nil && (w.read != nil || !w.Ready) {
		return r.worded(w)
	}
	if bad := r.halfStatement(); bad != nil {
		return nil, bad
	}
	s, bad := r.plain()
	if bad == nil || r.silent {
		return s, bad
	}
	if r.onlyWords() {
		r.notes = append(r.notes, finding.New(finding.ReadAs, Span{From: r.from, To: r.to}, "A line of words is kept as a note.", ""))
		return &Note{Text: line}, nil
	}
	offer := r.ofTeX()
	if offer == nil {
		offer = r.nearStatement(bad)
	}
	if offer == nil {
		offer = r.reworded("")
	}
	if offer == nil && bad.ID != finding.Incomplete || offer != nil && len(offer.Readings) > 0 && strings.HasPrefix(offer.Readings[0], noteWord.Word) {
		if round := r.wordsRound(); round != nil {
			offer = round
		}
	}
	if offer == nil && r.startsSentence() {
		offer = &fault{finding.New(finding.NotWritten, Span{From: r.from, To: r.to}, "Words are kept in a note.", "", noteWord.Word+" "+line)}
	}
	if offer != nil {
		return nil, offer
	}
	return nil, bad
}

// worded reads a statement that begins with a word of its own.
func (r *reader) worded(w *StatementWord) (Stmt, *fault) {
	at := Span{From: r.from, To: r.from + len(firstWord(r.text[r.from:r.to]))}
	if !w.Ready {
		return nil, &fault{finding.New(finding.NotAvailableYet, at, "`"+w.Word+"` doesn't work yet.", "Leave it out for now.")}
	}
	r.word = w
	s, bad := w.read(r, at.To)
	if bad != nil {
		if offer := r.reworded(w.Word); offer != nil {
			return nil, offer
		}
	}
	return s, bad
}

// clauses makes the reader of a statement from one of its tokens.
func clauses(read func(r *reader, tokens []token) (Stmt, *fault)) func(*reader, int) (Stmt, *fault) {
	return func(r *reader, _ int) (Stmt, *fault) {
		tokens, bad := r.tokens(r.word.Word)
		if bad != nil {
			if bad.ID == finding.NamesTogether && !r.word.expr {
				bad.ID, bad.Message, bad.Readings = finding.Unreadable, "\""+r.source(bad.At)+"\" doesn't fit here.", nil
				bad = r.word.form(bad)
			}
			return nil, r.remarkBehind(bad)
		}
		s, bad := read(r, tokens)
		if bad == nil {
			bad = r.treeSlips(s.Exprs()...)
		}
		if bad != nil {
			return nil, r.remarkBehind(r.word.form(bad))
		}
		return s, r.noBody()
	}
}

// tokens reads the tokens of the statement's first line, and looks at what
// stands side by side in them.
//
// A fault of two tokens side by side comes before one of the scanner that is further on: people
// mend a line from the left.
func (r *reader) tokens(head string) ([]token, *fault) {
	tokens, bad := r.scanned, (*fault)(nil)
	if tokens == nil {
		tokens, bad = scanInto(r.room, r.text, r.from, r.to, head)
		r.room = tokens[:0]
	}
	if r.word != nil {
		r.word.keep(tokens)
	}
	if r.placed != nil {
		if r.scanned == nil {
			r.room = nil // the tokens are in it
		}
		tokens, bad = r.placed.tokens(r.room, tokens, r.from, r.to), nil
		r.room = tokens[:0]
	}
	r.loose(tokens)
	tokens = r.sharedUnit(tokens)
	if earlier := adjacent(r.text, tokens, r.knownIn(tokens)); earlier != nil && (bad == nil || earlier.At.From < bad.At.From) {
		bad = earlier
	}
	return tokens, bad
}

// loose notes what is read though print writes it in another way: 3x10^8, m s-1.
func (r *reader) loose(tokens []token) {
	for i := range tokens {
		t := &tokens[i]
		if t.kind == unitToken && strings.Contains(t.text, "^-") && t.to > t.from && r.source(t.span()) != t.text && samePowers(t.text, r.source(t.span())) {
			r.notes = append(r.notes, finding.ReadsAs(t.span(), r.source(t.span()), t.text))
		}
		if (t.kind == numToken || t.is("×")) && strings.ContainsAny(r.text[t.from:t.to], "xX") {
			r.notes = append(r.notes, finding.New(finding.ReadAs, t.span(), "The letter x before a power of ten is read as ×.", ""))
			return
		}
	}
}

// plain reads a statement without a word of its own: a given, a result, a
// function, a unit.
//
// What it is, its first tokens tell: NAME =, NAME(…) =, 1 NAME =, else an expression.
func (r *reader) plain() (Stmt, *fault) {
	tokens, bad := r.tokens("")
	if bad != nil {
		if _, ok := functionHead(tokens); ok && ops.IsFunction(tokens[0].text) && len(tokens[0].text) == 1 {
			bad = builtIn(&tokens[0]) // what is wrong behind it is put right with it
		}
		return nil, bad
	}
	if len(tokens) > 1 && tokens[1].is("=") {
		return r.define(tokens)
	}
	if body, ok := functionHead(tokens); ok {
		return r.function(tokens, body)
	}
	if definesUnit(tokens) {
		return r.ownUnit(tokens)
	}
	return r.value(tokens)
}

// noBody refuses indented lines under a statement that has none.
func (r *reader) noBody() *fault {
	if len(r.body) == 0 {
		return nil
	}
	at := r.body[0]
	if r.text[at.From] == '=' {
		return &fault{finding.New(finding.StrayRecord, at, "This is a recorded result, not part of the statement.", "Take the line out; the result is worked out again.")}
	}
	return &fault{finding.New(finding.Unreadable, at, "This line begins with a space, but the line above is complete.",
		"Take the space at the beginning out.")}
}
