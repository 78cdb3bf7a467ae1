package run

import (
	"math"

	"steelyard/lang/ops"
)

const (
	// maxEnclosures bounds the work of one search for roots, and enclosedOps
	// the instructions that it may run over intervals.
	maxEnclosures = 60_000
	enclosedOps   = 3_000_000
	// maxRoots bounds how many roots are listed.
	maxRoots = 64
	// narrowest is the width, as a part of its place, below which a piece is
	// left unsettled.
	narrowest = 1e-11
)

// Roots is what a search found between two bounds. What is neither near a root
// nor in an unsettled piece is proved to hold none.
type Roots struct {
	Found     []float64      // each proved to be the only one in a piece round it
	Unsettled []ops.Interval // neither proved to hold a root nor proved empty
}

// FindRoots looks for the numbers in some intervals at which a function is
// zero. A piece is empty if the enclosure of its values is without 0; it holds
// exactly one root if the slope keeps its sign and the ends have different
// signs. Any other is halved.
func (p *Program) FindRoots(st *State, fn int, pieces []ops.Interval) Roots {
	return p.intervals(st).findRoots(fn, pieces)
}

func (w *intervalWalker) findRoots(fn int, pieces []ops.Interval) Roots {
	s := &rootSearch{w: w, fn: fn, left: int(min(maxEnclosures, enclosedOps/max(w.p.Funcs[fn].Cost, 1)))}
	for _, x := range pieces {
		s.look(x)
	}
	return s.out
}

// farEnclosures bounds the work of a proof that there is no root far away.
const farEnclosures = 2000

// NoRootIn tells whether it is proved that a function is not zero in an interval.
func (p *Program) NoRootIn(st *State, fn int, x ops.Interval) bool {
	s := &rootSearch{w: p.intervals(st), fn: fn, left: farEnclosures}
	s.look(x)
	return len(s.out.Found)+len(s.out.Unsettled) == 0
}

// stopped tells whether the budget has ended.
func (w *walker[N, D]) stopped() bool { return !w.budget.Spend(1) }

type rootSearch struct {
	w    *intervalWalker
	fn   int
	left int
	out  Roots
}

// look settles a piece, halving it where it must.
func (s *rootSearch) look(first ops.Interval) {
	todo := []ops.Interval{first}
	for len(todo) > 0 {
		x := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		s.left--
		if s.left < 0 || s.w.stopped() || len(s.out.Found) >= maxRoots {
			s.unsettled(x)
			continue
		}
		v, d, none, partly := enclose(s.w, s.fn, x)
		if none || !v.HoldsZero() {
			continue
		}
		if !partly && !d.HoldsZero() && s.monotone(x) {
			continue
		}
		mid := middle(x)
		if mid <= x.Lo || mid >= x.Hi || x.Hi-x.Lo <= narrowest*math.Max(math.Abs(x.Lo), math.Abs(x.Hi)) || x.Hi-x.Lo < 1e-290 {
			s.unsettled(x)
			continue
		}
		// The half nearer to zero is looked at first.
		if x.Hi <= 0 {
			todo = append(todo, ops.Between(x.Lo, mid), ops.Between(mid, x.Hi))
		} else {
			todo = append(todo, ops.Between(mid, x.Hi), ops.Between(x.Lo, mid))
		}
	}
}

// middle halves a piece: by ratio where it spans many powers of ten.
func middle(x ops.Interval) float64 {
	if x.Lo > 0 && x.Hi/x.Lo > 16 {
		return math.Sqrt(x.Lo) * math.Sqrt(x.Hi)
	}
	if x.Hi < 0 && x.Lo/x.Hi > 16 {
		return -math.Sqrt(-x.Lo) * math.Sqrt(-x.Hi)
	}
	return x.Lo + (x.Hi-x.Lo)/2
}

// sign is that of the function at a point: 0 if rounding leaves it open.
func (s *rootSearch) sign(x float64) int {
	v, _, none, _ := enclose(s.w, s.fn, ops.Point(x))
	switch {
	case none || v.HoldsZero():
		return 0
	case v.Lo > 0:
		return 1
	}
	return -1
}

// monotone settles a piece on which the function rises or falls throughout.
func (s *rootSearch) monotone(x ops.Interval) bool {
	lo, hi := s.sign(x.Lo), s.sign(x.Hi)
	if lo == 0 || hi == 0 {
		// A root lies at an end, or close by: a little more on both sides tells.
		more := 1e-9 * math.Max(math.Abs(x.Lo), math.Abs(x.Hi))
		x = ops.Between(x.Lo-more, x.Hi+more)
		_, d, none, partly := enclose(s.w, s.fn, x)
		if none || partly || d.HoldsZero() {
			return false
		}
		lo, hi = s.sign(x.Lo), s.sign(x.Hi)
	}
	switch {
	case lo == 0 || hi == 0:
		return false
	case lo == hi:
		return true // no root
	default:
		a, b := x.Lo, x.Hi
		for range 200 {
			m := a + (b-a)/2
			if m <= a || m >= b {
				break
			}
			switch s.sign(m) {
			case 0:
				s.found(m)
				return true
			case lo:
				a = m
			default:
				b = m
			}
		}
		s.found(a)
	}
	return true
}

// found lists a root, once where two pieces meet in it.
func (s *rootSearch) found(x float64) {
	for _, o := range s.out.Found {
		if math.Abs(o-x) <= 1e-12*math.Max(math.Abs(o), math.Abs(x)) {
			return
		}
	}
	s.out.Found = append(s.out.Found, x)
}

// unsettled lists a piece, joined with the one that it touches.
func (s *rootSearch) unsettled(x ops.Interval) {
	for i := range s.out.Unsettled {
		u := &s.out.Unsettled[i]
		if x.Lo <= u.Hi+1e-9*math.Abs(u.Hi) && x.Hi >= u.Lo-1e-9*math.Abs(u.Lo) {
			u.Lo, u.Hi = min(u.Lo, x.Lo), max(u.Hi, x.Hi)
			return
		}
	}
	s.out.Unsettled = append(s.out.Unsettled, x)
}
