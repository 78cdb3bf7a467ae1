package run

import (
	"math"
	"slices"

	"steelyard/lang/ops"
)

const (
	// order is the highest power that a series is asked for, most the highest that
	// it has: the slope of a series needs one more.
	order = 16
	most  = order + 1
)

// series encloses a function near a place by its powers: it is Σ at(k)·t^k, where
// t is the distance from the place. Taken over an interval, at(k) holds the k-th
// derivative over k! at each number of the interval (Taylor's theorem with
// Lagrange's remainder). Powers are worked out when they are asked for.
// Powers are worked out by recurrences from those of the operands (automatic
// differentiation in Taylor mode), not by formulas for each derivative, which would grow
// with every power.
type series struct {
	op   ops.Op
	lost bool // nothing is known but the values
	// placed tells that the place can be worked out from the operands, and shift that the
	// series is a, which is 0 at the place, divided by the distance from it.
	placed, shift bool
	top           int // the highest power that may not be 0
	a, b          *series
	k             float64
	v             ops.Interval   // the values
	c             []ops.Interval // the powers from one on, as far as they have been asked for
	// place is the series about one place of the interval, if that is known: its own at
	// the place itself. Off is how far the numbers of the interval lie from the place:
	// nowhere, where the place is one at which a pole may be lifted.
	place *series
	off   ops.Interval
	// da and db are the slopes of the operation by its operands, made of the same
	// family as itself: sin and cos need each other.
	da, db *series
	family *family
}

// family is the operations on the same operands that the slopes of one lead to.
type family struct{ of []*series }

// powers is the domain of series. It notes the divisors that vary, if it is asked to, and
// makes one of those that are alike.
//
// As a domain it stands beside intervals: each of its numbers is an interval with all of its
// derivatives, asked for one by one.
type powers struct{ divisors, alike *[]*series }

type seriesWalker struct{ walker[*series, powers] }

func (powers) of(v float64) *series { return fixed(ops.Point(v)) }

func (d powers) constant(in *Instr) *series { return d.of(in.K) }

func (d powers) load(_ Slot, _ int32, v float64) *series { return d.of(v) }

// fixed is a series of what does not vary.
//
// A constant is its own series about any place.
func fixed(v ops.Interval) *series {
	s := &series{v: v, placed: true}
	s.place = s
	return s
}

// along is the series of the number itself, over an interval.
//
// x has the slope 1 and no other powers.
func along(x ops.Interval) *series {
	return &series{v: x, c: []ops.Interval{ops.Point(1)}, top: 1}
}

// alongFrom is the same where a place in the interval is known.
func alongFrom(place, x ops.Interval) *series {
	here, s := along(place), along(x)
	here.place, here.placed = here, true
	s.place, s.placed = here, true
	return s
}

// alongMiddle is the same where the place is the middle, and means nothing but that the
// values elsewhere can be told from those there.
func alongMiddle(x ops.Interval) *series {
	s := alongFrom(ops.Point(x.Middle()), x)
	s.off = x.Sub(s.place.v)
	return s
}

// about is the series about the place that is known; nil if there is none, or it has
// no value.
//
// It is made when it is asked for, out of the operands' own: most series are never looked at
// about one place.
func (s *series) about() *series {
	switch {
	case s.place != nil || !s.placed:
	case s.shift:
		if a := s.a.about(); a != nil {
			s.place = a.shifted()
		}
	default:
		b := s.b
		if s.op.Operands() < 2 {
			b = s.a
		}
		if x, y := s.a.about(), b.about(); x == s.a && y == b {
			s.place = s
		} else if x != nil && y != nil {
			s.place, _ = operation(s.op, x, y, s.k, nil)
		}
	}
	return s.place
}

// vanishes tells whether a series is 0 at the place, but for its error.
//
// Only the series about a single place can say that; one over an interval holds 0 if any of its
// numbers does.
func (s *series) vanishes() bool {
	if s.off != ops.Point(0) {
		return false
	}
	here := s.about()
	return here != nil && !here.lost && here.v.HoldsZero() && width(here.v) < math.Inf(1)
}

// tighten encloses the values that seem to hold 0 more closely, by those at the place and
// the slopes: what is a small difference of large terms may be seen to keep clear of 0.
//
// By the mean value theorem f(x) lies within f(c) + f'(X)·(x - c): near a root of a difference
// this is narrower than the difference of two enclosures.
func (s *series) tighten() {
	if !s.v.HoldsZero() || s.lost || s.off == ops.Point(0) {
		return
	}
	if here := s.about(); here != nil {
		v := here.v.Add(s.at(1).Mul(s.off))
		s.v = ops.Between(max(s.v.Lo, v.Lo), min(s.v.Hi, v.Hi))
	}
}

// unbent is the operand that an operation is which bends where its two operands meet, if
// these are proved not to; nil otherwise.
//
// |x - 2| over an interval above 2 is x - 2, with all of its derivatives.
func unbent(op ops.Op, a, b *series) *series {
	apart, _ := operation(ops.Sub, a, b, 0, nil)
	apart.tighten()
	switch by := float64(side(apart.v)); {
	case by == 0:
		return nil
	case op.Value(by, 0, 0) == by:
		return a
	}
	return b
}

