package run

import (
	"math"
	"math/rand/v2"

	"steelyard/units"
	"steelyard/units/rank"
)

// Sampled is what a value came to with its sources drawn at random (JCGM 101:2008).
type Sampled struct {
	// Draws is how often all sources were drawn, and Lacking in how many of those there was no
	// value; the rest is of the others.
	Draws, Lacking int
	Mean, SD       float64
	// Skew is the third moment over the cube of the second; 0 of what is as far off to both
	// sides.
	Skew float64
	// Lo and Hi are the ends of the interval of a probability, with as many values below it as
	// above (7.7.2).
	Lo, Hi float64
}

const (
	// mostDraws is how often sources are drawn (JCGM 101:2008, 7.2.2).
	mostDraws = 1_000_000
	// leastDraws is how often they are drawn at least, whatever it costs.
	leastDraws = 10_000
)

// Sample draws the sources of a slot of one element, and works it out for each draw; the
// draws are the same in every run. It is false where the slot depends on none, or where the
// budget of the state has ended.
//
// The law of propagation takes every function for its tangent. Where uncertainties are as
// large as what they are of, 1/x with x = 1 ± 0.5, that is far off; drawing shows what comes
// out, with its skewness, and asks nothing of the function but values.
func (p *Program) Sample(st *State, s Slot, cover float64) (Sampled, bool) {
	m := p.unsureIn(st)
	sources := m.sources(s)
	x := m.shift(s, sources)
	if x == nil {
		return Sampled{}, false
	}
	d := newDrawer(p, x, sources)
	budget := st.budget()
	before, draws := budget.Left(), mostDraws
	values := make([]float64, mostDraws)
	out, all := Sampled{}, moments{}
	for out.Draws < draws {
		n := min(blockLanes, draws-out.Draws)
		d.draw(n)
		x.out[0] = values[all.n:]
		x.run(n)
		if !budget.Spend(int64(n * len(sources))) {
			return Sampled{}, false
		}
		all.add(values[all.n : all.n+n])
		if out.Draws += n; out.Draws == n {
			draws = affordable(before, before-budget.Left(), n)
		}
	}
	values = values[:all.n]
	out.Lacking = out.Draws - all.n
	if all.n < 2 {
		return out, false
	}
	all.tell(&out)
	rest := (1 - cover) / 2
	out.Lo = rank.Value(values, int(rest*float64(len(values))))
	out.Hi = rank.Value(values, min(int((1-rest)*float64(len(values))), len(values)-1))
	return out, true
}

// affordable is how many draws half of the steps that are left allow, where n have taken
// some.
//
// How dear one draw is is known after the first block. Half is kept for the rest of the
// page, and fewer draws are a power of ten fewer, so that what is said of their number is
// short.
func affordable(left, took int64, n int) int {
	draws := mostDraws
	for draws > leastDraws && float64(draws)/float64(n)*float64(took) > float64(left)/2 {
		draws /= 10
	}
	return draws
}

// moments are sums over values: of their distances from the first, their squares and their
// cubes. The first is as near to the mean as any, so that hardly a figure is lost by taking
// them about it.
type moments struct {
	n                           int
	about, first, second, third float64
}

// add takes a block of values; those that are finite are put together at its beginning.
func (m *moments) add(block []float64) {
	kept, first, second, third := 0, 0.0, 0.0, 0.0
	for _, v := range block {
		if v-v != 0 {
			continue
		}
		if m.n+kept == 0 {
			m.about = v
		}
		block[kept] = v
		kept++
		d := v - m.about
		first += d
		second += float64(d * d)
		third += float64(d * d * d)
	}
	m.n += kept
	m.first, m.second, m.third = m.first+first, m.second+second, m.third+third
}

// tell finds the mean, the standard deviation and the skewness.
func (m *moments) tell(out *Sampled) {
	n, off := float64(m.n), m.first/float64(m.n)
	second := max(0, m.second-float64(off*m.first))
	third := m.third - float64(3*off*m.second) + float64(2*off*off*m.first)
	out.Mean = m.about + off
	out.SD = math.Sqrt(second / (n - 1))
	if out.SD > 0 {
		out.Skew = third / n / (out.SD * out.SD * out.SD)
	}
}

