package plan

import (
	"strings"
	"unicode/utf8"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// unitFinding turns what is wrong with the text of a unit into a finding.
//
// The place is that of the one word that is wrong, if there is one, and the whole unit
// where a reading of the whole is offered.
func (c *coder) unitFinding(u syntax.UnitText, bad *units.Problem) finding.Finding {
	id := finding.UnitText
	switch bad.Kind {
	case units.ProblemUnknown:
		id = finding.UnknownUnit
	case units.ProblemRange:
		id = finding.DimensionOutOfRange
	}
	at := u.At
	if bad.From < bad.To && len(bad.Readings) == 0 {
		at = syntax.Span{From: u.At.From + bad.From, To: min(u.At.From+bad.To, u.At.To)}
	}
	return finding.New(id, at, bad.Message, bad.Hint, bad.Readings...)
}

// UnitFinding is unitFinding for a unit that stands alone in its place.
func (p *Planner) UnitFinding(u syntax.UnitText, bad *units.Problem) finding.Finding {
	return p.coder("").unitFinding(u, bad)
}

// UnlikeEnds says that a range goes from one kind of quantity to another.
func UnlikeEnds(to syntax.Expr, a, b run.Static) finding.Finding {
	return finding.New(finding.UnlikeDimensions, to.Span(), "The range goes from "+Words(a)+" to "+Words(b)+".", "Both ends must be the same kind of quantity.")
}

// apart records a unit that was written with blanks round its slash: 108 km / h
// where no h is given.
//
// With blanks a slash divides by what comes next, which is a name; without, it is part
// of the unit. Where no such name is given, the unit was meant, and that is what the
// line is told.
func (c *coder) apart(x *syntax.Binary) bool {
	n, ok := x.Y.(*syntax.Name)
	if !ok || x.Op != syntax.Div || n.Line != 0 || c.known(n.Name) || !c.p.Units.Has(n.Name) {
		return false
	}
	number, ok := x.X.(*syntax.Number)
	if product, of := x.X.(*syntax.Binary); of && product.Op == syntax.Mul && utf8.RuneCountInString(n.Name) > 1 {
		number, ok = product.Y.(*syntax.Number) // Q*0.30/kWh
	}
	if ok {
		at := syntax.Span{From: number.At.From, To: x.At.To}
		c.find(finding.UnitText, at, "In `"+c.source(at)+"`, "+n.Name+" is read as a name, and no line above defines it.",
			"For the unit \"per "+n.Name+"\", write "+n.Name+"^-1.", c.source(number.At)+" "+n.Name+"^-1", c.source(number.At)+"/(1 "+n.Name+")")
		return true
	}
	q, ok := x.X.(*syntax.Quantity)
	if !ok || strings.Contains(q.Unit.Text, "/") {
		return false
	}
	joined := c.source(q.At) + "/" + n.Name
	c.find(finding.UnitText, x.At, "In `"+c.source(x.At)+"`, "+n.Name+" is read as a name, and no line above defines it.",
		"In a unit, the slash has no spaces round it.", joined)
	return true
}

// Degrees tells of C and F where a temperature is met: °C and °F were meant.
//
// 20 C + 5 K is a charge and a temperature by the rules for units, and a slip in every
// single case.
func Degrees(x syntax.Expr) string {
	for q := range syntax.Each[*syntax.Quantity](x) {
		switch q.Unit.Text {
		case "C":
			return "`" + q.Value.Text + " C` was read as coulombs; a temperature is `" + q.Value.Text + " °C`."
		case "F":
			return "`" + q.Value.Text + " F` was read as farads; a temperature is `" + q.Value.Text + " °F`."
		}
	}
	return ""
}

// unlikeHint says what to look at where two dimensions meet.
//
// The surest first: °C typed as C, then a number without its unit, then a factor that
// is missing.
func (c *coder) unlikeHint(at syntax.Span, x, y syntax.Expr, a, b run.Static) (hint string, readings []string) {
	kelvin := units.BaseDim(units.Kelvin)
	if a.Dim == kelvin || b.Dim == kelvin {
		if hint := strings.TrimSpace(Degrees(x) + " " + Degrees(y)); hint != "" {
			return hint, nil
		}
	}
	for _, side := range []struct {
		x, beside syntax.Expr
		other     run.Static
	}{{x, y, b}, {y, x, a}} {
		n, bare := syntax.Unbracket(side.x).(*syntax.Number)
		if bare && side.other.Open == 0 && !side.other.Dim.IsOne() {
			unit := units.Preferred(side.other.Dim, side.other.Tag).Text()
			_, named := units.KindOf(side.other.Dim, side.other.Tag)
			if q, ok := syntax.Unbracket(side.beside).(*syntax.Quantity); ok && side.other.Dim == kelvin {
				unit = q.Unit.Text // 100 - 18 °C: both are on one scale
			}
			with := n.Value.Text + " " + unit
			if head, tail := c.source(syntax.Span{From: at.From, To: n.At.From}), c.source(syntax.Span{From: n.At.To, To: at.To}); head+tail != "" && named && !strings.HasPrefix(unit, "1") {
				readings = []string{head + with + tail}
			}
			return "Is the unit of " + n.Value.Text + " missing?", readings
		}
	}
	if unit := endingUnit(y); unit.At.To == at.To && unit.Present() && syntax.OfNumbers(x) { // 3×4 + 2 N
		numbers := strings.TrimSpace(c.source(syntax.Span{From: at.From, To: unit.At.From}))
		return "Put the numbers in brackets, and the unit after them.", []string{"(" + numbers + ") " + c.source(unit.At)}
	}
	if factor, ok := factorBetween(a.Dim, b.Dim); ok {
		return "They differ by " + factor + ". Check for a missing factor or power.", nil
	}
	return "Check for a missing power, factor or unit.", nil
}

// endingUnit is the unit that the last factor of a product ends with.
func endingUnit(x syntax.Expr) syntax.UnitText {
	for {
		switch t := x.(type) {
		case *syntax.Binary:
			if x = t.Y; t.Op != syntax.Mul || !syntax.OfNumbers(t.X) {
				return syntax.UnitText{}
			}
		case *syntax.Quantity:
			return t.Unit
		case *syntax.Measured:
			return t.Unit
		default:
			return syntax.UnitText{}
		}
	}
}

// factorBetween names the quantity by which two dimensions differ, if it is a
// plain one.
//
// Plain quantities alone: "they differ by a moment of inertia" would be right, and
// help nobody.
func factorBetween(a, b units.Dim) (string, bool) {
	for _, pair := range [][2]units.Dim{{a, b}, {b, a}} {
		switch k, ok := units.KindOf(pair[0].Div(pair[1]), units.None); {
		case !ok:
		case k.Name == "length", k.Name == "time", k.Name == "mass", k.Name == "area", k.Name == "acceleration":
			return k.Articled(), true
		}
	}
	return "", false
}

// fitHint names the given whose unit does not fit, where an argument is one.
//
// It is the line of the given that must be mended then, and not this one.
func (c *coder) fitHint(a syntax.Expr, want *units.Unit, otherwise string) string {
	n, ok := syntax.Unbracket(a).(*syntax.Name)
	if !ok {
		return otherwise
	}
	d, ok := c.lookup(n)
	if !ok || d.Line == 0 || d.Unit == nil {
		return otherwise
	}
	has := d.Unit.Screen()
	if has == "" {
		has = "no unit"
	}
	return "Check line " + itoa(d.Line) + ": there " + n.Name + " is in " + has + "."
}

// GivenHint names a given whose unit would have to be another one for a product
// of powers to come out in the wanted dimension.
//
// If the value must be multiplied by the dimension q to fit, and the given has the
// power e in it, then the given must be multiplied by q^(1/e). It is named only where
// that is what its symbol usually stands for.
func (p *Planner) GivenHint(x syntax.Expr, text string, got run.Static, want units.Dim) string {
	factors, product := algebra.Factors(x)
	ratio := want.Div(got.Dim)
	if !product || ratio.Lost() {
		return ""
	}
	powers := map[string]units.Exp{}
	for _, f := range factors {
		if n, ok := f.X.(*syntax.Name); ok {
			powers[n.Name] = f.Exp
		} else if !syntax.IsWritten(f.X) {
			return ""
		}
	}
	c := p.coder(text)
	for _, d := range p.Names.All() {
		e, used := powers[d.Name]
		now, found := c.lookup(&syntax.Name{Name: d.Name})
		if !used || !found || now != d || !d.Given || d.Failed() || d.Line == 0 {
			continue
		}
		dim := p.Static(d.Slot).Dim.Mul(ratio.Pow(e.Inv()))
		if _, ok := units.KindOf(dim, units.None); ok && units.Customary(d.Name, dim) {
			return "Check " + d.Name + " (line " + itoa(d.Line) + "): it is " + phrase(p.Static(d.Slot)) +
				"; in " + units.Preferred(dim, units.None).Screen() + " it would fit."
		}
	}
	return ""
}
