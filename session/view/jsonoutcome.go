package view

import (
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// filler fills in the fields of an object that its outcome has.
type filler struct{ o *object }

// workObject is one line of a working in JSON. Expressions can be typed back.
type workObject struct {
	Line    int     `json:"line"`
	Formula string  `json:"formula,omitempty"`
	Words   string  `json:"words,omitempty"`
	Left    string  `json:"left,omitempty"`
	Right   string  `json:"right,omitempty"`
	Value   *number `json:"value,omitempty"`
	Shown   string  `json:"shown,omitempty"`
	Units   string  `json:"units,omitempty"`
	Reason  string  `json:"reason,omitempty"`
}

// Result fills in what a value is beside another; the values themselves have an
// object each.
func (f filler) Result(r *entry.Result) { f.o.Told = entry.Texts(r.Notes) }

// Verdict fills in whether a check holds.
func (f filler) Verdict(c *entry.Verdict) { f.o.Holds = &c.Holds }

// Lines fills in the rows of an answer.
func (f filler) Lines(rows entry.Lines) { f.o.Told = entry.Texts(rows) }

// Workings fills in the lines of a working, each with the line that it works out.
func (f filler) Workings(w *entry.Workings) {
	for _, one := range w.Of {
		for i := range one.Lines {
			f.o.Working = append(f.o.Working, workLine(one.Line, &one.Lines[i]))
		}
	}
}

// workLine is one line of a working.
func workLine(line int, l *entry.WorkLine) workObject {
	o := workObject{
		Line: line, Formula: l.Formula, Words: l.Words.String(), Left: syntax.PrintExpr(l.Left), Right: syntax.PrintExpr(l.Right),
		Units: entry.Cancelled(l.Units), Reason: l.Reason.String(),
	}
	if v := l.Shown; v != nil {
		si := number(v.SI + 0) // minus zero is zero
		o.Value, o.Shown = &si, v.Shown(units.File)
	}
	return o
}
