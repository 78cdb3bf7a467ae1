package reading

import (
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
	"steelyard/units/writing"
)

// constantsBefore offers the constants of nature that a line lacks as a line before it, where the
// line is what its symbol is used for then: F = G*M*m/r^2 is a force, and E = h*c/λ an energy.
//
// The same letters stand for much else, c for a specific heat and R for a radius; then what comes
// out is no energy or pressure, and nothing is offered.
func (s *settler) constantsBefore() (finding.Finding, bool) {
	open, symbols := syntax.OpenLacking(s.Entry.Text, valued{&s.scope}, units.IsSymbol)
	isConstant := func(name string) bool { _, ok := units.LookupConstant(name); return ok }
	if !slices.ContainsFunc(symbols, isConstant) {
		return finding.Finding{}, false
	}
	for _, r := range append([]syntax.Reading{{Text: s.Entry.Text}}, open.Readings[:min(len(open.Readings), maxOffers)]...) {
		names, words := s.constantsOf(r)
		if len(names) == 0 {
			continue
		}
		line := "constants " + strings.Join(names, ", ") + "\n" + r.Text
		if e := s.try(line, true); worst(e) > finding.Mismatch && s.asUsual(e) {
			return s.whole(finding.UnknownName, noValue(names)+".", "For "+writing.List(words, "and")+", begin with `constants`.", line), true
		}
	}
	return finding.Finding{}, false
}

// constantsOf are the constants of nature without a value that a reading has, and what they are
// called.
func (s *settler) constantsOf(r syntax.Reading) (names, words []string) {
	stmt := s.read(&r)
	if stmt == nil {
		return nil, nil
	}
	for n := range syntax.Each[*syntax.Name](s.claimOf(stmt).of...) {
		if k, ok := units.LookupConstant(n.Name); ok && n.Line == 0 && !(valued{&s.scope}).Known(n.Name) && !slices.Contains(names, n.Name) {
			names, words = append(names, n.Name), append(words, "the "+k.Name)
		}
	}
	return names, words
}

// asUsual tells whether what an entry gives a value is a quantity that its symbol is used for.
func (s *settler) asUsual(e *entry.Entry) bool {
	values := e.Values()
	return len(values) > 0 && !slices.ContainsFunc(values, func(v entry.Value) bool { return !units.Customary(v.Name, v.Dim) })
}
