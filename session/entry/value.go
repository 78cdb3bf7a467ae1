package entry

import (
	"steelyard/lang/typeset"
	"steelyard/units"
)

// Value is one quantity as it is reported.
type Value struct {
	// Name is the name that the statement gives it, or empty.
	Name string
	// SI is the value in coherent SI units, at full precision.
	SI float64
	// Dim is its dimension and Tag what kind of pure number or rate it is.
	Dim units.Dim
	Tag units.Tag
	// Unit is the unit it is shown in.
	Unit *units.Unit
	// InUnit is the value in that unit, at full precision.
	InUnit float64
	// Quantity is the name of the kind of quantity ("energy", "force per
	// length"), or empty where the catalogue has none.
	Quantity string
	// Named tells that a finding has already named the quantity, so that a
	// view does not repeat it after the value.
	Named bool
	// Figures and Rounding are the wishes in force for printing it.
	Figures  units.Figures
	Rounding units.Rounding
}

// Shown returns the value as printed, number and unit: "256.889 N/m".
func (v Value) Shown(form units.Form) string {
	return units.FormatQuantity(v.InUnit, v.Unit, v.Figures, v.Rounding, form)
}

// Number returns the number without its unit: "256.889".
func (v Value) Number(form units.Form) string {
	return units.FormatNumber(v.InUnit, v.Figures, v.Rounding, form)
}

// Box lays the value out as it is shown.
func (v Value) Box() typeset.Box {
	return typeset.Value(v.Number(units.File), v.Unit.Behind(units.File))
}
