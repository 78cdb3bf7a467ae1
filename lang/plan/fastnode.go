package plan

import (
	"math"
	"slices"

	"steelyard/lang/ops"
	"steelyard/lang/run"
)

// fastID names a node of a fast plan before it is cut into kernels.
type fastID int32

type fastKind uint8

const (
	fastConst    fastKind = iota // k, the same in every lane
	fastInput                    // column number a
	fastProduct                  // k times the factors
	fastSum                      // a + b
	fastFunction                 // op of a, b, c; k as in Instr
	fastGuard                    // a, unless b has no value
)

const (
	fastMaxFactors = 6
	fastMaxPower   = 4
)

// fastFactor is a node to a small whole power, negative below the line.
type fastFactor struct {
	id  fastID
	exp int8
}

// fastNode is one value. Products are kept flat, with their constants gathered
// in k, so that one multiplication serves for all of them; sums are kept as
// they were written, because adding in another order or multiplying out can
// lose every digit where terms cancel. A node is comparable: common parts are
// found by looking the node up.
type fastNode struct {
	kind    fastKind
	op      ops.Op
	a, b, c fastID
	k       float64
	n       int8
	factors [fastMaxFactors]fastFactor
}

// fastGraph holds the nodes of a fast plan, each once.
type fastGraph struct {
	nodes []fastNode
	seen  map[fastNode]fastID
	// size bounds, as a power of ten, what a node can reach from inputs of
	// ordinary size; above fastBound it may be infinite.
	size []float64
	// shaky marks a node that may have no value for another reason.
	shaky []bool
}

const fastNone fastID = -1

func (g *fastGraph) add(n fastNode) fastID {
	if id, ok := g.seen[n]; ok {
		return id
	}
	id := fastID(len(g.nodes))
	g.nodes = append(g.nodes, n)
	g.seen[n] = id
	size, shaky := g.sizeOf(&n)
	g.size, g.shaky = append(g.size, size), append(g.shaky, shaky)
	return id
}

func (g *fastGraph) constant(v float64) fastID {
	return g.add(fastNode{kind: fastConst, k: v, a: fastNone, b: fastNone, c: fastNone})
}

func (g *fastGraph) input(i int) fastID {
	return g.add(fastNode{kind: fastInput, a: fastID(i), b: fastNone, c: fastNone})
}

// value returns the number of a constant node.
func (g *fastGraph) value(id fastID) (float64, bool) {
	n := &g.nodes[id]
	return n.k, n.kind == fastConst
}

// fastIsOrdinary tells whether a gathered constant is far enough from the ends of the
// range for the order of multiplication not to matter.
func fastIsOrdinary(v float64) bool {
	v = math.Abs(v)
	return v > 1e-150 && v < 1e150
}

// product returns a node seen as a product.
func (g *fastGraph) product(id fastID) fastNode {
	if n := g.nodes[id]; n.kind == fastProduct {
		return n
	}
	p := fastNode{kind: fastProduct, a: fastNone, b: fastNone, c: fastNone, k: 1, n: 1}
	p.factors[0] = fastFactor{id, 1}
	return p
}

// scaled returns c times a node.
func (g *fastGraph) scaled(id fastID, c float64) fastID {
	if v, ok := g.value(id); ok {
		return g.constant(v * c)
	}
	if c == 1 {
		return id
	}
	p := g.product(id)
	if k := p.k * c; p.k == 1 || math.Abs(c) == 1 || fastIsOrdinary(k) && fastIsOrdinary(p.k) && fastIsOrdinary(c) {
		p.k = k
		return g.finish(p)
	}
	p = fastNode{kind: fastProduct, a: fastNone, b: fastNone, c: fastNone, k: c, n: 1}
	p.factors[0] = fastFactor{id, 1}
	return g.add(p)
}

// finish adds a product, guarded where it divides.
func (g *fastGraph) finish(p fastNode) fastID {
	id := g.canonical(p)
	if id == p.factors[0].id {
		return id
	}
	for _, f := range p.factors[:p.n] {
		if f.exp < 0 {
			// A divisor that isn't finite must not turn into a zero.
			if g.size[f.id] > fastBound {
				id = g.guard(id, f.id)
			}
		}
	}
	return id
}

// canonical adds a product with its factors in order.
func (g *fastGraph) canonical(p fastNode) fastID {
	if p.k == 1 && p.n == 1 && p.factors[0].exp == 1 {
		return p.factors[0].id
	}
	slices.SortFunc(p.factors[:p.n], func(x, y fastFactor) int {
		if x.id != y.id {
			return int(x.id - y.id)
		}
		return int(y.exp - x.exp)
	})
	return g.add(p)
}

// guard returns a node with the value of id that has none where of has none.
func (g *fastGraph) guard(id, of fastID) fastID {
	if of < 0 || g.size[of] <= fastBound && !g.shaky[of] {
		return id
	}
	return g.add(fastNode{kind: fastGuard, a: id, b: of, c: fastNone})
}

// join multiplies the factors of q, to the power of sign, into p. It returns
// false if the product would grow too large to handle.
func (p *fastNode) join(q *fastNode, sign int8) bool {
	for _, f := range q.factors[:q.n] {
		if f.exp < 0 && sign < 0 {
			return false // a/(b/x) has no value where x is 0
		}
		e := f.exp * sign
		at := slices.IndexFunc(p.factors[:p.n], func(o fastFactor) bool { return o.id == f.id && (o.exp > 0) == (e > 0) })
		if at >= 0 {
			p.factors[at].exp += e
		} else {
			if p.n == fastMaxFactors {
				return false
			}
			at = int(p.n)
			p.factors[at] = fastFactor{f.id, e}
			p.n++
		}
		if x := p.factors[at].exp; x > fastMaxPower || x < -fastMaxPower {
			return false
		}
	}
	return true
}

