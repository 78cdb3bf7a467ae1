package curve

import (
	"math"
	"slices"

	"steelyard/lang/limit"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/session/entry"
	"steelyard/session/graph"
	"steelyard/units"
)

// told says in words how one coordinate of a path goes.
//
// Each coordinate is a curve against what both depend on, and is told like one.
func (p *plot) told(c *curve) []entry.Said {
	sampled := graph.Sample(c.eval, p.from, p.to)
	if sampled.Empty() {
		return nil
	}
	said, _ := p.shape(c, &sampled)
	return said
}

// path draws one path; false where it has no place.
//
// A path has no direction of its own on paper: its dots are at equal times, so that it can be
// seen where it is fast, and the words say where it begins.
func (p *plot) path(g *entry.Graph, c *curve) bool {
	path := graph.SamplePath(p.across.eval, c.eval, p.from, p.to)
	if len(path.Runs) == 0 {
		return p.nowhere(g, c, true)
	}
	g.Shapes = append(append(g.Shapes, p.told(c)...), p.journey(c, path))
	out := entry.Curve{Of: c.x, Runs: p.inUnits(p.across.unit, c, path.Runs)}
	if p.s.Vector {
		out.Of = p.s.Curves[0].X
	}
	if p.static.Dim == units.Of("s").Dim() {
		out.Dots = p.clock(g, c)
	}
	if p.across.static.Dim == units.Of("m").Dim() && c.static.Dim == p.across.static.Dim {
		g.Shapes = append(g.Shapes, p.sights(c)...)
	}
	g.Curves = append(g.Curves, out)
	widen(&g.X, p.across.unit, path.Across)
	widen(&g.Y, c.unit, path.Up)
	return true
}

// widen lets an axis reach as far as values do.
func widen(a *entry.Axis, u *units.Unit, by ops.Interval) {
	lo, hi := u.FromSI(by.Lo), u.FromSI(by.Hi)
	a.From, a.To = math.Min(a.From, math.Min(lo, hi)), math.Max(a.To, math.Max(lo, hi))
}

// journey says where a path begins and ends.
//
// A closed path says so, as long as both ends look the same with the figures that are shown.
func (p *plot) journey(c *curve, path graph.Path) entry.Said {
	t := p.teller(c, p.from, p.to, false)
	place := func(at graph.Point) entry.Said { return t.place(at.X, at.Y) }
	last := path.Runs[len(path.Runs)-1]
	from, to := place(path.Runs[0][0]), place(last[len(last)-1])
	said := entry.Say("The path of (…, …) begins", entry.Maths(p.across.x, c.x)...)
	if p.s.Vector {
		said = entry.Say("The path of … begins", entry.Math(p.s.Curves[0].X))
	}
	if from.Same(to) {
		return said.And(" and ends at ….", from)
	}
	return said.And(" at … and ends at ….", from, to)
}

// place is a place on a path.
func (t teller) place(x, y float64) entry.Said {
	return entry.Say("(…, …)", t.shown(x, t.p.across.unit), t.y(y))
}

// leastMarks is how many equal times a path has marks at, or up to some more.
const leastMarks = 6

// clock marks a path at equal times, from its begin on, a round time apart.
//
// A step of 1, 2 or 5 times a power of ten in the unit of the range: a reader counts dots in
// that.
func (p *plot) clock(g *entry.Graph, c *curve) []graph.Dot {
	span := p.unit.FromSIDifference(p.to - p.from)
	power := math.Pow10(int(math.Floor(math.Log10(span / leastMarks))))
	step := power
	for _, n := range [...]float64{2, 5} {
		if n*power <= span/leastMarks {
			step = n * power
		}
	}
	var out []graph.Dot
	for i := 0; float64(i)*step <= span*(1+1e-9); i++ {
		at := p.from + float64(float64(i)*step*(p.to-p.from)/span)
		x, ok1 := p.across.eval.At(at)
		y, ok2 := c.eval.At(at)
		if ok1 && ok2 {
			out = append(out, graph.Dot{Point: graph.Point{X: p.across.unit.FromSI(x), Y: c.unit.FromSI(y)}})
		}
	}
	if len(out) > 0 {
		g.Shapes = append(g.Shapes, entry.Say("The dots are … apart.", p.Told(units.Figures{}, step*(p.to-p.from)/span, p.unit)))
	}
	return out
}

// sights says where a path is highest, where it comes down to 0, and where it turns back, as far as the searches prove it.
//
// Only what a search has proved is told, and only if it is in a few places: a path that turns
// back a hundred times is seen better than read.
func (p *plot) sights(c *curve) []entry.Said {
	t, sideways := p.teller(c, p.from, p.to, false), p.teller(p.across, p.from, p.to, false)
	var said []entry.Said
	say := func(text entry.Said, at []float64) {
		var all []entry.Said
		slices.Sort(at)
		for _, when := range at {
			x, ok1 := p.across.eval.At(when)
			y, ok2 := c.eval.At(when)
			if ok1 && ok2 {
				far := leftBeside * math.Hypot(x, y)
				all = append(all, entry.Say("…, at …", t.x(t.tidy(when)), t.place(beyond(x, far), beyond(y, far))))
			}
		}
		if all != nil && len(all) <= limit.Places {
			said = append(said, text.And(" when ….", entry.Listed(all)))
		}
	}
	say(entry.Words("It is highest"), p.turning(t.peak(1)))
	say(entry.Say("It comes down to … = 0", entry.Math(p.shortName(c))), p.landings(t))
	say(entry.Words("It turns back"), append(p.turning(sideways.peak(1)), p.turning(sideways.peak(-1))...))
	return said
}

// leftBeside is how small a part of its distance from the origin a coordinate of a place
// that was searched for has, where it is 0 but for rounding.
const leftBeside = 1e-12

// beyond is a coordinate, or 0 where it is no larger than what rounding leaves.
func beyond(v, left float64) float64 {
	if math.Abs(v) <= left {
		return 0
	}
	return v
}

// turning are the places of an extreme between the ends of the range.
//
// At an end of the range the path is cut off there, and does not turn.
func (p *plot) turning(peak run.Peak, ok bool) []float64 {
	var out []float64
	edge := 1e-6 * (p.to - p.from)
	for _, at := range peak.At {
		if ok && !peak.Endless && at.IsPoint() && at.Lo > p.from+edge && at.Lo < p.to-edge {
			out = append(out, at.Lo)
		}
	}
	return out
}

// landings are the zeros of a height that it falls to.
//
// Where it rises from 0, as at the throw, it does not land. A height with a zero that is not
// settled has none that could be told as the only ones.
func (p *plot) landings(t teller) []float64 {
	if !t.c.alone {
		return nil
	}
	var out []float64
	all := p.Planner.Program.Zeros(&p.State, t.c.fn, t.over())
	for _, at := range all.Found {
		before := at - 1e-6*(p.to-p.from)
		if y, ok := t.c.eval.At(before); ok && before > p.from && y > 0 && len(all.Unsettled) == 0 {
			out = append(out, at)
		}
	}
	return out
}
