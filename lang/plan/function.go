package plan

import (
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
	"steelyard/units/writing"
)

// callFunction plans a call of a function of the worksheet.
//
// A function must have as many arguments as its definition: none of them has a
// default.
func (c *coder) callFunction(x *syntax.Call, d *Def) run.Slot {
	c.use(d)
	if d.Failed() {
		return c.needs(d, x.At)
	}
	fn := d.Func
	slots, ok := c.args(x, len(fn.Params), len(fn.Params))
	if !ok {
		return run.NoSlot
	}
	out := c.invoke(x, d, slots, func(body *coder) run.Slot { return body.functionBody(fn) }, fn.Params)
	for i, a := range x.Args {
		if c.static(slots[i]).Heat == run.Point && units.IsChange(fn.Params[i]) {
			return c.pointGiven(a.X, fn.Params[i])
		}
		if st := c.static(slots[i]); out != run.NoSlot && syntax.IsBareZero(a.X) && st.Open == 0 && st.Dim == units.BaseDim(units.Kelvin) {
			return c.says(WhichZero(a.X))
		}
	}
	return out
}

// pointGiven refuses a temperature in °C for a difference: f(20 °C) of f(ΔT).
func (c *coder) pointGiven(x syntax.Expr, name string) run.Slot {
	var readings []string
	if q, ok := x.(*syntax.Quantity); ok && q.Unit.Celsius() {
		readings = []string{q.Value.Text + " K", q.Value.Text + " Δ°C"}
	}
	return c.refuse(finding.TemperatureGiven, x.Span(), "`"+c.shown(x)+"` is a temperature; "+name+" is a difference of temperatures.",
		"Write a difference in K or Δ°C.", readings...)
}

// invoke plans the body of a function once for each set of arguments, and adds
// the call. A function has no dimensions of its own: f(x) = x^2 is an area where x
// is a length, so that what matters is what is known of each argument. What the
// call costs is what the body does, so that functions which call each other twice
// are found too long before anything runs. Within a function, the first call
// without a plan ends it: with more of them, there would be twice as many at each
// level.
func (c *coder) invoke(x *syntax.Call, d *Def, slots []run.Slot, body func(*coder) run.Slot, params []string) run.Slot {
	key := make([]run.Static, len(slots))
	for i, s := range slots {
		key[i] = c.static(s)
	}
	done, inner := c.p.planned(d, key, params, body)
	if inner != nil {
		c.adopt(x, d, inner.findings)
		c.over, c.cost = c.fn != nil, max(c.cost, inner.cost)
		return run.NoSlot
	}
	if c.means = c.means || done.means; done.means && c.fn == nil {
		return c.pasted(x, d, slots, params, body)
	}
	index := done.index
	f := c.p.Program.Funcs[index]
	c.cost, c.depth = min(c.cost+f.Cost, maxCost+1), max(c.depth, f.Depth)
	if c.depth > limit.Calls {
		return c.tooDeep(x.At)
	}
	st := f.Code.Statics[f.Result]
	for _, k := range key {
		st.Absent = st.Absent || k.Absent
	}
	return c.invokes(ops.Call, index, slots, x.At, st)
}

// pasted plans the body of a function in the place of its call: it takes the mean of what it
// is given, and how the readings scatter is known where they are.
//
// The scatter of readings is a source of uncertainty of the main code, and a function has none
// of its own there. The findings of the body have been told when it was planned.
func (c *coder) pasted(x *syntax.Call, d *Def, slots []run.Slot, params []string, body func(*coder) run.Slot) run.Slot {
	outer := *c
	c.params, c.seen, c.self, c.text, c.pastedAt = nil, d.seq, "", "", x // the body is in another line
	for i, name := range params {
		c.params = append(c.params, param{name, slots[i]})
	}
	s := body(c)
	c.params, c.seen, c.self, c.text, c.pastedAt = outer.params, outer.seen, outer.self, outer.text, outer.pastedAt
	c.findings, c.uses = outer.findings, outer.uses // which the plan of the function has made
	return s
}

