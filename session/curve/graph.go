package curve

import (
	"math"
	"slices"
	"strconv"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/session/graph"
	"steelyard/units"
)

// plot is a graph or a table while it is worked out.
//
// A graph, a table and a path differ in what becomes of their points; the curves are planned
// and run in one way.
type plot struct {
	*eval.Line
	s        *syntax.Graph
	from, to float64 // in coherent SI units
	static   run.Static
	unit     *units.Unit // of the x axis
	curves   []*curve
	across   *curve // of a path: what goes across; else nil
	// most is how many figures the ends of the range support, 0 for any number.
	most int
	// depends tells that a curve holds the name of the axis itself.
	depends bool
}

// Graph draws curves, or lists their values.
//
// One curve without a value leaves the others: it is told, and they are drawn. A graph without
// any is none.
func Graph(l *eval.Line, s *syntax.Graph) {
	p, ok := planPlot(l, s)
	if !ok {
		return
	}
	if s.Table {
		p.table()
		return
	}
	if !p.oneDimension() {
		return
	}
	if !p.logAxes() {
		return
	}
	g := &entry.Graph{Blank: s.Blank, Path: s.IsPath()}
	g.X, g.Y = p.xAxis(), entry.Axis{Label: p.yLabel(), From: math.Inf(1), To: math.Inf(-1), Log: s.Up}
	draw := p.curve
	if g.Path {
		draw = p.path
		g.Shapes = p.told(p.across)
	}
	some := false
	for _, c := range p.curves {
		l.Doing("drawing this curve", c.x.Span())
		some = draw(g, c) || some
	}
	if !some {
		return
	}
	l.Entry.Outcome = g
	if !g.Path {
		g.Shapes = append(g.Shapes, p.alike(g)...)
	}
	p.offerLog(g)
}

// curve draws one curve; false where it has no value.
//
// What is said of a curve is judged in even steps of the axis, whatever the paper is ruled
// for: on a logarithmic axis it is drawn from samples of its own. A curve that only rounding
// moves is made level first, or the drawing would magnify the last digits of a constant.
func (p *plot) curve(g *entry.Graph, c *curve) bool {
	sampled := graph.Sample(c.eval, p.from, p.to, p.jumps(c)...)
	if middle := sampled.Lo/2 + sampled.Hi/2; !sampled.Empty() && sampled.Hi != sampled.Lo && sampled.Hi-sampled.Lo <= level*math.Abs(middle) {
		c.eval = flat(c.eval, middle)
		sampled = graph.Sample(c.eval, p.from, p.to, p.jumps(c)...)
	}
	shown := sampled
	if axes := p.axes(); axes != (graph.Axes{}) {
		shown = graph.SampleOn(axes, c.eval, p.from, p.to, p.jumps(c)...)
	}
	if shown.Empty() {
		return p.nowhere(g, c, sampled.Empty())
	}
	if max(-shown.Lo, shown.Hi) > graph.Largest {
		p.Find(finding.New(finding.OutOfRange, c.x.Span(), c.name()+" goes beyond 10^300, which can't be drawn.", "Draw it in a larger unit, or over a shorter range."))
		return false
	}
	said, shape := p.shape(c, &sampled)
	g.Shapes = append(append(g.Shapes, said...), p.spread(c)...)
	if shown.Coarse {
		g.Shapes = append(g.Shapes, entry.Say("… goes up and down more often than the drawing can show: draw a shorter range.", entry.Math(p.shortName(c))))
	}
	out := entry.Curve{Of: c.x, Runs: p.inUnits(p.unit, c, shown.Runs), Shape: shape}
	for _, d := range shown.Dots {
		out.Dots = append(out.Dots, graph.Dot{Point: p.inUnit(p.unit, c, d.Point), Open: d.Open})
	}
	for _, x := range shown.Poles {
		out.Poles = append(out.Poles, p.unit.FromSI(x))
	}
	g.Curves = append(g.Curves, out)
	lo, hi := c.unit.FromSI(shown.Lo), c.unit.FromSI(shown.Hi)
	g.Y.From, g.Y.To = min(g.Y.From, lo, hi), max(g.Y.To, lo, hi)
	return true
}

// level is how small a part of itself a value changes by where rounding alone moves it:
// some tens of the last digits that a number has.
const level = 1e-14

// flat is a curve whose values next to one are that: steps of rounding are no jumps.
func flat(of graph.Function, at float64) graph.Function {
	return func(x, y []float64, ok []bool) {
		of(x, y, ok)
		for i, v := range y {
			if math.Abs(v-at) <= level*math.Abs(at) {
				y[i] = at
			}
		}
	}
}

