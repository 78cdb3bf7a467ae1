package print

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/session/draw"
	"steelyard/session/view"
	"steelyard/units"
)

// caution is what every document ends with.
const caution = "A study aid. Not for engineering, medical or safety decisions, where local codes and licensed practice come first."

// New makes a document of a worksheet that was worked out. The key has all of
// it; a handout leaves out whatever would give an answer away. It returns what
// the reader should be told of beside the document: a question that holds an
// answer.
func New(pad *session.Pad, title string, entries []*session.Entry, edition Edition) (*Document, []string) {
	b := &builder{pad: pad, edition: edition, doc: &Document{Title: title, Edition: edition, Caution: caution}, all: entries}
	for _, e := range entries {
		if p, ok := e.Stmt.(*syntax.Part); ok {
			b.endPart()
			b.part = &Part{Label: p.Label, Question: p.Question}
		} else {
			b.entry(e)
		}
	}
	b.endPart()
	b.gravity()
	var told []string
	if edition == Handout {
		told = b.guard()
	}
	return b.doc, told
}

// gravity adds standard gravity to the known quantities where it is used.
func (b *builder) gravity() {
	for _, e := range b.all {
		for _, f := range e.Findings {
			if f.ID == finding.StandardGravity {
				b.given("g", "9.80665 m/s^2")
				return
			}
		}
	}
}