// planned returns a function planned for these arguments, or the coder that found out why it
// has no plan.
//
// Two sets are the same where all is the same that is known of each argument. Nothing
// else can make a difference to the plan.
func (p *Planner) planned(d *Def, key []run.Static, params []string, body func(*coder) run.Slot) (*plannedFunc, *coder) {
	even, _ := p.settings()
	for done := d.planned; done != nil; done = done.above {
		if slices.Equal(done.args, key) && done.even == even {
			return done, nil
		}
	}
	// A function means what was above its own line, itself left out; those of
	// the library see each other alone.
	c := p.body(d.Name, "", d.seq)
	if p.nesting++; p.nesting > limit.Calls {
		p.nesting--
		c.tooDeep(syntax.Span{})
		return nil, c
	}
	defer func() { p.nesting-- }()
	for i, name := range params {
		c.takes(name, key[i])
	}
	result := body(c)
	if result == run.NoSlot || c.cost > maxCost {
		return nil, c
	}
	done := &plannedFunc{args: key, index: c.ends(result), above: d.planned, even: even, means: c.means}
	d.planned = done
	p.plans = append(p.plans, d)
	return done, nil
}

// tooDeep records that functions call each other beyond the limit.
func (c *coder) tooDeep(at syntax.Span) run.Slot {
	return c.refuse(finding.TooLong, at, "More than "+itoa(limit.Calls)+" functions use each other here.",
		"Work out part of it in another line.")
}

// adopt takes over what is wrong within a function for these arguments, at the
// place of the call.
//
// The place in the body is in another line; what was meant there is no reading of this
// one.
func (c *coder) adopt(x *syntax.Call, d *Def, fs []finding.Finding) {
	for _, f := range fs {
		f.At = x.At
		if f.Cause == 0 {
			where := d.Name
			if d.Line > 0 {
				where += " (line " + itoa(d.Line) + ")"
			}
			f.Message = "Within " + where + ": " + f.Message
			f.Readings = nil
		}
		c.findings = append(c.findings, f)
	}
}

// functionBody plans the right side of a function, or its intervals, and
// checks the unit that it is reported in.
//
// A unit after a function's body is a promise about every call: v(t) = … in m/s is
// refused for arguments that don't lead to a speed.
func (c *coder) functionBody(fn *syntax.FuncDef) run.Slot {
	s := run.NoSlot
	if fn.X != nil {
		s = c.expr(fn.X)
	} else {
		s = c.pieces(fn.Pieces)
	}
	if s == run.NoSlot || !fn.In.Present() {
		return s
	}
	u := c.unit(fn.In, units.AloneInPlace)
	if u == nil {
		return run.NoSlot
	}
	st := c.settledTo(s, u.Dim())
	if st.Dim != u.Dim() {
		m := MismatchText(fn.Name, st, u)
		return c.refuse(finding.UnitMismatch, fn.In.At, m.Message, m.Hint)
	}
	c.code.Statics[s].Tag = st.Tag.In(u)
	return s
}

// pieces plans a function given by intervals: the first interval that holds
// the argument gives the value; outside all there is none.
//
// All pieces must have one dimension, or it would depend on a number which one the
// call has.
func (c *coder) pieces(ps []syntax.Piece) run.Slot {
	type arm struct {
		cond, value run.Slot
	}
	arms := make([]arm, 0, len(ps))
	good := true
	for i := range ps {
		a := arm{c.interval(&ps[i]), c.expr(ps[i].X)}
		good = good && a.cond != run.NoSlot && a.value != run.NoSlot
		arms = append(arms, a)
	}
	if !good {
		return run.NoSlot
	}
	st := c.static(arms[0].value)
	for i, a := range arms[1:] {
		got, ok := c.p.agree(st, c.static(a.value))
		if !ok {
			return c.unlike(ps[i+1].At, ps[0].X, ps[i+1].X, arms[0].value, a.value, "given for two intervals of one function")
		}
		st = got
	}
	rest := c.emit(run.Instr{Op: ops.Nothing}, ps[0].At, st)
	for i := len(arms) - 1; i >= 0; i-- {
		rest = c.emit(run.Instr{Op: ops.Select, A: arms[i].cond, B: arms[i].value, C: rest}, ps[i].At, st)
	}
	return rest
}

