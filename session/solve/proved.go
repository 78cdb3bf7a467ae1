package solve

import (
	"math"
	"slices"

	"steelyard/lang/algebra"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
	"steelyard/units"
	"steelyard/units/each"
)

// provedNone tells whether a root without a real value proves that it is none,
// however many turns are added: nothing repeats with a turn, or there is no such
// angle to begin with. The logarithm to a base that is not positive proves nothing:
// (-2)^x is 4 for 2. That of 0 alone does: no exponential is 0.
//
// The root of a negative number proves it, as a square is never negative. So does the arc sine
// of more than 1, unless the angle is one of several in the root: another turn of one may bring
// the other into reach.
func (v *solving) provedNone(r algebra.Root, failed run.Failure) bool {
	for b := range syntax.Each[*syntax.Binary](r.X...) {
		if b.Op != syntax.Div {
			continue
		}
		if base, ok := ofLogarithm(b.Y); ok {
			_, power := ofLogarithm(b.X)
			if at := v.Try(base).Value; !(at > 0) && (power || at != 0) {
				return false
			}
		}
	}
	if !v.rearranged.Repeats {
		return true
	}
	angles := 0
	for c := range syntax.Each[*syntax.Call](r.X...) {
		if c.Func == "asin" || c.Func == "acos" {
			angles++
		}
	}
	op := v.Planner.Program.Main.Instrs[failed.Slot].Op
	return angles == 1 && failed.Func == nil && (op == ops.Asin || op == ops.Acos)
}

// ofLogarithm is what a natural logarithm is taken of.
func ofLogarithm(x syntax.Expr) (of syntax.Expr, ok bool) {
	c, ok := syntax.Unbracket(x).(*syntax.Call)
	if !ok || c.Func != "ln" {
		return nil, false
	}
	return c.Args[0].X, true
}

// sure is how many times its own size a solution may be added up from for a side
// that has no value there to tell that it is none.
const sure = 1e3

// satisfies puts values of the unknowns back into the equations, and tells else
// whether a side has no value there.
//
// Every solution is put back, also those in symbols: a root that a squaring has brought in, or
// a rule of ours that is wrong, is caught here, and never shown.
func (v *solving) satisfies(one solution) (good, lacks bool) {
	if v.absent {
		return v.satisfiesAnyway(one), false
	}
	return v.Planner.Program.PutBack(&v.State, v.rule, one.candidate())
}

// misses tells whether no number as near to a solution in symbols as it may be off
// satisfies the equation. A whole number is off by nothing; but where it fits within the
// error of the equation, as decimals are rounded (7·1 - 7.9 is not quite -0.9), that alone
// can't prove that it is none.
//
// By intervals round the solution, as wide as its error may be: if no number there satisfies
// the equation, it is none, however small what is left over looks.
func (v *solving) misses(one solution, fits bool) bool {
	if !v.single() || v.absent {
		return false
	}
	around := one.candidate()
	if !fits {
		around = one.exactly()
	}
	return !(fits && around.Size == 0) && v.Planner.Program.Misses(&v.State, v.rule, around)
}

// begins tells whether the equation has values beside a solution in symbols, though none
// at it as far as numbers go, which leave nothing of a part of it.
//
// √(x - 3) = 0 has its solution at the very edge of where the equation has values: rounding may
// put it just outside.
func (v *solving) begins(one solution) bool {
	return v.single() && !v.absent && v.swallows(one.root.X[0], one.values[0]) && v.Planner.Program.Begins(&v.State, v.rule, one.candidate())
}

// lostPart is the part of a number of which numbers leave a digit at most.
const lostPart = 0x1p-49

