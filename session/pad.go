// Package session is the scratchpad: a statement goes in, and one Entry with
// its value, its findings and what it depends on comes out. It touches no file,
// clock, terminal or network. How each kind of statement is worked out is a
// matter of the rooms below it; statements.go says which.
package session

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/advise"
	"steelyard/session/ask"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/session/reading"
	"steelyard/session/record"
	"steelyard/session/work"
	"steelyard/units"
)

// Pad is one worksheet being written. It is not safe for concurrent use.
type Pad struct {
	page   *eval.Page
	reader syntax.Reader
	marks  []mark
	title  string
	budget limit.Budget // of the line that is being worked out
	trying bool         // a reading is being tried, whose own readings are not
	free   bool         // what is being tried needs not be the only reading of its line
	asks   bool         // readings are wanted of what is being tried
	typed  bool         // the line is none of a file
	watch  bool         // what a line depends on is noted
	stood  []stood      // what has been tried of the line and was not refused
}

// stood is a text that was entered on trial as the line, and not refused.
type stood struct {
	text string
	e    *entry.Entry
}

// mark is what was there before a line, to which undo goes back, and the names that
// the line asked for, where that is noted.
type mark struct {
	plan  plan.Mark
	set   eval.Settings
	asked *plan.Asked
	read  bool // the line was read without a finding
}

// New returns an empty scratchpad.
func New() *Pad {
	page := eval.NewPage()
	return &Pad{page: page, reader: syntax.Reader{Known: reading.Known(page)}}
}

// Filed tells that the lines are those of a file: a name means what the nearest
// line above says, even where that line has failed. Undo takes the last line back
// and no more, unless lines are Revised.
func (p *Pad) Filed() { p.page.Planner.Names.Nearest = true }

// Revised tells that lines will be changed: what each depends on is noted, so that
// Revise works no others out.
func (p *Pad) Revised() { p.watch = true }

// Reads tells how files of the page's folder are read: its readings.
func (p *Pad) Reads(files func(name, sheet string) ([]byte, error)) { p.page.Files = files }

// Rounded tells that results are shown to the figures that their givens support where no
// line says more, and other numbers with so many.
func (p *Pad) Rounded(figures int) {
	p.page.Set.Figures, p.page.Set.ByGivens = units.Figures{N: figures, Keep: true, Usual: true}, true
}

// Table returns the units that this worksheet knows.
func (p *Pad) Table() *units.Table { return p.page.Planner.Units }

// Next returns the number of the next statement.
func (p *Pad) Next() int { return len(p.page.Entries) + 1 }

// Entries returns the stored statements in order.
func (p *Pad) Entries() []*entry.Entry { return p.page.Entries }

// Names lists what the names of the worksheet mean after the last line.
func (p *Pad) Names() []ask.Name { return ask.Names(p.page) }

// FormulaNames lists the formulas of the library and of this worksheet.
func (p *Pad) FormulaNames() []string { return p.page.FormulaNames() }

// Formula returns a formula of this worksheet or of the library.
func (p *Pad) Formula(name string) (*syntax.FormulaDef, bool) { return p.page.Formula(name) }

// Working returns the worked lines of an entry; of several values only that of
// one name, unless the name is empty.
func (p *Pad) Working(e *entry.Entry, name string) []entry.WorkLine {
	defer p.within(context.Background(), limit.Steps)()
	return work.Of(p.page, e, name)
}

// Asides returns what is said beside the working of a line: nothing, but of a solve.
func (p *Pad) Asides() []entry.Said { return nil }

// Enter works one statement out as the next line, as it is typed or pasted: results under it
// may be rounded.
func (p *Pad) Enter(ctx context.Context, text string) *entry.Entry {
	p.typed = true
	e := p.EnterAt(ctx, p.Next(), text)
	p.typed = false
	return e
}

// EnterAt works one statement out as the given line. The text is one statement
// with its indented lines. Those that begin with = are compared with what it comes to, and a
// line that fails keeps them in its text. A command that asks is answered and not stored. Where
// ctx is done before the line is, the line has no value.
func (p *Pad) EnterAt(ctx context.Context, line int, text string) *entry.Entry {
	return p.enterRead(ctx, line, text, nil, nil)
}

// enterRead is EnterAt for a line that may have been read, and that has asked then for
// some names.
func (p *Pad) enterRead(ctx context.Context, line int, text string, read syntax.Stmt, asked *plan.Asked) *entry.Entry {
	defer p.within(ctx, limit.Steps)()
	m := p.mark()
	if p.watch {
		if asked == nil {
			asked = &plan.Asked{}
		}
		m.asked = asked
		p.page.Planner.Names.Ask(asked)
		defer p.page.Planner.Names.Ask(nil)
	}
	text, under := record.Cut(text)
	e := p.enter(m, line, text, read)
	if len(under) > 0 {
		p.compare(e, under)
	}
	return e
}

