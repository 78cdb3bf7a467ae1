package graph

import (
	"math"
	"slices"

	"steelyard/units/matrix"
)

// Kind is what a curve is.
type Kind uint8

// The kinds.
const (
	Other       Kind = iota
	Constant         // C
	Line             // B·x + C
	Parabola         // A·x² + B·x + C
	Power            // A·x^E
	Exponential      // A·exp(B·x) + C
	Wave             // a sinusoid: A sin(B·x + phase) + C
)

// Shape is a kind of curve with its numbers.
type Shape struct {
	Kind    Kind
	A, B, C float64
	// E is the exponent of a power, as a fraction.
	E, Of int
	// From is the number of samples that it was recognised from; 0 if it
	// follows from an equation.
	From int
}

const (
	// grid is the number of steps of the fixed grid on which shapes are judged.
	grid = 256
	// near is how far a sample may lie off a shape, as a part of the height.
	near = 1e-9
)

// Recognise names the shape of a curve from samples on a fixed grid, which it returns
// as well; Other if it is none of the known ones, or has no value somewhere.
func Recognise(f Function, from, to float64) (shape Shape, x, y []float64) {
	x, y, ok := make([]float64, grid+1), make([]float64, grid+1), make([]bool, grid+1)
	for i := range x {
		x[i] = from + (to-from)*float64(i)/grid
	}
	f(x, y, ok)
	r := &recogniser{x: x, y: y}
	r.lo, r.hi = math.Inf(1), math.Inf(-1)
	for i, v := range y {
		if !ok[i] || v-v != 0 {
			return Shape{}, x, y
		}
		r.lo, r.hi = math.Min(r.lo, v), math.Max(r.hi, v)
	}
	r.off = near * (r.hi - r.lo)
	for _, look := range []func() (Shape, bool){r.constant, r.polynomial, r.power, r.exponential, r.wave} {
		if s, ok := look(); ok {
			s.From = grid + 1
			return s, x, y
		}
	}
	return Shape{}, x, y
}

type recogniser struct {
	x, y   []float64
	lo, hi float64
	off    float64
}

// fits tells whether every sample lies on a function.
func (r *recogniser) fits(f func(x float64) float64) bool {
	for i, x := range r.x {
		if !(math.Abs(f(x)-r.y[i]) <= r.off) {
			return false
		}
	}
	return true
}

func (r *recogniser) constant() (Shape, bool) {
	s := Shape{Kind: Constant, C: r.y[0]}
	return s, r.hi-r.lo <= near*math.Max(math.Abs(r.lo), math.Abs(r.hi))
}

// polynomial looks for a line, then for a parabola, through three samples.
func (r *recogniser) polynomial() (Shape, bool) {
	x0, x1, x2 := r.x[0], r.x[grid/2], r.x[grid]
	y0, y1, y2 := r.y[0], r.y[grid/2], r.y[grid]
	b := (y2 - y0) / (x2 - x0)
	if r.fits(func(x float64) float64 { return y0 + b*(x-x0) }) {
		c := y0 - b*x0
		if math.Abs(c) <= near*math.Max(math.Abs(r.lo), math.Abs(r.hi)) {
			c = 0
		}
		return Shape{Kind: Line, B: b, C: c}, true
	}
	d := (y1 - y0) / (x1 - x0)
	a := ((y2-y1)/(x2-x1) - d) / (x2 - x0)
	if !r.fits(func(x float64) float64 { return y0 + (x-x0)*(d+a*(x-x1)) }) {
		return Shape{}, false
	}
	s := Shape{Kind: Parabola, A: a, B: d - a*(x0+x1), C: y0 - d*x0 + a*x0*x1}
	// What rounding has left of a term that is not there.
	wide := math.Max(math.Abs(x0), math.Abs(x2))
	if math.Abs(s.B)*wide <= near*math.Abs(s.A)*wide*wide {
		s.B = 0
	}
	if math.Abs(s.C) <= near*math.Abs(s.A)*wide*wide {
		s.C = 0
	}
	return s, true
}

// powers are the exponents that are looked for, as fractions.
var powers = [][2]int{{-1, 1}, {-2, 1}, {1, 2}, {3, 1}, {-3, 1}, {-1, 2}, {3, 2}, {-3, 2}, {1, 3}, {2, 3}, {4, 1}, {-4, 1}, {5, 1}, {-6, 1}, {6, 1}}

