package advise

import (
	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
	"steelyard/units"
)

// kelvinTwice cautions where 273.15 is added to a temperature in °C by hand: every
// temperature is in kelvin already when it is worked with.
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
	if got.Slot == run.NoSlot || got.Static.Heat != run.Point {
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
