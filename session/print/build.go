package print

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"sync"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/units"
	"steelyard/units/each"
)

// caution is what every document ends with.
const caution = "A study aid. Not for engineering, medical or safety decisions, where local codes and licensed practice come first."

// New makes a document of a worksheet that was worked out. The key has all of
// it; a handout leaves out whatever would give an answer away. It returns what
// its writer should be told of beside the document: what a handout leaves out, and a
// question that holds an answer, each with its line.
//
// Blocks are made in the order of the lines, so that what the writer put together stays together.
// What depends on all lines, such as the guard of a handout, is worked out before the first, or
// when it is asked for.
func New(title string, entries []*entry.Entry, edition Edition) (*Document, []string) {
	b := &builder{edition: edition, doc: &Document{Title: title, Edition: edition, Caution: caution, set: newSetter(entries)}, all: entries, meanings: entry.NewMeanings(entries), first: math.MaxInt}
	guardFigures(entries)
	b.guard = sync.OnceValue(func() *guard { return newGuard(entries) })
	b.doc.Title = b.fill(title, 0)
	if edition == Handout {
		b.shown, b.pointed = map[int]bool{}, hasPoints(entries)
		if l := b.guard().reveals(b.doc.Title); l != nil {
			b.told = append(b.told, "the title holds "+l.String()+".")
		}
	}
	for _, e := range entries {
		if p, ok := e.Stmt.(*syntax.Part); ok {
			b.endPart()
			b.part = &part{Label: p.Label, Question: b.fill(p.Question, e.Line)}
			b.first = min(b.first, e.Line)
			b.question(e)
		} else if !b.hidden(e) {
			b.entry(e)
		}
	}
	b.endPart()
	b.gravity()
	b.figures()
	return b.doc, b.told
}

// figures says in the foot of a key how results are rounded where no line does.
//
// A reader who checks 3.142 against a book must know which figures count. A document whose lines
// all say how many they want needs no such foot.
func (b *builder) figures() {
	how := ""
	for _, e := range b.all {
		for _, v := range e.Values() {
			switch {
			case !v.Figures.Usual:
			case v.Figures.Givens:
				how = "Results are shown to the figures that their givens support; those that later lines use, to two more. "
			case how == "":
				how = "Results are shown to " + strconv.Itoa(v.Figures.N) + " figures; those that later lines use, to two more. "
			}
		}
	}
	if unsure := func(e *entry.Entry) bool {
		return slices.ContainsFunc(e.Values(), func(v entry.Value) bool { return v.U > 0 || v.List != nil && v.List.U != nil })
	}; slices.ContainsFunc(b.all, unsure) {
		is := "± is one standard uncertainty. "
		if slices.ContainsFunc(b.all, func(e *entry.Entry) bool { s, ok := e.Stmt.(*syntax.SpreadSetting); return ok && !s.Up }) {
			is = "± of a result is the sum of what the ± of its givens add to it. "
		}
		how += is
	}
	if b.edition == Key {
		b.doc.Caution = how + caution
	}
}

// gravity adds standard gravity to the known quantities where something that is printed
// uses it.
//
// A problem that uses g without a line for it would miss a given; the value is that of the 3rd
// CGPM, 9.80665 m/s².
func (b *builder) gravity() {
	standard := func(f finding.Finding) bool { return f.ID == finding.StandardGravity }
	if !slices.ContainsFunc(b.all, func(e *entry.Entry) bool { return slices.ContainsFunc(e.Findings, standard) }) {
		return
	}
	if slices.ContainsFunc(b.all, b.falls) {
		b.given(name("g"), shown{X: standardGravity()}, "")
	}
}

// falls tells whether a line uses g, by itself or in a formula; on a handout there are
// no lines that only test a result.
func (b *builder) falls(e *entry.Entry) bool {
	g := func(x syntax.Expr) bool { return syntax.Holds(x, "g") }
	role := syntax.RoleOf(e.Stmt)
	if e.Stmt == nil || b.edition == Handout && !role.Asks() && !b.shown[e.Line] {
		return false
	}
	return slices.ContainsFunc(e.Stmt.Exprs(), g) || role.Asks() &&
		slices.ContainsFunc(e.Working(), func(l entry.WorkLine) bool { return l.Left != nil && g(l.Left) || l.Right != nil && g(l.Right) })
}

