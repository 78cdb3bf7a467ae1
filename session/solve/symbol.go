package solve

import (
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/units"
	"steelyard/units/writing"
)

// notInFormula says that an unknown is no symbol of the formula that is solved,
// and offers the line in which it stands for one.
func (v *solving) notInFormula(f *syntax.FormulaDef) finding.Finding {
	u := v.s.Unknowns[0]
	message := u.Name + " isn't in " + f.Name + "; its symbols are " + writing.List(f.Names(), "and") + "."
	sym, ok := v.meantSymbol(f)
	if !ok {
		return finding.New(finding.NotSolved, u.NameAt, message, "To use another name for a symbol, add `with "+f.Symbols[0].Name+" = "+u.Name+"`.")
	}
	line := v.withBinding(sym + " = " + u.Name)
	at := syntax.Span{From: u.NameAt.From, To: len(v.Entry.Text)}
	return finding.New(finding.NotSolved, at, message, "To use it for "+sym+", write `"+line+"`.", line[at.From:])
}

// withBinding adds a symbol's value to those of a solve.
//
// It goes behind the bindings that the line has, else behind the unknowns and their units.
func (v *solving) withBinding(binding string) string {
	text, s := v.Entry.Text, v.s
	last := s.Unknowns[len(s.Unknowns)-1]
	at, lead := max(last.NameAt.To, last.In.At.To), " with "
	if n := len(s.With); n > 0 {
		at, lead = s.With[n-1].X.Span().To, ", "
	}
	return text[:at] + lead + binding + text[at:]
}

// meantSymbol finds the symbol that a name stands for: the one whose letter the
// name begins with, the only one of the unit asked for, or one spelled nearly
// alike.
//
// solve spring_energy for k1 may mean the k of the formula: offered with k = k1. A symbol of
// the unit that is asked for counts before one that is only spelled alike.
func (v *solving) meantSymbol(f *syntax.FormulaDef) (string, bool) {
	u := v.s.Unknowns[0]
	var free, like []string
	for _, sym := range f.Symbols {
		if v.binds(sym.Name) {
			continue
		}
		if v.sameUnit(u.In, sym.Unit) {
			like = append(like, sym.Name)
		}
		free = append(free, sym.Name)
	}
	if u.In.Present() {
		free = like
	}
	for _, name := range free {
		if name == units.Symbol(u.Name) || strings.HasPrefix(u.Name, name+"_") {
			return name, true
		}
	}
	if len(like) == 1 {
		return like[0], true
	}
	for _, name := range free {
		if len(name) > 2 && writing.Within(1, name, u.Name) {
			return name, true
		}
	}
	return "", false
}

// binds tells whether the statement gives a symbol of a formula.
func (v *solving) binds(name string) bool {
	return slices.ContainsFunc(v.s.With, func(b syntax.Binding) bool { return b.Name == name })
}

// sameUnit tells whether two units measure the same dimension.
func (v *solving) sameUnit(a, b syntax.UnitText) bool {
	x, y := v.Unit(a), v.Unit(b)
	return x != nil && y != nil && x.Dim() == y.Dim()
}

// missingSymbols says which symbols of a formula have no value, and where one
// may be given.
//
// All are named at once, with values of their units as an example, so that one change of the
// line is enough.
func (v *solving) missingSymbols(f *syntax.FormulaDef, bound map[string]syntax.Expr, at syntax.Span) (finding.Finding, bool) {
	var names, values []string
	asked := false
	for _, b := range v.s.With {
		asked = asked || syntax.Holds(b.X, v.s.Unknowns[0].Name)
	}
	for _, sym := range f.Symbols {
		if v.s.Asks(sym.Name) || len(v.s.Unknowns) > 1 && sym.Name == units.Symbol(v.s.Unknowns[0].Name) {
			asked = true
			continue
		}
		_, known := v.Planner.Names.Lookup(sym.Name)
		if _, ok := bound[sym.Name]; ok || known || sym.Name == "g" {
			continue
		}
		names = append(names, sym.Name)
		values = append(values, strings.TrimSuffix(sym.Name+" = 2 "+sym.Unit.Text, " 1"))
	}
	if !asked || len(names) == 0 {
		return finding.Finding{}, false
	}
	with, it := "with ", "it a value"
	if len(v.s.With) > 0 {
		with = "with …, "
	}
	if len(names) > 1 {
		it = "them values"
	}
	return finding.New(finding.UnknownName, at, "No line above defines "+writing.List(names, "and")+", which "+f.Name+" needs.",
		"Give "+it+" here, as in `"+with+strings.Join(values, ", ")+"`, or in a line above."), true
}
