package run

import (
	"math"

	"steelyard/lang/ops"
	"steelyard/units"
)

const (
	// widest and nearest bound a search for a root where no condition does, in
	// natural scales of the unknown.
	widest  = 1e6
	nearest = 1e-6
)

// NaturalScale is the size that quantities in some functions suggest for a
// quantity of a dimension: the product of their powers, with the smallest
// exponents, that has it; one coherent SI unit if none has.
// A search has to begin somewhere, and numbers without units say nothing of where: 1 m is
// a good guess for a swing and a bad one for an atom. A mass, a stiffness and g suggest a
// length, and roots are mostly within a few powers of ten of it.
func (p *Program) NaturalScale(st *State, fns []int, d units.Dim) float64 {
	return p.floats(st).scale(fns, d)
}

// placeScale is the natural scale of the first argument of a function; 1 if
// nothing is known of its dimension.
func (w *floatWalker) placeScale(fn int) float64 {
	known := w.p.Funcs[fn].Code.Statics
	if len(known) == 0 {
		return 1
	}
	return w.scale([]int{fn}, known[0].Dim)
}

// scale finds the smallest exponents p with Σ pᵢ·dimᵢ = d, by conjugate gradients (M. R. Hestenes
// and E. Stiefel, Journal of Research of the National Bureau of Standards 49, 1952, p. 409; from
// memory): from 0 on, these go along the dimensions alone, and come to the end in as many steps
// as there are base units.
//
// So with more quantities than are needed each has a share in the scale, and none is taken to a
// high power: of two lengths it is the geometric mean. Sums are of logarithms, since sizes from
// an atom's to a planet's would leave what a number can hold.
func (w *floatWalker) scale(fns []int, d units.Dim) float64 {
	g := scaleGather{w: w}
	for _, fn := range fns {
		g.add(w.p.Funcs[fn], 0)
	}
	rest := exponentsOf(d)
	p, along := make([]float64, len(g.dims)), make([]float64, len(g.dims))
	left, before := dot(rest[:], rest[:]), math.Inf(1)
	for step := 0; step < 2*len(rest) && left > tinyRest; step++ { // rounding may take some more
		for k := range along {
			along[k] = dot(g.dims[k][:], rest[:]) + float64(left/before*along[k])
		}
		by := left / dot(along, along)
		for k, q := range g.dims {
			p[k] += float64(by * along[k])
			for i := range rest {
				rest[i] -= float64(by * along[k] * q[i])
			}
		}
		left, before = dot(rest[:], rest[:]), left
	}
	if !(left <= tinyRest) {
		return 1 // the quantities have no power that gives it
	}
	log := dot(p, g.logs)
	if s := math.Exp(log); s > 1e-200 && s < 1e200 {
		return s
	}
	return 1
}

// tinyRest is the square of what rounding leaves of exponents.
const tinyRest = 1e-18

// exponentsOf are those of the base units in a dimension.
func exponentsOf(d units.Dim) (out [7]float64) {
	for k := range out {
		out[k] = d.Exp(k).Float()
	}
	return out
}

// dot is the sum of the products of numbers.
func dot(a, b []float64) (sum float64) {
	for i, v := range a {
		sum += float64(v * b[i])
	}
	return sum
}

// scaleGather collects the quantities with a dimension that functions hold.
type scaleGather struct {
	w    *floatWalker
	dims [][7]float64
	logs []float64
}

// add collects the quantities of a function and of those that it calls. Pure numbers say
// nothing of a scale; a 0 has none.
func (g *scaleGather) add(f *Func, depth int) {
	if depth > 16 || len(g.dims) > 200 {
		return
	}
	for i := range f.Code.Instrs {
		in, st := &f.Code.Instrs[i], f.Code.Statics[i]
		v, ok := in.K, in.Op == ops.Const
		switch in.Op {
		case ops.Load:
			v, ok = g.w.st.Value(in.A)
		case ops.Call:
			g.add(g.w.p.Funcs[in.A], depth+1)
			continue
		}
		if !ok || v == 0 || v-v != 0 || st.Open != 0 || st.Dim.IsOne() {
			continue
		}
		g.dims, g.logs = append(g.dims, exponentsOf(st.Dim)), append(g.logs, math.Log(math.Abs(v)))
	}
}

// searchPieces is where a root is looked for: between the bounds that
// conditions set, else over the powers of ten on both sides of zero. Zero's
// surroundings come first.
// The piece round zero is one of its own, since halving it at a power of ten would never
// end.
func searchPieces(scale, lo, hi float64) []ops.Interval {
	if lo > hi {
		return []ops.Interval{ops.Point(hi)}
	}
	if !math.IsInf(lo, 0) && !math.IsInf(hi, 0) {
		return []ops.Interval{ops.Between(lo, hi)}
	}
	near, wide := nearest*scale, widest*scale
	var out []ops.Interval
	for _, x := range []ops.Interval{ops.Between(-near, near), ops.Between(near, wide), ops.Between(-wide, -near)} {
		x.Lo, x.Hi = math.Max(x.Lo, lo), math.Min(x.Hi, hi)
		if x.Lo < x.Hi {
			out = append(out, x)
		}
	}
	switch {
	case out != nil:
		return out
	case math.IsInf(lo, 0):
		return []ops.Interval{ops.Between(hi-wide, hi)}
	}
	return []ops.Interval{ops.Between(lo, lo+wide)}
}
