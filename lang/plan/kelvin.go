package plan

import (
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// A temperature in °C is used in kelvin in a product: 2*(20 °C) is 586.3 K. That is what
// a law of gases means, and no one who has a difference in mind; so it is said, but for
// where nothing else can be meant.

// noteKelvin says that a temperature in °C is used in kelvins in a product: a
// difference was perhaps meant. One word is enough for a line, and none where a gas
// constant or that of Boltzmann says it: R*T is never one of a difference.
func (c *coder) noteKelvin(x syntax.Expr, st run.Static, by syntax.Expr) {
	said := func(f finding.Finding) bool { return f.ID == finding.TemperatureReading }
	if st.Heat != run.Point || c.fn != nil || slices.ContainsFunc(c.findings, said) || c.holdsGasConstant(by) {
		return
	}
	f := finding.New(finding.TemperatureReading, x.Span(), "`"+c.shown(x)+"` is a temperature; a product uses it in kelvin.",
		"For a difference of temperatures, write K or Δ°C.")
	if n, ok := x.(*syntax.Name); ok { // as many kelvins as it has degrees
		f.Hint, f.Readings = "For a difference, give "+n.Name+" in K or Δ°C, or write `("+n.Name+" - 0 °C)`.", []string{"(" + n.Name + " - 0 °C)"}
	}
	f.Severity = finding.Caution
	c.findings = append(c.findings, f)
}

// isChangeInDegrees refuses (68-20) °C as a factor: written as a difference, it is none of
// temperatures in kelvin.
func (c *coder) isChangeInDegrees(x syntax.Expr, st run.Static) bool {
	m, ok := x.(*syntax.Measured)
	if !ok || st.Heat != run.Point {
		return false
	}
	if b, ok := syntax.Unbracket(m.X).(*syntax.Binary); !ok || b.Op != syntax.Sub {
		return false
	}
	c.refuse(finding.TemperatureGiven, x.Span(), "`"+c.shown(x)+"` is a difference of temperatures.", "Write a difference in K or Δ°C.", c.source(m.X.Span())+" K")
	return true
}

// ratioInKelvin takes back what was said of a temperature in a product where another is
// on the other side of its bar: p*T2/T1 is right in kelvin, and in nothing else.
func (c *coder) ratioInKelvin(x *syntax.Binary, divisor run.Static) bool {
	isChange := func(at syntax.Span) bool { return strings.HasPrefix(c.source(at), "Δ") }
	if divisor.Heat != run.Point || isChange(x.Y.Span()) {
		return false
	}
	for i, f := range c.findings {
		if f.ID != finding.TemperatureReading || f.Severity != finding.Caution || isChange(f.At) {
			continue
		}
		for _, l := range syntax.Factors(x.X) {
			if at := l.X.Span(); at.From >= f.At.From && at.To <= f.At.To && l.Minus == (x.Op == syntax.Mul) {
				c.findings = slices.Delete(c.findings, i, i+1)
				return true
			}
		}
	}
	return false
}

// HoldsGasConstant tells whether an expression on a page holds a name R or k with the unit of a
// gas constant or of the Boltzmann constant.
func (p *Planner) HoldsGasConstant(x syntax.Expr) bool { return p.coder("").holdsGasConstant(x) }

// holdsGasConstant tells whether an expression holds a name R or k with the unit of
// a gas constant or of the Boltzmann constant.
func (c *coder) holdsGasConstant(x syntax.Expr) bool {
	return syntax.Any(x, func(x syntax.Expr) bool {
		n, ok := x.(*syntax.Name)
		if !ok || units.Symbol(n.Name) != "R" && units.Symbol(n.Name) != "k" {
			return false
		}
		d, found := c.lookup(n)
		if !found || d.Failed() || d.Slot == run.NoSlot {
			return false
		}
		kind, _ := units.KindOf(c.static(d.Slot).Dim, units.None)
		return strings.HasSuffix(kind.Name, "heat capacity")
	})
}

// rightInKelvin takes back what was said of temperatures in a product that is one again,
// and right: a ratio of pressures or volumes times a temperature, or a weighted mean,
// which is a temperature as those are.
func (c *coder) rightInKelvin(x *syntax.Binary, st *run.Static) {
	if st.Dim != units.BaseDim(units.Kelvin) || len(c.findings) == 0 {
		return
	}
	if c.isMean(x) {
		st.Heat = run.Point
	} else if !c.ofGas(x) {
		return
	}
	c.findings = slices.DeleteFunc(c.findings, func(f finding.Finding) bool {
		return f.ID == finding.TemperatureReading && f.Severity == finding.Caution && f.At.From >= x.At.From && f.At.To <= x.At.To
	})
}

// OfGas tells whether a product on a page is one of a law of gases: it has a pressure, a
// volume or a gas constant among its names, and no difference.
func (p *Planner) OfGas(x syntax.Expr) bool { return p.coder("").ofGas(x) }

func (c *coder) ofGas(x syntax.Expr) bool {
	law := false
	change := syntax.Any(x, func(x syntax.Expr) bool {
		switch x := x.(type) {
		case *syntax.Binary:
			return x.Op == syntax.Add || x.Op == syntax.Sub
		case *syntax.Name:
			if d, ok := c.lookup(x); ok && !d.Failed() && d.Slot != run.NoSlot {
				kind, _ := units.KindOf(c.p.Static(d.Slot).Dim, units.None)
				law = law || kind.Name == "pressure" || kind.Name == "volume" || kind.Name == "molar heat capacity"
			}
			return units.IsChange(x.Name)
		}
		return false
	})
	return law && !change
}

// isMean tells whether a quotient is a weighted mean of temperatures, such as
// (m1*T1 + m2*T2)/(m1 + m2), which is the same on every scale.
func (c *coder) isMean(x *syntax.Binary) bool {
	if x.Op != syntax.Div {
		return false
	}
	top, bottom := c.weights(x.X), c.weights(x.Y)
	slices.Sort(top)
	slices.Sort(bottom)
	return len(top) > 1 && slices.Equal(top, bottom)
}

// weights are the terms of a sum, as their factors in order, without the one that is a
// temperature.
func (c *coder) weights(x syntax.Expr) []string {
	var all []string
	for _, t := range syntax.Terms(x) {
		var factors []string
		for _, f := range syntax.Factors(t.X) {
			if f.Minus || t.Minus {
				return nil
			}
			factors = c.weight(factors, f.X)
		}
		slices.Sort(factors)
		all = append(all, strings.Join(factors, "*"))
	}
	return all
}

// weight adds a factor that is no temperature.
func (c *coder) weight(factors []string, x syntax.Expr) []string {
	if n, ok := x.(*syntax.Name); ok {
		if d, found := c.lookup(n); found && !d.Failed() && d.Slot != run.NoSlot && c.p.Static(d.Slot).Heat == run.Point {
			return factors
		}
	}
	return append(factors, syntax.PrintExpr(x))
}
