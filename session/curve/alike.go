package curve

import (
	"math"
	"slices"

	"steelyard/session/entry"
)

const (
	// alikeAt is at how many places curves are held against each other, once they are near
	// at some of every sixteenth.
	alikeAt   = 257
	alikeEach = 16
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
	near := alikeWithin * (g.Y.To - g.Y.From)
	// A stretch that is told has as many of the few places.
	if x, y := p.heldAt(alikeAt/alikeEach, alikeEach); !slices.ContainsFunc(pairs(len(y)), func(of [2]int) bool {
		_, n := longest(y[of[0]], y[of[1]], near)
		return n >= int(alikePart*float64(len(x)))
	}) {
		return nil
	}
	x, y := p.heldAt(alikeAt, 1)
	var said []entry.Said
	for _, of := range pairs(len(y)) {
		if from, n := longest(y[of[0]], y[of[1]], near); float64(n) > alikePart*alikeAt && len(said) < mostAlike {
			said = append(said, p.lieTogether(of[0], of[1], x[from], x[from+n-1]))
		}
	}
	return said
}

// pairs are all pairs of so many curves.
func pairs(n int) (out [][2]int) {
	for i := range n {
		for k := i + 1; k < n; k++ {
			out = append(out, [2]int{i, k})
		}
	}
	return out
}

// heldAt are the first n of every so many of the places at which curves are held against
// each other, and the values of each curve there.
func (p *plot) heldAt(n, each int) (x []float64, y [][]float64) {
	x = make([]float64, n)
	for i := range x {
		x[i] = p.from + (p.to-p.from)*float64(each*i)/(alikeAt-1)
	}
	for _, c := range p.curves {
		values, ok := make([]float64, n), make([]bool, n)
		c.eval(x, values, ok)
		for k := range values {
			if values[k] = c.unit.FromSI(values[k]); !ok[k] {
				values[k] = math.NaN()
			}
		}
		y = append(y, values)
	}
	return x, y
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
	said := entry.Say("In the drawing, … and … lie on each other", entry.Maths(p.shortName(a), p.shortName(b))...)
	if from == p.from && to == p.to {
		return said.And(".")
	}
	t := p.teller(a, p.from, p.to, true)
	return said.And(" from … to ….", t.x(from), t.xValue(to))
}
