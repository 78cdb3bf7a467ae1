package curve

import (
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/eval"
	"steelyard/session/solve"
)

// planVector plans the path that a vector describes, as that of its components: graph r(t)
// for t is graph r_y(t) against r_x(t) for t.
//
// The components are written out by the rules of `solve`, which knows what a sum of vectors or
// a turned one is along each axis; so a path by its vector and one by its coordinates are
// drawn from the same two functions.
func (p *plot) planVector() bool {
	whole := p.s.Curves[0]
	if !whole.In.Present() {
		whole.In = p.s.In
	}
	got := p.tried(eval.Want{Trial: true}, "abs", whole.X)
	parts, ok := solve.Parts(p.Line, whole.X, p.s.Against.Name)
	switch {
	case !got.OK || got.Static.Absent || !ok:
		return p.noPath(whole.X, got)
	case len(p.s.Curves) > 1 || p.s.Log:
		p.Find(finding.New(finding.NotWritten, whole.X.Span(), "One path is drawn at a time, on plain axes.", "Write it like `graph "+typeset.Text(whole.X)+" for "+p.s.Against.Name+" from …`."))
		return false
	}
	var both [2]*curve
	for k, part := range parts {
		if both[k], ok = p.plan(syntax.Curve{X: part, In: whole.In}); !ok {
			return false
		}
		if u := p.RememberedUnit(whole.X); u != nil && !whole.In.Present() && u.Dim() == got.Static.Dim {
			both[k].unit = u
		}
		both[k].called = p.component(whole.X, k)
	}
	for k, c := range both { // a component that is 0 throughout is of the kind of the other
		if other := both[1-k]; c.static.Open != 0 && other.static.Open == 0 {
			c.static, c.unit = other.static, other.unit
		}
	}
	p.across, p.curves = both[0], []*curve{both[1]}
	return true
}

// tried plans a function of an expression, with what is found of that.
//
// A magnitude exists of vectors alone, and a product with itself of vectors and numbers: by
// what can be planned it is found out what an expression is, with no second rule for that.
func (p *plot) tried(want eval.Want, function string, of ...syntax.Expr) plan.Planned {
	c := &syntax.Call{At: of[0].Span(), Func: function}
	for _, x := range of {
		c.Args = append(c.Args, syntax.Arg{X: x})
	}
	return p.Function(want, []string{p.s.Against.Name}, []run.Static{p.static}, c)
}

// noPath says why an expression is no path in the plane: false.
//
// From the plain fault to the strangest: what can't be planned, what has no value yet, a
// vector by intervals or in space, and at last what is no vector at all.
func (p *plot) noPath(x syntax.Expr, got plan.Planned) bool {
	switch {
	case !got.OK:
		curveHint(p.Line, syntax.Holds(x, p.s.Against.Name), p.s.Against.Name, p.static)
	case p.tried(eval.Want{Trial: true, Silent: true}, "dot", x, x).OK && got.Static.Absent:
		p.Find(finding.New(finding.NotWorkedOut, x.Span(), noCurveYet, valueHint(p.Line, x)))
	case p.tried(eval.Want{Trial: true, Silent: true}, "dot", x, x).OK && p.byIntervals(x):
		p.Find(finding.New(finding.VectorOrNumber, x.Span(), typeset.Text(x)+" is a vector by intervals; its path can't be drawn.",
			"Write x(t) and y(t) by intervals, and draw `graph y(t) against x(t) for t from 0 s to 3 s`."))
	case p.tried(eval.Want{Trial: true, Silent: true}, "dot", x, x).OK:
		p.Find(finding.New(finding.VectorOrNumber, x.Span(), typeset.Text(x)+" can't be drawn as a path in the plane.",
			"Draw its components, as in `graph y(t) against x(t) for t from 0 s to 3 s`."))
	default:
		p.Find(finding.New(finding.NotWritten, syntax.Span{From: x.Span().To, To: p.s.Against.NameAt.To}, "The name on the axis across comes after `against`.",
			"The word `for` is for the path of a vector.", " against "+p.s.Against.Name))
	}
	return false
}

// byIntervals tells whether an expression is a function of the page with a rule for each
// interval.
func (p *plot) byIntervals(x syntax.Expr) bool {
	c, ok := syntax.Unbracket(x).(*syntax.Call)
	if !ok {
		return false
	}
	d, ok := p.Planner.Names.Lookup(c.Func)
	return ok && d.Func != nil && len(d.Func.Pieces) > 0
}

// component is what a component of a vector is called at its axis: r_x of r(t), and x
// where the vector has no name.
//
// A reader looks for r_x at an axis, and not for the product that it was worked out as.
func (p *plot) component(x syntax.Expr, k int) syntax.Expr {
	letter := syntax.Axes[k : k+1]
	if c, ok := syntax.Unbracket(x).(*syntax.Call); ok && !ops.IsFunction(c.Func) {
		letter = c.Func + "_" + letter
	}
	return &syntax.Name{Name: letter}
}
