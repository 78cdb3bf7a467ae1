package plan

import (
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// callRound plans round(x) of a pure number, round(x, 5 mm) to whole multiples, or
// round(x, 3 figures). A length has no whole number that is nearest: which one it is would
// depend on the unit.
//
// round(3.14159 m) is refused for that reason, and the step that is missing is named. A
// temperature is rounded in its own scale, from which its steps are counted.
func (c *coder) callRound(x *syntax.Call, slots []run.Slot) run.Slot {
	what, st := x.Args[0].X, c.static(slots[0])
	figures := len(slots) > 1 && x.Args[1].Figures > 0
	switch {
	case len(slots) == 1 && st.Open == 0 && !st.Dim.IsOne():
		return c.refuse(finding.ArgumentDimension, what.Span(), "round needs a step: "+c.shown(what)+" is "+phrase(st)+", with a unit.",
			"Write the step, as in round(x, 1 mm), or the figures, as in round(x, 3 figures).")
	case len(slots) > 1 && !figures:
		if n, bare := syntax.Unbracket(x.Args[1].X).(*syntax.Number); bare && n.Value.Hi == 0 {
			return c.refuse(finding.WrongCall, n.At, "The step of round can't be 0.", "Write the step, as in round(x, 1 mm).")
		}
		if _, ok := c.p.agree(st, c.static(slots[1])); !ok {
			return c.unlike(x.At, what, x.Args[1].X, slots[0], slots[1], "taken together in round")
		}
	}
	// Figures are those of the number on the page, so it is counted in its unit while it is
	// rounded.
	unit := c.ownUnit(what, st)
	value, moved := c.scale(slots[0], unit, figures, x.At)
	step := run.NoSlot
	switch {
	case figures:
		step = c.emit(run.Instr{Op: ops.LastFigure, A: value, K: float64(x.Args[1].Figures)}, x.At, run.Static{})
	case len(slots) == 1:
		step = c.constant(1, x.At, run.Static{})
	default:
		step = slots[1]
	}
	how := 0.0
	if even, _ := c.p.settings(); even {
		how = ops.HalfToEven
	}
	if figures {
		how += ops.FromDigits
	}
	rounded := c.emit(run.Instr{Op: ops.Round, A: value, B: step, K: how}, x.At, st)
	return moved.back(c, rounded, x.At, st)
}

// scaled is a number that is counted in a unit: (x - zero)/size.
type scaled struct{ zero, size float64 }

// scale counts a value in a unit where its digits are asked for, and from the zero of the
// unit.
func (c *coder) scale(s run.Slot, u *units.Unit, digits bool, at syntax.Span) (run.Slot, scaled) {
	of, st := scaled{size: 1}, c.static(s)
	if u.Affine() {
		of.zero = u.ToSIFloat(0)
		s = c.emit(run.Instr{Op: ops.Sub, A: s, B: c.constant(of.zero, at, st)}, at, st)
	}
	if one := u.ToSIFloat(1) - of.zero; digits && one != 1 {
		of.size = one
		s = c.emit(run.Instr{Op: ops.Div, A: s, B: c.constant(one, at, run.Static{})}, at, st)
	}
	return s, of
}

// back undoes scale.
func (of scaled) back(c *coder, s run.Slot, at syntax.Span, st run.Static) run.Slot {
	if of.size != 1 {
		s = c.emit(run.Instr{Op: ops.Mul, A: s, B: c.constant(of.size, at, run.Static{})}, at, st)
	}
	if of.zero != 0 {
		s = c.emit(run.Instr{Op: ops.Add, A: s, B: c.constant(of.zero, at, st)}, at, st)
	}
	return s
}

// ownUnit is the unit of which the figures of a value are counted: that in which the line
// reports it, or in which it was written or its line shows it; else the one for what it is.
func (c *coder) ownUnit(x syntax.Expr, st run.Static) *units.Unit {
	if u := c.p.In; u != nil && u.Dim() == st.Dim && c.fn == nil {
		return u
	}
	var u *units.Unit
	switch x := syntax.Unbracket(x).(type) {
	case *syntax.Name:
		if d, ok := c.lookup(x); ok && c.param(x.Name) == nil {
			u = d.Unit
		}
	case *syntax.Quantity:
		u, _ = c.p.Unit(x.Unit, units.AfterNumber)
	}
	switch {
	case u != nil && u.Dim() == st.Dim && (!u.Affine() || st.Heat == run.Point):
		return u
	case st.Heat == run.Point:
		return units.Of("°C")
	}
	return units.Preferred(st.Dim, st.Tag)
}

// spread plans u(x): how uncertain a value of the main code is. What a function is given may
// come from anywhere, and is refused.
func (c *coder) spread(x *syntax.Call, s run.Slot) run.Slot {
	st := c.static(s)
	if st.Heat == run.Point {
		st.Heat = run.Difference
	}
	of := s
	if c.fn != nil {
		if of = c.code.Instrs[s].A; c.code.Instrs[s].Op != ops.Load {
			return c.refuse(finding.WrongCall, x.At, "u( ) doesn't work inside a function for what changes from call to call, as "+c.shown(x.Args[0].X)+" does.",
				"Work it out in its own line.")
		}
	}
	main := &c.p.Program.Main
	in := run.Instr{Op: ops.Spread, B: run.Slot(len(main.Args)), C: 1}
	if _, added := c.p.settings(); added {
		in.K = 1
	}
	main.Args = append(main.Args, of)
	if c.fn == nil {
		return c.emit(in, x.At, st)
	}
	return c.emit(run.Instr{Op: ops.Load, A: c.p.Emit(in, st)}, x.At, st)
}
