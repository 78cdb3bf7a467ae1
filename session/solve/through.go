package solve

import (
	"strconv"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
)

// mostThrough is through how many lines an unknown is looked for.
const mostThrough = 8

// through says of an equation in a result that was worked out from the unknown by lines
// above, as A = 1.5 for n below A = 2*n, which line gave it, and offers the equation
// with what those lines say in its place.
//
// A pupil who has worked A out from n wants to go back from another A. The equation with what A
// was made of in its place says what must be solved; no line is changed by it.
func (v *solving) through() (finding.Finding, bool) {
	first, e := v.s.Unknowns[0], v.s.Equations[0]
	if len(v.s.Unknowns) > 1 || e.Right == nil {
		return finding.Finding{}, false
	}
	full := algebra.Equation{Left: e.Left, Right: e.Right}
	var result *plan.Def
	for range mostThrough {
		by := map[string]syntax.Expr{}
		for n := range syntax.Each[*syntax.Name](full.Left, full.Right) {
			if n.Line != 0 || n.Name == first.Name || len(v.Planner.WorkedOutFrom(first.Name, n)) == 0 {
				continue
			}
			if d, right := v.rightSide(n.Name); right != nil {
				by[n.Name] = &syntax.Paren{X: right}
				if result == nil {
					result = d
				}
			}
		}
		if len(by) == 0 {
			return finding.Finding{}, false
		}
		full = algebra.Equation{Left: algebra.Substitute(full.Left, by), Right: algebra.Substitute(full.Right, by)}
		if syntax.Holds(full.Left, first.Name) || syntax.Holds(full.Right, first.Name) {
			text := syntax.PrintExpr(syntax.Unbracket(full.Left)) + " = " + syntax.PrintExpr(syntax.Unbracket(full.Right))
			at := syntax.Span{From: e.Left.Span().From, To: e.Right.Span().To}
			return finding.New(finding.NotSolved, at, first.Name+" isn't in the equation: "+result.Name+" is the result of line "+strconv.Itoa(result.Line)+", which was worked out from "+first.Name+".",
				"In place of "+result.Name+", write what it is made of.", text), true
		}
	}
	return finding.Finding{}, false
}

// rightSide is what the line says a result is.
func (v *solving) rightSide(name string) (*plan.Def, syntax.Expr) {
	if d, ok := v.Planner.Names.Lookup(name); ok {
		if s := v.DefineOf(d); s != nil && s.Name == name {
			return d, s.X
		}
	}
	return nil, nil
}