// Flawed tells whether a document has a mismatch, a failed check or an error.
func Flawed(entries []*entry.Entry) bool {
	for _, e := range entries {
		for _, f := range e.Findings {
			if f.Severity.Fails() {
				return true
			}
		}
	}
	return false
}

// builder makes a document, entry by entry.
//
// It keeps what is seen of a part so far: whether anything is reported in it, and which results
// could be its answer if nothing is.
type builder struct {
	edition  Edition
	doc      *Document
	all      []*entry.Entry
	meanings entry.Meanings
	part     *part // nil above the first part
	results  []*entry.Entry
	answers  int
	asked    []syntax.Expr // what the part asks for, each with a line to answer on
	solved   bool          // the part has a line of its solution
	guard    func() *guard
	told     []string          // what the writer is told
	worked   map[string]string // workings without the name of their result, and that name

	// Of a handout alone:
	shown   map[int]bool // lines of parts that it shows
	first   int          // the line of the first part
	pointed bool         // some answer is worth points
}

// add puts a block where the document is at.
func (b *builder) add(block block) {
	if b.part == nil {
		b.doc.Blocks = append(b.doc.Blocks, block)
		return
	}
	b.part.Blocks = append(b.part.Blocks, block)
}

// replace puts a block in the place of the last one.
//
// Rows are added so to a table or a working that goes on in the next line.
func (b *builder) replace(block block) {
	if b.part != nil {
		b.part.Blocks[len(b.part.Blocks)-1] = block
	} else {
		b.doc.Blocks[len(b.doc.Blocks)-1] = block
	}
}

// last is the block that was put last.
func (b *builder) last() block {
	blocks := b.doc.Blocks
	if b.part != nil {
		blocks = b.part.Blocks
	}
	if len(blocks) == 0 {
		return nil
	}
	return blocks[len(blocks)-1]
}

// endPart closes a part: where nothing in it is reported, its last result is its
// answer.
//
// It is called before each part and after the last one; above the first part, results are no
// answers to anything.
func (b *builder) endPart() {
	if b.part == nil {
		b.results, b.answers = nil, 0
		return
	}
	if b.edition == Handout {
		b.add(b.room())
	} else if b.answers == 0 {
		for _, a := range b.concluded() {
			b.answer(a)
		}
	}
	b.doc.Parts = append(b.doc.Parts, *b.part)
	b.part, b.results, b.answers, b.asked, b.solved = nil, nil, 0, nil, false
}

// entry makes the blocks of one statement: those of the statement itself, and
// those of what became of it.
func (b *builder) entry(e *entry.Entry) {
	b.flaws(e)
	switch s := e.Stmt.(type) {
	case *syntax.Note:
		b.note(e, b.fill(s.Text, e.Line))
	case *syntax.Let:
		for _, n := range s.Symbols {
			if !b.valued(n.Name, e.Line) {
				b.given(name(n.Name), shown{Words: "unknown, in " + typeset.Unit(s.In.Text).Page()}, b.meaning(e, n.Meaning))
			}
		}
	case *syntax.UnitDef:
		b.given(oneOf(s), shown{X: s.X}, b.meaning(e, s.Meaning))
	case *syntax.FuncDef:
		b.function(s, e)
	case *syntax.FormulaDef:
		b.key(working{Lines: []entry.WorkLine{{Words: titled(s.Name), Left: s.Left, Right: s.Right}}, Definitions: true})
	case *syntax.Define:
		if e.Outcome == nil && !e.Failed() {
			b.working(e) // a symbol in it has no value yet
		}
	case *syntax.Report:
		b.answers++
		b.asked = append(b.asked, linesFor(s, e)...)
	}
	e.Visit(outcome{b, e})
	b.solved = b.solved || b.part != nil && syntax.RoleOf(e.Stmt).Solves() && !b.shown[e.Line]
}

// key puts a block into the key alone.
func (b *builder) key(block block) {
	if b.edition == Key {
		b.add(block)
	}
}

// given is a row of the known quantities, in the table that is being made.
//
// Givens above the parts are gathered in one table, even if prose stands between them; inside a
// part only neighbours are, as a given there belongs to its place.
func (b *builder) given(name syntax.Expr, shown shown, meaning string) {
	row := given{name, shown, meaning}
	for i, block := range b.doc.Blocks {
		if g, ok := block.(givens); ok && b.part == nil { // one table above the parts
			g.Rows = append(g.Rows, row)
			b.doc.Blocks[i] = g
			return
		}
	}
	if g, ok := b.last().(givens); ok {
		g.Rows = append(g.Rows, row)
		b.replace(g)
		return
	}
	b.add(givens{Rows: []given{row}})
}

