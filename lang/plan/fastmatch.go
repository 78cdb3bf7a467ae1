package plan

import (
	"slices"

	"steelyard/lang/ops"
)

// fastMatch is one kernel with its operands: what a node is worked out by.
type fastMatch struct {
	run     kernel
	x, y, z fastID
	c       [5]float64
	op      ops.Op
	k       float64
}

func fastKernel(k kernel, x, y, z fastID, c ...float64) fastMatch {
	m := fastMatch{run: k, x: x, y: y, z: z}
	copy(m.c[:], c)
	return m
}

// fastTerm is a constant times a power of a node; a constant alone has power 0.
type fastTerm struct {
	c    float64
	base fastID
	exp  int8
}

// match finds the kernel that does most of a node in one pass.
func (e *fastEmitter) match(id fastID) fastMatch {
	n := e.g.nodes[id]
	switch n.kind {
	case fastProduct:
		if n.n == 1 {
			return e.matchTerm(&n)
		}
		return e.matchProduct(&n)
	case fastSum:
		return e.matchSum(id)
	case fastFunction:
		if m, ok := e.matchCall(id, 1); ok {
			return m
		}
		m := fastKernel(kernelAny, n.a, n.b, n.c)
		if n.op == ops.Select {
			m.run = kernelSelect
		}
		m.op, m.k = n.op, n.k
		return m
	}
	if m, ok := e.matchGuard(&n); ok {
		return m
	}
	return fastKernel(kernelGuard, n.a, n.b, fastNone)
}

// matchGuard finds a guarded quotient whose kernel does the guarding itself.
func (e *fastEmitter) matchGuard(n *fastNode) (fastMatch, bool) {
	q := e.g.nodes[n.a]
	if q.kind != fastProduct || q.n != 1 || q.factors[0] != (fastFactor{n.b, -1}) {
		return fastMatch{}, false
	}
	p, ok := e.poly(n.b, false)
	if k := kernelOver(p.shape.code()); ok && k != nil && p.shape.e[0] < 0 {
		return p.with(k, q.k), true
	}
	return fastMatch{}, false
}

// term sees a node as a constant times a power of another.
func (e *fastEmitter) term(id fastID) fastTerm {
	n := e.g.nodes[id]
	switch {
	case n.kind == fastConst:
		return fastTerm{n.k, fastNone, 0}
	case n.kind != fastProduct:
		return fastTerm{1, id, 1}
	case n.n == 1 && n.factors[0].exp <= 3 && n.factors[0].exp >= -2:
		return fastTerm{n.k, n.factors[0].id, n.factors[0].exp}
	case n.k == 1 || n.n == 0:
		return fastTerm{1, id, 1}
	}
	k := n.k
	n.k = 1
	return fastTerm{k, e.g.canonical(n), 1}
}

// fastPoly is a shape with its column and constants.
type fastPoly struct {
	shape kernelShape
	base  fastID
	c     [5]float64
}

// poly sees a node as a sum of powers of one node, with a factor before it if
// scale is set.
func (e *fastEmitter) poly(id fastID, scale bool) (fastPoly, bool) {
	p := fastPoly{base: fastNone, shape: kernelShape{e: [3]int8{kernelNoTerm, kernelNoTerm, kernelNoTerm}}}
	n := e.g.nodes[id]
	if scale && n.kind == fastProduct && n.n == 1 && n.factors[0].exp == 1 && e.g.nodes[n.factors[0].id].kind == fastSum {
		q, ok := e.poly(n.factors[0].id, false)
		if ok {
			q.shape.scaled, q.c[4] = true, n.k
			return q, true
		}
	}
	terms := e.terms(id)
	if terms == nil || len(terms) == 1 && terms[0].exp == 0 {
		return p, false
	}
	for i, t := range terms {
		if t.exp != 0 {
			if p.base != fastNone && p.base != t.base {
				return p, false
			}
			p.base = t.base
		}
		p.shape.e[i], p.c[i+1] = t.exp, t.c
	}
	if len(terms) > 1 && p.shape.e[0] > p.shape.e[1] {
		p.shape.e[0], p.shape.e[1] = p.shape.e[1], p.shape.e[0]
		p.c[1], p.c[2] = p.c[2], p.c[1]
	}
	return p, p.base != fastNone
}

// terms returns the terms of a sum in the order in which they are added: the
// first two, then the third. It is nil for sums of another build.
func (e *fastEmitter) terms(id fastID) []fastTerm {
	n := e.g.nodes[id]
	if n.kind != fastSum {
		return []fastTerm{e.term(id)}
	}
	a, b := n.a, n.b
	if e.g.nodes[b].kind == fastSum {
		a, b = b, a
	}
	if e.g.nodes[b].kind == fastSum {
		return nil
	}
	if first := e.g.nodes[a]; first.kind == fastSum {
		if e.g.nodes[first.a].kind == fastSum || e.g.nodes[first.b].kind == fastSum {
			return nil
		}
		return []fastTerm{e.term(first.a), e.term(first.b), e.term(b)}
	}
	return []fastTerm{e.term(a), e.term(b)}
}

