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

// factors is a product taken apart: a number, powers of names, and one root.
type factors struct {
	number float64
	names  map[string]int
	root   syntax.Expr // what stands under it, or nil
}

// takeApart collects the factors of a product into f, to the power e. It is
// false for anything but a product of numbers, names and one root.
func (f *factors) takeApart(x syntax.Expr, e int) bool {
	switch x := x.(type) {
	case *syntax.Paren:
		return f.takeApart(x.X, e)
	case *syntax.Number:
		f.number *= math.Pow(x.Value.Float(), float64(e))
		return true
	case *syntax.Pi:
		f.number *= math.Pow(math.Pi, float64(e))
		return true
	case *syntax.Name:
		f.names[x.Name] += e
		return true
	case *syntax.Root:
		return f.under(x.X, e)
	case *syntax.Call:
		return x.Func == "sqrt" && len(x.Args) == 1 && f.under(x.Args[0].X, e)
	case *syntax.Binary:
		switch x.Op {
		case syntax.Mul:
			return f.takeApart(x.X, e) && f.takeApart(x.Y, e)
		case syntax.Div:
			return f.takeApart(x.X, e) && f.takeApart(x.Y, -e)
		case syntax.Pow:
			n, ok := syntax.Rational(x.Y)
			switch {
			case ok && n.IsInt() && n.Num() > -9 && n.Num() < 9:
				return f.takeApart(x.X, e*n.Num())
			case ok && n.Num() == 1 && n.Den() == 2:
				return f.under(x.X, e)
			}
		}
	}
	return false
}

// under notes the one root of a product.
func (f *factors) under(x syntax.Expr, e int) bool {
	if f.root != nil || e != 1 {
		return false
	}
	for {
		p, ok := x.(*syntax.Paren)
		if !ok {
			f.root = x
			return true
		}
		x = p.X
	}
}

// sole is the one name of a product and its power.
func (f *factors) sole() (string, int) {
	if len(f.names) == 1 && f.root == nil {
		for name, e := range f.names {
			return name, e
		}
	}
	return "", 0
}

func within1Percent(a, b float64) bool { return math.Abs(a-b) < 0.01*math.Abs(b) }

// rateWithout2Pi cautions where the line itself shows that a rate in radians per
// second stands for a frequency, or the time for a radian for a period.
func rateWithout2Pi(l *eval.Line, name string, x syntax.Expr, in syntax.UnitText, v *entry.Value) {
	if v.Named || len(l.Entry.Findings) > 0 && l.Entry.Failed() {
		return
	}
	f := factors{number: 1, names: map[string]int{}}
	switch {
	case v.Dim == units.BaseDim(units.Second):
		if (units.Symbol(name) == "T" || strings.HasPrefix(name, "period")) && f.takeApart(x, 1) {
			radianForPeriod(l, x, &f)
		}
	case in.Present() && v.Unit.Tag() == units.Cycle && isRate(v.Dim) && f.takeApart(x, 1):
		radiansForCycles(l, x, in, &f, v.Unit)
	case in.Present() && v.Unit.Tag() == units.Angle && isTurns(v.Unit) && isRate(v.Dim) && f.takeApart(x, 1):
		turnsTwice(l, x, &f, v.Unit)
	}
}

func isRate(d units.Dim) bool {
	inverse, ok := units.Dim{}.Div(units.BaseDim(units.Second))
	return ok && d == inverse
}

// radianForPeriod finds T = 1/ω.
func radianForPeriod(l *eval.Line, x syntax.Expr, f *factors) {
	of, e := f.sole()
	if e != -1 || units.Usual(of) != "rad/s" || f.number != 1 {
		return
	}
	l.Find(finding.New(finding.RateWithout2Pi, x.Span(), "1/"+of+" is the time for one radian, if "+of+" is an angle per time; a period is 2π times as long.",
		"Write `2π/"+of+"` for the period.", "2π/"+of))
}

