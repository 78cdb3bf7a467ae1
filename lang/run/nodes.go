package run

import (
	"math"

	"steelyard/lang/ops"
)

// node is a value of some work without its failures: kernels only tell that
// there may be one. Nodes that are equal are the same value, so that common
// parts are worked out once. A constant is an ops.Const with the bits of its
// number in k, an input an ops.Param with its number in a; ops.Nothing is what
// has no value in any lane.
type node struct {
	op      ops.Op
	a, b, c int32
	k       uint64
}

// nodes are the values of some work, each after its operands.
//
// This is value numbering: a table of all values so far, in which an equal one is found and not
// made again. Failures need no part in it, since two equal operations fail alike.
type nodes struct {
	list []node
	seen map[node]int32
}

// add returns the number of a node, the same for one that is there already.
func (g *nodes) add(n node) int32 {
	if id, ok := g.seen[n]; ok {
		return id
	}
	id := int32(len(g.list))
	g.list = append(g.list, n)
	g.seen[n] = id
	return id
}

// constant goes by bits: 0 and -0 are two constants, as 1/x tells them apart.
func (g *nodes) constant(v float64) int32 {
	return g.add(node{op: ops.Const, k: math.Float64bits(v)})
}

// value returns the number of a constant.
func (g *nodes) value(id int32) (float64, bool) {
	return math.Float64frombits(g.list[id].k), g.list[id].op == ops.Const
}

func (g *nodes) is(id int32, op ops.Op) bool { return g.list[id].op == op }

// share makes the nodes of some work and returns that of each column. It
// returns false if a step is left to the walker.
//
// A column with a cause has no value in any lane, and neither has what reads it.
func (g *nodes) share(w *work) ([]int32, bool) {
	of := make([]int32, len(w.cols))
	for i := range w.cols {
		switch col := &w.cols[i]; {
		case i < w.inputs:
			of[i] = g.add(node{op: ops.Param, a: int32(i)})
		case col.cause != 0:
			of[i] = g.add(node{op: ops.Nothing})
		case col.fixed:
			of[i] = g.constant(col.value)
		}
	}
	for i := range w.steps {
		s := &w.steps[i]
		if s.search != nil {
			return nil, false
		}
		if s.parts != nil {
			g.join(of, s)
			continue
		}
		a := of[s.from[0]]
		switch {
		case s.op == ops.Select:
			of[s.to] = g.choose(a, of[s.from[1]], of[s.from[2]])
		case s.op.Operands() == 2 && s.op.HasK():
			of[s.to] = g.add(node{op: s.op, a: a, b: of[s.from[1]], k: math.Float64bits(s.k)})
		case s.op.Operands() == 2:
			of[s.to] = g.two(s.op, a, of[s.from[1]])
		default:
			of[s.to] = g.one(s.op, a, s.k)
		}
	}
	return of, true
}

// join makes the elements of a slot nothing if one of them never has a value.
func (g *nodes) join(of []int32, s *step) {
	out := of[s.to : int(s.to)+len(s.parts)]
	for i, p := range s.parts {
		if out[i] = of[p]; g.is(of[p], ops.Nothing) {
			for k := range out {
				out[k] = of[p]
			}
			return
		}
	}
}

// choose is a selection, which has no value where its condition has none.
//
// It keeps both sides as nodes, since lanes differ in which they take.
func (g *nodes) choose(is, yes, no int32) int32 {
	if g.is(is, ops.Nothing) {
		return is
	}
	return g.add(node{op: ops.Select, a: is, b: yes, c: no})
}

// one is an operation on one number. Where the same bits come out of an
// operation that more kernels know, it is written as that: -(x·k) as x·(-k).
func (g *nodes) one(op ops.Op, a int32, k float64) int32 {
	n := g.list[a]
	switch {
	case n.op == ops.Nothing, op == ops.Copy, op == ops.Pow && k == 1:
		return a
	case op == ops.Neg && (n.op == ops.Mul || n.op == ops.Div):
		if by, ok := g.value(n.b); ok {
			return g.two(n.op, n.a, g.constant(-by))
		}
	}
	if !op.HasK() {
		k = 0 // means nothing, and must not hide a common part
	}
	return g.add(node{op: op, a: a, k: math.Float64bits(k)})
}

// two is an operation on two numbers, a constant as its second operand where
// the order doesn't matter. Each rewriting has the same bits: x - k is x + (-k);
// x/k is x·(1/k) where k is a power of two, whose inverse is exact; (-x)·k is
// x·(-k); x·x is x².
func (g *nodes) two(op ops.Op, a, b int32) int32 {
	if g.is(a, ops.Nothing) || g.is(b, ops.Nothing) {
		return g.add(node{op: ops.Nothing})
	}
	if _, ok := g.value(a); ok && (op == ops.Add || op == ops.Mul) {
		a, b = b, a
	}
	k, constant := g.value(b)
	switch {
	case constant && op == ops.Sub:
		return g.two(ops.Add, a, g.constant(-k))
	case constant && op == ops.Div && powerOfTwo(k):
		return g.two(ops.Mul, a, g.constant(1/k))
	case constant && op == ops.Mul && k == 1:
		return a
	case constant && op == ops.Mul && g.is(a, ops.Neg):
		return g.two(op, g.list[a].a, g.constant(-k))
	case op == ops.Mul && a == b:
		return g.one(ops.Pow, a, 2)
	}
	return g.add(node{op: op, a: a, b: b})
}

// powerOfTwo tells whether a number and its inverse are powers of two, and
// neither is too small to be held exactly.
func powerOfTwo(k float64) bool {
	part, exp := math.Frexp(k)
	return (part == 0.5 || part == -0.5) && exp > -1000 && exp < 1000
}