func (r *recogniser) power() (Shape, bool) {
	at := grid
	if math.Abs(r.x[0]) > math.Abs(r.x[grid]) {
		at = 0
	}
	for _, p := range powers {
		e := float64(p[0]) / float64(p[1])
		a := r.y[at] / math.Pow(r.x[at], e)
		if a-a == 0 && a != 0 && r.fits(func(x float64) float64 { return a * math.Pow(x, e) }) {
			return Shape{Kind: Power, A: a, E: p[0], Of: p[1]}, true
		}
	}
	return Shape{}, false
}

// exponential looks for A·exp(B·x) + C: equal steps multiply the differences by
// an equal factor.
func (r *recogniser) exponential() (Shape, bool) {
	h := grid / 2
	d1, d2 := r.y[h]-r.y[0], r.y[grid]-r.y[h]
	if d1 == 0 || d2/d1 <= 0 {
		return Shape{}, false
	}
	q := d2 / d1
	b := math.Log(q) / (r.x[h] - r.x[0])
	if b == 0 || b-b != 0 {
		return Shape{}, false
	}
	// y = y0 + d1·(exp(b(x - x0)) - 1)/(q - 1)
	k := d1 / (q - 1)
	if !r.fits(func(x float64) float64 { return r.y[0] + k*math.Expm1(b*(x-r.x[0])) }) {
		return Shape{}, false
	}
	s := Shape{Kind: Exponential, A: k * math.Exp(-b*r.x[0]), B: b, C: r.y[0] - k}
	if math.Abs(s.C) <= 100*near*math.Max(math.Abs(r.lo), math.Abs(r.hi)) {
		s.C = 0
	}
	return s, s.A-s.A == 0 && s.A != 0
}

// wave looks for a sinusoid: the sum of the neighbours of a sample on each side
// is a fixed multiple of it plus a constant.
func (r *recogniser) wave() (Shape, bool) {
	step := 1
	for step <= 32 {
		if s, ok := r.waveBy(step); ok {
			return s, true
		}
		step *= 2
	}
	return Shape{}, false
}

func (r *recogniser) waveBy(step int) (Shape, bool) {
	n, sy, ss, syy, sys := 0.0, 0.0, 0.0, 0.0, 0.0
	for i := step; i+step <= grid; i++ {
		y, s := r.y[i], r.y[i-step]+r.y[i+step]
		n, sy, ss, syy, sys = n+1, sy+y, ss+s, syy+y*y, sys+y*s
	}
	twice := (n*sys - sy*ss) / (n*syy - sy*sy)
	if !(twice > -2 && twice < 2) {
		return Shape{}, false
	}
	return r.waveNear(math.Acos(twice/2) / (float64(step) * (r.x[1] - r.x[0])))
}

// waveNear fits a sinusoid, p·sin + q·cos + c, near an angular frequency, which is moved
// until the samples are met: from the second time on the derivative of what was found by
// that is a fourth part (Gauss and Newton).
func (r *recogniser) waveNear(b float64) (Shape, bool) {
	var m []float64 // how much there is of each part
	for range 12 {
		parts := make([][]float64, min(3+len(m), 4))
		for k := range parts {
			parts[k] = make([]float64, len(r.x))
		}
		for i, x := range r.x {
			u := x - r.x[0]
			sin, cos := math.Sincos(b * u)
			parts[0][i], parts[1][i], parts[2][i] = sin, cos, 1
			if m != nil {
				parts[3][i] = u * (m[0]*cos - m[1]*sin)
			}
		}
		var ok bool
		if m, _, ok = matrix.LeastSquares(parts, slices.Clone(r.y)); !ok {
			return Shape{}, false
		}
		if len(m) > 3 {
			b += m[3]
		}
		if r.fits(func(x float64) float64 {
			sin, cos := math.Sincos(b * (x - r.x[0]))
			return m[0]*sin + m[1]*cos + m[2]
		}) {
			s := Shape{Kind: Wave, A: math.Hypot(m[0], m[1]), B: b, C: m[2]}
			if math.Abs(s.C) <= 100*near*s.A {
				s.C = 0
			}
			return s, s.A > 0 && b > 0
		}
	}
	return Shape{}, false
}