// nowhere says that a curve has no value to be drawn.
//
// An empty drawing would look like a curve along the axis; so the range without a value is
// told.
func (p *plot) nowhere(g *entry.Graph, c *curve, none bool) bool {
	g.Curves = append(g.Curves, entry.Curve{Of: c.x})
	has, hint := "no value", "Check the range, and what is under roots and fraction bars."
	if !none {
		has, hint = "no value above 0", "A logarithmic axis can't show 0 or less."
	}
	p.Find(finding.New(finding.NoRealValue, c.x.Span(), c.name()+" has "+has+" anywhere between "+p.shownX(p.from)+" and "+p.shownX(p.to)+".", hint))
	return false
}

// planPlot plans the range and the curves.
//
// A range that is written from the larger end is turned round, since a drawing has no
// direction; the rows of a table go as they were asked for.
func planPlot(l *eval.Line, s *syntax.Graph) (*plot, bool) {
	p := &plot{Line: l, s: s}
	from, to, st, unit, ok := interval(l, s.From, s.To)
	if !ok {
		return nil, false
	}
	p.from, p.to, p.static, p.unit = l.State.At(from), l.State.At(to), st, unit
	p.most = fewest(p.supports(s.From, from), p.supports(s.To, to))
	if u := l.UnitWithin(s.From, st); s.Across && u != nil {
		p.unit = u // the powers of ten then are those of the least value on
	}
	if p.to == p.from {
		l.Find(finding.New(finding.NoRange, s.To.Span(), "Both ends of the range are "+p.shownX(p.from)+".", "Write two different ends, as in from 0 s to 5 s."))
		return nil, false
	}
	if p.to < p.from && !s.Table {
		p.from, p.to = p.to, p.from
	}
	if s.Vector {
		return p, p.planVector() && p.evaluate()
	}
	for _, part := range s.Curves {
		if !part.In.Present() {
			part.In = s.In
		}
		c, ok := p.plan(part)
		if !ok {
			return nil, false
		}
		p.curves = append(p.curves, c)
	}
	if s.Path.X != nil {
		if p.across, ok = p.plan(s.Path); !ok {
			return nil, false
		}
	}
	return p, p.evaluate()
}

// plan plans one curve, or what goes across on a path.
func (p *plot) plan(part syntax.Curve) (*curve, bool) {
	c, depends, ok := planCurve(p.Line, part.X, p.s.Against.Name, p.static)
	if !ok {
		return nil, false
	}
	p.depends = p.depends || depends
	c.in = part.In
	return c, curveUnit(p.Line, c, p.s.Against.Name, p.unit)
}

// all are the curves with what goes across on a path.
func (p *plot) all() []*curve {
	if p.across == nil {
		return p.curves
	}
	return append(p.curves[:len(p.curves):len(p.curves)], p.across)
}

// evaluate gives every curve its columns. Where no curve holds the name of the
// axis and one was worked out from a value with that name, the value is varied.
//
// All curves run over columns of places at once. A value of the page that is varied is varied
// for all that was worked out from it, line by line, as if it had been given anew at each
// place.
func (p *plot) evaluate() bool {
	x := p.Planner.Emit(run.Instr{Op: ops.Const, K: p.from}, p.static)
	varying := []run.Slot{x}
	var given *plan.Def
	if p.depends {
		p.staysFixed()
	} else {
		n := &syntax.Name{At: p.s.Against.NameAt, Name: p.s.Against.Name}
		d, ok := p.varied(n)
		switch {
		case !ok && d != nil:
			return false
		case ok && slices.ContainsFunc(p.all(), func(c *curve) bool { return p.Planner.GoesBackTo(d, c.x) }):
			said, ok := p.Planner.CanVary(d, p.curves[0].x, p.static, n.At)
			p.Find(said...)
			if !ok {
				return false
			}
			varying = append(varying, d.Slot)
			p.Uses([]*plan.Def{d}, n.At)
			p.writeOut(d)
			given = d
		}
	}
	all := p.all()
	for _, c := range all {
		c.slot = p.Planner.EmitCall(c.fn, []run.Slot{x}, c.static)
		if given != nil && p.Planner.FixesUnit(given, c.slot) {
			p.Find(plan.FixedExponent(p.s.Against.NameAt, given.Name))
			return false
		}
	}
	p.CatchUp()
	for _, c := range all {
		n := 1
		if c.alone = c.varies || len(varying) == 1; c.alone {
			c.lifts = p.Planner.Program.Lifts(&p.State, c.fn, ops.Between(p.from, p.to))
			c.settling = p.Planner.Program.Settling(&p.State, c.fn)
			c.residue = p.Planner.Program.Residue(&p.State, c.fn, p.from, p.to)
		} else {
			n = 2
		}
		c.along = varying[:n]
		columns, ok := p.Planner.Program.Columns(&p.State, []run.Slot{c.slot}, c.along)
		if !ok {
			return false
		}
		c.eval = p.evaluated(c, columns, n)
	}
	return true
}

