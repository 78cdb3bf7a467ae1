package plan

import (
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
)

// Curve is an expression planned as a function of one name.
type Curve struct {
	Fn     int // number of the function
	Static run.Static
	// Cost is the number of instructions that one point takes.
	Cost int64
	// Depends tells that the expression holds the name.
	Depends  bool
	Findings []finding.Finding
	Uses     []*Def
	Root     *Def
	Absent   bool
	OK       bool
}

// CompileCurve plans an expression as a function of a name of which is known
// what the static says.
func (p *Planner) CompileCurve(x syntax.Expr, text, name string, of run.Static) Curve {
	f := &run.Func{Name: "curve", Params: 1}
	c := &coder{p: p, code: &f.Code, text: text, seen: len(p.Names.all), fn: &funcScope{name: name}}
	slot := c.emit(run.Instr{Op: ops.Param}, syntax.Span{}, of)
	c.fn.params = []param{{name: name, slot: slot}}
	out := Curve{}
	result, ok := c.expr(x)
	if ok && c.cost > maxCost {
		c.find(finding.TooLong, x.Span(), "This line would take more than a million steps.",
			"Split it into several lines.")
		ok = false
	}
	if ok {
		f.Result, f.Cost = result, c.cost
		p.Program.Funcs = append(p.Program.Funcs, f)
		out.Cost = c.cost
		out.Fn, out.Static = len(p.Program.Funcs)-1, c.static(result)
		out.Absent = out.Static.Absent
	}
	out.Depends = syntax.Holds(x, name)
	out.OK, out.Findings, out.Uses, out.Root = ok, once(c.findings), c.uses, c.root
	return out
}

// EmitAt adds an operation on a curve to the main code: ops.Call and ops.Slope at
// one slot, ops.Area between two.
func (p *Planner) EmitAt(op ops.Op, fn int, args []run.Slot, st run.Static) run.Slot {
	main := &p.Program.Main
	first := run.Slot(len(main.Args))
	main.Args = append(main.Args, args...)
	return p.Emit(run.Instr{Op: op, A: run.Slot(fn), B: first, C: run.Slot(len(args))}, st)
}

// EmitSolve adds an ops.Solve to the main code: the candidates, or the bounds of
// the search, are slots.
func (p *Planner) EmitSolve(s *run.Solve, args []run.Slot, st run.Static) run.Slot {
	main := &p.Program.Main
	first := run.Slot(len(main.Args))
	main.Args = append(main.Args, args...)
	p.Program.Solves = append(p.Program.Solves, s)
	return p.Emit(run.Instr{Op: ops.Solve, A: run.Slot(len(p.Program.Solves) - 1), B: first, C: run.Slot(len(args))}, st)
}
