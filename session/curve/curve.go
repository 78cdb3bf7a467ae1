// Package curve works out what is read off a curve: graphs, tables, slopes and areas,
// and energy bar charts.
package curve

import (
	"cmp"
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/eval"
	"steelyard/session/graph"
	"steelyard/units"
)

// curve is one expression of a graph, planned.
type curve struct {
	x      syntax.Expr
	called syntax.Expr // what a component of a vector is called; nil for another curve
	fn     int
	static run.Static
	unit   *units.Unit
	in     syntax.UnitText
	uses   []*plan.Def
	eval   graph.Function // in coherent SI units
	slot   run.Slot       // its value at the place in along[0]
	along  []run.Slot     // what varies with the axis
	// of is x with the results in it written out as far as the given that is varied;
	// nil where x itself holds the name of the axis, or no given is varied.
	of syntax.Expr
	// varies tells that fn has the given that is varied as its argument.
	varies bool
	// alone tells that nothing but the argument of fn varies, so that enclosures of fn
	// are those of the curve.
	alone bool
	// lifts are where the curve divides 0 by 0 but goes on.
	lifts run.Lifts
	// residue is the size below which a value may be what rounding has left.
	residue  float64
	settling *run.Settling // nil where nothing can cancel
}

// name is the curve as it is written.
func (c *curve) name() string { return typeset.Text(cmp.Or(c.called, c.x)) }

// planCurve plans one expression as a function of the name that a graph is drawn
// against, and tells whether it holds that name.
func planCurve(l *eval.Line, x syntax.Expr, against string, st run.Static) (*curve, bool, bool) {
	got := l.Function(eval.Want{}, []string{against}, []run.Static{st}, x)
	depends := syntax.Holds(x, against)
	if !got.OK {
		curveHint(l, depends, against, st)
		return nil, false, false
	}
	if got.Cost > limit.CurveCost {
		l.Find(finding.New(finding.TooLong, x.Span(), "This curve takes too many steps.",
			"Split it into several lines."))
		return nil, false, false
	}
	if got.Static.Absent && !depends { // a symbol of that name may be all that has no value yet
		if d, ok := l.Varied(&syntax.Name{At: x.Span(), Name: against}, x); ok && d.Kind == plan.Symbol {
			if v := l.Planner.CompileVarying(l.Entry.Text, d, st, syntax.Unplaced(x)); v.OK {
				got = v
			}
		}
	}
	if got.Static.Absent {
		l.Find(finding.New(finding.NotWorkedOut, x.Span(), noCurveYet, valueHint(l, x)))
		return nil, false, false
	}
	return &curve{x: x, fn: got.Fn, static: got.Static, uses: got.Uses}, depends, true
}

// valueHint says how a curve gets the values that it lacks: a function sees the
// lines above its own alone.
func valueHint(l *eval.Line, x syntax.Expr) string {
	hint := "Define it in a line above."
	for c := range syntax.Each[*syntax.Call](x) {
		d, ok := l.Planner.Names.Lookup(c.Func)
		if !ok || d.Kind != plan.Function {
			continue
		}
		if e := l.EntryAt(d.Line); !strings.Contains(e.Text, "\n") {
			hint = c.Func + " sees the lines above its own (line " + strconv.Itoa(d.Line) + "): define the symbol, and enter `" + e.Text + "` again."
		}
	}
	return hint
}

// curveHint adds to what is wrong with a curve what the axis has to do with it:
// another name, or a range of another kind.
func curveHint(l *eval.Line, depends bool, against string, st run.Static) {
	for i := range l.Entry.Findings {
		f := &l.Entry.Findings[i]
		switch {
		case f.ID == finding.UnknownName && !depends:
			f.Hint = "The line is against " + against + ", which isn't in this curve: write `against` and a name that is. " + f.Hint
		case f.Severity == finding.Mismatch && depends:
			f.Hint = against + " goes over " + plan.Words(st) + " here, as its range says. " + f.Hint
		default:
			continue
		}
		return
	}
}

// curveUnit chooses the unit of a curve, and checks the one that is asked, with that of
// the axis, of the name that the curve is against.
func curveUnit(l *eval.Line, c *curve, name string, axis *units.Unit) bool {
	st, against := c.static, map[string]*units.Unit{name: axis}
	c.unit = units.Preferred(st.Dim, st.Tag)
	if !c.in.Present() {
		if u := l.RememberedUnit(c.x); u != nil && u.Dim() == st.Dim && !u.Affine() {
			c.unit = u
		} else if u := l.FollowAgainst(c.x, st, name, axis); u != nil {
			c.unit = u
		}
		return !l.OpenCurve(st, c.unit, c.x, c.uses, against)
	}
	u, ok := l.ReadUnit(c.in)
	if ok && l.Fits(c.name(), c.in, st, u) {
		c.unit = u
		return !l.OpenCurve(st, u, c.x, c.uses, against)
	}
	return ok
}
