package session

import (
	"slices"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// maxOpened bounds how deep functions within functions are opened.
const maxOpened = 8

// equation returns the sides of the equation; a formula's are those with its
// symbols bound.
func (w *work) equation(s *syntax.Solve) (left, right syntax.Expr, ok bool) {
	e := s.Equations[0]
	if e.Right != nil {
		if len(s.With) > 0 {
			w.find(finding.New(finding.WrongCall, s.With[0].NameAt, "with gives the symbols of a formula; this is an equation.", "Write the values into the equation."))
			return nil, nil, false
		}
		return e.Left, e.Right, true
	}
	n := e.Left.(*syntax.Name)
	f, ok := w.Formula(n.Name)
	if !ok {
		w.find(finding.New(finding.UnknownName, n.At, "There is no formula called "+n.Name+".", "`help formulas` lists them; an equation has a left and a right side."))
		return nil, nil, false
	}
	bound := map[string]syntax.Expr{}
	for _, b := range s.With {
		if !isSymbol(f, b.Name) {
			w.find(finding.New(finding.WrongCall, b.NameAt, f.Name+" has no symbol "+b.Name+".", "`help "+f.Name+"` lists its symbols."))
			return nil, nil, false
		}
		bound[b.Name] = b.X
	}
	for _, sym := range f.Symbols {
		if _, given := bound[sym.Name]; given || sym.Default == nil || isUnknown(s, sym.Name) {
			continue
		}
		if _, known := w.planner.Names.Lookup(sym.Name); !known {
			bound[sym.Name] = syntax.Unplaced(sym.Default)
		}
	}
	if missing, some := w.missingSymbols(s, f, bound, n.At); some {
		w.find(missing)
		return nil, nil, false
	}
	if !w.symbolsFit(s, f, bound, n.At) {
		return nil, nil, false
	}
	return algebra.Substitute(syntax.Unplaced(f.Left), bound), algebra.Substitute(syntax.Unplaced(f.Right), bound), true
}

// symbolsFit checks what a formula's symbols stand for against the units that
// it declares.
func (w *work) symbolsFit(s *syntax.Solve, f *syntax.FormulaDef, bound map[string]syntax.Expr, at syntax.Span) bool {
	good := true
	for _, sym := range f.Symbols {
		x, ok := bound[sym.Name]
		if _, known := w.planner.Names.Lookup(sym.Name); isUnknown(s, sym.Name) || !ok && !known {
			continue
		}
		if !ok {
			x = &syntax.Name{Name: sym.Name}
		}
		c := w.planner.Compile(x, w.e.Text, "")
		want, bad := w.planner.Unit(sym.Unit, units.AloneInPlace)
		if c.Slot == run.NoSlot || bad != nil {
			continue
		}
		if st := w.planner.SettleTo(c.Slot, want.Dim()); st.Dim != want.Dim() {
			place := at
			if ok && x.Span().To > 0 {
				place = x.Span()
			}
			w.find(finding.New(finding.FormulaArgument, place, sym.Name+" wants "+want.Screen()+"; here it is "+plan.Words(st)+".",
				f.Name+" takes "+sym.Name+" in "+want.Screen()+"; `with "+sym.Name+" = …` gives it another value."))
			good = false
		}
	}
	return good
}

// opened writes out the calls of formulas and of functions of the worksheet, so
// that an unknown among their arguments can be reached.
func (w *work) opened(x syntax.Expr, depth int) syntax.Expr {
	return w.openedAt(x, w.e.Line, depth)
}

// openedAt is opened as the line of a worksheet sees its functions.
func (w *work) openedAt(x syntax.Expr, line, depth int) syntax.Expr {
	if depth > maxOpened {
		return x
	}
	return syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
		c, ok := x.(*syntax.Call)
		if !ok || ops.IsFunction(c.Func) {
			return nil, false
		}
		if d := w.above(c.Func, line); d != nil && d.Kind == plan.Function {
			if d.Func.X == nil || len(d.Func.Params) != len(c.Args) {
				return nil, false
			}
			by := map[string]syntax.Expr{}
			for i, p := range d.Func.Params {
				by[p] = w.openedAt(c.Args[i].X, line, depth+1)
			}
			// The body sees the functions above its own line.
			body := w.openedAt(syntax.Unplaced(d.Func.X), d.Line, depth+1)
			return &syntax.Paren{X: algebra.Substitute(w.pinned(body, d, line), by)}, true
		}
		f, ok := w.Formula(c.Func)
		if !ok {
			return nil, false
		}
		by := arguments(c, f)
		for name, a := range by {
			by[name] = w.openedAt(a, line, depth+1)
		}
		return &syntax.Paren{X: algebra.Substitute(syntax.Unplaced(f.Right), by)}, true
	})
}

// pinned is the body of a function as another line reads it: a name that has been
// given anew since stands with the line that it had for the function.
func (w *work) pinned(x syntax.Expr, d *plan.Def, line int) syntax.Expr {
	return syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
		n, ok := x.(*syntax.Name)
		if !ok || n.Line != 0 || slices.Contains(d.Func.Params, n.Name) {
			return nil, false
		}
		then, now := w.above(n.Name, d.Line), w.above(n.Name, line)
		if then == nil || then == now || then.Line == 0 {
			return nil, false
		}
		return &syntax.Name{At: n.At, Name: n.Name, Line: then.Line}, true
	})
}

func isSymbol(f *syntax.FormulaDef, name string) bool {
	for _, s := range f.Symbols {
		if s.Name == name {
			return true
		}
	}
	return name == "g"
}

func isUnknown(s *syntax.Solve, name string) bool {
	for _, u := range s.Unknowns {
		if u.Name == name {
			return true
		}
	}
	return false
}

// unknown returns the name that the equation is solved for. Where two names
// such as t1 and t2 are asked, that is their letter.
func (w *work) unknown(s *syntax.Solve, left, right syntax.Expr) (string, bool) {
	first := s.Unknowns[0]
	if usesName(left, first.Name) || usesName(right, first.Name) {
		if len(s.Unknowns) == 1 {
			return first.Name, true
		}
	} else if base := stem(first.Name); len(s.Unknowns) > 1 && (usesName(left, base) || usesName(right, base)) {
		return base, true
	}
	if len(s.Unknowns) > 1 {
		w.find(finding.New(finding.NotSolved, s.Unknowns[1].NameAt, "One equation gives one unknown.",
			"For two roots of t write `for t1, t2`; two unknowns take two equations: "+togetherForm+"."))
		return "", false
	}
	if n, ok := s.Equations[0].Left.(*syntax.Name); ok && s.Equations[0].Right == nil {
		if f, ok := w.Formula(n.Name); ok {
			w.find(w.notInFormula(s, f))
			return "", false
		}
	}
	w.find(finding.New(finding.NotSolved, first.NameAt, first.Name+" does not stand in the equation.", "Solve for a name that stands in it."))
	return "", false
}
