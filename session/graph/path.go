package graph

import (
	"slices"

	"steelyard/lang/ops"
)

// Path is a sampled path: where something is, while a third quantity goes from one
// value to another. The points of its runs are places.
type Path struct {
	Runs       [][]Point
	Across, Up ops.Interval // the values that are worth showing
}

// SamplePath follows a path by its two coordinates, closer where either bends.
func SamplePath(across, up Function, from, to float64) Path {
	a, u := Sample(across, from, to), Sample(up, from, to)
	p := Path{Across: ops.Between(a.Lo, a.Hi), Up: ops.Between(u.Lo, u.Hi)}
	for _, one := range a.Runs {
		for _, other := range u.Runs {
			if run := places(across, up, one, other); run != nil {
				p.Runs = append(p.Runs, run)
			}
		}
	}
	return p
}

// places works out both coordinates wherever one of two pieces has a point and the other
// goes on.
func places(across, up Function, a, u []Point) []Point {
	lo := max(a[0].X, u[0].X)
	hi := min(a[len(a)-1].X, u[len(u)-1].X)
	var at []float64
	for _, points := range [...][]Point{a, u} {
		for _, p := range points {
			if p.X >= lo && p.X <= hi {
				at = append(at, p.X)
			}
		}
	}
	slices.Sort(at)
	at = slices.Compact(at)
	x, y := make([]float64, len(at)), make([]float64, len(at))
	okX, okY := make([]bool, len(at)), make([]bool, len(at))
	across(at, x, okX)
	up(at, y, okY)
	var run []Point
	for i := range at {
		if okX[i] && okY[i] {
			run = append(run, Point{x[i], y[i]})
		}
	}
	return run
}
