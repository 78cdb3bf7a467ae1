package plan

import (
	"math"
	"strings"

	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// What was measured, and to which figure. A number with a unit was, and knows its figures;
// 0 without decimals, a written 1 and a percentage are exact, as is a number without a unit unless it is
// all of a given and has decimals: 24 pupils were counted.

// Written is the instruction of a quantity in a unit that is known to the last figure
// that is written, unless it is exact.
func Written(d units.Decimal, u *units.Unit, exact bool) run.Instr {
	if exact {
		return run.Instr{Op: ops.Const, K: u.ToSI(d)}
	}
	return written(u.ToSI(d), d, u)
}

// written is the instruction of a quantity that was written in a unit and is v in
// coherent SI units.
func written(v float64, d units.Decimal, u *units.Unit) run.Instr {
	if d.Off != nil {
		return run.Uncertain(v, d.Off.Standard()*(u.ToSIFloat(1)-u.ToSIFloat(0)), d.Off.Shape)
	}
	if d.Hi == 0 && d.LastPlace >= 0 || d.Text == "1" || d.Text == "-1" || u.Dim().IsOne() && u.Tag() == units.None {
		return run.Instr{Op: ops.Const, K: v}
	}
	place := math.Pow10(int(d.LastPlace)) * (u.ToSIFloat(1) - u.ToSIFloat(0))
	return run.Written(v, place, d.Noughts())
}

// emitWritten adds what was written. What is uncertain stands in the main code, wherever it was
// written: it is one number, however often a function is called.
func (c *coder) emitWritten(in run.Instr, at syntax.Span, st run.Static, uncertain bool) run.Slot {
	c.p.Unsure = c.p.Unsure || uncertain
	if !uncertain || c.fn == nil {
		return c.emit(in, at, st)
	}
	return c.emit(run.Instr{Op: ops.Load, A: c.p.Emit(in, st)}, at, st)
}

// measuredNumber notes that the number without a unit that is all of a given was
// measured.
func (c *coder) measuredNumber(x syntax.Expr, s run.Slot) {
	switch x := syntax.Unbracket(x).(type) {
	case *syntax.Unary:
		if s != run.NoSlot && c.code.Instrs[s].Op == ops.Neg {
			s = c.code.Instrs[s].A
		}
		c.measuredNumber(x.X, s)
	case *syntax.Number:
		if s != run.NoSlot && strings.Contains(x.Value.Text, ".") && c.code.Instrs[s].Op == ops.Const {
			c.code.Instrs[s] = run.Written(c.code.Instrs[s].K, math.Pow10(int(x.Value.LastPlace)), 0)
		}
	}
}

// next is the slot of the next instruction.
func (c *coder) next() run.Slot { return run.Slot(len(c.code.Instrs)) }

// exact makes written numbers exact that were planned from a slot on: those that somebody
// chose, and has not measured.
func (c *coder) exact(from run.Slot, chosen func(run.Static) bool) {
	for s := from; s < c.next(); s++ {
		if in := &c.code.Instrs[s]; in.Place() != 0 && chosen(c.code.Statics[s]) {
			*in = run.Instr{Op: ops.Const, K: in.K}
		}
	}
}

// anything is every number: the places at which a curve is asked for are chosen.
func anything(run.Static) bool { return true }

// callExact plans a call. Degrees that stand in its brackets are exact: those of
// sin(30°) are.
func (c *coder) callExact(x *syntax.Call) run.Slot {
	start := c.next()
	s := c.call(x)
	c.exact(start, func(st run.Static) bool { return st.Tag == units.Angle })
	return s
}
