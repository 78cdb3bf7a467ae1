package worksheet

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/live"
	"steelyard/units"
)

func itoa(n int) string { return strconv.Itoa(n) }

// usualFigures is how many figures of a result are compared where no setting
// says otherwise.
const usualFigures = 6

// compareAll compares every result with its record, from the top, so that a
// difference that only follows from one above is known as such.
func compareAll(s *Sheet, rows []Row, table *units.Table) {
	unlike := map[int]bool{} // lines
	for i := range rows {
		r := &rows[i]
		r.compare(s.Statements[r.at].records, table)
		if r.state != differs && r.state != unkept {
			for _, l := range r.Entry.Uses {
				// An unrecorded result hands a difference on.
				if unlike[l] && r.state != agrees {
					unlike[r.Entry.Line] = true
				}
			}
			continue
		}
		for _, l := range r.Entry.Uses {
			if unlike[l] && r.state == differs {
				r.state = follows
			}
		}
		unlike[r.Entry.Line] = true
		if r.state == differs {
			r.Entry.Findings = append(r.Entry.Findings, differing(r, rows, table))
		}
	}
}

// compare settles how the records of a statement stand to its value.
func (r *Row) compare(records []recordLine, table *units.Table) {
	e := r.Entry
	if len(records) == 0 {
		if e.Records() && len(e.Values()) > 0 {
			r.state = unrecorded
		}
		return
	}
	r.recorded = strings.TrimSpace(strings.TrimPrefix(records[0].Text, "="))
	if several(e.Stmt) && (len(records) > 1 || e.NamesValues()) {
		r.compareSeveral(records, table)
		return
	}
	if len(records) > 1 {
		r.stray("Line "+itoa(records[1].Line)+" is a second result of this statement.", "Keep one of the lines.")
		return
	}
	if !e.Records() && len(e.Values())+len(e.Findings) > 0 && !e.Failed() || !canRecord(e) {
		r.stray("Line "+itoa(records[0].Line)+" is a result, and this statement has none.", "Take that line out.")
		return
	}
	if len(e.Values()) == 1 && r.recorded == e.Values()[0].Shown(units.File) {
		r.state = agrees // to the letter: no need to read it
		return
	}
	rec, fs := syntax.ParseRecord(records[0].Text)
	if len(fs) > 0 {
		r.state = unkept
		e.Findings = append(e.Findings, recordFinding("The record in line "+itoa(records[0].Line)+" can't be read: "+fs[0].Message,
			"`steelyard replay --record` writes it again."))
		return
	}
	if len(e.Values()) == 0 {
		r.state = unkept
		if !e.Failed() {
			e.Findings = append(e.Findings, recordFinding("The record says "+screenText(r.recorded, table)+"; the statement has no value now.", ""))
		}
		return
	}
	r.state = differs
	if matches(&e.Values()[0], rec, table) {
		r.state = agrees
	}
}

// several tells whether a statement may give several values, which have a record each.
func several(s syntax.Stmt) bool {
	switch s.(type) {
	case *syntax.Solve, *syntax.Data, *syntax.Fit:
		return true
	}
	return false
}

// compareSeveral settles how the records of several unknowns stand to their
// values: one line each, with the name.
func (r *Row) compareSeveral(records []recordLine, table *units.Table) {
	texts := make([]string, len(records))
	for i, rec := range records {
		texts[i] = strings.TrimSpace(strings.TrimPrefix(rec.Text, "="))
	}
	r.recorded = strings.Join(texts, ", ")
	if len(r.Entry.Values()) == 0 {
		r.state = unkept
		return
	}
	r.state = differs
	if len(records) != len(r.Entry.Values()) {
		return
	}
	for i, rec := range records {
		got, fs := syntax.ParseRecord(rec.Text)
		v := &r.Entry.Values()[i]
		if len(fs) > 0 || got.Name != v.Name || !matches(v, got, table) {
			return
		}
	}
	r.state = agrees
}

// canRecord tells whether a statement is of a kind whose result is recorded.
func canRecord(e *entry.Entry) bool {
	if e.Stmt == nil {
		return true
	}
	return syntax.Records(e.Stmt) && (len(e.Values()) == 0 || e.Records())
}

func (r *Row) stray(message, hint string) {
	r.state = stray
	f := recordFinding(message, hint)
	f.ID, f.Severity = finding.StrayRecord, finding.StrayRecord.Severity()
	r.Entry.Findings = append(r.Entry.Findings, f)
}

func recordFinding(message, hint string) finding.Finding {
	return finding.New(finding.RecordDiffers, finding.Span{}, message, hint)
}

// matches compares a value with its record: the unit's text is equal, and each number
// is close. Of many values, their number and their digest are compared.
func matches(v *entry.Value, rec syntax.Record, table *units.Table) bool {
	u, ok := recordedUnit(rec, table)
	if !ok || !u.SameAs(v.Unit) {
		return false
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
		same := close
		if now[i].U > 0 || was[i].Off != nil {
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
func close(v *entry.Value, rec units.Decimal) bool {
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

// differing says how a result differs from its record, and what it was worked
// out from.
func differing(r *Row, rows []Row, table *units.Table) finding.Finding {
	now := live.Shown(r.Entry)
	hint := "It is in line " + itoa(r.Entry.Line) + " itself."
	if len(r.Entry.Uses) > 0 {
		hint = "It is worked out from " + entry.LinesNamed(r.Entry.Uses, func(line int) *entry.Entry {
			at, _ := slices.BinarySearchFunc(rows, line, func(r Row, line int) int { return r.Entry.Line - line })
			return rows[at].Entry
		}) + "."
	}
	return recordFinding("The record says "+screenText(r.recorded, table)+"; it comes out as "+now+".", hint)
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
