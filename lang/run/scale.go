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

// scale finds the smallest exponents p with Σ pᵢ·dimᵢ = d: p = Aᵀ·y, where A
// has the dimensions as columns and (A·Aᵀ)·y = d.
//
// That is the solution of least norm (as any course of linear algebra has it). With more
// quantities than are needed each has a share in the scale, and none is taken to a high
// power: of two lengths it is the geometric mean. Sums are of logarithms, since sizes from
// an atom's to a planet's would leave what a number can hold.
func (w *floatWalker) scale(fns []int, d units.Dim) float64 {
	g := scaleGather{w: w}
	for _, fn := range fns {
		g.add(w.p.Funcs[fn], 0)
	}
	const n = 7
	m := make([][]float64, n)
	for i := range m {
		m[i] = make([]float64, n+1)
		for j := range n {
			for _, q := range g.dims {
				m[i][j] += float64(q[i] * q[j])
			}
		}
		m[i][n] = d.Exp(i).Float()
	}
	const tiny = 1e-9
	pivots := pivoted(m, tiny)
	for _, row := range m[len(pivots):] {
		if math.Abs(row[n]) > tiny {
			return 1 // the quantities have no power that gives it
		}
	}
	var y [n]float64
	for i, col := range pivots {
		y[col] = m[i][n] / m[i][col]
	}
	log := 0.0
	for k, q := range g.dims {
		p := 0.0
		for i := range n {
			p += float64(q[i] * y[i])
		}
		log += p * g.logs[k]
	}
	if s := math.Exp(log); s > 1e-200 && s < 1e200 {
		return s
	}
	return 1
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
		var q [7]float64
		for k := range q {
			q[k] = st.Dim.Exp(k).Float()
		}
		g.dims, g.logs = append(g.dims, q), append(g.logs, math.Log(math.Abs(v)))
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