// compare compares what a line comes to with the results under it.
func (p *Pad) compare(e *entry.Entry, under []record.Line) {
	if e.Failed() {
		e.Text = record.Join(e.Text, under)
		return
	}
	by := record.ByProgram
	if p.typed {
		by = record.ByHand
		under = slices.DeleteFunc(under, func(l record.Line) bool { return p.step(e, l) })
	}
	state, recorded := record.Compare(e, under, p.Table(), by)
	if state == record.Differs {
		e.Findings = append(e.Findings, record.Different(e, recorded, p.Table(), p.page.EntryAt))
	}
}

// step tells whether a line under another is a step of its working, with values put in, that
// comes to the same.
func (p *Pad) step(e *entry.Entry, l record.Line) bool {
	if _, wrong := syntax.ParseRecord(l.Text); len(wrong) == 0 || len(e.Values()) != 1 {
		return false
	}
	v, ok := p.enterOnTrial(e.Line+1, "check that "+l.Text, true).Outcome.(*entry.Verdict)
	return ok && v.Holds
}

// enter is EnterAt within the budget of the line that is being worked out, from a mark
// before it.
func (p *Pad) enter(m mark, line int, text string, read syntax.Stmt) *entry.Entry {
	text = syntax.AsStored(text)
	e := &entry.Entry{Line: line, Text: text, By: p}
	if e.Stmt = read; read == nil {
		e.Stmt, e.Findings = p.reader.Read(text)
	}
	m.read = len(e.Findings) == 0
	if cmd, ok := e.Stmt.(*syntax.Command); ok {
		p.answer(e, cmd)
		if why := p.page.State.Budget.Ended(); why != limit.Going {
			e.Outcome, e.Findings = nil, []finding.Finding{endedAt(&eval.Line{Page: p.page, Entry: e}, why)}
		}
		return e
	}
	planner := p.page.Planner
	planner.Begin(line)
	l := &eval.Line{Page: p.page, Entry: e, Start: planner.Size()}
	stmt := e.Stmt
	if !p.trying {
		p.stood = p.stood[:0]
	}
	tried := p.read(l)
	m.read = m.read && e.Stmt == stmt // names run together may be no product where others are given
	if p.page.State.Budget.Ended() != limit.Going {
		p.ended(l, m)
		m.asked = nil // it had more to ask
	}
	e.Findings = slices.DeleteFunc(e.Findings, func(f finding.Finding) bool {
		return f.ID == finding.ReadAs && !p.page.Set.Note(f.Message)
	})
	if p.typed || !planner.Names.Nearest {
		stays(l, planner.Since(m.plan))
	}
	if planner.Names.Nearest && !p.watch && !p.trying {
		p.marks = p.marks[:0]
	}
	p.page.Entries = append(p.page.Entries, e)
	p.marks = append(p.marks, m)
	if !p.trying {
		p.tryReadings(e, tried)
		if e.Failed() && line <= limit.Advised && p.page.State.Budget.Ended() == limit.Going {
			p.missing(l, planner.Since(m.plan))
		}
	}
	return e
}

// mark is the present place.
func (p *Pad) mark() mark { return mark{plan: p.page.Planner.Mark(), set: p.page.Set} }

// read settles how the line is read, and works it out if that is clear. It returns
// how many of the line's findings, the last ones, offer what has been tried.
func (p *Pad) read(l *eval.Line) (tried int) {
	e := l.Entry
	var v reading.Verdict
	if !p.free {
		v = reading.Settle(l, func(text string, ruled bool) *entry.Entry {
			got := p.enterOnTrial(e.Line, text, ruled)
			if ruled && !p.trying && got.Refusal() == nil {
				p.stood = append(p.stood, stood{text, got})
			}
			return got
		}, !p.trying || p.asks)
	}
	if v.Refused {
		e.Stmt, e.Findings = nil, nil
	}
	var before plan.Mark
	if v.Slip {
		before = p.page.Planner.Mark()
	}
	if v.Nameless || v.IfFailed && e.Stmt == nil {
		l.Settle(eval.Unnamed())
	} else if e.Stmt == nil {
		unread(l)
	} else {
		workOut(l, e.Stmt)
		if v.IfFailed && e.Failed() {
			p.page.Planner.Names.Forget(entry.BeginsWith(e.Text))
		}
	}
	if v.Slip {
		had := e.Outcome != nil
		if v.Told(l) {
			return 0
		}
		if had && e.Outcome == nil { // its value is not what any reading says
			p.page.Planner.Cut(before)
			p.page.State.Truncate(p.page.Planner.Size())
			unread(l)
		}
	}
	l.Find(v.Findings...)
	return len(v.Findings)
}

// previewSteps is the most that working a line out for Preview may take: less than is
// noticed between two keys.
const previewSteps = 20_000

// equationSteps is that for an equation, of which several readings are weighed and one solved.
const equationSteps = 20 * previewSteps

