package curve

import (
	"math"

	"steelyard/session/entry"
	"steelyard/session/graph"
	"steelyard/units"
)

// told says in words how one coordinate of a path goes.
func (p *plot) told(c *curve) []entry.Said {
	sampled := graph.Sample(c.eval, p.from, p.to)
	if sampled.Empty() {
		return nil
	}
	said, _ := p.shape(c, &sampled)
	return said
}

// path draws one path; false where it has no place.
func (p *plot) path(g *entry.Graph, c *curve) bool {
	path := graph.SamplePath(p.across.eval, c.eval, p.from, p.to)
	if len(path.Runs) == 0 {
		return p.nowhere(g, c, true)
	}
	runs := p.inUnits(p.across.unit, c, path.Runs)
	g.Curves = append(g.Curves, entry.Curve{Of: c.x, Runs: runs})
	g.Shapes = append(append(g.Shapes, p.told(c)...), p.journey(c, path))
	widen(&g.X, p.across.unit, path.Across)
	widen(&g.Y, c.unit, path.Up)
	return true
}

// widen lets an axis reach as far as values do.
func widen(a *entry.Axis, u *units.Unit, by graph.Stretch) {
	lo, hi := u.FromSI(by.From), u.FromSI(by.To)
	a.From, a.To = math.Min(a.From, math.Min(lo, hi)), math.Max(a.To, math.Max(lo, hi))
}

// journey says where a path begins and ends.
func (p *plot) journey(c *curve, path graph.Path) entry.Said {
	t := p.teller(c, p.from, p.to, false)
	place := func(at graph.Point) entry.Said {
		return entry.Say("(…, …)", t.shown(at.X, p.across.unit), t.y(at.Y))
	}
	last := path.Runs[len(path.Runs)-1]
	from, to := place(path.Runs[0][0]), place(last[len(last)-1])
	said := entry.Say("The path of (…, …) begins", entry.Maths(p.across.x, c.x)...)
	if from.Same(to) {
		return said.And(" and ends at ….", from)
	}
	return said.And(" at … and ends at ….", from, to)
}