// interval plans the condition under which a piece holds.
//
// The comparison is an instruction like any other, 1 where it holds and 0 where not,
// so that slopes and enclosures see where the pieces meet.
//
// Both ends are planned even if one was refused, so that both faults are said.
func (c *coder) interval(p *syntax.Piece) run.Slot {
	v := c.param(p.Var)
	if v == nil {
		return c.refuse(finding.UnknownName, p.VarAt, p.Var+" isn't in the brackets of this function.",
			"Write the interval with a name from the brackets.")
	}
	cond := run.NoSlot
	bound := func(x syntax.Expr, open, low bool) bool {
		s := c.expr(x)
		if s == run.NoSlot {
			return false
		}
		if _, ok := c.p.agree(c.static(v.slot), c.static(s)); !ok {
			c.unlike(p.At, &syntax.Name{At: p.VarAt, Name: p.Var}, x, v.slot, s, "compared")
			return false
		}
		in := run.Instr{Op: ops.AtMost, A: v.slot, B: s}
		if low {
			in.A, in.B = s, v.slot
		}
		if open {
			in.Op = ops.Less
		}
		one := c.emit(in, p.At, run.Static{})
		if cond == run.NoSlot {
			cond = one
		} else {
			cond = c.emit(run.Instr{Op: ops.Both, A: cond, B: one}, p.At, run.Static{})
		}
		return true
	}
	ok := true
	if p.Lo != nil {
		ok = bound(p.Lo, p.LoOpen, true)
	}
	if p.Hi != nil {
		ok = bound(p.Hi, p.HiOpen, false) && ok
	}
	if !ok {
		return run.NoSlot
	}
	return cond
}

// CheckFunction looks at a function as it is defined: its names must be known,
// whatever the arguments will be. It returns the definitions that it uses.
//
// Its dimensions are not looked at, since they follow from arguments that are not
// there yet.
func (p *Planner) CheckFunction(fn *syntax.FuncDef, text string) ([]*Def, []finding.Finding) {
	c := p.coder(text)
	c.self = fn.Name
	for _, name := range fn.Params {
		c.params = append(c.params, param{name: name})
	}
	c.names(fn.X)
	for _, piece := range fn.Pieces {
		c.names(piece.X)
		c.names(piece.Lo)
		c.names(piece.Hi)
		if c.param(piece.Var) == nil {
			c.find(finding.UnknownName, piece.VarAt, piece.Var+" isn't in the brackets of "+fn.Name+".",
				"Write the interval with "+writing.List(fn.Params, "or")+".")
		}
	}
	return c.uses, c.findings
}

// names looks up every name and unit of an expression without planning it.
//
// That is how far a function can be checked before it is called: whether its lines
// exist. What is misspelt is told at the definition, and not at each call.
//
// Trees of functions are looked through by Walk, with what binds a name taken by itself.
func (c *coder) names(x syntax.Expr) {
	if x == nil {
		return
	}
	syntax.Walk(x, func(x syntax.Expr) bool {
		switch x := x.(type) {
		case *syntax.Binary:
			c.chargePower(x)
		case *syntax.Name:
			if c.param(x.Name) != nil {
				return true
			}
			if d, ok := c.lookup(x); !ok {
				if base, _, part := AxisOf(x.Name); !part || c.param(base) == nil {
					c.unknownName(x)
				}
			} else if c.use(d); d.Failed() {
				c.needs(d, x.At)
			} else if d.Kind == Function || d.Kind == Formula {
				c.needsBrackets(d, x.At)
			}
		case *syntax.SlopeOf:
			c.names(x.Place)
			c.boundNames(x.Var, x.X)
			return false
		case *syntax.AreaUnder:
			c.names(x.From)
			c.names(x.To)
			c.boundNames(x.Var, x.X)
			return false
		case *syntax.With:
			for _, b := range x.By {
				c.names(&syntax.Name{At: b.NameAt, Name: b.Name, Line: b.Line})
			}
		case *syntax.Call:
			c.callKnown(x)
		case *syntax.Quantity:
			c.unit(x.Unit, units.AfterNumber)
		}
		return true
	})
}

// boundNames looks up the names of a curve, in which one is bound.
//
// The argument of the curve hides a name of the worksheet, inside the curve alone.
func (c *coder) boundNames(bound syntax.Ident, x syntax.Expr) {
	outer := c.params
	c.params = append(outer[:len(outer):len(outer)], param{name: bound.Name})
	c.names(x)
	c.params = outer
}

// callKnown checks that a function that is called exists.
//
// In the order in which a call looks them up: what the worksheet defines comes first.
//
// A name that is no function is told as it is in a call.
func (c *coder) callKnown(x *syntax.Call) {
	if x.Func == c.self {
		c.ownName(x.Name, x.Func)
		return
	}
	if d, ok := c.p.Names.before(x.Func, c.seen); ok && (d.Kind == Function || d.Kind == Formula) {
		c.use(d)
		if d.Failed() {
			c.needs(d, x.At)
		}
		return
	}
	if ops.IsFunction(x.Func) {
		return
	}
	if _, ok := c.libraryFormula(x.Func); ok {
		return
	}
	c.unknownCall(x)
}
