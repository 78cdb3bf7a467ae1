package rows

import (
	"strings"
	"unicode/utf8"

	"github.com/mattn/go-runewidth"
)

// Formula breaks a formula into rows of some width: at the signs that are in the fewest
// brackets, of those at signs of a sum, and of those at the last that fits. One without such
// signs is broken as words are.
func Formula(formula string, width int) []string {
	var out []string
	for runewidth.StringWidth(formula) > width {
		at := formulaEnd(formula, width)
		if at == 0 {
			return append(out, Fit(formula, width)...)
		}
		out = append(out, strings.TrimRight(formula[:at], " "))
		formula = formula[at:]
	}
	return append(out, formula)
}

// leastFilled is the part of a row that is filled before the brackets decide: a row that
// ends early for them would make the formula long.
const leastFilled = 0.4

// formulaEnd is where the first row of a formula ends that has no room, or 0.
func formulaEnd(formula string, width int) int {
	best, inside, least, used := 0, 0, 0, 0
	for at, r := range formula {
		if used > width {
			break
		}
		before, after := formula[:at], formula[at+utf8.RuneLen(r):]
		rank, breaks := 2*inside, false
		switch r {
		case '(', '[':
			inside++
		case ')', ']':
			inside--
		case '+', '-', '−':
			breaks = strings.HasSuffix(before, " ") // a sign of a sum
		case '·', '/':
			rank++
			breaks = strings.HasSuffix(before, ")") || strings.HasPrefix(after, "(") // else it may be in a unit
		}
		if breaks && at > 0 && (best == 0 || rank <= least || float64(used) < leastFilled*float64(width)) {
			best, least = at, rank
		}
		used += runewidth.RuneWidth(r)
	}
	return best
}
