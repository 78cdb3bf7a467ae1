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
//
// It has no figures of its own then: how well it is known is said by the uncertainty.
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
	// Rows is set where the source is itself worked out from readings: what moves it, of which U
	// is the uncertainty.
	Rows []Rows
}

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
// the contributions, where sources don't depend on each other (JCGM 100:2008, 5.1.2); those
// that are worked out from the same readings are added row by row first (5.2.2).
func (n Unsure) Uncertainty() float64 {
	sum, rows := 0.0, n.rows()
	for _, p := range n.By {
		if !rows.have(p) {
			sum = math.Hypot(sum, p.Contribution())
		}
	}
	for i := range rows.all {
		sum = math.Hypot(sum, rows.all[i].uncertainty())
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
	sum, rows := 0.0, n.rows()
	for i := range rows.all {
		if r := &rows.all[i]; r.Freedom > 0 {
			sum += math.Pow(r.uncertainty(), 4) / float64(r.Freedom)
		}
	}
	if sum == 0 {
		return 0
	}
	return math.Pow(n.Uncertainty(), 4) / sum
}

// Minus is the difference of two values: what both depend on is in it once.
func (n Unsure) Minus(o Unsure) Unsure {
	out := Unsure{V: n.V - o.V, By: slices.Clone(n.By)}
	for _, p := range o.By {
		p.Slope = -p.Slope
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
				out.By = append(out.By, Part{Source: p.Source, U: p.U, Rows: p.Rows})
			}
			out.By[i].Slope += p.Slope / n
		}
	}
	slices.SortFunc(out.By, func(p, q Part) int { return p.compare(q.Source) })
	return out
}
