package plan

import (
	"math"
	"strconv"
	"unicode"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// givenAngle cautions where the argument of sin, cos or tan is a name customary
// for an angle that a line gives as a plain number beyond a turn, as in α = 30.
func (c *coder) givenAngle(x syntax.Expr) {
	n, ok := unbracket(x).(*syntax.Name)
	if !ok || c.param(n.Name) != nil || !angleName(n.Name) {
		return
	}
	d, ok := c.lookup(n)
	if !ok || d.Failed() || d.Exponent == nil || d.Kind != Quantity || math.Abs(d.Exponent.Float()) <= 2*math.Pi {
		return
	}
	if st := c.p.Static(d.Slot); st.Tag != units.None {
		return
	}
	number := strconv.FormatFloat(d.Exponent.Float(), 'f', -1, 64)
	f := finding.New(finding.TwoReadings, n.At, n.Name+" is the plain number "+number+" (line "+itoa(d.Line)+"), and is read as "+number+" rad.",
		"For degrees write `"+n.Name+" = "+number+"°` in line "+itoa(d.Line)+", or `"+number+"°` here.", number+"°")
	f.Severity = finding.Caution
	c.findings = append(c.findings, f)
}

// angleName tells whether a name is customary for an angle (ISO 80000-3, 3-5):
// α, β, θ, φ and angle, with or without a subscript.
func angleName(name string) bool {
	rs := []rune(name)
	switch rs[0] {
	case 'α', 'β', 'θ', 'φ':
		return len(rs) == 1 || !unicode.IsLetter(rs[1])
	}
	return name == "angle" || len(rs) > 5 && string(rs[:5]) == "angle" && !unicode.IsLetter(rs[5])
}
