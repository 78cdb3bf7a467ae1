package run

import (
	"math"
	"slices"

	"steelyard/lang/ops"
)

// passPlanner turns the nodes of some work into passes.
type passPlanner struct {
	m       matcher
	outputs []int32 // the node of each output
	inputs  int
	// wanted marks nodes that get a column of their own; at is its number.
	wanted []bool
	at     []int
	passes []pass
	reads  [][3]int32 // the nodes that each pass reads
	makes  []int32    // the node that it makes
	seen   []bool     // per input: a kernel that isn't blind reads it
	cols   [][]float64
}

// planPasses plans the passes of some work and makes their columns. There are
// none if a lane always runs with care.
func planPasses(w *work) ([]pass, [][]float64) {
	g := &nodes{seen: make(map[node]int32, 2*len(w.cols))}
	of, ok := g.share(w)
	if !ok {
		return nil, nil
	}
	p := &passPlanner{m: matcher{g: g, uses: make([]int32, len(g.list))}, inputs: w.inputs,
		wanted: make([]bool, len(g.list)), at: make([]int, len(g.list)), seen: make([]bool, w.inputs)}
	for _, col := range w.outputs {
		p.outputs = append(p.outputs, of[col])
		if g.is(of[col], ops.Nothing) {
			return nil, nil
		}
	}
	p.count()
	if !p.choose() || !p.place() {
		return nil, nil
	}
	return p.passes, p.cols
}

// count counts what reads each node that an output needs; outputs are read
// from outside too.
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
// what it takes in on the way needs none.
func (p *passPlanner) choose() bool {
	list := p.m.g.list
	for id := int32(len(list)) - 1; id >= 0; id-- {
		n := &list[id]
		if !p.wanted[id] {
			continue
		}
		reads := [3]int32{noNode, noNode, noNode}
		q := pass{}
		switch n.op {
		case ops.Param, ops.Const, ops.Nothing:
			continue
		case ops.Select:
			reads = [3]int32{n.a, n.b, n.c}
			q.run = selectXYZ
		default:
			k := p.m.find(id)
			if k == nil {
				return false
			}
			q.run = k.run
			q.k = p.m.k
			for i, leaf := range p.m.leaves {
				reads[i] = leaf
				if leaf != noNode && list[leaf].op == ops.Param && !k.blind {
					p.seen[list[leaf].a] = true
				}
			}
		}
		for _, leaf := range reads {
			if leaf != noNode {
				p.wanted[leaf] = true
			}
		}
		p.passes, p.reads, p.makes = append(p.passes, q), append(p.reads, reads), append(p.makes, id)
	}
	slices.Reverse(p.passes)
	slices.Reverse(p.reads)
	slices.Reverse(p.makes)
	return true
}

// place gives every node that is wanted a column: an input's, an output's, one
// of constants, or one of the workspace, which is used again once nothing more
// reads it.
func (p *passPlanner) place() bool {
	list := p.m.g.list
	p.cols = make([][]float64, p.inputs+len(p.outputs))
	for id := range p.at {
		p.at[id] = noNode
		switch n := &list[id]; {
		case !p.wanted[id]:
		case n.op == ops.Param:
			p.at[id] = int(n.a)
		case n.op == ops.Const:
			p.at[id] = p.constant(math.Float64frombits(n.k))
		case n.op == ops.Nothing:
			p.at[id] = p.constant(math.NaN())
		}
	}
	var copies []pass
	for i, id := range p.outputs {
		to := p.inputs + i
		if p.at[id] == noNode {
			p.at[id] = to
			continue
		}
		if list[id].op == ops.Param {
			p.seen[list[id].a] = true
		}
		copies = append(copies, pass{run: kernelCopyX, to: to, from: [3]int{p.at[id], p.at[id], p.at[id]}})
	}
	p.workspace()
	for i := range p.passes {
		q := &p.passes[i]
		if q.to = p.at[p.makes[i]]; q.to < p.inputs {
			return false
		}
		for j, id := range p.reads[i] {
			q.from[j] = q.from[0]
			if id != noNode {
				q.from[j] = p.at[id]
			}
			if q.from[j] < 0 || q.from[j] >= len(p.cols) {
				return false
			}
		}
	}
	p.passes = append(p.passes, copies...)
	for i, seen := range p.seen {
		if !seen && p.m.uses[i] > 0 { // the first nodes are the inputs
			p.passes = append([]pass{{run: finiteOnly, from: [3]int{i, i, i}, to: i}}, p.passes...)
		}
	}
	return true
}

// constant adds a column of one number.
func (p *passPlanner) constant(v float64) int {
	col := make([]float64, blockLanes)
	for i := range col {
		col[i] = v
	}
	p.cols = append(p.cols, col)
	return len(p.cols) - 1
}

// workspace gives the passes that make no output a column each.
func (p *passPlanner) workspace() {
	last := make([]int, len(p.at)) // the last pass that reads a node
	for i, reads := range p.reads {
		for _, id := range reads {
			if id != noNode {
				last[id] = i
			}
		}
	}
	own := len(p.cols)
	var free []int
	for i, id := range p.makes {
		if p.at[id] == noNode {
			if len(free) == 0 {
				p.cols = append(p.cols, make([]float64, blockLanes))
				free = append(free, len(p.cols)-1)
			}
			p.at[id], free = free[len(free)-1], free[:len(free)-1]
		}
		for j, read := range p.reads[i] {
			if read != noNode && last[read] == i && p.at[read] >= own && !slices.Contains(p.reads[i][:j], read) {
				free = append(free, p.at[read])
			}
		}
	}
}
