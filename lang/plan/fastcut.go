package plan

import (
	"math"

	"steelyard/lang/ops"
	"steelyard/lang/run"
)

// fastMost is the most nodes that a fast plan is cut into kernels for.
const fastMost = 1 << 14

// fastCutter takes from a program what some outputs need.
type fastCutter struct {
	p       *run.Program
	st      *run.State
	input   map[run.Slot]int // the column of each varying slot
	need    []bool           // per slot of the main code
	varies  []bool
	nodes   []fastID
	funcs   map[run.Slot]*fastFuncFacts
	g       fastGraph
	budget  int
	extreme bool
}

// fastFuncFacts is what matters of a function from outside.
type fastFuncFacts struct{ loads []run.Slot }

// FastOf plans the work of finding outputs from columns of the slots in varying,
// whatever instructions gave those before. Slots that don't depend on them have
// the value that they have in st. It returns false if st hasn't run as far as
// the slots asked for.
func FastOf(p *run.Program, st *run.State, outputs, varying []run.Slot) (*Fast, bool) {
	most := run.Slot(-1)
	for _, s := range outputs {
		most = max(most, s)
	}
	for _, s := range append(outputs[:len(outputs):len(outputs)], varying...) {
		if s < 0 || s >= st.Len() || int(s) >= len(p.Main.Instrs) {
			return nil, false
		}
	}
	c := &fastCutter{
		p: p, st: st, budget: fastMost,
		input:  make(map[run.Slot]int, len(varying)),
		need:   make([]bool, most+1),
		varies: make([]bool, most+1),
		funcs:  map[run.Slot]*fastFuncFacts{},
	}
	for i, s := range varying {
		c.input[s] = i
	}
	c.mark(outputs)
	f := &Fast{inputs: len(varying), outputs: len(outputs), block: fastLongBlock}
	f.careful = c.careful(outputs, len(varying))
	c.g.seen = map[fastNode]fastID{}
	roots, ok := c.build(outputs)
	if !ok || c.extreme {
		f.plain = true
		return f, true
	}
	newFastEmitter(f, &c.g, roots).emitAll()
	return f, true
}

// mark finds what the outputs need and which of it varies.
func (c *fastCutter) mark(outputs []run.Slot) {
	for _, s := range outputs {
		c.need[s] = true
	}
	for s := run.Slot(len(c.need) - 1); s >= 0; s-- {
		if _, in := c.input[s]; c.need[s] && !in {
			c.operands(&c.p.Main, s, func(o run.Slot) { c.need[o] = true })
		}
	}
	for s := range run.Slot(len(c.need)) {
		if _, in := c.input[s]; in {
			c.varies[s] = true
		} else if c.need[s] {
			c.operands(&c.p.Main, s, func(o run.Slot) { c.varies[s] = c.varies[s] || c.varies[o] })
		}
	}
}

// operands calls f with every slot of the main code that instruction s of it
// reads, those that functions load included.
func (c *fastCutter) operands(code *run.Code, s run.Slot, f func(run.Slot)) {
	in := &code.Instrs[s]
	switch {
	case in.Op == ops.Call, in.Op == ops.Slope, in.Op == ops.Area:
		for _, a := range code.Args[in.B : in.B+in.C] {
			f(a)
		}
		for _, l := range c.facts(in.A).loads {
			if int(l) < len(c.need) {
				f(l)
			}
		}
	case in.Op == ops.Solve:
		for _, a := range code.Args[in.B : in.B+in.C] {
			f(a)
		}
		for _, fn := range c.p.Solves[in.A].Functions() {
			for _, l := range c.facts(run.Slot(fn)).loads {
				if int(l) < len(c.need) {
					f(l)
				}
			}
		}
	case in.Op == ops.Select:
		f(in.A)
		f(in.B)
		f(in.C)
	case in.Op == ops.Load:
		f(in.A)
	case in.Op.Operands() == 2:
		f(in.A)
		f(in.B)
	case in.Op.Operands() == 1:
		f(in.A)
	}
}

// facts returns the slots that a function and those it calls load.
func (c *fastCutter) facts(index run.Slot) *fastFuncFacts {
	if known, ok := c.funcs[index]; ok {
		return known
	}
	out := &fastFuncFacts{}
	c.funcs[index] = out
	seen := map[run.Slot]bool{}
	note := func(s run.Slot) {
		if !seen[s] {
			seen[s] = true
			out.loads = append(out.loads, s)
		}
	}
	for _, in := range c.p.Funcs[index].Code.Instrs {
		switch in.Op {
		case ops.Load:
			note(in.A)
		case ops.Call:
			for _, s := range c.facts(in.A).loads {
				note(s)
			}
		}
	}
	return out
}

