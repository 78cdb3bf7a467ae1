package main

import (
	"bufio"

	"steelyard/session/view"
	"steelyard/session/worksheet"
)

// runReplay works worksheets out again and compares every result with its
// record.
func runReplay(w *world, args []string) int {
	var o worksheet.Options
	json := false
	files, problem := readOptions(args, []option{
		{name: "with", takes: "'NAME = VALUE'", set: func(text string) { o.With = append(o.With, text) }},
		{name: "record", set: func(string) { o.Record = true }},
		{name: "strict", set: func(string) { o.Strict = true }},
		{name: "json", set: func(string) { json = true }},
	})
	switch {
	case problem != "":
		return w.usage("replay", problem)
	case len(files) == 0:
		return w.usage("replay", "name a worksheet, such as examples/pinball-plunger.worked.")
	case o.Record && len(o.With) > 0:
		return w.usage("replay", "--record and --with don't go together: --with shows what would be.")
	}
	out := bufio.NewWriter(w.stdout)
	status := statusHolds
	show := func(r *worksheet.Report) {
		status = max(status, r.Status())
		switch {
		case json:
			r.JSON(out)
		case r.Problem != nil:
			// The other files are reported all the same, in their order.
			out.Flush()
			r.Text(w.stderr, view.Options{Width: w.width})
		default:
			r.Text(out, view.Options{Bold: w.bold, Width: w.width, ASCII: w.ascii})
		}
	}
	replay := func(path string) *worksheet.Report { return worksheet.ReplayFile(w.ctx, path, o) }
	if o.Record {
		files = distinct(files)
	}
	replayAll(w.ctx, files, replay, func(r *worksheet.Report) {
		if problem := alone(r.Path, func() { show(r) }); problem != nil {
			show(&worksheet.Report{Path: r.Path, Problem: problem})
		}
	})
	if out.Flush() != nil {
		return w.unwritten()
	}
	return status
}
