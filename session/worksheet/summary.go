package worksheet

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/session/entry"
	"steelyard/session/live"
	"steelyard/session/record"
	"steelyard/session/view"
	"steelyard/units"
	"steelyard/units/writing"
)

// The exit statuses of a replay.
const (
	holds   = 0
	faulty  = 1
	refused = 2
)

// tally counts what became of the statements of a sheet.
type tally struct {
	agree, differ, follow, unrecorded, moved, hold, fail, found int
}

func (r *Report) tally() tally {
	var t tally
	for i := range r.Rows {
		row := &r.Rows[i]
		switch row.state {
		case record.Agrees:
			t.agree++
		case record.Differs:
			t.differ++
		case record.Follows:
			t.follow++
		case record.Unrecorded:
			t.unrecorded++
		}
		if row.moved {
			t.moved++
		}
		if c, ok := row.Entry.Outcome.(*entry.Verdict); ok && c.Holds {
			t.hold++
		} else if ok {
			t.fail++
		}
		for _, f := range row.Entry.Findings {
			if f.ID != finding.RecordDiffers && f.ID != finding.CheckFailed && f.Severity != finding.Note {
				t.found++
			}
		}
	}
	return t
}

// Status is the exit status: 0 if all holds, 1 for a mismatch, a failed check, a
// difference or a line that fails, 2 for the file as a whole.
func (r *Report) Status() int {
	if r.Problem != nil {
		return refused
	}
	if r.stopped {
		return faulty
	}
	for i := range r.Rows {
		row := &r.Rows[i]
		if worst, some := finding.Worst(row.Entry.Findings); some && worst.Fails() {
			return faulty
		}
		switch row.state {
		case record.Differs, record.Follows, record.Stray, record.Unkept:
			return faulty
		case record.Unrecorded:
			if r.strict {
				return faulty
			}
		}
	}
	return holds
}

// Text writes the differences, the findings and a line for the file.
func (r *Report) Text(w io.Writer, o view.Options) error {
	if r.Problem != nil {
		_, err := fmt.Fprintln(w, r.Problem.Error())
		return err
	}
	o.Statement = true
	for i := range r.Rows {
		row := &r.Rows[i]
		if row.anew && r.written {
			if err := r.rewritten(w, row, o); err != nil {
				return err
			}
			continue
		}
		if row.was == "" && !row.tells() && !(r.strict && row.state == record.Unrecorded) {
			continue
		}
		if err := r.row(w, row, o); err != nil {
			return err
		}
	}
	_, err := fmt.Fprintln(w, writing.Clean(r.Path, writing.Screen)+": "+r.summary()+".")
	return err
}

// tells tells whether a row has a finding that is more than a note.
func (row *Row) tells() bool {
	return slices.ContainsFunc(row.Entry.Findings, func(f finding.Finding) bool { return f.Severity != finding.Note })
}

// row prints one statement with what is to be said of it.
func (r *Report) row(w io.Writer, row *Row, o view.Options) error {
	e := *row.Entry
	if r.strict && row.state == record.Unrecorded {
		f := finding.New(finding.Unrecorded, finding.Span{}, "This result has no record.", "`steelyard replay --record` writes it.")
		e.Findings = append(e.Findings[:len(e.Findings):len(e.Findings)], f)
	}
	if row.was != "" {
		e.Outcome = live.Arrow(row.was, row.Entry)
	}
	return view.Text(w, &e, o)
}

// rewritten prints a statement whose record was written anew: the old and the
// new.
func (r *Report) rewritten(w io.Writer, row *Row, o view.Options) error {
	now := make([]string, len(row.Entry.Values()))
	for i, v := range row.Entry.Values() {
		now[i] = v.Shown(units.File)
		if len(now) > 1 {
			now[i] = v.Name + " = " + now[i]
		}
	}
	e := *row.Entry
	e.Outcome = entry.Rows("record: " + row.recorded + " → " + strings.Join(now, ", "))
	return view.Text(w, &e, o)
}

// summary counts what became of the sheet.
func (r *Report) summary() string {
	t := r.tally()
	var parts []string
	say := func(n int, one, many string) {
		switch {
		case n == 1:
			parts = append(parts, "1 "+one)
		case n > 1:
			parts = append(parts, fmt.Sprintf("%d %s", n, many))
		}
	}
	if len(r.with) > 0 {
		say(t.moved, "result moves", "results move")
		if t.moved == 0 && !r.stopped {
			parts = append(parts, "nothing moves")
		}
	}
	say(t.agree, "result agrees", "results agree")
	say(t.differ, "result differs from its record", "results differ from their records")
	say(t.follow, "more differs because of that", "more differ because of that")
	say(t.unrecorded, "result without a record", "results without a record")
	say(t.hold, "check holds", "checks hold")
	say(t.fail, "check fails", "checks fail")
	say(t.found, "finding", "findings")
	if len(parts) == 0 {
		parts = append(parts, "nothing to compare")
	}
	if r.stopped {
		parts = append(parts, "stopped before the end")
	}
	if r.written {
		parts = append(parts, "records written")
	}
	return strings.Join(parts, ", ")
}

// JSON writes every statement as JSON Lines. A file that can't be replayed is
// one object with its problem.
func (r *Report) JSON(w io.Writer) error {
	if r.Problem != nil {
		return view.ProblemJSON(w, r.Path, r.Problem.Line, string(r.Problem.ID), r.Problem.Message, r.Problem.Hint)
	}
	for i := range r.Rows {
		row := &r.Rows[i]
		extra := view.Replayed{File: r.Path, Recorded: row.recorded}
		if row.state != record.Nothing && row.state != record.Unrecorded && len(r.with) == 0 {
			yes := row.state == record.Agrees
			extra.Agrees = &yes
		}
		if err := view.JSON(w, row.Entry, extra); err != nil {
			return err
		}
	}
	return nil
}
