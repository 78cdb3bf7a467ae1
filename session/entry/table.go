package entry

import (
	"strings"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// Table is the outcome of a table: columns of values, ready to be printed. A row
// has its place first.
type Table struct {
	Heads []Head
	Rows  [][]Cell
}

// Head is what heads a column or labels an axis: quantities over their unit
// (SI Brochure, 5.4.1), or words over it.
type Head struct {
	Of    []syntax.Expr
	Words string // instead of the quantities
	Unit  *units.Unit
}

// String returns the head as text: "x / cm", "v / (m/s)".
func (h Head) String() string {
	text := h.Words
	if len(h.Of) > 0 {
		text = h.Quantities()
	}
	if unit := h.UnitText(); unit != "" {
		text += " / " + unit
	}
	return text
}

// Quantities returns what stands over the unit, as text.
func (h Head) Quantities() string {
	names := make([]string, len(h.Of))
	for i, x := range h.Of {
		names[i] = syntax.ScreenExpr(x)
	}
	return strings.Join(names, ", ")
}

// UnitText returns the unit as it stands behind the stroke, in brackets if it is
// made of several; empty for pure numbers.
func (h Head) UnitText() string {
	if h.Unit == nil || h.Unit.SameAs(units.One) {
		return ""
	}
	unit := h.Unit.Screen()
	if strings.ContainsAny(unit, "/· ") {
		return "(" + unit + ")"
	}
	return unit
}

// Cell is one value of a table in the unit of its column: a number as it is
// shown, or words in its place.
type Cell struct{ Number, Words string }

// String returns the cell as text.
func (c Cell) String() string { return c.Number + c.Words }
