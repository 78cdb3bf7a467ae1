// Package reading settles how a line is read that print leaves open: the line
// stands if its reading by the rules of the language makes better sense than every
// other; else it is refused, and the readings are offered as whole lines. Another
// reading is taken only where a line has no other that makes sense, and the line says so:
// E = mgh (asOnly), an equation with one symbol that has no value (solveAlone). It works
// no line out itself.
package reading

import (
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
	"steelyard/units"
)

// scope is what the readings of the next line depend on.
type scope struct {
	page    *eval.Page
	planner *plan.Planner // of the page
	but     string        // a word that is taken for no name
}

func scopeOf(p *eval.Page) scope { return scope{page: p, planner: p.Planner} }

// Known tells whether a word is a name of a quantity.
func (s scope) Known(name string) bool {
	if name == s.but && name != "" {
		return false
	}
	d, ok := s.planner.Names.Lookup(name)
	return ok && (d.Kind == plan.Quantity || d.Kind == plan.Symbol) && !(d.Failed() && s.isProduct(name)) || name == "g"
}

// isProduct tells whether a word is names that have values, one behind the other: the pV of a line
// that failed, once p and V are given.
func (s scope) isProduct(word string) bool {
	parts, lacking, ok := syntax.Apart(word, func(name string) bool { return name != word && (valued{&s}).Known(name) }, nil)
	return ok && len(parts) > 1 && len(lacking) == 0
}

// Function tells whether a word is a function of the worksheet.
func (s scope) Function(name string) bool {
	d, ok := s.planner.Names.Lookup(name)
	if ok {
		return d.Kind == plan.Function || d.Kind == plan.Formula
	}
	_, ok = s.planner.Library(name)
	return ok
}

// Number is the value of a name that is given as a plain number.
func (s scope) Number(name string) (float64, bool) {
	d, ok := s.planner.Names.Lookup(name)
	if !ok {
		return 0, false
	}
	return s.page.PlainNumber(d)
}

// Angle tells whether a name is an angle.
func (s scope) Angle(name string) bool {
	d, ok := s.planner.Names.Lookup(name)
	return ok && !d.Failed() && d.Kind == plan.Quantity && d.Slot >= 0 && s.planner.Static(d.Slot).Tag == units.Angle
}

// Turns tells whether the line of a name is in turns: rev, rev/min, rpm.
func (s scope) Turns(name string) bool {
	d, ok := s.planner.Names.Lookup(name)
	return ok && d.Unit != nil && d.Unit.Turns()
}

// Everyday tells whether a word of a unit is a common one.
func (s scope) Everyday(word string) bool { return s.planner.Units.Everyday(word) }

// IsUnit tells whether a text is a unit.
func (s scope) IsUnit(text string) bool {
	_, bad := s.planner.Units.Parse(text, units.AfterNumber)
	return bad == nil
}

// Measures tells whether a name is a quantity of a unit.
func (s scope) Measures(name, unit string) bool {
	d, ok := s.planner.Names.Lookup(name)
	u, bad := s.planner.Units.Parse(unit, units.AfterNumber)
	return ok && bad == nil && !d.Failed() && d.Kind == plan.Quantity && d.Slot >= 0 && s.planner.Static(d.Slot).Dim == u.Dim()
}

// Ways are the units that a text may mean which is none.
func (s scope) Ways(text string) []string {
	_, bad := s.planner.Units.Parse(text, units.AfterNumber)
	if bad == nil || bad.Kind != units.ProblemText {
		return nil
	}
	return bad.Readings
}

// Unit tells whether a text is the unit of a quantity that has a name.
func (s scope) Unit(text string) bool {
	u, bad := s.planner.Units.Parse(text, units.AfterNumber)
	if bad != nil {
		return false
	}
	_, ok := units.KindOf(u.Dim(), u.Tag())
	return ok
}