func (p *fastPoly) with(k kernel, c0 float64) fastMatch {
	p.c[0] = c0
	return fastMatch{run: k, x: p.base, y: fastNone, z: fastNone, c: p.c}
}

// matchTerm finds the kernel of a product with one factor.
func (e *fastEmitter) matchTerm(n *fastNode) fastMatch {
	f := n.factors[0]
	inner := e.g.nodes[f.id]
	switch {
	case f.exp == 1 && inner.kind == fastSum:
		id := e.g.add(*n)
		e.grow()
		if p, ok := e.poly(id, true); ok {
			if k := kernelPoly(p.shape.code()); k != nil {
				return p.with(k, 0)
			}
		}
	case f.exp == 1 && inner.kind == fastFunction && e.uses[f.id] == 1:
		if m, ok := e.matchCall(f.id, n.k); ok {
			return m
		}
	case f.exp == -1 && inner.kind == fastSum:
		if p, ok := e.poly(f.id, false); ok {
			if k := kernelOver(p.shape.code()); k != nil {
				return p.with(k, n.k)
			}
		}
	}
	shape := kernelShape{e: [3]int8{f.exp, kernelNoTerm, kernelNoTerm}}
	if k := kernelPoly(shape.code()); f.exp >= -2 && f.exp <= 3 && k != nil {
		return fastKernel(k, f.id, fastNone, fastNone, 0, n.k)
	}
	return e.matchProduct(n)
}

// matchCall finds the kernel of c0 times a function of one column, with the
// argument worked out in the same pass where that is a simple sum.
func (e *fastEmitter) matchCall(id fastID, c0 float64) (fastMatch, bool) {
	n := e.g.nodes[id]
	if n.op == ops.Sqrt {
		if p, ok := e.poly(n.a, true); ok {
			if k := kernelRoot(p.shape.code()); k != nil {
				return p.with(k, c0), true
			}
		}
		shape := kernelShape{e: [3]int8{1, kernelNoTerm, kernelNoTerm}}
		return fastKernel(kernelRoot(shape.code()), n.a, fastNone, fastNone, c0, 1), true
	}
	k := kernelCall(n.op)
	if k == nil {
		return fastMatch{}, false
	}
	if p, ok := e.poly(n.a, false); ok {
		switch p.shape.e {
		case [3]int8{1, kernelNoTerm, kernelNoTerm}:
			return fastKernel(k, p.base, fastNone, fastNone, c0, 0, p.c[1]), true
		case [3]int8{0, 1, kernelNoTerm}:
			return fastKernel(k, p.base, fastNone, fastNone, c0, p.c[1], p.c[2]), true
		}
	}
	return fastKernel(k, n.a, fastNone, fastNone, c0, 0, 1), true
}

// unit returns the product of factors, without a constant.
func (e *fastEmitter) unit(list []fastID) fastID {
	p := fastNode{kind: fastProduct, a: fastNone, b: fastNone, c: fastNone, k: 1}
	for _, id := range list {
		at := slices.IndexFunc(p.factors[:p.n], func(f fastFactor) bool { return f.id == id })
		if at < 0 {
			at = int(p.n)
			p.n++
			p.factors[at].id = id
		}
		p.factors[at].exp++
	}
	return e.g.canonical(p)
}

// spread lists the factors above and below the line, powers written out.
func (n *fastNode) spread() (over, under []fastID) {
	for _, f := range n.factors[:n.n] {
		for range f.exp {
			over = append(over, f.id)
		}
		for range -f.exp {
			under = append(under, f.id)
		}
	}
	return over, under
}

