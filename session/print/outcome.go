package print

import (
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/draw"
	"steelyard/session/entry"
)

// outcome makes the blocks of what became of a statement.
//
// It visits what a line came to, so that a new kind of outcome doesn't compile until a document
// has a place for it.
type outcome struct {
	*builder
	e *entry.Entry
}

// Result is an answer, a given, or the working of a result.
func (o outcome) Result(r *entry.Result) {
	first := &r.Values[0]
	switch s := o.e.Stmt.(type) {
	case *syntax.Report:
		o.report(answer{X: s.X, Points: s.Points, Shown: shown{Value: first}})
	case *syntax.Constants:
		for i := range r.Values {
			o.given(r.Values[i].Letter(), shown{Value: &r.Values[i]}, "")
		}
	case *syntax.Value:
		o.result(s.X, r)
	case *syntax.Define:
		if r.Records {
			o.result(s.X, r)
			return
		}
		value := shown{Value: first}
		if _, mixed := s.X.(*syntax.Mixed); mixed || polar(s) {
			value = shown{X: s.X} // 3 lb 8 oz, as it was written, and 12 m/s at 37°
		}
		o.given(first.Letter(), value, o.meaning(o.e, o.meanings.Of(s.Name, o.e)))
	case *syntax.Data:
		o.readings(r)
	case *syntax.Fit:
		lines := make([]entry.WorkLine, len(r.Values))
		for i := range lines {
			lines[i] = entry.WorkLine{Left: r.Values[i].Letter(), Shown: &r.Values[i]}
		}
		o.key(working{Lines: lines, Definitions: true})
		o.key(text{Lines: r.Notes})
	default:
		o.working(o.e)
	}
}

// mostReadings is how many rows of a table of readings are printed.
const mostReadings = 40

// readings is a table of readings; of a long one, what it holds.
//
// Forty rows fill a page; the rest of a file of ten thousand is nothing to read, and its range and
// mean tell more.
func (o outcome) readings(r *entry.Result) {
	if len(r.Values[0].List.SI) > mostReadings {
		o.add(text{Lines: r.Notes})
		return
	}
	t := &entry.Table{Rows: make([][]entry.Cell, len(r.Values[0].List.SI))}
	for _, v := range r.Values {
		t.Heads = append(t.Heads, entry.Head{Of: []syntax.Expr{v.Letter()}, Unit: v.Unit})
		for i, one := range v.Elements() {
			t.Rows[i] = append(t.Rows[i], entry.Cell{Value: &one})
		}
	}
	o.add(table{t})
}

// result is the working of a result; of one worked out again, how it compares with
// what it was.
func (o outcome) result(x syntax.Expr, r *entry.Result) {
	again, ok := x.(*syntax.With)
	if !ok {
		o.working(o.e)
		return
	}
	line := entry.WorkLine{Words: changes(again), Left: again.X, Shown: &r.Values[0]}
	if own := r.Values[0].Letter(); own != nil {
		line.Left, line.Right = own, again.X
	}
	o.key(working{Lines: []entry.WorkLine{line}, Definitions: true})
	if len(r.Notes) > 0 {
		o.key(text{Lines: r.Notes})
	}
	if o.edition == Key {
		o.results = append(o.results, o.e)
	}
}

// changes says what is replaced: "with m1 = 2·m1".
func changes(w *syntax.With) entry.Said {
	all := make([]entry.Said, len(w.By))
	for i, b := range w.By {
		all[i] = entry.Say("… = …", entry.Name(b.Name), entry.Math(b.X))
	}
	return entry.Say("with …", entry.Joined(all, ", "))
}

// Lines is an answer in a word, a root without numbers, or how something scales.
func (o outcome) Lines(rows entry.Lines) {
	switch s := o.e.Stmt.(type) {
	case *syntax.Report:
		o.report(answer{X: s.X, Shown: shown{Words: rows[0].String()}, Points: s.Points})
	case *syntax.Solve:
		o.working(o.e)
	default:
		o.key(text{Lines: rows})
	}
}

// Verdict is a second route to a result; a check that fails is a flaw.
func (o outcome) Verdict(v *entry.Verdict) {
	s, ok := o.e.Stmt.(*syntax.CheckStmt)
	if !v.Holds || !ok {
		return
	}
	c := check{Left: s.Left, Right: s.Right, Relation: s.Op.String(), Says: v.Sides()}
	if s.Within != nil {
		c.Within = "within " + typeset.Expr(s.Within).Page()
	}
	if s.Sign != syntax.NoSign {
		c.Sign = signs[s.Sign]
	}
	o.key(c)
}

var signs = map[syntax.SignWord]string{syntax.Negative: "is negative", syntax.Positive: "is positive", syntax.Zero: "is zero"}

// Graph is a figure. The key shows the curves of blank axes too, unless another
// graph draws them anyway; a handout has the blank axes alone.
//
// Axes of a handout end at round values, since the ends of a curve may be what is asked for.
func (o outcome) Graph(g *entry.Graph) {
	switch {
	case o.edition == Handout && g.Blank:
		axes := *g
		axes.X.From, axes.X.To = draw.NiceRange(g.X.From, g.X.To) // where it ends may be an answer
		o.axes(o.e, &axes)
	case o.edition == Key && !(g.Blank && o.drawn(g)):
		full := *g
		full.Blank = false
		o.add(figure{&full})
		if g.Residuals != nil {
			o.add(figure{g.Residuals})
		}
	}
}

// Table is a table of values.
func (o outcome) Table(t *entry.Table) { o.key(table{t}) }

// Budget is a table with what is said below it.
func (o outcome) Budget(b *entry.Budget) {
	o.key(table{&b.Table})
	if len(b.Told) > 0 {
		o.key(text{Lines: b.Told})
	}
}

// Bars is an energy bar chart.
func (o outcome) Bars(c *entry.Bars) { o.key(energyBars{c}) }

// Arrows are vectors to scale. The key shows those of blank axes too, unless another
// drawing has them; a handout has the blank axes alone.
func (o outcome) Arrows(a *entry.Arrows) {
	switch {
	case o.edition == Handout && a.Axes != nil:
		axes := *a.Axes
		o.axes(o.e, &axes)
	case o.edition == Key && !(a.Axes != nil && o.arrowsDrawn(a)):
		o.add(arrows{a})
	}
}

// Workings are left out, since a document has the working of every result anyway; where
// that is in another part, the reader is told.
func (o outcome) Workings(w *entry.Workings) {
	if w.Every || o.part == nil {
		return
	}
	e := o.at(w.Of[0].Line)
	if e == nil {
		return
	}
	if where := o.partOf(e); where != "part "+o.part.Label {
		o.key(text{Lines: entry.Lines{entry.Say("The working for … is in "+where+".", entry.Joined(entry.Names(e.Gives()), " and "))}})
	}
}

// partOf is the part that a line is in: "part b".
func (b *builder) partOf(e *entry.Entry) string {
	where := "the lines above the parts"
	for _, o := range b.all {
		if p, ok := o.Stmt.(*syntax.Part); ok && o.Line < e.Line {
			where = "part " + p.Label
		}
	}
	return where
}
