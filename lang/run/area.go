package run

import (
	"math"
	"strconv"

	"steelyard/lang/ops"
)

const (
	// areaGood is how good an area must be, as a part of the area of what lies
	// above and below the axis together; areaAim is what is worked for as long as
	// few pieces do.
	areaGood = 1e-9
	areaAim  = 1e-12
	areaFew  = 4000
	// areaPieces bounds the pieces that one area is worked out from, and areaOps
	// the instructions that it may run over them.
	areaPieces = 120_000
	areaOps    = 2_000_000
	// mostPoles bounds the pieces without bounds that are looked at together.
	mostPoles = 100
)

// piece is a part of a range with the area over it, enclosed.
//
// The sum is an interval that holds the area for certain: of the values over the piece times
// its width, or of a rule with the rest that it leaves out. Pieces add up as intervals do, and
// so the whole is proved.
type piece struct {
	lo, hi float64
	sum    ops.Interval
	// doubt is how far the area may lie from the middle of sum; size is what the
	// area of the curve's size is at least.
	doubt, size float64
	// done tells that halving it is of no use: rounding is all that is left in
	// doubt, or there are no numbers left between its ends.
	done bool
}

// under integrates a function by the first of its arguments, the others of which do
// not vary. Each piece of the range has its area enclosed, so that nothing between
// two places is missed; the pieces most in doubt are halved until what is left in
// doubt is small.
//
// From right to left an area has the other sign, as an integral has. It is given where its
// error is proved to be small beside what is added up, and refused otherwise: an area that
// is a little wrong looks as good as a right one.
//
// From one place to the same there is no area, whatever the curve is there.
func (w *floatWalker) under(fn int, lo, hi float64, rest []float64) (total, ops.Fault) {
	switch wide := hi - lo; {
	case wide-wide != 0:
		return total{}, ops.OutOfRange
	case lo > hi:
		t, fault := w.under(fn, hi, lo, rest)
		t.sum = -t.sum
		return t, fault
	case lo == hi:
		return total{}, ops.NoFault
	}
	survey := w.surveyed
	if p, again := w.period(fn, rest); again && hi-lo > manyPeriods*p {
		survey = func(fn int, lo, hi float64, rest []float64) (total, ops.Fault) {
			return w.inPeriods(fn, lo, hi, p, rest)
		}
	}
	return survey(fn, lo, hi, rest)
}

// between encloses the area from a place in one interval to a place in another, where the
// curve is known over both: by the area between their middles, and by how far its ends may
// move from there.
//
// This is what an area is in an enclosure, where its ends vary: a small change of an end adds a
// strip as high as the curve is there.
func between(from, to, atFrom, atTo ops.Interval, still []float64, area func(lo, hi float64, rest []float64) (total, ops.Fault)) ops.Interval {
	a, b := from.Middle(), to.Middle()
	t, fault := area(a, b, still)
	if fault != ops.NoFault {
		return ops.Everything()
	}
	moved := atTo.Mul(to.Sub(ops.Point(b))).Sub(atFrom.Mul(from.Sub(ops.Point(a))))
	return about(t.sum, t.off()).Add(moved)
}

// inPeriods is the area of a curve that is the same again after a period, by that over
// one of them and over what is left.
//
// The energy of a current over an hour has 180,000 periods of 50 Hz; one is worked out.
func (w *floatWalker) inPeriods(fn int, lo, hi, period float64, rest []float64) (t total, fault ops.Fault) {
	wide := hi - lo
	n := math.Floor(wide / period)
	one, fault := w.surveyed(fn, lo, lo+period, rest)
	if fault != ops.NoFault {
		return one, fault
	}
	if left := wide - float64(n*period); left > 4*exact*wide {
		if t, fault = w.surveyed(fn, lo, lo+left, rest); fault != ops.NoFault {
			return t, fault
		}
	}
	t.sum += float64(n * one.sum)
	t.size += float64(n * one.size)
	t.doubt += float64(n*one.doubt) + float64(8*exact*t.size)
	return t, ops.NoFault
}

