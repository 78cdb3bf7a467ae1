package session

import (
	"strings"

	"github.com/mattn/go-runewidth"

	"steelyard/lang/algebra"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// WorkLine is one line of a working: left = right. A line without a left side
// goes on from the one above it.
type WorkLine struct {
	Lead   string      // a formula's name before its equation, or empty
	Left   syntax.Expr // nil if the line goes on, or begins with Name or Words
	Name   string      // the name that a value is given, or empty
	Right  syntax.Expr // nil if there are words or a value
	Words  string      // "slope of x(t) at t = 3 s", or empty
	Shown  *Value      // the value, in a line that ends with it
	Units  string      // how the units cancel, or empty
	Reason string      // why a step is taken, or empty
	By     syntax.Expr // what the reason speaks of, or nil
}

// Why is the reason of a step with what it speaks of in its place.
func (l WorkLine) Why() string {
	switch {
	case l.By == nil:
		return l.Reason
	case strings.Contains(l.Reason, "…"):
		return strings.Replace(l.Reason, "…", algebra.Display(l.By), 1)
	}
	return l.Reason + " " + algebra.Display(l.By)
}

// left is what stands before the = of a line.
func (l WorkLine) left() string {
	switch {
	case l.Lead != "":
		return l.Lead + ": " + algebra.Display(l.Left)
	case l.Left != nil:
		return algebra.Display(l.Left)
	}
	return l.Name
}

// right is what stands after it.
func (l WorkLine) right() string {
	switch {
	case l.Shown != nil:
		return l.Shown.Shown(units.Screen)
	case l.Words != "":
		return l.Words
	}
	return algebra.Display(l.Right)
}

// widest is the width beyond which a line does not push the reasons of the others
// to the right.
const widest = 40

// WrittenWork sets a working as text: each = under the one it goes on from, and
// the reasons of a rearrangement beside each other.
func WrittenWork(lines []WorkLine) []string {
	wide := 0
	for i, l := range lines {
		cells := runewidth.StringWidth(l.left() + " = " + l.right())
		above := l.Left != nil && i+1 < len(lines) && lines[i+1].Reason != "" // the equation itself
		if (l.Reason != "" || above) && cells <= widest {
			wide = max(wide, cells)
		}
	}
	var out []string
	gap := 0
	for i, l := range lines {
		left := l.left()
		text := ""
		switch {
		case left == "" && i == 0:
			text = l.right() // a value without a name: its expression stands alone
		case left == "":
			text = strings.Repeat(" ", gap) + "= " + l.right()
		case l.Left == nil && l.Words == "" && i > 0:
			text = strings.Repeat(" ", max(0, gap-1-runewidth.StringWidth(left))) + left + " = " + l.right()
		default:
			text = left + " = " + l.right()
			gap = runewidth.StringWidth(left) + 1
		}
		if l.Reason != "" {
			text += strings.Repeat(" ", max(0, wide-runewidth.StringWidth(text))) + "   " + l.Why()
		}
		out = append(out, text)
		if l.Units != "" {
			out = append(out, strings.Repeat(" ", gap)+"  units: "+l.Units)
		}
	}
	return out
}
