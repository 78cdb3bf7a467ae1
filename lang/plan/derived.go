package plan

import (
	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/units"
)

// panelsOfArea is how many points an area within a function is taken to need,
// for the bound on what a line may cost: 15 for each of some tens of pieces.
const panelsOfArea = 1000

// A slope and an area are operations on a function of one name that the line makes
// on the way: `slope of x(t) at t = 3 s` plans x(t) as a function of t. Within that
// function t is no name of the lines above, whatever they say of t; every other name
// means what it means outside. Where it stands in the body of a function, it takes
// the parameters of that as further arguments.

// slopeOf plans the slope of a curve at a place. Its dimension is that of the
// curve over that of the place. A bare 0 as the place has the dimension that the curve
// asks of its variable; where the curve asks none, the 0 is refused, unless the slope has
// no unit, as that of x^2 at 0.
func (c *coder) slopeOf(x *syntax.SlopeOf) run.Slot {
	if c.ofReadings(x.X, x.Var.Name) {
		return c.straightPieces(x.X, x.Var, true, x.Place)
	}
	start := c.next()
	at := c.expr(x.Place)
	c.exact(start, anything)
	if at == run.NoSlot || !c.single(x.Place, at) {
		return run.NoSlot
	}
	return c.ofCurve(x.X, x.Var.Name, c.static(at), func(fn int, depends bool) run.Slot {
		return c.slopeAt(x, at, fn, depends)
	})
}

// slopeAt plans the slope of a function at a place that is planned.
func (c *coder) slopeAt(x *syntax.SlopeOf, at run.Slot, fn int, depends bool) run.Slot {
	if !depends {
		return c.refuse(finding.NotSolved, x.Var.NameAt, x.Var.Name+" isn't in "+typeset.Text(x.X)+".",
			"Use the name in the curve, as in `slope of x(t) at t = 3 s`.")
	}
	if c.p.Program.Funcs[fn].Searches(&c.p.Program) {
		// The rules of differentiation run beside the arithmetic, and do not reach through a
		// search; a slope is not guessed from differences.
		return c.refuse(finding.NotAvailableYet, x.X.Span(), "This version can't find the slope of a slope, of an area or of a solution.",
			"Write the curve out as a formula.")
	}
	y, of := c.result(fn), c.static(at)
	d := y.Dim.Div(of.Dim)
	if d.Lost() {
		return c.dimensionRange(x.X.Span())
	}
	st := run.Static{Dim: d, Tag: units.ProductTag(y.Dim, y.Tag, of.Dim, of.Tag, true)}
	st.Open, st.Exp = productZero(ops.Div, y, of)
	if st.Exp.Lost() || of.Open != 0 && st.Open != 0 && (y.Open == 0 || c.fn == nil && !d.IsOne()) {
		unit := units.Usual(x.Var.Name)
		if unit == "" {
			unit = "m"
		}
		return c.refuse(finding.NotSolved, x.Place.Span(), "This 0 has no unit, and the slope needs one.",
			"Write its unit, as in `at "+x.Var.Name+" = 0 "+unit+"`.")
	}
	return c.onCurve(ops.Slope, x.X.Span(), fn, []run.Slot{at}, st)
}

// areaUnder plans the area under a curve between two places. Its dimension is
// that of the curve times that of the places.
//
// The ends may be given in any order and unit of their kind; from right to left the
// area has the other sign, as an integral has.
func (c *coder) areaUnder(x *syntax.AreaUnder) run.Slot {
	if x.Var.Name == "" {
		return c.refuse(finding.Incomplete, x.X.Span(), "The line doesn't say which name changes along the curve.",
			"Write it before the range, as in `area under k*x against x from 0 m to 4 m`.")
	}
	switch list := c.isList(x.Var.Name); {
	case x.All && !list:
		return c.refuse(finding.Incomplete, syntax.Span{From: x.At.To, To: x.At.To}, "This line is unfinished.",
			"Write from where to where the area goes, as in `from 0 m to 2 m`. Readings in a list need no range.")
	case list && (x.All || c.ofReadings(x.X, x.Var.Name)):
		return c.straightPieces(x.X, x.Var, false, x.From, x.To)
	}
	start := c.next()
	from, to := c.expr(x.From), c.expr(x.To)
	c.exact(start, anything)
	if from == run.NoSlot || to == run.NoSlot || !c.single(x.From, from) || !c.single(x.To, to) {
		return run.NoSlot
	}
	a, b := c.static(from), c.static(to)
	if c.zeroOfScale(x.From, x.To, a, b) {
		return run.NoSlot
	}
	place, ok := c.p.agree(a, b)
	if !ok {
		return c.says(UnlikeEnds(x.To, a, b))
	}
	place.Tag = units.SumTag(place.Dim, a.Tag, b.Tag)
	return c.ofCurve(x.X, x.Var.Name, place, func(fn int, _ bool) run.Slot {
		return c.areaBetween(x, from, to, place, fn)
	})
}

