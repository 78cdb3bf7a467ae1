package advise

import (
	"steelyard/lang/finding"
	"steelyard/lang/syntax"
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
	{"kWh", "the kilowatt hour", "kW", "a power"},
	{"kW", "the kilowatt", "kWh", "an energy"},
}

// mistakenUnit cautions where the name of a given customarily says one quantity
// and the symbol of its unit another: T = 20 C.
//
// T = 20 C is a charge of 20 coulombs by the rules. Only the name, which is used for temperatures
// and for no charge, tells that °C was meant.
func mistakenUnit(l *eval.Line, s *syntax.Define) {
	q, ok := s.X.(*syntax.Quantity)
	if !ok {
		return
	}
	for _, m := range mistaken {
		if q.Unit.Text != m.written || units.Customary(s.Name, units.Of(m.written).Dim()) || !units.Customary(s.Name, units.Of(m.meant).Dim()) {
			continue
		}
		reading := q.Value.Text + " " + m.meant
		f := finding.New(finding.TwoReadings, q.At, m.written+" is "+m.name+"; "+s.Name+" looks like "+m.kind+".",
			"For "+m.kind+", write `"+reading+"`.", reading)
		f.Severity = finding.Caution
		l.Find(f)
	}
}
