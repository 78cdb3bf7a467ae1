package plan

import (
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// A slope and an area are those of readings where a list goes with a list: in `slope of v at
// t = 3 s` there are v and t for each reading, and no v for any t. Straight pieces between
// neighbours are all that readings say of what is between them.

// isList tells whether a name stands for a list here.
func (c *coder) isList(name string) bool {
	if p := c.param(name); p != nil {
		return c.static(p.slot).Shape == run.List
	}
	d, ok := c.lookup(&syntax.Name{Name: name})
	return ok && !d.Failed() && d.Kind == Quantity && c.p.Static(d.Slot).Shape == run.List
}

// ofReadings tells whether a curve against a list is itself made of one.
func (c *coder) ofReadings(x syntax.Expr, against string) bool {
	return c.isList(against) && syntax.Any(x, func(x syntax.Expr) bool {
		switch x := x.(type) {
		case *syntax.Name:
			return x.Name != against && c.isList(x.Name)
		case *syntax.List:
			return true
		}
		return false
	})
}

// OfReadings tells whether a slope or an area of an expression against a name is one of
// readings, for a line that goes behind all others.
func (p *Planner) OfReadings(x syntax.Expr, against string) bool {
	return p.coder("").ofReadings(x, against)
}

// straightPieces plans the slope of readings at a place, or the area under them between two.
func (c *coder) straightPieces(of syntax.Expr, against syntax.Ident, slope bool, places ...syntax.Expr) run.Slot {
	args := []run.Slot{c.expr(of), c.expr(&syntax.Name{At: against.NameAt, Name: against.Name})}
	for _, at := range places {
		args = append(args, c.expr(at))
	}
	for i, s := range args {
		if s == run.NoSlot || i > 1 && !c.single(places[i-2], s) {
			return run.NoSlot
		}
	}
	y, x := c.static(args[0]), c.static(args[1])
	if y.Shape != run.List || y.Width != x.Width {
		return c.says(UnequalLists(of.Span(), c.shown(of), int(max(y.Width, 1)), against.Name, int(x.Width)))
	}
	for i, s := range args[2:] {
		if _, ok := c.p.agree(x, c.static(s)); !ok {
			return c.unlike(places[i].Span(), &syntax.Name{At: against.NameAt, Name: against.Name}, places[i], args[1], s, "compared")
		}
	}
	in := run.Instr{Op: ops.Pieces, B: run.Slot(len(c.code.Args)), C: run.Slot(len(args))}
	st := run.Static{Dim: y.Dim.Mul(x.Dim), Tag: units.ProductTag(y.Dim, y.Tag, x.Dim, x.Tag, false), Absent: y.Absent || x.Absent}
	if slope {
		in.K, st.Dim, st.Tag = 1, y.Dim.Div(x.Dim), units.ProductTag(y.Dim, y.Tag, x.Dim, x.Tag, true)
	}
	if st.Dim.Lost() {
		return c.dimensionRange(of.Span())
	}
	if x.Heat == run.Point || !slope && y.Heat == run.Point {
		return c.refuse(finding.TemperatureSum, of.Span(), "Temperatures in °C can't be multiplied or added up.", "Use differences from one temperature, in K.")
	}
	c.code.Args = append(c.code.Args, args...)
	return c.emit(in, of.Span(), st)
}
