package plan

import (
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
)

// Planned is an equation planned for one unknown: a function of it.
type Planned struct {
	// Difference is the number of the function left - right.
	Difference int
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
			f.Result = c.emit(run.Instr{Op: ops.Sub, A: l, B: r}, syntax.Span{}, c.static(l))
			f.Cost = c.cost
			p.Program.Funcs = append(p.Program.Funcs, f)
			out.Difference = len(p.Program.Funcs) - 1
		}
	}
	out.Findings, out.Uses, out.Root = once(c.findings), c.uses, c.root
	out.Unknown = p.settledStatic(open)
	if out.OK && c.cost > maxCost {
		out.OK = false
	}
	return out
}
