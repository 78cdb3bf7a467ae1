package reading

import (
	"steelyard/lang/syntax"
	"steelyard/session/eval"
	"steelyard/units"
)

// withUnits are the readings in which a number at the start or the end of a product
// has the unit that it seems to lack, if the line then is the first quantity that
// its symbol is used for: x = 5*t is (5 m/s)*t.
//
// The number in x = 5*t lacks its unit more often than x is meant to be 5 seconds.
func (s *settler) withUnits(all []weighed) []weighed {
	for i := range all {
		if all[i].sense == fitting {
			return nil
		}
	}
	var out []weighed
	for i := range all {
		d, ok := all[i].stmt.(*syntax.Define)
		if !ok || !units.Speaks(d.Name) {
			continue
		}
		for _, n := range syntax.EdgeNumbers(d.X) {
			for _, unit := range eval.PlainUnits {
				text := all[i].Text[:n.At.From] + "(" + n.Value.Text + " " + unit + ")" + all[i].Text[n.At.To:]
				w := s.weigh(syntax.Reading{Text: text, Units: all[i].Units})
				if w.sense == fitting && s.usually(d.Name, w.dim) && !w.among(out) {
					out = append(out, w)
				}
			}
		}
	}
	return out
}

// usually tells whether a quantity is the one that a symbol is used for first.
//
// T is a period first, then a temperature, then a tension: the table of customs has them in
// that order.
func (s *settler) usually(name string, dim units.Dim) bool {
	u, bad := s.Planner.Units.Parse(units.Usual(name), units.AloneInPlace)
	return bad == nil && u.Dim() == dim
}
