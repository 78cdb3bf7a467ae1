package plan

import (
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
)

// body starts the code of a function, in which the first definitions up to seen
// are known. Within it nothing is replaced: what is replaced becomes a further
// argument of the whole function.
//
// It has a code of its own, whose slots begin at 0; what it needs of the main code it
// loads.
func (p *Planner) body(name, text string, seen int32) *coder {
	f := &run.Func{Name: name}
	return &coder{p: p, fn: f, code: &f.Code, text: text, seen: seen}
}

// takes gives the function that is planned one more parameter.
func (c *coder) takes(name string, st run.Static) {
	s := c.emit(run.Instr{Op: ops.Param, A: run.Slot(len(c.params))}, syntax.Span{}, st)
	c.params = append(c.params, param{name: name, slot: s})
}

// ends makes the function that was planned one of the program, and returns its
// number.
func (c *coder) ends(result run.Slot) int {
	f := c.fn
	f.Params, f.Result, f.Cost, f.Depth = len(c.params), result, c.cost, c.depth+1
	c.p.Program.Funcs = append(c.p.Program.Funcs, f)
	return len(c.p.Program.Funcs) - 1
}

// Planned is an expression or an equation, planned as a function of some names.
type Planned struct {
	Fn int // its number in the program
	// Static is what is known of what it gives; for an equation of left - right.
	Static run.Static
	// Cost is the number of instructions that one call takes.
	Cost     int64
	Findings []finding.Finding
	Uses     []*Def
	Root     *Def
	OK       bool
}

// CompileOf plans an expression, or the two sides of an equation, as a function
// of names of which is known what the statics say. The dimensions of bare zeros
// among them follow from an equation.
//
// The one plan serves all who work with many values of a name: curves, searches for
// roots, slopes and areas. An equation is the difference of its sides, whose zeros are
// its solutions.
func (p *Planner) CompileOf(text string, names []string, of []run.Static, sides ...syntax.Expr) Planned {
	c := p.body("curve", text, p.Names.count())
	for i, name := range names {
		c.takes(name, of[i])
	}
	out := Planned{OK: true}
	slots := make([]run.Slot, len(sides))
	at := sides[0].Span()
	for i, x := range sides {
		slots[i], at = c.expr(x), at.Join(x.Span())
		out.OK = out.OK && slots[i] != run.NoSlot
	}
	result := slots[0]
	if out.OK && len(sides) > 1 {
		result = c.difference(sides, slots, at)
	}
	if out.OK = !c.tooLong(at) && out.OK && result != run.NoSlot && c.single(sides[0], result); out.OK {
		out.Cost, out.Static = c.cost, c.static(result)
		out.Fn = c.ends(result)
	}
	out.Findings, out.Uses, out.Root = once(c.findings), c.uses, c.root
	return out
}

// CompileVarying plans an expression as a function of a given that it was worked out
// from; st is what is known of the values that stand for the given.
func (p *Planner) CompileVarying(text string, d *Def, st run.Static, x syntax.Expr) Planned {
	c := p.body("curve", text, p.Names.count())
	c.takes(d.Name, st)
	c.varying(d, c.params[0].slot, x.Span())
	result := c.expr(x)
	if c.replacing.failed || c.tooLong(x.Span()) || result == run.NoSlot || !c.single(x, result) {
		return Planned{Findings: once(c.findings)}
	}
	return Planned{OK: true, Cost: c.cost, Static: c.static(result), Fn: c.ends(result), Uses: c.uses}
}

// difference plans the left side of an equation less the right one.
func (c *coder) difference(sides []syntax.Expr, slots []run.Slot, at syntax.Span) run.Slot {
	l, r := c.static(slots[0]), c.static(slots[1])
	if c.zeroOfScale(sides[0], sides[1], l, r) {
		return run.NoSlot
	}
	if _, ok := c.p.agree(l, r); !ok {
		return c.unlike(at, sides[0], sides[1], slots[0], slots[1], "set equal")
	}
	st := c.static(slots[0])
	st.Absent = l.Absent || r.Absent
	return c.emit(run.Instr{Op: ops.Sub, A: slots[0], B: slots[1]}, syntax.Span{}, st)
}

// Unknowns returns what is known of some unknowns before any equation: nothing.
// Equations planned with them settle their dimensions together.
//
// In `solve F = m*a for a` nothing tells what a is but the equation, and the finding
// names its unit from that.
func (p *Planner) Unknowns(n int) []run.Static {
	out := make([]run.Static, n)
	for i := range out {
		out[i] = p.newZero()
	}
	return out
}

// Settled is what the equations planned so far say of an unknown.
func (p *Planner) Settled(s run.Static) run.Static { return p.settledStatic(s) }

// tooLong tells that what is planned takes more steps than a line may, and says
// so.
func (c *coder) tooLong(at syntax.Span) bool {
	if c.cost <= maxCost {
		return false
	}
	c.find(finding.TooLong, at, "This line would take more than a million steps.", "Split it into several lines.")
	return true
}
