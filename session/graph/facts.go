package graph

import (
	"math"
	"sort"

	"steelyard/lang/ops"
)

// Facts are what can be said of a curve whose shape has no name.
type Facts struct {
	Rises, Falls   bool // throughout
	Greatest       Point
	Least          Point
	Zeros          []float64
	Flat           []ops.Interval // where it is 0 throughout
	Even, Odd      bool           // about x = 0, where the range is symmetric
	AtFrom, AtTo   Point
	HasFrom, HasTo bool
}

// Look gathers facts about a sampled curve.
func Look(f Function, c Curve, from, to float64) Facts {
	out := Facts{Rises: true, Falls: true, Greatest: Point{Y: math.Inf(-1)}, Least: Point{Y: math.Inf(1)}}
	var greatest, least []Point // the pieces that these lie in, at hi and lo
	var hi, lo int
	for _, run := range c.Runs {
		for i, p := range run {
			if p.Y > out.Greatest.Y {
				out.Greatest, greatest, hi = p, run, i
			}
			if p.Y < out.Least.Y {
				out.Least, least, lo = p, run, i
			}
			if p.Y == 0 && (p.X == from || p.X == to || goesDown(run, i)) {
				out.zeroSample(f, run, i)
			}
			if i == 0 {
				continue
			}
			if i > 1 && touches(run[i-2].Y, run[i-1].Y, p.Y) {
				sign := math.Copysign(1, -p.Y)
				if low := refine(f, run, i-1, sign); math.Abs(low.Y) < 1e-12*(c.Hi-c.Lo) {
					out.zero(low.X)
				}
			}
			rise := p.Y - run[i-1].Y
			out.Rises, out.Falls = out.Rises && rise >= 0, out.Falls && rise <= 0
			if p.Y*run[i-1].Y < 0 {
				out.zero(crossing(f, run[i-1].X, p.X, run[i-1].Y))
			}
		}
	}
	if !c.Empty() {
		out.Greatest, out.Least = refine(f, greatest, hi, 1), refine(f, least, lo, -1)
	}
	if len(c.Runs) > 1 {
		out.Rises, out.Falls = false, false
	}
	var ok1, ok2 bool
	out.AtFrom.X, out.AtTo.X = from, to
	out.AtFrom.Y, ok1 = f.At(from)
	out.AtTo.Y, ok2 = f.At(to)
	out.HasFrom, out.HasTo = ok1, ok2
	for _, end := range []Point{out.AtFrom, out.AtTo} { // a remainder at an end is zero
		if tall := c.Hi - c.Lo; end.Y != 0 && math.Abs(end.Y) < 1e-12*tall {
			out.Zeros = append(out.Zeros, end.X)
		}
	}
	sort.Float64s(out.Zeros)
	out.symmetry(f, from, to, c.Hi-c.Lo)
	return out
}

// touches tells whether a curve comes nearest to 0 about the second of three values,
// without crossing it from one to the next.
func touches(a, b, c float64) bool {
	return a*b > 0 && b*c > 0 && math.Abs(b) <= math.Abs(a) && math.Abs(b) <= math.Abs(c)
}

// goesDown tells whether a run that ends in a 0 goes down to it. One that rises toward
// a pole, and is 0 beside it, does not: rounding has left nothing of (1 - cos(x))/x³.
func goesDown(run []Point, i int) bool {
	by := 1
	if i > 0 {
		by = -1
	}
	if i > 0 && i < len(run)-1 {
		return true
	}
	return len(run) > 2 && math.Abs(run[i+by].Y) <= math.Abs(run[i+2*by].Y)
}

// zeroSample lists a point of a run that is 0: one place, or together with the
// point before it, where the curve is 0 between them too, a part of a stretch.
func (f *Facts) zeroSample(fn Function, run []Point, i int) {
	x := run[i].X
	if i == 0 || run[i-1].Y != 0 {
		f.zero(x)
		return
	}
	before := run[i-1].X
	n := len(f.Flat)
	if y, ok := fn.At(before + (x-before)/2); !ok || y != 0 {
		f.zero(x)
		return
	}
	if n == 0 || f.Flat[n-1].Hi < before {
		if last := len(f.Zeros) - 1; last >= 0 && f.Zeros[last] == before {
			f.Zeros = f.Zeros[:last]
		}
		begin := before
		if i > 1 {
			begin = lastZero(fn, before, run[i-2].X)
		}
		f.Flat = append(f.Flat, ops.Point(begin))
		n++
	}
	f.Flat[n-1].Hi = x
	if i+1 < len(run) && run[i+1].Y != 0 {
		f.Flat[n-1].Hi = lastZero(fn, x, run[i+1].X)
	}
}

// lastZero is how far a curve is 0 from a place where it is, toward another.
func lastZero(f Function, zero, other float64) float64 {
	zero, _ = border(zero, other, func(x float64) bool { y, ok := f.At(x); return ok && y == 0 })
	return zero
}

// zero lists a zero, once.
func (f *Facts) zero(x float64) {
	if n := len(f.Zeros); n == 0 || math.Abs(f.Zeros[n-1]-x) > 1e-9*math.Abs(x) {
		f.Zeros = append(f.Zeros, x)
	}
}

// refine finds the greatest value near a point, or the least with sign -1, by
// golden sections; the point itself where no value is more than rounding beyond its.
func refine(f Function, run []Point, i int, sign float64) Point {
	if i == 0 || i == len(run)-1 {
		return run[i]
	}
	a, b := run[i-1].X, run[i+1].X
	const part = 0.3819660112501051
	x1, x2 := a+part*(b-a), b-part*(b-a)
	y1, ok1 := f.At(x1)
	y2, ok2 := f.At(x2)
	for range 60 {
		if !ok1 || !ok2 {
			return run[i]
		}
		if sign*y1 > sign*y2 {
			b, x2, y2 = x2, x1, y1
			x1 = a + part*(b-a)
			y1, ok1 = f.At(x1)
		} else {
			a, x1, y1 = x1, x2, y2
			x2 = b - part*(b-a)
			y2, ok2 = f.At(x2)
		}
	}
	mid := a + (b-a)/2
	if y, ok := f.At(mid); ok && sign*(y-run[i].Y) > 1e-15*math.Abs(y) {
		return Point{mid, y}
	}
	return run[i]
}

// crossing finds where a curve crosses zero between two places.
func crossing(f Function, a, b, ya float64) float64 {
	_, at := border(a, b, func(x float64) bool { y, ok := f.At(x); return ok && y*ya > 0 })
	return at
}

// symmetry compares both sides of x = 0.
func (f *Facts) symmetry(fn Function, from, to, tall float64) {
	if math.Abs(from+to) > 1e-9*(to-from) || tall == 0 {
		return
	}
	f.Even, f.Odd = true, true
	const n = 64
	for i := 1; i <= n; i++ {
		x := to * float64(i) / n
		a, ok1 := fn.At(x)
		b, ok2 := fn.At(-x)
		if ok1 != ok2 {
			f.Even, f.Odd = false, false
			return
		}
		if ok1 {
			f.Even = f.Even && math.Abs(a-b) <= near*tall
			f.Odd = f.Odd && math.Abs(a+b) <= near*tall
		}
	}
}