// valued tells whether a symbol is given a value in a later line.
//
// A name that is said to be unknown and is given a value further down would be in the table twice.
func (b *builder) valued(name string, line int) bool {
	for _, o := range b.all {
		for _, v := range o.Values() {
			if d, ok := o.Stmt.(*syntax.Define); ok && d.Name == name && v.Name == name && o.Line > line {
				return true
			}
		}
	}
	return false
}

// standardGravity is g where a worksheet doesn't define it (3rd CGPM 1901).
func standardGravity() syntax.Expr {
	x, _ := syntax.ParseExpr("9.80665 m/s^2")
	return x
}

// oneOf is one of a unit that the worksheet defines: 1 lap.
func oneOf(s *syntax.UnitDef) syntax.Expr {
	one, _ := units.ParseDecimal("1")
	return &syntax.Quantity{Value: one, Unit: syntax.UnitText{Text: s.Name}}
}

// name is a name as an expression; nil for none.
func name(s string) syntax.Expr {
	if s == "" {
		return nil
	}
	return &syntax.Name{Name: s}
}

// function is a function of the worksheet: above the parts it belongs to the
// problem, in a part to the solution.
//
// Functions that follow each other share one alignment, as lines of a working do. One by intervals
// has a brace, and is a block of its own.
func (b *builder) function(s *syntax.FuncDef, e *entry.Entry) {
	if e.Failed() || !b.public(s, e) {
		return
	}
	call := &syntax.Call{Func: s.Name}
	for _, p := range s.Params {
		call.Args = append(call.Args, syntax.Arg{X: &syntax.Name{Name: p}})
	}
	if s.X == nil {
		if s.Meaning != "" {
			b.add(note{s.Meaning})
		}
		b.add(cases{Of: call, Rows: s.Pieces})
		return
	}
	lines := append(lead(s.Meaning), entry.WorkLine{Left: call, Right: s.X})
	if w, ok := b.last().(working); ok && w.Definitions {
		w.Lines = append(w.Lines, lines...)
		b.replace(w)
		return
	}
	b.add(working{Lines: lines, Definitions: true})
}

// lead is the meaning of a name above the lines that it has, if there is one.
func lead(meaning string) []entry.WorkLine {
	if oneLine(meaning) == "" {
		return nil
	}
	return []entry.WorkLine{{Words: entry.Written(meaning)}}
}

// titled is the name of a formula as words.
func titled(formula string) entry.Said { return entry.Words(strings.ReplaceAll(formula, "_", " ")) }

// working is the worked lines of a result.
//
// What a line worked out has steps for a screen, and paper asks for less: a step that changes
// nothing is left out, words alone go above the next step, and a value is not written twice.
func (b *builder) working(e *entry.Entry) {
	lines := e.Working()
	if len(lines) == 0 {
		return
	}
	if !e.Failed() && !mismatched(e) && e.Result() != nil {
		b.results = append(b.results, e)
	}
	gives := e.Gives()
	w := working{Of: each.Of(gives, name)}
	says := make([]string, len(lines))
	for i := range lines {
		says[i] = lines[i].LeftBox().Text() + "\n" + lines[i].RightBox().Text()
	}
	lines, again := b.unrepeated(gives, lines, says)
	if len(gives) == 1 {
		w.Lines = lead(b.meanings.Of(gives[0], e))
	}
	var above entry.WorkLine // words on a line of their own, which the next line is put under
	if l := lines[0]; l.Left == nil && l.Right != nil && len(lines) > 1 && lines[1].Left == nil {
		lines[1].Left, lines, says = l.Right, lines[1:], says[1:] // a value without a name
		says[0] = typeset.Text(l.Right) + says[0]
	}
	if w.Lines == nil {
		w.Lines = lines[:0] // what stays takes the place of what was
	}
	var before entry.WorkLine
	for i, l := range lines {
		last := before
		before = l
		if i > 0 && l.Shown == nil && says[i] == says[i-1] {
			continue // a step that changes nothing
		}
		if l.Formula != "" {
			l.Words = titled(l.Formula)
		}
		if l.Words != nil && l.Right == nil && l.Shown == nil && i+1 < len(lines) && lines[i+1].Words == nil {
			above = l
			continue
		}
		if above.Words != nil {
			l.Words, above.Words = above.Words, nil
			if l.Left == nil { // the value goes on under its own name
				l.Left = above.Left
			}
		}
		if n := len(w.Lines); n > 0 && l.Left == nil && l.Words == nil && shows(&w.Lines[n-1], l.Shown) {
			l.Left, l.Words, l.Reason = last.Left, w.Lines[n-1].Words, last.Reason
			w.Lines = w.Lines[:n-1] // which is the value already
		}
		w.Lines = append(w.Lines, l)
	}
	if !again {
		for _, said := range e.Asides() {
			w.Lines = append(w.Lines, entry.WorkLine{Words: said})
		}
	}
	b.key(w)
}

