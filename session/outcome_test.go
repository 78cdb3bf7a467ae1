package session

import (
	"strings"

	"steelyard/session/entry"
	"steelyard/session/view"
)

// told is what an entry says in words beside its values: the rows of an answer
// or of a working, what a result is beside another, what the curves of a graph
// are.
func told(e *entry.Entry) []string {
	switch o := e.Outcome.(type) {
	case *entry.Result:
		return entry.Texts(o.Notes)
	case *entry.Graph:
		return entry.Texts(o.Shapes)
	case entry.Lines:
		return entry.Texts(o)
	case *entry.Workings:
		var b strings.Builder
		if view.Text(&b, e, view.Options{Width: 1000}) != nil {
			return nil
		}
		rows := strings.Split(strings.TrimRight(b.String(), "\n"), "\n")
		for i := range rows {
			rows[i] = strings.TrimPrefix(rows[i], strings.Repeat(" ", 8))
		}
		return rows
	}
	return nil
}

// graphOf, tableOf and barsOf are the outcome of an entry, or nil if
// it has another.
func graphOf(e *entry.Entry) *entry.Graph {
	g, _ := e.Outcome.(*entry.Graph)
	return g
}

func tableOf(e *entry.Entry) *entry.Table {
	t, _ := e.Outcome.(*entry.Table)
	return t
}

func barsOf(e *entry.Entry) *entry.Bars {
	b, _ := e.Outcome.(*entry.Bars)
	return b
}
