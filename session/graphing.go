package session

import (
	"slices"
	"strings"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/graph"
	"steelyard/units"
)

// curve is one expression of a graph, planned.
type curve struct {
	x      syntax.Expr
	name   string // as it is written
	fn     int
	static run.Static
	unit   *units.Unit
	in     syntax.UnitText
	eval   graph.Function // in coherent SI units
}

// plot is a graph or a table while it is worked out.
type plot struct {
	s        *syntax.Graph
	from, to float64 // in coherent SI units
	static   run.Static
	unit     *units.Unit // of the x axis
	curves   []*curve
	// depends tells that a curve holds the name of the axis itself.
	depends bool
}

// graph draws curves, or lists their values.
func (w *work) graph(s *syntax.Graph) {
	p, ok := w.planPlot(s)
	if !ok {
		return
	}
	if s.Table {
		w.table(p)
		return
	}
	if !w.oneDimension(p) {
		return
	}
	g := &entry.Graph{Blank: s.Blank}
	g.X = entry.Axis{Label: entry.Head{Of: []syntax.Expr{&syntax.Name{Name: s.Against.Name}}, Unit: p.unit}, From: p.unit.FromSI(p.from), To: p.unit.FromSI(p.to)}
	g.Y.Label = p.yLabel()
	first := true
	for _, c := range p.curves {
		sampled := graph.Sample(c.eval, p.from, p.to)
		g.Curves = append(g.Curves, entry.Curve{Name: c.name, Runs: w.inUnits(p, c, sampled.Runs)})
		if sampled.Empty() {
			w.find(finding.New(finding.NoRealValue, c.x.Span(), c.name+" has no value anywhere between "+p.shownX(w, p.from)+" and "+p.shownX(w, p.to)+".",
				"Look at the range, and at roots and quotients."))
			continue
		}
		lo, hi := c.unit.FromSI(sampled.Lo), c.unit.FromSI(sampled.Hi)
		if lo > hi {
			lo, hi = hi, lo
		}
		if first || lo < g.Lo {
			g.Lo = lo
		}
		if first || hi > g.Hi {
			g.Hi = hi
		}
		first = false
		said, shape := w.shape(p, c, sampled)
		g.Shapes = append(g.Shapes, said...)
		g.Curves[len(g.Curves)-1].Shape = shape
	}
	if first {
		return
	}
	g.Y.From, g.Y.To = g.Lo, g.Hi
	w.e.Outcome = g
}

// planPlot plans the range and the curves.
func (w *work) planPlot(s *syntax.Graph) (*plot, bool) {
	p := &plot{s: s}
	from, to, st, unit, ok := w.interval(s.From, s.To)
	if !ok {
		return nil, false
	}
	p.from, p.to, p.static, p.unit = w.state.Vals[from], w.state.Vals[to], st, unit
	if p.to == p.from {
		w.find(finding.New(finding.NoRange, s.To.Span(), "The range has no length: both ends are "+p.shownX(w, p.from)+".", "Give two ends that differ, as in from 0 s to 5 s."))
		return nil, false
	}
	if p.to < p.from && !s.Table {
		p.from, p.to = p.to, p.from
	}
	for _, part := range s.Curves {
		c, one, ok := w.planCurve(part.X, s.Against.Name, p.static)
		if !ok {
			return nil, false
		}
		p.depends = p.depends || one
		c.in = part.In
		if !c.in.Present() {
			c.in = s.In
		}
		if !w.curveUnit(c) {
			return nil, false
		}
		p.curves = append(p.curves, c)
	}
	return p, w.evaluate(p)
}

// interval works out two ends of a range, as slots, and the unit that it is shown
// in.
func (w *work) interval(from, to syntax.Expr) (a, b run.Slot, st run.Static, unit *units.Unit, ok bool) {
	a, ok1 := w.end(from)
	b, ok2 := w.end(to)
	if !ok1 || !ok2 {
		return a, b, st, nil, false
	}
	sa, sb := w.planner.Static(a), w.planner.Static(b)
	if sa.Open != 0 && sb.Open == 0 {
		sa = w.planner.SettleTo(a, sb.Dim)
	} else if sb.Open != 0 && sa.Open == 0 {
		sb = w.planner.SettleTo(b, sa.Dim)
	}
	if sa.Dim != sb.Dim {
		w.find(finding.New(finding.UnlikeDimensions, to.Span(), "The range goes from "+plan.Words(sa)+" to "+plan.Words(sb)+".", "Give both ends in units of one kind."))
		return a, b, st, nil, false
	}
	st = sb
	if st.Tag == units.None {
		st.Tag = sa.Tag
	}
	if unit = w.rangeUnit(to, st); unit == nil {
		unit = w.rangeUnit(from, st)
	}
	if unit == nil {
		unit = units.Preferred(st.Dim, st.Tag)
	}
	return a, b, run.Static{Dim: st.Dim, Tag: st.Tag, Width: 1}, unit, true
}

