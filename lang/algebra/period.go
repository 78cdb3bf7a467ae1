package algebra

import (
	"math/big"

	"steelyard/lang/syntax"
)

// Period is a distance after which both sides of an equation are the same again,
// whatever the unknown: it stands only in sines, cosines and tangents, of lines whose
// slopes are whole multiples of one. The period may be a multiple of the shortest.
// It returns false where there is none.
//
// sin(2·x) + cos(3·x) comes again after 2π, since 2 and 3 are multiples of 1; sin(x) +
// sin(π·x) never does, for no number has both 1 and π as whole multiples.
//
// A search goes through one period then, and the roots of all others are known: that
// is a proof that none was missed, which no search of a range is.
func (eq Equation) Period(unknown string) (period syntax.Expr, ok bool) {
	n := normalizer{unknown: unknown}
	var steps []sum // of each angle by the unknown
	ok = true
	for _, side := range []syntax.Expr{eq.Left, eq.Right} {
		syntax.Walk(side, func(x syntax.Expr) bool {
			c, called := x.(*syntax.Call)
			switch {
			case isName(x, unknown):
				ok = false
			case called && len(c.Args) == 1 && (c.Func == "sin" || c.Func == "cos" || c.Func == "tan"):
				if step, line := n.stepOf(c.Args[0].X); line {
					steps = append(steps, step)
					return false
				}
			}
			return ok
		})
	}
	if !ok || len(steps) == 0 {
		return nil, false
	}
	unit := new(big.Rat)
	for _, step := range steps {
		by, ok := step.multipleOf(steps[0])
		if !ok {
			return nil, false
		}
		unit = gcdRat(unit, by)
	}
	turn := times(numberExpr(big.NewRat(2, 1)), &syntax.Pi{})
	return gathered(binary(syntax.Div, turn, sumExpr(steps[0].by(term{coef: unit})))), true
}

// stepOf is by how much a line in the unknown grows with it; false for any other
// expression.
func (n normalizer) stepOf(x syntax.Expr) (sum, bool) {
	_, with := n.apart(n.sum(x))
	return n.slopeOf(with)
}

// slopeOf is stepOf for terms that all hold the unknown.
func (n normalizer) slopeOf(with sum) (sum, bool) {
	step := make(sum, len(with))
	for i, t := range with {
		step[i] = t.without(n.unknown)
		if t.exponentOf(n.unknown) != expOne || n.inTerm(step[i]) {
			return nil, false
		}
	}
	return step, len(step) > 0
}
