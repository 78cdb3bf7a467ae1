// Package limit names every bound that keeps hostile or mistaken input from
// costing more than it should. Passing one is a finding, never a crash. The words
// of a comment up to its full stop are the row of the limit in lang/REFERENCE.md.
package limit

const (
	// Line is the most bytes that one statement may have, its indented lines
	// included.
	Line = 64 << 10
	// Nesting is the most brackets, calls, signs and roots inside each other.
	Nesting = 250
	// Name is the most bytes of one name.
	Name = 128
	// Near is the most names of one length that an unknown name is compared with.
	Near = 50
	// Advised is the most lines of a page whose values of an unusual kind are
	// explained, and of which a refused one is looked through for symbols without a
	// value. What explains one is tried out, at ten times the cost of the line.
	Advised = 2000
	// Calls is the most calls of functions inside each other.
	Calls = 250
	// Unknowns is the most unknowns of one solve.
	Unknowns = 30
	// Args is the most arguments of one call.
	Args = 32
	// Written is the most values of one list in square brackets.
	Written = 10_000
	// Solved is the most elements of a list that an equation is solved for.
	Solved = 1000
	// DataRows is the most rows of one table of readings.
	DataRows = 2_000_000
	// DataFile is the most bytes of one file of readings.
	DataFile = 64 << 20
	// SheetCells is the most cells of one sheet of a spreadsheet file.
	SheetCells = 500_000
	// Pieces is the most intervals of one function.
	Pieces = 64
	// Cost is the most operations that one line may cost, calls included.
	Cost = 1 << 20
	// Digits is the most digits of one written number.
	Digits = 400
	// CurveCost is the most operations that one point of a curve may cost.
	CurveCost = 1 << 14
	// Readings is the most readings of one line that are looked at.
	Readings = 64
	// Roots is the most solutions, or zeros of a curve, that one search finds.
	Roots = 64
	// Extremes is the most places of a curve's greatest value, or its least, that are
	// found.
	Extremes = 64
	// Turns is the most full turns away for which solutions of an angle are rearranged.
	Turns = 40
	// Listed is the most solutions of one equation that a message names.
	Listed = 6
	// ListedSystems is the most solutions of several equations that a message names.
	ListedSystems = 3
	// Places is the most zeros, extremes and breaks of one curve that are named.
	Places = 5
	// Arrows is the most vectors that are drawn in one drawing.
	Arrows = 12
	// Rows is the most rows of one table.
	Rows = 1000
	// File is the most bytes of one worksheet.
	File = 64 << 20
	// Lines is the most lines of one worksheet.
	Lines = 1 << 20
	// Statements is the most statements of one worksheet: what is known of each
	// stays in memory, about 2 KB.
	Statements = 200_000
	// Printed is the most statements of a worksheet that is printed: the whole
	// document is in memory too.
	Printed = 20_000
)