// radiansForCycles finds √(k/m), 2π*f and ω reported in Hz.
func radiansForCycles(l *eval.Line, x syntax.Expr, in syntax.UnitText, f *factors, u *units.Unit) {
	text := syntax.PrintExpr(x)
	message := "`" + text + "` is a rate in radians per second; " + u.Screen() + " counts cycles, of 2π radians each."
	of, e := f.sole()
	switch {
	case f.root != nil && len(f.names) == 0 && squareOfRate(l, f.root) && !within1Percent(f.number, 1/(2*math.Pi)),
		e == 1 && f.number == 1 && units.Usual(of) == "rad/s":
		reading := text + "/(2π)"
		l.Find(finding.New(finding.RateWithout2Pi, x.Span(), message, "Divide by 2π for a frequency: `"+reading+"`. Or report it in rad/s.", reading))
	case f.number == 1 && speedOverRadius(l, f):
		reading := text + "/(2π)"
		l.Find(finding.New(finding.RateWithout2Pi, x.Span(), message, "Divide by 2π for turns per time: `"+reading+"`. Or report it in rad/s.", reading))
	case within1Percent(f.number, 2*math.Pi) && (e == -1 || e == 1 && countsCycles(l, of)):
		reading := of
		if e == -1 {
			reading = "1/" + of
		}
		l.Find(finding.New(finding.RateWithout2Pi, x.Span(), message, "For a frequency leave 2π out: `"+reading+"`. Or report it in rad/s.", reading))
	}
}

// speedOverRadius tells whether a product is a speed over a radius.
func speedOverRadius(l *eval.Line, f *factors) bool {
	if f.root != nil || len(f.names) != 2 {
		return false
	}
	speed, radius := false, false
	for name, e := range f.names {
		s := units.Symbol(name)
		speed = speed || e == 1 && (s == "v" || s == "u")
		radius = radius || e == -1 && (s == "r" || s == "R")
	}
	return speed && radius
}

// isTurns tells whether a unit counts whole turns as angles: rev/s, rev/min, rpm.
func isTurns(u *units.Unit) bool {
	return strings.Contains(u.Text(), "rev") || strings.Contains(u.Text(), "rpm")
}

// turnsTwice finds a rate that was divided by 2π and is then shown in turns, which
// divides by 2π once more.
func turnsTwice(l *eval.Line, x syntax.Expr, f *factors, u *units.Unit) {
	if !within1Percent(f.number, 1/(2*math.Pi)) {
		return
	}
	l.Find(finding.New(finding.RateWithout2Pi, x.Span(), "`"+syntax.PrintExpr(x)+"` is divided by 2π, so that it counts turns already; "+u.Screen()+" is an angle per time, and divides by 2π once more.",
		"Report it in Hz (1 Hz is 1 turn per second), or leave 2π out and report the angle per time in "+u.Screen()+"."))
}

// countsCycles tells whether a name is a frequency.
func countsCycles(l *eval.Line, name string) bool {
	d, ok := l.Planner.Find(&syntax.Name{Name: name})
	return ok && d.Slot != run.NoSlot && l.Planner.Static(d.Slot).Tag == units.Cycle
}

// squareOfRate tells whether a quotient is the square of the rate in radians per
// second of a spring with a mass, or of a pendulum: a force per length over a
// mass, an acceleration over a length.
func squareOfRate(l *eval.Line, x syntax.Expr) bool {
	b, ok := x.(*syntax.Binary)
	if !ok || b.Op != syntax.Div {
		return false
	}
	switch above, below := kindOf(l, b.X), kindOf(l, b.Y); {
	case above == "force per length":
		return below == "mass"
	case above == "acceleration":
		return below == "length"
	}
	return false
}

// kindOf names the kind of quantity that an expression is, or "".
func kindOf(l *eval.Line, x syntax.Expr) string {
	c := l.Try(x)
	if c.Slot == run.NoSlot {
		return ""
	}
	k, _ := units.KindOf(c.Static.Dim, units.None)
	return k.Name
}
