package reading

import (
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/units"
	"steelyard/units/writing"
)

// powered looks at a line that is refused for a name with a digit that may be a power:
// F = mv2/r where v is given. If the line makes sense with a power, that is offered; with a
// power of what has no value, where the line makes none without.
//
// v2 is the second speed in one book and v² that has lost its sign in a copied text. Both are
// named; the power only where the line makes sense with it.
func (s *settler) powered(without *missing) (finding.Finding, bool) {
	p, ok := syntax.DigitPowers(s.Entry.Text, valued{&s.scope}, units.IsSymbol)
	if !ok {
		return finding.Finding{}, false
	}
	open := syntax.OpenIn(p.Text, nil, &s.scope)
	var all []weighed
	for _, r := range append([]syntax.Reading{{Text: p.Text}}, open.Readings[:min(len(open.Readings), mostMissing)]...) {
		if w := s.weigh(r); s.makesSense(r.Text) && !w.among(all) {
			all = append(all, w)
		}
	}
	var with missing
	if with.lines = s.offers(all); len(with.lines) == 0 && without.lines == nil {
		s.missing(p.Text, false, &with)
		with.lines = slices.DeleteFunc(with.lines, s.wrong)
	}
	if equation := syntax.OpenEquation(p.Equation, false, &s.scope); len(with.lines) == 0 && p.Equation != "" && equation.Equation {
		if v := s.verdict(&equation); len(v.Findings) > 0 {
			with.lines = v.Findings[0].Readings
		}
	}
	if len(with.lines) == 0 {
		return finding.Finding{}, false
	}
	hint := "For a power, write " + p.Base + "^" + p.Name[len(p.Base):] + "."
	if len(with.symbols) > 0 {
		hint += " Give " + writing.List(with.symbols, "and") + " a value first."
	} else {
		hint += " Or give " + p.Name + " a value first."
	}
	f := finding.New(finding.UnknownName, p.At, p.Name+" has no value.", hint)
	f.Lines = with.lines
	return f, true
}
