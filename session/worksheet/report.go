package worksheet

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"steelyard/lang/finding"
	"steelyard/session/entry"
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
		switch row.State {
		case Agrees:
			t.agree++
		case Differs:
			t.differ++
		case Follows:
			t.follow++
		case Unrecorded:
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
	if r.Stopped {
		return faulty
	}
	for i := range r.Rows {
		row := &r.Rows[i]
		if worst, some := finding.Worst(row.Entry.Findings); some && worst.Fails() {
			return faulty
		}
		switch row.State {
		case Differs, Follows, Stray, Unkept:
			return faulty
		case Unrecorded:
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
		if row.Anew && r.Written {
			if err := r.rewritten(w, row, o); err != nil {
				return err
			}
			continue
		}
		if row.Was == "" && !row.tells() && !(r.strict && row.State == Unrecorded) {
			continue
		}
		if err := r.row(w, row, o); err != nil {
			return err
		}
	}
	_, err := fmt.Fprintln(w, writing.Clean(filepath.Base(r.Path), writing.Screen)+": "+r.summary()+".")
	return err
}

// tells tells whether a row has a finding that is more than a note.
func (row *Row) tells() bool {
	for _, f := range row.Entry.Findings {
		if f.Severity != finding.Note {
			return true
		}
	}
	return false
}

// row prints one statement with what is to be said of it.
func (r *Report) row(w io.Writer, row *Row, o view.Options) error {
	e := *row.Entry
	if r.strict && row.State == Unrecorded {
		f := finding.New(finding.Unrecorded, finding.Span{}, "This result has no record.", "`steelyard replay --record` writes it.")
		e.Findings = append(e.Findings[:len(e.Findings):len(e.Findings)], f)
	}
	if row.Was != "" {
		e.Outcome = entry.Lines{row.Was + " → " + arrived(shown(row.Entry))}
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
	e.Outcome = entry.Lines{"record: " + row.Recorded + " → " + strings.Join(now, ", ")}
	return view.Text(w, &e, o)
}

func arrived(now string) string {
	if now == "" {
		return "no value"
	}
	return now
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
	if len(r.With) > 0 {
		say(t.moved, "result moves", "results move")
		if t.moved == 0 {
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
	if r.Stopped {
		parts = append(parts, "stopped before the end")
	}
	if r.Written {
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
		extra := view.Replayed{File: r.Path, Recorded: row.Recorded}
		if row.State != Nothing && row.State != Unrecorded && len(r.With) == 0 {
			yes := row.State == Agrees
			extra.Agrees = &yes
		}
		if err := view.JSON(w, row.Entry, extra); err != nil {
			return err
		}
	}
	return nil
}
