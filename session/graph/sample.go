// Package graph samples curves and recognises their shapes from samples. It
// works on plain numbers: what the axes mean, and how anything is drawn, is
// known elsewhere.
package graph

import (
	"math"
	"slices"

	"steelyard/units/rank"
)

// Point is a point of a curve.
type Point struct{ X, Y float64 }

// Function works values out for many places at once; ok tells which have one.
type Function func(x, y []float64, ok []bool)

// At works out one value.
func (f Function) At(x float64) (float64, bool) {
	var y [1]float64
	var ok [1]bool
	f([]float64{x}, y[:], ok[:])
	return y[0], ok[0] && y[0]-y[0] == 0
}

// Curve is a sampled curve.
type Curve struct {
	// Runs are its connected pieces. Between two lies a pole, a jump or a range
	// without a value.
	Runs [][]Point
	// Breaks are the places between neighbouring pieces: of a pole or a jump its
	// own place.
	Breaks []float64
	// Poles are the places where it runs off.
	Poles []float64
	// Dots are the ends of the pieces at jumps.
	Dots []Dot
	// Lo and Hi are the values that are worth showing: all of them, unless the
	// curve runs off at a pole.
	Lo, Hi float64
	// Cut tells that it runs off beyond Lo and Hi.
	Cut bool
	// Coarse tells that it goes up and down so often that the points show another curve.
	Coarse bool
}

// Dot is an end of a piece at a jump. It is open where the curve's value there is another.
type Dot struct {
	Point
	Open bool
}

// Empty tells whether the curve has no value anywhere.
func (c Curve) Empty() bool { return len(c.Runs) == 0 }

// Largest is the size up to which values can be drawn: the sum of two that are larger may
// be none.
const Largest = 1e300

const (
	first  = 193  // points at first
	most   = 1600 // points in the end
	levels = 8    // halvings where a curve bends
	// bends is how far a point may lie off the chord of its neighbours, as a
	// part of the height.
	bends = 0.0006
	// steep is the rise between neighbours, as a part of the height, from which
	// on a jump is looked for.
	steep = 0.02
	// mereSteps is after how many steps toward the farthest value one that has hardly
	// grown is a mere peak: at a pole as slow as that of 1/√x it is 50 times as far.
	mereSteps = 20
	// probes is at how many places between its points a curve is looked at, and astray by
	// how much it lies beyond both points there, as a part of the height, where these
	// don't show it.
	probes = 32
	astray = 0.1
)

// Sample follows a curve from one place to another, closer where it bends, up to
// the very edge of where it has values, and breaks it where it jumps. It goes through
// some places that are known to matter.
func Sample(f Function, from, to float64, through ...float64) Curve {
	s := &sampler{f: f, from: from, to: to, through: through}
	s.add(append(s.even(len(through)), through...))
	s.common()
	far := s.dropFar()
	for range levels {
		x := s.wanted()
		if len(x) == 0 || len(s.x)+len(x) > most {
			break
		}
		s.add(x)
	}
	c := Curve{Coarse: s.coarse()}
	s.poles()
	s.edges()
	c.Lo, c.Hi, c.Cut = s.height()
	c.Cut = c.Cut || far
	c.Runs = s.runs(c.Hi - c.Lo)
	s.ends(&c)
	return c
}

type sampler struct {
	f        Function
	from, to float64
	x, y     []float64
	ok       []bool
	through  []float64
	a, b     float64 // between these lie four in five of the values at even places
	// one is where a single place is worked out, again and again.
	one struct {
		x, y [1]float64
		ok   [1]bool
	}
}

// at works out one value.
func (s *sampler) at(x float64) (float64, bool) {
	s.one.x[0], s.one.ok[0] = x, false
	s.f(s.one.x[:], s.one.y[:], s.one.ok[:])
	y := s.one.y[0]
	return y, s.one.ok[0] && y-y == 0
}

// even are places at even steps, with room for so many more.
func (s *sampler) even(more int) []float64 {
	x := make([]float64, first, first+more)
	for i := range x {
		x[i] = s.from + (s.to-s.from)*float64(i)/(first-1)
	}
	x[first-1] = s.to
	return x
}

