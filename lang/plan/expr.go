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

// expr plans an expression. It returns false once a finding has been recorded
// that leaves the expression without a value; both operands are looked at even
// so, since each may have a fault of its own.
func (c *coder) expr(x syntax.Expr) (run.Slot, bool) {
	if c.over || c.cost > maxCost || c.p.Budget != nil && !c.p.Budget.Spend(nodeSteps) {
		return run.NoSlot, false
	}
	x.Visit(visitor{c})
	return c.slot, c.good
}

// visitor plans each kind of expression.
type visitor struct{ *coder }

func (v visitor) give(s run.Slot, ok bool) { v.slot, v.good = s, ok }

func (v visitor) Number(x *syntax.Number)       { v.give(v.number(x), true) }
func (v visitor) Quantity(x *syntax.Quantity)   { v.give(v.quantity(x)) }
func (v visitor) Mixed(x *syntax.Mixed)         { v.give(v.mixed(x)) }
func (v visitor) Measured(x *syntax.Measured)   { v.give(v.measured(x)) }
func (v visitor) Pi(x *syntax.Pi)               { v.give(v.constant(math.Pi, x.At, run.Static{}), true) }
func (v visitor) That(x *syntax.That)           { v.give(v.that(x)) }
func (v visitor) Name(x *syntax.Name)           { v.give(v.name(x)) }
func (v visitor) Paren(x *syntax.Paren)         { v.give(v.expr(x.X)) }
func (v visitor) Unary(x *syntax.Unary)         { v.give(v.unary(x)) }
func (v visitor) Binary(x *syntax.Binary)       { v.give(v.binary(x)) }
func (v visitor) Root(x *syntax.Root)           { v.give(v.squareRoot(x)) }
func (v visitor) Call(x *syntax.Call)           { v.give(v.call(x)) }
func (v visitor) With(x *syntax.With)           { v.give(v.with(x)) }
func (v visitor) SlopeOf(x *syntax.SlopeOf)     { v.give(v.slopeOf(x)) }
func (v visitor) AreaUnder(x *syntax.AreaUnder) { v.give(v.areaUnder(x)) }
func (v visitor) List(x *syntax.List)           { v.give(v.later(x)) }
func (v visitor) Uncertain(x *syntax.Uncertain) { v.give(v.later(x)) }

// later refuses what can be read but is not worked out.
func (c *coder) later(x syntax.Expr) (run.Slot, bool) {
	c.find(finding.NotAvailableYet, x.Span(), "This can be read, but this version can't work it out yet.", "")
	return run.NoSlot, false
}

// squareRoot plans √x.
func (c *coder) squareRoot(x *syntax.Root) (run.Slot, bool) {
	c.underRoot = x.X
	s, ok := c.expr(x.X)
	if !ok {
		return run.NoSlot, false
	}
	return c.root2(s, ops.Sqrt, 2, x.At)
}

// number plans a written number without a unit. A bare 0 fits any dimension.
func (c *coder) number(x *syntax.Number) run.Slot {
	if x.Value.Hi == 0 {
		return c.constant(0, x.At, c.p.newZero())
	}
	return c.constant(x.Value.Float(), x.At, run.Static{})
}

// quantity plans a written quantity.
func (c *coder) quantity(x *syntax.Quantity) (run.Slot, bool) {
	u, ok := c.unitOf(x.Unit, x.At)
	if !ok {
		return run.NoSlot, false
	}
	v := u.ToSI(x.Value)
	if math.IsInf(v, 0) || v == 0 && x.Value.Hi != 0 && !u.Affine() {
		c.find(finding.OutOfRange, x.At, "`"+c.shown(x)+"` is too large or too small: numbers here go from 10^-308 to 10^308.", "")
		return run.NoSlot, false
	}
	return c.constant(v, x.At, unitStatic(u)), true
}

// unitStatic is what is known of a quantity written in a unit.
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
func (c *coder) mixed(x *syntax.Mixed) (run.Slot, bool) {
	var last *units.Unit
	for _, q := range x.Parts {
		u, ok := c.unit(q.Unit)
		if !ok {
			return run.NoSlot, false
		}
		last = u
	}
	total, ok := c.mixedSum(x, last)
	if !ok {
		return run.NoSlot, false
	}
	v := last.ToSI(total)
	if x.Neg {
		v = -v
	}
	return c.constant(v, x.At, unitStatic(last)), true
}

