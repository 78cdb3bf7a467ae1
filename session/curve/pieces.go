package curve

import (
	"slices"

	"steelyard/lang/algebra"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/graph"
	"steelyard/units"
)

// piece is one interval of a function by intervals, along the axis.
type piece struct {
	from, to float64
	x        syntax.Expr // as a function of the name of the axis
}

// pieces tells a curve with functions by intervals in it one interval after the other;
// nil for any other. Other functions in x, which is its expression, are written out.
func (p *plot) pieces(c *curve, named entry.Said, x syntax.Expr) []entry.Said {
	calls, bounds := p.intervals(x)
	var out []entry.Said
	for i := 1; i < len(bounds); i++ {
		lo, hi := bounds[i-1], bounds[i]
		within, ok := inInterval(x, calls, lo+(hi-lo)/2)
		if !ok {
			continue
		}
		out = append(out, p.within(c, named, within, lo, hi))
	}
	return out
}

// within tells a curve that is an expression of its own between two places.
func (p *plot) within(c *curve, named entry.Said, x syntax.Expr, lo, hi float64) entry.Said {
	// A hair inside, where both ends belong to the interval for certain.
	inside := *p
	inside.from, inside.to = lo+(hi-lo)*1e-9, hi-(hi-lo)*1e-9
	s, ok := p.formOf(c, x)
	if !ok {
		s = p.recognised(c, inside.from, inside.to)
	}
	lead := entry.Say("From … to …, …", p.short(lo), p.short(hi), named)
	if s.Kind == graph.Other {
		sampled := graph.Sample(c.eval, inside.from, inside.to)
		return inside.facts(c, lead, &sampled)
	}
	return p.sentence(c, lead, s, lo, hi)
}

// short is the end of an interval, which is written in a function, without noughts at its
// end.
func (p *plot) short(x float64) entry.Said {
	return p.Told(units.Figures{N: p.Set.Figures.N}, x, p.unit)
}

// intervals lists the functions by intervals of the name of the axis in an expression,
// and the places between which the expression is one and the same.
func (p *plot) intervals(x syntax.Expr) (calls map[string][]piece, bounds []float64) {
	for call := range syntax.Each[*syntax.Call](x) {
		if calls[call.Func] != nil {
			continue
		}
		all := p.piecesOf(call)
		if all == nil {
			continue
		}
		if calls == nil {
			calls, bounds = map[string][]piece{}, []float64{p.from, p.to}
		}
		calls[call.Func] = all
		for _, piece := range all {
			bounds = append(bounds, piece.from, piece.to)
		}
	}
	bounds = slices.DeleteFunc(bounds, func(at float64) bool { return !(at >= p.from && at <= p.to) })
	slices.Sort(bounds)
	return calls, slices.Compact(bounds)
}

// piecesOf are the intervals of a call of a function by intervals with the name of the
// axis; nil for any other.
func (p *plot) piecesOf(call *syntax.Call) []piece {
	if len(call.Args) != 1 {
		return nil
	}
	n, ok := call.Args[0].X.(*syntax.Name)
	d, found := p.Planner.Names.Lookup(call.Func)
	if !ok || n.Name != p.s.Against.Name || !found || d.Kind != plan.Function || d.Func.Pieces == nil {
		return nil
	}
	var out []piece
	for _, one := range d.Func.Pieces {
		within := piece{from: p.from, to: p.to}
		if at, ok := p.end(one.Lo, d); ok {
			within.from = max(within.from, at)
		}
		if at, ok := p.end(one.Hi, d); ok {
			within.to = min(within.to, at)
		}
		if within.from < within.to {
			within.x = algebra.Substitute(p.Pinned(syntax.Unplaced(one.X), d, p.Entry.Line, p.s.Against.Name), map[string]syntax.Expr{d.Func.Params[0]: &syntax.Name{Name: p.s.Against.Name}})
			out = append(out, within)
		}
	}
	return out
}

// end works out an end of an interval of a function, where it has one.
func (p *plot) end(x syntax.Expr, d *plan.Def) (float64, bool) {
	if x == nil {
		return 0, false
	}
	return bound(p.Line, p.Pinned(syntax.Unplaced(x), d, p.Entry.Line))
}

// inInterval puts for each function by intervals what it is at a place; false where one
// of them is nothing there.
func inInterval(x syntax.Expr, calls map[string][]piece, at float64) (syntax.Expr, bool) {
	good := true
	x = syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
		call, ok := x.(*syntax.Call)
		if !ok || calls[call.Func] == nil {
			return nil, false
		}
		all := calls[call.Func]
		i := slices.IndexFunc(all, func(one piece) bool { return one.from <= at && at <= one.to })
		if i < 0 {
			good = false
			return nil, false
		}
		return &syntax.Paren{X: all[i].x}, true
	})
	return x, good
}

// jumps are the places at which a curve may jump: the ends of the intervals of the
// functions in it.
func (p *plot) jumps(c *curve) []float64 {
	_, bounds := p.intervals(c.x)
	return bounds
}
