package reading

import (
	"steelyard/lang/finding"
	"steelyard/lang/syntax"
)

// turned puts what may count turns as well as radians written both ways in the place of
// such a reading: T = (1 rev)/(2*n), for which T = 1/(2*n) would be asked. One that would
// be asked again, since a single factor is not enough, is left out.
//
// An offer that would be asked about again is no answer.
func (s *settler) turned(all []weighed) []weighed {
	if !anyTurns(all) {
		return all
	}
	var out []weighed
	for i := range all {
		w := &all[i]
		f, open := s.openTurns(w)
		if !open {
			out = append(out, *w)
			continue
		}
		for _, r := range f.Readings {
			one := s.weigh(syntax.Reading{Text: w.Text[:f.At.From] + r + w.Text[f.At.To:], Units: w.Units})
			if _, still := s.openTurns(&one); !still {
				out = append(out, one)
			}
		}
	}
	return out
}

func anyTurns(all []weighed) bool {
	for i := range all {
		if all[i].turns {
			return true
		}
	}
	return false
}

// openTurns finds what may count turns as well as radians in a reading.
func (s *settler) openTurns(w *weighed) (finding.Finding, bool) {
	x, in, ok := s.result(w.stmt)
	if !ok || !w.turns {
		return finding.Finding{}, false
	}
	name, _, _ := syntax.AsResult(w.stmt)
	if in.Present() {
		name = ""
	}
	return s.TurnsIn(name, s.Try(s.Counted(x, in)).Static, s.Page.Unit(in), x)
}
