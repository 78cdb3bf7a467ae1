package curve

import (
	"math"
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// tableRows is how many rows a table has where no step is given.
const tableRows = 11

// table lists the values of curves row by row.
//
// A row without a value says so and is not left out: in a table of √(x), what is missing below
// 0 is what there is to see. A column has the figures that its worst row supports.
func (p *plot) table() {
	x, ok := p.tablePlaces()
	if !ok {
		return
	}
	g := &entry.Table{Heads: []entry.Head{{Of: []syntax.Expr{&syntax.Name{Name: p.s.Against.Name}}, Unit: p.unit}}}
	g.Rows = make([][]entry.Cell, len(x))
	for i, v := range x {
		g.Rows[i] = []entry.Cell{{Value: p.ValueIn(v, p.unit)}}
	}
	for _, c := range p.curves {
		g.Heads = append(g.Heads, entry.Head{Of: []syntax.Expr{p.shortName(c)}, Unit: c.unit})
		y, good := make([]float64, len(x)), make([]bool, len(x))
		c.eval(x, y, good)
		off := p.off(c, x)
		figures := p.figures(c, x[0], x[len(x)-1], false)
		for i, v := range y {
			shown := entry.Cell{Words: entry.Words("no value")}
			if c.alone && c.settling != nil {
				v, good[i] = c.settling.Read(x[i], v, good[i])
			}
			if good[i] && v-v == 0 {
				shown = entry.Cell{Value: p.UnsureIn(v, off(i), c.unit)}
				shown.Value.Figures = figures
			}
			g.Rows[i] = append(g.Rows[i], shown)
		}
	}
	p.Entry.Outcome = g
}

// written is a place as it is written: 0.3 s is three steps of 0.1 s, which come to a
// little more. So a pole is met where there is one. A place that nobody would write, such
// as a third of a period, stays as it was worked out.
func (p *plot) written(x float64) float64 {
	short, ok := units.ParseDecimal(strconv.FormatFloat(p.unit.FromSI(x), 'g', shortPlace, 64))
	if at := p.unit.ToSI(short); ok && math.Abs(at-x) <= 1e-15*math.Abs(x) {
		return at
	}
	return x
}

// shortPlace is how many figures a place has at most that somebody would write.
const shortPlace = 12

// goesDown says that a step goes down where the range goes up, and offers both as they may
// have been meant.
func (p *plot) goesDown() {
	text, by, from, to := p.Entry.Text, p.s.By.Span(), p.s.From.Span(), p.s.To.Span()
	f := finding.New(finding.NoRange, by, "The step is negative, but the range goes up.", "Leave the minus out, or put the larger end first.")
	if step := strings.TrimLeft(text[by.From:by.To], "-−"); len(step) < by.To-by.From {
		f.Lines = append(f.Lines, text[:by.From]+step+text[by.To:])
	}
	f.Lines = append(f.Lines, text[:from.From]+text[to.From:to.To]+text[from.To:to.From]+text[from.From:from.To]+text[to.To:])
	p.Find(f)
}

// tablePlaces are the places of the rows. A last step that overshoots the end by
// rounding alone counts as on it.
//
// Without a step there are eleven rows, ten steps: a step that someone would have chosen. The
// last row is the end itself, if a step comes to it but for rounding; a range that the step
// does not divide ends before.
func (p *plot) tablePlaces() ([]float64, bool) {
	if p.s.By == nil {
		x := make([]float64, tableRows)
		for i := range x {
			x[i] = p.written(p.from + float64((p.to-p.from)*float64(i))/(tableRows-1))
		}
		x[tableRows-1] = p.to
		return x, true
	}
	slot, ok := end(p.Line, p.s.By)
	if !ok {
		return nil, false
	}
	if st := p.Planner.SettleTo(slot, p.static.Dim); st.Dim != p.static.Dim {
		p.Find(finding.New(finding.UnlikeDimensions, p.s.By.Span(), "The step is "+plan.Words(st)+", the range "+plan.Words(p.static)+".", "Write the step in a unit of the same kind."))
		return nil, false
	}
	step := math.Abs(p.State.At(slot))
	if step == 0 {
		p.Find(finding.New(finding.NoRange, p.s.By.Span(), "The step can't be 0.", "Write the distance between two rows."))
		return nil, false
	}
	switch {
	case p.to < p.from:
		step = -step
	case p.State.At(slot) < 0:
		p.goesDown()
		return nil, false
	}
	n := math.Floor((p.to-p.from)/step*(1+1e-12) + 1e-9)
	if n+1 > limit.Rows {
		p.Find(finding.New(finding.TooLong, p.s.By.Span(), "A table has "+strconv.Itoa(limit.Rows)+" rows at most; this step makes more.", "Use a larger step."))
		return nil, false
	}
	var x []float64
	for i := 0; i <= int(n); i++ {
		x = append(x, p.written(p.from+float64(step*float64(i))))
	}
	if last := len(x) - 1; math.Abs(x[last]-p.to) < 1e-9*math.Abs(step) {
		x[last] = p.to
	}
	return x, true
}
