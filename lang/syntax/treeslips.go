package syntax

import (
	"strings"
	"unicode"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
)

// treeSlips looks through trees for what can be read in two ways.
//
// The tree is needed for these: whether numbers alone stand above a bar, and what a power
// goes with, can't be told from tokens side by side.
func (r *reader) treeSlips(list ...Expr) *fault {
	for _, x := range list {
		for x := range Nodes(x) {
			var bad *fault
			switch x := x.(type) {
			case *Binary:
				bad = first(treeSlips, operation{r, x})
			case *Measured:
				bad = r.exponentOrUnit(x)
			}
			if bad != nil {
				return bad
			}
		}
	}
	return nil
}

func (r *reader) source(at Span) string { return r.text[at.From:at.To] }

// numberOver finds 1/2 kg, (10 - 4)/1.2 s and 2π/0.8 s: written numbers without a unit
// over one with a unit, which print puts behind the whole fraction.
//
// 1/2 kg is half a kilogram in print. By the rules of the language it is 1 divided by 2 kg, so
// that either way someone would be surprised.
//
// With π above and a degree below the bar it is how degrees are turned into radians, and nobody
// reads it in another way.
func (r operation) numberOver() *fault {
	if r.Op != Div {
		return nil
	}
	var u UnitText
	switch y := r.Y.(type) {
	case *Quantity:
		u = y.Unit
	case *Mixed:
		u = y.Parts[0].Unit
	case *Measured:
		u = y.Unit
	default:
		return nil
	}
	b, at := r.Binary, r.Y.Span()
	if !OfNumbers(b.X) || u.Text == "°" && Has[*Pi](b.X) { // π/180° turns degrees into radians
		return nil
	}
	left := r.source(b.X.Span())
	over := r.source(at)
	number := strings.TrimSpace(r.source(Span{From: at.From, To: u.At.From}))
	sign := r.source(Span{From: b.X.Span().To, To: at.From})
	unit := r.source(Span{From: u.At.From, To: at.To})
	group := "(" + left + sign + number + ") " + unit
	if Any(b.X, bareRoot) {
		left = "(" + left + ")"
	}
	below := left + sign + "(" + over + ")"
	readings := []string{group, below}
	return &fault{finding.New(finding.TwoReadings, b.At,
		"This can be read in two ways: is the unit part of the fraction, or only of "+number+"?", "Use brackets to show what belongs together.", readings...)}
}

// bareRoot tells of a root without brackets, whose reach over a bar print leaves open.
func bareRoot(x Expr) bool {
	root, ok := x.(*Root)
	return ok && Unbracket(root.X) == root.X
}

// OfNumbers tells whether an expression is worked out from written numbers alone,
// without a name or a unit. The angle of sin(30°) leaves no unit behind.
func OfNumbers(x Expr) bool {
	ok := true
	Walk(x, func(x Expr) bool {
		switch x := x.(type) {
		case *Number, *Pi, *Paren, *Unary, *Binary, *Root:
		case *Call:
			ok = ok && ops.IsFunction(x.Func)
			angle := x.Func == "sin" || x.Func == "cos" || x.Func == "tan"
			return ok && !(angle && IsWritten(x.Args[0].X))
		default:
			ok = false
		}
		return ok
	})
	return ok
}

// exponentOrUnit finds 2^-1 s, where the exponent may be that of the unit: half a second, or
// 2 s^-1. Behind 10 it belongs to the number.
func (r *reader) exponentOrUnit(m *Measured) *fault {
	power, ok := m.X.X.(*Binary)
	if !ok || power.Op != Pow || m.X.At != power.At || strings.ContainsFunc(m.Unit.Text, func(r rune) bool { return !unicode.IsLetter(r) }) {
		return nil
	}
	n, ok := power.X.(*Number)
	if !ok || n.Value.Text == "10" || Rational(power.Y).Num() >= 0 {
		return nil
	}
	raised, number := r.source(Span{From: n.At.To, To: power.At.To}), r.source(n.At)
	return &fault{finding.New(finding.TwoReadings, m.At, "Does "+raised+" belong to the number or to the unit?", "Use brackets to show what belongs together.",
		"("+number+raised+") "+m.Unit.Text, number+" "+m.Unit.Text+raised)}
}