// end works out one end of a range.
func (w *work) end(x syntax.Expr) (run.Slot, bool) {
	c := w.Eval(x, Want{Lacking: "This end of the range has no value yet.", Hint: "Give its symbols values in lines above."})
	return c.Slot, c.OK
}

// rangeUnit is the unit that an end of a range was written in, or its name's.
func (w *work) rangeUnit(x syntax.Expr, st run.Static) *units.Unit {
	var found *units.Unit
	syntax.Walk(x, func(x syntax.Expr) bool {
		if found != nil {
			return false
		}
		u := w.rememberedUnit(x)
		if u == nil {
			u = w.writtenUnit(x)
		}
		if u != nil && u.Dim() == st.Dim && !u.Affine() {
			found = u
		}
		return found == nil
	})
	return found
}

// planCurve plans one expression as a function of the name that a graph is drawn
// against, and tells whether it holds that name.
func (w *work) planCurve(x syntax.Expr, against string, st run.Static) (*curve, bool, bool) {
	got := w.planner.CompileCurve(x, w.e.Text, against, st)
	w.find(got.Findings...)
	w.uses(got.Uses, x.Span())
	if !got.OK {
		w.curveHint(got, against, st)
		return nil, false, false
	}
	if got.Cost > limit.CurveCost {
		w.find(finding.New(finding.TooLong, x.Span(), "One point of this curve takes too many steps to work out for a whole curve.",
			"Split the work over several lines, each with a result of its own."))
		return nil, false, false
	}
	if got.Absent {
		w.find(finding.New(finding.NotWorkedOut, x.Span(), "A symbol here has a unit and no value yet.", w.valueHint(x)))
		return nil, false, false
	}
	return &curve{x: x, name: algebra.Display(x), fn: got.Fn, static: got.Static}, got.Depends, true
}

// valueHint says how a curve gets the values that it lacks: a function sees the
// lines above its own alone.
func (w *work) valueHint(x syntax.Expr) string {
	hint := "Give it a value in a line above."
	syntax.Walk(x, func(x syntax.Expr) bool {
		c, ok := x.(*syntax.Call)
		if !ok {
			return true
		}
		d, ok := w.planner.Names.Lookup(c.Func)
		if e := w.entryAt(lineOf(d)); ok && d.Kind == plan.Function && e != nil && !strings.Contains(e.Text, "\n") {
			hint = c.Func + " sees the lines above its own (line " + itoa(d.Line) + "): give the symbol a value, and enter `" + e.Text + "` again."
		}
		return true
	})
	return hint
}

func lineOf(d *plan.Def) int {
	if d == nil {
		return 0
	}
	return d.Line
}

// curveHint adds to what is wrong with a curve what the axis has to do with it:
// another name, or a range of another kind.
func (w *work) curveHint(got plan.Curve, against string, st run.Static) {
	for i := range w.e.Findings {
		f := &w.e.Findings[i]
		switch {
		case f.ID == finding.UnknownName && !got.Depends:
			f.Hint = "The line is against " + against + ", which does not stand in this curve: write against and the name that does. " + f.Hint
		case f.Severity == finding.Mismatch && got.Depends:
			f.Hint = against + " goes over " + plan.Words(st) + " here, as its range says. " + f.Hint
		default:
			continue
		}
		return
	}
}

