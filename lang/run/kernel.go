package run

import (
	"math"

	"steelyard/lang/ops"
)

//go:generate go run ../../cmd/kernelgen

// pass is one kernel over the columns of a block.
type pass struct {
	run        func(*pass) int
	d, x, y, z []float64  // the result and the operands, of one length
	k          [4]float64 // constants
	through    bool       // go on to the end whatever is in doubt
	to         int        // the number of the result's column
	from       [3]int     // those of the operands
}

// kernel is a loop over lanes and what it works out: a tree of operations, each
// before its operands. From the first lane on it returns how many it is sure
// of: no value there, nor any on the way, is infinite, not a number, or a zero
// that may hide a number too small to hold.
type kernel struct {
	shape []ops.Op
	power float64 // the exponent of its ops.Pow, 0 if any will do
	run   func(*pass) int
}

// What stands at the end of a shape's branches: columns, and constants.
const (
	leafX    = ops.Op(ops.Count) + iota
	leafY    //
	leafZero // a constant of 0
	leafK0   // any constant but a 0 that makes a product or a quotient 0
	leafK1   //
	leafK2   //
	leafK3   //
)

// greatest is the size up to which a constant can be added to any number that
// is finite without the sum being infinite: half a step at the end of the
// range.
const greatest = 0x1p969

// matcher finds the kernel of a node.
//
// A kernel is the text of a chain of operations with its brackets in the places that the
// single line has them: what it works out has the bits of the single line. So a chain is
// matched as it is, but for the order of sums and products, which changes no bit.
type matcher struct {
	g *nodes
	// uses counts what reads a node; one that is read once may be worked out
	// on the way.
	uses []int32
	// spread lets constants be columns.
	spread bool

	power  float64 // of the kernel that is tried
	leaves [2]int32
	k      [4]float64
}

// noNode is the number of no node.
const noNode = -1

// find returns the kernel that does most of a node at once; its operands are
// the leaves, its constants k. Every operation has one of its own, the last to be tried.
func (m *matcher) find(id int32) *kernel {
	for _, spread := range [2]bool{false, true} {
		m.spread = spread
		for i := range kernels {
			k := &kernels[i]
			if k.shape[0] != m.g.list[id].op {
				continue
			}
			m.power, m.leaves = k.power, [2]int32{noNode, noNode}
			if _, ok := m.node(k.shape, id, true); ok {
				return k
			}
		}
	}
	return nil
}

// node matches the operation that a shape begins with, and returns what follows
// its operands in the shape.
func (m *matcher) node(shape []ops.Op, id int32, root bool) ([]ops.Op, bool) {
	n := &m.g.list[id]
	if n.op != shape[0] || !root && m.uses[id] != 1 {
		return nil, false
	}
	if n.op.HasK() {
		k := math.Float64frombits(n.k)
		if m.power != 0 && k != m.power {
			return nil, false
		}
		if m.power == 0 {
			m.k[0] = k
		}
	}
	if n.op.Operands() == 1 {
		return m.operand(shape[1:], n.a, false)
	}
	leaves, k := m.leaves, m.k
	rest, ok := m.operands(shape[1:], n.op, n.a, n.b)
	if !ok && (n.op == ops.Add || n.op == ops.Mul) { // the order doesn't matter
		m.leaves, m.k = leaves, k
		rest, ok = m.operands(shape[1:], n.op, n.b, n.a)
	}
	return rest, ok
}

// operands matches both operands in their order. A factor, or a dividend, that is 0 makes the
// result 0, which the kernels with a constant there are not made for.
func (m *matcher) operands(shape []ops.Op, op ops.Op, a, b int32) ([]ops.Op, bool) {
	rest, ok := m.operand(shape, a, op == ops.Mul || op == ops.Div)
	if ok {
		rest, ok = m.operand(rest, b, op == ops.Mul)
	}
	return rest, ok
}

// operand matches an operand; scales tells that a 0 there makes the result 0.
func (m *matcher) operand(shape []ops.Op, id int32, scales bool) ([]ops.Op, bool) {
	k, constant := m.g.value(id)
	rest := shape[1:]
	switch shape[0] {
	case leafX, leafY:
		at := &m.leaves[shape[0]-leafX]
		if constant && !m.spread || *at != noNode && *at != id {
			return nil, false
		}
		*at = id
		return rest, true
	case leafZero:
		m.k[0] = k
		return rest, constant && k == 0
	case leafK0, leafK1, leafK2, leafK3:
		m.k[shape[0]-leafK0] = k
		return rest, constant && math.Abs(k) < greatest && (k != 0 || !scales)
	}
	return m.node(shape, id, false)
}

// single is the kernel of an operation by itself, on columns alone; the constant
// of a power or a root is its first.
func single(op ops.Op, k float64) func(*pass) int {
	var any func(*pass) int
	for i := range kernels {
		kernel := &kernels[i]
		if kernel.shape[0] != op || len(kernel.shape) != 1+op.Operands() || kernel.shape[len(kernel.shape)-1] != leafX+ops.Op(op.Operands()-1) {
			continue
		}
		if kernel.power == k {
			return kernel.run
		}
		if kernel.power == 0 {
			any = kernel.run
		}
	}
	return any
}

// selectXYZ takes y where x is 1, else z.
func selectXYZ(p *pass) int {
	d := p.d
	x, y, z := p.x[:len(d)], p.y[:len(d)], p.z[:len(d)]
	for i := range d {
		v := z[i]
		if x[i] == 1 {
			v = y[i]
		}
		if d[i] = v; v-v != 0 || x[i]-x[i] != 0 {
			return i &^ (group - 1)
		}
	}
	return len(d)
}
