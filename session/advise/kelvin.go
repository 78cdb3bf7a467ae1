package advise

import (
	"math"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
	"steelyard/units"
)

// kelvinTwice cautions where 273.15 is added to a temperature in °C by hand: every
// temperature is in kelvin already when it is worked with.
//
// On paper 20 °C + 273.15 is how kelvins are made. Here T = 20 °C is 293.15 K when it is worked
// with, and T + 273.15 K would be 566 K, in which no unit is wrong.
func kelvinTwice(l *eval.Line, x syntax.Expr, in syntax.UnitText) {
	for b := range syntax.Each[*syntax.Binary](x) {
		q, ok := b.Y.(*syntax.Quantity)
		if !ok || b.Op != syntax.Add && b.Op != syntax.Sub || q.Unit.Text != "K" || !isZeroCelsius(q) {
			continue
		}
		got := l.Try(b.X)
		if got.Static.Heat != run.Point {
			continue
		}
		text := l.Entry.Text[b.X.Span().From:b.X.Span().To]
		reading := text
		if syntax.Expr(b) == syntax.Unbracket(x) && !in.Present() {
			reading += " in K"
		}
		l.Find(finding.New(finding.CommonSlip, b.Span(), "`"+text+"` is "+l.ShownIn(got.Value, units.BaseUnits(got.Static.Dim))+" already.",
			"Leave `"+q.Value.Text+" K` out: `"+reading+"`.", reading))
	}
}

// isZeroCelsius tells whether a quantity has the number that 0 °C has in kelvin.
func isZeroCelsius(q *syntax.Quantity) bool { return q.Value.Text == "273.15" || q.Value.Text == "273" }

// kelvinsBare cautions about T + 273 with a T that is a plain number, where the line would be
// what its symbol is used for with the sum in kelvin.
func kelvinsBare(l *eval.Line, name string, x syntax.Expr) bool {
	for b := range syntax.Each[*syntax.Binary](x) {
		n, ok := b.Y.(*syntax.Number)
		if !ok || b.Op != syntax.Add || n.Value.Text != "273" && n.Value.Text != "273.15" {
			continue
		}
		is := func(part syntax.Expr) bool { return part == syntax.Expr(b) }
		for _, whole := range units.Customs(name) {
			if dim, ok := lacks(l, x, whole, is); ok && dim == units.BaseDim(units.Kelvin) {
				sum := syntax.PrintExpr(b)
				say(l, sum+" has no unit.", "Did you mean "+syntax.PrintExpr(b.X)+" in °C? Then "+sum+" is in K.", x, is, "("+sum+")*(1 K)")
				return true
			}
		}
	}
	return false
}

// zeroInDegrees cautions about 273 °C in an expression, as in √(1 + θ/(273 °C)): the kelvins of
// 0 °C with the wrong unit. A ratio of two temperatures is right in kelvin, so the line has no
// other finding.
func zeroInDegrees(l *eval.Line, x syntax.Expr) {
	if aboveZero(l, x) {
		return
	}
	for q := range syntax.Each[*syntax.Quantity](x) {
		if !isZeroCelsius(q) || !q.Unit.Celsius() || syntax.Expr(q) == syntax.Unbracket(x) {
			continue
		}
		l.Find(finding.New(finding.CommonSlip, q.At, "0 °C is 273 K; this is "+q.Value.Text+" °C.",
			"Temperatures are in kelvin already when you work with them.", q.Value.Text+" K"))
	}
}

// aboveZero cautions about 1 + θ/(273 K) of a temperature θ: the 1 is the 273 K of 0 °C, so the
// degrees above that are meant.
func aboveZero(l *eval.Line, x syntax.Expr) bool {
	for b := range syntax.Each[*syntax.Binary](x) {
		one, ok := b.X.(*syntax.Number)
		ratio, over := syntax.Unbracket(b.Y).(*syntax.Binary)
		if !ok || !over || b.Op != syntax.Add || one.Value.Text != "1" || ratio.Op != syntax.Div {
			continue
		}
		got := l.Try(ratio.X)
		if got.Static.Dim != units.BaseDim(units.Kelvin) || got.Static.Heat != run.Point && got.Value < leastKelvin {
			continue
		}
		if q, ok := syntax.Unbracket(ratio.Y).(*syntax.Quantity); ok && isZeroCelsius(q) && (q.Unit.Text == "K" || q.Unit.Celsius()) {
			t := syntax.PrintExpr(ratio.X)
			reading := "(" + t + " - 0 °C)/(" + q.Value.Text + " K)"
			l.Find(finding.New(finding.CommonSlip, ratio.Span(), "`"+t+"` counts from absolute zero here.", "For the degrees above 0 °C, write `"+reading+"`.", reading))
			return true
		}
	}
	return false
}

// leastKelvin is a temperature in K that is hardly a difference.
const leastKelvin = 150

// degreesAdded cautions where a temperature in °C is added to a name in K: T + 82 °C, where T is
// 300 K and a rise by 82 K may be meant. By the rules the name is a difference then.
//
// Of T + 82 °C the sum is a temperature, with T as the difference: 300 K above 82 °C is 655 K.
// Whoever writes so has 382 K in mind.
func degreesAdded(l *eval.Line, x syntax.Expr) {
	b, ok := syntax.Unbracket(x).(*syntax.Binary)
	if !ok || b.Op != syntax.Add {
		return
	}
	n, ok := b.X.(*syntax.Name)
	q, degrees := b.Y.(*syntax.Quantity)
	if !ok || !degrees || !q.Unit.Celsius() || units.IsChange(n.Name) {
		return
	}
	got := l.Try(n)
	if got.Static.Heat == run.Point || got.Value < leastKelvin {
		return
	}
	reading := n.Name + " + " + q.Value.Text + " K"
	l.Find(finding.New(finding.CommonSlip, x.Span(), "`"+q.Value.Text+" °C` is a temperature, so "+n.Name+" is taken for a difference.",
		"For a rise, write it in K: `"+reading+"`.", reading))
}

