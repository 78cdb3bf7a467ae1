package solve

import (
	"math"
	"strconv"

	"steelyard/lang/algebra"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
)

// byElimination is the one solution of linear equations that has not been found in
// symbols. Its working is what the equations leave for each unknown, in numbers.
//
// With many unknowns the formula of each in symbols is longer than a page; a reader follows the
// numbers of the elimination.
func (v *solving) byElimination() []solution {
	v.again, v.rule.Searched, v.args, v.how = true, true, nil, "put the others in"
	one := v.searched(v.linear.X)
	for i := range v.linear.Rows {
		one.root.Steps = append(one.root.Steps, v.left(i))
	}
	return v.allowed([]solution{one})
}

// left is what the equations leave for an unknown, once those before it are put in.
//
// Gauss's elimination from the last unknown up, as it is done by hand: y = 3, and with that x =
// 2*y - 1.
func (v *solving) left(i int) algebra.Step {
	reason := "equation " + strconv.Itoa(v.linear.From[i]+1)
	if i > 0 {
		reason += ", with those above put in"
	}
	row, n := v.linear.Rows[i], len(v.unknowns)
	var sum syntax.Expr
	if row[n] != 0 {
		sum = asNumber(row[n], v.statics[i], shownFigures)
	}
	for k := i + 1; k < n; k++ {
		if row[k] != 0 {
			sum = less(sum, row[k], v.multiple(i, k, math.Abs(row[k])))
		}
	}
	if sum == nil {
		sum = asNumber(0, v.statics[i], shownFigures)
	}
	return algebra.Step{Left: &syntax.Name{Name: v.unknowns[i]}, Right: sum, Reason: algebra.Reason(reason)}
}

// shownFigures is to how many figures numbers are shown in a working.
const shownFigures = 6

// multiple is so many of an unknown as are a part of another.
//
// The number has the unit that makes both sides of one kind: (2 m/s)*t.
func (v *solving) multiple(of, k int, many float64) syntax.Expr {
	d := v.statics[of].Dim.Div(v.statics[k].Dim)
	name := &syntax.Name{Name: v.unknowns[k]}
	if many == 1 && d.IsOne() {
		return name
	}
	return &syntax.Binary{Op: syntax.Mul, X: asNumber(many, run.Static{Dim: d}, shownFigures), Y: name}
}

// less takes a term from a sum, or adds it where its sign says so.
func less(sum syntax.Expr, sign float64, term syntax.Expr) syntax.Expr {
	op := syntax.Sub
	if sign < 0 {
		op = syntax.Add
	}
	switch {
	case sum != nil:
		return &syntax.Binary{Op: op, X: sum, Y: term}
	case op == syntax.Sub:
		return &syntax.Unary{Op: op, X: term}
	}
	return term
}
