package curve

import (
	"math"
	"slices"

	"steelyard/lang/algebra"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/session/graph"
)

// hidden is how far a curve may leave its samples, as a part of its height, without
// being another shape: less than its numbers show. Where it is all but 0 throughout,
// hiddenResidues says so, as a multiple of what rounding leaves.
const (
	hidden         = 1e-3
	hiddenResidues = 1e10
)

// shape says in words what a curve is: from its equation where that has one of
// the known forms, else from samples. A function by intervals is told interval
// by interval.
func (p *plot) shape(c *curve, sampled *graph.Curve) ([]entry.Said, graph.Shape) {
	named := entry.Math(p.shortName(c))
	opened := p.opened(c.x)
	if pieces := p.pieces(c, named, opened); pieces != nil {
		return pieces, graph.Shape{}
	}
	if s, ok := p.formOf(c, opened); ok {
		return []entry.Said{p.sentence(c, named, s, p.from, p.to)}, s
	}
	if s := p.recognised(c, p.from, p.to); s.Kind != graph.Other {
		return []entry.Said{p.sentence(c, named, s, p.from, p.to)}, s
	}
	return []entry.Said{p.facts(c, named, sampled)}, graph.Shape{}
}

// recognised is the shape that a curve has at samples, unless it is known to do
// something else between them.
func (p *plot) recognised(c *curve, from, to float64) graph.Shape {
	s, x, y := graph.Recognise(c.eval, from, to)
	if s.Kind == graph.Other || !c.alone {
		return s
	}
	slack := hidden*(slices.Max(y)-slices.Min(y)) + hiddenResidues*c.residue
	if p.Planner.Program.Hides(&p.State, c.fn, x, y, slack) {
		return graph.Shape{}
	}
	return s
}

// opened is an expression with its functions written out. In their bodies the name of the
// axis is a given, which varies only where no curve holds that name itself.
func (p *plot) opened(x syntax.Expr) syntax.Expr {
	if !p.depends {
		return p.Opened(x, p.Entry.Line)
	}
	return p.Opened(x, p.Entry.Line, p.s.Against.Name)
}

// bound works out the end of an interval of a function.
func bound(l *eval.Line, x syntax.Expr) (float64, bool) {
	got := l.Try(syntax.Unplaced(x))
	return got.Value, got.OK && !got.Static.Absent
}

// formOf finds the shape in the equation of a curve, whose functions are written out.
func (p *plot) formOf(c *curve, x syntax.Expr) (graph.Shape, bool) {
	if !syntax.Holds(x, p.s.Against.Name) {
		switch {
		case c.of != nil:
			if x = p.opened(c.of); !syntax.Holds(x, p.s.Against.Name) {
				return graph.Shape{}, false // the algebra did not reach the given
			}
		case c.alone && !c.varies:
			v, ok := bound(p.Line, x)
			return graph.Shape{Kind: graph.Constant, C: v}, ok
		default:
			return graph.Shape{}, false
		}
	}
	f, ok := algebra.FormOf(x, p.s.Against.Name)
	if !ok {
		return graph.Shape{}, false
	}
	v := make([]float64, len(f.C))
	for i, c := range f.C {
		if v[i], ok = bound(p.Line, c); !ok {
			return graph.Shape{}, false
		}
	}
	return shapeOf(f, v)
}

// throughGiven writes the results in an expression out as far as a given that is
// varied.
func throughGiven(l *eval.Line, x syntax.Expr, given *plan.Def) (syntax.Expr, bool) {
	put := map[string]syntax.Expr{}
	good := true
	for n := range syntax.Each[*syntax.Name](x) {
		if d, ok := l.Planner.Find(n); ok && put[n.Name] == nil && d != given && !d.Given && d.Line > 0 {
			put[n.Name], ok = l.Written(d, given)
			good = good && ok
		}
	}
	return algebra.Substitute(x, put), good
}

// shapeOf makes a shape of a form and the values of its coefficients.
func shapeOf(f algebra.Form, v []float64) (graph.Shape, bool) {
	switch f.Kind {
	case algebra.PolynomialForm:
		switch {
		case v[2] != 0:
			return graph.Shape{Kind: graph.Parabola, A: v[2], B: v[1], C: v[0]}, true
		case v[1] != 0:
			return graph.Shape{Kind: graph.Line, B: v[1], C: v[0]}, true
		}
		return graph.Shape{Kind: graph.Constant, C: v[0]}, true
	case algebra.PowerForm:
		return graph.Shape{Kind: graph.Power, A: v[0], E: f.Exp.Num(), Of: f.Exp.Den()}, v[0] != 0
	case algebra.ExponentialForm:
		return graph.Shape{Kind: graph.Exponential, A: v[1] * math.Exp(v[3]), B: v[2], C: v[0]}, v[1] != 0 && v[2] != 0
	}
	s := graph.Shape{Kind: graph.Wave, A: math.Abs(v[1]), B: math.Abs(v[2]), C: v[0]}
	if f.Squared { // sin² = 1/2 - 1/2·cos of twice the angle
		s.A, s.B, s.C = s.A/2, 2*s.B, s.C+v[1]/2
	}
	return s, v[1] != 0 && v[2] != 0
}