// Flawed tells whether a document has a mismatch, a failed check or an error.
func Flawed(entries []*session.Entry) bool {
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
type builder struct {
	pad     *session.Pad
	edition Edition
	doc     *Document
	all     []*session.Entry
	part    *Part // nil above the first part
	results []*session.Entry
	answers int
	asked   int // things that the part asks for, by which room is left
}

// add puts a block where the document is at.
func (b *builder) add(block Block) {
	if b.part == nil {
		b.doc.Blocks = append(b.doc.Blocks, block)
		return
	}
	b.part.Blocks = append(b.part.Blocks, block)
}

// replace puts a block in the place of the last one.
func (b *builder) replace(block Block) {
	if b.part != nil {
		b.part.Blocks[len(b.part.Blocks)-1] = block
	} else {
		b.doc.Blocks[len(b.doc.Blocks)-1] = block
	}
}

// last is the block that was put last.
func (b *builder) last() Block {
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
func (b *builder) endPart() {
	if b.part == nil {
		b.results, b.answers, b.asked = nil, 0, 0
		return
	}
	if b.edition == Handout {
		b.add(Room{Lines: b.room()})
	} else if n := len(b.results); b.answers == 0 && n > 0 {
		for _, v := range b.results[n-1].Values {
			b.add(Answer{Name: v.Name, Shown: v.Shown(units.File)})
		}
	}
	b.doc.Parts = append(b.doc.Parts, *b.part)
	b.part, b.results, b.answers, b.asked = nil, nil, 0, 0
}

// room is how many lines an answer is left, so that a part with axes to draw on
// still fits a sheet.
func (b *builder) room() int {
	lines := 4 + 2*min(b.asked, 6)
	for _, block := range b.part.Blocks {
		if _, axes := block.(Graph); axes {
			lines = max(4, min(lines, 14)-5)
		}
	}
	return lines
}

// entry makes the blocks of one statement.
func (b *builder) entry(e *session.Entry) {
	b.flaws(e)
	switch s := e.Stmt.(type) {
	case *syntax.Note:
		b.note(s)
	case *syntax.Define:
		if e.Records {
			b.result(e)
		} else if len(e.Values) == 1 {
			shown := e.Values[0].Shown(units.File)
			if _, mixed := s.X.(*syntax.Mixed); mixed {
				shown = given(e) // 3 lb 8 oz, as it was written
			}
			b.given(s.Name, shown)
		} else if !e.Failed() {
			b.result(e) // a symbol in it has no value yet
		}
	case *syntax.Let:
		if !b.valued(s.Name, e.Line) {
			b.given(s.Name, "unknown, in "+s.In.Text)
		}
	case *syntax.UnitDef:
		b.given("1 "+s.Name, given(e))
	case *syntax.Constants:
		for _, v := range e.Values {
			b.given(v.Name, v.Shown(units.File))
		}
	case *syntax.FuncDef:
		b.function(s, e)
	case *syntax.FormulaDef:
		b.key(Working{Lines: []Line{{Lead: s.Name, Left: s.Left, Right: s.Right}}})
	case *syntax.Value, *syntax.Solve, *syntax.Slope, *syntax.Area:
		b.result(e)
	case *syntax.With, *syntax.Scaling:
		b.again(e)
	case *syntax.Report:
		b.report(s, e)
	case *syntax.CheckStmt:
		b.check(s, e)
	case *syntax.Graph:
		b.graph(s, e)
	case *syntax.Bars:
		if e.Bars != nil {
			b.key(EnergyBars{Bars: view.BarChart(e.Bars), Books: e.Bars.Books})
			b.asked++
		}
	}
}

// key puts a block into the key alone.
func (b *builder) key(block Block) {
	if b.edition == Key {
		b.add(block)
	}
}

// note is prose: in a handout only what stands above the parts or directly under a
// question, since further down it explains the solution.
func (b *builder) note(s *syntax.Note) {
	if b.edition == Key || b.part == nil || b.asked == 0 {
		b.add(Note{Text: s.Text})
	}
}

// given is a row of the known quantities, in the table that is being made.
func (b *builder) given(name, shown string) {
	row := Given{Name: name, Shown: shown}
	for i, block := range b.doc.Blocks {
		if g, ok := block.(Givens); ok && b.part == nil { // one table above the parts
			g.Rows = append(g.Rows, row)
			b.doc.Blocks[i] = g
			return
		}
	}
	if g, ok := b.last().(Givens); ok {
		g.Rows = append(g.Rows, row)
		b.replace(g)
		return
	}
	b.add(Givens{Rows: []Given{row}})
}

// valued tells whether a symbol is given a value in a later line.
func (b *builder) valued(name string, line int) bool {
	for _, o := range b.all {
		for _, v := range o.Values {
			if d, ok := o.Stmt.(*syntax.Define); ok && d.Name == name && v.Name == name && o.Line > line {
				return true
			}
		}
	}
	return false
}

// given is what stands behind the = of a line, as it was written.
func given(e *session.Entry) string {
	_, after, _ := strings.Cut(e.Text, "=")
	return strings.TrimSpace(after)
}

// function is a function of the worksheet: above the parts it belongs to the
// problem, in a part to the solution.
func (b *builder) function(s *syntax.FuncDef, e *session.Entry) {
	if b.part != nil && b.edition == Handout || e.Failed() {
		return
	}
	if s.X == nil {
		b.add(Text{Lines: strings.Split(e.Text, "\n")})
		return
	}
	call := &syntax.Call{Func: s.Name}
	for _, p := range s.Params {
		call.Args = append(call.Args, syntax.Arg{X: &syntax.Name{Name: p}})
	}
	one := Line{Left: call, Right: s.X}
	if w, ok := b.last().(Working); ok && w.Definitions {
		w.Lines = append(w.Lines, one)
		b.replace(w)
		return
	}
	b.add(Working{Lines: []Line{one}, Definitions: true})
}

// result is the working of a result.
func (b *builder) result(e *session.Entry) {
	b.asked++
	lines := b.pad.Working(e)
	if len(lines) == 0 {
		return
	}
	if !e.Failed() && !mismatched(e) && len(e.Values) > 0 {
		b.results = append(b.results, e)
	}
	w := Working{}
	named := ""
	if l := lines[0]; l.Left == nil && l.Name == "" && l.Right != nil && len(lines) > 1 && lines[1].Left == nil {
		lines[1].Left, lines = l.Right, lines[1:] // a value without a name
	}
	for _, l := range lines {
		one := line(l)
		if l.Words != "" { // the value goes on under its own name
			named, one = l.Name, Line{Lead: l.Words}
		} else if named != "" && one.Left == nil {
			one.Left, named = &syntax.Name{Name: named}, ""
		}
		w.Lines = append(w.Lines, one)
	}
	for _, f := range e.Findings {
		if f.ID == finding.OtherRoot || f.ID == finding.Searched {
			w.Lines = append(w.Lines, Line{Lead: f.Message})
		}
	}
	b.key(w)
}

// mismatched tells whether a result is reported in a wrong unit.
func mismatched(e *session.Entry) bool {
	for _, f := range e.Findings {
		if f.Severity == finding.Mismatch {
			return true
		}
	}
	return false
}

// line is a line of a working as a document has it.
func line(l session.WorkLine) Line {
	out := Line{Lead: l.Lead, Left: l.Left, Right: l.Right, Reason: l.Why(), Units: l.Units}
	if l.Left == nil && l.Name != "" {
		out.Left = &syntax.Name{Name: l.Name}
	}
	if l.Shown != nil {
		out.Shown = l.Shown.Shown(units.File)
	}
	return out
}

// again is a result worked out with other givens, or how it scales.
func (b *builder) again(e *session.Entry) {
	b.asked++
	lines := append([]string{}, e.Told...)
	if len(e.Values) == 1 {
		lines = append([]string{oneLine(e.Text) + ": " + e.Values[0].Shown(units.Screen)}, lines...)
	}
	if len(lines) > 0 {
		b.key(Text{Lines: lines})
	}
}

// report is an answer of its part.
func (b *builder) report(s *syntax.Report, e *session.Entry) {
	b.asked++
	b.answers++
	a := Answer{X: s.X, Points: s.Points}
	if n, ok := s.X.(*syntax.Name); ok {
		a.Name = n.Name
	}
	switch {
	case len(e.Values) == 1:
		a.Shown = e.Values[0].Shown(units.File)
	case s.Sign && len(e.Told) == 1:
		a = Answer{Shown: syntax.PrintExpr(s.X) + " is " + e.Told[0], Points: s.Points}
	default:
		return
	}
	if b.part != nil {
		b.part.Points += s.Points
	}
	b.key(a)
}

// check is a second route to a result.
func (b *builder) check(s *syntax.CheckStmt, e *session.Entry) {
	if e.Check == nil || !e.Check.Holds { // one that fails stands as a flaw
		return
	}
	c := Check{Left: s.Left, Right: s.Right, Holds: e.Check.Holds, Relation: relations[s.Op]}
	if s.Within != nil {
		c.Within = "within " + syntax.PrintExpr(s.Within)
	}
	l, r := e.Check.Left.Shown(units.Screen), e.Check.Right.Shown(units.Screen)
	switch {
	case s.Sign != syntax.NoSign:
		c.Sign, c.Says = signs[s.Sign], l
	case l == r:
		c.Says = "both sides are " + l
	default:
		c.Says = l + " and " + r
	}
	b.key(c)
}

var relations = map[syntax.Comparison]string{syntax.Equal: "=", syntax.Less: "<", syntax.Greater: ">", syntax.AtMost: "≤", syntax.AtLeast: "≥"}

var signs = map[syntax.SignWord]string{syntax.Negative: "is negative", syntax.Positive: "is positive", syntax.Zero: "is zero"}

// graph is a graph or a table. The key shows the curves of blank axes too, unless
// the same part draws them anyway; a handout has the blank axes alone.
func (b *builder) graph(s *syntax.Graph, e *session.Entry) {
	g := e.Graph
	b.asked++
	switch {
	case g == nil:
	case g.Heads != nil:
		b.key(Table{Heads: g.Heads, Rows: g.Rows})
	case b.edition == Handout && s.Blank:
		f := view.Figure(g)
		f.X.From, f.X.To = draw.NiceRange(f.X.From, f.X.To) // where it ends may be an answer
		b.add(Graph{Figure: f})
	case b.edition == Key && !(s.Blank && b.drawn(e)):
		full := *g
		full.Blank = false
		b.add(Graph{Figure: view.Figure(&full), Shapes: g.Shapes})
	}
}

// drawn tells whether another graph shows the curves of blank axes.
func (b *builder) drawn(e *session.Entry) bool {
	for _, o := range b.all {
		if g, ok := o.Stmt.(*syntax.Graph); ok && o != e && !g.Blank && o.Graph != nil && names(o.Graph) == names(e.Graph) {
			return true
		}
	}
	return false
}

func names(g *session.Graph) string {
	var all []string
	for _, c := range g.Curves {
		all = append(all, c.Name)
	}
	return strings.Join(all, "\n") + "\n" + g.X.Label
}

// flaws are the findings of a statement that a reader must see; notes are for
// the one who writes.
func (b *builder) flaws(e *session.Entry) {
	if b.edition == Handout {
		return
	}
	for _, f := range e.Findings {
		if f.Severity == finding.Note {
			continue
		}
		b.add(Flaw{Word: f.Severity.String(), Line: e.Line, Source: e.Text, Message: f.Message, Hint: f.Hint, Standout: f.Severity.Fails()})
	}
}
