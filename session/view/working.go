package view

import (
	"slices"
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

// leastColumn is how wide a column of a working is at least, and columnGap what is between two.
const leastColumn, columnGap = 28, 3

// workingRows sets a working as text, with columns side by side where there is room for them.
func workingRows(lines []entry.WorkLine, room int) []string {
	var out []string
	for _, columns := range entry.SideBySide(lines) {
		each := (room+columnGap)/len(columns) - columnGap
		if len(columns) == 1 || each < leastColumn {
			out = append(out, workRows(slices.Concat(columns...))...)
			continue
		}
		set := make([][]string, len(columns))
		for k, column := range columns {
			set[k] = columnRows(column, each)
		}
		out = append(out, rows.Beside(set, each+columnGap)...)
	}
	return out
}

// columnRows sets a working in a column: long formulas in several rows, reasons below.
func columnRows(lines []entry.WorkLine, width int) []string {
	var out []string
	gap := 0
	for _, l := range lines {
		left := leftOf(l)
		if left != "" {
			gap = min(rows.Width(left)+1, width/2)
		}
		head, indent := left+" ", strings.Repeat(" ", gap+2)
		if whole := left + " = " + rightOf(l); rows.Width(head) > gap && rows.Width(whole) > width { // the left side has a row of its own
			out, head = append(out, rows.Formula(left, width)...), ""
		}
		head += strings.Repeat(" ", max(0, gap-rows.Width(head))) + "= "
		for i, row := range rows.Formula(rightOf(l), width-rows.Width(head)) {
			if i > 0 {
				head = indent
			}
			out = append(out, head+row)
		}
		if l.Reason != nil {
			out = append(out, rows.Wrap("("+l.Reason.String()+")", width)...)
		}
	}
	return out
}

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
