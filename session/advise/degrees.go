package advise

import (
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
	"steelyard/units"
)

// degreesLeftOut cautions where an angle gets a plain number that is given in ° in a
// line above, or that a formula takes in °: θ = 45 below θ = 30°. A plain number is
// radians.
//
// 45 rad is a valid angle, so nothing fails by it: sin(45) is 0.85, near enough to sin(45°) to be
// taken for it. Only what other lines say of the angle shows the slip.
func degreesLeftOut(l *eval.Line, name string, x syntax.Expr, of *syntax.FormulaDef) {
	n, ok := syntax.Unbracket(x).(*syntax.Number)
	if !ok || n.Value.Hi == 0 || !units.Customary(name, units.Dim{}) {
		return
	}
	where := ""
	if of != nil {
		for _, s := range of.Symbols {
			if s.Name == name && s.Unit.Text == "°" {
				where = of.Name + " takes " + name + " in °."
			}
		}
	}
	for _, d := range l.Planner.Names.All() {
		if where == "" && d.Kind == plan.Quantity && d.Line < l.Entry.Line && d.Unit != nil && d.Unit.Text() == "°" && units.Symbol(d.Name) == units.Symbol(name) {
			where = d.Name + " (line " + strconv.Itoa(d.Line) + ") is in °."
		}
	}
	if where == "" {
		return
	}
	deg, rad := n.Value.Text+"°", n.Value.Text+" rad"
	l.Find(finding.New(finding.LackingUnit, n.At, n.Value.Text+" has no unit, so it is in radians; "+where,
		"Write `"+deg+"` or `"+rad+"`.", deg, rad))
}

// arguments looks for degrees left out in what a function of the page is called with.
//
// With the function R(v, θ) and θ = 30° above, R(20 m/s, 45) is asked about as θ = 45 is.
func arguments(l *eval.Line, c *syntax.Call) {
	switch c.Func {
	case "sin", "cos", "tan":
		fewDegrees(l, c.Args[0].X)
		return
	}
	d, ok := l.Planner.Names.Lookup(c.Func)
	if !ok || d.Kind != plan.Function {
		return
	}
	for i, a := range c.Args {
		if i < len(d.Func.Params) {
			degreesLeftOut(l, d.Func.Params[i], a.X, nil)
		}
	}
}

// fewDegrees cautions about the sine, cosine or tangent of 4, 5 or 6: the swing of a pendulum in
// degrees, and hardly an angle in radians, which nobody has in whole numbers.
//
// Numbers beyond a turn are asked about before the line is worked out (syntax.MayBeOpen); 1, 2
// and 3 may be radians.
func fewDegrees(l *eval.Line, x syntax.Expr) {
	few := func(v float64) bool { return v == 4 || v == 5 || v == 6 }
	switch x := syntax.Unbracket(x).(type) {
	case *syntax.Number:
		if text := x.Value.Text; few(x.Value.Float()) {
			l.Find(finding.New(finding.LackingUnit, x.At, text+" has no unit, so it is in radians.", "Write `"+text+"°` or `"+text+" rad`.", text+"°", text+" rad"))
		}
	case *syntax.Name:
		d, ok := l.Planner.Find(x)
		if !ok || !l.GivenNumber(d) {
			return
		}
		if v, _ := l.PlainNumber(d); few(v) && strings.HasPrefix(units.Usual(d.Name), "rad") {
			text := strconv.Itoa(int(v))
			l.Find(finding.New(finding.LackingUnit, x.At, d.Name+" (line "+strconv.Itoa(d.Line)+") has no unit, so it is in radians.",
				"Did you mean "+d.Name+" = "+text+"°?", d.Name+"*1°", d.Name+"*1 rad"))
		}
	}
}