// kelvinInEquation cautions of a temperature times a heat capacity in an equation that is
// solved, as a result that is worked out with one is cautioned: m*c*T = 5 kJ for T is 6 K above
// absolute zero. Where all temperatures could be counted from any other zero, as in
// m1*c*T1 + m2*c*T2 = (m1 + m2)*c*T, kelvins are right, and so they are in laws of gases.
func kelvinInEquation(l *eval.Line, e syntax.Equation) {
	if e.Right == nil {
		return
	}
	product, t := heated(l, e.Left)
	if t == nil {
		product, t = heated(l, e.Right)
	}
	if t == nil {
		return
	}
	moved := func(x syntax.Expr) float64 { return l.Try(warmer(l, x)).Value - l.Try(x).Value }
	if math.Abs(moved(e.Left)-moved(e.Right)) <= 1e-6*math.Abs(moved(product)) {
		return
	}
	usedInKelvin(l, product, t)
}

// zeroInEquation cautions about T - 0 in an equation, where T is the unknown: nobody takes 0 K from
// a temperature, and 0 °C is another 0.
func zeroInEquation(l *eval.Line, e syntax.Equation) {
	if e.Right == nil {
		return
	}
	for b := range syntax.Each[*syntax.Binary](e.Left, e.Right) {
		zero, other := syntax.Unbracket(b.Y), b.X
		if syntax.IsBareZero(syntax.Unbracket(b.X)) {
			zero, other = syntax.Unbracket(b.X), b.Y
		}
		if b.Op == syntax.Sub && syntax.IsBareZero(zero) && l.Try(other).Static.Dim == units.BaseDim(units.Kelvin) {
			f := plan.WhichZero(zero)
			f.Severity = finding.Caution
			l.Find(f)
			return
		}
	}
}

// Function cautions of a temperature in °C in a product of a function's body.
func Function(l *eval.Line, s *syntax.FuncDef) {
	if l.Entry.Failed() || s.X == nil {
		return
	}
	product, t := heated(l, s.X)
	if _, written := t.(*syntax.Quantity); written {
		usedInKelvin(l, product, t)
	}
}

// usedInKelvin says of a temperature in °C that a product takes it from absolute zero.
func usedInKelvin(l *eval.Line, product, t syntax.Expr) {
	text := syntax.PrintExpr(t)
	f := finding.New(finding.TemperatureReading, t.Span(), "`"+text+"` is a temperature; a product uses it in kelvin.", "")
	switch t := t.(type) {
	case *syntax.Name:
		f.Hint = "For a rise above 0 °C, write `" + put(product, t.Name, "("+t.Name+" - 0 °C)") + "`, for another rise Δ" + strings.TrimPrefix(t.Name, "Δ") + "."
	case *syntax.Quantity:
		f.Readings = []string{t.Value.Text + " Δ" + t.Unit.Text}
		if t.Unit.Celsius() {
			f.Readings = []string{t.Value.Text + " K"}
		}
		f.Hint = "For a difference, write `" + f.Readings[0] + "`."
	}
	f.Severity = finding.Caution
	l.Find(f)
}

// heated finds a product of a temperature and a heat capacity, or of one that is written in °C, with
// no gas constant.
func heated(l *eval.Line, x syntax.Expr) (product, t syntax.Expr) {
	var look func(x syntax.Expr) bool
	look = func(x syntax.Expr) bool {
		factors := syntax.Factors(x)
		if len(factors) < 2 {
			return product == nil
		}
		for _, f := range factors {
			if f.Minus || !isTemperature(l, f.X) {
				syntax.Walk(f.X, look)
				continue
			}
			_, written := f.X.(*syntax.Quantity)
			of, _ := units.KindOf(l.Try(x).Static.Dim.Div(units.BaseDim(units.Kelvin)), units.None)
			if product == nil && (written || strings.HasSuffix(of.Name, "heat capacity")) && !l.Planner.HoldsGasConstant(x) && !l.Planner.OfGas(x) {
				product, t = x, f.X
			}
		}
		return false
	}
	syntax.Walk(x, look)
	return product, t
}

// isTemperature tells whether a name is a temperature, and no difference of two, or a quantity is
// written as one in °C.
func isTemperature(l *eval.Line, x syntax.Expr) bool {
	switch x := x.(type) {
	case *syntax.Quantity:
		u := l.WrittenUnit(x)
		return u != nil && u.Affine()
	case *syntax.Name:
		d, ok := l.Planner.Find(x)
		if !ok || d.Slot == run.NoSlot || units.IsChange(x.Name) {
			return false
		}
		st := l.Planner.Static(d.Slot)
		return st.Dim == units.BaseDim(units.Kelvin) && st.Heat != run.Difference
	}
	return false
}

// warmer is an expression in which each temperature is 10 K higher.
func warmer(l *eval.Line, x syntax.Expr) syntax.Expr {
	rise, _ := syntax.ParseExpr("10 K")
	return syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
		switch t := x.(type) {
		case *syntax.Name:
			if !isTemperature(l, t) {
				return nil, false
			}
		case *syntax.Quantity:
			if got := l.Try(t); got.Static.Dim != units.BaseDim(units.Kelvin) || got.Static.Heat == run.Difference || got.Static.Heat != run.Point && got.Value < leastKelvin {
				return nil, false
			}
		default:
			return nil, false
		}
		return &syntax.Paren{X: &syntax.Binary{Op: syntax.Add, X: x, Y: rise}}, true
	})
}