// add works out further places, and keeps all in order.
func (s *sampler) add(x []float64) {
	slices.Sort(x)
	y, ok := make([]float64, len(x)), make([]bool, len(x))
	s.f(x, y, ok)
	for i := range ok {
		ok[i] = ok[i] && y[i]-y[i] == 0
	}
	if s.x == nil {
		s.x, s.y, s.ok = x, y, ok
	} else {
		s.merge(x, y, ok)
	}
}

// merge puts further points, in order, among those that are there.
func (s *sampler) merge(x, y []float64, ok []bool) {
	i, j := len(s.x)-1, len(x)-1
	s.x, s.y, s.ok = append(s.x, x...), append(s.y, y...), append(s.ok, ok...)
	for to := len(s.x) - 1; j >= 0; to-- {
		if i >= 0 && s.x[i] > x[j] {
			s.x[to], s.y[to], s.ok[to] = s.x[i], s.y[i], s.ok[i]
			i--
		} else {
			s.x[to], s.y[to], s.ok[to] = x[j], y[j], ok[j]
			j--
		}
	}
}

// height is the range of values worth showing: without what runs off, where the
// farthest values lie many times farther than most do.
func (s *sampler) height() (lo, hi float64, cut bool) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for i, y := range s.y {
		if s.ok[i] {
			lo, hi = min(lo, y), max(hi, y)
		}
	}
	if lo > hi {
		return 0, 0, false
	}
	if hi-lo > 6*(s.b-s.a) && s.b > s.a && s.breaks() {
		more := s.b - s.a
		return math.Max(lo, s.a-more), math.Min(hi, s.b+more), true
	}
	return lo, hi, false
}

// far tells whether a value lies so far off that it stands for a pole, which
// rounding has kept from being none.
func (s *sampler) far(y float64) bool {
	return s.b > s.a && math.Abs(y) > 1e6*math.Max(s.b-s.a, math.Max(math.Abs(s.a), math.Abs(s.b)))
}

// dropFar takes values out that stand for a pole, and tells whether there are any. Several
// beside each other, between values that do not, are a peak: exp(-x²) is far more at its top
// than where it is nearly 0. So is one at a place that is known to matter.
func (s *sampler) dropFar() (some bool) {
	for i := 0; i < len(s.y); i++ {
		end, known := i, false
		for ; end < len(s.y) && s.ok[end] && s.far(s.y[end]); end++ {
			known = known || slices.Contains(s.through, s.x[end])
		}
		if end == i {
			continue
		}
		ends := i > 0 && !s.ok[i-1] || end < len(s.y) && !s.ok[end]
		if !known && (end == i+1 || ends) {
			clear(s.ok[i:end])
			some = true
		}
		i = end
	}
	return some
}

// common finds the values between which most of a curve lies.
func (s *sampler) common() {
	var room [first + 8]float64
	all := room[:0]
	for i, v := range s.y {
		if s.ok[i] {
			all = append(all, v)
		}
	}
	if tenth := len(all) / 10; len(all) > 0 {
		s.a, s.b = rank.Value(all, tenth), rank.Value(all, len(all)-1-tenth)
	}
}

// breaks tells whether values change their sign, or end, where they are far off:
// a pole, and no mere peak.
func (s *sampler) breaks() bool {
	for i := 1; i < len(s.x); i++ {
		if s.ok[i] != s.ok[i-1] {
			return true
		}
		if s.ok[i] && s.ok[i-1] && s.y[i]*s.y[i-1] < 0 && s.jumps(i-1) {
			return true
		}
	}
	return false
}

// wanted lists the places between points that a closer look is worth.
func (s *sampler) wanted() []float64 {
	lo, hi, _ := s.height()
	tall := hi - lo
	close := (s.to - s.from) * 1e-6
	want := make([]bool, len(s.x))
	for i := 1; i+1 < len(s.x); i++ {
		switch {
		case !s.ok[i-1] || !s.ok[i] || !s.ok[i+1]:
			continue
		case s.y[i] < lo-tall && s.y[i+1] < lo-tall, s.y[i] > hi+tall && s.y[i+1] > hi+tall:
			continue // far outside
		}
		t := (s.x[i] - s.x[i-1]) / (s.x[i+1] - s.x[i-1])
		chord := s.y[i-1] + t*(s.y[i+1]-s.y[i-1])
		if math.Abs(s.y[i]-chord) > bends*tall {
			want[i-1], want[i] = true, true
		}
	}
	var x []float64
	for i := range s.x[:len(s.x)-1] {
		if want[i] && s.x[i+1]-s.x[i] > close {
			x = append(x, s.x[i]+(s.x[i+1]-s.x[i])/2)
		}
	}
	return x
}

