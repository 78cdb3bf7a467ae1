package run

import (
	"math"
	"slices"

	"steelyard/lang/ops"
)

const (
	// liftOrder is the power of the remainder about a place where a pole is lifted,
	// and liftGood how small it is, as a part of the greatest coefficient's term.
	liftOrder = 12
	liftGood  = 1e-14
	// mostLifts is how many such places are known of one range, liftWalks how often
	// the function is run to find them, and liftTries in how many steps the reach of
	// one is halved.
	mostLifts, liftWalks, liftTries = 16, 300, 16
	// divisorSteps are those of Newton's method to where a divisor is 0.
	divisorSteps = 40
)

// lifted is a place at which a function divides 0 by 0, as sin(x)/x does at 0, with
// what it would be there and around: a series in powers of the distance, of which
// the last coefficient holds for the whole reach. Both sides of the quotient are
// divided by the distance, term by term.
type lifted struct {
	at, reach float64
	c         [liftOrder + 1]ops.Interval
}

// covers tells whether an interval lies within the reach.
func (l *lifted) covers(x ops.Interval) bool {
	return x.Lo >= l.at-l.reach && x.Hi <= l.at+l.reach
}

// over encloses a derivative over its factorial: 0 for the values, 1 for the slopes.
func (l *lifted) over(x ops.Interval, derivative int) ops.Interval {
	t := x.Sub(ops.Point(l.at))
	sum := ops.Point(0)
	for k := liftOrder; k >= derivative; k-- {
		times := 1.0 // k over derivative
		for i := range derivative {
			times = times * float64(k-i) / float64(i+1)
		}
		sum = sum.Mul(t).Add(l.c[k].Mul(ops.Point(times)))
	}
	return sum
}

// area encloses the area over an interval.
func (l *lifted) area(x ops.Interval) ops.Interval {
	under := func(at float64) ops.Interval {
		t := ops.Point(at).Sub(ops.Point(l.at))
		sum := ops.Point(0)
		for k := liftOrder; k >= 0; k-- {
			sum = sum.Mul(t).Add(l.c[k].Mul(ops.Point(1 / float64(k+1))))
		}
		return sum.Mul(t)
	}
	return under(x.Hi).Sub(under(x.Lo))
}

// noValue tells whether a number is the place itself, but for rounding.
func (l *lifted) noValue(x float64) bool {
	return math.Abs(x-l.at) <= narrowest*math.Abs(x)+8*exact*l.reach
}

// Lifts are the places of a range at which a curve divides 0 by 0 but goes on.
type Lifts struct{ all []lifted }

// Lifts finds them for a function of one number.
func (p *Program) Lifts(st *State, fn int, over ops.Interval) Lifts {
	w := p.intervals(st)
	w.lift(fn, over)
	return Lifts{w.lifts}
}

// Value is the curve close to such a place, where rounding would leave nothing of it;
// false elsewhere, and at the place itself.
func (l Lifts) Value(x float64) (float64, bool) {
	for i := range l.all {
		if at := &l.all[i]; x != at.at && at.covers(ops.Point(x)) {
			return at.over(ops.Point(x), 0).Middle(), true
		}
	}
	return 0, false
}

// Near tells whether one of the places is so near to a number.
func (l Lifts) Near(x, by float64) bool {
	return slices.ContainsFunc(l.all, func(at lifted) bool { return math.Abs(at.at-x) <= by })
}

// liftedAt is the place whose reach an interval lies in; nil if there is none.
func (w *intervalWalker) liftedAt(fn int, x ops.Interval) *lifted {
	for i := range w.lifts {
		if l := &w.lifts[i]; w.liftsOf == fn && l.covers(x) {
			return l
		}
	}
	return nil
}