// curveUnit chooses the unit of a curve, and checks the one that is asked.
func (w *work) curveUnit(c *curve) bool {
	st := c.static
	c.unit = units.Preferred(st.Dim, st.Tag)
	if call, ok := c.x.(*syntax.Call); ok && !c.in.Present() {
		if d, ok := w.planner.Names.Lookup(call.Func); ok && d.Kind == plan.Function && d.Func.In.Present() {
			if u, bad := w.planner.Unit(d.Func.In, units.AloneInPlace); bad == nil && u.Dim() == st.Dim {
				c.unit = u
			}
		}
	}
	if n, ok := c.x.(*syntax.Name); ok && !c.in.Present() {
		if u := w.rememberedUnit(n); u != nil && u.Dim() == st.Dim {
			c.unit = u
		}
	}
	if !c.in.Present() {
		return true
	}
	u, bad := w.planner.Unit(c.in, units.AloneInPlace)
	if bad != nil {
		w.find(w.planner.UnitFinding(c.in, bad))
		return false
	}
	switch {
	case st.Open != 0, u.Dim() == st.Dim && (st.Tag == units.None || u.Tag() == units.None || st.Tag == u.Tag()):
		c.unit = u
	case u.Dim() == st.Dim:
		t := plan.CycleText(c.name, st, u)
		w.find(finding.New(finding.AngleOrCycle, c.in.At, t.Message, t.Hint))
	default:
		t := plan.MismatchText(c.name, st, u)
		w.find(finding.New(finding.UnitMismatch, c.in.At, t.Message, t.Hint))
	}
	return true
}

// evaluate gives every curve its columns. Where no curve holds the name of the
// axis and a given has that name, the given is varied.
func (w *work) evaluate(p *plot) bool {
	x := w.planner.Emit(run.Instr{Op: ops.Const, K: p.from}, p.static)
	varying := []run.Slot{x}
	if !p.depends {
		n := &syntax.Name{At: p.s.Against.NameAt, Name: p.s.Against.Name}
		d, ok := w.planner.Names.Lookup(n.Name)
		if ok && d.Given && !d.Failed() && w.planner.Static(d.Slot).Dim == p.static.Dim {
			varying = append(varying, d.Slot)
			w.uses([]*plan.Def{d}, n.At)
		}
	}
	ys := make([]run.Slot, len(p.curves))
	for i, c := range p.curves {
		ys[i] = w.planner.EmitAt(ops.Call, c.fn, []run.Slot{x}, c.static)
	}
	w.CatchUp()
	for i, c := range p.curves {
		columns, ok := w.planner.Program.Columns(&w.state, ys[i:i+1], varying)
		if !ok {
			return false
		}
		var why []run.Cause
		n := len(varying)
		c.eval = func(x, y []float64, ok []bool) {
			if w.ctx.Err() != nil {
				clear(ok)
				return
			}
			why = slices.Grow(why[:0], len(x))[:len(x)]
			columns.Run(w.ctx, [][]float64{x, x}[:n], [][]float64{y}, why)
			for i, cause := range why {
				ok[i] = cause == 0
			}
		}
	}
	return true
}

// oneDimension checks that the curves of a graph can share an axis.
func (w *work) oneDimension(p *plot) bool {
	first := p.curves[0]
	for _, c := range p.curves[1:] {
		if c.static.Open != 0 || first.static.Open != 0 {
			continue
		}
		if c.static.Dim != first.static.Dim {
			w.find(finding.New(finding.UnlikeDimensions, c.x.Span(), first.name+" is "+plan.Words(first.static)+", "+c.name+" "+plan.Words(c.static)+": they can't share an axis.",
				"Draw a graph of each."))
			return false
		}
		if c.in == first.in {
			c.unit = first.unit
		}
	}
	return true
}

// inUnits converts the points of a curve to the units of the axes.
func (w *work) inUnits(p *plot, c *curve, runs [][]graph.Point) [][]graph.Point {
	out := make([][]graph.Point, len(runs))
	for i, run := range runs {
		out[i] = make([]graph.Point, len(run))
		for k, at := range run {
			out[i][k] = graph.Point{X: p.unit.FromSI(at.X), Y: c.unit.FromSI(at.Y)}
		}
	}
	return out
}

// shownX is a place on the axis with its unit.
func (p *plot) shownX(w *work, v float64) string { return w.shownIn(v, p.unit) }

// shownIn is a value in a unit, with the figures in force.
func (w *work) shownIn(v float64, u *units.Unit) string {
	return units.FormatQuantity(u.FromSI(v), u, w.set.figures, w.set.rounding, units.Screen)
}

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