// coarse tells whether a curve goes up and down between its points, by what it is at
// uneven places: a wave that is far too quick for the points may look like a slow one.
func (s *sampler) coarse() bool {
	const golden = 0.6180339887498949 // whose multiples lie at no even steps
	x, y, ok := make([]float64, probes), make([]float64, probes), make([]bool, probes)
	for i := range x {
		_, part := math.Modf(float64(i+1) * golden)
		x[i] = s.from + float64(part*(s.to-s.from))
	}
	s.f(x, y, ok)
	lo, hi, _ := s.height()
	for i := range x {
		if ok[i] {
			lo, hi = min(lo, y[i]), max(hi, y[i])
		}
	}
	room, count := astray*(hi-lo), 0
	for i, at := range x {
		k, _ := slices.BinarySearch(s.x, at)
		if k == 0 || k == len(s.x) || !ok[i] || !s.ok[k-1] || !s.ok[k] {
			continue
		}
		if y[i] < min(s.y[k-1], s.y[k])-room || y[i] > max(s.y[k-1], s.y[k])+room {
			count++
		}
	}
	return count > probes/8
}

// edges adds the places where values begin and end, found by halving.
func (s *sampler) edges() {
	var x []float64
	for i := range s.x[:len(s.x)-1] {
		if s.ok[i] == s.ok[i+1] {
			continue
		}
		in, out := s.x[i], s.x[i+1]
		if s.ok[i+1] {
			in, out = out, in
		}
		in = s.edge(in, out)
		if y, ok := s.at(in); ok && !s.far(y) {
			x = append(x, in)
		}
	}
	if len(x) > 0 {
		s.add(x)
	}
}

// poles adds, as places without a value, those where a curve runs off to the
// same side on the left and on the right, or beside the end of the range: the farthest
// value between two points grows without end as it is looked at more closely.
func (s *sampler) poles() {
	var x []float64
	usual := 2 * max(math.Abs(s.a), math.Abs(s.b))
	for i, y := range s.y {
		size := math.Abs(y)
		if !s.ok[i] || size <= usual {
			continue
		}
		l, r := max(i-1, 0), min(i+1, len(s.y)-1)
		if !s.ok[l] || !s.ok[r] || s.y[l]*y < 0 || y*s.y[r] < 0 || size < math.Abs(s.y[l]) || size < math.Abs(s.y[r]) {
			continue
		}
		a, b := s.x[l], s.x[r]
		for i := range 90 {
			l, r := a+(b-a)/3, b-(b-a)/3
			yl, ok1 := s.at(l)
			yr, ok2 := s.at(r)
			if !ok1 || !ok2 || math.Abs(yl) > 1e9*size {
				x = append(x, l)
				break
			}
			if i > mereSteps && math.Abs(yl) < 4*size {
				break
			}
			if math.Abs(yl) > math.Abs(yr) {
				b = r
			} else {
				a = l
			}
		}
	}
	slices.Sort(x)
	s.merge(x, make([]float64, len(x)), make([]bool, len(x)))
}

// jumps tells whether a curve jumps between point i and the next: whether its
// rise is still there when the piece in which it lies is halved again and again.
func (s *sampler) jumps(i int) bool {
	least := math.Abs(s.y[i+1]-s.y[i]) / 4
	left, right, _, valued := s.locate(Point{s.x[i], s.y[i]}, Point{s.x[i+1], s.y[i+1]}, least, func(float64) bool { return false })
	return !valued || math.Abs(right.Y-left.Y) > least
}

// runs joins points into pieces.
func (s *sampler) runs(tall float64) [][]Point {
	var out [][]Point
	all := make([]Point, 0, len(s.x)) // one piece after the other
	begin := 0
	end := func() {
		if n := len(all); n > begin {
			out = append(out, all[begin:n:n])
			begin = n
		}
	}
	for i := range s.x {
		if !s.ok[i] {
			end()
			continue
		}
		if i > 0 && s.ok[i-1] && math.Abs(s.y[i]-s.y[i-1]) > steep*tall && s.jumps(i-1) {
			end()
		}
		if n := len(all); n > begin && all[n-1].X == s.x[i] {
			continue
		}
		all = append(all, Point{s.x[i], s.y[i]})
	}
	end()
	return out
}
