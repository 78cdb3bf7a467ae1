package syntax

import "slices"

// OpenEquation is OpenIn for a line that is an equation and no statement: it may be
// meant to be solved for a symbol that has no value, or else to be checked.
func OpenEquation(text string, in Scope) (out Open) {
	r, tokens, bad := statementTokens(text)
	if bad != nil || r.word != nil || len(r.body) > 0 || len(tokens) < 3 || tokens[1].is("=") || tokens[1].kind == numToken || tokens[1].kind == lineToken {
		return out
	}
	if _, function := functionHead(tokens); function || r.equation(tokens) == nil || ofLine(tokens) {
		return out
	}
	var unknown []string
	for i := range tokens {
		name := Canonical(tokens[i].text)
		if tokens[i].kind == nameToken && !tokens[i].call && !in.Known(name) && !slices.Contains(unknown, name) {
			unknown = append(unknown, name)
		}
	}
	line, _ := piecesOf(text, [][]token{tokens}).text(nil)
	lines := []string{"check " + line}
	if len(unknown) > 0 && len(unknown) <= mostUnknown {
		lines = nil
		for _, name := range unknown {
			lines = append(lines, "solve "+line+" for "+name)
		}
	}
	for _, line := range lines {
		open := OpenIn(line, nil, in)
		if len(open.Readings) == 0 {
			open.Readings = []Reading{{Text: line}}
		}
		out.Readings = append(out.Readings, open.Readings...)
	}
	out.Equation = true
	return out
}

// mostUnknown is the most symbols that an equation is offered to be solved for.
const mostUnknown = 3

// stretches are the tokens of the parts of a statement that hold expressions: its
// first line and those of a function's body, or the energies of a bar chart.
func stretches(text string, stmt Stmt) (*reader, [][]token, *fault) {
	r, tokens, bad := statementTokens(text)
	spans := r.body
	switch stmt := stmt.(type) {
	case *Bars:
		bad, spans = nil, nil
		for _, x := range stmt.Exprs() {
			spans = append(spans, x.Span())
		}
	case *FormulaDef:
		spans = nil
	}
	var out [][]token
	if len(tokens) > 0 {
		out = append(out, tokens)
	}
	for _, at := range spans {
		if bad != nil {
			break
		}
		if tokens, bad = scan(text, at.From, at.To, ""); len(tokens) > 0 {
			out = append(out, tokens)
		}
	}
	return r, out, bad
}

// statementTokens reads the tokens of a statement that is not prose.
func statementTokens(text string) (*reader, []token, *fault) {
	if bad := guard(text); bad != nil {
		return &reader{}, nil, bad
	}
	r := newReader(text)
	head := ""
	if w := leadingStatement(text[r.from:r.to]); w != nil && w.read != nil {
		head, r.word = w.Word, w
		if w.prose || !w.Ready || w == &barsWord {
			return r, nil, nil
		}
	}
	tokens, bad := scan(text, r.from, r.to, head)
	if bad == nil && r.word != nil && r.word.keep != nil {
		r.word.keep(tokens)
	}
	return r, tokens, bad
}
