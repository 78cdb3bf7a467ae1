package session

import (
	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// Entry is one statement and all that became of it. Every view renders an
// Entry; none evaluates.
type Entry struct {
	// Line is the number that findings, v@12 and JSON use: the statement's
	// place in a scratchpad, its text line in a replayed file.
	Line int
	// Text is the statement as it was written, its indented lines included,
	// without records.
	Text string
	// Stmt is the statement read, or nil if it can't be read.
	Stmt syntax.Stmt
	// Values are the quantities that the statement gives, in order; none for a
	// statement without a value or one that could not be worked out.
	Values []Value
	// Shows tells whether a view prints the values: a plain given does not
	// show its own.
	Shows bool
	// Records tells whether a worksheet keeps a record of the values.
	Records bool
	// Check is the outcome of a check, else nil.
	Check *CheckOutcome
	// Told is what a command that asks (describe, names) answers, line by line.
	Told []string
	// Graph is what a graph or a table shows, and Bars an energy bar chart; else
	// nil.
	Graph *Graph
	Bars  *Bars
	// Solution is how an equation was rearranged, and Roots are its roots that
	// the values were worked out from; else nil.
	Solution *algebra.Solution
	Roots    []algebra.Root
	// Findings are in the order they were found.
	Findings []finding.Finding
	// Uses are the lines whose values this entry uses directly, ascending.
	Uses []int

	solves string // the unknown of an equation
}

// Failed tells whether the statement could not be read or worked out; a
// worksheet keeps such a line as a remark.
func (e *Entry) Failed() bool {
	for _, f := range e.Findings {
		if f.Severity == finding.Error || f.Severity == finding.Mismatch && len(e.Values) == 0 {
			return true
		}
	}
	return false
}

// Named tells whether the statement begins NAME =, so that a result stands under
// that sign.
func (e *Entry) Named() bool {
	switch s := e.Stmt.(type) {
	case *syntax.Define, *syntax.FuncDef:
		return true
	case *syntax.Slope:
		return s.Name != ""
	case *syntax.Area:
		return s.Name != ""
	}
	return false
}

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

// CheckOutcome is what a check found.
type CheckOutcome struct {
	Holds bool
	// Left and Right are the sides as compared; Right is unused for a check of
	// sign.
	Left, Right Value
}
