package run

import (
	"math"
	"slices"

	"steelyard/lang/ops"
)

// passPlanner turns the nodes of some work into passes.
//
// A node is an operation on nodes, each made once (nodes.go). A pass is a kernel over columns:
// it may take in several nodes, as a*b + c does two, and those in between then need no column
// of their own. The fewer columns are written and read, the faster it is.
type passPlanner struct {
	m       matcher
	outputs []int32 // the node of each output
	inputs  int
	// wanted marks nodes that get a column of their own; at is its number.
	wanted []bool
	at     []int
	passes []pass
	cols   [][]float64
}

// planPasses plans the passes of some work and makes their columns. There are
// none if a lane always runs with care.
//
// That is where a step has no kernel, as an area, or where an output never has a value.
func planPasses(w *work) ([]pass, [][]float64) {
	g := &nodes{seen: make(map[node]int32, 2*len(w.cols))}
	of, ok := g.share(w)
	if !ok {
		return nil, nil
	}
	p := &passPlanner{m: matcher{g: g, uses: make([]int32, len(g.list))}, inputs: w.inputs,
		wanted: make([]bool, len(g.list)), at: make([]int, len(g.list))}
	for _, col := range w.outputs {
		p.outputs = append(p.outputs, of[col])
		if g.is(of[col], ops.Nothing) {
			return nil, nil
		}
	}
	p.count()
	p.choose()
	p.place()
	return p.passes, p.cols
}

// count counts what reads each node that an output needs; outputs are read
// from outside too. A node that several read has to have a column: taken in by each, it
// would be worked out as often.
//
// An output counts twice, so that no kernel takes it in.
func (p *passPlanner) count() {
	uses, list := p.m.uses, p.m.g.list
	for _, id := range p.outputs {
		uses[id] += 2
		p.wanted[id] = true
	}
	for id := len(list) - 1; id >= 0; id-- {
		n := &list[id]
		if uses[id] == 0 || n.op == ops.Param {
			continue
		}
		operands := [3]int32{n.a, n.b, n.c}
		for _, o := range operands[:n.op.Operands()] {
			uses[o]++
		}
	}
}

// choose finds the kernel of each node that gets a column, the last node first:
// what it takes in on the way needs none. In the passes, nodes are named in the
// place of their columns.
//
// From the last on, since a node's kernel settles which of its operands are wanted.
func (p *passPlanner) choose() {
	list := p.m.g.list
	for id := int32(len(list)) - 1; id >= 0; id-- {
		n := &list[id]
		if !p.wanted[id] || n.op == ops.Param || n.op == ops.Const || n.op == ops.Nothing {
			continue
		}
		q := pass{to: int(id), run: selectXYZ, from: [3]int{int(n.a), int(n.b), int(n.c)}}
		if n.op != ops.Select {
			k := p.m.find(id)
			x, y := int(p.m.leaves[0]), int(p.m.leaves[1])
			if y == noNode {
				y = x
			}
			q.run, q.k, q.from = k.run, p.m.k, [3]int{x, y, x}
		}
		for _, from := range q.from {
			p.wanted[from] = true
		}
		p.passes = append(p.passes, q)
	}
	slices.Reverse(p.passes)
}

// place gives every node that is wanted a column: an input's, an output's, one
// of constants, or one of the workspace, which is used again once nothing more
// reads it.
//
// An output that is an input, a constant, or another output too, is copied at the end.
func (p *passPlanner) place() {
	list := p.m.g.list
	p.cols = make([][]float64, p.inputs+len(p.outputs))
	for id := range p.at {
		p.at[id] = noNode
		switch n := &list[id]; {
		case !p.wanted[id]:
		case n.op == ops.Param:
			p.at[id] = int(n.a)
		case n.op == ops.Const:
			p.at[id] = p.column(math.Float64frombits(n.k))
		case n.op == ops.Nothing:
			p.at[id] = p.column(math.NaN())
		}
	}
	var copies []pass
	for i, id := range p.outputs {
		if to := p.inputs + i; p.at[id] == noNode {
			p.at[id] = to
		} else {
			copies = append(copies, pass{run: kernelCopyX, to: to, from: [3]int{p.at[id], p.at[id], p.at[id]}})
		}
	}
	p.workspace()
	for i := range p.passes {
		q := &p.passes[i]
		q.to = p.at[q.to]
		for j, id := range q.from {
			q.from[j] = p.at[id]
		}
	}
	p.passes = append(p.passes, copies...)
}

// column adds a column of one number.
func (p *passPlanner) column(v float64) int {
	p.cols = append(p.cols, slices.Repeat([]float64{v}, blockLanes))
	return len(p.cols) - 1
}

// workspace gives the passes that make no output a column each.
//
// Columns are few where they are used again, and few columns of a block stay in the
// cache. The operands of a pass are freed behind it, so that none writes over what it
// still reads.
func (p *passPlanner) workspace() {
	last := make([]int, len(p.at)) // the last pass that reads a node
	for i, q := range p.passes {
		for _, id := range q.from {
			last[id] = i
		}
	}
	own := len(p.cols)
	var free []int
	for i, q := range p.passes {
		if p.at[q.to] == noNode {
			if len(free) == 0 {
				free = append(free, p.column(0))
			}
			p.at[q.to], free = free[len(free)-1], free[:len(free)-1]
		}
		for j, id := range q.from {
			if last[id] == i && p.at[id] >= own && !slices.Contains(q.from[:j], id) {
				free = append(free, p.at[id])
			}
		}
	}
}
