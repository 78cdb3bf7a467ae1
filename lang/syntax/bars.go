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

// The second word is at: a line that begins with another, bars = 3, is none of
// these.
var barsWord = StatementWord{
	Word: "bars", Form: "bars at \"PLACE\": A, B = C | at \"PLACE\": D [with work W] [within E]",
	Summary: "An energy bar chart whose books are checked.",
	Example: "bars at \"released\": 3 J, 0 J | at \"leaves\": 1 J, 2 J", Stored: true, Ready: true, read: readBars,
	second: "at", next: []string{"at", "then", "with", "within"},
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

// barsForm is what is said where a bar chart can't be read.
//
// The hint is the same each time: a chart is long, and one whole example shows
// more than a rule.
func barsForm(at Span, message string) *fault {
	return &fault{finding.New(finding.Unreadable, at, message,
		"Write it like `bars at \"released\": U, K | at \"leaves\": K2`, with a place between quotation marks, a colon and the energies there.")}
}

// readBars reads an energy bar chart: its places are text, so that it is taken apart
// before its expressions are read.
//
// A stroke parts two places, or then work W then does, where work is done on the system
// between them. After the last place the work may stand behind with: it was done on the way
// there.
//
// A with before the last place is refused, since it can't be told which way it is
// meant for: the one to its place or the one from it.
func readBars(r *reader, at int) (Stmt, *fault) {
	s := &Bars{}
	var work Energy
	for {
		stage, next, bad := r.stage(at)
		if bad != nil {
			return nil, bad
		}
		stage.Work, work = work, Energy{}
		end := r.stageEnd(next)
		from, to := next, end
		if end == r.to {
			to = r.wordIn(next, end, "with", "within")
		}
		if i := r.wordIn(next, end, "with", "within"); end < r.to && i < end {
			return nil, barsForm(Span{From: i, To: end}, "Write `with work W` at the end of the line, or `then work W then` between two places.")
		}
		if stage.Entries, bad = r.list(from, to); bad != nil {
			return nil, bad
		}
		s.Stages = append(s.Stages, stage)
		if end == r.to {
			return s, r.barsAfter(s, to)
		}
		if r.text[end] == '|' {
			at = end + 1
			continue
		}
		then := r.wordIn(end+len("then"), r.to, "then")
		if then == r.to {
			return nil, barsForm(Span{From: end, To: end + len("then")}, "Write `then work W then at \"…\":` between two places.")
		}
		if work, bad = r.work(end+len("then"), then); bad != nil {
			return nil, bad
		}
		at = then + len("then")
	}
}

// stage reads at "PLACE": and returns where what follows begins.
//
// A place is text and may hold anything but its quotation mark, commas and strokes
// as well: at "the top, at rest": 3 J. Refused are a place without at, without
// marks or with one only, without a colon, and one with no name.
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

// stageEnd is where a stage ends: at a stroke, at then, or with the line.
//
// It looks only behind the colon of a place, so that a stroke in the text of the
// place ends nothing.
func (r *reader) stageEnd(at int) int {
	to := r.to
	if i := strings.IndexByte(r.text[at:r.to], '|'); i >= 0 {
		to = at + i
	}
	return r.wordIn(at, to, "then")
}

// wordIn is where the first of some words begins, else the end of where it is looked for.
//
// A word counts with a blank before it and no letter behind: K_then is a name.
//
// Text is searched, not tokens, as tokens can be made only of the parts between.
func (r *reader) wordIn(from, to int, words ...string) int {
	for i := from; i < to; i++ {
		for _, word := range words {
			if strings.HasPrefix(r.text[i:to], word) && isBlank(lastRune(r.text[:i])) && !continuesName(firstRune(r.text[i+len(word):to]+" ")) {
				return i
			}
		}
	}
	return to
}

// work reads work W, between then and then or after with.
//
// Several works on one way are added up by the writer: the chart has one bar for
// them.
func (r *reader) work(from, to int) (Energy, *fault) {
	from, to = trimBlanks(r.text, from, to)
	after, ok := strings.CutPrefix(r.text[from:to], "work")
	if !ok || continuesName(firstRune(after+" ")) {
		return Energy{}, barsForm(Span{From: from, To: max(to, min(from+1, r.to))}, "Write `work` and what is done, as in `work W`.")
	}
	list, bad := r.list(from+len("work"), to)
	if bad != nil {
		return Energy{}, bad
	}
	if len(list) > 1 {
		return Energy{}, barsForm(list[1].X.Span(), "Write one work. Add them up first.")
	}
	return list[0], nil
}

// barsAfter reads with work W and within D.
//
// Both may be missing. With one place alone there is no way on which work is done,
// and with work before the last place, by then, a second one is refused.
func (r *reader) barsAfter(s *Bars, at int) *fault {
	end := r.to
	if i := r.wordIn(at, r.to, "within"); i < r.to {
		list, bad := r.list(i+len("within"), r.to)
		if bad != nil {
			return bad
		}
		if len(list) > 1 || list[0].Called != nil {
			return barsForm(list[len(list)-1].X.Span(), "Write one tolerance after within.")
		}
		s.Within, end = list[0].X, i
	}
	from, to := trimBlanks(r.text, at, end)
	if from >= to {
		return r.noBody()
	}
	if !strings.HasPrefix(r.text[from:to], "with") {
		return barsForm(Span{From: from, To: to}, "Only `with work W` can follow the last place.")
	}
	work, bad := r.work(from+len("with"), to)
	if bad != nil {
		return bad
	}
	last := &s.Stages[len(s.Stages)-1]
	if last.Work.X != nil || len(s.Stages) == 1 {
		return barsForm(Span{From: from, To: to}, "Work is done once between two places.")
	}
	last.Work = work
	return r.noBody()
}

// list reads energies with commas between them.
//
// Each is a sum as in any line; a fault in it has its place in the whole line.
func (r *reader) list(from, to int) ([]Energy, *fault) {
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
	out := []Energy{p.energy()}
	for p.tok.sign(",") {
		p.take()
		out = append(out, p.energy())
	}
	return out, p.ends()
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
