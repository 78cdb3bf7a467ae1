package curve

import (
	"math"

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
type plot struct {
	*eval.Line
	s        *syntax.Graph
	from, to float64 // in coherent SI units
	static   run.Static
	unit     *units.Unit // of the x axis
	curves   []*curve
	// depends tells that a curve holds the name of the axis itself.
	depends bool
}

// Graph draws curves, or lists their values.
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
	g := &entry.Graph{Blank: s.Blank}
	g.X = entry.Axis{Label: entry.Head{Of: []syntax.Expr{&syntax.Name{Name: s.Against.Name}}, Unit: p.unit}, From: p.unit.FromSI(p.from), To: p.unit.FromSI(p.to)}
	g.Y = entry.Axis{Label: p.yLabel(), From: math.Inf(1), To: math.Inf(-1)}
	some := false
	for _, c := range p.curves {
		l.Doing("drawing this curve", c.x.Span())
		sampled := graph.Sample(c.eval, p.from, p.to)
		if sampled.Empty() {
			g.Curves = append(g.Curves, entry.Curve{Of: c.x})
			l.Find(finding.New(finding.NoRealValue, c.x.Span(), c.name+" has no value anywhere between "+p.shownX(p.from)+" and "+p.shownX(p.to)+".",
				"Check the range, and what is under roots and fraction bars."))
			continue
		}
		said, shape := p.shape(c, &sampled)
		g.Shapes = append(g.Shapes, said...)
		p.inUnits(c, sampled.Runs)
		g.Curves = append(g.Curves, entry.Curve{Of: c.x, Runs: sampled.Runs, Shape: shape})
		lo, hi := c.unit.FromSI(sampled.Lo), c.unit.FromSI(sampled.Hi)
		g.Y.From, g.Y.To = min(g.Y.From, lo, hi), max(g.Y.To, lo, hi)
		some = true
	}
	if some {
		l.Entry.Outcome = g
	}
}

// planPlot plans the range and the curves.
func planPlot(l *eval.Line, s *syntax.Graph) (*plot, bool) {
	p := &plot{Line: l, s: s}
	from, to, st, unit, ok := interval(l, s.From, s.To)
	if !ok {
		return nil, false
	}
	p.from, p.to, p.static, p.unit = l.State.At(from), l.State.At(to), st, unit
	if p.to == p.from {
		l.Find(finding.New(finding.NoRange, s.To.Span(), "Both ends of the range are "+p.shownX(p.from)+".", "Write two different ends, as in from 0 s to 5 s."))
		return nil, false
	}
	if p.to < p.from && !s.Table {
		p.from, p.to = p.to, p.from
	}
	for _, part := range s.Curves {
		c, one, ok := planCurve(l, part.X, s.Against.Name, p.static)
		if !ok {
			return nil, false
		}
		p.depends = p.depends || one
		c.in = part.In
		if !c.in.Present() {
			c.in = s.In
		}
		if !curveUnit(l, c, s.Against.Name, p.unit) {
			return nil, false
		}
		p.curves = append(p.curves, c)
	}
	return p, p.evaluate()
}

// evaluate gives every curve its columns. Where no curve holds the name of the
// axis and a given has that name, the given is varied.
func (p *plot) evaluate() bool {
	x := p.Planner.Emit(run.Instr{Op: ops.Const, K: p.from}, p.static)
	varying := []run.Slot{x}
	if !p.depends {
		n := &syntax.Name{At: p.s.Against.NameAt, Name: p.s.Against.Name}
		d, ok := p.varied(n)
		switch {
		case !ok && d != nil:
			return false
		case ok && d.Given && !d.Failed() && p.Planner.Static(d.Slot).Dim == p.static.Dim:
			varying = append(varying, d.Slot)
			p.Uses([]*plan.Def{d}, n.At)
			p.writeOut(d)
		}
	}
	ys := make([]run.Slot, len(p.curves))
	for i, c := range p.curves {
		ys[i] = p.Planner.EmitAt(ops.Call, c.fn, []run.Slot{x}, c.static)
	}
	p.CatchUp()
	for i, c := range p.curves {
		n := 1
		if c.alone = c.of != nil || len(varying) == 1; c.alone {
			c.lifts = p.Planner.Program.Lifts(&p.State, c.fn, ops.Between(p.from, p.to))
			c.residue = p.Planner.Program.Residue(&p.State, c.fn, p.from, p.to)
		} else {
			n = 2
		}
		columns, ok := p.Planner.Program.Columns(&p.State, ys[i:i+1], varying[:n])
		if !ok {
			return false
		}
		c.eval = p.evaluated(c, columns, n)
	}
	return true
}

// writeOut plans the curves again as functions of the given that is varied, with the
// results in them written out, where there is an expression for each.
func (p *plot) writeOut(d *plan.Def) {
	for _, c := range p.curves {
		x, ok := throughGiven(p.Line, c.x, d)
		if !ok {
			continue
		}
		got := p.Planner.CompileOf(p.Entry.Text, []string{d.Name}, []run.Static{p.static}, syntax.Unplaced(x))
		if got.OK && !got.Static.Absent && got.Cost <= limit.CurveCost && got.Static.Dim == c.static.Dim {
			c.of, c.fn = x, got.Fn
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
				if settled, known := p.Planner.Program.Settled(&p.State, c.fn, x[i]); known {
					y[i] = settled
				}
			}
		}
	}
}

// varied is the definition of a name that the curves were worked out from; false
// where they were from two lines that gave it.
func (p *plot) varied(n *syntax.Name) (*plan.Def, bool) {
	of := make([]syntax.Expr, len(p.curves))
	for i, c := range p.curves {
		of[i] = c.x
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
			p.Find(finding.New(finding.UnlikeDimensions, c.x.Span(), first.name+" is "+plan.Words(first.static)+", "+c.name+" "+plan.Words(c.static)+": they can't share an axis.",
				"Draw a graph of each."))
			return false
		}
		if c.in == first.in {
			c.unit = first.unit
		}
	}
	return true
}

// inUnits converts the points of a curve to the units of the axes, in their place.
func (p *plot) inUnits(c *curve, runs [][]graph.Point) {
	for _, run := range runs {
		for i, at := range run {
			run[i] = graph.Point{X: p.unit.FromSI(at.X), Y: c.unit.FromSI(at.Y)}
		}
	}
}

// shownX is a place on the axis with its unit.
func (p *plot) shownX(v float64) string { return p.ShownIn(v, p.unit) }

// longestNames is how many letters the names of the curves may have at an axis.
const longestNames = 24

// yLabel is what labels the y axis: the curves' names, or what kind of quantity
// they are.
func (p *plot) yLabel() entry.Head {
	first := p.curves[0]
	h := entry.Head{Unit: first.unit}
	for _, c := range p.curves {
		h.Of = append(h.Of, shortName(c, p.s.Against.Name))
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

// shortName is the name of a function where it is called with the name of the
// axis, else the expression.
func shortName(c *curve, against string) syntax.Expr {
	if call, ok := c.x.(*syntax.Call); ok && len(call.Args) == 1 {
		if n, ok := call.Args[0].X.(*syntax.Name); ok && n.Name == against && !ops.IsFunction(call.Func) {
			return &syntax.Name{Name: call.Func}
		}
	}
	return c.x
}
