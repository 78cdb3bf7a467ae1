package advise

import (
	"math"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

func within1Percent(a, b float64) bool { return math.Abs(a-b) < 0.01*math.Abs(b) }

// rateWithout2Pi cautions where a factor 2π between turns and radians is lost.
//
// f and ω have the same dimension, 1/s, so that the factor between them is lost without a
// trace. What the line itself says tells: its name, its `in`, what its factors count, or how
// they were worked out.
func rateWithout2Pi(l *eval.Line, name string, x syntax.Expr, in syntax.UnitText, v *entry.Value, f *factors) {
	if v.Named || len(l.Entry.Findings) > 0 && l.Entry.Failed() {
		return
	}
	counts := leftTurns(name, in.Present(), v)
	of, e := f.sole()
	if counts.whole == 1 && within1Percent(f.number, 2*math.Pi) && (e == -1 || e == 1 && countsCycles(l, of)) {
		reading := of
		if e == -1 {
			reading = "1/" + of
		}
		countsRadians(l, x, v, "For a frequency, take 2π out: `"+reading+"`. Or report it in rad/s.", reading)
		return
	}
	if f.root != nil {
		rootInTurns(l, x, f, counts.whole, v)
		return
	}
	t := turnsOf(l, f, counts)
	if t.lost == 0 {
		return
	}
	text, reading := syntax.PrintExpr(x), t.put(x, f)
	switch {
	case counts.whole == -1:
		oneRadian(l, x, v, reading)
	case counts.whole == 1:
		countsRadians(l, x, v, "Divide by 2π for a frequency: `"+reading+"`. Or report it in rad/s.", reading)
	case counts.radians == 1:
		l.Find(finding.New(finding.RateWithout2Pi, x.Span(), "`"+text+"` counts whole turns; a turn is 2π radians.", "Write `"+reading+"` for radians.", reading))
	case t.goesWith != "":
		l.Find(finding.New(finding.RateWithout2Pi, x.Span(), t.whole+" counts whole turns; "+t.goesWith+" goes with ω, a rate in radians.",
			"ω is 2π*"+t.whole+": write `"+reading+"`.", reading))
	default:
		l.Find(finding.New(finding.RateWithout2Pi, x.Span(), t.whole+" goes with whole turns, "+t.radian+" with radians.",
			"A turn is 2π radians. Write `"+reading+"`.", reading))
	}
}

// turnsInEquation cautions of an equation solved as rateWithout2Pi does of a result: v = f*R
// for R.
func turnsInEquation(l *eval.Line, e syntax.Equation) {
	f := factors{number: 1}
	if e.Right == nil || !f.take(e.Left, 1) || !f.take(e.Right, -1) || f.root != nil {
		return
	}
	t := turnsOf(l, &f, counted{})
	if t.lost == 0 {
		return
	}
	radians := t.whole + "/(2π)"
	if d, _ := l.Planner.Names.Lookup(t.whole); countedBy(l, d, l.Planner.Static(d.Slot)).whole > 0 {
		radians = "2π*" + t.whole
	}
	with := t.goesWith
	if with == "" {
		with = t.radian
	}
	l.Find(finding.New(finding.RateWithout2Pi, e.Left.Span().Join(e.Right.Span()), t.whole+" goes with whole turns, "+with+" with radians.",
		"A turn is 2π radians. Write `"+radians+"` for "+t.whole+"."))
}

// counted is how turns and radians are counted in a quantity: a frequency has one turn, a
// period has one below, a rate in rad/s one radian.
type counted struct {
	whole, radians int
	rate           bool
	goesWith       string // its name, where it goes with radians
}

// leftTurns is what the name of a value or its unit says that it counts.
func leftTurns(name string, asked bool, v *entry.Value) counted {
	symbol := units.Symbol(name)
	switch perTime := v.Dim == perSecond; {
	case asked && v.Unit.Turns(), asked && !perTime && v.Dim != perMetre:
	case asked && v.Unit.Tag() == units.Angle:
		return counted{radians: 1, rate: true}
	case asked && v.Unit.Tag() == units.Cycle:
		return counted{whole: 1}
	case asked:
	case perTime && units.Usual(name) == "Hz":
		return counted{whole: 1}
	case perTime && units.Usual(name) == "rad/s", v.Dim.IsOne() && symbol == "φ":
		return counted{radians: 1, rate: perTime}
	case v.Dim == second && isPeriod(name), v.Dim == metre && symbol == "λ":
		return counted{whole: -1}
	case withRadians(name, v.Dim):
		return counted{goesWith: name}
	}
	return counted{}
}

// withRadians tells whether a name is the radius of a circle, an amplitude, a moment of inertia
// or a torque.
func withRadians(name string, d units.Dim) bool {
	return d == metre && is(name, "r R A") || d == inertia || d.IsEnergy() && is(name, "τ M")
}

// turning is what the factors of a product say of turns and radians.
type turning struct {
	whole    string // what counts whole turns
	radian   string // what counts radians
	goesWith string // what goes with radians, such as the radius of a circle
	lost     int    // the power of 2π that the product lacks
}

// simple tells whether a number has no π in it: 1/2, 2/5, 3, and not 0.159.
func simple(v float64) bool {
	for k := 1.0; k <= 12; k++ {
		if math.Abs(v) <= 12 && math.Abs(v*k-math.Round(v*k)) < 1e-9 {
			return true
		}
	}
	return false
}

// turnsOf balances the turns and radians of a product with those of its left side.
//
// Where a turn above the bar meets a radian below it, as in f/k, or the other way round, they
// have the same dimension and differ by 2π: v is 2π*f/k. A radius, a moment of inertia or a torque
// goes with radians, since v = r*ω, so that r*f lacks 2π; with a time T that is sure of an amplitude
// alone. Where the sum of both is another on the
// two sides, the line is of another kind: ω*T is an angle, and θ/T a rate.
func turnsOf(l *eval.Line, f *factors, left counted) (t turning) {
	var all counted
	t.goesWith = left.goesWith
	cycles, speed, goes := 0, false, 0 // cycles as a frequency has them, and the power of what goes with radians
	for _, p := range f.names[:f.n] {
		d, ok := l.Planner.Names.Lookup(p.name)
		if !ok || d.Slot == run.NoSlot {
			continue
		}
		st := l.Planner.Static(d.Slot)
		c := countedBy(l, d, st)
		switch {
		case c.whole > 0:
			cycles += p.exp
			t.whole = p.name
		case c.whole < 0:
			t.whole = p.name
		case left.radians == 1 && left.rate && st.Dim.IsOne() && st.Tag == units.None && is(p.name, "N n"): // ω = N/t
			c.whole = 1
		case c.radians != 0:
			t.radian = p.name
		case withRadians(p.name, st.Dim):
			t.goesWith, goes = p.name, p.exp
		}
		speed = speed || p.exp == 1 && st.Dim == metre.Mul(perSecond)
		all.whole += c.whole * p.exp
		all.radians += c.radians * p.exp
	}
	lacks := all.whole - left.whole
	if lacks == 0 || !simple(f.number) && !(lacks == 2 && within1Percent(f.number, 2*math.Pi)) { // A*2π*f^2
		return t
	}
	switch {
	case t.goesWith != "" && left.whole == 1 && f.n == 2 && speed && goes == -1: // v/r in Hz
		t.lost = -1
	case t.goesWith != "" && t.radian == "" && left.whole == 0 && left.radians == 0 && (all.whole == cycles || is(t.goesWith, "A") && f.number == 1):
		t.lost = lacks
	case t.goesWith == "" && (t.radian != "" || left.radians != 0) && all.whole+all.radians == left.whole+left.radians:
		t.lost = lacks
	}
	return t
}

// The dimensions of what turns and radians are counted in.
var (
	second    = units.BaseDim(units.Second)
	metre     = units.BaseDim(units.Metre)
	perSecond = units.Dim{}.Div(second)
	perMetre  = units.Dim{}.Div(metre)
	inertia   = units.BaseDim(units.Kilogram).Mul(metre).Mul(metre)
	action    = inertia.Mul(perSecond)
)

// countedBy is what a name says that it counts: a frequency whole turns, a wavelength and a
// period one below, as h goes with a frequency; a rate in radians and a k in rad/m radians, and ħ
// one below.
func countedBy(l *eval.Line, d *plan.Def, st run.Static) counted {
	switch {
	case d.Unit != nil && d.Unit.Turns(): // that it counts is said by its line already
	case st.Dim == perSecond && (st.Tag == units.Cycle || (st.Tag == units.None || !d.Given) && is(d.Name, "f ν")):
		return counted{whole: 1}
	case st.Dim == metre && is(d.Name, "λ"), st.Dim == second && isPeriod(d.Name), st.Dim == action && d.Name == "h":
		return counted{whole: -1}
	case inRadians(l, d, st), st.Dim.IsOne() && (st.Tag == units.Angle || strings.HasPrefix(units.Usual(d.Name), "rad")), st.Dim == perSecond.Mul(perSecond) && st.Tag == units.Angle:
		return counted{radians: 1}
	case st.Dim == action && d.Name == "ħ":
		return counted{radians: -1}
	}
	return counted{}
}

// put writes the 2π that a product lacks.
func (t *turning) put(x syntax.Expr, f *factors) string {
	text := syntax.PrintExpr(x)
	switch {
	case t.lost == 1 && strings.HasPrefix(text, "1/"):
		return "2π" + text[1:]
	case t.lost == 1:
		return "2π*" + text
	case t.lost == -1:
		return text + "/(2π)"
	case !simple(f.number): // A*2π*f^2
		return t.goesWith + "*(2π*" + t.whole + ")^2"
	}
	return put(x, t.whole, "(2π*"+t.whole+")")
}

// oneRadian says of 1/ω, √(m/k) and 1/k, named as a period or a wavelength, that it is the part
// for a radian.
func oneRadian(l *eval.Line, x syntax.Expr, v *entry.Value, reading string) {
	part, whole := "time", "period"
	if v.Dim == metre {
		part, whole = "length", "wavelength"
	}
	l.Find(finding.New(finding.RateWithout2Pi, x.Span(), "`"+syntax.PrintExpr(x)+"` is the "+part+" for one radian; a "+whole+" is 2π times as long.",
		"Write `"+reading+"` for the "+whole+".", reading))
}

// countsRadians says of √(k/m), 2π*f and ω reported in Hz that they count radians.
func countsRadians(l *eval.Line, x syntax.Expr, v *entry.Value, hint, reading string) {
	u := "Hz"
	if v.Unit.Tag() == units.Cycle {
		u = v.Unit.Screen()
	}
	l.Find(finding.New(finding.RateWithout2Pi, x.Span(), "`"+syntax.PrintExpr(x)+"` is in radians per second; "+u+" counts cycles of 2π radians.", hint, reading))
}

// rootInTurns finds √(k/m) reported in Hz, and T = √(m/k).
func rootInTurns(l *eval.Line, x syntax.Expr, f *factors, whole int, v *entry.Value) {
	switch {
	case f.n > 0:
	case whole == 1 && !within1Percent(f.number, 1/(2*math.Pi)) && squareOfRate(l, f.root, f.over):
		reading := syntax.PrintExpr(x) + "/(2π)"
		countsRadians(l, x, v, "Divide by 2π for a frequency: `"+reading+"`. Or report it in rad/s.", reading)
	case whole == -1 && f.number == 1 && squareOfRate(l, f.root, !f.over):
		oneRadian(l, x, v, "2π*"+syntax.PrintExpr(x))
	}
}

func isPeriod(name string) bool {
	return units.Symbol(name) == "T" || strings.HasPrefix(name, "period")
}

// countsCycles tells whether a name is a frequency.
func countsCycles(l *eval.Line, name string) bool {
	d, ok := l.Planner.Find(&syntax.Name{Name: name})
	return ok && d.Slot != run.NoSlot && l.Planner.Static(d.Slot).Tag == units.Cycle
}

// inRadians tells whether a name is a rate in radians, per time or per length: by its unit or
// its symbol, or since it was worked out as √(k/m) and 2π/λ are.
func inRadians(l *eval.Line, d *plan.Def, st run.Static) bool {
	if st.Dim != perSecond && st.Dim != perMetre {
		return false
	} else if st.Dim == perSecond && units.Usual(d.Name) == "rad/s" || st.Tag == units.Angle {
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
	return product && (within1Percent(f.number, 2*math.Pi) && f.root == nil ||
		f.number == 1 && f.n == 0 && f.root != nil && squareOfRate(l, f.root, f.over))
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
