package plan

import "math"

// Bounds of size, in powers of ten.
const (
	// fastOrdinary is the greatest and, negated, the least size of an input
	// that a fast plan's shortcuts are sound for.
	fastOrdinary = 60
	// fastBound is the size below which a node is surely finite.
	fastBound = 300
)

// sizeOf bounds the size of a node from those of its operands, or returns
// infinity if the node may have no value.
func (g *fastGraph) sizeOf(n *fastNode) float64 {
	switch n.kind {
	case fastConst:
		if n.k-n.k != 0 {
			return math.Inf(1)
		}
		return math.Log10(math.Abs(n.k) + 1)
	case fastInput:
		return fastOrdinary
	case fastSum:
		return max(g.size[n.a], g.size[n.b]) + 0.5
	case fastProduct:
		return g.sizeOfProduct(n)
	case fastFunction:
		return g.sizeOfFunction(n)
	}
	return math.Inf(1)
}

func (g *fastGraph) sizeOfProduct(n *fastNode) float64 {
	size := math.Log10(math.Abs(n.k) + 1)
	for _, f := range n.factors[:n.n] {
		if f.exp < 0 {
			return math.Inf(1) // the divisor may be 0
		}
		size += float64(f.exp) * g.size[f.id]
	}
	return size
}

func (g *fastGraph) sizeOfFunction(n *fastNode) float64 {
	size := func(id fastID) float64 {
		if id < 0 {
			return 0
		}
		return g.size[id]
	}
	all := max(size(n.a), size(n.b), size(n.c))
	if all > fastBound {
		return math.Inf(1)
	}
	switch n.op {
	case OpSin, OpCos, OpAtan, OpAtan2, OpTanh, OpSgn, OpLess, OpAtMost, OpBoth:
		return 1
	case OpAbs, OpMin, OpMax, OpSelect, OpCbrt:
		return all
	case OpHypot:
		return all + 1
	}
	return math.Inf(1)
}
