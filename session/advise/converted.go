package advise

import (
	"math"
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
	"steelyard/units/each"
	"steelyard/units/writing"
)

// convertedTwice cautions where a number converts units that are kept anyway: t*60 with t
// in min, v/3.6 with v in km/h, 9550*P/n with P in kW and n in rev/min, v*3.6 in km/h. So
// it does where it turns a result into another unit without naming that: Q/P/60.
//
// Units are carried here, and a number that would convert them on paper is one factor too much:
// with v = 90 km/h, v/3.6 is 6.9 m/s. A number such as 3.6, 60 or 1000 is compared with the size
// of each unit that is in the same product; so is 10^-9, as 1e-9.
func convertedTwice(l *eval.Line, x syntax.Expr, in syntax.UnitText, v *entry.Value) {
	if !syntax.Any(x, func(x syntax.Expr) bool { n, ok := x.(*syntax.Number); return ok && converts(n.Value.Float()) }) {
		return
	}
	for product, factors := range syntax.Products(x) {
		p := conversion{Line: l, whole: 1, factor: 1}
		for _, f := range factors {
			p.take(f)
		}
		if len(p.numbers) == 0 {
			continue
		}
		all := syntax.Unbracket(product) == syntax.Unbracket(x)
		if u := l.Unit(in); u != nil && all {
			p.measured = append(p.measured, measuredPart{"The value is shown in " + u.Screen(), 1 / sizeOf(u)})
		}
		if p.whole != 1 {
			p.measured = append(p.measured, measuredPart{"All values have their units", p.whole})
		}
		if p.together(x) {
			return
		}
		for _, n := range p.numbers {
			for _, m := range p.measured {
				if math.Abs(n.value/m.size-1) > 2e-3 {
					continue
				}
				without := syntax.PrintExpr(syntax.Unplaced(leftOut(x, n.x)))
				l.Find(finding.New(finding.CommonSlip, x.Span(), m.says+", so "+n.text()+" converts twice.",
					"Leave "+n.text()+" out: `"+without+"`.", without))
				return
			}
			if p.names < 2 || in.Present() || !all || len(p.numbers) > 1 {
				continue
			}
			for _, text := range usedUnits {
				if u := units.Of(text); u.Dim() == v.Dim && u.Tag() == v.Tag && math.Abs(n.value*sizeOf(u)-1) < 2e-3 {
					reading := syntax.PrintExpr(syntax.Unplaced(leftOut(x, n.x))) + " in " + text
					l.Find(finding.New(finding.CommonSlip, x.Span(), n.text()+" changes the value here, and doesn't convert it.",
						"For "+u.Screen()+", write `"+reading+"`.", reading))
					return
				}
			}
		}
	}
}

// usedUnits are those that results are converted to by hand most often.
var usedUnits = [...]string{"min", "h", "d", "km/h", "kWh", "eV"}

// conversion is a product, with the numbers that may convert its units.
type conversion struct {
	*eval.Line
	numbers  []numberPart
	measured []measuredPart
	names    int // how many factors have a name
	plain    []syntax.Expr
	factor   float64 // the plain numbers together, π among them
	whole    float64 // the size of the units together
}

// numberPart is a number, with its value above the bar; measuredPart is a quantity, with
// the size in SI units that its unit has there.
type (
	numberPart struct {
		x     syntax.Expr
		value float64
	}
	measuredPart struct {
		says string
		size float64
	}
)

// together cautions where the plain numbers of a product convert its unit together: 2π and 60 beside
// 300 rpm, which are radians per second already.
func (p *conversion) together(x syntax.Expr) bool {
	if len(p.plain) < 2 {
		return false
	}
	for _, m := range p.measured {
		if math.Abs(p.factor/m.size-1) > 2e-3 {
			continue
		}
		without := x
		for _, n := range p.plain {
			without = leftOut(without, n)
		}
		reading := syntax.PrintExpr(syntax.Unplaced(without))
		numbers := writing.List(each.Of(p.plain, func(n syntax.Expr) string { return syntax.PrintExpr(syntax.Unbracket(n)) }), "and")
		p.Find(finding.New(finding.CommonSlip, x.Span(), m.says+", so "+numbers+" convert twice.", "Leave them out: `"+reading+"`.", reading))
		return true
	}
	return false
}