// swallows tells whether nothing is left of a part of an expression in its value: twice as
// much of it would be the same, as of exp(-50) in 3 + exp(-50). So it is with a fraction of
// many figures.
func (v *solving) swallows(x syntax.Expr, value float64) bool {
	two, _ := syntax.ParseExpr("2")
	for part := range syntax.Nodes(x) {
		if fraction, ok := part.(*syntax.Binary); ok && fraction.Op == syntax.Div && syntax.IsNumber(fraction.X) && syntax.IsNumber(fraction.Y) {
			if syntax.Rational(fraction).Lost() {
				return true
			}
			continue
		}
		if v.Try(part).Value == 0 {
			continue
		}
		twice := v.Try(syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
			return &syntax.Paren{X: &syntax.Binary{Op: syntax.Mul, X: two, Y: &syntax.Paren{X: x}}}, x == part
		}))
		if twice.OK && math.Abs(twice.Value-value) < lostPart*math.Abs(value) {
			return true
		}
	}
	return false
}

// rooted tells whether an even root of an unknown stands in the equations, so that solutions
// may be lost in symbols.
func (v *solving) rooted() bool {
	return slices.ContainsFunc(v.opened, func(e algebra.Equation) bool { return e.Rooted(v.unknowns) })
}

// dividedByZero tells whether what was divided by, to put an unknown of a system into the other
// equations, is 0 with these givens: solutions may be lost then.
func (v *solving) dividedByZero() bool {
	return v.rearranged != nil && slices.ContainsFunc(v.rearranged.NotZero, func(x syntax.Expr) bool {
		by := v.Try(x)
		return !by.OK || by.Value == 0
	})
}

// alone tells whether the equations of a system that are left with one unknown each, when the
// others are put in, are proved to have no solution: the system has none then.
//
// Of √x + y = 1 and x - y = 9 the equation √x + x - 9 = 1 is left. It is searched as any that
// is written by itself.
func (v *solving) alone() bool {
	if v.rearranged == nil || v.absent || v.dividedByZero() {
		return false
	}
	none := func(e algebra.Alone) bool {
		st := v.statics[slices.Index(v.unknowns, e.Unknown)]
		got := v.Function(eval.Want{Silent: true}, []string{e.Unknown}, []run.Static{st}, algebra.Sizes(e.Left), algebra.Sizes(e.Right))
		if !got.OK || got.Static.Absent {
			return false
		}
		v.CatchUp()
		p, rule := v.Planner.Program, &run.Solve{Differences: []int{got.Fn}, Dims: []units.Dim{st.Dim}}
		out := p.FindRoots(&v.State, rule, p.NaturalScale(&v.State, rule.Differences, st.Dim), math.Inf(-1), math.Inf(1))
		return out.Whole && len(out.Found) == 0 && len(out.Stretches) == 0
	}
	return len(v.rearranged.Alone) > 0 && !slices.ContainsFunc(v.rearranged.Alone, func(e algebra.Alone) bool { return !none(e) })
}

// varies tells whether an unknown stands in an expression.
func (v *solving) varies(x syntax.Expr) bool {
	return slices.ContainsFunc(v.unknowns, func(name string) bool { return syntax.Holds(x, name) })
}

// exactly is candidate, but for a whole number: that is off by nothing.
//
// 2 is 2, and no number near it is meant.
func (one solution) exactly() run.Candidate {
	if syntax.Rational(one.root.X[0]).IsInt() {
		return run.Candidate{X: one.values}
	}
	return one.candidate()
}

// candidate is what a solution is put back as.
func (one solution) candidate() run.Candidate { return run.Candidate{X: one.values, Size: one.size} }

// allowed keeps the solutions that the conditions allow, in rising order.
func (v *solving) allowed(all []solution) []solution {
	if len(all) == 0 || v.single() && !v.bounds().ok {
		return nil
	}
	var kept []solution
	for _, i := range v.Planner.Program.Allowed(&v.State, v.rule, each.Of(all, solution.candidate)) {
		kept = append(kept, all[i])
	}
	return kept
}

func valuesOf(all []solution) [][]float64 {
	x := make([][]float64, len(all))
	for i, s := range all {
		x[i] = s.values
	}
	return x
}