// times returns a·b, or a/b if sign is -1. What divides is never cancelled
// against what multiplies: x/x has no value at 0.
func (g *fastGraph) times(a, b fastID, sign int8) fastID {
	op := ops.Mul
	if sign < 0 {
		op = ops.Div
	}
	va, constA := g.value(a)
	vb, constB := g.value(b)
	switch {
	case constA && constB:
		return g.constant(fastFold(op, va, vb, 0))
	case constB && sign > 0:
		return g.scaled(a, vb)
	case constB && vb == 0:
		return g.function(run.Instr{Op: ops.Div}, a, b, fastNone)
	case constB && fastIsOrdinary(vb):
		return g.quotient(a, vb)
	case constB:
		return g.function(run.Instr{Op: ops.Div}, a, b, fastNone)
	case constA && sign > 0:
		return g.scaled(b, va)
	}
	p := g.product(a)
	if constA {
		p = fastNode{kind: fastProduct, a: fastNone, b: fastNone, c: fastNone, k: va}
	}
	q := g.product(b)
	k := fastFold(op, p.k, q.k, 0)
	if p.join(&q, sign) && (k == 1 || q.k == 1 || fastIsOrdinary(k) && fastIsOrdinary(p.k) && fastIsOrdinary(q.k)) {
		p.k = k
		return g.finish(p)
	}
	p = fastNode{kind: fastProduct, a: fastNone, b: fastNone, c: fastNone, k: 1}
	if constA {
		p.k = va
	} else {
		p.factors[0], p.n = fastFactor{a, 1}, 1
	}
	if a == b && sign > 0 {
		p.factors[0].exp = 2
	} else {
		p.factors[p.n] = fastFactor{b, sign}
		p.n++
	}
	return g.finish(p)
}

// quotient divides by a constant: its reciprocal multiplies instead.
func (g *fastGraph) quotient(a fastID, by float64) fastID {
	p := g.product(a)
	k := p.k / by
	if !fastIsOrdinary(p.k) || !fastIsOrdinary(k) {
		return g.scaled(a, 1/by)
	}
	p.k = k
	return g.finish(p)
}

// plus returns a + b.
func (g *fastGraph) plus(a, b fastID) fastID {
	va, constA := g.value(a)
	vb, constB := g.value(b)
	switch {
	case constA && constB:
		return g.constant(fastFold(ops.Add, va, vb, 0))
	case constA && va == 0:
		return b
	case constB && vb == 0:
		return a
	case constB || !constA && b < a:
		a, b = b, a
	}
	return g.add(fastNode{kind: fastSum, a: a, b: b, c: fastNone})
}

// power returns a node to the power k.
func (g *fastGraph) power(a fastID, k float64) fastID {
	if v, ok := g.value(a); ok {
		return g.constant(fastFold(ops.Pow, v, 0, k))
	}
	switch k {
	case 1:
		return a
	case 0.5:
		return g.function(run.Instr{Op: ops.Sqrt}, a, fastNone, fastNone)
	case -0.5:
		return g.times(g.constant(1), g.power(a, 0.5), -1)
	case 1.5:
		return g.times(a, g.power(a, 0.5), 1)
	case 2, 3, 4, -1, -2:
		if id, ok := g.wholePower(a, int8(k)); ok {
			return id
		}
	}
	return g.function(run.Instr{Op: ops.Pow, K: k}, a, fastNone, fastNone)
}

func (g *fastGraph) wholePower(a fastID, k int8) (fastID, bool) {
	if k < 0 {
		id, ok := g.wholePower(a, -k)
		if !ok {
			return id, false
		}
		return g.times(g.constant(1), id, -1), true
	}
	p := g.product(a)
	q := p
	for range k - 1 {
		if !p.join(&q, 1) {
			p.k = math.Inf(1)
			break
		}
	}
	if c := ops.Pow.Value(q.k, 0, float64(k)); q.k == 1 || fastIsOrdinary(c) {
		if p.k-p.k == 0 {
			p.k = c
			return g.finish(p), true
		}
	}
	p = fastNode{kind: fastProduct, a: fastNone, b: fastNone, c: fastNone, k: 1, n: 1}
	p.factors[0] = fastFactor{a, k}
	return g.finish(p), true
}

// function returns any other operation. Where it could turn an operand without
// a value into a value, a guard is put behind it.
func (g *fastGraph) function(in run.Instr, a, b, c fastID) fastID {
	va, constA := g.fixed(a)
	vb, constB := g.fixed(b)
	_, constC := g.fixed(c)
	if constA && constB && constC && in.Op != ops.Select {
		return g.constant(fastFold(in.Op, va, vb, in.K))
	}
	id := g.add(fastNode{kind: fastFunction, op: in.Op, a: a, b: b, c: c, k: in.K})
	switch in.Op {
	case ops.Sgn, ops.Atan, ops.Atan2, ops.Tanh, ops.Min, ops.Max, ops.Pow, ops.PowVar, ops.Div, ops.Less, ops.AtMost, ops.Hypot:
		return g.guard(g.guard(id, a), b)
	case ops.Select:
		return g.guard(id, a)
	}
	return id
}

// fixed is value, with an operand that isn't there counted as constant.
func (g *fastGraph) fixed(id fastID) (float64, bool) {
	if id < 0 {
		return 0, true
	}
	return g.value(id)
}

// fastFold works out an operation on constants; what has no value is not a
// number from there on.
func fastFold(op ops.Op, a, b, k float64) float64 {
	v := op.Value(a, b, k)
	if ops.Suspect(v) && op.Fault(a, b, k, v) != ops.NoFault || a-a != 0 || b-b != 0 {
		return math.NaN()
	}
	return v
}