// surveyed is the area over a range, piece by piece.
//
// The worst pieces are halved first, so that the many flat ones stay large and only a bend, a
// jump or a pole is cut up.
func (w *floatWalker) surveyed(fn int, lo, hi float64, rest []float64) (total, ops.Fault) {
	s := newSurvey(w, fn, lo, hi, rest)
	all := []piece{s.piece(lo, hi)}
	for !w.stopped() {
		t := inAll(all)
		switch {
		case s.fault != ops.NoFault:
			return t, s.fault
		case math.IsInf(t.doubt, 1) && !math.IsInf(t.worst, 1), t.poles > mostPoles:
			return s.settled(all, t)
		}
		switch {
		case t.size > math.MaxFloat64:
			return t, ops.OutOfRange
		case max(t.doubt, math.Abs(t.sum), t.size) < ops.Least:
			return total{}, s.vanished()
		case t.doubt <= t.aim():
			return t, ops.NoFault
		}
		next, halved := s.halve(all, t)
		if !halved {
			return s.settled(all, t)
		}
		all = next
	}
	return total{}, ops.Stopped
}

// total is what pieces add up to, with the greatest doubt of one that can be
// halved.
type total struct {
	sum, doubt, size, worst float64
	poles                   int // pieces on which the curve has no bound
	pieces                  int
}

// off is how far the sum may be off.
func (t total) off() float64 { return t.doubt + float64(8*exact*t.size) }

// aim is how small the doubt is to be. Beyond some thousand pieces, as for a curve with
// many swings, less is worked for: nine figures are more than anyone reads.
func (t total) aim() float64 {
	if t.pieces > areaFew {
		return areaGood / 4 * t.size
	}
	return areaAim * t.size
}

// The middles are added, and not the intervals: their ends would be rounded outward at each
// step.
func inAll(all []piece) (t total) {
	t.pieces = len(all)
	for i := range all {
		p := &all[i]
		t.sum, t.doubt, t.size = t.sum+p.sum.Middle(), t.doubt+p.doubt, t.size+p.size
		if math.IsInf(p.doubt, 1) {
			t.poles++
		}
		if !p.done {
			t.worst = max(t.worst, p.doubt)
		}
	}
	return t
}

// value is the sum, or 0 where that is a rounding remainder. Of the numbers that it
// may be, one of fifteen digits is taken, as the last bits are rounding's.
//
// 0.1 + 0.2 is 0.3 to who reads it, and the proof leaves room for that number.
func (t total) value() float64 {
	if math.Abs(t.sum) <= min(t.off(), areaGood*t.size) {
		return 0
	}
	short, _ := strconv.ParseFloat(strconv.FormatFloat(t.sum, 'g', 15, 64), 64)
	if math.Abs(short-t.sum) <= t.doubt {
		return short
	}
	return t.sum
}

// settled is the area when nothing is left to be halved. Where rounding alone is in doubt
// and holds 0, the area is 0: a curve that is 0 but for its error has none.
//
// Nine figures are proved at the least, or the area is refused: NotSettled says so.
func (s *survey) settled(all []piece, t total) (total, ops.Fault) {
	if t.doubt <= areaGood*t.size {
		return t, ops.NoFault
	}
	rounding := true
	for i := range all {
		p := &all[i]
		rounding = rounding && (p.done || p.doubt <= areaAim*t.size)
	}
	if rounding && math.Abs(t.sum) <= t.off() && t.doubt < math.Inf(1) {
		t.sum = 0 // the curve itself is within its error of 0
		return t, ops.NoFault
	}
	return t, ops.NotSettled
}

// vanished tells why an area below Least has no value: it is 0 only where the curve is, whose
// enclosure is rounded outward all the same.
func (s *survey) vanished() ops.Fault {
	for _, part := range betweenEnds {
		if v, ok := s.value(s.lo+float64(part*(s.hi-s.lo)), 0); !ok || v != 0 {
			return ops.OutOfRange
		}
	}
	return ops.NoFault
}

// survey encloses the area of a function piece by piece.
type survey struct {
	ranges *intervalWalker
	series *seriesWalker
	fn     int
	lo, hi float64   // the range
	left   int       // pieces that may still be worked out
	fault  ops.Fault // why a piece has no area
	// What the function is called with: its first argument varies.
	over   []enclosed
	powers []*series
	at     []float64
	floats *floatWalker
}

