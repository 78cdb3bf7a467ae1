package session

import (
	"math"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// widest and nearest bound the search for a root where no condition does, in
// coherent SI units.
const (
	widest  = 1e6
	nearest = 1e-6
)

// search looks for roots where an equation can't be rearranged: every piece of
// the range is proved empty, proved to hold one root, or named as not settled.
func (w *work) search(s *syntax.Solve, left, right syntax.Expr, eq plan.Planned) {
	c := candidate{form: plan.Compiled{Static: eq.Unknown}}
	u := w.solutionUnit(s.Unknowns[0], c)
	pieces, ok := w.searchRange(s, c)
	if !ok {
		return
	}
	got := w.planner.Program.FindRoots(w.ctx, &w.state, eq.Difference, pieces)
	show := func(v float64) string {
		return units.FormatQuantity(u.FromSI(v), u, w.set.figures, w.set.rounding, units.Screen)
	}
	at := s.Unknowns[0].NameAt
	w.e.Solution = &algebra.Solution{Steps: []algebra.Step{{Left: left, Right: right}}}
	lo, hi := pieces[0].Lo, pieces[0].Hi
	for _, x := range pieces {
		lo, hi = math.Min(lo, x.Lo), math.Max(hi, x.Hi)
	}
	w.find(finding.New(finding.Searched, at, "No rearrangement leads to "+w.e.solves+"; it was searched for from "+show(lo)+" to "+
		show(hi)+", and what is not named here is proved to hold no solution.", ""))
	for i, x := range got.Unsettled {
		if i == 3 {
			break
		}
		w.find(finding.New(finding.NotSettled, at, "From "+show(x.Lo)+" to "+show(x.Hi)+" it is not settled whether there is a solution.",
			"Narrow the search down with where, or look at the graph there."))
	}
	var all []candidate
	for _, v := range got.Found {
		slot := w.planner.Emit(plan.Instr{Op: plan.OpConst, K: v}, eq.Unknown)
		w.run(plan.NoSlot, plan.Static{})
		if !w.satisfies(eq, slot) {
			continue
		}
		form := plan.Compiled{Slot: slot, Static: eq.Unknown}
		all = append(all, candidate{root: algebra.Root{X: w.asNumber(v, eq.Unknown)}, slot: slot, value: v, form: form})
	}
	w.searched = w.within(s, all)
}

// asNumber is a value as a written quantity in its SI unit.
func (w *work) asNumber(v float64, st plan.Static) syntax.Expr {
	text := units.FormatQuantity(v, units.Coherent(st.Dim, st.Tag), units.Figures{N: 15}, units.HalfAway, units.File)
	x, fs := syntax.ParseExpr(text)
	if len(fs) > 0 {
		d, _ := units.ParseDecimal("0")
		return &syntax.Number{Value: d}
	}
	return x
}

// searchRange is where a root is looked for: between the bounds that conditions set,
// else over many powers of ten on both sides of zero.
func (w *work) searchRange(s *syntax.Solve, c candidate) ([]plan.Interval, bool) {
	lo, hi := math.Inf(-1), math.Inf(1)
	for _, cond := range s.Where {
		x, op := cond.Right, cond.Op
		n, ok := cond.Left.(*syntax.Name)
		if !ok || n.Name != w.e.solves {
			if n, ok = cond.Right.(*syntax.Name); !ok || n.Name != w.e.solves {
				continue
			}
			x, op = cond.Left, turned(op)
		}
		v, ok := w.side(x, s, c)
		if !ok {
			return nil, false
		}
		if op == syntax.Less || op == syntax.AtMost {
			hi = math.Min(hi, v)
		} else {
			lo = math.Max(lo, v)
		}
	}
	if lo > hi {
		return []plan.Interval{{Lo: hi, Hi: hi}}, true
	}
	if !math.IsInf(lo, 0) && !math.IsInf(hi, 0) {
		return []plan.Interval{{Lo: lo, Hi: hi}}, true
	}
	var out []plan.Interval
	for _, x := range []plan.Interval{{Lo: -nearest, Hi: nearest}, {Lo: nearest, Hi: widest}, {Lo: -widest, Hi: -nearest}} {
		x.Lo, x.Hi = math.Max(x.Lo, lo), math.Min(x.Hi, hi)
		if x.Lo < x.Hi {
			out = append(out, x)
		}
	}
	if out == nil {
		out = []plan.Interval{{Lo: math.Max(lo, -widest), Hi: math.Max(lo, widest)}}
	}
	return out, true
}

// turned is a comparison read from the other side.
func turned(op syntax.Comparison) syntax.Comparison {
	switch op {
	case syntax.Less:
		return syntax.Greater
	case syntax.Greater:
		return syntax.Less
	case syntax.AtMost:
		return syntax.AtLeast
	}
	return syntax.AtMost
}
