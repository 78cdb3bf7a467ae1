package print

import (
	"strconv"
	"strings"

	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/units/writing"
)

// format is a form that documents are written in. It answers for every kind of
// block; one that lacks an answer does not compile. Texts come as they were typed:
// a format makes them safe.
//
// Each has its own notion of a line, a table or a formula; which blocks there are and in which
// order is none of its business.
type format interface {
	begin(d *Document)
	part(p *part, number int)
	endPart()
	end(d *Document)

	// note writes one paragraph of prose, whose lines stay apart.
	note(lines []string)
	givens(rows []given)
	// working writes worked lines; of are the names that they lead to where there are
	// several or a part has several workings, and else none.
	working(w *working, of []syntax.Expr)
	definitions(lines []entry.WorkLine)
	cases(c *cases)
	answer(a *answer)
	check(c *check)
	drawing(d drawn)
	table(t *table)
	told(lines []entry.Said)
	flaw(f *flaw)
	room(r *room)
	// answers writes the answers of all parts once more, a line each.
	answers(all []solved)
}

// solved are the answers of one part.
type solved struct {
	label   string
	answers []*answer
}

// usual is room for as many bytes as most documents take, and eachPart for those of a part
// of a page with its drawings.
const usual, eachPart = 1 << 16, 6 << 10

// write writes a document in a format.
//
// The answers of all parts come once more at the end, where they are looked up, unless there is
// one alone.
func write(d *Document, to format) {
	w := writer{format: to}
	w.begin(d)
	w.blocks(d.Blocks)
	for i := range d.Parts {
		p := &d.Parts[i]
		w.several = p.several()
		w.part(p, i+1)
		w.blocks(p.Blocks)
		w.endPart()
	}
	if all := d.answers(); len(all) > 1 {
		w.format.answers(all)
	}
	w.end(d)
}

// writer sends the blocks of a document to a format.
type writer struct {
	format
	several bool // this part has more than one working, which then need names
}

func (w *writer) blocks(all []block) {
	for _, b := range all {
		b.write(w)
	}
}

func (b note) write(w *writer) {
	for _, lines := range prose(b.Text) {
		w.note(lines)
	}
}

// A name in the head tells workings of one part apart; one alone needs none.
func (b working) write(w *writer) {
	switch {
	case b.Definitions, len(b.Of) == 0:
		w.definitions(b.Lines)
	case w.several, len(b.Of) > 1:
		w.working(&b, b.Of)
	default:
		w.working(&b, nil)
	}
}

// answers gathers the answers of a key, part by part.
func (d *Document) answers() []solved {
	var out []solved
	for i := range d.Parts {
		s := solved{label: oneLine(d.Parts[i].Label)}
		for _, b := range d.Parts[i].Blocks {
			if a, ok := b.(answer); ok {
				s.answers = append(s.answers, &a)
			}
		}
		if len(s.answers) > 0 {
			out = append(out, s)
		}
	}
	return out
}

// listed says expressions as a list: a and F_T.
func listed(all []syntax.Expr) entry.Said { return entry.Listed(entry.Maths(all...)) }

func (b givens) write(w *writer)     { w.givens(b.Rows) }
func (b answer) write(w *writer)     { w.answer(&b) }
func (b check) write(w *writer)      { w.check(&b) }
func (b energyBars) write(w *writer) { w.drawing(b.drawn()) }
func (b arrows) write(w *writer)     { w.drawing(b.drawn()) }
func (b figure) write(w *writer)     { w.drawing(b.drawn()) }
func (b table) write(w *writer)      { w.table(&b) }
func (b cases) write(w *writer)      { w.cases(&b) }
func (b text) write(w *writer)       { w.told(b.Lines) }
func (b flaw) write(w *writer)       { w.flaw(&b) }
func (b room) write(w *writer)       { w.room(&b) }

// title is the title of a document, on one line.
func (d *Document) title() string {
	if title := oneLine(d.Title); title != "" {
		return title
	}
	return "Worksheet"
}

// edition says for whom the document is, and how many points there are.
func (d *Document) edition() string {
	s := "Answer key"
	if d.Edition == Handout {
		s = "Handout"
	}
	n := 0
	for _, p := range d.Parts {
		n += max(0, p.Points)
	}
	return s + framed(" · ", points(n), "")
}

// points says how many points something is worth; empty for none.
//
// "1 point" is one and "2 points" are several, in each format alike.
func points(n int) string {
	if n <= 0 {
		return ""
	}
	return writing.Count(n, "point")
}

// head is the label and the question of a part, on one line each; a part without
// either is told by its number.
func (p *part) head(number int) (label, question string) {
	label, question = oneLine(p.Label), oneLine(p.Question)
	if label == "" && question == "" {
		question = "Part " + strconv.Itoa(number)
	}
	return label, question
}

// several tells whether a part has more than one working.
func (p *part) several() bool {
	n := 0
	for _, b := range p.Blocks {
		if w, ok := b.(working); ok && !w.Definitions && len(w.Of) > 0 {
			n++
		}
	}
	return n > 1
}

// tail is what follows the sides of a check: "is zero within 0.1 J", or nothing.
func (c *check) tail() string { return oneLine(c.Sign + " " + c.Within) }

// claim lays out what a check says, without its tail.
func (c *check) claim() typeset.Box {
	left := typeset.Expr(c.Left)
	if c.Right == nil || c.Sign != "" {
		return left
	}
	return typeset.Relation(left, c.Relation, typeset.Expr(c.Right))
}

// box lays out a function by intervals, with a brace.
//
// It is set as in a textbook: a brace, and behind each value when it holds.
func (c *cases) box() typeset.Box {
	all := make([]typeset.Case, len(c.Rows))
	for i := range c.Rows {
		all[i] = typeset.Case{Value: typeset.Expr(c.Rows[i].X), When: when(&c.Rows[i])}
	}
	return typeset.Relation(typeset.Expr(c.Of), "=", typeset.Cases(all))
}

// when is the interval of a piece: 0 s ≤ t < 4 s.
func when(p *syntax.Piece) typeset.Box {
	sign := map[bool]string{false: "≤", true: "<"}
	set := typeset.Expr(&syntax.Name{Name: p.Var})
	switch {
	case p.Lo == nil && p.Hi != nil:
		return typeset.Relation(set, sign[p.HiOpen], typeset.Expr(p.Hi))
	case p.Hi == nil && p.Lo != nil:
		return typeset.Relation(set, map[bool]string{false: "≥", true: ">"}[p.LoOpen], typeset.Expr(p.Lo))
	case p.Lo != nil:
		set = typeset.Relation(typeset.Expr(p.Lo), sign[p.LoOpen], set)
		return typeset.Relation(set, sign[p.HiOpen], typeset.Expr(p.Hi))
	}
	return set
}

// numbers tells whether a column has numbers, which stand at its right.
func (t *table) numbers(column int) bool {
	return len(t.Rows) > 0 && t.Rows[0][column].Value != nil
}

// heading is the first word of a finding, in capitals where it must not be missed.
//
// A caution doesn't make a document wrong, and is not shouted.
func (f *flaw) heading() string {
	if f.Severity.Fails() {
		return strings.ToUpper(f.Severity.String())
	}
	return capital(f.Severity.String())
}

// capital makes the first letter of an English word large.
func capital(word string) string {
	if word != "" && word[0] >= 'a' && word[0] <= 'z' {
		return string(word[0]-'a'+'A') + word[1:]
	}
	return word
}
