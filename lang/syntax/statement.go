package syntax

import (
	"strings"

	"github.com/alecthomas/participle/v2/lexer"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
)

// statement reads the statement by the words that it begins with.
func (r *reader) statement() (Stmt, *fault) {
	line := r.text[r.from:r.to]
	switch {
	case line == "":
		return &Remark{}, r.noBody()
	case line[0] == '#':
		return &Remark{Text: strings.TrimSpace(line[1:])}, r.noBody()
	case line[0] == '=':
		return nil, &fault{finding.New(finding.StrayRecord, Span{From: r.from, To: r.to},
			"A line that begins with = records the result of the line above it; nothing to record stands there.",
			"Take it out, or give the value a name, as in `W = 3 J`.")}
	}
	if w, ok := leadingStatement(line); ok {
		return r.worded(w)
	}
	if w, ok := halfStatement(line); ok {
		return nil, r.wrongForm(w, &fault{finding.New(finding.Unreadable, Span{From: r.from, To: r.from + len(w.Word)},
			"A word of this statement is missing after `"+w.Word+"`.", "")})
	}
	if word, at, ok := namedReading(line); ok {
		return r.named(word, at)
	}
	if line == "data" && len(r.body) > 0 {
		return nil, notYet(Span{From: r.from, To: r.to}, "The statement `data`")
	}
	s, bad := r.plain()
	if bad != nil {
		if offer, ok := r.titled(); ok {
			return nil, offer
		}
	}
	return s, bad
}

// worded reads a statement that begins with a word of its own.
func (r *reader) worded(w StatementWord) (Stmt, *fault) {
	at := Span{From: r.from, To: r.from + len(w.Word)}
	if !w.Ready {
		return nil, notYet(at, "The statement `"+w.Word+"`")
	}
	if !w.Stored {
		from, to := trimBlanks(r.text, at.To, r.to)
		if alone[w.Word] && from < to {
			return nil, &fault{finding.New(finding.Unreadable, Span{From: from, To: to}, "Nothing stands after `"+w.Word+"`.",
				w.Summary+" Write `"+w.Word+"` alone.", w.Word)}
		}
		c := &Command{Word: w.Word, WordAt: at, Arg: r.text[from:to], ArgAt: Span{From: from, To: to}}
		return c, r.noBody()
	}
	switch w.Word {
	case "note":
		return r.note(at.To), nil
	case "part":
		return r.part(at.To)
	case "formula":
		return r.formula()
	case "bars":
		return r.bars(at.To)
	}
	if strings.HasPrefix(r.text[r.from:r.to], "results to the") {
		return nil, notYet(Span{From: r.from, To: r.to}, "Results to the figures of the givens")
	}
	read := r.tokens
	switch w.Word {
	case "graph", "table", "slope", "area":
		read = r.wordTokens
	case "solve":
		read = func(string) ([]token, *fault) { return r.solveTokens() }
	}
	tokens, bad := read(w.Word)
	if bad != nil {
		if w.Word == "solve" {
			return nil, bad
		}
		if bad.ID == finding.NamesTogether && w.Word != "check" && w.Word != "report" {
			bad.ID, bad.Message, bad.Readings = finding.Unreadable, "\""+r.source(bad.At)+"\" does not fit here.", nil
			bad = r.wrongForm(w, bad)
		}
		return nil, bad
	}
	s, bad := r.keyed(w.Word, tokens)
	if bad != nil {
		return nil, r.wrongForm(w, bad)
	}
	return s, r.noBody()
}

// wrongForm adds to a finding about a statement how it is written.
func (r *reader) wrongForm(w StatementWord, bad *fault) *fault {
	if bad.ID == finding.Unreadable || bad.ID == finding.Incomplete {
		bad.Hint = "It is written `" + w.Form + "`, for instance `" + firstLine(w.Example) + "`."
	}
	return bad
}

func firstLine(s string) string {
	line, _, _ := strings.Cut(s, "\n")
	return line
}

