package graph

import "math"

// Axes tells which axes of a drawing are logarithmic.
type Axes struct{ Across, Up bool }

// SampleOn follows a curve as Sample does, closer where it bends on the axes that it is
// drawn on. On a logarithmic axis the range must be above 0, and only values above 0
// are there.
func SampleOn(axes Axes, f Function, from, to float64, through ...float64) Curve {
	if axes == (Axes{}) {
		return Sample(f, from, to, through...)
	}
	x, y := func(v float64) float64 { return v }, func(v float64) float64 { return v }
	if axes.Across {
		lo, hi := from, to
		from, to = math.Log(from), math.Log(to)
		first, last := from, to
		x = func(v float64) float64 {
			switch {
			case v <= first:
				return lo
			case v >= last:
				return hi
			}
			return math.Exp(v)
		}
		for i, v := range through {
			through[i] = math.Log(v)
		}
	}
	if axes.Up {
		y = math.Exp
	}
	c := Sample(func(u, v []float64, ok []bool) {
		at := make([]float64, len(u))
		for i := range u {
			at[i] = x(u[i])
		}
		f(at, v, ok)
		for i := range v {
			if axes.Up {
				ok[i] = ok[i] && v[i] > 0
				v[i] = math.Log(v[i])
			}
		}
	}, from, to, through...)
	back := func(p Point) Point { return Point{x(p.X), y(p.Y)} }
	for _, run := range c.Runs {
		for i := range run {
			run[i] = back(run[i])
		}
	}
	for i := range c.Dots {
		c.Dots[i].Point = back(c.Dots[i].Point)
	}
	for i := range c.Breaks {
		c.Breaks[i] = x(c.Breaks[i])
	}
	for i := range c.Poles {
		c.Poles[i] = x(c.Poles[i])
	}
	c.Lo, c.Hi = y(c.Lo), y(c.Hi)
	return c
}
