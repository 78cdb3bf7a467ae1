package advise

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
)

// otherUnit is a symbol of a unit that is taken for another one.
type otherUnit struct {
	written, name, meant string
}

// quantityOf returns the kind of quantity that a name says, as far as it is one
// of those whose units are mistaken, with the symbols that are taken for its
// units (symbols of ISO 80000-3 and -5).
func quantityOf(name string) (string, []otherUnit) {
	heat := []otherUnit{{"C", "the coulomb", "°C"}, {"F", "the farad", "°F"}}
	time := []otherUnit{{"S", "the siemens", "s"}, {"H", "the henry", "h"}}
	length := []otherUnit{{"M", "the molar", "m"}}
	plain := strings.ToLower(strings.TrimRight(name, "0123456789'′"))
	switch s := eval.Stem(name); {
	case s == "T":
		return "a temperature", append(heat, time[0])
	case s == "θ", strings.HasPrefix(plain, "temp"):
		return "a temperature", heat
	case s == "t", s == "Δt", strings.HasPrefix(plain, "time"), strings.HasPrefix(plain, "period"):
		return "a time", time
	}
	switch eval.Stem(name) {
	case "l", "L", "x", "y", "h", "d", "r", "R", "s":
		return "a length", length
	}
	switch plain {
	case "length", "height", "distance", "width", "depth", "radius", "diameter":
		return "a length", length
	}
	return "", nil
}

// mistakenUnit cautions where the name of a given says one quantity and the
// symbol of its unit another: T = 20 C.
func mistakenUnit(l *eval.Line, s *syntax.Define) {
	q, ok := s.X.(*syntax.Quantity)
	if !ok {
		return
	}
	kind, others := quantityOf(s.Name)
	for _, o := range others {
		if q.Unit.Text != o.written {
			continue
		}
		if o.meant == "s" {
			kind = "a time"
		}
		reading := q.Value.Text + " " + o.meant
		f := finding.New(finding.TwoReadings, q.At, o.written+" is "+o.name+"; "+s.Name+" is "+kind+" by its name.",
			"If "+kind+" is meant, write `"+reading+"`.", reading)
		f.Severity = finding.Caution
		l.Find(f)
		return
	}
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