func (r *reader) keyed(word string, tokens []token) (Stmt, *fault) {
	switch word {
	case "check":
		return r.check(tokens)
	case "let":
		return r.let(tokens)
	case "solve":
		return r.solve(tokens)
	case "scaling":
		return r.scaling(tokens)
	case "graph", "table":
		return r.graph(word, tokens)
	case "slope":
		return r.slope(tokens)
	case "area":
		return r.area(tokens)
	case "steps":
		v, bad := parse(stepsLines, tokens, r.to)
		if bad != nil {
			return nil, bad
		}
		s := &Steps{Name: Canonical(v.Name.Value), NameAt: tokenSpan(&v.Name)}
		if s.Name == "all" {
			s.Name = ""
		}
		return s, nil
	case "report":
		return r.report(tokens)
	case "constants":
		v, bad := parse(constantsLines, tokens, r.to)
		if bad != nil {
			return nil, bad
		}
		names, at := nameList(v.Names)
		return &Constants{Names: names, At: at}, nil
	case "results":
		v, bad := parse(resultsLines, tokens, r.to)
		if bad != nil {
			return nil, bad
		}
		n, bad := small(v.Figures, 15)
		return &FiguresSetting{Figures: n}, bad
	}
	v, bad := parse(roundLines, tokens, r.to)
	if bad != nil {
		return nil, bad
	}
	return &RoundSetting{Rule: ruleOf(v.Rule.Value)}, nil
}

// tokens reads the tokens of the statement's first line, and looks at what
// stands side by side in them.
func (r *reader) tokens(head string) ([]token, *fault) {
	tokens, bad := scan(r.text, r.from, r.to, head)
	if bad == nil {
		bad = adjacent(r.text, tokens)
	} else if earlier := adjacent(r.text, tokens); earlier != nil && earlier.At.From < bad.At.From {
		bad = earlier
	}
	return tokens, bad
}

// plain reads a statement without a word of its own: a given, a result, a
// function, a unit.
func (r *reader) plain() (Stmt, *fault) {
	tokens, bad := r.tokens("")
	if bad != nil {
		return nil, r.nearStatement(bad)
	}
	for i := range tokens {
		t := &tokens[i]
		if t.kind == wordToken && t.text == "with" && !tokens[min(1, len(tokens)-1)].is("=") {
			return r.with(tokens)
		}
		if t.kind == nameToken && t.call && ops.IsLater(t.text) && !(i == 0 && functionHead(tokens)) {
			return nil, notYet(t.span(), "The function "+t.text+"( )")
		}
	}
	switch {
	case len(tokens) > 1 && tokens[1].is("="):
		return r.define(tokens)
	case functionHead(tokens):
		return r.function(tokens)
	case len(tokens) > 2 && tokens[0].kind == numToken && tokens[1].kind == unitToken && tokens[2].is("="):
		return r.ownUnit(tokens)
	}
	if bad := r.equation(tokens); bad != nil {
		return nil, bad
	}
	v, bad := parse(valueLines, tokens, r.to)
	if bad == nil {
		bad = r.readings(v.X)
	}
	if bad != nil {
		return nil, bad
	}
	return &Value{X: v.X, In: unitText(&v.In)}, r.noBody()
}

// functionHead tells whether tokens begin with NAME(…) =.
func functionHead(tokens []token) bool {
	if len(tokens) < 3 || tokens[0].kind != nameToken || !tokens[0].call {
		return false
	}
	depth := 0
	for i := 1; i < len(tokens); i++ {
		switch tokens[i].text {
		case "(":
			depth++
		case ")":
			depth--
		}
		if depth == 0 {
			return i+1 < len(tokens) && tokens[i+1].is("=")
		}
	}
	return false
}

// equation says what to do with a line that has an expression on the left of an
// equals sign.
func (r *reader) equation(tokens []token) *fault {
	depth := 0
	for i := range tokens {
		t := &tokens[i]
		switch {
		case t.is("("):
			depth++
		case t.is(")"):
			depth--
		case t.is("=") && depth == 0:
			line := r.text[r.from:r.to]
			return &fault{finding.New(finding.Unreadable, Span{From: r.from, To: r.to},
				"The left of = is not a name, so it can't be given a value.",
				"To compare the two sides write check before them.", "check "+line)}
		}
	}
	return nil
}

func (r *reader) define(tokens []token) (Stmt, *fault) {
	name, bad := newName(&tokens[0])
	if bad != nil {
		return nil, bad
	}
	v, bad := parse(defineLines, tokens, r.to)
	if bad == nil {
		bad = r.readings(v.X)
	}
	if bad != nil {
		return nil, bad
	}
	return &Define{Name: name, NameAt: tokens[0].span(), X: v.X, In: unitText(&v.In)}, r.noBody()
}

