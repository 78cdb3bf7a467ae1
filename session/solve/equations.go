package solve

import (
	"slices"
	"strconv"
	"strings"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
	"steelyard/units"
)

// read finds the equations and what they are solved for.
//
// One equation may be asked for two of its roots, t1 and t2; several equations need as many
// unknowns, each of which stands in one of them at least.
func (v *solving) read() bool {
	if !v.single() && len(v.s.Equations) != len(v.s.Unknowns) {
		v.Find(v.unevenSystem())
		return false
	}
	if n := len(v.s.Unknowns); n > limit.Unknowns {
		v.Find(finding.New(finding.TooLong, v.s.Unknowns[limit.Unknowns].NameAt, "One solve finds at most "+strconv.Itoa(limit.Unknowns)+" unknowns; these are "+strconv.Itoa(n)+".",
			"Solve some of the equations first, and put in their results."))
		return false
	}
	for _, e := range v.s.Equations {
		sides, ok := v.sides(e)
		if !ok {
			return false
		}
		v.equations = append(v.equations, sides)
	}
	v.openSymbols()
	if v.single() {
		return v.oneUnknown()
	}
	for _, u := range v.s.Unknowns {
		v.unknowns = append(v.unknowns, u.Name)
		if !v.holds(u.Name) {
			v.Find(finding.New(finding.NotSolved, u.NameAt, u.Name+" isn't in any of the equations.", "Solve for names that are in them."))
			return false
		}
	}
	return true
}

// openSymbols writes out the functions of the equations where an unknown is a symbol without a
// value that only their bodies have: the τ of A(50 s) = 7° below A(t) = A0*exp(-t/τ).
func (v *solving) openSymbols() {
	for _, u := range v.s.Unknowns {
		if d, ok := v.Planner.Names.Lookup(u.Name); !ok || d.Kind != plan.Symbol || v.holds(u.Name) {
			continue
		}
		for i, e := range v.equations {
			v.equations[i] = algebra.Equation{Left: v.Opened(e.Left, v.Entry.Line, u.Name), Right: v.Opened(e.Right, v.Entry.Line, u.Name)}
		}
	}
}

// holds tells whether a name stands in an equation.
func (v *solving) holds(name string) bool {
	return slices.ContainsFunc(v.equations, func(e algebra.Equation) bool { return syntax.Holds(e.Left, name) || syntax.Holds(e.Right, name) })
}

// sides returns the sides of an equation with the values of its bindings in it; a
// formula's are those with its symbols bound.
//
// A with in a solve gives values for this line alone: for names of the equation, or for the
// symbols of the formula that is solved. The unknown can't be given, and a name that the
// equation has not would be without effect, which is told.
func (v *solving) sides(e syntax.Equation) (algebra.Equation, bool) {
	if e.Right != nil {
		with := map[string]syntax.Expr{}
		for _, b := range v.s.With {
			with[b.Name] = b.X
			switch {
			case v.s.Asks(b.Name):
				v.Find(finding.New(finding.WrongCall, b.NameAt, "This line looks for "+b.Name+", so "+b.Name+" can't have a value in it.", "Take it out after `with`."))
				return algebra.Equation{}, false
			case !slices.ContainsFunc(v.s.Equations, func(e syntax.Equation) bool {
				return syntax.Holds(e.Left, b.Name) || e.Right != nil && syntax.Holds(e.Right, b.Name)
			}):
				v.Find(finding.New(finding.WrongCall, b.NameAt, b.Name+" isn't in the equation.", "After `with` come names that are in it, with their values."))
				return algebra.Equation{}, false
			}
		}
		return v.filledIn(e, with)
	}
	n := e.Left.(*syntax.Name)
	f, ok := v.Formula(n.Name)
	if !ok {
		v.Find(finding.New(finding.UnknownName, n.At, "There is no formula called "+n.Name+".", "`help formulas` lists them; an equation needs a left and a right side."))
		return algebra.Equation{}, false
	}
	bound, ok := v.symbols(f)
	if !ok {
		return algebra.Equation{}, false
	}
	if missing, some := v.missingSymbols(f, bound, n.At); some {
		v.Find(missing)
		return algebra.Equation{}, false
	}
	if !v.symbolsFit(f, bound, n.At) {
		return algebra.Equation{}, false
	}
	return v.filledIn(syntax.Equation{Left: syntax.Unplaced(f.Left), Right: syntax.Unplaced(f.Right)}, bound)
}