// A curve that takes a thousand instructions gets fewer pieces than one that takes ten, so that
// each has about the same time.
func newSurvey(w *floatWalker, fn int, lo, hi float64, rest []float64) *survey {
	s := &survey{ranges: w.intervals(), series: w.series(), fn: fn, lo: lo, hi: hi,
		over: make([]enclosed, 1), powers: make([]*series, 1), at: append([]float64{0}, rest...),
		floats: w.plain()}
	s.left = int(min(areaPieces, areaOps/max(w.p.Funcs[fn].Cost, 1)))
	if len(rest) == 0 {
		s.ranges.lift(fn, ops.Between(lo, hi))
	}
	for _, v := range rest {
		s.over, s.powers = append(s.over, intervals{}.of(v)), append(s.powers, powers{}.of(v))
	}
	return s
}

// halve halves the pieces that are most in doubt, and tells whether there were any. Those
// within a thirty-second of the worst go with it: one at a time would look through all
// pieces for each.
func (s *survey) halve(all []piece, t total) ([]piece, bool) {
	share := max(t.worst/32, t.aim()/float64(len(all)))
	if math.IsInf(t.worst, 1) {
		share = math.MaxFloat64
	}
	out := make([]piece, 0, len(all)+8)
	for _, p := range all {
		if p.done || p.doubt < share || s.left < 2 {
			out = append(out, p)
			continue
		}
		mid := p.lo + (p.hi-p.lo)/2
		out = append(out, s.judged(p.lo, mid), s.judged(mid, p.hi))
	}
	return out, len(out) > len(all)
}

// piece encloses the area over a piece: by the values over it, or by a sum over points
// with what that leaves out, whichever is closer. Between neighbouring numbers, where
// a curve may jump, it is taken for half of what it is at both: the place of a jump
// is known to half of what lies between the numbers.
func (s *survey) piece(lo, hi float64) piece {
	s.left--
	p := piece{lo: lo, hi: hi}
	x := ops.Between(lo, hi)
	if l := s.ranges.liftedAt(s.fn, x); l != nil {
		p.sum = l.area(x)
		p.doubt, p.size = p.sum.Radius(), max(p.sum.Lo, -p.sum.Hi, 0)
		p.done = p.doubt <= areaAim*p.size
		return p
	}
	s.over[0] = enclosed{v: x, d: ops.Point(1)}
	v, some := s.ranges.at(s.fn, s.over)
	switch {
	case !some:
		s.fault, p.done = ops.NoReal, true
		return p
	case v.v.Lo >= math.MaxFloat64 || v.v.Hi <= -math.MaxFloat64:
		s.fault, p.done = ops.OutOfRange, true
		return p
	}
	wide := ops.Point(hi).Sub(ops.Point(lo))
	p.sum = v.v.Mul(wide)
	mid := lo + (hi-lo)/2
	p.done = mid <= lo || mid >= hi
	if v.partly && !p.done && s.lacks(lo, hi) {
		s.fault = ops.NoReal
	}
	p.size = max(p.sum.Lo, -p.sum.Hi, 0)
	switch {
	case p.size >= math.MaxFloat64:
		s.fault, p.done = ops.OutOfRange, true
	case p.sum.Radius() < ops.Least:
	case !v.partly:
		if r, ok := s.summed(lo, hi, v.v); ok && r.rest+r.rounding < p.sum.Radius() {
			p.sum, p.size = about(r.sum, r.rest+r.rounding), r.size
			p.done = p.done || r.rounding > r.rest
		}
	case p.done:
		a, ok1 := s.value(lo, 0)
		b, ok2 := s.value(hi, 0)
		if w := wide.Hi; ok1 && ok2 && p.sum.Radius() < math.Inf(1) {
			p.sum = about(float64(w*(a+b)/2), float64(w*math.Abs(a-b)/2))
		}
	}
	p.doubt = p.sum.Radius()
	if math.IsNaN(p.doubt) || math.IsInf(p.sum.Lo, 0) || math.IsInf(p.sum.Hi, 0) {
		p.sum, p.doubt = ops.Point(0), math.Inf(1)
	}
	return p
}

// lacks tells whether a function has no value at places within a piece: at two of
// them, as one may be a pole.
//
// A range over which the curve has no value, √x below 0, has no area; a single place without a
// value, as the end of 1/√x, may be one where it has.
func (s *survey) lacks(lo, hi float64) bool {
	for _, part := range [2]float64{0.37, 0.71} {
		s.over[0].v = ops.Point(lo + float64(part*(hi-lo)))
		if _, some := s.ranges.at(s.fn, s.over); some {
			return false
		}
	}
	return true
}
