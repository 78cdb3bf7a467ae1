package lab

import (
	"math"

	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/session/graph"
	"steelyard/units"
	"steelyard/units/writing"
)

// plot is a graph of readings while it is worked out.
type plot struct {
	*eval.Line
	s    *syntax.Plot
	y, x eval.Got
	g    *entry.Graph
	fit  *entry.Entry // that fits them, or nil
}

// Plot draws the points that two lists are, with their error bars, and the line or the
// model that a line above fits to them.
//
// Readings are points, and nothing joins them: between two of them nobody has looked. A line
// is drawn only where a line of the page has fitted it.
func Plot(l *eval.Line, s *syntax.Plot) {
	p := &plot{Line: l, s: s}
	if s.X.X == nil {
		p.path()
		return
	}
	if !p.readings() {
		return
	}
	p.g = &entry.Graph{Blank: s.Blank, X: p.axis(s.X.X, p.x, s.Across), Y: p.axis(s.Y.X, p.y, s.Up)}
	if !p.points() {
		return
	}
	if p.fit = p.fitAbove(); p.fit != nil {
		p.fitted()
	}
	p.tells()
	l.Entry.Outcome = p.g
}

// rangeMissing finds that a curve against a name that is no list has no range.
func rangeMissing(l *eval.Line, against syntax.Expr) {
	unit := ""
	if n, ok := against.(*syntax.Name); ok && units.Usual(n.Name) != "" {
		unit = " " + units.Usual(n.Name)
	}
	end := len(l.Entry.Text)
	if call, ok := against.(*syntax.Call); ok && len(call.Args) == 1 {
		if n, ok := call.Args[0].X.(*syntax.Name); ok { // y(t) against x(t)
			unit = " " + units.Usual(n.Name)
			l.Find(finding.New(finding.Incomplete, syntax.Span{From: end, To: end}, "The range is missing.",
				"For a path, write what both depend on, as in `"+l.Entry.Text+" for "+n.Name+" from 0"+unit+" to 2"+unit+"`."))
			return
		}
	}
	l.Find(finding.New(finding.Incomplete, syntax.Span{From: end, To: end}, "The range is missing.",
		"Write from where to where, as in `"+l.Entry.Text+" from 0"+unit+" to 2"+unit+"`. Only lists of readings need no range."))
}

// readings works the two lists out. Where one is none, the line goes against a name and
// its range is missing.
//
// A range is what the other kind of graph needs. So the line is read as what it lacks, and not
// as a name of the wrong kind.
func (p *plot) readings() bool {
	if !p.IsList(p.s.X.X) {
		rangeMissing(p.Line, p.s.X.X)
		return false
	}
	if p.unitBehindX() {
		return false
	}
	of := p.lists(p.s.Y, p.s.X)
	if of == nil {
		return false
	}
	p.y, p.x = of[0], of[1]
	return true
}

// unitBehindX finds that a unit of what goes up stands behind what goes across, where it is
// written of curves, which go against a name.
func (p *plot) unitBehindX() bool {
	y, x, in := p.s.Y, p.s.X, p.s.X.In
	if !in.Present() || y.In.Present() {
		return false
	}
	u, bad := p.Planner.Unit(in, units.AloneInPlace)
	across, up := p.Try(x.X), p.Try(y.X)
	if bad != nil || !up.OK || u.Dim() == across.Static.Dim || u.Dim() != up.Static.Dim {
		return false
	}
	p.Find(finding.New(finding.UnitMismatch, in.At, "`in "+in.Text+"` comes after "+typeset.Text(x.X)+" here, but it is a unit of "+typeset.Text(y.X)+".",
		"Write `graph "+syntax.PrintExpr(y.X)+" in "+in.Text+" against "+syntax.PrintExpr(x.X)+"`."))
	return true
}

// lists works lists out that go together, each in a unit of its own; nil, which is found,
// unless they are of one length.
func (p *plot) lists(of ...syntax.Curve) []eval.Got { return lists(p.Line, of...) }

// lists does so for any line. A point is the same place in every list, so that lists of other
// lengths make no points.
func lists(l *eval.Line, of ...syntax.Curve) []eval.Got {
	var out []eval.Got
	for _, c := range of {
		got := l.Eval(c.X, eval.Want{Lists: true, Shown: true, In: c.In})
		switch {
		case !got.OK || got.Unit == nil:
			return nil
		case got.Static.Shape != run.List:
			l.Find(noReadings(c.X, got.Static, "here a list of readings is needed."))
			return nil
		case len(out) > 0 && got.Static.Width != out[0].Static.Width:
			l.Find(unequal(of[0].X, int(out[0].Static.Width), c.X, int(got.Static.Width)))
			return nil
		}
		out = append(out, got)
	}
	return out
}

// axis is an axis over as far as the values of a list go.
func (p *plot) axis(x syntax.Expr, got eval.Got, log bool) entry.Axis {
	return entry.Axis{Label: entry.Head{Of: []syntax.Expr{x}, Unit: got.Unit}, From: math.Inf(1), To: math.Inf(-1), Log: log}
}