// staysFixed notes where a curve has a result, or a function with a given in its body, that
// goes back to a value of the axis's own name: it does not vary with the axis.
func (p *plot) staysFixed() {
	name := p.s.Against.Name
	if d, ok := p.Planner.Names.Lookup(name); !ok || d.Kind != plan.Quantity {
		return
	}
	for _, c := range p.all() {
		bare := algebra.Substitute(c.x, map[string]syntax.Expr{name: &syntax.Pi{}})
		for _, d := range p.Planner.WorkedOutFrom(name, bare) {
			f := finding.New(finding.TwoReadings, c.x.Span(), "Only the "+name+" in this line varies along the axis. "+c.name()+" also uses the "+name+" of line "+strconv.Itoa(d.Line)+", which stays as it is.",
				"To let it vary too, define it as a function of "+name+".")
			f.Severity = finding.Note
			p.Find(f)
			return
		}
	}
}

// writeOut plans the curves again as functions of the given that is varied, and writes
// the results in them out, where there is an expression for each. Where a function can't
// be planned, as for a solution, its main code is run again with other values.
func (p *plot) writeOut(d *plan.Def) {
	for _, c := range p.all() {
		got := p.Planner.CompileVarying(p.Entry.Text, d, p.static, syntax.Unplaced(c.x))
		if !got.OK || got.Static.Absent || got.Cost > limit.CurveCost || got.Static.Dim != c.static.Dim {
			continue
		}
		c.fn, c.varies = got.Fn, true
		if x, ok := throughGiven(p.Line, c.x, d); ok {
			c.of = x
		}
	}
}

// evaluated works a curve out by its columns, of which n vary with the axis. What is
// left by rounding alone is 0.
func (p *plot) evaluated(c *curve, columns *run.Columns, n int) graph.Function {
	single := p.Planner.Program.Single(&p.State, c.fn)
	return func(x, y []float64, ok []bool) {
		if p.State.Budget.Ended() != limit.Going {
			clear(ok)
			return
		}
		for i := range ok {
			ok[i] = true
		}
		if len(x) == 1 && c.alone { // columns are for many points
			y[0], ok[0] = single(x[0])
		} else {
			for _, f := range columns.Run([][]float64{x, x}[:n], [][]float64{y}) {
				ok[f.Lane] = false
			}
		}
		for i, v := range y {
			if lifted, near := c.lifts.Value(x[i]); near {
				y[i], ok[i] = lifted, true
			} else if ok[i] && v != 0 && math.Abs(v) < c.residue {
				if settled, known := c.settling.Drawn(x[i]); known {
					y[i] = settled
				}
			}
		}
	}
}

// varied is the definition of a name that the curves were worked out from; false
// where they were from two lines that gave it.
func (p *plot) varied(n *syntax.Name) (*plan.Def, bool) {
	var of []syntax.Expr
	for _, c := range p.all() {
		of = append(of, c.x)
	}
	return p.Varied(n, of...)
}

// oneDimension checks that the curves of a graph can share an axis.
func (p *plot) oneDimension() bool {
	first := p.curves[0]
	for _, c := range p.curves[1:] {
		if c.static.Open != 0 || first.static.Open != 0 {
			continue
		}
		if c.static.Dim != first.static.Dim {
			p.Find(finding.New(finding.UnlikeDimensions, c.x.Span(), first.name()+" is "+plan.Words(first.static)+", "+c.name()+" is "+plan.Words(c.static)+": they can't share an axis.",
				"Draw a graph of each."))
			return false
		}
		if c.in == first.in {
			c.unit = first.unit
		}
	}
	return true
}

// inUnits converts the points of a curve, in their place, to the units of the axes.
//
// The curve was worked out in coherent SI units; what is drawn is in the units of the axes, so
// that no view has to know of units.
func (p *plot) inUnits(across *units.Unit, c *curve, runs [][]graph.Point) [][]graph.Point {
	for _, run := range runs {
		for k, at := range run {
			run[k] = p.inUnit(across, c, at)
		}
	}
	return runs
}

func (p *plot) inUnit(across *units.Unit, c *curve, at graph.Point) graph.Point {
	return graph.Point{X: across.FromSI(at.X), Y: c.unit.FromSI(at.Y)}
}

// shownX is a place on the axis with its unit.
func (p *plot) shownX(v float64) string { return p.ShownIn(v, p.unit) }
