package solve

import (
	"math"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/run"
)

// wholeStretches says that all numbers of some stretches satisfy an equation, and
// which single ones do beside them.
func (v *solving) wholeStretches(also []solution) finding.Finding {
	name := v.s.Unknowns[0].Name
	var parts []string
	for _, x := range v.within.Stretches {
		parts = append(parts, "every "+v.stretch(name, x))
	}
	message := strings.ToUpper(parts[0][:1]) + parts[0][1:]
	for _, part := range parts[1:] {
		message += " and " + part
	}
	message += " solves the equation."
	if len(also) > 0 {
		message += " So does " + v.list(also) + "."
	}
	return finding.New(finding.WhichRoot, v.s.Unknowns[0].NameAt, message, "If one value is meant, give it in a line of its own: "+name+" = ….")
}

// stretch is the numbers of a stretch in words: w ≥ 3.
func (v *solving) stretch(name string, x run.Stretch) string {
	u, b := v.solutionUnit(0, v.statics[0]), v.bounds()
	sign := map[bool]string{true: "≤", false: "<"}
	lo, hi := math.IsInf(x.Lo, 0), math.IsInf(x.Hi, 0)
	far := ""
	if !v.within.Whole && (x.Hi == v.within.Hi && math.IsInf(b.hi, 0) || x.Lo == v.within.Lo && math.IsInf(b.lo, 0)) {
		far = " (what lies beyond is not settled)"
	}
	switch {
	case lo && hi:
		return name
	case lo:
		return name + " " + sign[x.WithHi] + " " + v.ShownIn(x.Hi, u)
	case hi:
		return name + " " + map[bool]string{true: "≥", false: ">"}[x.WithLo] + " " + v.ShownIn(x.Lo, u)
	}
	return name + " with " + v.ShownIn(x.Lo, u) + " " + sign[x.WithLo] + " " + name + " " + sign[x.WithHi] + " " + v.ShownIn(x.Hi, u) + far
}
