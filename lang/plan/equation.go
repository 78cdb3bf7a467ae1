package plan

import (
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
)

// Planned is an equation planned for one unknown: two functions of it.
type Planned struct {
	// Difference is the number of the function left - right, and Size that of
	// the greatest term of both sides, by which a remainder is judged.
	Difference, Size int
	// Unknown is what the equation says of the unknown, before any number is
	// known.
	Unknown  run.Static
	Findings []finding.Finding
	Uses     []*Def
	Root     *Def
	// Absent tells that a symbol without a value stands in the equation.
	Absent bool
	OK     bool
}

// CompileEquation plans left = right as a function of the unknown. The
// dimension of the unknown follows from the equation alone.
func (p *Planner) CompileEquation(left, right syntax.Expr, text, unknown string) Planned {
	return p.CompileFor(left, right, text, []string{unknown}, p.Unknowns(1))
}

// Unknowns returns what is known of some unknowns before any equation: nothing.
// Equations planned with them settle their dimensions together.
func (p *Planner) Unknowns(n int) []run.Static {
	out := make([]run.Static, n)
	for i := range out {
		out[i] = p.newZero()
	}
	return out
}

// Settled is what the equations planned so far say of an unknown.
func (p *Planner) Settled(s run.Static) run.Static { return p.settledStatic(s) }

// CompileFor plans left = right as a function of several unknowns, of which is
// known what the statics say. Unknown in the result is the first.
func (p *Planner) CompileFor(left, right syntax.Expr, text string, unknowns []string, statics []run.Static) Planned {
	f := &run.Func{Name: "equation", Params: len(unknowns)}
	c := &coder{p: p, code: &f.Code, text: text, seen: len(p.Names.all), fn: &funcScope{name: unknowns[0]}}
	open := statics[0]
	for i, name := range unknowns {
		slot := c.emit(run.Instr{Op: ops.Param, A: run.Slot(i)}, syntax.Span{}, statics[i])
		c.fn.params = append(c.fn.params, param{name: name, slot: slot})
	}
	l, ok1 := c.expr(left)
	r, ok2 := c.expr(right)
	out := Planned{}
	if ok1 && ok2 {
		sl, sr := c.static(l), c.static(r)
		if _, ok := p.agree(sl, sr); !ok {
			c.unlike(left.Span().Join(right.Span()), left, right, l, r, "set equal")
		} else {
			out.OK = true
			out.Absent = sl.Absent || sr.Absent
			c.difference(f, l, r)
			out.Difference, out.Size = len(p.Program.Funcs)-2, len(p.Program.Funcs)-1
		}
	}
	out.Findings, out.Uses, out.Root = once(c.findings), c.uses, c.root
	out.Unknown = p.settledStatic(open)
	if out.OK && c.cost > maxCost {
		out.OK = false
	}
	return out
}

// difference adds to the program the function left - right and the one that
// gives its greatest term.
func (c *coder) difference(f *run.Func, l, r run.Slot) {
	st := c.static(l)
	result := c.emit(run.Instr{Op: ops.Sub, A: l, B: r}, syntax.Span{}, st)
	f.Result, f.Cost = result, c.cost
	size := run.NoSlot
	for _, t := range addends(&f.Code, result) {
		s := c.emit(run.Instr{Op: ops.Abs, A: t}, syntax.Span{}, st)
		if size == run.NoSlot {
			size = s
		} else {
			size = c.emit(run.Instr{Op: ops.Max, A: size, B: s}, syntax.Span{}, st)
		}
	}
	g := &run.Func{Name: f.Name, Code: f.Code, Params: f.Params, Result: size, Cost: c.cost}
	f.Code.Instrs = f.Code.Instrs[:result+1]
	f.Code.At, f.Code.Statics = f.Code.At[:result+1], f.Code.Statics[:result+1]
	c.p.Program.Funcs = append(c.p.Program.Funcs, f, g)
}

// addends lists the slots that are added up in a slot.
func addends(code *run.Code, s run.Slot) []run.Slot {
	switch in := code.Instrs[s]; in.Op {
	case ops.Add, ops.Sub:
		return append(addends(code, in.A), addends(code, in.B)...)
	case ops.Neg:
		return addends(code, in.A)
	}
	return []run.Slot{s}
}

// EmitCall adds to the main code a call of a function of one number.
func (p *Planner) EmitCall(fn int, arg run.Slot) run.Slot {
	main := &p.Program.Main
	first := run.Slot(len(main.Args))
	main.Args = append(main.Args, arg)
	return p.Emit(run.Instr{Op: ops.Call, A: run.Slot(fn), B: first, C: 1}, run.Static{})
}