// shifted is a series that is 0 at the place, divided by the distance from it: each
// power holds what the next one did.
//
// sin(x)/x at 0 is the quotient of the next powers, cos(x)/1: so a pole that is lifted has a
// value and slopes (de l'Hôpital's rule, in powers).
func (s *series) shifted() *series {
	if s.top <= 1 {
		return fixed(s.at(1))
	}
	out := &series{a: s, shift: true, placed: true, top: s.top - 1, v: s.at(1)}
	if s.place == s {
		out.place = out
	}
	return out
}

// lost is a series of which only values are known.
//
// A jump or a place without value in the interval says nothing of slopes.
func lost(v ops.Interval) *series {
	return &series{v: v, top: most, lost: true}
}

func (d powers) apply(op ops.Op, a, b *series, k float64) (*series, ops.Fault) {
	if d.divisors != nil && op == ops.Div && b.top > 0 {
		*d.divisors = append(*d.divisors, b)
	}
	if d.alike != nil {
		if op.Operands() < 2 {
			b = a
		}
		return d.asOne(op, a, b, k)
	}
	return operation(op, a, b, k, nil)
}

// operation is the series of an operation; one without operands that vary does not
// either.
//
// The order of the cases matters: a pole is lifted before it is one, and a corner is taken for
// what it is on either side before the slopes are given up.
func operation(op ops.Op, a, b *series, k float64, in *family) (*series, ops.Fault) {
	if b == nil {
		b = a
	}
	if e, ok := (powers{}).still(b); ok && op == ops.PowVar {
		op, b, k = ops.Pow, a, e
	}
	if in == nil && op.Sharp() { // the slopes of an operation may lead to itself
		if op.Bends(1, 1) {
			if one := unbent(op, a, b); one != nil {
				return one, ops.NoFault
			}
		}
		a.tighten()
		b.tighten()
	}
	v, extent := op.Over(a.v, b.v, k)
	top := degree(op, a, b, k)
	switch {
	case in == nil && op == ops.Div && b.top > 0 && b.v.HoldsZero() && a.vanishes() && b.vanishes():
		// Not among the slopes of an operation: a/hypot(a, b) would need its own slope.
		return operation(op, a.shifted(), b.shifted(), k, nil)
	case extent == ops.None:
		return nil, ops.NoReal
	case extent == ops.Partly || a.lost || b.lost:
		return lost(v), ops.NoFault
	case top == 0:
		return fixed(v), ops.NoFault
	}
	return &series{op: op, a: a, b: b, k: k, top: top, v: v, family: in, placed: a.placed && b.placed, off: a.off.Hull(b.off)}, ops.NoFault
}

// degree is the highest power that an operation may lead to.
//
// A polynomial has few powers, and above them exact zeros: without that, every product of lines
// would be worked out to the sixteenth.
func degree(op ops.Op, a, b *series, k float64) int {
	top := a.top
	if op.Operands() == 2 {
		top = max(top, b.top)
	}
	switch {
	case top == 0 || op == ops.Copy || op == ops.Neg || op == ops.Add || op == ops.Sub:
		return top
	case op == ops.Mul:
		return min(a.top+b.top, most)
	case op == ops.Div && b.top == 0:
		return a.top
	case op == ops.Pow && k == math.Trunc(k) && k >= 0:
		return int(min(k*float64(a.top), most))
	}
	return most
}

// at is the coefficient of a power.
func (s *series) at(power int) ops.Interval {
	switch {
	case s.lost && power > 0, power > most:
		return ops.Everything()
	case power > s.top:
		return ops.Point(0)
	}
	if power == 0 {
		return s.v
	}
	s.c = slices.Grow(s.c, max(0, power-len(s.c))) // lower ones are asked for on the way
	for len(s.c) < power {
		s.c = append(s.c, s.next(len(s.c)+1))
	}
	return s.c[power-1]
}

// next works out a coefficient from those of lower powers.
//
// For a quotient a = s·b is solved for the highest power of s. For a function of the table
// i·s_i = Σ j·a_j·da_(i-j), which is (f∘a)' = f'(a)·a' power by power (A. Griewank and A.
// Walther, Evaluating Derivatives, 13.2; from memory).
func (s *series) next(i int) ops.Interval {
	if s.shift {
		return s.a.at(i + 1)
	}
	switch s.op {
	case ops.Copy, ops.Neg, ops.Add, ops.Sub:
		v, _ := s.op.Over(s.a.at(i), s.b.at(i), 0)
		return v
	case ops.Mul:
		return convolved(s.a, s.b, i, 0)
	case ops.Slope: // of the series a, where its number goes like b
		v := s.a.at(i + 1).Mul(ops.Point(float64(i + 1)))
		for range i {
			v = v.Mul(s.b.at(1))
		}
		return v
	case ops.Div: // of a = s·b
		v, _ := ops.Div.Over(s.a.at(i).Sub(convolved(s.b, s, i, 1)), s.b.v, 0)
		return v
	}
	if s.da == nil && s.db == nil {
		s.slopes()
	}
	sum := ops.Point(0)
	for j := 1; j <= i; j++ { // s' = da·a' + db·b'
		size := ops.Point(float64(j))
		if s.da != nil && j <= s.a.top {
			sum = sum.Add(s.a.at(j).Mul(size).Mul(s.da.at(i - j)))
		}
		if s.db != nil && j <= s.b.top {
			sum = sum.Add(s.b.at(j).Mul(size).Mul(s.db.at(i - j)))
		}
	}
	v, _ := ops.Div.Over(sum, ops.Point(float64(i)), 0)
	return v
}

