package run

import (
	"math"

	"steelyard/units/matrix"
)

const (
	newtonStarts = 96
	newtonSteps  = 60
	// newtonFound is the most solutions that are listed.
	newtonFound = 16
	// readingOps bounds the instructions that one search for values that satisfy
	// several equations may run.
	readingOps = 100_000_000
)

// Newton looks for numbers that satisfy several equations at once, by damped
// Newton steps from the natural scales of the unknowns and multiples of them.
// What it returns was put back into every equation; that there is no other
// solution is not proved.
//
// A step takes the functions for planes, which they are nearly when it is near a root, and goes
// to where those meet; damped, it goes half as far again and again until the equations are off
// by less than before.
func (p *Program) Newton(st *State, s *Solve) [][]float64 {
	return p.floats(st).newton(s)
}

// newton starts from many places, since a Newton step finds the root whose surroundings it
// is in: for each start it takes steps until it is at a root or gets no nearer. What is
// found twice is listed once.
func (r *floatWalker) newton(s *Solve) [][]float64 {
	n := len(s.Dims)
	if len(s.Differences) != n {
		return nil
	}
	w := &newton{r: r, s: s, scale: make([]float64, n), bounds: r.bounds(exact)}
	for k, d := range s.Dims {
		w.scale[k] = r.scale(s.Differences, d)
	}
	var out [][]float64
	each := int64(1)
	for k := range s.Differences {
		each += r.p.Funcs[s.Differences[k]].Cost * int64(2*n+4) * newtonSteps
	}
	starts := int(max(2, min(newtonStarts, readingOps/each)))
	for start := 0; start < starts && len(out) < newtonFound && !r.stopped(); start++ {
		x := w.start(start)
		if !w.descend(x) || !r.satisfies(s, Candidate{X: x}) || w.loose(x) {
			continue
		}
		w.simplify(x)
		if !w.listed(out, x) {
			out = append(out, x)
		}
	}
	return out
}

// simplify makes 0 of what is a rounding remainder, and takes full turns off an
// angle, where the result satisfies the equations as well.
//
// What is put in place of a number must satisfy the equations as it did.
func (w *newton) simplify(x []float64) {
	for k, was := range x {
		switch {
		case math.Abs(was) < 1e-12*w.scale[k]:
			x[k] = 0
		case w.s.Dims[k].IsOne() && math.Abs(was) > math.Pi:
			x[k] = math.Remainder(was, 2*math.Pi)
		default:
			continue
		}
		if !w.r.satisfies(w.s, Candidate{X: x}) {
			x[k] = was
		}
	}
}

// loose tells whether a large unknown may be twice as large and satisfies the equations as well:
// they leave it open, as those that only come near to a solution the farther out it is.
//
// 1/x + 1/y = 6 and 1/x - 1/y = -6 have none: 1/x would be 0, which it nearly is for any x of
// 10^10 and more.
func (w *newton) loose(x []float64) bool {
	for k, was := range x {
		if math.Abs(was) <= w.scale[k] {
			continue
		}
		x[k] = 2 * was
		fits := w.r.satisfies(w.s, Candidate{X: x})
		if x[k] = was; fits {
			return true
		}
	}
	return false
}

// listed tells whether a solution was found before: to fewer figures than a
// root that is bracketed.
// A root that is found from two sides differs in its last digits, and is one to who asked.
func (w *newton) listed(all [][]float64, x []float64) bool {
	for _, o := range all {
		same := true
		for k := range x {
			same = same && math.Abs(o[k]-x[k]) <= 1e-6*math.Max(math.Max(math.Abs(o[k]), math.Abs(x[k])), 1e-3*w.scale[k])
		}
		if same {
			return true
		}
	}
	return false
}

// newton is a search while it goes on.
type newton struct {
	r     *floatWalker
	s     *Solve
	scale []float64
	// bounds works out how large the equations are at a place.
	bounds *boundWalker
}

