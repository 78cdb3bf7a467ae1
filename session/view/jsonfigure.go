package view

import (
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/units"
	"steelyard/units/each"
)

// graphObject is a graph in JSON; points are in the units of the axes.
type graphObject struct {
	X      axisObject    `json:"x"`
	Y      axisObject    `json:"y"`
	Curves []curveObject `json:"curves"`
	Points []pointObject `json:"points,omitempty"`
	// Residuals is the graph of what a fitted curve leaves of the points.
	Residuals *graphObject `json:"residuals,omitempty"`
}

// pointObject is a reading, with its standard uncertainties if it has any.
type pointObject struct {
	X  number `json:"x"`
	Y  number `json:"y"`
	UX number `json:"u_x,omitempty"`
	UY number `json:"u_y,omitempty"`
}

type axisObject struct {
	Label string `json:"label"`
	From  number `json:"from"`
	To    number `json:"to"`
	Log   bool   `json:"log,omitempty"`
}

type curveObject struct {
	Name string        `json:"name"`
	Runs [][][2]number `json:"runs"`
}

// tableObject is a table in JSON, as it is printed.
type tableObject struct {
	Heads []string   `json:"heads"`
	Rows  [][]string `json:"rows"`
}

// barsObject is an energy bar chart in JSON; values are in its unit.
type barsObject struct {
	Unit   string        `json:"unit"`
	Stages []stageObject `json:"stages"`
	Books  string        `json:"books"`
	Scale  string        `json:"scale,omitempty"`
}

// arrowsObject is vectors drawn to scale, in the unit of the drawing.
type arrowsObject struct {
	Unit   string        `json:"unit"`
	Arrows []arrowObject `json:"arrows"`
}

type arrowObject struct {
	Name      string    `json:"name"`
	From      [2]number `json:"from"`
	To        [2]number `json:"to"`
	Magnitude number    `json:"magnitude"`
	Direction *number   `json:"direction,omitempty"`
	Sum       bool      `json:"sum,omitempty"`
}

type stageObject struct {
	Name string      `json:"name"`
	Work *barObject  `json:"work,omitempty"`
	Bars []barObject `json:"bars"`
	Sum  string      `json:"sum"`
}

type barObject struct {
	Name  string `json:"name"`
	Value number `json:"value"`
	Shown string `json:"shown"`
}

// Graph fills in the curves of a graph, and what they are.
func (f filler) Graph(g *entry.Graph) {
	if !g.Blank {
		f.o.Told = entry.Texts(g.Shapes)
	}
	f.o.Graph = newGraphObject(g)
	if g.Residuals != nil {
		f.o.Graph.Residuals = newGraphObject(g.Residuals)
	}
}

func newGraphObject(g *entry.Graph) *graphObject {
	out := &graphObject{X: axis(g.X), Y: axis(g.Y), Curves: []curveObject{}}
	for _, r := range g.Points {
		out.Points = append(out.Points, pointObject{number(r.X), number(r.Y), number(r.UX), number(r.UY)})
	}
	for _, c := range g.Curves {
		one := curveObject{Name: typeset.Text(c.Of), Runs: make([][][2]number, len(c.Runs))}
		for i, run := range c.Runs {
			for _, p := range run {
				one.Runs[i] = append(one.Runs[i], [2]number{number(p.X), number(p.Y)})
			}
		}
		out.Curves = append(out.Curves, one)
	}
	return out
}

// budgetObject is an uncertainty budget in JSON, in coherent SI units.
type budgetObject struct {
	Of       string          `json:"of"`
	U        number          `json:"u"`
	Sources  []sourceObject  `json:"sources"`
	Expanded *expandedObject `json:"expanded,omitempty"`
	Sampled  *sampledObject  `json:"sampled,omitempty"`
}

type sourceObject struct {
	Name        string `json:"name"`
	Estimate    number `json:"estimate"`
	U           number `json:"u"`
	Sensitivity number `json:"sensitivity"`
	Share       number `json:"share"`
}

type expandedObject struct {
	Probability number `json:"probability"`
	Factor      number `json:"factor"`
	U           number `json:"u"`
	Freedom     number `json:"freedom,omitempty"`
}

type sampledObject struct {
	Draws       int    `json:"draws"`
	Lacking     int    `json:"lacking"`
	Mean        number `json:"mean"`
	U           number `json:"u"`
	Probability number `json:"probability"`
	From        number `json:"from"`
	To          number `json:"to"`
	Agrees      bool   `json:"agrees"`
}

// Budget fills in an uncertainty budget.
func (f filler) Budget(b *entry.Budget) {
	f.Table(&b.Table)
	f.o.Told = entry.Texts(b.Told)
	f.o.Budget = &budgetObject{Of: b.Of, U: number(b.U), Sources: make([]sourceObject, len(b.Sources))}
	for i, s := range b.Sources {
		f.o.Budget.Sources[i] = sourceObject{s.Name, number(s.Estimate), number(s.U), number(s.Sensitivity), number(s.Share)}
	}
	if x := b.Expanded; x != nil {
		f.o.Budget.Expanded = &expandedObject{number(x.Probability), number(x.Factor), number(x.U), number(x.Freedom)}
	}
	if s := b.Sampled; s != nil {
		f.o.Budget.Sampled = &sampledObject{s.Draws, s.Lacking, number(s.Mean), number(s.U), number(s.Covered), number(s.Lo), number(s.Hi), s.Agrees}
	}
}

// Table fills in a table.
func (f filler) Table(t *entry.Table) {
	cells := t.Cells()
	f.o.Table = &tableObject{cells[0], cells[1:]}
}

func axis(a entry.Axis) axisObject {
	return axisObject{a.Label.String(), number(a.From), number(a.To), a.Log}
}

// Bars fills in an energy bar chart.
func (f filler) Bars(b *entry.Bars) {
	f.o.Holds = &b.Holds
	f.o.Bars = &barsObject{Unit: unitText(b.Unit), Books: b.Books.String(), Scale: b.Scale.String()}
	for _, s := range b.Stages {
		one := stageObject{Name: s.Name, Sum: s.Sum.Shown(units.Screen), Bars: each.Of(s.Bars, newBarObject)}
		if s.Work != nil {
			work := newBarObject(*s.Work)
			one.Work = &work
		}
		f.o.Bars.Stages = append(f.o.Bars.Stages, one)
	}
}

// Arrows fills in vectors to scale, or the axes to draw them on.
func (f filler) Arrows(a *entry.Arrows) {
	if a.Axes != nil {
		f.o.Graph = newGraphObject(a.Axes)
		return
	}
	f.o.Told = entry.Texts(a.Told)
	f.o.Arrows = &arrowsObject{Unit: unitText(a.Unit)}
	for _, one := range a.Arrows {
		o := arrowObject{Name: typeset.Text(one.Of), Magnitude: number(one.Value.Magnitude().InUnit), Direction: direction(&one.Value), Sum: one.Sum}
		o.From, o.To = [2]number{number(one.From.X), number(one.From.Y)}, [2]number{number(one.To.X), number(one.To.Y)}
		f.o.Arrows.Arrows = append(f.o.Arrows.Arrows, o)
	}
}

func newBarObject(b entry.Bar) barObject {
	return barObject{typeset.Text(b.Of), number(b.Value.InUnit), b.Value.Shown(units.Screen)}
}
