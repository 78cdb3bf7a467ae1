package plan

import (
	"math"
	"strconv"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// givenAngle cautions where the argument of sin, cos or tan is a name customary
// for an angle that a line gives as a plain number beyond a turn, as in α = 30.
func (c *coder) givenAngle(x syntax.Expr) {
	n, ok := unbracket(x).(*syntax.Name)
	if !ok || c.param(n.Name) != nil || units.Usual(n.Name) != "rad" {
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