// start is a place to start from: the scales themselves, then every choice of
// signs, then places spread over six powers of ten.
//
// The scale of each unknown is made of the givens: of a mass and a spring constant come a time
// of the order of √(m/k). Signs are tried before other sizes, since a direction is what is most
// often not known.
func (w *newton) start(i int) []float64 {
	n := len(w.scale)
	x := make([]float64, n)
	signs := min(1<<min(n, 4), 16)
	for k := range x {
		x[k] = w.scale[k]
		if i < signs {
			if i>>k&1 == 1 {
				x[k] = -x[k]
			}
			continue
		}
		// Fractional parts of multiples of irrational numbers spread evenly.
		u := math.Mod(float64(i)*math.Sqrt(float64(2+3*k)), 1)
		x[k] *= math.Pow(10, 6*u-3)
		if math.Mod(float64(i)*math.Sqrt(float64(7+5*k)), 1) < 0.3 {
			x[k] = -x[k]
		}
	}
	return x
}

// values are the remainders of the equations at a place; false if one has no value there.
func (w *newton) values(x, out []float64) bool {
	for k, fn := range w.s.Differences {
		v, ok := w.r.at(fn, x)
		if !ok || v-v != 0 {
			return false
		}
		out[k] = v
	}
	return true
}

// sizes are what the equations are added up from at a place: the bounds of their
// errors, divided by that of one number; 1 where there is nothing.
//
// A remainder of 1e-9 is nothing beside terms of 1e6, and all there is beside terms of 1e-9:
// what the equation adds up says which.
func (w *newton) sizes(x, out []float64) bool {
	for k, fn := range w.s.Differences {
		v, ok := w.bounds.boundAt(fn, x, exact, 0)
		if !ok || v.e-v.e != 0 {
			return false
		}
		if out[k] = v.e / exact; out[k] == 0 {
			out[k] = 1
		}
	}
	return true
}

// descend takes damped Newton steps until the remainders are as small as
// rounding lets them be.
// It gives up where five steps together have not halved the misfit: what is left then is
// rounding, or a place where the remainders are least without being 0.
func (w *newton) descend(x []float64) bool {
	n := len(x)
	f, size, next, step, fNext := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	if !w.values(x, f) {
		return false
	}
	best, still := math.Inf(1), 0
	for range newtonSteps {
		if w.r.stopped() || !w.sizes(x, size) {
			return false
		}
		now := misfit(f, size)
		if now == 0 {
			return true
		}
		if now < best/2 {
			best, still = now, 0
		} else if still++; still > 4 {
			return now < 1e-11
		}
		if !w.direction(x, f, size, step) {
			return now < 1e-11
		}
		moved := false
		for damp := 1.0; damp > 1e-6; damp /= 2 {
			for k := range x {
				next[k] = x[k] - damp*step[k]
			}
			if w.values(next, fNext) && misfit(fNext, size) < now {
				moved = true
				break
			}
		}
		if !moved {
			return now < 1e-11
		}
		copy(x, next)
		copy(f, fNext)
	}
	return true
}

// misfit is the greatest remainder as a part of its equation's greatest term. Equations
// may be of different dimensions, in newtons one and in joules the other, so that only
// parts of their own sizes can be compared.
func misfit(f, size []float64) float64 {
	most := 0.0
	for k := range f {
		most = math.Max(most, math.Abs(f[k]/size[k]))
	}
	return most
}

// direction is the full Newton step, from slopes by central differences.
// The differences are taken over a millionth of each unknown's width: smaller ones would
// drown in the rounding of the remainders. Duals would be exact, but a function with a
// root within it has no slope by them.
func (w *newton) direction(x, f, size, step []float64) bool {
	n := len(x)
	slopes, left, width := make([][]float64, n), make([]float64, n), make([]float64, n)
	up, down := make([]float64, n), make([]float64, n)
	for k := range x {
		left[k] = f[k] / size[k]
		width[k] = math.Max(math.Abs(x[k]), 1e-6*w.scale[k])
		h := 1e-6 * width[k]
		was := x[k]
		x[k] = was + h
		ok1 := w.values(x, up)
		x[k] = was - h
		ok2 := w.values(x, down)
		x[k] = was
		if !ok1 || !ok2 {
			return false
		}
		slopes[k] = make([]float64, n)
		for j := range n {
			slopes[k][j] = (up[j] - down[j]) / (2e-6 * size[j]) // per width
		}
	}
	by, _, ok := matrix.LeastSquares(slopes, left)
	for k := range by {
		step[k] = by[k] * width[k]
	}
	return ok && allFinite(step...)
}