// drawer draws sources into the columns of a shift.
type drawer struct {
	x       *shift
	r       *rand.Rand
	sources []Part
	shapes  []units.SpreadShape
	factors [][]factor
	// normals are the lanes of what is drawn, of sources that others share it with, each as a
	// number of standard deviations; scales are those of scattering readings, by the first of
	// the sources that the same ones move.
	normals [][]float64
	scales  [][]float64
	freedom []float64
}

// newDrawer draws by a fixed seed: the same page says the same each time that it is worked out.
func newDrawer(p *Program, x *shift, sources []Part) *drawer {
	d := &drawer{x: x, r: rand.New(rand.NewPCG(20080101, 101)), sources: sources, factors: latent(sources),
		normals: make([][]float64, len(sources)), scales: make([][]float64, len(sources)), freedom: make([]float64, len(sources))}
	for i, s := range sources {
		d.shapes = append(d.shapes, p.constants(s.Slot)[s.Element].shape())
		if s.Rows == nil {
			continue
		}
		for _, f := range append(d.factors[i], factor{of: i}) {
			if d.normals[f.of] == nil {
				d.normals[f.of] = make([]float64, blockLanes)
			}
		}
		s.Slope = 1
		if d.freedom[i] = (Unsure{By: []Part{s}}).Freedom(); d.freedom[i] > 0 {
			d.scales[i] = make([]float64, blockLanes)
		}
	}
	return d
}

// draw draws every source for the first lanes.
func (d *drawer) draw(lanes int) {
	d.x.hold(lanes)
	for i, s := range d.sources {
		at := d.x.at[s.Slot] + int(s.Element)
		column, v := d.x.in[at][:lanes], d.x.still[at]
		switch {
		case s.Rows != nil:
			d.worked(i, column, v)
		case d.shapes[i] == units.Uniform: // half the width is √3·u (JCGM 100:2008, 4.3.7)
			wide := 2 * math.Sqrt(3) * s.U
			for k := range column {
				column[k] = v + float64(wide*(d.r.Float64()-0.5))
			}
		case d.shapes[i] == units.Triangular: // half the width is √6·u (4.3.9)
			wide := math.Sqrt(6) * s.U
			for k := range column {
				column[k] = v + float64(wide*(d.r.Float64()-d.r.Float64()))
			}
		default:
			for k := range column {
				column[k] = v + float64(s.U*d.r.NormFloat64())
			}
		}
		if s.Rows == nil && d.normals[i] != nil {
			for k, drawn := range column {
				d.normals[i][k] = (drawn - v) / s.U
			}
		}
		d.x.follow(s.Source, column, v)
	}
}

// worked draws a source that was worked out from readings. Where those say by their scatter
// how well it is known, its distance from theirs over the standard uncertainty is as Student's
// t of as many degrees of freedom (JCGM 101:2008, 6.4.9).
func (d *drawer) worked(i int, column []float64, v float64) {
	first := i
	for j := i - 1; j >= 0; j-- {
		if q := d.sources[j]; q.Rows != nil && q.Rows[0].rowsOf == d.sources[i].Rows[0].rowsOf {
			first = j
		}
	}
	for k := range column {
		d.normals[i][k] = d.r.NormFloat64()
		if first == i && d.freedom[i] > 0 {
			d.scales[i][k] = math.Sqrt(d.freedom[i] / chiSquare(d.r, d.freedom[i]))
		}
		off := 0.0
		for _, f := range d.factors[i] {
			off += float64(f.by * d.normals[f.of][k])
		}
		if scales := d.scales[first]; scales != nil {
			off *= scales[k]
		}
		column[k] = v + off
	}
}

// chiSquare draws from the distribution χ² of so many degrees of freedom, which is twice the
// gamma distribution of half of them (G. Marsaglia and W. W. Tsang, ACM Transactions on
// Mathematical Software 26, 2000, p. 363; from memory).
func chiSquare(r *rand.Rand, freedom float64) float64 {
	shape, boost := freedom/2, 1.0
	if shape < 1 {
		boost = math.Pow(1-r.Float64(), 1/shape)
		shape++
	}
	d := shape - 1.0/3
	c := 1 / math.Sqrt(9*d)
	for {
		x := r.NormFloat64()
		v := 1 + float64(c*x)
		if v <= 0 {
			continue
		}
		v = v * v * v
		if math.Log(1-r.Float64()) < float64(x*x)/2+d-float64(d*v)+float64(d*math.Log(v)) {
			return 2 * d * v * boost
		}
	}
}
