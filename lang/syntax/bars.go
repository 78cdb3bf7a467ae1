package syntax

import (
	"strings"
	"unicode/utf8"

	"steelyard/lang/finding"
)

type (
	// Bars is bars at "PLACE": A, B = C | at "PLACE": D [with work W] [within E]: an
	// energy bar chart. A stroke between two places may be then work W then.
	//
	// The books are that the energies at each place add up to those at the place
	// before, and the work that was done on the system on the way:
	//
	//	bars at "released": 3 J, 0 J | at "leaves": 1 J, 2 J
	//	bars at "released": 3 J then work 2 J then at "leaves": 5 J
	//	bars at "released": 3 J | at "leaves": 1 J with work -2 J within 1 %
	//
	// Work that the system does, or that friction takes, is negative. Whether the sums
	// agree is found where the line runs; a chart that doesn't add up is drawn, and
	// told.
	Bars struct {
		Stages []Stage
		Within Expr // how far the books may be off, or nil
	}
	// Stage is one place or moment, with the energies there and the work that is done on
	// the system on the way to it, which has no expression if there is none.
	//
	// Work of the first stage has no expression: there is no way to it.
	Stage struct {
		Name    string
		NameAt  Span
		Work    Energy
		Entries []Energy
	}
	// Energy is one entry of a bar chart. Called is the name that is put at its bar, and
	// that means nothing else, or nil.
	//
	// In K = 2 J the K is Called: it gives the bar a label and defines nothing, so
	// that the K of the page keeps its value. In a bar that is written as a name
	// alone, the name is its label.
	Energy struct {
		Called *Name
		X      Expr
	}
)

const barsText = "bars"

// The second word is at: a line that begins with another, bars = 3, is none of
// these.
var barsWord = StatementWord{
	Word: barsText, Form: "bars at \"PLACE\": A, B = C | at \"PLACE\": D [with work W] [within E]",
	Summary: "An energy bar chart that checks whether energy is kept.",
	Example: "bars at \"released\": 3 J, 0 J | at \"leaves\": 1 J, 2 J", Stored: true, Ready: true, read: clauses(readBars),
	expr: true, second: "at", phrases: phrases("with/then work …", "then …"), next: []string{"at", "then", "with", "within"},
}

// Exprs are the energies place by place, each time after the work on the way there, then
// the tolerance.
//
// Who reads the values in this order can put them back into the stages.
func (s *Bars) Exprs() []Expr {
	var out []Expr
	for _, stage := range s.Stages {
		out = append(out, stage.Work.X)
		for _, e := range stage.Entries {
			out = append(out, e.X)
		}
	}
	return exprs(append(out, s.Within)...)
}

// Name is what is put at the bar.
//
// For K = 2 J it is K, for 1/2*m*v^2 the expression itself.
func (e Energy) Name() Expr {
	if e.Called != nil {
		return e.Called
	}
	return e.X
}

func (*Bars) Defines() []Ident { return nil }
func (*Bars) is() nature       { return nature{kept, Answer, nil} }

// quotes are the signs that a place may stand between.
//
// The opening one decides which one closes, as countries differ: “a”, „a“, «a» and
// "a" are all read. A word processor changes " in silence, so none is refused.
var quotes = map[rune]rune{'"': '"', '“': '”', '„': '“', '«': '»', '”': '”', '\'': '\'', '‘': '’'}

// place reads the text between quotation marks, which is one word of the language.
//
// It may hold anything but its closing mark, commas and strokes as well: "the top, at rest".
func (l *scanner) place(open rune, at Span) *fault {
	length := strings.IndexRune(l.text[at.To:l.end], quotes[open])
	if length < 0 {
		return &fault{finding.New(finding.Unreadable, at, "This quotation mark is never closed.", "")}
	}
	l.emit(wordToken, at.To+length+utf8.RuneLen(quotes[open]))
	return nil
}

// A stroke parts two places, or then work W then does, where work is done on the system
// between them. After the last place the work may stand behind with: it was done on the way
// there.
//
// A with before the last place is refused, since it can't be told which way it is
// meant for: the one to its place or the one from it.
func readBars(r *reader, tokens []token) (Stmt, *fault) {
	p, s, work := r.line(tokens, 1), &Bars{}, Energy{}
	for more := true; more; {
		s.Stages = append(s.Stages, p.stage(work))
		work, more = Energy{}, p.tok.sign("|")
		if more {
			p.take()
		} else if more = p.taken("then"); more {
			work = p.work()
			p.word("then")
		}
	}
	last := &s.Stages[len(s.Stages)-1]
	if with := p.tok.span(); p.taken("with") {
		if last.Work.X != nil || len(s.Stages) == 1 {
			p.fail(&fault{finding.New(finding.Unreadable, with, "Work is done once between two places.", "")})
		}
		last.Work = p.work()
	}
	if p.taken("within") {
		s.Within = p.sum()
	}
	return s, p.ends()
}

// stage reads at "PLACE": and the energies there, with the work on the way to it.
func (p *exprParser) stage(work Energy) Stage {
	p.word("at")
	t := p.tok
	q, n := utf8.DecodeRuneInString(t.text)
	if t.kind != wordToken || quotes[q] == 0 {
		p.fail(&fault{finding.New(finding.Unreadable, t.span(), "The place is missing here, between quotation marks.", "")})
		return Stage{Work: work}
	}
	p.take()
	if p.sign(":"); p.tok.kind == eofToken || p.tok.sign("|") {
		p.fail(&fault{finding.New(finding.Unreadable, p.tok.span(), "The energies are missing here.", "")})
	}
	s := Stage{NameAt: Span{From: t.from + n, To: t.to - utf8.RuneLen(quotes[q])}, Work: work, Entries: []Energy{p.energy()}}
	if s.Name = t.text[n : len(t.text)-(t.to-s.NameAt.To)]; strings.TrimSpace(s.Name) == "" {
		p.fail(&fault{finding.New(finding.Unreadable, t.span(), "The place has no name.", "")})
	}
	for p.tok.sign(",") {
		p.take()
		s.Entries = append(s.Entries, p.energy())
	}
	return s
}

// work reads work W. Several works on one way are added up by the writer: the chart has one
// bar for them.
func (p *exprParser) work() Energy {
	p.word("work")
	return p.energy()
}

// energy reads one entry, with a name of its own where an equals sign follows it.
func (p *exprParser) energy() Energy {
	x := p.sum()
	if n, ok := x.(*Name); ok && n.Line == 0 && p.tok.sign("=") {
		p.take()
		return Energy{n, p.sum()}
	}
	return Energy{X: x}
}
