package advise

import (
	"math"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

func within1Percent(a, b float64) bool { return math.Abs(a-b) < 0.01*math.Abs(b) }

// rateWithout2Pi cautions where the line itself shows that a rate in radians per
// second stands for a frequency, or the time for a radian for a period.
//
// f and ω have the same dimension, 1/s, so that the factor 2π between them is lost without a
// trace. What the line says itself tells: its name, its `in`, or how it is worked out.
func rateWithout2Pi(l *eval.Line, name string, x syntax.Expr, in syntax.UnitText, v *entry.Value, f *factors) {
	if v.Named || len(l.Entry.Findings) > 0 && l.Entry.Failed() {
		return
	}
	switch {
	case v.Dim == units.BaseDim(units.Second):
		if isPeriod(name) {
			radianForPeriod(l, x, f)
		}
	case in.Present() && v.Unit.Tag() == units.Cycle && isRate(v.Dim):
		radiansForCycles(l, x, f, v.Unit)
	case !in.Present() && isRate(v.Dim) && units.Usual(name) == "Hz":
		radiansForCycles(l, x, f, units.Of("Hz"))
	case in.Present() && v.Unit.Tag() == units.Angle && isRate(v.Dim):
		turnsForRadians(l, x, f)
	case f.root == nil && f.n == 2:
		cyclesForRadians(l, x, f)
	}
}

func isRate(d units.Dim) bool {
	return d == units.Dim{}.Div(units.BaseDim(units.Second))
}

func isPeriod(name string) bool {
	return units.Symbol(name) == "T" || strings.HasPrefix(name, "period")
}

// radianForPeriod finds T = 1/ω, whatever the rate is called, and T = √(m/k).
//
// 1/ω is the time for a radian, a sixth of a period; T = 1/f is right.
func radianForPeriod(l *eval.Line, x syntax.Expr, f *factors) {
	if f.number != 1 {
		return
	}
	if text := syntax.PrintExpr(x); f.n == 0 && f.root != nil && squareOfRate(l, f.root, !f.over) {
		l.Find(finding.New(finding.RateWithout2Pi, x.Span(), "`"+text+"` is the time for one radian; a period is 2π times as long.",
			"Write `2π*"+text+"` for the period.", "2π*"+text))
		return
	}
	of, e := f.sole()
	if e != -1 || !isRadians(l, of) {
		return
	}
	l.Find(finding.New(finding.RateWithout2Pi, x.Span(), "1/"+of+" is the time for one radian; a period is 2π times as long.",
		"Write `2π/"+of+"` for the period.", "2π/"+of))
}

// radiansForCycles finds √(k/m), 2π*f and ω reported in Hz.
//
// √(k/m) in Hz would be read as cycles, though it counts radians: the value is 6.28 times too
// great. 2π*f in Hz is the same slip from the other side.
func radiansForCycles(l *eval.Line, x syntax.Expr, f *factors, u *units.Unit) {
	of, e := f.sole()
	hint, reading := "", ""
	switch {
	case f.root != nil && f.n == 0 && !within1Percent(f.number, 1/(2*math.Pi)) && squareOfRate(l, f.root, f.over),
		e == 1 && f.number == 1 && isRadians(l, of):
		hint, reading = "Divide by 2π for a frequency: `…`. Or report it in rad/s.", syntax.PrintExpr(x)+"/(2π)"
	case f.number == 1 && speedOverRadius(f):
		hint, reading = "Divide by 2π for turns per time: `…`. Or report it in rad/s.", syntax.PrintExpr(x)+"/(2π)"
	case within1Percent(f.number, 2*math.Pi) && (e == -1 || e == 1 && countsCycles(l, of)):
		hint, reading = "For a frequency, take 2π out: `…`. Or report it in rad/s.", of
		if e == -1 {
			reading = "1/" + of
		}
	default:
		return
	}
	message := "`" + syntax.PrintExpr(x) + "` is in radians per second; " + u.Screen() + " counts cycles of 2π radians."
	l.Find(finding.New(finding.RateWithout2Pi, x.Span(), message, strings.Replace(hint, "…", reading, 1), reading))
}

// speedOverRadius tells whether a product is a speed over a radius.
func speedOverRadius(f *factors) bool {
	if f.root != nil || f.n != 2 {
		return false
	}
	speed, radius := false, false
	for _, p := range f.names[:f.n] {
		speed = speed || p.exp == 1 && is(p.name, "v u")
		radius = radius || p.exp == -1 && is(p.name, "r R")
	}
	return speed && radius
}

// cyclesForRadians finds A*f for the greatest speed of an oscillation and A*f^2 for its
// greatest acceleration, which are A*ω and A*ω^2 with ω = 2π*f.
//
// The amplitude tells that an oscillation is meant, A by its symbol and a length by its unit; the
// number of it that has a frequency in it is v = 2π*A*f, and a = A*(2π*f)^2.
func cyclesForRadians(l *eval.Line, x syntax.Expr, f *factors) {
	amplitude, rate := f.names[0], f.names[1]
	if !is(amplitude.name, "A") {
		amplitude, rate = rate, amplitude
	}
	if !is(amplitude.name, "A") || amplitude.exp != 1 || kindOfName(l, amplitude.name) != "length" || !countsCycles(l, rate.name) {
		return
	}
	switch {
	case rate.exp == 1 && f.number == 1:
		reading := "2π*" + amplitude.name + "*" + rate.name
		l.Find(finding.New(finding.RateWithout2Pi, x.Span(), "The greatest speed of an oscillation is A*ω, and ω is 2π*"+rate.name+".", "Write `"+reading+"`.", reading))
	case rate.exp == 2 && (f.number == 1 || within1Percent(f.number, 2*math.Pi)):
		reading := amplitude.name + "*(2π*" + rate.name + ")^2"
		l.Find(finding.New(finding.RateWithout2Pi, x.Span(), "The greatest acceleration of an oscillation is A*ω^2, and ω is 2π*"+rate.name+".", "Write `"+reading+"`.", reading))
	}
}

// turnsForRadians finds 1/T reported in rad/s.
//
// ω = 1/T in rad/s has the unit of an angular speed and the value of a frequency.
func turnsForRadians(l *eval.Line, x syntax.Expr, f *factors) {
	of, e := f.sole()
	if e != -1 || f.number != 1 || !isPeriod(of) {
		return
	}
	l.Find(finding.New(finding.RateWithout2Pi, x.Span(), "1/"+of+" counts turns per time; a turn is 2π radians.", "Write `2π/"+of+"` for the rate in radians.", "2π/"+of))
}

// countsCycles tells whether a name is a frequency.
func countsCycles(l *eval.Line, name string) bool {
	d, ok := l.Planner.Find(&syntax.Name{Name: name})
	return ok && d.Slot != run.NoSlot && l.Planner.Static(d.Slot).Tag == units.Cycle
}

// isRadians tells whether a name is a rate in radians per second: by its unit or its
// symbol, or since it was worked out as √(k/m) is.
//
// A unit of turns, rev/min, is none: that it counts is said by its line already.
func isRadians(l *eval.Line, name string) bool {
	d, ok := l.Planner.Find(&syntax.Name{Name: name})
	if !ok || d.Slot == run.NoSlot || !isRate(l.Planner.Static(d.Slot).Dim) {
		return false
	}
	if units.Usual(name) == "rad/s" || d.Unit != nil && d.Unit.Tag() == units.Angle && !d.Unit.Turns() {
		return true
	}
	e := l.EntryAt(d.Line)
	if e == nil {
		return false
	}
	s, ok := e.Stmt.(*syntax.Define)
	if !ok {
		return false
	}
	f, product := apart(s.X)
	return product && f.number == 1 && f.n == 0 && f.root != nil && squareOfRate(l, f.root, f.over)
}

// squareOfRate tells whether a quotient is the square of the rate in radians per
// second of a spring with a mass, of a pendulum, or of a coil with a capacitor: a
// force per length over a mass, an acceleration over a length, 1/(L*C). Inverse
// tells that the quotient is upside down.
func squareOfRate(l *eval.Line, x syntax.Expr, inverse bool) bool {
	b, ok := x.(*syntax.Binary)
	if !ok {
		return false
	}
	if b.Op == syntax.Mul {
		one, other := kindOf(l, b.X), kindOf(l, b.Y)
		return inverse && (one == "inductance" && other == "capacitance" || one == "capacitance" && other == "inductance")
	}
	if b.Op != syntax.Div {
		return false
	}
	above, below := b.X, b.Y
	if inverse {
		above, below = below, above
	}
	if n, ok := above.(*syntax.Number); ok && n.Value.Float() == 1 {
		return squareOfRate(l, syntax.Unbracket(below), !inverse)
	}
	switch kindOf(l, above) {
	case "force per length":
		return kindOf(l, below) == "mass"
	case "acceleration":
		// A height over g is the square of a time of fall.
		n, ok := below.(*syntax.Name)
		return ok && is(n.Name, "L l R r") && kindOf(l, below) == "length"
	}
	return false
}

// kindOf names the kind of quantity that an expression is, or "".
//
// Nothing is kept of what is planned to find it out.
func kindOf(l *eval.Line, x syntax.Expr) string {
	k, _ := units.KindOf(l.Try(x).Static.Dim, units.None)
	return k.Name
}
