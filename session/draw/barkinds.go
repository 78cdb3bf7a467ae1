package draw

import (
	"math"
	"slices"
	"strings"

	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
)

// kind is a kind of energy: bars of one kind are filled alike at all stages.
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
func nameOf(x syntax.Expr) label {
	if c, ok := x.(*syntax.Call); ok && isFormula(c.Func) {
		return label{text: clean(strings.ReplaceAll(c.Func, "_", " ")), names: true}
	}
	return exprLabel(x)
}

// isFormula tells the name of a formula, which is made of words, from a symbol with an
// index, as U_spring is.
func isFormula(name string) bool {
	first, _, several := strings.Cut(name, "_")
	return several && len(first) >= len("kind")
}

// kindsOf lists the kinds of the bars of all stages in the order in which they come.
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
func (s *barsLayout) fill(b bar) int {
	return max(0, slices.IndexFunc(s.kinds, func(k kind) bool { return k.key == b.kind.key })) % fillKinds
}

const swatch = 22.0 // width of a sample in the legend

// legendColumns gives how many entries of the legend are side by side.
func (s *barsLayout) legendColumns() int {
	widest := 1.0
	for _, k := range s.kinds {
		widest = math.Max(widest, swatch+6+textWidth(k.name.text)+16)
	}
	return max(1, int((s.width-2*edge+16)/widest))
}

func (s *barsLayout) legendLines() int {
	if len(s.kinds) < 2 {
		return 0
	}
	if columns := s.legendColumns(); columns > 1 {
		return (len(s.kinds) + columns - 1) / columns
	}
	n := 0
	for _, k := range s.kinds {
		n += len(k.name.rows(s.width - 2*edge - swatch - 6))
	}
	return n
}

// writeLegend tells which kind of energy is filled how.
func (s *barsLayout) writeLegend() {
	if len(s.kinds) < 2 {
		return
	}
	columns, y := s.legendColumns(), s.legend
	across := (s.width - 2*edge) / float64(min(columns, len(s.kinds)))
	for i, k := range s.kinds {
		x := edge + across*float64(i%columns)
		s.bar(box{x, y + 2, x + swatch, y + lineHeight - 2}, i%fillKinds, false)
		below := s.block(x+swatch+6, y, k.name.rows(s.width-2*edge-swatch-6))
		if columns == 1 || (i+1)%columns == 0 {
			y = below
		}
	}
}
