package lab

import (
	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/session/eval"
)

// Columns puts lists beside each other, row by row.
func Columns(l *eval.Line, s *syntax.Columns) {
	of := s.Of
	if s.Against.X != nil {
		if !isList(l, s.Against.X) {
			rangeMissing(l, s.Against.X)
			return
		}
		of = append([]syntax.Curve{s.Against}, of...)
	}
	all := lists(l, of...)
	if all == nil {
		return
	}
	t := &entry.Table{Rows: make([][]entry.Cell, all[0].Static.Width)}
	for i, got := range all {
		v, ok := l.NewValue("", of[i].X, got.Slot, got.Unit)
		if !ok {
			return
		}
		t.Heads = append(t.Heads, entry.Head{Of: []syntax.Expr{of[i].X}, Unit: got.Unit})
		for k, one := range v.Elements() {
			t.Rows[k] = append(t.Rows[k], entry.Cell{Value: &one})
		}
	}
	l.Entry.Outcome = t
}

// unequal says that two lists have not the same number of values.
func unequal(a syntax.Expr, first eval.Got, b syntax.Expr, other eval.Got) finding.Finding {
	return plan.UnequalLists(a.Span().Join(b.Span()), typeset.Text(a), int(first.Static.Width), typeset.Text(b), int(other.Static.Width))
}
