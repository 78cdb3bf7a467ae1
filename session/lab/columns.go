package lab

import (
	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/session/eval"
)

// Columns puts lists beside each other, row by row.
//
// What the rows are told by, after against, comes first as on paper. No range is asked for:
// the lists have one value for each row, and none between two of them is made up.
func Columns(l *eval.Line, s *syntax.Columns) {
	of := s.Of
	if s.Against.X != nil {
		if !l.IsList(s.Against.X) {
			rangeMissing(l, s.Against.X)
			return
		}
		of = append([]syntax.Curve{s.Against}, of...)
	}
	t := &entry.Table{}
	for i, c := range of {
		got := l.Eval(c.X, eval.Want{Lists: true, Shown: true, In: c.In})
		if !got.OK || got.Unit == nil {
			return
		}
		switch rows := got.Static.Len(); {
		case got.Static.Shape != run.List && got.Static.Shape != run.Vectors:
			l.Find(noReadings(c.X, got.Static, "here a list of readings is needed."))
			return
		case i == 0:
			t.Rows = make([][]entry.Cell, rows)
		case len(t.Rows) != rows:
			l.Find(unequal(of[0].X, len(t.Rows), c.X, rows))
			return
		}
		v, ok := l.NewValue("", c.X, got.Slot, got.Unit)
		if !ok {
			return
		}
		addColumns(t, c.X, v)
	}
	l.Entry.Outcome = t
}

// addColumns adds a list to a table; of vectors, a column for each component.
//
// The unit stands in the head once, and not in each cell.
func addColumns(t *entry.Table, x syntax.Expr, v entry.Value) {
	columns, heads := []entry.Value{v}, []entry.Head{{Of: []syntax.Expr{x}, Unit: v.Unit}}
	if v.List.Axes > 0 {
		columns, heads = nil, nil
		for k := range v.List.Axes {
			columns, heads = append(columns, v.Component(k)), append(heads, entry.Along(x, k, v.Unit))
		}
	}
	t.Heads = append(t.Heads, heads...)
	for _, column := range columns {
		for k, one := range column.Elements() {
			t.Rows[k] = append(t.Rows[k], entry.Cell{Value: &one})
		}
	}
}

// unequal says that two lists have not the same number of values.
func unequal(a syntax.Expr, first int, b syntax.Expr, other int) finding.Finding {
	return plan.UnequalLists(a.Span().Join(b.Span()), typeset.Text(a), first, typeset.Text(b), other)
}
