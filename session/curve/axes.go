package curve

import (
	"math"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/session/graph"
	"steelyard/units"
	"steelyard/units/writing"
)

// axes are the logarithmic axes that are asked for.
func (p *plot) axes() graph.Axes { return graph.Axes{Across: p.s.Across, Up: p.s.Up} }

// logAxes checks that a logarithmic axis across can be drawn.
func (p *plot) logAxes() bool {
	switch {
	case p.s.IsPath() && p.s.Log:
		p.Find(finding.New(finding.NoRange, p.s.Curves[0].X.Span(), "A path is drawn on plain axes.", "Leave `log` out."))
	case p.s.Across && (p.from <= 0 || p.unit.Affine()):
		p.Find(finding.New(finding.NoRange, p.s.From.Span(), "A logarithmic axis can't show "+p.shownX(p.from)+".", "Let the range begin above 0."))
	default:
		return true
	}
	return false
}

// xAxis is what goes across, and its range; that of a path comes with its places.
func (p *plot) xAxis() entry.Axis {
	if c := p.across; c != nil {
		return entry.Axis{Label: entry.Head{Of: []syntax.Expr{p.shortName(c)}, Unit: c.unit}, From: math.Inf(1), To: math.Inf(-1)}
	}
	label := entry.Head{Of: []syntax.Expr{&syntax.Name{Name: p.s.Against.Name}}, Unit: p.unit}
	return entry.Axis{Label: label, From: p.unit.FromSI(p.from), To: p.unit.FromSI(p.to), Log: p.s.Across}
}

// decades is the ratio beyond which a logarithmic axis is offered.
const decades = 100

// lowPart is the least part of a range over which a curve is nearer to its least value than
// to its greatest, as ratios go, for a logarithmic axis up to show more of it. For an
// exponential it is a half, for a power more, or the range goes over decades too. A curve
// that only falls to 0 at one place, as that of a thrown stone does, is there for a short
// part alone.
const lowPart = 0.2

// isLow tells whether one of the curves is low over more than a short part of the range.
func (p *plot) isLow(g *entry.Graph) bool {
	mean := math.Sqrt(g.Y.From) * math.Sqrt(g.Y.To)
	for _, c := range g.Curves {
		low, all := 0.0, 0.0
		for _, run := range c.Runs {
			for i := range len(run) - 1 {
				dx := run[i+1].X - run[i].X
				if all += dx; max(run[i].Y, run[i+1].Y) <= mean {
					low += dx
				}
			}
		}
		if low > lowPart*all {
			return true
		}
	}
	return false
}

// offerLog offers logarithmic axes where a range or the values go over more than two
// decades.
func (p *plot) offerLog(g *entry.Graph) {
	if p.s.Log || g.Path || g.Blank {
		return
	}
	var what, axes []string
	if p.from > 0 && p.to > decades*p.from && !p.unit.Affine() {
		what, axes = append(what, p.s.Against.Name), append(axes, "across")
	}
	if g.Y.From > 0 && g.Y.To > decades*g.Y.From && !p.curves[0].unit.Affine() && (what != nil || p.isLow(g)) {
		for _, c := range p.curves {
			what = append(what, typeset.Text(p.shortName(c)))
		}
		axes = append(axes, "up")
	}
	if what == nil {
		return
	}
	log := "log"
	if len(axes) == 1 {
		log += " " + axes[0]
	}
	line := strings.TrimRight(p.Entry.Text, " \t") + " " + log
	p.Find(finding.New(finding.Decades, p.s.Curves[0].X.Span(), writing.List(what, "and")+plural(what, " goes", " go")+" over more than two powers of ten.",
		"With `"+log+"` at the end, each power of ten gets as much room as the next.", line))
}

func plural(of []string, one, more string) string {
	if len(of) == 1 {
		return one
	}
	return more
}

// longestNames is how many letters the names of the curves may have at an axis.
const longestNames = 24

// yLabel is what labels the y axis: the curves' names, or what kind of quantity
// they are.
func (p *plot) yLabel() entry.Head {
	first := p.curves[0]
	h := entry.Head{Unit: first.unit}
	for _, c := range p.curves {
		h.Of = append(h.Of, p.shortName(c))
	}
	if len([]rune(h.Quantities())) <= longestNames {
		return h
	}
	h.Of, h.Words = nil, "value"
	if k, ok := units.KindOf(first.static.Dim, first.static.Tag); ok {
		h.Words = k.Name
	}
	return h
}

// shortName is the name of a function of the page where it is called with the name of the
// axis, else the expression: a formula's name, such as pendulum_period, is no symbol.
func (p *plot) shortName(c *curve) syntax.Expr {
	if c.called != nil {
		return c.called
	}
	if call, ok := c.x.(*syntax.Call); ok && len(call.Args) == 1 {
		n, ok := call.Args[0].X.(*syntax.Name)
		if _, formula := p.Formula(call.Func); ok && n.Name == p.s.Against.Name && !ops.IsFunction(call.Func) && !formula {
			return &syntax.Name{Name: call.Func}
		}
	}
	return c.x
}
