package entry

import (
	"strconv"
	"strings"

	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
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
	Column      int8
	left, right laid
}

// laid is an expression with what it looks like.
type laid struct {
	x   syntax.Expr
	box typeset.Box
}

func (l *laid) out(x syntax.Expr) typeset.Box {
	if l.x != x {
		*l = laid{x, typeset.Expr(x)}
	}
	return l.box
}

// LeftBox and RightBox are the sides laid out. A line keeps them: it is compared with others
// before it is shown.
func (l *WorkLine) LeftBox() typeset.Box  { return l.left.out(l.Left) }
func (l *WorkLine) RightBox() typeset.Box { return l.right.out(l.Right) }

// SideBySide takes a working apart where columns begin and end: each part is one column of
// lines, or several to stand side by side.
func SideBySide(lines []WorkLine) (out [][][]WorkLine) {
	from := 0
	for i := 1; i <= len(lines); i++ {
		if i < len(lines) && lines[i].Column == lines[from].Column {
			continue
		}
		column := lines[from:i:i]
		if n := len(out); from > 0 && lines[from-1].Column > 0 && column[0].Column > 0 {
			out[n-1] = append(out[n-1], column)
		} else {
			out = append(out, [][]WorkLine{column})
		}
		from = i
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