// areaBetween plans the area under a function between two places that are planned.
func (c *coder) areaBetween(x *syntax.AreaUnder, from, to run.Slot, place run.Static, fn int) run.Slot {
	y, place := c.result(fn), c.p.settledStatic(place)
	st := run.Static{Tag: units.ProductTag(y.Dim, y.Tag, place.Dim, place.Tag, false)}
	if st.Dim = y.Dim.Mul(place.Dim); st.Dim.Lost() {
		return c.dimensionRange(x.X.Span())
	}
	if st.Open, st.Exp = productZero(ops.Mul, y, place); st.Exp.Lost() {
		st = c.p.newZero()
	}
	return c.onCurve(ops.Area, x.X.Span(), fn, []run.Slot{from, to}, st)
}

// ofCurve plans what is asked of a curve: of a vector, of each of its components.
func (c *coder) ofCurve(x syntax.Expr, name string, of run.Static, one func(fn int, depends bool) run.Slot) run.Slot {
	var parts []run.Slot
	for axes := 1; len(parts) < axes; {
		fn, depends, components, ok := c.curve(x, name, of, len(parts))
		if !ok {
			return run.NoSlot
		}
		part := one(fn, depends)
		if components == 0 || part == run.NoSlot {
			return part
		}
		parts, axes = append(parts, part), components
	}
	return c.vectorOf(parts, x.Span(), c.static(parts[0]))
}

// curve plans an expression as a function of one name, or one of its components if it is a
// vector. Behind that, it takes the parameters of the function that it stands in. It returns
// the function's number, whether the name stands in the expression, and how many components
// that has, 0 for a number.
func (c *coder) curve(x syntax.Expr, name string, of run.Static, part int) (fn int, depends bool, components int, ok bool) {
	inner := c.p.body("curve", c.text, c.seen)
	inner.takes(name, of)
	for _, outer := range c.params {
		inner.takes(outer.name, c.static(outer.slot))
	}
	depends = syntax.Holds(x, name)
	if !depends {
		if depends = inner.varies(name, x, of); !depends && len(inner.findings) > 0 {
			c.findings = append(c.findings, inner.findings...)
			return 0, false, 0, false
		}
	}
	result := inner.expr(x)
	if result != run.NoSlot && inner.isVector(result) {
		components = int(inner.static(result).Components())
		result = inner.component(result, part, x.Span())
	}
	c.uses = append(c.uses, inner.uses...)
	if c.root == nil {
		c.root = inner.root
	}
	if result == run.NoSlot || inner.replacing != nil && inner.replacing.failed || !inner.single(x, result) {
		c.findings = append(c.findings, inner.findings...)
		c.cost = max(c.cost, inner.cost)
		return 0, false, 0, false
	}
	c.findings = append(c.findings, inner.findings...)
	return inner.ends(result), depends, components, true
}

// varies lets the first argument of a curve stand for the value of that name that the curve
// was worked out from, as a graph against it does. False where there is none, or, with a
// finding, where it can't.
func (c *coder) varies(name string, x syntax.Expr, of run.Static) bool {
	from := c.varied(&syntax.Name{At: x.Span(), Name: name}, x)
	switch {
	case len(from) == 0 || !c.behind(x).hold(from[0]):
		return false
	case len(from) > 1:
		c.find(finding.TwoReadings, x.Span(), name+" has one value in line "+itoa(from[0].Line)+" and another in line "+itoa(from[1].Line)+".",
			"Give one of them another name.")
		return false
	}
	said, ok := c.p.CanVary(from[0], x, of, x.Span())
	if c.findings = append(c.findings, said...); !ok {
		return false
	}
	c.varying(from[0], c.params[0].slot, x.Span())
	return true
}

// result is what is known of what a function gives.
func (c *coder) result(fn int) run.Static {
	f := c.p.Program.Funcs[fn]
	return c.p.settledStatic(f.Code.Statics[f.Result])
}

// onCurve adds an operation on a curve at some places; st is what is known of what it
// gives, but for what is absent.
//
// In the main code one call is counted, and the run keeps its own budget of calls;
// within a function the bound must be known beforehand.
func (c *coder) onCurve(op ops.Op, at syntax.Span, fn int, places []run.Slot, st run.Static) run.Slot {
	f := c.p.Program.Funcs[fn]
	if c.depth = max(c.depth, f.Depth); c.depth > limit.Calls {
		return c.tooDeep(at)
	}
	st.Absent = c.result(fn).Absent
	for _, s := range places {
		st.Absent = st.Absent || c.static(s).Absent
	}
	if c.fn != nil {
		for _, outer := range c.params {
			places = append(places, outer.slot)
		}
		if op == ops.Area {
			c.cost = min(c.cost+panelsOfArea*f.Cost, maxCost+1)
		}
	}
	c.cost = min(c.cost+f.Cost, maxCost+1)
	return c.invokes(op, fn, places, at, st)
}

// invokes adds an operation that runs a function.
func (c *coder) invokes(op ops.Op, fn int, slots []run.Slot, at syntax.Span, st run.Static) run.Slot {
	fn, extra, ok := c.replacing.function(c, fn)
	if !ok {
		return run.NoSlot
	}
	first := run.Slot(len(c.code.Args))
	c.code.Args = append(append(c.code.Args, slots...), extra...)
	return c.emit(run.Instr{Op: op, A: run.Slot(fn), B: first, C: run.Slot(len(slots) + len(extra))}, at, st)
}
