package run

import (
	"cmp"
	"math"
	"slices"

	"steelyard/lang/limit"
	"steelyard/lang/ops"
)

const (
	// maxEnclosures bounds the work of one search for roots, and enclosedOps
	// the instructions that it may run over intervals.
	maxEnclosures = 60_000
	enclosedOps   = 3_000_000
	// narrowest is the width of a piece, as a part of its place, that is as good as
	// one number, and vanishing that of one beside 0.
	narrowest = 1e-11
	vanishing = 1e-100
	// tiniest is the width below which a piece is halved no more.
	tiniest = 1e-290
	// underflow is what is 0 but for an exponential too small to hold, or for what is
	// divided by one too great.
	underflow = 1e-305
	// mostTouching is the highest derivative that is looked at where a function
	// touches 0.
	mostTouching = 6
)

// Roots is what a search found between two bounds. What is neither near a root
// nor in an unsettled piece is proved to hold none.
//
// So the four answers are kept apart: there is one here; there is none there; this piece was
// too hard; here all numbers are roots. A claim that there is no solution needs the last three
// to be empty.
type Roots struct {
	Found     []float64      // each proved to be the only one in a piece round it
	Unsettled []ops.Interval // neither proved to hold a root nor proved empty
	// Flat are the unsettled pieces on which the function is 0 throughout, and Faint those
	// of them on which it is not 0, but smaller than numbers hold.
	Flat, Faint []ops.Interval
	// Touched tells that one of those found is where the function is 0 within its own error and
	// turns: two roots that near would look the same.
	Touched bool
}

// done is what was found: with the pieces that are as good as one number, if the
// function is 0 there but for its error, and without the ends of flat ones.
//
// A piece that was left open is looked at once more when all roots are known: it may be a root
// that was found from its other side, a place at which the function is 0 but for its error, or
// the surroundings of a root that it only touches.
func (s *rootSearch) done() Roots {
	if len(s.roots) > limit.Roots {
		for _, r := range s.roots[limit.Roots:] {
			s.unsettled(ops.Point(r.x))
		}
		s.roots = s.roots[:limit.Roots]
	}
	s.merge()
	all := joined(s.out.Unsettled, hairline)
	s.out.Unsettled, s.out.Flat, s.out.Faint = nil, joined(s.zero, hairline), joined(s.out.Faint, hairline)
	at := func(x float64) func(r zero) bool {
		return func(r zero) bool { return math.Abs(r.x-x) <= narrowest*math.Abs(x) }
	}
	for _, x := range all {
		mid := written(x)
		one := width(x) <= max(narrowest*math.Abs(mid), vanishing)
		switch {
		case one && slices.ContainsFunc(s.roots, at(mid)):
		case one && s.closes(x):
		case s.besideRoot(x):
		case one && s.w.zeroAt(s.fn, mid):
			s.found(mid, x)
		default:
			s.out.Unsettled = append(s.out.Unsettled, x)
		}
	}
	for _, f := range s.out.Flat {
		s.roots = slices.DeleteFunc(s.roots, func(r zero) bool {
			return f.Lo <= r.x && r.x <= f.Hi || at(f.Lo)(r) || at(f.Hi)(r)
		})
	}
	s.listed()
	return s.out
}

// listed lists what was found in rising order.
func (s *rootSearch) listed() {
	s.out.Found = nil
	for _, r := range s.roots {
		s.out.Found = append(s.out.Found, r.x)
	}
	slices.Sort(s.out.Found)
}

// merge takes a root out that was found where rounding hides another one: beside 0,
// tan(x) - x is 0 but for its error, and only there are its slopes 0 as well.
func (s *rootSearch) merge() {
	slices.SortFunc(s.roots, func(a, b zero) int { return cmp.Compare(a.x, b.x) })
	var kept []zero
	for _, r := range s.roots {
		n := len(kept)
		if n > 0 && s.w.zeroAt(s.fn, kept[n-1].x+(r.x-kept[n-1].x)/2) {
			a, b := kept[n-1].x, r.x
			switch {
			case s.levelAt(a) && s.hides(a, b):
				continue
			case s.levelAt(b) && s.hides(b, a):
				kept = kept[:n-1]
			}
		}
		kept = append(kept, r)
	}
	s.roots = kept
}

