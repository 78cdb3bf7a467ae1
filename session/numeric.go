package session

import (
	"math"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// search looks for roots where an equation can't be rearranged: every piece of
// the range is proved empty, proved to hold one root, or named as not settled.
func (w *work) search(s *syntax.Solve, left, right syntax.Expr, eq plan.Planned) {
	c := candidate{form: plan.Compiled{Static: eq.Unknown}}
	u := w.solutionUnit(s.Unknowns[0], c)
	lo, hi, bounds, ok := w.searchRange(s, c)
	if !ok {
		return
	}
	scale := w.planner.Program.NaturalScale(&w.state, []int{eq.Difference}, eq.Unknown.Dim)
	pieces := run.SearchPieces(scale, lo, hi)
	w.rule = w.newRule(s, eq)
	w.rule.Searched, w.bounds = true, bounds
	w.rule.Below, w.rule.Above = !math.IsInf(lo, 0), !math.IsInf(hi, 0)
	got := w.planner.Program.FindRoots(w.ctx, &w.state, eq.Difference, pieces)
	show := func(v float64) string {
		return units.FormatQuantity(u.FromSI(v), u, w.set.figures, w.set.rounding, units.Screen)
	}
	at := s.Unknowns[0].NameAt
	w.found.solution = &algebra.Solution{Steps: []algebra.Step{{Left: left, Right: right}}}
	lo, hi = pieces[0].Lo, pieces[0].Hi
	for _, x := range pieces {
		lo, hi = math.Min(lo, x.Lo), math.Max(hi, x.Hi)
	}
	w.find(finding.New(finding.Searched, at, "No rearrangement leads to "+w.found.unknown+"; it was searched for from "+show(lo)+" to "+
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
		slot := w.planner.Emit(run.Instr{Op: ops.Const, K: v}, eq.Unknown)
		w.CatchUp()
		if !w.satisfies(eq, slot) {
			continue
		}
		form := plan.Compiled{Slot: slot, Static: eq.Unknown}
		all = append(all, candidate{root: algebra.Root{X: w.asNumber(v, eq.Unknown)}, slot: slot, value: v, form: form})
	}
	w.searched = w.within(s, all)
}

// asNumber is a value as a written quantity in its SI unit.
func (w *work) asNumber(v float64, st run.Static) syntax.Expr {
	text := units.FormatQuantity(v, units.Coherent(st.Dim, st.Tag), units.Figures{N: 15}, units.HalfAway, units.File)
	x, fs := syntax.ParseExpr(text)
	if len(fs) > 0 {
		d, _ := units.ParseDecimal("0")
		return &syntax.Number{Value: d}
	}
	return x
}

// searchRange is between which bounds conditions leave a root, with the slots of
// the bounds that there are.
func (w *work) searchRange(s *syntax.Solve, c candidate) (lo, hi float64, bounds []run.Slot, ok bool) {
	lo, hi = math.Inf(-1), math.Inf(1)
	var low, high []run.Slot
	for _, cond := range s.Where {
		x, op := cond.Right, cond.Op
		n, ok := cond.Left.(*syntax.Name)
		if !ok || n.Name != w.found.unknown {
			if n, ok = cond.Right.(*syntax.Name); !ok || n.Name != w.found.unknown {
				continue
			}
			x, op = cond.Left, turned(op)
		}
		v, slot, ok := w.sideSlot(x, s, c)
		if !ok || slot == run.NoSlot {
			return lo, hi, nil, false
		}
		upper := op == syntax.Less || op == syntax.AtMost
		if upper && v < hi {
			hi, high = v, []run.Slot{slot}
		} else if !upper && v > lo {
			lo, low = v, []run.Slot{slot}
		}
	}
	return lo, hi, append(low, high...), true
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