// filledIn is an equation with what stands for its names in it, and for the components of those.
func (v *solving) filledIn(e syntax.Equation, by map[string]syntax.Expr) (algebra.Equation, bool) {
	if !v.OpensParts(e.Left, by, v.Entry.Line) || !v.OpensParts(e.Right, by, v.Entry.Line) {
		v.Find(finding.New(finding.NotSolved, v.s.Unknowns[0].NameAt, "The equation has a component of a vector that is worked out in this line.", "Give that vector its value in a line above."))
		return algebra.Equation{}, false
	}
	return algebra.Equation{Left: algebra.Substitute(e.Left, by), Right: algebra.Substitute(e.Right, by)}, true
}

// symbols are what the symbols of a formula stand for, as far as the statement or
// a default says.
//
// A default of a formula, such as 0° for an angle, counts only where the page has no such name:
// a θ that was given is the θ that is meant.
func (v *solving) symbols(f *syntax.FormulaDef) (map[string]syntax.Expr, bool) {
	bound := map[string]syntax.Expr{}
	for _, b := range v.s.With {
		if !f.Has(b.Name) {
			v.Find(finding.New(finding.WrongCall, b.NameAt, f.Name+" has no symbol "+b.Name+".", "`help "+f.Name+"` lists its symbols."))
			return nil, false
		}
		bound[b.Name] = b.X
	}
	for _, sym := range f.Symbols {
		if _, given := bound[sym.Name]; given || sym.Default == nil || v.s.Asks(sym.Name) {
			continue
		}
		if _, known := v.Planner.Names.Lookup(sym.Name); !known {
			bound[sym.Name] = syntax.Unplaced(sym.Default)
		}
	}
	return bound, true
}

// symbolsFit checks what a formula's symbols stand for against the units that
// it declares.
//
// k in N/m is declared by the formula: a name k of the page that is a mass is told here, before
// it makes a mismatch somewhere in the middle of the rearranged equation.
func (v *solving) symbolsFit(f *syntax.FormulaDef, bound map[string]syntax.Expr, at syntax.Span) bool {
	good := true
	for _, sym := range f.Symbols {
		x, ok := bound[sym.Name]
		if _, known := v.Planner.Names.Lookup(sym.Name); v.s.Asks(sym.Name) || !ok && !known {
			continue
		}
		if !ok {
			x = &syntax.Name{Name: sym.Name}
		}
		c := v.Eval(x, eval.Want{Silent: true})
		want := v.Unit(sym.Unit)
		if c.Slot == run.NoSlot || want == nil {
			continue
		}
		if st := v.Planner.SettleTo(c.Slot, want.Dim()); st.Dim != want.Dim() {
			place := at
			if ok && x.Span().To > 0 {
				place = x.Span()
			}
			v.Find(finding.New(finding.FormulaArgument, place, "In "+f.Name+", "+sym.Name+" is in "+want.Screen()+"; here it is "+plan.Words(st)+".",
				"For another value, add `with "+sym.Name+" = …`."))
			good = false
		}
	}
	return good
}

// oneUnknown finds the name that one equation is solved for. Where two names such
// as t1 and t2 are asked, that is their letter.
//
// for t1, t2 asks for two roots of t. A name that is not in the equation may be another symbol
// of the formula, or what a line above was worked out from: both are told with the line to
// write.
func (v *solving) oneUnknown() bool {
	s, first := v.s, v.s.Unknowns[0]
	if v.holds(first.Name) {
		if len(s.Unknowns) == 1 {
			v.unknowns = []string{first.Name}
			return true
		}
	}
	if len(s.Unknowns) > 1 {
		for _, base := range []string{strings.TrimSuffix(first.Name, "1"), units.Symbol(first.Name)} {
			if base != first.Name && v.holds(base) {
				v.unknowns = []string{base}
				return true
			}
		}
		v.Find(finding.New(finding.NotSolved, s.Unknowns[1].NameAt, "One equation finds one unknown.",
			"For two roots of t, write `for t1, t2`. Two unknowns need two equations: "+togetherForm+"."))
		return false
	}
	if n, ok := s.Equations[0].Left.(*syntax.Name); ok && s.Equations[0].Right == nil {
		if f, ok := v.Formula(n.Name); ok {
			v.Find(v.notInFormula(f))
			return false
		}
	}
	f, ok := v.through()
	if !ok {
		f = finding.New(finding.NotSolved, first.NameAt, first.Name+" isn't in the equation.", "Solve for a name that is in it.")
	}
	v.Find(f)
	return false
}
