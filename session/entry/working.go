package entry

import (
	"strings"

	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
)

// WorkLine is one line of a working: left = right. A line without a left side
// goes on from the one above it.
type WorkLine struct {
	Lead   string        // a formula's name before its equation, or empty
	Left   syntax.Expr   // nil if the line goes on; the name of a value that has one
	Right  syntax.Expr   // nil if there are words or a value
	Words  string        // "slope of … at … = …", or empty
	Shown  *Value        // the value, in a line that ends with it
	Units  []UnitSide    // how the units cancel, side after side, or empty
	Reason string        // why a step is taken, or empty
	By     []syntax.Expr // what each … of the words or the reason speaks of
}

// UnitSide is one side of how units cancel: a product of units as it is shown on
// a screen, and whether all of it is under a square root.
type UnitSide struct {
	Product string
	Root    bool
}

// String returns the side as text.
func (u UnitSide) String() string {
	if u.Root {
		return "√(" + u.Product + ")"
	}
	return u.Product
}

// Cancelled returns how units cancel as text, or nothing: "√(kg/(N/m)) = s".
func Cancelled(sides []UnitSide) string {
	texts := make([]string, len(sides))
	for i, u := range sides {
		texts[i] = u.String()
	}
	return strings.Join(texts, " = ")
}

// Why is the reason of a step, and Told the words of a line, with what they speak of in
// its place.
func (l WorkLine) Why() string  { return l.filled(l.Reason) }
func (l WorkLine) Told() string { return l.filled(l.Words) }

func (l WorkLine) filled(text string) string {
	parts := strings.Split(text, "…")
	for i, x := range l.By[:min(len(l.By), len(parts)-1)] {
		parts[i] += typeset.Text(x)
	}
	return strings.Join(parts, "")
}