// unitPower finds 5 m ^2 and 5 m^n: an exponent after a unit that does not go
// with it.
//
// With a blank before the sign a power belongs to neither by its look.
func (r operation) unitPower() *fault {
	b := r.Binary
	if b.Op != Pow {
		return nil
	}
	switch b.X.(type) {
	case *Quantity, *Mixed, *Measured:
	default:
		return nil
	}
	quantity := r.source(b.X.Span())
	power := r.source(Span{From: b.OpFrom, To: b.At.To})
	readings := []string{"(" + quantity + ")" + power}
	if _, ok := b.Y.(*Number); ok {
		readings = append(readings, quantity+power)
	}
	return &fault{finding.New(finding.TwoReadings, b.At, "Is this the power of the unit, or of the whole quantity?",
		"Take the space out for the unit, or put the quantity in brackets.", readings...)}
}

// onePower finds x^1/2, of which print raises the whole fraction: nobody writes the first
// power. Of a ratio, whose unit tells nothing, ^3/2 and ^2/3 are asked about too: T*(r2/r1)^3/2.
//
// x^1/2 is the root of x wherever fractions are raised; by the order of operations it is x/2.
func (r operation) onePower() *fault {
	n, ok := r.Y.(*Number)
	p := lastFactor(r.X)
	if r.Op != Div || !ok || p == nil || p.Op != Pow || r.text[p.OpFrom] != '^' {
		return nil // x¹/2 has one reading
	}
	e := Rational(p.Y)
	ratio, _ := Unbracket(p.X).(*Binary)
	root := ratio != nil && ratio.Op == Div && (e.Num() == 3 && n.Value.Text == "2" || e.Num() == 2 && n.Value.Text == "3")
	if !e.IsInt() || e.Num() != 1 && e.Num() != -1 && !root {
		return nil
	}
	base, power := r.source(p.X.Span()), r.source(p.At)
	fraction := r.source(p.Y.Span()) + "/" + n.Value.Text
	return &fault{finding.New(finding.TwoReadings, Span{From: p.At.From, To: r.At.To}, "This can be read in two ways: is the exponent "+fraction+"?",
		"Use brackets to show what belongs together.", base+"^("+fraction+")", "("+power+")/"+n.Value.Text)}
}

// lastFactor is the last factor of a product, if that has an operator of its own.
func lastFactor(x Expr) *Binary {
	b, ok := x.(*Binary)
	for ok && (b.Op == Mul || b.Op == Div) {
		b, ok = b.Y.(*Binary)
	}
	if !ok {
		return nil
	}
	return b
}

// rootPower finds √x^2.
//
// The root has no bar over it here, as it has in print, to show how far it goes.
func (r operation) rootPower() *fault {
	b := r.Binary
	root, ok := b.X.(*Root)
	if !ok || b.Op != Pow {
		return nil
	}
	head, inner := r.source(root.At), r.source(root.X.Span())
	power := r.source(Span{From: root.At.To, To: b.At.To})
	return &fault{finding.New(finding.TwoReadings, b.At, "This can be read in two ways: is the power under the root?",
		"Use brackets to show what belongs together.", "("+head+")"+power, "√("+inner+power+")")}
}

// flatExponent finds 5*10-3 kg: written without blanks, a number below ten times 10 is more often
// 5×10⁻³ of which the exponent was not raised than a difference.
func (r operation) flatExponent() *fault {
	product, ok := r.X.(*Binary)
	if !ok || r.Op != Sub || product.Op != Mul {
		return nil
	}
	left := product.X
	if of, ok := left.(*Binary); ok && of.Op == Mul {
		left = of.Y
	}
	number, one := left.(*Number)
	ten, two := product.Y.(*Number)
	if !one || !two || ten.Value.Text != "10" {
		return nil
	}
	at, rest, times := r.Y.Span(), "", r.source(Span{From: number.At.From, To: ten.At.To})
	digits := r.source(at)
	if q, ok := r.Y.(*Quantity); ok {
		digits, rest = q.Value.Text, r.source(Span{From: at.From + len(q.Value.Text), To: at.To})
	}
	whole := Span{From: number.At.From, To: at.To}
	if v := number.Value.Float(); v < 1 || v >= 10 || strings.Trim(digits, "0123456789") != "" || strings.Contains(r.source(Span{From: number.At.From, To: at.From}), " ") {
		return nil
	}
	difference := times + " - " + digits
	if rest != "" {
		difference = "(" + difference + ")" + rest
	}
	return &fault{finding.New(finding.TwoReadings, whole, "Is -"+digits+" the exponent of 10, or taken away?",
		"Write an exponent with ^ or e.", number.Value.Text+"e-"+digits+rest, difference)}
}
