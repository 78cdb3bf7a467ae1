package solve

import (
	"math"
	"slices"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
)

// conditions plans the conditions as functions of the unknowns. Those of a single
// unknown that can't be planned are reported as bounds.
//
// Each becomes a function of the unknowns, its left side less its right: the rule that chooses
// asks for its sign, with whatever numbers the page has then.
func (v *solving) conditions() []run.Condition {
	by := map[string]syntax.Expr{}
	if v.single() {
		for _, u := range v.s.Unknowns {
			by[u.Name] = &syntax.Name{Name: v.unknowns[0]}
		}
	}
	var out []run.Condition
	for _, c := range v.s.Where {
		if v.comparesRoots(c) {
			at := syntax.Span{From: c.Left.Span().From, To: c.Right.Span().To}
			v.Find(finding.New(finding.WhichRoot, at, "The names come in rising order already, so a condition can't compare them.", "Take this condition out."))
			continue
		}
		got := v.Function(eval.Want{Silent: true}, v.unknowns, v.statics, algebra.Substitute(c.Left, by), algebra.Substitute(c.Right, by))
		further := !v.single() || v.further(c)
		if further {
			v.Find(got.Findings...)
		}
		if !got.OK || got.Static.Absent {
			continue
		}
		out = append(out, run.Condition{Difference: got.Fn, Op: c.Op, OfUnknown: !further})
	}
	return out
}

// comparesRoots tells whether a condition speaks of two roots of one equation; each root
// by itself has to satisfy it.
//
// Of for t1, t2 where t1 < t2 nothing is left to say: the roots are in rising order.
func (v *solving) comparesRoots(c syntax.Condition) bool {
	asked := 0
	for _, u := range v.s.Unknowns {
		if syntax.Holds(c.Left, u.Name) || syntax.Holds(c.Right, u.Name) {
			asked++
		}
	}
	return v.single() && asked > 1
}

// limits are between which values conditions leave one unknown.
type limits struct {
	lo, hi float64
	// slots holds the lower and the upper bound, as far as there are any.
	slots []run.Slot
	// ok tells that every bound can be compared with the unknown.
	ok bool
}

// bounds works the conditions on one unknown out, once.
//
// where 0 s < t < 5 s leaves from 0 s to 5 s. Of several bounds on a side the closer one
// counts. They bound what is searched, and how many turns of an angle are listed.
func (v *solving) bounds() *limits {
	if v.limits != nil {
		return v.limits
	}
	l := &limits{lo: math.Inf(-1), hi: math.Inf(1)}
	v.limits = l
	var low, high []run.Slot
	for _, cond := range v.s.Where {
		if v.further(cond) {
			continue
		}
		for _, x := range []syntax.Expr{cond.Left, cond.Right} {
			if v.isAsked(x) {
				continue
			}
			at, slot, ok := v.bound(x)
			if !ok {
				return l
			}
			switch with, upper := v.bounding(cond); {
			case with != x:
			case upper && at < l.hi:
				l.hi, high = at, []run.Slot{slot}
			case !upper && at > l.lo:
				l.lo, low = at, []run.Slot{slot}
			}
		}
	}
	l.slots, l.ok = append(low, high...), true
	return l
}

// isAsked tells whether an expression is the unknown, or one of its roots.
func (v *solving) isAsked(x syntax.Expr) bool {
	n, ok := x.(*syntax.Name)
	return ok && (v.s.Asks(n.Name) || n.Name == v.unknowns[0])
}

// further tells whether a condition is on more than the size of the unknown: it stands
// within an expression, as in x^2 < 5. Each solution is asked whether it satisfies it,
// and nothing follows for where to look.
//
// where x^2 < 5 m^2 leaves two roots out of four, and no bound for a search.
func (v *solving) further(c syntax.Condition) bool {
	return slices.ContainsFunc([]syntax.Expr{c.Left, c.Right}, func(x syntax.Expr) bool {
		return !v.isAsked(x) && syntax.Any(x, v.isAsked)
	})
}

// bound works out what the unknown is compared with.
//
// The bound must have the dimension of the unknown; a bare 0 gets it from there.
func (v *solving) bound(x syntax.Expr) (float64, run.Slot, bool) {
	at := v.Eval(x, eval.Want{Silent: true})
	v.Find(at.Findings...)
	if at.Slot == run.NoSlot || !v.HasValue(at.Slot) {
		return 0, run.NoSlot, false
	}
	v.Uses(at.Uses, x.Span())
	want := v.statics[0]
	if v.families != nil {
		want.Tag = v.families.static.Tag
	}
	if len(v.args) > 0 && !v.rule.Searched {
		want = v.Planner.Static(v.args[0]) // an arc cosine is an angle
	}
	if st := v.Planner.SettleTo(at.Slot, want.Dim); st.Dim != want.Dim {
		name := v.unknowns[0]
		v.Find(finding.New(finding.UnlikeDimensions, x.Span(), "This limit is "+plan.Words(st)+"; "+name+" is "+plan.Words(want)+".", "Write the limit in a unit of "+name+"."))
		return 0, run.NoSlot, false
	}
	return v.State.At(at.Slot), at.Slot, true
}

// bounding is what a condition compares the unknown itself with, or nil, and
// whether the unknown is bounded from above.
func (v *solving) bounding(c syntax.Condition) (with syntax.Expr, upper bool) {
	less := c.Op == syntax.Less || c.Op == syntax.AtMost
	if n, ok := c.Left.(*syntax.Name); ok && n.Name == v.unknowns[0] {
		return c.Right, less
	}
	if n, ok := c.Right.(*syntax.Name); ok && n.Name == v.unknowns[0] {
		return c.Left, !less
	}
	return nil, false
}
