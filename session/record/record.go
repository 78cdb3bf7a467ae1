// Package record compares what a statement comes to with what is written under it as its
// result, in a worksheet or in lines that are pasted.
package record

import (
	"math"
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// Line is a result as it is written under a statement.
type Line struct {
	// Number is that of the line in its file; 0 where it is in none.
	Number int
	// Text is the result without the blanks round it: "= 0.4624 J".
	Text string
	// From and To are its bytes in the file, without the end of the line.
	From, To int
}

// called is how a line is spoken of.
func (l Line) called() string {
	if l.Number == 0 {
		return "`" + l.Text + "`"
	}
	return "Line " + strconv.Itoa(l.Number)
}

// place is where a line is, or what it says.
func (l Line) place() string {
	if l.Number == 0 {
		return l.called()
	}
	return "in line " + strconv.Itoa(l.Number)
}

// Written says by which rule a result is compared.
type Written uint8

const (
	// ByProgram is one that a worksheet keeps: it has the unit and all figures of the value, but
	// for zeros at its end.
	ByProgram Written = iota
	// ByHand is one that may be rounded, to three figures or more, and in another unit.
	ByHand
)

// leastFigures is to how many figures a result is compared that is written by hand with fewer:
// 6 J may have been 6.00000 J on the screen that it comes from.
const leastFigures = 3

// State says how a record and a result stand to each other.
type State uint8

// The states.
const (
	Nothing    State = iota // there is nothing to record
	Agrees                  // the record agrees with the result
	Differs                 // it differs, and the cause lies in this statement or in a given
	Follows                 // it differs because a line above differs
	Unrecorded              // the result has no record
	Stray                   // the record stands under a statement that has nothing to record
	Unkept                  // the record can't be read, or its statement has no value now
)

// Cut takes the indented lines that begin with = off a statement.
func Cut(text string) (string, []Line) {
	if !strings.Contains(text, "\n") {
		return text, nil
	}
	var out []Line
	lines := strings.Split(text, "\n")
	keep := lines[:1]
	for _, line := range lines[1:] {
		if body := strings.TrimSpace(line); strings.HasPrefix(body, "=") && !strings.HasPrefix(line, "=") {
			out = append(out, Line{Text: body})
		} else {
			keep = append(keep, line)
		}
	}
	return strings.Join(keep, "\n"), out
}

// Join is a statement with results under it.
func Join(text string, lines []Line) string {
	for _, l := range lines {
		text += "\n  " + l.Text
	}
	return text
}

// usualFigures is how many figures of a result are compared where no setting
// says otherwise.
const usualFigures = 6

// comparing is a statement whose records are compared.
type comparing struct {
	*entry.Entry
	table    *units.Table
	by       Written
	recorded string // the record without its =
}

// Compare settles how the records of a statement stand to its value, and returns the record as
// it is written, without its =. A difference is not told: see Different.
func Compare(e *entry.Entry, lines []Line, table *units.Table, by Written) (State, string) {
	c := comparing{Entry: e, table: table, by: by}
	state := c.compare(lines)
	return state, c.recorded
}

func (r *comparing) compare(records []Line) State {
	e := r.Entry
	if len(records) == 0 {
		if e.Records() && len(e.Values()) > 0 {
			return Unrecorded
		}
		return Nothing
	}
	r.recorded = strings.TrimSpace(strings.TrimPrefix(records[0].Text, "="))
	if givesSeveral(e.Stmt) && (len(records) > 1 || e.NamesValues()) {
		return r.several(records)
	}
	if len(records) > 1 {
		return r.stray(records[1].called()+" is a second result of this statement.", "Keep one of the lines.")
	}
	kept := e.Records() || len(e.Values())+len(e.Findings) == 0 || e.Failed()
	if !(kept && canRecord(e)) && !(r.by == ByHand && len(e.Values()) > 0) {
		return r.stray(records[0].called()+" is a result, and this statement has none.", "Take that line out.")
	}
	if len(e.Values()) == 1 && r.recorded == e.Values()[0].Shown(units.File) {
		return Agrees // to the letter: no need to read it
	}
	rec, fs := syntax.ParseRecord(records[0].Text)
	if len(fs) > 0 {
		rewrite := "`steelyard replay --record` writes it again."
		if r.by == ByHand {
			rewrite = fs[0].Hint
		}
		e.Findings = append(e.Findings, differs("The record "+records[0].place()+" can't be read: "+fs[0].Message, rewrite))
		return Unkept
	}
	if len(e.Values()) == 0 {
		if !e.Failed() {
			e.Findings = append(e.Findings, differs("The record says "+screenText(r.recorded, r.table)+"; the statement has no value now.", ""))
		}
		return Unkept
	}
	if r.matches(&e.Values()[0], rec) {
		return Agrees
	}
	return Differs
}

// givesSeveral tells whether a statement may give several values, which have a record each.
func givesSeveral(s syntax.Stmt) bool {
	switch s.(type) {
	case *syntax.Solve, *syntax.Data, *syntax.Fit:
		return true
	}
	return false
}

// several settles how the records of several unknowns stand to their
// values: one line each, with the name.
func (r *comparing) several(records []Line) State {
	texts := make([]string, len(records))
	for i, rec := range records {
		texts[i] = strings.TrimSpace(strings.TrimPrefix(rec.Text, "="))
	}
	r.recorded = strings.Join(texts, ", ")
	switch len(r.Values()) {
	case 0:
		return Unkept
	case len(records):
	default:
		return Differs
	}
	for i, rec := range records {
		got, fs := syntax.ParseRecord(rec.Text)
		v := &r.Values()[i]
		if len(fs) > 0 || got.Name != v.Name || !r.matches(v, got) {
			return Differs
		}
	}
	return Agrees
}

// canRecord tells whether a statement is of a kind whose result is recorded.
func canRecord(e *entry.Entry) bool {
	if e.Stmt == nil {
		return true
	}
	return syntax.Records(e.Stmt) && (len(e.Values()) == 0 || e.Records())
}

func (r *comparing) stray(message, hint string) State {
	r.Findings = append(r.Findings, finding.New(finding.StrayRecord, finding.Span{}, message, hint))
	return Stray
}

func differs(message, hint string) finding.Finding {
	return finding.New(finding.RecordDiffers, finding.Span{}, message, hint)
}

// matches compares a value with its record: the unit's text is equal, and each number
// is close. Of many values, their number and their digest are compared.
func (r *comparing) matches(v *entry.Value, rec syntax.Record) bool {
	u, ok := recordedUnit(rec, r.table)
	if !ok {
		return false
	}
	if !u.SameAs(v.Unit) {
		if r.by == ByProgram || v.List != nil || u.Dim() != v.Unit.Dim() {
			return false
		}
		in := *v
		in.Unit, in.InUnit = u, u.FromSI(v.SI)
		v = &in
	}
	if rec.Digest != "" {
		return v.Digest() == rec.Digest
	}
	now, was := v.Elements(), rec.List
	if v.List == nil || was == nil {
		was = []units.Decimal{rec.Value}
	}
	if len(was) != len(now) || (v.List == nil) != (rec.List == nil) {
		return false
	}
	if rec.Vector != v.IsVector() || v.List != nil && rec.Axes != v.List.Axes {
		return false
	}
	vectors := v.Vectors()
	for i := range now {
		same := r.close
		if now[i].U > 0 && r.by == ByProgram || was[i].Off != nil {
			same = closeSpread
		}
		if !same(&now[i], was[i]) && !(vectors != nil && math.Abs(now[i].InUnit-was[i].Float()) <= residue*vectors[i*len(vectors)/len(now)].Magnitude().InUnit) {
			return false
		}
	}
	return true
}

// residue is what part of a vector a component may differ by: one that should be 0 is what
// rounding has left of the others.
const residue = 1e-9

// close tells whether a number lies within half a unit of the last figure in force of
// its record, plus 4 ulp.
func (r *comparing) close(v *entry.Value, rec units.Decimal) bool {
	was, now := rec.Float(), v.InUnit
	if was == now {
		return true
	}
	if was == 0 || now == 0 {
		return v.Number(units.File) == rec.Text
	}
	figures := usualFigures
	if v.Figures.N > 0 && !v.Figures.Usual {
		figures = v.Figures.N
	}
	if r.by == ByHand {
		figures = min(figures, max(leastFigures, int(rec.Figures)))
	}
	// The figure in force is that of the smaller number: 9.999997 is recorded
	// as 10, and 9.99996 is not.
	place := min(decade(was), decade(now)) - figures + 1
	ulp := math.Nextafter(math.Abs(now), math.Inf(1)) - math.Abs(now)
	return math.Abs(now-was) <= 0.5*math.Pow10(place)+4*ulp
}

// closeSpread compares a value with its uncertainty: the record has both as they are shown
// now, but for one in the last figure of either that a rounding may have moved.
func closeSpread(v *entry.Value, was units.Decimal) bool {
	now, fs := syntax.ParseRecord("= " + v.Shown(units.File))
	if len(fs) > 0 || v.U == 0 || was.Off == nil || now.Value.Off == nil {
		return false
	}
	off, ok := units.ParseDecimal(was.Off.Text)
	step := math.Pow10(int(off.LastPlace))
	most := 0.5001 * step
	if v.Rounding&units.OffUp != 0 {
		most = step
	}
	return ok && off.LastPlace == was.LastPlace && math.Abs(was.Float()-v.InUnit) <= 0.5001*step && math.Abs(off.Float()-v.UInUnit()) <= most
}

// decade is the power of ten of a number's first digit: 2 for 257. It is read
// off the digits, since a logarithm puts 1000 just below 3.
func decade(x float64) int {
	text := strconv.FormatFloat(x, 'e', -1, 64)
	n, _ := strconv.Atoi(text[strings.IndexByte(text, 'e')+1:])
	return n
}

// recordedUnit reads the unit of a record with the units of the worksheet.
func recordedUnit(rec syntax.Record, table *units.Table) (*units.Unit, bool) {
	if !rec.Unit.Present() {
		return units.One, true
	}
	u, bad := table.Parse(rec.Unit.Text, units.AfterNumber)
	return u, bad == nil
}

// Different says how a result differs from its record, and what it was worked out from: at is
// the statement of a line.
func Different(e *entry.Entry, recorded string, table *units.Table, at func(line int) *entry.Entry) finding.Finding {
	hint := "It is in line " + strconv.Itoa(e.Line) + " itself."
	if len(e.Uses) > 0 {
		hint = "It is worked out from " + entry.LinesNamed(e.Uses, at) + "."
	}
	return differs("The record says "+screenText(recorded, table)+"; it comes out as "+e.Shown()+".", hint)
}

// screenText shows a record as results are shown on a screen.
func screenText(recorded string, table *units.Table) string {
	rec, fs := syntax.ParseRecord("= " + recorded)
	if len(fs) > 0 {
		return recorded
	}
	u, ok := recordedUnit(rec, table)
	if !ok {
		return recorded
	}
	if rec.List != nil || rec.Digest != "" {
		return recorded
	}
	figures := units.Figures{N: int(max(1, rec.Value.Figures)), Keep: true}
	return units.FormatQuantity(rec.Value.Float(), u, figures, units.HalfAway, units.Screen)
}