// varying tells whether a slot differs between lanes.
func (c *fastCutter) varying(s run.Slot) bool { return int(s) < len(c.varies) && c.varies[s] }

// fixedValue is the value of a slot that doesn't vary, not a number if it has
// none.
func (c *fastCutter) fixedValue(s run.Slot) float64 {
	v, ok := c.st.Value(s)
	if !ok {
		return math.NaN()
	}
	return v
}

// build makes the nodes of the outputs.
func (c *fastCutter) build(outputs []run.Slot) ([]fastID, bool) {
	c.nodes = make([]fastID, len(c.need))
	for s := range run.Slot(len(c.need)) {
		i, in := c.input[s]
		switch {
		case !c.need[s]:
		case in:
			c.nodes[s] = c.g.input(i)
		case !c.varies[s]:
			c.nodes[s] = c.scalar(c.fixedValue(s))
		default:
			id, ok := c.node(&c.p.Main, s, c.nodes, nil)
			if !ok {
				return nil, false
			}
			c.nodes[s] = id
		}
	}
	roots := make([]fastID, len(outputs))
	for i, s := range outputs {
		roots[i] = c.nodes[s]
	}
	return roots, true
}

// scalar returns a constant node, and notes one near the ends of the range.
func (c *fastCutter) scalar(v float64) fastID {
	if a := math.Abs(v); a != 0 && a-a == 0 && (a < 1e-100 || a > 1e100) {
		c.extreme = true
	}
	return c.g.constant(v)
}

// node makes the node of one instruction from those of its operands.
func (c *fastCutter) node(code *run.Code, s run.Slot, nodes, params []fastID) (fastID, bool) {
	if c.budget--; c.budget < 0 {
		return fastNone, false
	}
	g := &c.g
	in := code.Instrs[s]
	switch in.Op {
	case ops.Const:
		return c.scalar(in.K), true
	case ops.Param:
		if int(in.A) < len(params) {
			return params[in.A], true
		}
		return g.constant(math.NaN()), true
	case ops.Solve, ops.Slope, ops.Area: // a search is run lane by lane
		return fastNone, false
	case ops.Nothing:
		return g.constant(math.NaN()), true
	case ops.Load:
		if c.varying(in.A) {
			return c.nodes[in.A], true
		}
		return c.scalar(c.fixedValue(in.A)), true
	case ops.Call:
		return c.inline(code, &in, nodes)
	case ops.Select:
		return c.choose(nodes[in.A], nodes[in.B], nodes[in.C]), true
	case ops.Copy:
		return nodes[in.A], true
	case ops.Neg:
		return g.scaled(nodes[in.A], -1), true
	case ops.Add:
		return g.plus(nodes[in.A], nodes[in.B]), true
	case ops.Sub:
		return g.plus(nodes[in.A], g.scaled(nodes[in.B], -1)), true
	case ops.Mul:
		return g.times(nodes[in.A], nodes[in.B], 1), true
	case ops.Div:
		return g.times(nodes[in.A], nodes[in.B], -1), true
	case ops.Pow:
		return g.power(nodes[in.A], in.K), true
	case ops.PowVar:
		if k, ok := g.value(nodes[in.B]); ok && k-k == 0 {
			return g.power(nodes[in.A], k), true
		}
	case ops.Root:
		if in.K == 2 {
			return g.power(nodes[in.A], 0.5), true
		}
	}
	if in.Op.Operands() == 1 {
		if in.Op != ops.Root {
			in.K = 0 // means nothing, and must not hide a common part
		}
		return g.function(in, nodes[in.A], fastNone, fastNone), true
	}
	in.K = 0
	return g.function(in, nodes[in.A], nodes[in.B], fastNone), true
}

// choose picks a branch at once where the condition doesn't vary.
func (c *fastCutter) choose(cond, yes, no fastID) fastID {
	if v, ok := c.g.value(cond); ok && v-v == 0 {
		if v == 1 {
			return yes
		}
		return no
	}
	return c.g.function(run.Instr{Op: ops.Select}, cond, yes, no)
}

// inline puts the body of a function in the place of its call.
func (c *fastCutter) inline(code *run.Code, in *run.Instr, nodes []fastID) (fastID, bool) {
	f := c.p.Funcs[in.A]
	args := make([]fastID, in.C)
	for i, s := range code.Args[in.B : in.B+in.C] {
		args[i] = nodes[s]
	}
	body := make([]fastID, len(f.Code.Instrs))
	for s := range run.Slot(len(body)) {
		id, ok := c.node(&f.Code, s, body, args)
		if !ok {
			return fastNone, false
		}
		body[s] = id
	}
	return body[f.Result], true
}
