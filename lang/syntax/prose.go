package syntax

import (
	"strings"

	"steelyard/lang/finding"
)

type (
	// Part is part LABEL: QUESTION.
	//
	// The lines below it, up to the next part, belong to it. Its answers are those
	// that are reported there.
	Part struct {
		aside
		Label    string
		Question string
		Braces   []Ident // names in braces, for their values
	}
	// Note is prose for print.
	//
	// A name in braces is shown as its value, a frog of {m}; nothing else in it is
	// read.
	Note struct {
		aside
		Text   string
		Braces []Ident // names in braces, for their values
	}
	// Remark is # …; it is kept and has no effect. A blank line is a Remark
	// with no text.
	Remark struct {
		aside
		Text string
	}
)

var partWord = StatementWord{
	Word: "part", Form: "part LABEL: QUESTION",
	Summary: "Begins a part of the question.",
	Example: "part a: How stiff is the spring?", Stored: true, Ready: true, read: readPart,
	prose: true, colon: true,
}

var noteWord = StatementWord{
	Word: "note", Form: "note TEXT",
	Summary: "Prose that is printed with the worksheet.",
	Example: "note The scale was read from straight ahead.", Stored: true, Ready: true, read: readNote,
	prose: true, bare: true,
}

func (s *Part) is() nature { return nature{kept, Aside, s.Braces} }
func (s *Note) is() nature { return nature{kept, Aside, s.Braces} }

// readNote reads prose, which may go on over indented lines.
func readNote(r *reader, at int) (Stmt, *fault) {
	from, to := trimBlanks(r.text, at, r.to)
	text := r.text[from:to]
	for _, s := range r.body {
		text += "\n" + r.text[s.From:s.To]
	}
	if len(r.body) > 0 {
		to = r.body[len(r.body)-1].To
	}
	return &Note{Text: text, Braces: inBraces(r.text, Span{From: from, To: to})}, nil
}

// A label is one word, and the first colon is behind it: part a: How stiff?.
// Without the colon, part a How stiff?, it is offered with one. A label with a bracket, as on
// a problem sheet, needs none: part a) How stiff?.
func readPart(r *reader, at int) (Stmt, *fault) {
	from, to := trimBlanks(r.text, at, r.to)
	label, question, _ := strings.Cut(r.text[from:to], ":")
	label = strings.TrimSpace(label)
	if label == "" || strings.ContainsAny(label, " \t") {
		bad := &fault{finding.New(finding.Unreadable, Span{From: from, To: to}, "A part needs a label, such as a.",
			"Write it as in `part a: How stiff is the spring?`.")}
		first, rest, _ := strings.Cut(r.text[from:to], " ")
		if letter := strings.Trim(first, "()"); strings.HasSuffix(first, ")") && isSymbol(letter) { // part a) How stiff?
			return &Part{Label: letter, Question: strings.TrimSpace(rest), Braces: inBraces(r.text, Span{From: from, To: to})}, r.noBody()
		}
		if first = strings.Trim(first, "().:"); isSymbol(first) {
			bad.Readings = []string{first + ": " + strings.TrimSpace(rest)}
			bad.Hint = "Put a colon after it."
		}
		return nil, bad
	}
	return &Part{Label: label, Question: strings.TrimSpace(question), Braces: inBraces(r.text, Span{From: from, To: to})}, r.noBody()
}
