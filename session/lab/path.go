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
	"steelyard/units/writing"
)

// path draws the points that a list of vectors of the plane goes to, joined in their order.
//
// The order is that of the list, as the vectors came one after the other in time. Each point
// has its uncertainties along both axes.
func (p *plot) path() {
	of := p.s.Y
	if got := p.Try(of.X); !got.OK || got.Static.Shape != run.Vectors {
		p.acrossMissing()
		return
	}
	got := p.Eval(of.X, eval.Want{Lists: true, Shown: true, In: of.In})
	if !got.OK || got.Unit == nil {
		return
	}
	switch name := typeset.Text(of.X); {
	case got.Static.Components() > 2:
		p.Find(finding.New(finding.VectorOrNumber, of.X.Span(), name+" has three components; a path shows two.", "Draw one of them against another, as in `graph r_z against r_x`."))
		return
	case p.s.Residuals || p.s.Log:
		p.Find(finding.New(finding.NotWritten, of.X.Span(), "A path has no logarithmic axes and no residuals.", "Write `graph "+name+"` alone."))
		return
	}
	v, ok := p.NewValue("", of.X, got.Slot, got.Unit)
	if !ok {
		return
	}
	x, y := v.Component(0), v.Component(1)
	axis := func(k int) entry.Axis {
		return entry.Axis{Label: entry.Along(of.X, k, got.Unit), From: math.Inf(1), To: math.Inf(-1)}
	}
	p.g = &entry.Graph{Blank: p.s.Blank, Path: true, X: axis(0), Y: axis(1)}
	line := make([]graph.Point, x.List.Len())
	for i := range line {
		one, up := x.Element(i), y.Element(i)
		line[i] = graph.Point{X: one.InUnit, Y: up.InUnit}
		r := entry.Reading{Point: line[i], UX: one.UInUnit(), UY: up.UInUnit()}
		p.g.Points = append(p.g.Points, r)
		reach(&p.g.X, r.X, r.UX)
		reach(&p.g.Y, r.Y, r.UY)
	}
	p.g.Curves = []entry.Curve{{Of: of.X, Runs: [][]graph.Point{line}}}
	all := v.Vectors()
	p.g.Shapes = []entry.Said{entry.Say(writing.Count(len(all), "point")+" of …, joined in their order: from … to ….", entry.Math(of.X), all[0].Said(), all[len(all)-1].Said())}
	p.Entry.Outcome = p.g
}

// acrossMissing finds that a graph does not say what goes across.
//
// Of one name after graph it can't be told what was meant: a curve of a name without a range,
// or readings without the other list. What the name is decides which of the two is offered.
func (p *plot) acrossMissing() {
	at := p.s.Y.X.Span().To
	hint := "Write it like `graph " + syntax.PrintExpr(p.s.Y.X) + " against x from 0 m to 2 m`."
	if p.IsList(p.s.Y.X) {
		hint = "Write it like `graph " + syntax.PrintExpr(p.s.Y.X) + " against t`, where t is a list of as many values."
	}
	p.Find(finding.New(finding.Incomplete, syntax.Span{From: at, To: at}, "The line doesn't say what goes across.", hint))
}
