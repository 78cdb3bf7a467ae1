package plan

import (
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// power plans a power. The exponent of a quantity with a dimension is a written
// rational number or a given; that of a pure number may be anything without a
// dimension: the dimension of x^n must be known before n has a value, or the next
// line could not be checked.
//
// Names of givens count as written: in n = 3, x^n has a dimension that is known before
// n·x has a value.
func (c *coder) power(x *syntax.Binary, base run.Slot) run.Slot {
	if e := c.writtenExponent(x.Y); !e.Lost() {
		if base == run.NoSlot {
			return base
		}
		power := run.NamedPower{Base: base, Exponent: run.NoSlot}
		if n, named := syntax.Unbracket(x.Y).(*syntax.Name); named {
			d, _ := c.lookup(n)
			power.Exponent = c.value(d, n.At)
		}
		s := c.knownPower(x, base, e)
		if s != run.NoSlot && power.Exponent != run.NoSlot {
			c.code.NamePower(s, power)
		}
		return s
	}
	// From here on the exponent varies: what is raised must be a pure number, as the exponent
	// is.
	exp := c.expr(x.Y)
	if exp == run.NoSlot || base == run.NoSlot || c.isVector(exp) && !c.single(x.Y, exp) || c.isVector(base) && !c.single(x.X, base) {
		return run.NoSlot
	}
	if sb := c.static(base); c.isKnownNumber(x.Y) && sb.Open == 0 && !sb.Dim.IsOne() {
		return c.refuse(finding.DimensionOutOfRange, x.At, "No unit can have the exponent "+c.shown(x.Y)+": those go up to 99, as fractions of numbers up to 30000.",
			"Raise a ratio instead: divide "+c.shown(x.X)+" by "+another(sb)+" first.")
	}
	se := c.settledTo(exp, units.Dim{})
	if !se.Dim.IsOne() {
		return c.refuse(finding.ExponentDimension, x.Y.Span(),
			"The exponent "+c.shown(x.Y)+" is "+phrase(se)+"; an exponent is a pure number.",
			"Divide it by "+another(se)+", so the units cancel.")
	}
	sb := c.settledTo(base, units.Dim{})
	if !sb.Dim.IsOne() {
		if n, named := syntax.Unbracket(x.Y).(*syntax.Name); named && c.replaced(n) {
			return c.says(FixedExponent(x.Y.Span(), n.Name))
		}
		if isCharge(x.X, sb) {
			return c.refuse(finding.NotWritten, x.At, chargeE, "", c.asExp(x))
		}
		return c.refuse(finding.ExponentNotWritten, x.Y.Span(),
			"The unit of this power depends on the exponent: "+c.shown(x.X)+" is "+phrase(sb)+".",
			"Write a number such as 2 or (1/2), or give it a value in a line above.")
	}
	return c.emit(run.Instr{Op: ops.PowVar, A: base, B: exp}, x.At, run.Static{Absent: sb.Absent || se.Absent})
}

// isKnownNumber tells whether an exponent is a written number, or the name of a given that is.
func (c *coder) isKnownNumber(x syntax.Expr) bool {
	if n, ok := syntax.Unbracket(x).(*syntax.Name); ok {
		d, known := c.lookup(n)
		return known && c.param(n.Name) == nil && d.Exponent != nil && !c.replacing.isOn(d.Slot)
	}
	return syntax.IsNumber(x)
}

// knownPower plans a power with an exponent that is known beforehand.
//
// v² of a vector is its dot product with itself, so that 1/2*m*v^2 is right for a speed and for
// a velocity; no other power of a vector means anything.
func (c *coder) knownPower(x *syntax.Binary, base run.Slot, e units.Exp) run.Slot {
	switch {
	case c.isVector(base) && e == units.NewExp(2, 1):
		return c.dot(base, base, x.At)
	case c.isVector(base):
		return c.says(OneValue(x.X, c.static(base)))
	}
	c.elementary(x, c.static(base), e)
	return c.writtenPower(base, e, x.At)
}

// replaced tells whether a name stands for a value that is replaced.
//
// vary n of x^n would change the unit with every value, as the dimension of x^n follows from n.
func (c *coder) replaced(n *syntax.Name) bool {
	d, ok := c.lookup(n)
	return ok && d.Slot != run.NoSlot && c.replacing.isOn(d.Slot)
}

const chargeE = "e is a charge on this page; the exponential function is exp(x)."

// isCharge tells whether e is the elementary charge here.
//
// By its dimension, ampere times second, and not by its value: a line may give e
// itself.
func isCharge(x syntax.Expr, st run.Static) bool {
	n, ok := x.(*syntax.Name)
	if !ok || n.Name != "e" {
		return false
	}
	return st.Dim == units.BaseDim(units.Ampere).Mul(units.BaseDim(units.Second))
}

// chargePower refuses e^(-t/τ) in a function where e is the elementary charge: no call of the
// function would have a value.
func (c *coder) chargePower(x *syntax.Binary) {
	n, ok := x.X.(*syntax.Name)
	if !ok || x.Op != syntax.Pow || n.Name != "e" || c.param("e") != nil || !c.writtenExponent(x.Y).Lost() {
		return
	}
	if d, ok := c.lookup(n); ok && !d.Failed() && d.Kind == Quantity && isCharge(n, c.p.Static(d.Slot)) {
		c.refuse(finding.NotWritten, x.At, chargeE, "", c.asExp(x))
	}
}

// asExp is a power of e as a call of the exponential function.
//
// The exponent is taken from the line as it is typed, without its outer brackets.
func (c *coder) asExp(x *syntax.Binary) string {
	return "exp(" + c.source(syntax.Unbracket(x.Y).Span()) + ")"
}

// elementary cautions where the elementary charge has a negative power, as e^(-2):
// formulas have it in a denominator.
func (c *coder) elementary(x *syntax.Binary, base run.Static, e units.Exp) {
	if e.Num() < 0 && isCharge(x.X, base) {
		c.find(finding.CommonSlip, x.At, chargeE, "Is it "+c.asExp(x)+"?", c.asExp(x))
	}
}

// mostRoot is the highest odd root that a fraction in an exponent is taken for.
const mostRoot = 99

// writtenPower plans a power with a written rational exponent. x^(1/3) is the cube
// root and x^(2/3) its square: with an odd denominator they have a value for x < 0,
// which exp(ln(x)·2/3), and so math.Pow, has not. Of a decimal such as 1.048 nobody thinks as
// of a 125th root.
//
// IEEE 754 gives no value to a negative number to a power that is not whole; for the
// reader, the cube root of -8 is -2.
func (c *coder) writtenPower(base run.Slot, e units.Exp, at syntax.Span) run.Slot {
	st := powerStatic(c.static(base), e)
	if st.Dim.Lost() {
		return c.dimensionRange(at)
	}
	if e.Den() > 2 && e.Den()%2 == 1 && e.Den() <= mostRoot {
		// An odd root of a negative number is real.
		op := ops.Root
		if e.Den() == 3 {
			op = ops.Cbrt
		}
		mid := powerStatic(c.static(base), units.NewExp(1, e.Den()))
		if mid.Dim.Lost() {
			return c.dimensionRange(at)
		}
		s := c.emit(run.Instr{Op: op, A: base, K: float64(e.Den())}, at, mid)
		if e.Num() == 1 {
			return s
		}
		return c.emit(run.Instr{Op: ops.Pow, A: s, K: float64(e.Num())}, at, st)
	}
	return c.emit(run.Instr{Op: ops.Pow, A: base, K: e.Float()}, at, st)
}

// writtenExponent returns an exponent that is known before anything runs:
// written numbers, or the name of a given; lost if it is neither.
//
// A bracket round it makes no difference: x^(1/2) and x^(n) are such powers.
func (c *coder) writtenExponent(x syntax.Expr) units.Exp {
	if n, ok := syntax.Unbracket(x).(*syntax.Name); ok {
		return c.givenExponent(n)
	}
	return syntax.Rational(x)
}

// givenExponent returns the value of a given that is a pure rational number. A
// parameter hides a given of its name, and has no value yet.
//
// n = 3 is a given; n = 2*3 is worked out and might be anything once something else is
// replaced.
func (c *coder) givenExponent(n *syntax.Name) units.Exp {
	d, ok := c.lookup(n)
	if c.param(n.Name) != nil || !ok || d.Exponent == nil || d.Failed() || c.replacing.isOn(d.Slot) {
		return units.LostExp()
	}
	c.use(d)
	return *d.Exponent
}