// levelAt tells whether the slope may be 0 at a place.
//
// Only where the slope may be 0 can rounding hide two roots in one.
func (s *rootSearch) levelAt(x float64) bool {
	n, some := s.w.over(s.fn, ops.Point(x))
	return some && n.d.HoldsZero()
}

// hides tells whether the root at a place is the only one as far as another place.
//
// The second derivative keeps its sign between the two, and the first is 0 at one of them: the
// function leaves 0 on its way to the other, and can't come back.
func (s *rootSearch) hides(at, other float64) bool {
	s.left -= order
	over, some := s.w.powers(s.fn, ops.Point(at).Hull(ops.Point(other)))
	if !some {
		return false
	}
	k, some := over.keepsSign(2)
	return some && s.w.zeroAt(s.fn, at) && s.vanish(at, k)
}

// zero is a number at which a function is 0, and the numbers round it that are proved to
// hold no other such.
type zero struct {
	x     float64
	alone ops.Interval
}

// rootSearch is a search while it goes on.
//
// What it has found, what is left to look at and what it may still cost are in one place, so
// that a search which is stopped still tells what it knows.
type rootSearch struct {
	w     *intervalWalker
	fn    int
	left  int // enclosures
	roots []zero
	out   Roots
	zero  []ops.Interval // the pieces on which the function is 0 throughout
	level bool           // the function is the same wherever it does not jump
	// nothing is the size below which a value is 0, along a whole piece.
	nothing float64
}

// rootSearch is a search by so many enclosures at most for the numbers at which a
// function is zero. A piece is empty if the enclosure of its values is without 0; it
// holds exactly one root if the slope keeps its sign and the ends have different
// signs, or if the slope of the slope does and the function touches 0. Any other
// is halved, down to neighbouring numbers where the function jumps.
func (w *intervalWalker) rootSearch(fn int, enclosures int64) *rootSearch {
	return &rootSearch{w: w, fn: fn, left: int(min(enclosures, enclosedOps/max(w.p.Funcs[fn].Cost, 1)))}
}

// look settles a piece, halving it where it must.
//
// The pieces are taken depth first. When the work that is allowed is done, what is left is told
// as not settled, and nothing is claimed of it.
func (s *rootSearch) look(first ops.Interval) {
	todo := pieces{first}
	for x, some := todo.next(); some; x, some = todo.next() {
		s.left--
		if s.left < 0 || s.w.stopped() || len(s.roots) > limit.Roots {
			s.unsettled(x)
			continue
		}
		n, some := s.w.over(s.fn, x)
		if !some || s.settled(x, n, width(first)) {
			continue
		}
		switch {
		case width(x) >= tiniest && todo.halve(x):
		case width(x) < tiniest && !x.HoldsZero():
			s.unsettled(x)
		default:
			s.neighbours(x, n)
		}
	}
}

// settled tells whether the enclosure of a function over a piece settles it.
//
// The tests go from cheap to dear: the enclosure alone, the slope, a closer enclosure by way of
// the middle and the slope (mean value form), and last higher derivatives.
func (s *rootSearch) settled(x ops.Interval, n enclosed, all float64) bool {
	switch {
	case (n.d == ops.Point(0) || s.level) && !n.partly:
		return s.constant(x)
	case !n.holdsZero():
		return true
	case n.partly:
		return false
	case max(-n.v.Lo, n.v.Hi) <= s.nothing:
		if s.flat(x); n.v != ops.Point(0) {
			s.out.Faint = append(s.out.Faint, x)
		}
		return true
	case !n.d.HoldsZero():
		return s.monotone(x)
	}
	at, some := s.w.over(s.fn, ops.Point(x.Middle()))
	v := tight(x, n, at)
	switch {
	case !some:
		return false
	case !v.HoldsZero():
		return true
	}
	if at.v.HoldsZero() && s.same(x) {
		s.flat(x)
		return true
	}
	// All that is left may be rounding.
	rounding := at.v.HoldsZero() && width(at.v) > width(v)/4
	narrow := width(x) < max(all/256, math.Abs(x.Lo+x.Hi)/64)
	if width(n.d) < math.Inf(1) && (narrow || rounding) && s.touching(x) {
		return true
	}
	if rounding = rounding && narrow && !s.endsFlat(x); rounding {
		s.unsettled(x)
	}
	return rounding
}