// points are the readings in the units of the axes, which reach as far as they may be off.
//
// An error bar is a part of its point: an axis that cut one off would make a reading look
// better known than it is. On a logarithmic axis a bar that reaches 0 has no lower end.
func (p *plot) points() bool {
	x, y := p.State.Elements(p.x.Slot), p.State.Elements(p.y.Slot)
	ux, uy := p.off(p.x.Slot, len(x)), p.off(p.y.Slot, len(y))
	for i := range x {
		r := entry.Reading{Point: graph.Point{X: p.x.Unit.FromSI(x[i]), Y: p.y.Unit.FromSI(y[i])}}
		r.UX, r.UY = math.Abs(p.x.Unit.FromSIDifference(ux[i])), math.Abs(p.y.Unit.FromSIDifference(uy[i]))
		p.g.Points = append(p.g.Points, r)
		reach(&p.g.X, r.X, r.UX)
		reach(&p.g.Y, r.Y, r.UY)
	}
	for _, one := range []struct {
		a *entry.Axis
		x syntax.Expr
	}{{&p.g.X, p.s.X.X}, {&p.g.Y, p.s.Y.X}} {
		if one.a.Log && one.a.From <= 0 {
			p.Find(finding.New(finding.NoRange, one.x.Span(), "A logarithmic axis can't show 0 or less, and "+typeset.Text(one.x)+" has such values.", "Leave `log` out."))
			return false
		}
	}
	pad(&p.g.X)
	return true
}

// off is by how much each element of a list may be off.
func (p *plot) off(s run.Slot, n int) []float64 {
	out := make([]float64, n)
	if p.Planner.Unsure {
		for i, of := range p.Planner.Program.Depends(&p.State, s) {
			out[i] = of.Uncertainty()
		}
	}
	return out
}

// reach lets an axis go as far as a value, and what it may be off.
func reach(a *entry.Axis, v, off float64) {
	if a.Log && v-off <= 0 {
		off = 0
	}
	a.From, a.To = min(a.From, v-off), max(a.To, v+off)
}

// padding is what an axis is longer than its points, as a part of that.
const padding = 0.05

// pad leaves some room at the ends of an axis. It begins at 0 where that leaves most of it
// to the points, so that it shows where a line meets the other axis.
func pad(a *entry.Axis) {
	if a.Log {
		room := math.Pow(a.To/a.From, padding)
		a.From, a.To = a.From/room, a.To*room
		return
	}
	if a.From > 0 && a.From < a.To/2 {
		a.From = 0
	}
	if a.To < 0 && a.To > a.From/2 {
		a.To = 0
	}
	room := padding * (a.To - a.From)
	if a.From != 0 {
		a.From -= room
	}
	if a.To != 0 {
		a.To += room
	}
}

// fitAbove is the line nearest above that fits these readings, or nil.
//
// It must be a fit of the same two lists: by their text, and with none of their names given
// anew since. A fit of other readings through these points would be a claim that nobody made.
func (p *plot) fitAbove() *entry.Entry {
	y, x := syntax.PrintExpr(p.s.Y.X), syntax.PrintExpr(p.s.X.X)
	for i := len(p.Entries) - 1; i >= 0; i-- {
		e := p.Entries[i]
		s, ok := e.Stmt.(*syntax.Fit)
		if r := e.Result(); !ok || r == nil || r.Fit == nil || syntax.PrintExpr(s.Y) != y {
			continue
		}
		against := s.X
		if s.Model != nil {
			columns := columnsOf(p.Line, names(s), s.Model)
			if len(columns) != 1 {
				continue
			}
			against = &syntax.Name{Name: columns[0].name}
		}
		if syntax.PrintExpr(against) != x || p.givenSince(e, s.Y) || p.givenSince(e, against) {
			continue
		}
		return e
	}
	return nil
}

// givenSince tells whether a name in an expression has been given anew since a line.
//
// A name that is gone counts as given anew.
func (p *plot) givenSince(e *entry.Entry, x syntax.Expr) bool {
	return syntax.Any(x, func(x syntax.Expr) bool {
		n, ok := x.(*syntax.Name)
		if !ok {
			return false
		}
		d, ok := p.Planner.Find(n)
		return !ok || d.Line >= e.Line
	})
}

// fitted draws what fits the readings, and what it leaves of them.
//
// The curve is sampled like any other, so that it is as smooth as the screen or the paper can
// show. Residuals are in the unit of a difference: what is left of a temperature in °C is one
// in K.
func (p *plot) fitted() {
	at := p.line
	if s := p.fit.Stmt.(*syntax.Fit); s.Model != nil {
		var ok bool
		if at, ok = p.model(s); !ok {
			p.fit = nil
			return
		}
	}
	p.Entry.Uses = append(p.Entry.Uses, p.fit.Line)
	sampled := graph.SampleOn(graph.Axes{Across: p.s.Across, Up: p.s.Up}, func(x, y []float64, ok []bool) {
		for i := range x {
			y[i] = at(x[i])
			ok[i] = y[i]-y[i] == 0
		}
	}, p.g.X.From, p.g.X.To)
	p.g.Curves = []entry.Curve{{Of: p.s.Y.X, Runs: sampled.Runs}}
	if !p.s.Residuals {
		return
	}
	left := &entry.Graph{X: p.g.X, Y: entry.Axis{Label: entry.Head{Words: "residual", Unit: p.y.Unit.OfDifference()}, From: math.Inf(1), To: math.Inf(-1)}}
	for _, r := range p.g.Points {
		r.Y -= at(r.X)
		left.Points = append(left.Points, r)
		reach(&left.Y, r.Y, r.UY)
	}
	p.g.Residuals = left
}

