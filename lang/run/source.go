package run

import (
	"cmp"
	"math"
	"slices"

	"steelyard/lang/ops"
	"steelyard/units"
)

// Uncertain is the instruction of a number that was written with its standard
// uncertainty, in coherent SI units, and how it is spread.
func Uncertain(v, u float64, shape units.SpreadShape) Instr {
	in := Written(v, u, 0)
	in.A = uncertain - Slot(shape)
	return in
}

// uncertain marks a constant of which B and C hold the standard uncertainty, and those
// below it other shapes.
const uncertain Slot = -1

// Uncertainty is the standard uncertainty of a written number; 0 of one without.
func (in *Instr) Uncertainty() float64 {
	if in.Op != ops.Const || in.A > uncertain {
		return 0
	}
	return in.bits()
}

// shape is how an uncertain number is spread.
func (in *Instr) shape() units.SpreadShape {
	if in.Op != ops.Const || in.A > uncertain {
		return units.Normal
	}
	return units.SpreadShape(uncertain - in.A)
}

// Source is a number of the main code that is known with an uncertainty: an element of a
// slot, counted from 0.
type Source struct {
	Slot    Slot
	Element int32
}

func (s Source) compare(o Source) int {
	return cmp.Or(cmp.Compare(s.Slot, o.Slot), cmp.Compare(s.Element, o.Element))
}

// constants are the instruction of a slot of the main code or, of a list of written numbers,
// those of its elements.
func (p *Program) constants(s Slot) []Instr {
	if in := &p.Main.Instrs[s]; in.Op == ops.Data {
		return p.Data[in.A]
	}
	return p.Main.Instrs[s : s+1]
}

// Under is the slot of the number that a slot has, with its sign or without.
func (c *Code) Under(s Slot) Slot {
	for in := &c.Instrs[s]; in.Op == ops.Neg || in.Op == ops.Copy; in = &c.Instrs[s] {
		s = in.A
	}
	return s
}

// Part is the slope of a value by one source, which has the standard uncertainty U.
type Part struct {
	Source
	U, Slope float64
	// Readings is set where the source is a mean: U is its standard error.
	Readings *Readings
}

// Readings are those that a mean is of. Means of the same readings, or of columns of one
// table, go together row by row (JCGM 100:2008, 4.2 and 5.2.3).
type Readings struct {
	// Of is the slot of the readings, which those that go together have in common.
	Of Slot
	// Off is by how much each row moves the mean: its distance from that over √(n(n - 1)), so
	// that the sum of the squares is the square of the standard error.
	Off []float64
}

// Freedom is how many degrees of freedom the standard error of the mean has.
func (r *Readings) Freedom() int { return len(r.Off) - 1 }

// Contribution is how much of the value's standard uncertainty comes from a source.
func (p Part) Contribution() float64 { return float64(p.Slope * p.U) }

// Unsure is a value with what it depends on: by how much it changes with each source, to
// first order (JCGM 100:2008, clause 5). A number that is used twice is one source, so
// that x - x has the slope 0 by it.
type Unsure struct {
	V  float64
	By []Part // in the order of their sources

	// bent is about how much of its spread the slopes leave out.
	bent float64
}

// Uncertainty is the combined standard uncertainty: the root of the sum of the squares of
// the contributions, where sources don't depend on each other (JCGM 100:2008, 5.1.2); means
// of readings that go together are added row by row first (5.2.2).
func (n Unsure) Uncertainty() float64 {
	sum := 0.0
	for i, p := range n.By {
		switch {
		case p.Readings == nil:
			sum = math.Hypot(sum, p.Contribution())
		case firstOf(n.By, i) == i:
			sum = math.Hypot(sum, n.rows(i))
		}
	}
	return sum
}

// apart is the uncertainty if no two of the sources went together. Means that do may leave
// nothing of it, as in mean(a*L) - a*mean(L), where what is left beyond the slopes is a
// product of two that are small.
func (n Unsure) apart() float64 {
	sum := 0.0
	for _, p := range n.By {
		sum = math.Hypot(sum, p.Contribution())
	}
	return sum
}

// Added is the plain sum of the contributions' sizes, which is never less: sums add their
// uncertainties, and products the parts of theirs that those are.
func (n Unsure) Added() float64 {
	sum := 0.0
	for _, p := range n.By {
		sum += math.Abs(p.Contribution())
	}
	return sum
}

// Freedom is the effective number of degrees of freedom of the uncertainty, by the formula of
// Welch and Satterthwaite (JCGM 100:2008, G.4.1); 0 where there is no end of them.
func (n Unsure) Freedom() float64 {
	sum := 0.0
	for i, p := range n.By {
		if p.Readings != nil && firstOf(n.By, i) == i {
			sum += math.Pow(n.rows(i), 4) / float64(p.Readings.Freedom())
		}
	}
	if sum == 0 {
		return 0
	}
	return math.Pow(n.Uncertainty(), 4) / sum
}

// firstOf is the first of some parts of which the readings go together with those of part
// i.
func firstOf(by []Part, i int) int {
	of := by[i].Readings
	return slices.IndexFunc(by[:i+1], func(p Part) bool {
		return p.Readings != nil && p.Readings.Of == of.Of && len(p.Readings.Off) == len(of.Off)
	})
}

// rows is what comes from part i and those that go together with it.
func (n Unsure) rows(first int) float64 {
	sum, size := 0.0, 0.0
	off := make([]float64, len(n.By[first].Readings.Off))
	for i := first; i < len(n.By); i++ {
		if p := &n.By[i]; p.Readings != nil && firstOf(n.By, i) == first {
			size += math.Abs(p.Contribution())
			for row, by := range p.Readings.Off {
				off[row] += float64(p.Slope * by)
			}
		}
	}
	for _, by := range off {
		sum = math.Hypot(sum, by)
	}
	if sum < 1e-13*size { // nothing is left but rounding
		return 0
	}
	return sum
}

// Minus is the difference of two values: what both depend on is in it once.
func (n Unsure) Minus(o Unsure) Unsure { return n.and(o, -1) }

// Plus is the sum of two values.
func (n Unsure) Plus(o Unsure) Unsure { return n.and(o, 1) }

// and adds another value times a factor.
func (n Unsure) and(o Unsure, factor float64) Unsure {
	out := Unsure{V: n.V + float64(factor*o.V), By: slices.Clone(n.By)}
	for _, p := range o.By {
		p.Slope *= factor
		i, shared := slices.BinarySearchFunc(out.By, p.Source, func(q Part, s Source) int { return q.compare(s) })
		if shared {
			out.By[i].Slope += p.Slope
		} else {
			out.By = slices.Insert(out.By, i, p)
		}
	}
	return out
}

// MeanOf is the mean of some values.
func MeanOf(all []Unsure) Unsure {
	out, n := Unsure{}, float64(len(all))
	at := map[Source]int{}
	for _, one := range all {
		out.V += one.V / n
		for _, p := range one.By {
			i, known := at[p.Source]
			if !known {
				i, at[p.Source] = len(out.By), len(out.By)
				out.By = append(out.By, Part{Source: p.Source, U: p.U, Readings: p.Readings})
			}
			out.By[i].Slope += p.Slope / n
		}
	}
	slices.SortFunc(out.By, func(p, q Part) int { return p.compare(q.Source) })
	return out
}
