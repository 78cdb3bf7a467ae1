package run

import "steelyard/lang/ops"

// same tells whether a function is 0 throughout a piece because of what its operations
// do there: |u| is u where u is not negative, asin(sin(u)) is u within a quarter turn,
// and what is taken from itself leaves nothing.
//
// Enclosures alone never tell: they only come closer to 0 as pieces get narrower.
func (s *rootSearch) same(x ops.Interval) bool {
	own := seriesWalker{newWalker[*series](s.w.p, s.w.st, s.w.depth, powers{alike: &[]*series{}})}
	out, some := own.at(s.fn, []*series{alongMiddle(x)})
	return some && !out.lost && out.top == 0 && out.v == ops.Point(0)
}

// asOne makes one series of those that are alike, so that they are known for the same,
// and one of an operation that is no more than an operand of it here.
func (d powers) asOne(op ops.Op, a, b *series, k float64) (*series, ops.Fault) {
	switch {
	case op == ops.Sub && a.like(b), op == ops.Add && a.opposes(b):
		return fixed(ops.Point(0)), ops.NoFault
	case op == ops.Neg && a.op == ops.Neg:
		return a.a, ops.NoFault
	case op == ops.Neg && a.op == ops.Sub:
		return d.asOne(ops.Sub, a.b, a.a, 0)
	}
	if one := d.plainly(op, a, b); one != nil {
		return one, ops.NoFault
	}
	for _, o := range *d.alike {
		if o.op == op && o.k == k && o.a.like(a) && (op.Operands() < 2 || o.b.like(b)) {
			return o, ops.NoFault
		}
	}
	out, fault := operation(op, a, b, k, nil)
	if fault == ops.NoFault && out.a == a {
		*d.alike = append(*d.alike, out)
	}
	return out, fault
}

// opposes tells whether a series is another's negative.
func (s *series) opposes(o *series) bool {
	return s.op == ops.Neg && s.a.like(o) || o.op == ops.Neg && o.a.like(s) ||
		s.op == ops.Sub && o.op == ops.Sub && s.a.like(o.b) && s.b.like(o.a)
}

// like tells whether two series are one, or the same number.
func (s *series) like(o *series) bool {
	x, still := powers{}.still(s)
	y, also := powers{}.still(o)
	return s == o || still && also && x == y
}

// plainly is the operand that an operation leads back to, or its negative: the size of
// what has one sign, the greater of two that are in order, the root of a square, and the
// inverse of a function where that has its principal values. It is nil for any other.
func (d powers) plainly(op ops.Op, a, b *series) *series {
	of := a
	switch {
	case op.Operands() == 2 && op.Bends(1, 1):
		return unbent(op, a, b)
	case op.Operands() == 1 && op.Bends(0, 0):
	case op == ops.Sqrt && a.op == ops.Pow && a.k == 2:
		of = a.a
	case op.Undoes(a.op):
		if r := op.Principal(); a.a.v.Lo >= r.Lo && a.a.v.Hi <= r.Hi {
			return a.a
		}
		return nil
	default:
		return nil
	}
	switch of.tighten(); {
	case of.v.Lo >= 0:
		return of
	case of.v.Hi <= 0:
		out, _ := d.asOne(ops.Neg, of, of, 0)
		return out
	}
	return nil
}