// mixedSum adds the parts of a mixed quantity in its smallest unit.
func (c *coder) mixedSum(x *syntax.Mixed, last *units.Unit) (units.Decimal, bool) {
	sum := new(big.Rat)
	for _, q := range x.Parts {
		u, ok := c.unit(q.Unit)
		if !ok {
			return units.Decimal{}, false
		}
		ratio := new(big.Rat).Quo(u.Factor(), last.Factor())
		sum.Add(sum, ratio.Mul(ratio, q.Value.Rat()))
	}
	tail := x.Parts[len(x.Parts)-1].Value
	d, ok := units.ParseDecimal(sum.FloatString(max(0, -tail.LastPlace)))
	if !ok {
		c.find(finding.OutOfRange, x.At, "This quantity is too large.", "")
	}
	return d, ok
}

// measured plans a bracket of written numbers with a unit.
func (c *coder) measured(x *syntax.Measured) (run.Slot, bool) {
	u, ok := c.unitOf(x.Unit, x.At)
	s, good := c.expr(x.X)
	if !ok || !good {
		return run.NoSlot, false
	}
	st := unitStatic(u)
	scale := c.constant(u.FromSIDifference(1), x.At, run.Static{})
	s = c.emit(run.Instr{Op: ops.Div, A: s, B: scale}, x.At, st)
	if zero := u.ToSIFloat(0); zero != 0 {
		s = c.emit(run.Instr{Op: ops.Add, A: s, B: c.constant(zero, x.At, st)}, x.At, st)
	}
	return s, true
}

// that plans the word that: the value of the nearest line above.
func (c *coder) that(x *syntax.That) (run.Slot, bool) {
	if c.fn != nil || c.p.that == nil {
		c.find(finding.NothingThat, x.At, "\"that\" means the value above, and there is none.",
			"Use the name of a quantity instead.")
		return run.NoSlot, false
	}
	return c.value(c.p.that, x.At, "that")
}

// value gives the slot of a definition that stands for a quantity.
func (c *coder) value(d *Def, at syntax.Span, word string) (run.Slot, bool) {
	c.use(d)
	if d.Failed() {
		c.needs(d, at)
		return run.NoSlot, false
	}
	return c.again.slot(c, d.Slot, at), true
}

// needs records that a line that failed is needed here, naming the line where
// the fault lies; once for each cause.
func (c *coder) needs(d *Def, at syntax.Span) {
	root := d.Root
	if c.root == root {
		return
	}
	c.root = root
	f := finding.New(finding.NotWorkedOut, at, "not worked out: needs "+defName(root)+" (line "+itoa(root.Line)+")", "")
	f.Cause = root.Line
	c.findings = append(c.findings, f)
}

// defName is what a definition is called in a finding.
func defName(d *Def) string {
	if d.Name == "" {
		return "the result"
	}
	return d.Name
}

// unary plans a sign before an operand.
func (c *coder) unary(x *syntax.Unary) (run.Slot, bool) {
	s, ok := c.expr(x.X)
	if !ok || x.Op == syntax.Add {
		return s, ok
	}
	st := c.static(s)
	if st.Heat == run.Point {
		st.Heat = run.Plain
	}
	return c.emit(run.Instr{Op: ops.Neg, A: s}, x.At, st), true
}

// Every value is planned in coherent SI units: a quantity is converted where it is
// written, by the exact factor of its unit, and what is left of the unit is its
// dimension. So no instruction converts, and 80 g/(2 cm^3) and 0.080 kg/(2e-6 m^3)
// are one plan. Which unit a value is shown in is decided when it has come out.

// binary plans an operator. Chains of operators on the left are followed
// without recursion, so that a long sum needs no deep stack.
func (c *coder) binary(x *syntax.Binary) (run.Slot, bool) {
	chain := []*syntax.Binary{x}
	left := x.X
	for {
		b, ok := left.(*syntax.Binary)
		if !ok {
			break
		}
		chain, left = append(chain, b), b.X
	}
	s, ok := c.expr(left)
	for i := len(chain) - 1; i >= 0; i-- {
		s, ok = c.operate(chain[i], s, ok)
	}
	return s, ok
}

// operate plans one operator whose left operand is planned already.
func (c *coder) operate(x *syntax.Binary, left run.Slot, leftOK bool) (run.Slot, bool) {
	if x.Op == syntax.Pow {
		return c.power(x, left, leftOK)
	}
	if c.apart(x) {
		return run.NoSlot, false
	}
	right, ok := c.expr(x.Y)
	if !ok || !leftOK {
		return run.NoSlot, false
	}
	if x.Op == syntax.Add || x.Op == syntax.Sub {
		return c.sum(x, left, right)
	}
	return c.product(x, left, right)
}
