package run

import (
	"math"

	"steelyard/lang/ops"
)

// The nodes and weights of the 15-point Kronrod rule with the 7-point Gauss rule
// in it, on -1 to 1: R. Piessens, E. de Doncker-Kapenga, C. Überhuber and
// D. Kahaner, QUADPACK (Springer, 1983), routine QK15. From memory; a test holds
// them against the powers that they integrate exactly.
var (
	kronrodNodes = [8]float64{
		0.991455371120812639206854697526329, 0.949107912342758524526189684047851, 0.864864423359769072789712788640926, 0.741531185599394439863864773280788,
		0.586087235467691130294144691838259, 0.405845151377397166906606412076961, 0.207784955007898467600689403773245, 0,
	}
	kronrodWeights = [8]float64{
		0.022935322010529224963732008058970, 0.063092092629978553290700663189204, 0.104790010322250183839876322541518, 0.140653259715525918745189590510238,
		0.169004726639267902826583426598550, 0.190350578064785409913256402421014, 0.204432940075298892414161999234649, 0.209482141084727828012999174891714,
	}
	gaussWeights = [4]float64{
		0.129484966168869693270611432679082, 0.279705391489276667901467771423780, 0.381830050505118944950369775488975, 0.417959183673469387755102040816327,
	}
)

const (
	// readingOps bounds the instructions that one area, or one search for values
	// that satisfy several equations, may run.
	readingOps = 100_000_000
	// maxPanels bounds the work of one area.
	maxPanels = 4000
	// roundedOff is how small the sum of areas above and below the axis is, as a
	// part of them, to be a rounding remainder.
	roundedOff = 4e-15
	// areaGood is how good an area must be, as a part of the area of what lies
	// above and below the axis together.
	areaGood = 1e-10
)

// panel is a piece of an area with its estimate.
type panel struct {
	lo, hi    float64
	sum, size float64 // the area, and that of the curve's size
	doubt     float64
}

// area integrates a function by the first of its arguments, the others of which do
// not vary: the piece that is most in doubt is halved until what is left in doubt
// is small.
func (w *floatWalker) area(fn int, lo, hi float64, still ...float64) (float64, ops.Fault) {
	if lo == hi {
		return 0, ops.NoFault
	}
	given := append([]float64{0}, still...)
	whole, ok := w.panel(fn, lo, hi, given)
	if !ok {
		return 0, ops.NoReal
	}
	all := []panel{whole}
	most := int(max(8, min(maxPanels, readingOps/(30*max(w.p.Funcs[fn].Cost, 1)))))
	for !w.halted {
		sum, size, doubt, worst := inAll(all)
		if doubt <= areaGood/100*size {
			if math.Abs(sum) < roundedOff*size {
				sum = 0
			}
			return sum, ops.NoFault
		}
		p := all[worst]
		if len(all) >= most || p.narrow() {
			if doubt <= areaGood*size {
				return sum, ops.NoFault
			}
			return 0, ops.NotSettled
		}
		mid := p.lo + (p.hi-p.lo)/2
		a, ok1 := w.panel(fn, p.lo, mid, given)
		b, ok2 := w.panel(fn, mid, p.hi, given)
		switch {
		case ok1 && ok2:
			all[worst] = a
			all = append(all, b)
		case math.Abs(p.hi-p.lo) < 1e-9*math.Abs(hi-lo):
			return 0, ops.NotSettled // it runs off
		default:
			return 0, ops.NoReal
		}
	}
	return 0, ops.Stopped
}

// inAll adds panels up, and finds the one that is most in doubt.
func inAll(all []panel) (sum, size, doubt float64, worst int) {
	for i := range all {
		sum, size, doubt = sum+all[i].sum, size+all[i].size, doubt+all[i].doubt
		if all[i].doubt > all[worst].doubt {
			worst = i
		}
	}
	return sum, size, doubt, worst
}

// narrow tells whether a piece is too short to be halved to any use.
func (p panel) narrow() bool {
	return math.Abs(p.hi-p.lo) < 1e-13*math.Max(math.Abs(p.hi), math.Abs(p.lo))
}

// panel estimates one piece by two rules, the difference of which is its doubt.
// Given has the arguments of the function; the first is set here.
func (w *floatWalker) panel(fn int, lo, hi float64, given []float64) (panel, bool) {
	mid, half := lo+(hi-lo)/2, (hi-lo)/2
	out := panel{lo: lo, hi: hi}
	gauss, kronrod, size := 0.0, 0.0, 0.0
	for i, node := range kronrodNodes {
		for _, side := range [2]float64{-1, 1} {
			if node == 0 && side > 0 {
				continue
			}
			given[0] = mid + float64(side*half*node)
			v, ok := w.at(fn, given)
			if !ok || v-v != 0 {
				return out, false
			}
			kronrod += kronrodWeights[i] * v
			size += kronrodWeights[i] * math.Abs(v)
			if i%2 == 1 {
				gauss += gaussWeights[i/2] * v
			}
		}
	}
	out.sum, out.size = kronrod*half, size*math.Abs(half)
	out.doubt = math.Abs(kronrod-gauss) * math.Abs(half)
	// The better rule is far better than the difference says, unless rounding
	// is all that is left of it.
	if out.size > 0 {
		out.doubt = math.Max(out.size*math.Pow(math.Min(1, 200*out.doubt/out.size), 1.5), 5e-16*out.size)
	}
	return out, true
}