// endsFlat tells whether the function is flat at an end of a piece, so that part of the
// piece may be.
func (s *rootSearch) endsFlat(x ops.Interval) bool {
	return slices.ContainsFunc([]float64{x.Lo, x.Hi}, func(x float64) bool {
		n, some := s.w.over(s.fn, ops.Point(x))
		return some && n.d == ops.Point(0) && !n.partly
	})
}

// side tells on which side of 0 an interval lies: 0 where it holds 0.
func side(v ops.Interval) int {
	switch {
	case v.Lo > 0:
		return 1
	case v.Hi < 0:
		return -1
	}
	return 0
}

// sign is that of the function at a point: 0 if rounding leaves it open.
//
// It is a proof: the value at the place with all of its error lies on one side of 0.
func (s *rootSearch) sign(x float64) int {
	n, some := s.w.over(s.fn, ops.Point(x))
	if !some {
		return 0
	}
	return side(n.v)
}

// monotone settles a piece on which the function rises or falls throughout.
//
// Between ends of one sign a function that only rises has no root; of two signs, exactly one.
func (s *rootSearch) monotone(x ops.Interval) bool {
	if s.crossing(x) {
		return true
	}
	// A root lies at an end, or close by: a little more on both sides tells.
	more := 1e-9 * math.Max(math.Abs(x.Lo), math.Abs(x.Hi))
	x = ops.Between(x.Lo-more, x.Hi+more)
	n, some := s.w.over(s.fn, x)
	return some && !n.partly && !n.d.HoldsZero() && s.crossing(x)
}

// crossing settles such a piece by the signs at its ends, if these are known.
//
// The place is narrowed by halving until two neighbouring numbers have different signs: the
// root is known to the last bit.
func (s *rootSearch) crossing(x ops.Interval) bool {
	lo, hi := s.sign(x.Lo), s.sign(x.Hi)
	if lo*hi < 0 {
		at := turn(x, lo, s.sign)
		// Where the steps end on the way, nothing is known of the sign, and the place is none.
		if n, some := s.w.over(s.fn, ops.Point(at)); some && width(n.v) == math.Inf(1) {
			s.unsettled(x)
		} else {
			s.found(at, ops.Between(math.Nextafter(x.Lo, x.Hi), math.Nextafter(x.Hi, x.Lo)))
		}
	}
	return lo*hi != 0
}

// turn finds the place in a piece where a sign is that of its lower end no more. To
// 0 halving comes only by chance.
//
// Where a sign is left open by rounding, that is the place.
func turn(x ops.Interval, lower int, sign func(float64) int) float64 {
	switch {
	case lower == 0:
		return x.Lo
	case sign(x.Hi) == 0:
		return x.Hi
	case x.Lo < 0 && x.Hi > 0 && sign(0) == 0:
		return 0
	}
	for {
		m := middle(x)
		if m <= x.Lo || m >= x.Hi {
			return x.Lo
		}
		switch sign(m) {
		case 0:
			return m
		case lower:
			x.Lo = m
		default:
			x.Hi = m
		}
	}
}

// touching settles a piece on which some derivative keeps its sign, so that the one
// before it rises or falls throughout. Where the slope does, the function turns: it
// comes as near to 0 as it does, and may be 0 there but for its own error. Where a
// higher one does, and all before it vanish in one place, that is the only root.
//
// x^2 touches 0 at 0, and x^3 crosses it with the slope 0: no piece round such a root is ever
// settled by signs or by the slope alone.
func (s *rootSearch) touching(x ops.Interval) bool {
	s.left -= order // what it costs
	over, some := s.w.powers(s.fn, x)
	if !some {
		return false
	}
	k, some := over.keepsSign(2)
	if !some {
		return false
	}
	before := func(x float64) int {
		at, some := s.w.powers(s.fn, ops.Point(x))
		if !some {
			return 0
		}
		return side(at.at(k - 1))
	}
	lo, hi := before(x.Lo), before(x.Hi)
	if lo == hi {
		return k == 2 && lo != 0 && s.crossing(x)
	}
	if lo*hi == 0 { // it turns at an end, or rounding leaves open whether it does at all
		x = ops.Between(x.Lo-width(x), x.Hi+width(x))
		over, some = s.w.powers(s.fn, x)
		if lo, hi = before(x.Lo), before(x.Hi); !some || over.at(k).HoldsZero() || lo*hi >= 0 {
			return false
		}
	}
	at := turn(x, lo, before)
	if s.w.zeroAt(s.fn, at) && s.vanish(at, k) {
		s.found(at, x)
		s.out.Touched = true
		return true
	}
	return k == 2 && s.sign(at) == side(over.at(k))
}

