package advise

import (
	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// mistaken are symbols of units that are taken for those of another quantity
// (SI Brochure 9, 2.3.4 and table 8, for the symbols).
var mistaken = [...]struct{ written, name, meant, kind string }{
	{"C", "the coulomb", "°C", "a temperature"},
	{"F", "the farad", "°F", "a temperature"},
	{"S", "the siemens", "s", "a time"},
	{"H", "the henry", "h", "a time"},
	{"M", "the molar", "m", "a length"},
}

// mistakenUnit cautions where the name of a given customarily says one quantity
// and the symbol of its unit another: T = 20 C.
func mistakenUnit(l *eval.Line, s *syntax.Define) {
	q, ok := s.X.(*syntax.Quantity)
	if !ok {
		return
	}
	for _, m := range mistaken {
		if q.Unit.Text != m.written || customary(s.Name, m.written) || !customary(s.Name, m.meant) {
			continue
		}
		reading := q.Value.Text + " " + m.meant
		f := finding.New(finding.TwoReadings, q.At, m.written+" is "+m.name+"; "+s.Name+" is "+m.kind+" by its name.",
			"If "+m.kind+" is meant, write `"+reading+"`.", reading)
		f.Severity = finding.Caution
		l.Find(f)
	}
}

// customary tells whether a name customarily stands for what a unit measures.
func customary(name, unit string) bool {
	u, bad := units.NewTable().Parse(unit, units.AloneInPlace)
	return bad == nil && units.Customary(name, u.Dim())
}

// unnamed cautions where a value has a dimension that no quantity has, and a
// written unit of the line is also a name.
func unnamed(l *eval.Line, x syntax.Expr, v *entry.Value) {
	if v.Quantity != "" || v.Dim.IsOne() || len(l.Entry.Findings) > 0 {
		return
	}
	if note := l.Planner.ReadAs(x, l.Entry.Text, v.Dim); note != "" {
		f := finding.New(finding.UnitOrName, x.Span(), "The value comes out in "+v.Unit.Screen()+", which is the unit of no named quantity.", note)
		f.Severity = finding.Caution
		l.Find(f)
	}
}
