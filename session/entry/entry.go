// Package entry holds what became of a statement: the Entry that the scratchpad
// makes of each line. It is all that a view may know of a session: a view reads
// an Entry, and neither evaluates nor asks the scratchpad. The package itself
// works nothing out.
package entry

import (
	"steelyard/lang/finding"
	"steelyard/lang/syntax"
)

// Entry is one statement and all that became of it.
type Entry struct {
	// Line is the number that findings, v@12 and JSON use: the statement's
	// place in a scratchpad, its text line in a replayed file.
	Line int
	// Text is the statement as it was written, its indented lines included,
	// without records; one that failed keeps them at its end.
	Text string
	// Stmt is the statement read, or nil if it can't be read.
	Stmt syntax.Stmt
	// Outcome is what the statement came to; nil if there is nothing to show,
	// as for a note, a definition of a function or a line that failed.
	Outcome Outcome
	// Findings are in the order they were found.
	Findings []finding.Finding
	// Uses are the lines whose values this entry uses directly, ascending.
	Uses []int
	// By knows how the entry was worked out; nil if it was not.
	By Worker
}

// Worker tells how an entry was worked out. A line does not pay for its working:
// it is made when someone asks, with the names and functions as they were for
// that line.
type Worker interface {
	// Working returns the worked lines of an entry; of a statement with several
	// values only those of one name, unless the name is empty.
	Working(e *Entry, name string) []WorkLine
	// Asides returns what is said beside the working: which other roots there are,
	// and where roots were searched for.
	Asides() []Said
}

// Working returns the worked lines of the statement: its equation, the
// rearrangement, the values put in with their units, and the result. It is empty
// where there is nothing to work out.
func (e *Entry) Working() []WorkLine {
	if e.By == nil {
		return nil
	}
	return e.By.Working(e, "")
}

// Asides returns what is said beside the working.
func (e *Entry) Asides() []Said {
	if e.By == nil {
		return nil
	}
	return e.By.Asides()
}

// Result returns the outcome of a statement that has values, else nil.
func (e *Entry) Result() *Result {
	r, _ := e.Outcome.(*Result)
	return r
}

// Values returns the quantities that the statement gives, in order; none for a
// statement without a value or one that could not be worked out.
func (e *Entry) Values() []Value {
	if r := e.Result(); r != nil {
		return r.Values
	}
	return nil
}

// Records tells whether a worksheet keeps a record of the values.
func (e *Entry) Records() bool {
	r := e.Result()
	return r != nil && r.Records
}

// Give adds a value to those that the statement gives.
func (e *Entry) Give(v Value) *Result {
	r := e.Result()
	if r == nil {
		r = &Result{}
		r.Values = r.one[:0]
		e.Outcome = r
	}
	r.Values = append(r.Values, v)
	return r
}

// Refusals counts the findings that refuse the line or its unit.
func (e *Entry) Refusals() (n int) {
	for i := range e.Findings {
		if e.Findings[i].Severity <= finding.Mismatch {
			n++
		}
	}
	return n
}

// Refusal is the first finding that refuses the line, or nil: not that a line above, which
// it needs, has failed.
func (e *Entry) Refusal() *finding.Finding {
	for i := range e.Findings {
		if f := &e.Findings[i]; f.Severity <= finding.Mismatch && f.ID != finding.NotWorkedOut {
			return f
		}
	}
	return nil
}

// Failed tells whether the statement could not be read or worked out; a
// worksheet keeps such a line as a remark.
func (e *Entry) Failed() bool {
	for i := range e.Findings {
		switch e.Findings[i].Severity {
		case finding.Error:
			return true
		case finding.Mismatch:
			if e.Result() == nil {
				return true
			}
		}
	}
	return false
}

// Named tells whether the statement begins NAME =, so that its result is written
// under that sign.
func (e *Entry) Named() bool {
	switch e.Stmt.(type) {
	case *syntax.Define, *syntax.FuncDef:
		return true
	}
	return false
}

// NamesValues tells whether each value is written with its name: where there are several, or
// the line does not say which name gets one.
func (e *Entry) NamesValues() bool {
	s, ok := e.Stmt.(*syntax.Solve)
	return len(e.Values()) > 1 || ok && s.Alone
}