// lift finds the places of a range at which poles of a function are lifted. From then
// on what is asked of the function near them is answered by their series.
// Without this, sin(x)/x would have no enclosure about 0, and no search could rule out a
// root there nor an area cross it.
func (w *intervalWalker) lift(fn int, over ops.Interval) {
	w.liftsOf, w.lifts = fn, nil
	if !w.p.Funcs[fn].divides(w.p) || width(over)-width(over) != 0 {
		return
	}
	todo, left := pieces{over}, liftWalks
	for x, more := todo.next(); more && left > 0 && len(w.lifts) < mostLifts; x, more = todo.next() {
		left--
		if w.liftedAt(fn, x) != nil {
			continue
		}
		halve := false
		for i, d := range w.divisors(fn, x) {
			if d.v.HoldsZero() {
				k, known := d.keepsSign(1)
				halve = halve || !known || !w.tryLift(fn, i, k, x, over)
			}
		}
		if halve && width(x) > 1e-6*width(over) {
			todo.halve(x)
		}
	}
}

// divisors are those of a function that vary over an interval, in the order in which
// they are met.
func (w *intervalWalker) divisors(fn int, x ops.Interval) (all []*series) {
	own := seriesWalker{newWalker[*series](w.p, w.st, w.depth, powers{divisors: &all})}
	own.at(fn, []*series{along(x)})
	return all
}

// tryLift looks for where divisor i is 0 in an interval over which its derivative k
// is not, and lifts the pole there if it is one that can be. It returns false where the
// divisor may be 0 elsewhere in the interval.
//
// Where the divisor has a 0 of the power k, so must what is divided have: that shows in
// the series of the quotient, which is lost where it has a pole.
func (w *intervalWalker) tryLift(fn, i, k int, x, over ops.Interval) bool {
	at := x.Middle()
	for range divisorSteps {
		all := w.divisors(fn, ops.Point(at))
		if i >= len(all) {
			return true
		}
		next := at - all[i].at(k-1).Middle()/(float64(k)*all[i].at(k).Middle())
		if !(next >= x.Lo && next <= x.Hi) {
			next = min(max(next, x.Lo), x.Hi)
		}
		if next == at {
			break
		}
		at = next
	}
	off := max(4*exact*math.Abs(at), exact*width(x))
	at = written(ops.Between(at-off, at+off))
	off = 4 * exact * math.Abs(at)
	if all := w.divisors(fn, ops.Between(at-off, at+off)); i >= len(all) || !all[i].v.HoldsZero() {
		return k == 1
	}
	if w.liftedAt(fn, ops.Point(at)) != nil {
		return true
	}
	for reach := width(over) / 4; reach > 1e-9*width(over); reach /= 2 {
		if l, ok := w.liftedWithin(fn, at, reach); ok {
			w.lifts = append(w.lifts, l)
			break
		}
	}
	return true
}

// liftedWithin makes the series about a place; false where there is none that is good
// within a reach.
func (w *intervalWalker) liftedWithin(fn int, at, reach float64) (l lifted, ok bool) {
	off := 4 * exact * math.Abs(at)
	x := alongFrom(ops.Between(at-off, at+off), ops.Between(at-reach, at+reach))
	s, some := w.series().at(fn, []*series{x})
	if !some || s.lost || s.about() == nil || s.about().lost {
		return l, false
	}
	l = lifted{at: at, reach: reach}
	size := 0.0
	for k := range liftOrder {
		l.c[k] = s.about().at(k)
		size = max(size, math.Abs(l.c[k].Middle())*math.Pow(reach, float64(k)))
	}
	l.c[liftOrder] = s.at(liftOrder)
	rest := width(l.c[liftOrder]) * math.Pow(reach, liftOrder)
	return l, rest <= liftGood*size
}

// divides tells whether a function divides by anything but a number that is known.
func (f *Func) divides(p *Program) bool {
	return f.holds(p, func(c *Code, in *Instr) bool {
		if in.Op != ops.Div {
			return false
		}
		by := c.Instrs[in.B].Op
		return by != ops.Const && by != ops.Load
	})
}