// matchProduct finds the kernel of a product of several columns.
func (e *fastEmitter) matchProduct(n *fastNode) fastMatch {
	over, under := n.spread()
	// Gather what one kernel can't take into columns of its own.
	for len(over) > 3 {
		over = append([]fastID{e.unit(over[:2])}, over[2:]...)
		if len(over) >= 3 && over[1] == over[2] {
			over = append([]fastID{over[0], e.unit(over[1:3])}, over[3:]...)
		}
	}
	if len(under) > 2 || len(under) == 2 && len(over) > 1 {
		under = []fastID{e.unit(under)}
	}
	if len(under) > 0 && len(over)+len(under) > 3 {
		over = []fastID{e.unit(over)}
	}
	e.grow()
	switch len(over)*4 + len(under) {
	case 1*4 + 0:
		return fastKernel(kernelPolyX, over[0], fastNone, fastNone, 0, n.k)
	case 2*4 + 0:
		if n.k == 1 {
			return fastKernel(kernelMul2Plain, over[0], over[1], fastNone)
		}
		return fastKernel(kernelMul2, over[0], over[1], fastNone, n.k)
	case 3*4 + 0:
		return fastKernel(kernelMul3, over[0], over[1], over[2], n.k)
	case 0*4 + 1:
		return fastKernel(kernelPolyR, under[0], fastNone, fastNone, 0, n.k)
	case 0*4 + 2:
		return fastKernel(kernelDiv02, under[0], under[1], fastNone, n.k)
	case 1*4 + 1:
		return fastKernel(kernelDiv11, over[0], under[0], fastNone, n.k)
	case 2*4 + 1:
		return fastKernel(kernelDiv21, over[0], over[1], under[0], n.k)
	case 1*4 + 2:
		return fastKernel(kernelDiv12, over[0], under[0], under[1], n.k)
	}
	return fastKernel(kernelFill, fastNone, fastNone, fastNone, n.k)
}

// matchSum finds the kernel of a sum.
func (e *fastEmitter) matchSum(id fastID) fastMatch {
	if m, ok := e.matchMulConst(id); ok {
		return m
	}
	if p, ok := e.poly(id, false); ok {
		if k := kernelPoly(p.shape.code()); k != nil {
			return p.with(k, 0)
		}
	}
	n := e.g.nodes[id]
	if t := e.terms(id); len(t) == 3 {
		if m, ok := e.matchThree(t); ok {
			return m
		}
	}
	a, b := e.term(n.a), e.term(n.b)
	e.grow()
	if a.exp == 0 {
		a, b = b, a
	}
	if b.exp == 0 {
		shape := kernelShape{e: [3]int8{0, 1, kernelNoTerm}}
		return fastKernel(kernelPoly(shape.code()), e.flat(a), fastNone, fastNone, 0, b.c, a.c)
	}
	if a.exp == 2 && b.exp == 2 {
		return fastKernel(kernelSquare2, a.base, b.base, fastNone, 0, a.c, b.c)
	}
	if over, under := e.pair(b); len(over) == 2 && under == 0 {
		a, b = b, a
	}
	if over, under := e.pair(a); len(over) == 2 && under == 0 {
		return fastKernel(kernelMulAdd, over[0], over[1], e.flat(b), 0, a.c, b.c)
	}
	return fastKernel(kernelSum2, e.flat(a), e.flat(b), fastNone, 0, a.c, b.c)
}

// matchMulConst finds a constant plus the product of two columns.
func (e *fastEmitter) matchMulConst(id fastID) (fastMatch, bool) {
	n := e.g.nodes[id]
	c, constant := e.g.value(n.a) // a constant stands first
	if !constant {
		return fastMatch{}, false
	}
	t := e.term(n.b)
	if over, under := e.pair(t); t.exp == 1 && len(over) == 2 && under == 0 {
		return fastKernel(kernelMulConst, over[0], over[1], fastNone, 0, t.c, c), true
	}
	return fastMatch{}, false
}

// matchThree finds the kernel of a sum of three terms of several columns.
func (e *fastEmitter) matchThree(t []fastTerm) (fastMatch, bool) {
	if t[0].exp == 0 || t[1].exp == 0 {
		return fastMatch{}, false
	}
	x, y := e.flat(t[0]), e.flat(t[1])
	if t[2].exp == 0 {
		return fastKernel(kernelSum2Const, x, y, fastNone, 0, t[0].c, t[1].c, t[2].c), true
	}
	return fastKernel(kernelSum3, x, y, e.flat(t[2]), 0, t[0].c, t[1].c, t[2].c), true
}

// flat returns the node whose column a term is a constant times of.
func (e *fastEmitter) flat(t fastTerm) fastID {
	if t.exp == 1 {
		return t.base
	}
	p := fastNode{kind: fastProduct, a: fastNone, b: fastNone, c: fastNone, k: 1, n: 1}
	p.factors[0] = fastFactor{t.base, t.exp}
	id := e.g.canonical(p)
	e.grow()
	return id
}

// pair returns the two columns that a term multiplies, if it does and has no
// column yet.
func (e *fastEmitter) pair(t fastTerm) (over []fastID, under int) {
	e.grow()
	n := e.g.nodes[max(t.base, 0)]
	switch {
	case t.base < 0 || e.at[t.base] >= 0:
		return nil, 0
	case t.exp == 2:
		return []fastID{t.base, t.base}, 0
	case t.exp == 1 && n.kind == fastProduct && n.k == 1:
		o, u := n.spread()
		return o, len(u)
	}
	return nil, 0
}
