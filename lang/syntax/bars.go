package syntax

import (
	"strings"
	"unicode/utf8"

	"steelyard/lang/finding"
)

type (
	// Bars is bars at "PLACE": A, B | at "PLACE": C [with work W] [within D]: an
	// energy bar chart.
	Bars struct {
		Stages []Stage
		Work   Expr // done on the system before the last stage, or nil
		Within Expr // how far the books may be off, or nil
	}
	// Stage is one place or moment, with the energies there.
	Stage struct {
		Name    string
		NameAt  Span
		Entries []Expr
	}
)

var barsWord = StatementWord{
	Word: "bars", Form: "bars at \"PLACE\": A, B | at \"PLACE\": C [with work W] [within D]",
	Summary: "An energy bar chart whose books are checked.",
	Example: "bars at \"released\": 3 J, 0 J | at \"leaves\": 1 J, 2 J", Stored: true, Ready: true, read: readBars,
	second: "at", next: []string{"at", "with", "within"},
}

// Exprs are the energies place by place, then the work and the tolerance.
func (s *Bars) Exprs() []Expr {
	var out []Expr
	for _, stage := range s.Stages {
		out = append(out, stage.Entries...)
	}
	return exprs(append(out, s.Work, s.Within)...)
}

func (*Bars) Defines() []Ident { return nil }
func (*Bars) is() nature       { return nature{kept, Answer} }

// quotes are the signs that a place may stand between.
var quotes = map[rune]rune{'"': '"', '“': '”', '„': '“', '«': '»', '”': '”', '\'': '\'', '‘': '’'}

// barsForm is what is said where a bar chart can't be read.
func barsForm(at Span, message string) *fault {
	return &fault{finding.New(finding.Unreadable, at, message,
		"Write it like `bars at \"released\": U, K | at \"leaves\": K2`, with a place between quotation marks, a colon and the energies there.")}
}

// readBars reads an energy bar chart: its places are text, so that it is taken apart
// before its expressions are read.
func readBars(r *reader, at int) (Stmt, *fault) {
	s := &Bars{}
	for {
		stage, next, bad := r.stage(at)
		if bad != nil {
			return nil, bad
		}
		end := r.stageEnd(next)
		from, to := next, end
		if end == r.to {
			to = r.barsTail(next, end)
		}
		if i := r.barsTail(next, end); end < r.to && i < end {
			return nil, barsForm(Span{From: i, To: end}, "Write `with work W` once, at the end of the line.")
		}
		if stage.Entries, bad = r.list(from, to); bad != nil {
			return nil, bad
		}
		s.Stages = append(s.Stages, stage)
		if end == r.to {
			return s, r.barsAfter(s, to)
		}
		at = end + 1
	}
}

// stage reads at "PLACE": and returns where what follows begins.
func (r *reader) stage(at int) (Stage, int, *fault) {
	from, _ := trimBlanks(r.text, at, r.to)
	rest := r.text[from:r.to]
	if !strings.HasPrefix(rest, "at") || len(rest) < 3 || continuesName(firstRune(rest[2:])) {
		return Stage{}, 0, barsForm(Span{From: from, To: min(from+1, r.to)}, "A place is missing here: `at \"…\":`.")
	}
	open, _ := trimBlanks(r.text, from+2, r.to)
	q, n := utf8.DecodeRuneInString(r.text[open:r.to])
	shut, ok := quotes[q]
	if !ok {
		return Stage{}, 0, barsForm(Span{From: open, To: min(open+1, r.to)}, "The place needs quotation marks.")
	}
	length := strings.IndexRune(r.text[open+n:r.to], shut)
	if length < 0 {
		return Stage{}, 0, barsForm(Span{From: open, To: open + n}, "This quotation mark is never closed.")
	}
	s := Stage{Name: r.text[open+n : open+n+length], NameAt: Span{From: open + n, To: open + n + length}}
	colon, _ := trimBlanks(r.text, open+n+length+utf8.RuneLen(shut), r.to)
	if colon >= r.to || r.text[colon] != ':' {
		return Stage{}, 0, barsForm(Span{From: colon, To: min(colon+1, r.to)}, "The place needs a colon after it.")
	}
	if strings.TrimSpace(s.Name) == "" {
		return Stage{}, 0, barsForm(Span{From: open, To: colon}, "The place has no name.")
	}
	return s, colon + 1, nil
}

// stageEnd is where a stage ends: at a stroke, or with the line.
func (r *reader) stageEnd(at int) int {
	if i := strings.IndexByte(r.text[at:r.to], '|'); i >= 0 {
		return at + i
	}
	return r.to
}

// barsTail is where the clauses after the last stage begin.
func (r *reader) barsTail(from, to int) int {
	for i := from; i < to; i++ {
		for _, word := range []string{"with", "within"} {
			if strings.HasPrefix(r.text[i:to], word) && isBlank(lastRune(r.text[from:i])) && !continuesName(firstRune(r.text[i+len(word):to]+" ")) {
				return i
			}
		}
	}
	return to
}

// barsAfter reads with work W and within D.
func (r *reader) barsAfter(s *Bars, at int) *fault {
	rest := r.text[at:r.to]
	end := r.to
	if i := strings.LastIndex(rest, "within"); i >= 0 && (i == 0 || isBlank(lastRune(rest[:i]))) {
		list, bad := r.list(at+i+len("within"), r.to)
		if bad != nil {
			return bad
		}
		if len(list) > 1 {
			return barsForm(list[1].Span(), "Write one tolerance after within.")
		}
		s.Within, end = list[0], at+i
	}
	from, to := trimBlanks(r.text, at, end)
	if from >= to {
		return r.noBody()
	}
	after, ok := strings.CutPrefix(r.text[from:to], "with")
	work := strings.TrimLeft(after, " \t")
	if !ok || !strings.HasPrefix(work, "work") {
		return barsForm(Span{From: from, To: to}, "Only `with work W` can follow the last place.")
	}
	list, bad := r.list(to-len(work)+len("work"), to)
	if bad != nil {
		return bad
	}
	if len(list) > 1 {
		return barsForm(list[1].Span(), "Write one work after `with work`. Add them up first.")
	}
	s.Work = list[0]
	return r.noBody()
}

// list reads expressions with commas between them.
func (r *reader) list(from, to int) ([]Expr, *fault) {
	from, to = trimBlanks(r.text, from, to)
	if from >= to {
		return nil, barsForm(Span{From: from, To: min(from+1, len(r.text))}, "The energies are missing here.")
	}
	tokens, bad := scan(r.text, from, to, "")
	if bad == nil {
		bad = adjacent(r.text, tokens, r.known)
	}
	if bad != nil {
		return nil, bad
	}
	p := newParser(&tokenLine{tokens: tokens, end: to})
	out := []Expr{p.sum()}
	for p.tok.sign(",") {
		p.take()
		out = append(out, p.sum())
	}
	return out, p.ends()
}