// newName returns the canonical form of a name that a line gives.
func newName(t *token) (string, *fault) {
	name := Canonical(t.text)
	if t.kind == nameToken && !strings.Contains(name, "π") {
		return name, nil
	}
	message := "`" + t.text + "` can't be a name."
	hint := "A name begins with a letter, and has letters, digits and _ after it."
	switch {
	case t.kind == piToken || strings.Contains(name, "π"):
		message = "π is always the number, and never a name or a part of one."
	case t.kind == wordToken || t.kind == thatToken:
		return "", keptWord(t.span(), t.text)
	case t.kind == numToken:
		message = "A number can't be given a value."
	}
	return "", &fault{finding.New(finding.NameKind, t.span(), message, hint)}
}

// keptWord says that a word belongs to the language.
func keptWord(at Span, word string) *fault {
	return &fault{finding.New(finding.NameKind, at, "`"+word+"` is a word of the language, and never a name.", "Choose another name.")}
}

// ownUnit reads 1 lap = 400 m.
func (r *reader) ownUnit(tokens []token) (Stmt, *fault) {
	v, bad := parse(unitLines, tokens, r.to)
	if bad == nil {
		bad = r.readings(v.X)
	}
	if bad != nil {
		return nil, bad
	}
	at := tokens[1].span()
	if tokens[0].text != "1" {
		return nil, &fault{finding.New(finding.Unreadable, tokens[0].span(), "A unit of your own is defined by what one of it is.",
			"Begin with 1, as in `1 "+tokens[1].text+" = …`.")}
	}
	name := foldUnit(v.Name.Value)
	if u := (unitScan{text: name, end: len(name)}); u.word(0) != name {
		return nil, &fault{finding.New(finding.NameKind, at, "`"+v.Name.Value+"` can't be the name of a unit: it is not one word.",
			"Choose one word of letters, as in `1 lap = 400 m`.")}
	}
	return &UnitDef{Name: name, NameAt: at, X: v.X}, r.noBody()
}

func (r *reader) let(tokens []token) (Stmt, *fault) {
	if len(tokens) > 1 {
		if _, bad := newName(&tokens[1]); bad != nil {
			return nil, bad
		}
	}
	v, bad := parse(letLines, tokens, r.to)
	if bad != nil {
		return nil, bad
	}
	return &Let{Name: Canonical(v.Name.Value), NameAt: tokenSpan(&v.Name), In: unitText(&v.In)}, nil
}

func (r *reader) check(tokens []token) (Stmt, *fault) {
	for i := range tokens {
		if t := &tokens[i]; t.kind == nameToken && t.call && ops.IsLater(t.text) {
			return nil, notYet(t.span(), "The function "+t.text+"( )")
		}
	}
	v, bad := parse(checkLines, tokens, r.to)
	if bad == nil {
		bad = r.readings(v.Left, v.Right, v.Within)
	}
	if bad != nil {
		return nil, bad
	}
	c := &CheckStmt{Left: v.Left, Right: v.Right, Within: v.Within}
	if v.Sign.Value != "" {
		c.OpAt = tokenSpan(&v.Sign)
		c.Sign = map[string]SignWord{"negative": Negative, "positive": Positive, "zero": Zero}[v.Sign.Value]
		return c, nil
	}
	c.Op, c.OpAt = comparison(&v.Op), tokenSpan(&v.Op)
	return c, nil
}

func comparison(t *lexer.Token) Comparison {
	switch t.Value {
	case "<":
		return Less
	case ">":
		return Greater
	case "<=", "≤":
		return AtMost
	case ">=", "≥":
		return AtLeast
	}
	return Equal
}

func (r *reader) report(tokens []token) (Stmt, *fault) {
	v, bad := parse(reportLines, tokens, r.to)
	if bad == nil {
		bad = r.readings(v.X)
	}
	if bad != nil {
		return nil, bad
	}
	s := &Report{X: v.X, In: unitText(&v.In), Sign: v.Sign.Value != ""}
	if v.Figures.Value != "" {
		if s.Figures, bad = small(v.Figures, 15); bad != nil {
			return nil, bad
		}
	}
	if v.Points.Value != "" {
		s.Points, bad = small(v.Points, 1000)
	}
	return s, bad
}

// noBody refuses indented lines under a statement that has none.
func (r *reader) noBody() *fault {
	if len(r.body) == 0 {
		return nil
	}
	at := r.body[0]
	if r.text[at.From] == '=' {
		return &fault{finding.New(finding.StrayRecord, at, "A recorded result does not belong to the statement itself.", "Leave the line out; the result is worked out again.")}
	}
	return &fault{finding.New(finding.Unreadable, at, "A line that begins with a blank belongs to the line above, which takes no such line.",
		"Begin it at the very left to make it a statement of its own.")}
}
