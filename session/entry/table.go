package entry

import (
	"strconv"
	"strings"

	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/units"
	"steelyard/units/each"
	"steelyard/units/writing"
)

// Table is the outcome of a table: columns of values, ready to be printed. A row
// has its place first.
type Table struct {
	Heads []Head
	Rows  [][]Cell
}

// Cells returns the text of every cell, row by row, that of the heads first.
func (t *Table) Cells() [][]string {
	all := [][]string{each.Of(t.Heads, Head.String)}
	for _, row := range t.Rows {
		all = append(all, each.Of(row, Cell.String))
	}
	return all
}

// Head is what heads a column or labels an axis: quantities over their unit
// (SI Brochure, 5.4.1), or words over it.
type Head struct {
	Of    []syntax.Expr
	Words string // instead of the quantities
	Unit  *units.Unit
	// Power is a power of ten that the numbers are to be taken times, 0 as a rule.
	Power int
}

// Along heads the components of a vector along an axis, counted from 0: r_x, or in words where the
// vector has no name.
func Along(x syntax.Expr, axis int, u *units.Unit) Head {
	letter := syntax.Axes[axis : axis+1]
	if n, ok := x.(*syntax.Name); ok && n.Line == 0 {
		return Head{Of: []syntax.Expr{&syntax.Name{Name: n.Name + "_" + letter}}, Unit: u}
	}
	return Head{Words: typeset.Text(x) + " along " + letter, Unit: u}
}

// String returns the head as text: "x / cm", "v / (m/s)".
func (h Head) String() string {
	text := h.Words
	if len(h.Of) > 0 {
		text = h.Quantities()
	}
	if unit := h.unitText(); unit != "" {
		text += " / " + unit
	}
	return text
}

// Quantities returns what stands over the unit, as text.
func (h Head) Quantities() string {
	names := make([]string, len(h.Of))
	for i, x := range h.Of {
		names[i] = typeset.Expr(x).Page()
	}
	return strings.Join(names, ", ")
}

// Box lays the head out, each quantity by the same function; a head of words is
// empty.
func (h Head) Box(lay func(syntax.Expr) typeset.Box) typeset.Box {
	if len(h.Of) == 0 {
		return typeset.Box{}
	}
	var all []typeset.Box
	for i, x := range h.Of {
		if i > 0 {
			all = append(all, typeset.Comma())
		}
		all = append(all, lay(x))
	}
	if unit := h.unitText(); unit != "" {
		all = append(all, typeset.Sign("/"), typeset.Unit(unit))
	}
	return typeset.Row(all...)
}

// unitText returns the unit as it stands behind the stroke, with its power of ten
// and in brackets if it is made of several; empty for pure numbers.
func (h Head) unitText() string {
	unit := ""
	if h.Unit != nil && !h.Unit.SameAs(units.One) {
		unit = h.Unit.Screen()
	}
	if strings.ContainsAny(unit, "/· ") {
		unit = "(" + unit + ")"
	}
	if h.Power != 0 {
		unit = strings.TrimSpace("10" + writing.Raised(strconv.Itoa(h.Power)) + " " + unit)
	}
	return unit
}

// Cell is one value of a table in the unit of its column, or what is said in its place.
type Cell struct {
	Value *Value
	Words Said
}

// Add adds a row of what is said in each column.
func (t *Table) Add(row ...Said) {
	cells := make([]Cell, len(row))
	for i, said := range row {
		cells[i].Words = said
	}
	t.Rows = append(t.Rows, cells)
}

// Heads are columns without quantities of their own.
func Heads(words ...string) []Head {
	out := make([]Head, len(words))
	for i, text := range words {
		out[i].Words = text
	}
	return out
}

// Box lays out the number, without its unit.
func (c Cell) Box() typeset.Box { return typeset.Value(c.Value.Number(units.File), "") }

// String returns the cell as text, without its unit.
func (c Cell) String() string {
	if c.Value != nil {
		return c.Value.Number(units.Screen)
	}
	return c.Words.String()
}
