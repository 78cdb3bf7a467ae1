package lab

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"steelyard/lang/algebra"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// mostMeanings is how many formulas are named that a slope may come from.
const mostMeanings = 2

// meanings reads the slope by the formulas that have both quantities: T^2 against m is
// straight by T = 2π√(m/k), with the slope 4π²/k.
//
// The quantity that the slope gives is told only of a plot that is fitted.
func (f *fitting) meanings(slope entry.Value, fitted bool) []entry.Said {
	y, x := oneName(f.s.Y), oneName(f.s.X)
	if y == "" || x == "" || y == x {
		return nil
	}
	var out []entry.Said
	for _, name := range f.FormulaNames() {
		def, ok := f.Formula(name)
		if !ok || len(out) == mostMeanings || !f.Spend(1000) {
			continue
		}
		if said := f.meaning(def, y, x, slope, fitted); said != nil && !slices.ContainsFunc(out, said.Same) {
			out = append(out, said)
		}
	}
	return out
}

// oneName is the only name in an expression; empty if there is another, or none.
func oneName(x syntax.Expr) string {
	name := ""
	for x := range syntax.Nodes(x) {
		switch x := x.(type) {
		case *syntax.Name:
			if name != "" && name != x.Name {
				return ""
			}
			name = x.Name
		case *syntax.List, syntax.Derived:
			return ""
		}
	}
	return name
}

// meaning reads the slope by one formula; nil where that does not make y go as x.
func (f *fitting) meaning(def *syntax.FormulaDef, y, x string, slope entry.Value, fitted bool) entry.Said {
	var others []syntax.FormulaSymbol
	both := 0
	for _, s := range def.Symbols {
		if s.Name != y && s.Name != x {
			others = append(others, s)
			continue
		}
		both++
		unit, d := f.Unit(s.Unit), f.dimOf(s.Name)
		if d == nil || unit == nil && !d.IsOne() || unit != nil && unit.Dim() != *d {
			return nil
		}
	}
	if both < 2 || len(others) == 0 {
		return nil
	}
	c, ok := f.coefficient(def, y, x)
	if !ok || f.contradicts(c, slope) {
		return nil
	}
	said := entry.Say("slope = … by …", entry.Math(c), entry.Words(strings.ReplaceAll(def.Name, "_", " ")))
	unknown, ok := f.unknown(others)
	if !ok || !fitted {
		return said
	}
	value, off, ok := f.solved(c, unknown, slope)
	if ok && value <= 0 {
		return nil // a formula of the other sign
	}
	if ok {
		if unit := f.shownIn(unknown); unit != nil {
			v := f.ValueIn(value, unit)
			v.U, v.UFigures = off, 2
			said = said.And(", so … = …", entry.Name(unknown.Name), v.Said())
		}
	}
	return said
}

// dimOf is the dimension of a quantity of the page, or nil.
func (f *fitting) dimOf(name string) *units.Dim {
	d, ok := f.Planner.Find(&syntax.Name{Name: name})
	if !ok || d.Failed() {
		return nil
	}
	dim := f.Planner.Static(d.Slot).Dim
	return &dim
}

// coefficient is what x is multiplied by to make y, by a formula.
func (f *fitting) coefficient(def *syntax.FormulaDef, y, x string) (syntax.Expr, bool) {
	roots, ok := algebra.Solve(f.State.Budget, []algebra.Equation{{Left: def.Left, Right: def.Right}}, []string{y}, algebra.Turns{})
	if !ok || len(roots.Roots) == 0 || len(roots.Roots[0].X) == 0 {
		return nil, false
	}
	root := roots.Roots[len(roots.Roots)-1].X[0]
	slope, ok := algebra.Slope(algebra.Substitute(f.s.Y, map[string]syntax.Expr{y: root}), f.s.X, x)
	return slope, ok && !syntax.Holds(slope, y)
}

// surelyOther is how many standard uncertainties a slope lies off a number that it is not.
const surelyOther = 3

// contradicts tells whether a slope is to be a number, as the power of what goes as a power
// of another, and is not.
func (f *fitting) contradicts(c syntax.Expr, slope entry.Value) bool {
	if syntax.Has[*syntax.Name](c) {
		return false
	}
	got := f.Try(c)
	return !got.OK || math.Abs(got.Value-slope.SI) > float64(surelyOther*slope.U)
}

// unknown is the one symbol that the slope gives: the only one, or the only one without
// a value on the page.
func (f *fitting) unknown(others []syntax.FormulaSymbol) (syntax.FormulaSymbol, bool) {
	if len(others) == 1 {
		return others[0], true
	}
	var free []syntax.FormulaSymbol
	for _, s := range others {
		if d, ok := f.Planner.Names.Lookup(s.Name); (!ok || d.Failed()) && s.Name != "g" {
			free = append(free, s)
		}
	}
	if len(free) != 1 {
		return syntax.FormulaSymbol{}, false
	}
	return free[0], true
}

// solved is the value of a symbol that makes the slope what it is, and how far the
// uncertainty of the slope moves it.
func (f *fitting) solved(c syntax.Expr, of syntax.FormulaSymbol, slope entry.Value) (value, off float64, ok bool) {
	const name = "slope_fitted"
	roots, ok := algebra.Solve(f.State.Budget, []algebra.Equation{{Left: &syntax.Name{Name: name}, Right: c}}, []string{of.Name}, algebra.Turns{})
	if !ok || len(roots.Roots) != 1 {
		return 0, 0, false
	}
	at := func(v float64) (float64, bool) {
		si := units.Preferred(slope.Dim, slope.Tag)
		x, bad := syntax.ParseExpr(strconv.FormatFloat(v, 'g', -1, 64) + " " + si.Behind(units.File))
		if len(bad) > 0 {
			return 0, false
		}
		got := f.Eval(algebra.Substitute(roots.Roots[0].X[0], map[string]syntax.Expr{name: &syntax.Paren{X: x}}), eval.Want{Silent: true, Trial: true})
		return got.Value, got.OK
	}
	value, ok1 := at(slope.SI)
	up, ok2 := at(slope.SI + slope.U)
	down, ok3 := at(slope.SI - slope.U)
	return value, math.Abs(up-down) / 2, ok1 && ok2 && ok3
}

// shownIn is the unit that a formula declares for a symbol.
func (f *fitting) shownIn(s syntax.FormulaSymbol) *units.Unit {
	if u := f.Unit(s.Unit); u != nil && !u.Affine() {
		return u
	}
	return nil
}
