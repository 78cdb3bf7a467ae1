package solve

import (
	"math"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/run"
	"steelyard/units/writing"
)

// wholeStretches says that all numbers of some stretches satisfy an equation, and
// which single ones do beside them.
//
// A worksheet needs one number. max(w, 3) = w holds for every w from 3 on, and the line that
// picks one is offered.
func (v *solving) wholeStretches(also []solution) finding.Finding {
	var parts []string
	for i, x := range v.within.Stretches {
		if i == limit.Places {
			parts = append(parts, "every "+v.s.Unknowns[0].Name+" in further ranges")
			break
		}
		parts = append(parts, "every "+v.stretch(v.s.Unknowns[0].Name, x))
	}
	single := ""
	if len(also) > 0 {
		single = v.list(also).String()
	}
	return v.everyIn(parts, single)
}

// everyIn says that all numbers of some stretches satisfy an equation, and single ones
// beside them.
func (v *solving) everyIn(stretches []string, also string) finding.Finding {
	u := v.s.Unknowns[0]
	message := writing.List(stretches, "and") + " solves the equation."
	if also != "" {
		message += " So does " + also + "."
	}
	return finding.New(finding.WhichRoot, u.NameAt, strings.ToUpper(message[:1])+message[1:], "If you mean one value, give it its own line: "+u.Name+" = ….")
}

// atMost is the sign between the end of a stretch, if it belongs to it, and its numbers.
//
// An end at which the equation has no value, or does not hold, is left out by <.
func atMost(with bool) string {
	if with {
		return "≤"
	}
	return "<"
}

// stretch is the numbers of a stretch in words: w ≥ 3.
//
// Where a search ended at the end of its own range, that end is no property of the equation,
// and the sentence says that nothing is known beyond it.
func (v *solving) stretch(name string, x run.Stretch) string {
	u, b := v.solutionUnit(0, v.statics[0]), v.bounds()
	lo, hi := math.IsInf(x.Lo, 0), math.IsInf(x.Hi, 0)
	far := ""
	if !v.within.Whole && (x.Hi == v.within.Hi && math.IsInf(b.hi, 0) || x.Lo == v.within.Lo && math.IsInf(b.lo, 0)) {
		far = " (I couldn't tell what happens beyond that)"
	}
	switch {
	case lo && hi:
		return name
	case lo:
		return name + " " + atMost(x.WithHi) + " " + v.ShownIn(x.Hi, u)
	case hi:
		return name + " " + map[bool]string{true: "≥", false: ">"}[x.WithLo] + " " + v.ShownIn(x.Lo, u)
	}
	if x.Loose {
		return name + " between " + v.ShownIn(x.Lo, u) + " and " + v.ShownIn(x.Hi, u) + far
	}
	return name + " with " + v.ShownIn(x.Lo, u) + " " + atMost(x.WithLo) + " " + name + " " + atMost(x.WithHi) + " " + v.ShownIn(x.Hi, u) + far
}
