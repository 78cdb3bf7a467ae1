package draw

import (
	"slices"
	"strings"

	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
)

// kind is a kind of energy: bars of one kind are filled alike at all stages.
//
// The eye follows one fill from stage to stage, and so sees which energy becomes which.
type kind struct {
	key  string
	name label
}

// kindOf is what a bar shows the energy of: a function or formula whatever it is called
// with, and a name whatever its number, so that U(0 m) and U(x), K1 and K2 are of one
// kind. A bare number has none.
func kindOf(x syntax.Expr) kind {
	switch x := x.(type) {
	case *syntax.Call:
		if isFormula(x.Func) {
			return kind{x.Func, nameOf(x)}
		}
		return kind{x.Func, exprLabel(&syntax.Name{Name: x.Func})}
	case *syntax.Name:
		base := strings.TrimSuffix(strings.TrimRight(x.Name, "0123456789"), "_")
		if base == "" {
			base = x.Name
		}
		return kind{base, exprLabel(&syntax.Name{Name: base})}
	case *syntax.Unary:
		return kindOf(x.X)
	case *syntax.Quantity, *syntax.Number:
		return kind{}
	}
	return kind{typeset.Text(x), exprLabel(x)}
}

// nameOf is what is written at a bar: of a formula its words, such as kinetic energy.
//
// The symbol of the formula would say less, as most books have several for one energy.
func nameOf(x syntax.Expr) label {
	if c, ok := x.(*syntax.Call); ok && isFormula(c.Func) {
		return label{text: clean(strings.ReplaceAll(c.Func, "_", " ")), names: true}
	}
	return exprLabel(x)
}

// isFormula tells the name of a formula, which is made of words, from a symbol with an
// index, as U_spring is.
//
// A symbol has a letter or two before its index; formulas begin with a longer word.
func isFormula(name string) bool {
	first, _, several := strings.Cut(name, "_")
	return several && len(first) >= len("kind")
}

// kindsOf lists the kinds of the bars of all stages in the order in which they come.
//
// Work is not an energy that the system has, and has no entry in the key: its bar is dashed.
func kindsOf(groups []group) []kind {
	var kinds []kind
	for _, g := range groups {
		for _, b := range g.bars {
			if b.kind.key != "" && !g.work && !slices.ContainsFunc(kinds, func(k kind) bool { return k.key == b.kind.key }) {
				kinds = append(kinds, b.kind)
			}
		}
	}
	return kinds
}

// fill is how a bar is filled: by its kind, in turn.
//
// With more kinds than fills, they begin again; the key, which has all of them, then shows two
// alike.
func (s *barsLayout) fill(b bar) int {
	return max(0, slices.IndexFunc(s.kinds, func(k kind) bool { return k.key == b.kind.key })) % fillKinds
}

// legendOf is the key to the fills of the kinds of energy; none where there is one kind alone.
func (s *barsLayout) legendOf() *key {
	k := &key{sample: 22, gap: 6, apart: 16, width: s.width}
	if len(s.kinds) > 1 {
		for _, kind := range s.kinds {
			k.names = append(k.names, kind.name)
		}
	}
	k.most = len(k.names)
	return k
}