// convolved is the coefficient of a power in a product, without what the powers of
// a below least add to it.
//
// The power of a product is the sum over all pairs of powers (Cauchy).
func convolved(a, b *series, power, least int) ops.Interval {
	sum := ops.Point(0)
	for j := max(least, power-b.top); j <= min(power, a.top); j++ {
		sum = sum.Add(a.at(j).Mul(b.at(power - j)))
	}
	return sum
}

// slopes makes the series of the slopes that the table has for an operation.
//
// The text of the table is worked out in series, of the family that the operation itself is in:
// cos is then the slope of sin, and sin of cos, and neither goes on for ever.
func (s *series) slopes() {
	if s.family == nil {
		s.family = &family{of: []*series{s}}
	}
	by := func(operand int, x *series) *series {
		if x.top == 0 || operand >= s.op.Operands() {
			return nil
		}
		slope, known := ops.SlopeIn(s.op, operand, s.a, s.b, s.k, powers{}.of, s.family.operation)
		if !known {
			return lost(ops.Everything())
		}
		return slope
	}
	s.da, s.db = by(0, s.a), by(1, s.b)
}

// operation is one of a family, made once.
func (f *family) operation(op ops.Op, a, b *series, k float64) *series {
	for _, s := range f.of {
		if s.op == op && s.a == a && (s.b == b || op.Operands() < 2) && s.k == k {
			return s
		}
	}
	s, fault := operation(op, a, b, k, f)
	if fault != ops.NoFault {
		return lost(ops.Everything())
	}
	f.of = append(f.of, s)
	return s
}

func (powers) branch(condition *series) (yes, no bool) {
	return intervals{}.branch(enclosed{v: condition.v})
}

func (powers) either(_, a, b *series) *series { return lost(a.v.Hull(b.v)) }

func (powers) still(s *series) (float64, bool) {
	return s.v.Lo, s.v.IsPoint() && s.top == 0
}

// slopeOf is the series of a slope, where the number at which it is taken goes in
// a line and no other argument matters; else its values alone.
func (powers) slopeOf(x []*series, of curve[*series]) (*series, ops.Fault) {
	given := []*series{along(x[0].v)}
	for _, s := range x[1:] {
		if _, still := (powers{}).still(s); !still {
			s = lost(s.v)
		}
		given = append(given, s)
	}
	if y, ok := of.at(given...); ok && !y.lost && x[0].top <= 1 {
		return &series{op: ops.Slope, a: y, b: x[0], top: max(y.top-1, 0), v: y.at(1)}, ops.NoFault
	}
	for i, s := range x[1:] {
		given[i+1] = fixed(s.v)
	}
	y, ok := of.at(given...)
	if !ok {
		return nil, ops.NoReal
	}
	return lost(y.at(1)), ops.NoFault
}

// areaOf changes at its ends, by the curve there.
//
// Its slope is the curve at the upper end less that at the lower one (the fundamental theorem).
func (powers) areaOf(from, to *series, rest []*series, still []float64, of curve[*series]) (*series, ops.Fault) {
	a, ok1 := of.at(append([]*series{from}, rest...)...)
	b, ok2 := of.at(append([]*series{to}, rest...)...)
	switch { // an end that does not move needs no value
	case !ok1 && from.top == 0 && from.v.IsPoint() && ok2:
		a, ok1 = fixed(ops.Point(0)), true
	case !ok2 && to.top == 0 && to.v.IsPoint() && ok1:
		b, ok2 = fixed(ops.Point(0)), true
	}
	if !ok1 || !ok2 {
		return nil, ops.NoReal
	}
	v := between(from.v, to.v, a.v, b.v, still, of.area)
	less, fault := operation(ops.Neg, a, nil, 0, nil)
	if fault != ops.NoFault || a.lost || b.lost {
		return lost(v), ops.NoFault
	}
	return &series{op: ops.Area, a: to, b: from, da: b, db: less, top: most, v: v}, ops.NoFault
}

func (powers) unknown() (*series, ops.Fault) { return lost(ops.Everything()), ops.NoFault }

// steps has the powers in it that are worked out later.
func (powers) steps() int64 { return 250 }
