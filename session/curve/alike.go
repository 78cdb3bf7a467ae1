package curve

import (
	"math"

	"steelyard/session/entry"
)

const (
	// alikeAt is at how many places curves are held against each other.
	alikeAt = 257
	// alikeWithin is how near curves are that a drawing can't show apart, as a part of
	// its height.
	alikeWithin = 0.004
	// alikePart is the least part of the range over which that is worth telling.
	alikePart = 0.25
	// mostAlike is how many pairs of curves are told of.
	mostAlike = 3
)

// alike says of curves that lie on each other over much of the range where they do: in
// the drawing, one hides the other.
func (p *plot) alike(g *entry.Graph) []entry.Said {
	if len(p.curves) < 2 {
		return nil
	}
	x := make([]float64, alikeAt)
	for i := range x {
		x[i] = p.from + (p.to-p.from)*float64(i)/(alikeAt-1)
	}
	y := make([][]float64, len(p.curves))
	for i, c := range p.curves {
		values, ok := make([]float64, alikeAt), make([]bool, alikeAt)
		c.eval(x, values, ok)
		for k := range values {
			if values[k] = c.unit.FromSI(values[k]); !ok[k] {
				values[k] = math.NaN()
			}
		}
		y[i] = values
	}
	var said []entry.Said
	for i := range y {
		for k := i + 1; k < len(y) && len(said) < mostAlike; k++ {
			if from, n := longest(y[i], y[k], alikeWithin*(g.Y.To-g.Y.From)); float64(n) > alikePart*alikeAt {
				said = append(said, p.lieTogether(i, k, x[from], x[from+n-1]))
			}
		}
	}
	return said
}

// longest finds the longest stretch over which two rows of values are near each other.
func longest(a, b []float64, near float64) (from, n int) {
	run := 0
	for i := range a {
		if run++; !(math.Abs(a[i]-b[i]) <= near) {
			run = 0
		}
		if run > n {
			from, n = i-run+1, run
		}
	}
	return from, n
}

func (p *plot) lieTogether(i, k int, from, to float64) entry.Said {
	a, b := p.curves[i], p.curves[k]
	said := entry.Say("In the drawing, … and … lie on each other", entry.Maths(shortName(a, p.s.Against.Name), shortName(b, p.s.Against.Name))...)
	if from == p.from && to == p.to {
		return said.And(".")
	}
	t := p.teller(a, p.from, p.to, true)
	return said.And(" from … to ….", t.x(from), t.xValue(to))
}
