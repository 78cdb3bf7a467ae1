package entry

import (
	"hash/fnv"
	"math"
	"slices"
	"strconv"
	"strings"

	"steelyard/lang/syntax"
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
	// Rounding and Figures are the wishes in force for printing it.
	Rounding units.Rounding
	Figures  units.Figures
	// List has the elements of a list, or the components of a vector, of which SI and InUnit
	// are the first; nil for
	// one value.
	List *List
	// Unit is the unit it is shown in.
	Unit *units.Unit
	// InUnit is the value in that unit, at full precision.
	InUnit float64
	// Quantity is the name of the kind of quantity ("energy", "force per
	// length"), or empty where the catalogue has none.
	Quantity string
	// Form is how a vector is reported, and Parts its magnitude and direction where they are
	// asked for.
	Form  syntax.VectorForm
	Parts *[2]Value
	// Named tells that a finding has already named the quantity, so that a
	// view does not repeat it after the value.
	Named bool
	// UFigures is with how many figures its uncertainty is shown.
	UFigures int32
	// U is its standard uncertainty in coherent SI units, 0 if nothing that it depends on
	// has one.
	U float64
}

// List is the elements of a list: in coherent SI units, and in the unit they are shown
// in, with the wishes for printing each.
type List struct {
	SI, InUnit []float64
	Figures    []units.Figures
	// U are their standard uncertainties in coherent SI units, and MeanU that of their mean, of
	// vectors those of its components; nil where none has one.
	U, MeanU []float64
	// Vector tells that they are the components of a vector, and Polar the wishes for printing
	// its magnitude and its direction where it was written by those.
	Vector bool
	Polar  [2]units.Figures
	// Axes is how many components each vector of a list of vectors has, which are one after the
	// other; 0 for numbers.
	Axes int
}

// Len is how many values a list has; of vectors, how many of those.
func (l *List) Len() int { return len(l.SI) / max(l.Axes, 1) }

// figures are the wishes for printing an element: its own, or those of the list.
func (l *List) figures(i int, all units.Figures) units.Figures {
	if l.Figures != nil {
		return l.Figures[i]
	}
	return all
}

// mostListed is how many elements are shown one by one.
const mostListed = 12

// Element is an element of a list as a value of its own, counted from 0.
func (v Value) Element(i int) Value {
	if v.List.U != nil {
		v.U = v.List.U[i]
	}
	v.SI, v.InUnit, v.Figures, v.List = v.List.SI[i], v.List.InUnit[i], v.List.figures(i, v.Figures), nil
	return v
}

// Elements are the elements of a list as values of their own; one value is the only one.
func (v Value) Elements() []Value {
	if v.List == nil {
		return []Value{v}
	}
	out := make([]Value, len(v.List.SI))
	for i := range out {
		out[i] = v.Element(i)
	}
	return out
}

// mean is the mean of a list as a value; of vectors that is one.
func (v Value) mean() Value {
	n := max(v.List.Axes, 1)
	mean := &List{SI: make([]float64, n), InUnit: make([]float64, n), U: v.List.MeanU, Vector: v.List.Axes > 0}
	for i, x := range v.List.SI {
		mean.SI[i%n] += x
		mean.InUnit[i%n] += v.List.InUnit[i]
	}
	for k := range mean.SI {
		mean.SI[k] /= float64(len(v.List.SI) / n)
		mean.InUnit[k] /= float64(len(v.List.SI) / n)
	}
	v.List = mean
	if mean.Vector {
		return v
	}
	return v.Element(0)
}

// Shown returns the value as printed, number and unit: "256.889 N/m".
func (v Value) Shown(form units.Form) string {
	switch {
	case v.Parts != nil:
		return v.Parts[0].Shown(form) + " at " + v.Parts[1].Shown(form)
	case v.List != nil:
		return v.shownList(form)
	}
	if v.U > 0 {
		return units.FormatUncertain(v.InUnit, v.UInUnit(), v.Unit, int(v.UFigures), v.Rounding, form)
	}
	return units.FormatQuantity(v.InUnit, v.Unit, v.Figures, v.Rounding, form)
}

// Number returns the number without its unit: "256.889".
func (v Value) Number(form units.Form) string {
	if v.U > 0 {
		return units.FormatSpread(v.InUnit, v.UInUnit(), int(v.UFigures), v.Rounding, form)
	}
	return units.FormatNumber(v.InUnit, v.Figures, v.Rounding, form)
}

// shownList is a list as it is shown: its values, or how many there are and their mean.
// A record has a digest of those that it does not show.
func (v Value) shownList(form units.Form) string {
	numbers := v.numbers(form)
	if n := v.List.Len(); n > mostListed {
		text := strconv.Itoa(n) + " values of mean " + v.mean().Shown(form)
		if form == units.File {
			text += ", digest " + v.Digest()
		}
		return text
	}
	if v.List.Axes > 0 {
		var each []string
		for one := range slices.Chunk(numbers, v.List.Axes) {
			each = append(each, "("+strings.Join(one, ", ")+")")
		}
		numbers = each
	}
	brackets := v.List.brackets()
	return units.Behind(brackets[:1]+strings.Join(numbers, ", ")+brackets[1:], v.Unit, form)
}

// numbers are the elements of a list, without their unit.
func (v Value) numbers(form units.Form) []string {
	out := make([]string, len(v.List.InUnit))
	for i := range out {
		out[i] = v.Element(i).Number(form)
	}
	return out
}

// Digest tells a list from others by its numbers as they are shown (FNV-1a of 64 bits);
// it is empty for one value.
func (v Value) Digest() string {
	if v.List == nil {
		return ""
	}
	h := fnv.New64a()
	for _, one := range v.Elements() {
		if one.Figures.Usual { // a printed page has other figures than the record
			one.Figures = units.Figures{}
		}
		h.Write([]byte(one.Number(units.File) + "\n"))
	}
	return strconv.FormatUint(h.Sum64(), 16)
}

// UInUnit is the standard uncertainty in the unit that the value is shown in.
func (v Value) UInUnit() float64 { return math.Abs(v.Unit.FromSIDifference(v.U)) }

// Box lays the value out as it is shown.
func (v Value) Box() typeset.Box {
	switch {
	case v.Parts != nil:
		return typeset.Polar(v.Parts[0].Box(), v.Parts[1].Box())
	case v.List != nil && v.List.Len() > mostListed:
		return typeset.ManyValues(v.List.Len(), v.mean().Box())
	case v.List != nil:
		return typeset.Values(v.numbers(units.File), v.List.Axes, v.List.brackets(), v.Unit.Behind(units.File))
	}
	return typeset.Value(v.Number(units.File), v.Unit.Behind(units.File))
}
