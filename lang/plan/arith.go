package plan

import (
	"strconv"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

func itoa(n int) string { return strconv.Itoa(n) }

// sum plans + and -, whose operands must have one dimension. An angle and a pure
// number may be added, as in ω*t + 0.3, and the sum is an angle; an angle and a count
// of cycles are both pure numbers, and differ by 2π.
//
// Only what is of one kind can be added. That an angle counts as a number is the
// radian's own definition, a length over a length.
func (c *coder) sum(x *syntax.Binary, a, b run.Slot) run.Slot {
	if c.code.Wide() && c.vectorSum(x, a, b) {
		return run.NoSlot
	}
	sa, sb := c.static(a), c.static(b)
	if x.Op == syntax.Sub && c.zeroOfScale(x.X, x.Y, sa, sb) {
		return run.NoSlot
	}
	st, ok := c.p.agree(sa, sb)
	if !ok {
		return c.unlike(x.At, x.X, x.Y, a, b, verb(x.Op))
	}
	if sa.Tag.Clashes(sb.Tag) {
		return c.clash(x.At)
	}
	st.Tag = units.SumTag(st.Dim, sa.Tag, sb.Tag)
	st.Absent, st.Along = sa.Absent || sb.Absent, sa.Along && sb.Along
	heat, ok := c.heatOfSum(x, sa.Heat, sb.Heat)
	if !ok {
		return run.NoSlot
	}
	st.Heat = heat
	op := ops.Add
	if x.Op == syntax.Sub {
		op = ops.Sub
	}
	return c.emit(run.Instr{Op: op, A: a, B: b}, x.At, st)
}

// clash says that an angle per time meets cycles per time.
func (c *coder) clash(at syntax.Span) run.Slot {
	return c.refuse(finding.AngleOrCycle, at, "One side is in rad/s, the other in Hz. They differ by a factor 2π.",
		"Multiply the frequency by 2π, or divide the angular frequency by 2π.")
}

// zeroOfScale refuses a bare 0 beside a temperature in °C, which it is subtracted from or compared
// with.
func (c *coder) zeroOfScale(x, y syntax.Expr, a, b run.Static) bool {
	f, found := ZeroOfScale(x, y, a, b)
	if found {
		c.says(f)
	}
	return found
}

// ZeroOfScale says of a bare 0 beside a temperature in °C that it may be 0 °C or 0 K: of every other
// quantity all zeros are one.
func ZeroOfScale(x, y syntax.Expr, a, b run.Static) (finding.Finding, bool) {
	zero := syntax.Unbracket(y)
	if a.Heat != run.Point {
		zero, a = syntax.Unbracket(x), b
	}
	return WhichZero(zero), a.Heat == run.Point && syntax.IsBareZero(zero)
}

// WhichZero asks what a bare 0 is that is a temperature.
func WhichZero(zero syntax.Expr) finding.Finding {
	return finding.New(finding.TwoReadings, zero.Span(), "This 0 is a temperature: 0 °C or 0 K?", "Write its unit.", "0 °C", "0 K")
}

const noSum = "Temperatures can't be added: 20 °C and 30 °C don't make 50 °C."

// heatOfSum says what the sum or difference of two temperatures is. A temperature
// in °C is a point on a scale (Point), what lies between two is a Difference, and a
// value in K may be either (Plain):
//
//	point + difference, point - difference    point
//	point - point                             difference
//	point + point                             a mistake: 20 °C + 30 °C is not 50 °C
//	difference - point                        a mistake
//	difference ± difference                   difference
//	value in K + point                        point
//	value in K - point                        difference
//	point - value in K                        value in K
func (c *coder) heatOfSum(x *syntax.Binary, a, b run.Heat) (run.Heat, bool) {
	if x.Op == syntax.Add {
		if a == run.Point && b == run.Point {
			c.find(finding.TemperatureSum, x.At, noSum, "Add a difference in K to a temperature. For a mean, write T1 + (T2 - T1)/2.")
			return run.Plain, false
		}
		if a == run.Point || b == run.Point {
			return run.Point, true
		}
		if a == run.Difference && b == run.Difference {
			return run.Difference, true
		}
		return run.Plain, true
	}
	switch {
	case b == run.Point && a != run.Difference: // a value in K less a temperature
		return run.Difference, true
	case a == run.Point && b == run.Difference:
		return run.Point, true
	case a == run.Difference && b == run.Difference:
		return run.Difference, true
	case a == run.Difference && b == run.Point:
		c.find(finding.TemperatureSum, x.At, "This subtracts a temperature from a difference of temperatures.",
			"Subtract the other way round, or subtract two temperatures.")
		return run.Plain, false
	}
	return run.Plain, true
}

// product plans *, / and products without a sign: any two dimensions have one. What
// else is known of the operands goes through the rules below: an open zero stays
// open, an angle times a quantity stays one of angle (ω·r is a speed all the same,
// by its dimension), a temperature in a product is one in K.
//
// No product is refused for its dimension, but for one whose exponents no dimension
// can hold.
func (c *coder) product(x *syntax.Binary, a, b run.Slot) run.Slot {
	if c.code.Wide() && c.isVector(b) {
		switch {
		case c.threeVectors(x):
			return run.NoSlot
		case x.Op == syntax.Div || c.isVector(a):
			return c.vectorProduct(x, a, b)
		}
	}
	sa, sb := c.static(a), c.static(b)
	st := run.Static{Absent: sa.Absent || sb.Absent, Along: sa.Along != sb.Along, Tag: c.productTag(x, sa, sb)}
	op := ops.Mul
	if x.Op == syntax.Div {
		op = ops.Div
		st.Dim = sa.Dim.Div(sb.Dim)
	} else {
		st.Dim = sa.Dim.Mul(sb.Dim)
	}
	if st.Dim.Lost() {
		return c.dimensionRange(x.At)
	}
	if st.Open, st.Exp = productZero(op, sa, sb); st.Exp.Lost() {
		st = c.p.newZero()
	}
	st.Heat = productHeat(op, sa, sb)
	if c.isChangeInDegrees(x.X, sa) || c.isChangeInDegrees(x.Y, sb) {
		return run.NoSlot
	}
	c.noteKelvin(x.X, sa, x.Y)
	if !c.ratioInKelvin(x, sb) {
		c.noteKelvin(x.Y, sb, x.X)
	}
	c.rightInKelvin(x, &st)
	return c.emit(run.Instr{Op: op, A: a, B: b}, x.At, st)
}

// productZero carries the undetermined dimension of a bare zero through a
// product. The exponent is lost where two such dimensions meet.
//
// With z the unknown dimension, 0·m has z·mass, s/0 has time/z, and abs(x)·x has z²
// where x has z.
func productZero(op ops.Op, a, b run.Static) (int32, units.Exp) {
	if op == ops.Div {
		b.Exp = b.Exp.Neg()
	}
	switch e := a.Exp.Add(b.Exp); {
	case b.Open == 0:
		return a.Open, a.Exp
	case a.Open == 0:
		return b.Open, b.Exp
	case a.Open != b.Open:
		return 0, units.LostExp()
	case e.IsZero():
		return 0, e
	default:
		return a.Open, e
	}
}

// productHeat keeps a difference of temperatures a difference when it is
// multiplied or divided by a pure number.
func productHeat(op ops.Op, a, b run.Static) run.Heat {
	if a.Heat == run.Difference && b.Dim.IsOne() {
		return run.Difference
	}
	if op == ops.Mul && b.Heat == run.Difference && a.Dim.IsOne() {
		return run.Difference
	}
	return run.Plain
}

// productTag is the tag of a product or quotient (units.ProductTag), of which π may be
// a factor: it drops the tag.
//
// 2π·f is an angle per time for whoever wrote it, though f counts cycles; with the tag
// of f it would be refused beside ω. To a torque π is an angle: the work of a turn is
// τ·2π.
func (c *coder) productTag(x *syntax.Binary, a, b run.Static) units.Tag {
	if a.Tag == units.None && b.Tag == units.None {
		return units.None
	}
	if left, right := hasPi(x.X), hasPi(x.Y); left || right {
		torque, by := a, &b
		if a.Tag == units.None {
			torque, by, right = b, &a, left
		}
		switch {
		case !torque.Dim.IsEnergy():
			return units.None
		case right && x.Op == syntax.Mul && by.Dim.IsOne() && by.Tag == units.None:
			by.Tag = units.Angle
		}
	}
	return units.ProductTag(a.Dim, a.Tag, b.Dim, b.Tag, x.Op == syntax.Div)
}

// hasPi tells whether π is a factor of a product as it is written.
func hasPi(x syntax.Expr) bool {
	found := false
	syntax.Walk(x, func(x syntax.Expr) bool {
		switch x := x.(type) {
		case *syntax.Pi:
			found = true
		case *syntax.Paren, *syntax.Unary:
			return !found
		case *syntax.Binary:
			return !found && (x.Op == syntax.Mul || x.Op == syntax.Div)
		}
		return false
	})
	return found
}

// dimensionRange records that an exponent of a unit has grown too large.
//
// The bound is that of units.Exp: an exponent is 99 at most, and both of its parts 30,000.
func (c *coder) dimensionRange(at syntax.Span) run.Slot {
	return c.refuse(finding.DimensionOutOfRange, at, "The exponents of the units are too large to keep here.",
		"No quantity has such a unit. Check the powers.")
}

// rootOf plans a square, cube or higher root.
//
// A root is a power with the exponent 1/n for its dimension, and an operation of its
// own for its value: a cube root of -8 is -2, which the power has not.
func (c *coder) rootOf(s run.Slot, op ops.Op, degree int, at syntax.Span) run.Slot {
	st := powerStatic(c.static(s), units.NewExp(1, degree))
	if st.Dim.Lost() {
		return c.dimensionRange(at)
	}
	return c.emit(run.Instr{Op: op, A: s, K: float64(degree)}, at, st)
}

// powerStatic is what is known of a value raised to a power. Its dimension is lost
// where an exponent leaves the range of one.
//
// A temperature in °C is one in K from there on, as in a product.
func powerStatic(st run.Static, e units.Exp) run.Static {
	st.Dim, st.Exp = st.Dim.Pow(e), st.Exp.Mul(e)
	switch {
	case st.Exp.Lost():
		st.Dim = st.Dim.Pow(st.Exp)
	case st.Exp.IsZero():
		st.Open = 0
	}
	st.Tag = st.Tag.Pow(e)
	if e.Num() != 1 || e.Den() != 1 {
		st.Heat = run.Plain
	}
	return st
}
