package reading

import "steelyard/lang/syntax"

// turned puts what may count turns as well as radians written both ways in the place of
// such a reading: T = (1 rev)/(2*n), for which T = 1/(2*n) would be asked.
func (s *settler) turned(all []weighed) []weighed {
	var out []weighed
	for i := range all {
		w := &all[i]
		x, in, ok := s.result(w.stmt)
		if !ok || !w.turns {
			out = append(out, *w)
			continue
		}
		got := s.Try(s.Counted(x, in))
		f, open := s.TurnsIn(got.Static, s.Page.Unit(in), x)
		if !got.OK || !open {
			out = append(out, *w)
			continue
		}
		for _, r := range f.Readings {
			out = append(out, s.weigh(syntax.Reading{Text: w.Text[:f.At.From] + r + w.Text[f.At.To:], Units: w.Units}))
		}
	}
	return out
}
