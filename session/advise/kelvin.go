package advise

import (
	"strings"

	"steelyard/lang/finding"
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
	b, ok := syntax.Unbracket(x).(*syntax.Binary)
	if !ok || b.Op != syntax.Add && b.Op != syntax.Sub {
		return
	}
	q, ok := b.Y.(*syntax.Quantity)
	if !ok || q.Unit.Text != "K" || q.Value.Text != "273.15" && q.Value.Text != "273" {
		return
	}
	got := l.Try(b.X)
	if got.Static.Heat != run.Point {
		return
	}
	text := l.Entry.Text[b.X.Span().From:b.X.Span().To]
	reading := text
	if !in.Present() {
		reading += " in K"
	}
	l.Find(finding.New(finding.CommonSlip, x.Span(), "`"+text+"` is "+l.ShownIn(got.Value, units.BaseUnits(got.Static.Dim))+" already.",
		"Leave `"+q.Value.Text+" K` out: `"+reading+"`.", reading))
}

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
	for q := range syntax.Each[*syntax.Quantity](x) {
		if q.Value.Text != "273" && q.Value.Text != "273.15" || q.Unit.Text != "°C" && q.Unit.Text != "degC" || syntax.Expr(q) == syntax.Unbracket(x) {
			continue
		}
		l.Find(finding.New(finding.CommonSlip, q.At, "0 °C is 273 K; this is "+q.Value.Text+" °C.",
			"Temperatures are in kelvin already when you work with them.", q.Value.Text+" K"))
	}
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
	if !ok || !degrees || q.Unit.Text != "°C" && q.Unit.Text != "degC" || strings.HasPrefix(n.Name, "Δ") {
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
