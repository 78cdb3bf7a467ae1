package plan

import (
	"math"
	"math/big"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// nodeSteps is how many elementary steps it takes to plan a part of an expression.
const nodeSteps = 16

// expr plans an expression. It returns NoSlot once a finding has been recorded
// that leaves the expression without a value; both operands are looked at even
// so, since each may have a fault of its own.
func (c *coder) expr(x syntax.Expr) run.Slot {
	if c.over || c.cost > maxCost || c.p.Budget != nil && !c.p.Budget.Spend(nodeSteps) {
		return run.NoSlot
	}
	x.Visit(visitor{c})
	return c.slot
}

// visitor plans each kind of expression.
type visitor struct{ *coder }

func (v visitor) Number(x *syntax.Number)       { v.slot = v.number(x) }
func (v visitor) Quantity(x *syntax.Quantity)   { v.slot = v.quantity(x) }
func (v visitor) Mixed(x *syntax.Mixed)         { v.slot = v.mixed(x) }
func (v visitor) Measured(x *syntax.Measured)   { v.slot = v.measured(x) }
func (v visitor) List(x *syntax.List)           { v.slot = v.list(x) }
func (v visitor) Polar(x *syntax.Polar)         { v.slot = v.polar(x) }
func (v visitor) Pi(x *syntax.Pi)               { v.slot = v.constant(math.Pi, x.At, run.Static{}) }
func (v visitor) That(x *syntax.That)           { v.slot = v.that(x) }
func (v visitor) Name(x *syntax.Name)           { v.slot = v.name(x) }
func (v visitor) Paren(x *syntax.Paren)         { v.slot = v.expr(x.X) }
func (v visitor) Unary(x *syntax.Unary)         { v.slot = v.unary(x) }
func (v visitor) Binary(x *syntax.Binary)       { v.slot = v.binary(x) }
func (v visitor) Root(x *syntax.Root)           { v.slot = v.squareRoot(x) }
func (v visitor) Call(x *syntax.Call)           { v.slot = v.callExact(x) }
func (v visitor) With(x *syntax.With)           { v.slot = v.with(x) }
func (v visitor) SlopeOf(x *syntax.SlopeOf)     { v.slot = v.slopeOf(x) }
func (v visitor) AreaUnder(x *syntax.AreaUnder) { v.slot = v.areaUnder(x) }

// squareRoot plans √x.
func (c *coder) squareRoot(x *syntax.Root) run.Slot {
	s := c.expr(x.X)
	if s == run.NoSlot || c.isVector(s) && !c.single(x.X, s) {
		return run.NoSlot
	}
	return c.rootOf(s, ops.Sqrt, 2, x.At)
}

// number plans a written number without a unit. A bare 0 fits any dimension.
//
// 0 is the one number whose unit is often left out on purpose: v0 = 0, F = 0
// (zero.go).
func (c *coder) number(x *syntax.Number) run.Slot {
	if x.Value.Hi == 0 {
		return c.constant(0, x.At, c.p.newZero())
	}
	if v := x.Value.Float(); !ops.Held(v) {
		return c.outOfRange(c.shown(x), x.At)
	}
	if x.Value.Lo != 0 && x.Value.Figures > run.MostDigits {
		return c.emit(run.Rounded(x.Value.Float()), x.At, run.Static{})
	}
	return c.constant(x.Value.Float(), x.At, run.Static{})
}

// outOfRange says that a written number can't be held.
func (c *coder) outOfRange(text string, at syntax.Span) run.Slot {
	return c.refuse(finding.OutOfRange, at, "`"+text+"` is too large or too small: numbers here go from 10^-308 to 10^308.", "")
}

// quantity plans a written quantity.
// A size beyond float64 is refused here, where it is written, and not where it is
// used.
func (c *coder) quantity(x *syntax.Quantity) run.Slot {
	u := c.unit(x.Unit, units.AfterNumber)
	if u == nil {
		return run.NoSlot
	}
	v := u.ToSI(x.Value)
	if !holds(v, x.Value, u) {
		return c.outOfRange(c.shown(x), x.At)
	}
	in := written(v, x.Value, u)
	return c.emitWritten(in, x.At, unitStatic(u), in.Uncertainty() != 0)
}

// holds tells whether a quantity, v in coherent SI units, is held with all of its figures.
func holds(v float64, d units.Decimal, u *units.Unit) bool {
	return ops.Held(v) && (v != 0 || d.Hi == 0 || u.Affine())
}

// unitStatic is what is known of a quantity written in a unit.
//
// 20 °C is a point on a scale; 20 K may be a temperature or a difference, and Δ°C is a
// difference by its name.
func unitStatic(u *units.Unit) run.Static {
	st := run.Static{Dim: u.Dim(), Tag: u.Tag()}
	switch {
	case u.Affine():
		st.Heat = run.Point
	case u.Difference():
		st.Heat = run.Difference
	}
	return st
}

// mixed plans quantities of one family that are written together, as a sum
// that is exact before it is rounded once.
func (c *coder) mixed(x *syntax.Mixed) run.Slot {
	var last *units.Unit
	for _, q := range x.Parts {
		if last = c.unit(q.Unit, units.AfterNumber); last == nil {
			return run.NoSlot
		}
	}
	total, ok := c.mixedSum(x, last)
	if !ok {
		return run.NoSlot
	}
	v := last.ToSI(total)
	if x.Neg {
		v = -v
	}
	return c.emit(written(v, total, last), x.At, unitStatic(last))
}

// mixedSum adds the parts of a mixed quantity in its smallest unit.
//
// 5 ft 3 inch is 63 inch exactly; in metres each part would be rounded, and their sum
// again. It has as many decimals as the last part.
func (c *coder) mixedSum(x *syntax.Mixed, last *units.Unit) (units.Decimal, bool) {
	sum := new(big.Rat)
	for _, q := range x.Parts {
		u, _ := c.p.Unit(q.Unit, units.AfterNumber) // which has been read before
		ratio := new(big.Rat).Quo(u.Factor(), last.Factor())
		sum.Add(sum, ratio.Mul(ratio, q.Value.Rat()))
	}
	tail := x.Parts[len(x.Parts)-1].Value
	d, ok := units.ParseDecimal(sum.FloatString(int(max(0, -tail.LastPlace))))
	if !ok {
		c.find(finding.OutOfRange, x.At, "This quantity is too large.", "")
	}
	return d, ok
}

// measured plans a bracket of written numbers with a unit.
//
// (1/2) kg is one value with a unit, and not a product: only so can (20 + 5) °C be a
// temperature, with the offset of its scale added once.
func (c *coder) measured(x *syntax.Measured) run.Slot {
	u, s := c.unit(x.Unit, units.AfterNumber), c.expr(x.X)
	if u == nil || s == run.NoSlot {
		return run.NoSlot
	}
	st := unitStatic(u)
	scale := c.constant(u.FromSIDifference(1), x.At, run.Static{})
	s = c.emit(run.Instr{Op: ops.Div, A: s, B: scale}, x.At, st)
	if zero := u.ToSIFloat(0); zero != 0 {
		s = c.emit(run.Instr{Op: ops.Add, A: s, B: c.constant(zero, x.At, st)}, x.At, st)
	}
	return s
}

// that plans the word that: the value of the nearest line above.
func (c *coder) that(x *syntax.That) run.Slot {
	c.p.Names.asked.every()
	if c.fn != nil || c.p.that == nil {
		return c.refuse(finding.NothingThat, x.At, "\"that\" means the value above, but no line above has one.",
			"Use the name of a quantity instead.")
	}
	return c.value(c.p.that, x.At)
}

// value gives the slot of a definition that stands for a quantity.
func (c *coder) value(d *Def, at syntax.Span) run.Slot {
	c.use(d)
	if d.Failed() {
		return c.needs(d, at)
	}
	return c.replacing.slot(c, d.Slot, at)
}

// needs records that a line that failed is needed here, naming the line where
// the fault lies; once for each cause.
//
// One fault in line 2 would else be said again in each of the twenty lines that follow
// from it.
func (c *coder) needs(d *Def, at syntax.Span) run.Slot {
	root := d.Root
	if c.root == root {
		return run.NoSlot
	}
	c.root = root
	return c.says(Needs(d, at))
}

// Needs says that a line that failed is needed, and where the fault lies.
func Needs(d *Def, at syntax.Span) finding.Finding {
	f := finding.New(finding.NotWorkedOut, at, "not worked out: needs "+defName(d.Root)+" (line "+itoa(d.Root.Line)+")", "")
	f.Cause = d.Root.Line
	return f
}

// defName is what a definition is called in a finding.
func defName(d *Def) string {
	if d.Name == "" {
		return "the result"
	}
	return d.Name
}

// unary plans a sign before an operand.
func (c *coder) unary(x *syntax.Unary) run.Slot {
	s := c.expr(x.X)
	if s == run.NoSlot || x.Op == syntax.Add {
		return s
	}
	st := c.static(s)
	if st.Heat == run.Point {
		st.Heat = run.Plain
	}
	return c.emit(run.Instr{Op: ops.Neg, A: s}, x.At, st)
}

// Every value is planned in coherent SI units: a quantity is converted where it is
// written, by the exact factor of its unit, and what is left of the unit is its
// dimension. So no instruction converts, and 80 g/(2 cm^3) and 0.080 kg/(2e-6 m^3)
// are one plan. Which unit a value is shown in is decided when it has come out.

// binary plans an operator. Chains of operators on the left are followed
// without recursion, so that a long sum needs no deep stack.
func (c *coder) binary(x *syntax.Binary) run.Slot {
	chain := []*syntax.Binary{x}
	left := x.X
	for {
		b, ok := left.(*syntax.Binary)
		if !ok {
			break
		}
		chain, left = append(chain, b), b.X
	}
	for _, b := range chain {
		if c.differentials(b) {
			return run.NoSlot
		}
	}
	s := c.expr(left)
	for i := len(chain) - 1; i >= 0; i-- {
		s = c.operate(chain[i], s)
	}
	return s
}

// operate plans one operator whose left operand is planned already.
func (c *coder) operate(x *syntax.Binary, left run.Slot) run.Slot {
	if x.Op == syntax.Pow {
		return c.power(x, left)
	}
	if c.apart(x) {
		return run.NoSlot
	}
	right := c.expr(x.Y)
	if right == run.NoSlot || left == run.NoSlot {
		return run.NoSlot
	}
	if x.Op == syntax.Add || x.Op == syntax.Sub {
		return c.sum(x, left, right)
	}
	return c.product(x, left, right)
}