// shows tells whether the right side of a line is a value, as it is shown or to other figures.
//
// The last step of many workings is the value itself, and the line that records it would repeat it
// to other figures.
func shows(l *entry.WorkLine, v *entry.Value) bool {
	if l.Right == nil || v == nil {
		return false
	}
	of := syntax.Unbracket(l.Right)
	if u, ok := of.(*syntax.Unary); ok {
		of = u.X
	}
	if q, ok := of.(*syntax.Quantity); ok {
		return q.Unit.Text == v.Unit.Behind(units.File)
	}
	return l.RightBox().Page() == (shown{Value: v}).text()
}

// unrepeated is a working, or its end alone where an earlier one is the same but for the
// name of the result; it tells which.
//
// The x and y of a vector, or the same formula for three bodies, would fill pages with one
// working.
func (b *builder) unrepeated(gives []string, lines []entry.WorkLine, says []string) ([]entry.WorkLine, bool) {
	if len(gives) != 1 || len(lines) < 4 || b.edition != Key {
		return lines, false
	}
	var same strings.Builder
	for i := range lines {
		l := &lines[i]
		mask(&same, says[i], gives[0])
		same.WriteByte('\n')
		if l.Shown != nil {
			same.WriteString(shown{Value: l.Shown}.text())
		}
		same.WriteString(l.Reason.String())
		same.WriteString(l.Formula)
	}
	if b.worked == nil {
		b.worked = map[string]string{}
	}
	first, again := b.worked[same.String()]
	if !again {
		b.worked[same.String()] = gives[0]
		return lines, false
	}
	end := lines[len(lines)-1]
	end.Left, end.Words, end.Units = name(gives[0]), entry.Say("as in the working for …", entry.Name(first)), nil
	return []entry.WorkLine{end}, true
}

// mask writes an expression on a line without one of its names.
//
// Only whole names are taken out: without t, tan is still tan.
func mask(b *strings.Builder, text, name string) {
	for at := 0; at < len(text); {
		end := max(wordEnd(text, at), at+1)
		if text[at:end] != name {
			b.WriteString(text[at:end])
		}
		at = end
	}
}

// mismatched tells whether a result is reported in a wrong unit.
//
// Such a result is a flaw of its line and no answer to build on.
func mismatched(e *entry.Entry) bool {
	return slices.ContainsFunc(e.Findings, func(f finding.Finding) bool { return f.Severity == finding.Mismatch })
}

// drawn tells whether a graph shows the curves of blank axes.
func (b *builder) drawn(g *entry.Graph) bool {
	for _, o := range b.all {
		if other, ok := o.Outcome.(*entry.Graph); ok && !other.Blank && names(other) == names(g) {
			return true
		}
	}
	return false
}

// arrowsDrawn tells whether the arrows of blank axes are drawn by another line.
func (b *builder) arrowsDrawn(a *entry.Arrows) bool {
	same := func(x, y entry.Arrow) bool { return typeset.Text(x.Of) == typeset.Text(y.Of) }
	return slices.ContainsFunc(b.all, func(o *entry.Entry) bool {
		other, ok := o.Outcome.(*entry.Arrows)
		return ok && other.Axes == nil && slices.EqualFunc(other.Arrows, a.Arrows, same)
	})
}

func names(g *entry.Graph) string {
	var all []string
	for _, c := range g.Curves {
		all = append(all, typeset.Text(c.Of))
	}
	return strings.Join(all, "\n") + "\n" + g.X.Label.String()
}
