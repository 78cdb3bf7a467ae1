package entry

import (
	"strings"

	"steelyard/units"
)

// Shown is what a statement comes to, as printed, where that can move or differ from a
// record: its values, or whether its check holds.
func (e *Entry) Shown() string {
	var s comesTo
	e.Visit(&s)
	return string(s)
}

// comesTo is an outcome in short. Figures and answers in words have no record.
type comesTo string

func (s *comesTo) Result(r *Result) {
	words := make([]string, len(r.Values))
	for i := range r.Values {
		if words[i] = r.Values[i].Shown(units.Screen); len(words) > 1 {
			words[i] = r.Values[i].Name + " = " + words[i]
		}
	}
	*s = comesTo(strings.Join(words, ", "))
}

func (s *comesTo) Verdict(v *Verdict) {
	*s = "does not hold"
	if v.Holds {
		*s = "holds"
	}
}

func (s *comesTo) Graph(*Graph)       {}
func (s *comesTo) Table(*Table)       {}
func (s *comesTo) Budget(*Budget)     {}
func (s *comesTo) Bars(*Bars)         {}
func (s *comesTo) Arrows(*Arrows)     {}
func (s *comesTo) Workings(*Workings) {}
func (s *comesTo) Lines(Lines)        {}
