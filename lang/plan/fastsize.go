package plan

import (
	"math"

	"steelyard/lang/ops"
)

// Bounds of size, in powers of ten.
const (
	// fastOrdinary is the greatest and, negated, the least size of an input
	// that a fast plan's shortcuts are sound for.
	fastOrdinary = 60
	// fastBound is the size below which a node is surely finite, if it has a
	// value at all.
	fastBound = 300
)

// sizeOf bounds the size of a node from those of its operands, and tells
// whether the node may have no value although it isn't too large.
func (g *fastGraph) sizeOf(n *fastNode) (size float64, shaky bool) {
	switch n.kind {
	case fastConst:
		return fastSizeOf(n.k), n.k-n.k != 0
	case fastInput:
		return fastOrdinary, false
	case fastSum:
		return max(g.size[n.a], g.size[n.b]) + 0.5, g.shaky[n.a] || g.shaky[n.b]
	case fastProduct:
		return g.sizeOfProduct(n)
	case fastFunction:
		return g.sizeOfFunction(n)
	}
	return g.size[n.a], true
}

func fastSizeOf(v float64) float64 {
	if v-v != 0 {
		return math.Inf(1)
	}
	return math.Log10(math.Abs(v) + 1)
}

func (g *fastGraph) sizeOfProduct(n *fastNode) (size float64, shaky bool) {
	size = fastSizeOf(n.k)
	for _, f := range n.factors[:n.n] {
		if f.exp < 0 {
			return math.Inf(1), true // the divisor may be 0
		}
		size += float64(f.exp) * g.size[f.id]
		shaky = shaky || g.shaky[f.id]
	}
	return size, shaky
}

func (g *fastGraph) sizeOfFunction(n *fastNode) (size float64, shaky bool) {
	for _, id := range []fastID{n.a, n.b, n.c} {
		if id >= 0 {
			size, shaky = max(size, g.size[id]), shaky || g.shaky[id]
		}
	}
	if size > fastBound {
		return math.Inf(1), true
	}
	switch n.op {
	case ops.Sin, ops.Cos, ops.Atan, ops.Atan2, ops.Tanh, ops.Sgn, ops.Less, ops.AtMost, ops.Both:
		return 1, shaky
	case ops.Asin, ops.Acos:
		return 1, true
	case ops.Tan:
		return 20, shaky
	case ops.Abs, ops.Min, ops.Max, ops.Select, ops.Cbrt:
		return size, shaky
	case ops.Sqrt:
		return size, true
	case ops.Hypot:
		return size + 1, shaky
	}
	return math.Inf(1), true
}
