package main

import (
	"bufio"

	"steelyard/session/view"
	"steelyard/session/worksheet"
)

// runReplay works worksheets out again and compares every result with its
// record.
func runReplay(w *world, g given, files []string) int {
	r := &replaying{w: w, out: bufio.NewWriter(w.stdout), json: g.has("json")}
	r.how = worksheet.Options{With: g["with"], Record: g.has("record"), To: g.value("output", ""), Strict: g.has("strict")}
	problem := sheetsNamed(files)
	switch {
	case problem != "":
	case r.how.To != "" && !(r.how.Record && len(r.how.With) > 0):
		problem = "-o names the worksheet that --record writes for other givens: it needs --record and --with."
	case r.how.To != "" && len(files) > 1:
		problem = "-o takes one worksheet."
	case r.how.Record && g.has("watch"):
		problem = "--record and --watch don't go together: a file that is open elsewhere is not written to."
	case namesStdin(files) && (r.how.Record && r.how.To == "" || g.has("watch")):
		problem = "--record and --watch need a file, and - is standard input."
	}
	if problem != "" {
		return w.usage("replay", problem)
	}
	if r.how.Record {
		files = distinct(files)
	}
	if !g.has("watch") {
		return r.all(files)
	}
	status, begun := statusHolds, false
	watch(w.ctx, files, func(changed []string) {
		if status = r.all(changed); !begun {
			w.complain("steelyard: waiting for a file to be saved; Ctrl-C ends.")
		}
		begun = true
	})
	return status
}

// replaying is one replay of worksheets.
type replaying struct {
	w    *world
	how  worksheet.Options
	out  *bufio.Writer
	json bool
	// unshown tells that something could not be printed.
	unshown bool
}

// all replays files and reports them in order.
func (r *replaying) all(files []string) int {
	status := statusHolds
	replayAll(r.w.ctx, files, r.one, func(report *worksheet.Report) {
		if problem := alone(report.Path, func() { r.show(report) }); problem != nil {
			report = &worksheet.Report{Path: report.Path, Problem: problem}
			r.show(report)
		}
		status = max(status, report.Status())
	})
	if r.out.Flush() != nil || r.unshown {
		return r.w.unwritten()
	}
	return status
}

// one replays a file.
func (r *replaying) one(file string) *worksheet.Report {
	sheet, problem := r.w.load(file)
	if problem != nil {
		return &worksheet.Report{Path: problem.Path, Problem: problem}
	}
	return worksheet.Replay(r.w.ctx, sheet, r.how)
}

// show prints what became of a file.
func (r *replaying) show(report *worksheet.Report) {
	var err error
	switch {
	case r.json:
		err = report.JSON(r.out)
	case report.Problem != nil:
		// The other files are reported all the same, in their order.
		r.out.Flush()
		err = report.Text(r.w.stderr, view.Options{Width: r.w.width})
	default:
		err = report.Text(r.out, view.Options{Bold: r.w.bold, Width: r.w.width, Folds: r.w.folds, ASCII: r.w.ascii})
	}
	r.unshown = r.unshown || err != nil
}
