package view

import (
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/units"
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
	X  float64 `json:"x"`
	Y  float64 `json:"y"`
	UX float64 `json:"u_x,omitempty"`
	UY float64 `json:"u_y,omitempty"`
}

type axisObject struct {
	Label string  `json:"label"`
	From  float64 `json:"from"`
	To    float64 `json:"to"`
	Log   bool    `json:"log,omitempty"`
}

type curveObject struct {
	Name string         `json:"name"`
	Runs [][][2]float64 `json:"runs"`
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

type stageObject struct {
	Name string      `json:"name"`
	Work *barObject  `json:"work,omitempty"`
	Bars []barObject `json:"bars"`
	Sum  string      `json:"sum"`
}

type barObject struct {
	Name  string  `json:"name"`
	Value float64 `json:"value"`
	Shown string  `json:"shown"`
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
		out.Points = append(out.Points, pointObject{r.X, r.Y, r.UX, r.UY})
	}
	for _, c := range g.Curves {
		one := curveObject{Name: typeset.Text(c.Of), Runs: make([][][2]float64, len(c.Runs))}
		for i, run := range c.Runs {
			for _, p := range run {
				one.Runs[i] = append(one.Runs[i], [2]float64{p.X, p.Y})
			}
		}
		out.Curves = append(out.Curves, one)
	}
	return out
}

// budgetObject is an uncertainty budget in JSON, in coherent SI units.
type budgetObject struct {
	Of       string          `json:"of"`
	U        float64         `json:"u"`
	Sources  []sourceObject  `json:"sources"`
	Expanded *expandedObject `json:"expanded,omitempty"`
	Sampled  *sampledObject  `json:"sampled,omitempty"`
}

type sourceObject struct {
	Name        string  `json:"name"`
	Estimate    float64 `json:"estimate"`
	U           float64 `json:"u"`
	Sensitivity float64 `json:"sensitivity"`
	Share       float64 `json:"share"`
}

type expandedObject struct {
	Probability float64 `json:"probability"`
	Factor      float64 `json:"factor"`
	U           float64 `json:"u"`
	Freedom     float64 `json:"freedom,omitempty"`
}

type sampledObject struct {
	Draws       int     `json:"draws"`
	Lacking     int     `json:"lacking"`
	Mean        float64 `json:"mean"`
	U           float64 `json:"u"`
	Probability float64 `json:"probability"`
	From        float64 `json:"from"`
	To          float64 `json:"to"`
	Agrees      bool    `json:"agrees"`
}

// Budget fills in an uncertainty budget.
func (f filler) Budget(b *entry.Budget) {
	f.Table(&b.Table)
	f.o.Told = entry.Texts(b.Told)
	f.o.Budget = &budgetObject{Of: b.Of, U: b.U, Sources: make([]sourceObject, len(b.Sources)), Expanded: (*expandedObject)(b.Expanded)}
	for i, s := range b.Sources {
		f.o.Budget.Sources[i] = sourceObject(s)
	}
	if s := b.Sampled; s != nil {
		f.o.Budget.Sampled = &sampledObject{s.Draws, s.Lacking, s.Mean, s.U, s.Covered, s.Lo, s.Hi, s.Agrees}
	}
}

// Table fills in a table.
func (f filler) Table(t *entry.Table) {
	cells := t.Cells()
	f.o.Table = &tableObject{cells[0], cells[1:]}
}

func axis(a entry.Axis) axisObject { return axisObject{a.Label.String(), a.From, a.To, a.Log} }

// Bars fills in an energy bar chart.
func (f filler) Bars(b *entry.Bars) {
	f.o.Holds = &b.Holds
	f.o.Bars = &barsObject{Unit: unitText(b.Unit), Books: b.Books.String(), Scale: b.Scale.String()}
	for _, s := range b.Stages {
		one := stageObject{Name: s.Name, Sum: s.Sum.Shown(units.Screen)}
		for _, bar := range s.Bars {
			one.Bars = append(one.Bars, newBarObject(bar))
		}
		if s.Work != nil {
			work := newBarObject(*s.Work)
			one.Work = &work
		}
		f.o.Bars.Stages = append(f.o.Bars.Stages, one)
	}
}

func newBarObject(b entry.Bar) barObject {
	return barObject{typeset.Text(b.Of), b.Value.InUnit, b.Value.Shown(units.Screen)}
}