// text is a number as it is written.
func (n numberPart) text() string { return syntax.PrintExpr(syntax.Unbracket(n.x)) }

// take notes a factor of a product: v*t/60 is one product, of which 60 is below the bar and is
// compared as 1/60. What is added within it, the t of (t - 2 s)*60, is no factor.
func (p *conversion) take(f syntax.Link) {
	side := 1.0
	if f.Minus {
		side = -1
	}
	switch x := syntax.Unbracket(f.X).(type) {
	case *syntax.Number, *syntax.Binary, *syntax.Pi:
		v := numberOf(x, func(string) float64 { return math.NaN() })
		ok := !math.IsNaN(v)
		if ok {
			p.plain, p.factor = append(p.plain, f.X), p.factor*math.Pow(v, side)
		}
		if _, pi := x.(*syntax.Pi); ok && !pi && converts(v) {
			p.numbers = append(p.numbers, numberPart{f.X, math.Pow(v, side)})
		}
	case *syntax.Name, *syntax.Quantity:
		p.names++
		u := p.WrittenUnit(x)
		if u == nil {
			u = p.RememberedUnit(x)
		}
		if u == nil || u.Affine() || sizeOf(u) == 1 {
			return
		}
		size := math.Pow(sizeOf(u), side)
		p.whole *= size
		p.measured = append(p.measured, measuredPart{syntax.PrintExpr(x) + " has its unit, " + u.Screen(), size})
	}
}

// prefixTwice cautions where a power of ten and the prefix of its unit say the same: 500*10^-9 nm.
//
// 6.4e3 km and 2e-3 mm are what they say; from a millionth and a million on nobody writes both.
func prefixTwice(l *eval.Line, x syntax.Expr) {
	if !strings.Contains(l.Entry.Text, "10") && !strings.ContainsAny(l.Entry.Text, "eE") {
		return
	}
	for q := range syntax.Each[*syntax.Quantity](x) {
		u := l.WrittenUnit(q)
		_, power, is := strings.Cut(q.Value.Text, "e")
		exponent, err := strconv.Atoi(power)
		if !is || err != nil || u == nil || u.Affine() || max(exponent, -exponent) < 6 || math.Abs(sizeOf(u)/math.Pow10(exponent)-1) > 1e-9 {
			continue
		}
		written, plain := l.Entry.Text[q.At.From:q.Unit.At.From], units.Preferred(u.Dim(), u.Tag())
		l.Find(finding.New(finding.CommonSlip, q.At, u.Screen()+" is 10"+writing.Raised(power)+" "+plain.Screen()+" already, so "+q.Value.Text+" converts twice.",
			"Leave the power of ten or the prefix out.", written+plain.Behind(units.File)))
	}
}

// converts tells whether a number may convert a unit: no number of formulas does.
//
// 2, 4, 8 and 1/2 are in the formulas of a first course, and no unit is so large.
func converts(v float64) bool { return v > 3 && v != 4 && v != 8 || v > 0 && v < 0.5 }

// sizeOf is the size of a unit in SI units.
func sizeOf(u *units.Unit) float64 { return 1 / u.FromSIDifference(1) }

// leftOut is an expression without one of its factors.
//
// Of Q/P/60 without the 60 it is Q/P, of 9550*P/n it is P/n.
func leftOut(x syntax.Expr, factor syntax.Expr) syntax.Expr {
	one, _ := syntax.ParseExpr("1")
	return syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
		if x == factor {
			return one, true
		}
		p, bracket := x.(*syntax.Paren)
		if bracket {
			x = p.X
		}
		b, ok := x.(*syntax.Binary)
		switch {
		case !ok || b.Op != syntax.Mul && b.Op != syntax.Div:
			return nil, false
		case b.Y == factor:
			x = b.X
		case b.X == factor && b.Op == syntax.Mul:
			x = b.Y
		case b.X == factor:
			x = &syntax.Binary{Op: syntax.Div, X: one, Y: b.Y}
		default:
			return nil, false
		}
		_, product := x.(*syntax.Binary)
		if _, quantity := x.(*syntax.Quantity); bracket && (product || quantity) {
			x = &syntax.Paren{X: x}
		}
		return x, true
	})
}
