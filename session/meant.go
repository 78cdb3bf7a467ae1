package session

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// inGravities finds an acceleration that is reported in g, as if the gram were
// a multiple of gravity.
func (w *work) inGravities(x syntax.Expr, in syntax.UnitText, message string, st run.Static) (finding.Finding, bool) {
	k, ok := units.KindOf(st.Dim, units.None)
	if in.Text != "g" || !ok || k.Name != "acceleration" {
		return finding.Finding{}, false
	}
	at := x.Span()
	text := w.e.Text[at.From:at.To]
	switch b := x.(type) {
	case *syntax.Unary:
		text = "(" + text + ")"
	case *syntax.Binary:
		if b.Op == syntax.Add || b.Op == syntax.Sub {
			text = "(" + text + ")"
		}
	}
	return finding.New(finding.UnitMismatch, at.Join(in.At), message,
		"g after `in` is the gram. To say how many times gravity it is, divide: `"+text+"/g`. Or report it in m/s².", text+"/g"), true
}

// formulaHint says what the formula of a line lacks, or has too many of, if the
// unit that the line is reported in is the right one.
func formulaHint(st run.Static, u *units.Unit) string {
	what := units.Missing(u.Dim(), st.Dim)
	if what == "" {
		return ""
	}
	square := " (a square left out?)."
	if strings.HasSuffix(what, "too many") {
		square = " (a square too many?)."
	}
	return " Or, if " + u.Screen() + " is right, look at the formula: " + what + square
}

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
	switch s := stem(name); {
	case s == "T":
		return "a temperature", append(heat, time[0])
	case s == "θ", strings.HasPrefix(plain, "temp"):
		return "a temperature", heat
	case s == "t", s == "Δt", strings.HasPrefix(plain, "time"), strings.HasPrefix(plain, "period"):
		return "a time", time
	}
	switch stem(name) {
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
func (w *work) mistakenUnit(s *syntax.Define) {
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
		w.find(f)
		return
	}
}