// Preview works a text out as a line with that number, with what is above it, and takes
// it back. It is nil for a line that can't be read yet and is no equation with one unknown,
// for a command, where that takes long, and where lines below say what holds above them
// too, such as what a unit is.
func (p *Pad) Preview(line int, text string) *entry.Entry {
	if line < p.Next() {
		entries, marks, set := p.page.Entries, p.marks, p.page.Set
		m := marks[line-1]
		if p.page.Planner.Told(m.plan) {
			return nil
		}
		defer p.page.Planner.Hide(m.plan)()
		defer func() { p.page.Entries, p.marks, p.page.Set = entries, marks, set }()
		p.page.Entries, p.marks, p.page.Set = entries[:line-1:line-1], marks[:line-1:line-1], m.set
	}
	stmt, _ := syntax.ParseWith(text, reading.Known(p.page))
	steps := int64(previewSteps)
	switch stmt.(type) {
	case nil:
		if !strings.Contains(text, "=") { // an equation may be read as a solve
			return nil
		}
		steps = equationSteps
	case *syntax.Command:
		return nil
	}
	defer p.within(context.Background(), steps)()
	e := p.enterOnTrial(line, text, true)
	if p.budget.Ended() != limit.Going || stmt == nil && e.Failed() {
		return nil
	}
	return e
}

// enterOnTrial works a text out as if it were that line, and takes it back; ruled
// tells whether it must be the one reading of its line.
func (p *Pad) enterOnTrial(line int, text string, ruled bool) *entry.Entry {
	trying, free, asks := p.trying, p.free, p.asks
	p.trying, p.free, p.asks = true, !ruled, false
	e := p.enterAndUndo(line, text)
	p.trying, p.free, p.asks = trying, free, asks
	return e
}

// enterAndUndo works statements out and takes them back: the last, or the first that fails.
func (p *Pad) enterAndUndo(line int, text string) (e *entry.Entry) {
	before := len(p.page.Entries)
	for i, one := range syntax.StatementsOf(text) {
		if e = p.enter(p.mark(), line+i, one, nil); e.Failed() {
			break
		}
	}
	for len(p.page.Entries) > before {
		p.Undo()
	}
	return e
}

// tryReadings tries the readings that the findings of the last statement offer. Those of the
// last findings, which say how else the line is read, have been put right already.
func (p *Pad) tryReadings(e *entry.Entry, tried int) {
	if !slices.ContainsFunc(e.Findings, func(f finding.Finding) bool { return len(f.Readings)+len(f.Lines) > 0 }) {
		return
	}
	p.trying, p.asks = true, true
	advise.Readings(e, max(len(e.Findings)-tried, 0), func(text string) *entry.Entry {
		if i := slices.IndexFunc(p.stood, func(s stood) bool { return s.text == text }); i >= 0 {
			return p.stood[i].e
		}
		return p.enterAndUndo(e.Line, text)
	})
	p.trying, p.asks = false, false
}

// missing says of a line that is refused which symbols in it have no value, where that is
// likelier than what was found.
func (p *Pad) missing(l *eval.Line, defs []*plan.Def) {
	e := l.Entry
	p.trying, p.asks = true, true
	f, ok := reading.Missing(l, func(text string, ruled bool) *entry.Entry { return p.enterOnTrial(e.Line, text, ruled) })
	if ok {
		advise.Stands(e, &f, func(text string) *entry.Entry { return p.enterAndUndo(e.Line, text) })
	}
	p.trying, p.asks = false, false
	if !ok {
		return
	}
	e.Findings = slices.DeleteFunc(e.Findings, func(f finding.Finding) bool { return f.Severity <= finding.Mismatch })
	e.Findings = append(e.Findings, f)
	if p.typed || !p.page.Planner.Names.Nearest {
		stays(l, defs)
	}
}

// unread notes what a line that can't be read would have defined, so that the
// lines that need it name this one as the cause.
func unread(l *eval.Line) {
	name := entry.BeginsWith(l.Entry.Text)
	d := &plan.Def{Name: name, Slot: run.NoSlot}
	if name = cmp.Or(name, entry.FunctionOf(l.Entry.Text)); name != d.Name {
		d = &plan.Def{Name: name, Kind: plan.Function, Slot: run.NoSlot, Func: &syntax.FuncDef{}}
	}
	if name == "" && syntax.IsData(l.Entry.Text) {
		d.Name, name = plan.Readings, plan.Readings
	}
	d.Root = d
	if name != "" {
		l.Settle(d)
	}
}

// Undo takes the last statement back, and returns it.
func (p *Pad) Undo() (*entry.Entry, bool) {
	last := len(p.marks) - 1
	if last < 0 {
		return nil, false
	}
	rest := len(p.page.Entries) - 1
	e := p.page.Entries[rest]
	p.cut(rest, p.marks[last])
	p.marks = p.marks[:last]
	return e, true
}

// cut takes back all lines but the first keep, to the mark before the next.
func (p *Pad) cut(keep int, m mark) {
	p.page.Planner.Cut(m.plan)
	p.page.State.Truncate(p.page.Planner.Size())
	p.page.Set, p.page.Entries = m.set, p.page.Entries[:keep]
}