// line is the line that was fitted, in the units of the axes.
//
// The intercept of a line over °C is its value at 0 °C, where the axis shows it, and not at 0
// K.
func (p *plot) line(x float64) float64 {
	values, zero := p.fit.Result().Values, 0.0
	if p.x.Unit.Affine() {
		zero = p.x.Unit.ToSIFloat(0)
	}
	intercept := 0.0
	if len(values) > 1 {
		intercept = values[1].SI
	}
	return p.y.Unit.FromSI(intercept + float64(values[0].SI*(p.x.Unit.ToSIFloat(x)-zero)))
}

// model is the model that was fitted, in the units of the axes, with the parameters as
// they are known now; false where one has been given anew.
//
// The parameters are the page's own by now, so that the model is a function of the readings
// alone.
func (p *plot) model(s *syntax.Fit) (func(x float64) float64, bool) {
	for _, u := range s.Params {
		if d, ok := p.Planner.Find(&syntax.Name{Name: u.Name}); !ok || d.Line != p.fit.Line {
			return nil, false
		}
	}
	columns := columnsOf(p.Line, names(s), s.Model)
	got := p.Function(eval.Want{Silent: true}, []string{columns[0].name}, []run.Static{columns[0].static}, s.Model)
	if !got.OK || got.Static.Absent {
		return nil, false
	}
	p.CatchUp()
	at := p.Planner.Program.Single(&p.State, got.Fn)
	return func(x float64) float64 {
		y, ok := at(p.x.Unit.ToSIFloat(x))
		if !ok {
			return math.NaN()
		}
		return p.y.Unit.FromSI(y)
	}, true
}

// tells says how far the readings go, and what line fits them.
func (p *plot) tells() {
	g := p.g
	lo, hi := p.ends(p.s.X.X, p.x)
	from, to := p.ends(p.s.Y.X, p.y)
	said := []entry.Said{entry.Say(writing.Count(len(g.Points), "point")+": … from … to …, … from … to ….",
		entry.Math(p.s.X.X), lo, hi, entry.Math(p.s.Y.X), from, to)}
	if p.fit != nil && p.fit.Stmt.(*syntax.Fit).Model != nil {
		said = append(said, entry.Say("The curve is the one fitted: ….", entry.Joined(p.parameters(), ", ")))
	} else if p.fit != nil {
		values := p.fit.Result().Values
		line := entry.Say("The line is the one fitted: slope …", named(values[0], "slope"))
		if len(values) > 1 {
			line = line.And(", intercept …", named(values[1], "intercept"))
			said = append(said, line.And("."), p.meansThat(values[1]))
		} else {
			said = append(said, line.And(", through the origin."))
		}
	}
	g.Shapes = said
}

// parameters are those of a model with their values.
func (p *plot) parameters() []entry.Said {
	var out []entry.Said
	for _, v := range p.fit.Result().Values {
		out = append(out, named(v, ""))
	}
	return out
}

// named is a value with its name before it, a = 3.17 s²/kg, unless that is what it is
// called already.
func named(v entry.Value, called string) entry.Said {
	if v.Name == called {
		return v.Said()
	}
	return entry.Say("… = …", entry.Name(v.Name), v.Said())
}

// ends are the least and the greatest value of a list, as its line shows them without
// their uncertainties.
func (p *plot) ends(x syntax.Expr, of eval.Got) (lo, hi entry.Said) {
	v, _ := p.NewValue("", x, of.Slot, of.Unit)
	all := v.Elements()
	least, most := all[0], all[0]
	for _, one := range all {
		if one.SI < least.SI {
			least = one
		} else if one.SI > most.SI {
			most = one
		}
	}
	least.U, most.U = 0, 0
	return least.Said(), most.Said()
}

// meansThat says what a straight line between two quantities says of them.
//
// Proportional is more than straight. That the line meets 0 is said only if its intercept is 0
// within what is known of it, and of °C never: their 0 is no nothing.
func (p *plot) meansThat(intercept entry.Value) entry.Said {
	y, x := entry.Math(p.s.Y.X), entry.Math(p.s.X.X)
	if p.x.Unit.Affine() || p.y.Unit.Affine() || intercept.U == 0 || math.Abs(intercept.SI) > 2*intercept.U {
		return entry.Say("If it is straight, … goes up or down evenly with …, and is not proportional to it.", y, x)
	}
	return entry.Say("It meets 0 within two standard uncertainties: if it is straight, … is proportional to ….", y, x)
}
