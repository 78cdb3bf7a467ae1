package view

import (
	"strings"

	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/session/rows"
	"steelyard/units"
)

// leftOf is what stands before the = of a line.
func leftOf(l entry.WorkLine) string {
	switch {
	case l.Formula != "":
		return l.Formula + ": " + typeset.Text(l.Left)
	case l.Left != nil:
		return typeset.Text(l.Left)
	}
	return ""
}

// rightOf is what stands after it.
func rightOf(l entry.WorkLine) string {
	switch {
	case l.Shown != nil:
		return l.Shown.Shown(units.Screen)
	case l.Words != nil:
		return l.Words.String()
	}
	return typeset.Text(l.Right)
}

// widest is the width beyond which a line does not push the reasons of the others
// to the right.
const widest = 40

// workRows sets a working as text: each = under the one it goes on from, and
// the reasons of a rearrangement beside each other.
func workRows(lines []entry.WorkLine) []string {
	wide := 0
	for i, l := range lines {
		cells := rows.Width(leftOf(l) + " = " + rightOf(l))
		above := l.Left != nil && l.Right != nil && i+1 < len(lines) && lines[i+1].Reason != nil // the equation itself
		if (l.Reason != nil || above) && cells <= widest {
			wide = max(wide, cells)
		}
	}
	var out []string
	gap := 0
	for i, l := range lines {
		left := leftOf(l)
		text := ""
		switch {
		case left == "" && i == 0:
			text = rightOf(l) // a value without a name: its expression stands alone
		case left == "":
			text = strings.Repeat(" ", gap) + "= " + rightOf(l)
		case l.Shown != nil && i > 0: // the value of the name that the lines above are about
			text = strings.Repeat(" ", max(0, gap-1-rows.Width(left))) + left + " = " + rightOf(l)
		default:
			text = left + " = " + rightOf(l)
			gap = rows.Width(left) + 1
		}
		if l.Reason != nil {
			text += strings.Repeat(" ", max(0, wide-rows.Width(text))) + "   " + l.Reason.String()
		}
		out = append(out, text)
		if len(l.Units) > 0 {
			out = append(out, strings.Repeat(" ", gap)+"  units: "+entry.Cancelled(l.Units))
		}
	}
	return out
}