// keepsSign is the lowest derivative from one on that is not 0 over the interval
// of a series, and has one sign there.
//
// Few functions touch 0 with more than two or three derivatives gone; mostTouching is far
// beyond those.
func (s *series) keepsSign(from int) (k int, some bool) {
	for k = from; k <= mostTouching; k++ {
		if !s.at(k).HoldsZero() {
			return k, true
		}
	}
	return 0, false
}

// vanish tells whether the derivatives below one may all be 0 at a place.
func (s *rootSearch) vanish(x float64, below int) bool {
	at, some := s.w.powers(s.fn, ops.Point(x))
	for k := 1; some && k < below; k++ {
		some = at.at(k).HoldsZero()
	}
	return some || below == 2
}

// besideRoot tells whether the function touches 0 at the root that is nearest to a
// piece which rounding leaves open, and nowhere else as far as that.
//
// Next to a root that is only touched, rounding leaves pieces open on both sides.
func (s *rootSearch) besideRoot(x ops.Interval) bool {
	if len(s.roots) == 0 {
		return false
	}
	at := slices.MinFunc(s.roots, func(a, b zero) int {
		return cmp.Compare(math.Abs(a.x-x.Lo), math.Abs(b.x-x.Lo))
	}).x
	return s.hides(at, x.Lo) && s.hides(at, x.Hi)
}

// found lists a root, once where two pieces meet in it. Where a pole is lifted there
// is no value, and no root; where numbers end, what is too large to hold looks like one, and
// what is too small like 0.
// Two that are as good as one number are one where either is alone as far as the other, and
// two where both are proved; else more may lie there.
//
// (x^2 - 1)/(x - 1) has the value 2 beside 1 and none there: where its numerator is 0 a root
// would be listed that is none. Whether a limit counts is asked of the domain of the equation
// (atEnd).
func (s *rootSearch) found(x float64, alone ops.Interval) {
	if math.Abs(x) > math.MaxFloat64/2 || math.Abs(x) < ops.Least && !s.w.zeroAt(s.fn, x) {
		s.unsettled(ops.Point(x))
		return
	}
	if l := s.w.liftedAt(s.fn, ops.Point(x)); l != nil && l.noValue(x) {
		return
	}
	v, _ := s.w.plain().at(s.fn, []float64{x})
	switch excluded, hole := s.atEnd(x); {
	case excluded, hole && v != 0 && (s.w.fades(s.fn, x, -1) || s.w.fades(s.fn, x, 1)):
		return
	case hole && v != 0:
		s.unsettled(ops.Point(x))
		return
	}
	for _, o := range s.roots {
		if math.Abs(o.x-x) <= 1e-12*math.Max(math.Abs(o.x), math.Abs(x)) && !s.apart(o, zero{x, alone}) {
			return
		}
	}
	s.roots = append(s.roots, zero{x, alone})
}

// apart tells whether two places that are as good as one number are proved to be two: each
// is alone in numbers of its own, with a number between them at which the function is not 0.
func (s *rootSearch) apart(a, b zero) bool {
	if a.x > b.x {
		a, b = b, a
	}
	return a.alone.Lo <= a.x && a.alone.Hi < b.x && a.x < b.alone.Lo && b.x <= b.alone.Hi
}

// unsettled lists a piece, flat one on which the function is 0.
func (s *rootSearch) unsettled(x ops.Interval) { s.out.Unsettled = append(s.out.Unsettled, x) }

func (s *rootSearch) flat(x ops.Interval) {
	s.unsettled(x)
	s.zero = append(s.zero, x)
}

// hairline is a gap between pieces, as a part of where it is, that no reader can see.
const hairline = 1e-9

// joined is pieces in order, those with at most so wide a gap between them made one.
//
// A hundred pieces that touch are one place for a reader.
func joined(all []ops.Interval, gap float64) []ops.Interval {
	slices.SortFunc(all, func(a, b ops.Interval) int { return cmp.Compare(a.Lo, b.Lo) })
	var out []ops.Interval
	for _, x := range all {
		if n := len(out); n > 0 && x.Lo <= out[n-1].Hi+gap*math.Abs(out[n-1].Hi) {
			out[n-1].Hi = max(out[n-1].Hi, x.Hi)
		} else {
			out = append(out, x)
		}
	}
	return out
}
