package entry

import (
	"strconv"
	"strings"

	"steelyard/lang/syntax"
	"steelyard/units/each"
	"steelyard/units/writing"
)

// WorkLine is one line of a working: left = right. A line without a left side
// goes on from the one above it.
type WorkLine struct {
	Formula string      // the name of the formula that the equation is, or empty
	Left    syntax.Expr // nil if the line goes on; the name of a value that has one
	Right   syntax.Expr // nil if there are words or a value
	Words   Said        // "slope of v(t) at t = 3 s", or empty
	Shown   *Value      // the value, in a line that ends with it
	Units   []UnitSide  // how the units cancel, side after side, or empty
	Reason  Said        // why a step is taken, or empty
	// Column is in which of the columns that stand side by side the line is, counted from 1:
	// that of the components along x, y or z. It is 0 for a line of the whole width.
	Column int8
}

// SideBySide takes a working apart where columns begin and end: each part is one column of
// lines, or several to stand side by side.
func SideBySide(lines []WorkLine) [][][]WorkLine {
	var out [][][]WorkLine
	for i, l := range lines {
		switch {
		case i == 0 || (l.Column > 0) != (lines[i-1].Column > 0):
			out = append(out, [][]WorkLine{{l}})
		case l.Column != lines[i-1].Column:
			out[len(out)-1] = append(out[len(out)-1], []WorkLine{l})
		default:
			last := out[len(out)-1]
			last[len(last)-1] = append(last[len(last)-1], l)
		}
	}
	return out
}

// UnitSide is one side of how units cancel: a product of units as it is shown on
// a screen, and the degree of the root that all of it is under, 0 for none.
type UnitSide struct {
	Product string
	Root    int
}

// String returns the side as text.
func (u UnitSide) String() string {
	switch u.Root {
	case 0:
		return u.Product
	case 2:
		return "√(" + u.Product + ")"
	}
	return writing.Raised(strconv.Itoa(u.Root)) + "√(" + u.Product + ")"
}

// Cancelled returns how units cancel as text, or nothing: "√(kg/(N/m)) = s".
func Cancelled(sides []UnitSide) string {
	return strings.Join(each.Of(sides, UnitSide.String), " = ")
}
