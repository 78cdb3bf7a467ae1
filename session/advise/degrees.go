package advise

import (
	"strconv"

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
