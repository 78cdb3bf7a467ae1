package print

import (
	"strconv"
	"strings"

	"steelyard/session/entry"
	"steelyard/units"
)

// The numbers of a column stand with their decimal points one under the other: each has
// room behind it for the figures by which another is longer.

// tail is what a number has behind its whole part: digits, decimal points and signs ±.
//
// Digits, points and signs are counted apart, as a font of figures has one width for digits and
// others for the rest.
type tail struct{ digits, points, signs int }

// tailOf is the tail of a cell; false for words, and for a power of ten, which stays at the
// edge.
//
// 2.5×10³ beside 0.1 has no common place for a point worth keeping: its digits are not of the same
// powers.
func tailOf(c entry.Cell) (tail, bool) {
	if c.Value == nil || c.Value.List != nil {
		return tail{}, false
	}
	text := c.Value.Number(units.Drawn)
	behind := strings.TrimLeft(text, "−0123456789")
	t := tail{points: strings.Count(behind, "."), signs: strings.Count(behind, "±")}
	for _, r := range behind {
		if r >= '0' && r <= '9' {
			t.digits++
		}
	}
	return t, !strings.Contains(text, "×")
}

// Widths of what a tail holds, in the size of the letters, as in most fonts of books.
const (
	digitWide = 0.5
	pointWide = 0.28
	signWide  = 1.22 // with its blanks
)

// Each product is rounded by itself: a machine that multiplies and adds in one step would come to another width.
func (t tail) wide() float64 {
	return float64(digitWide*float64(t.digits)) + float64(pointWide*float64(t.points)) + float64(signWide*float64(t.signs))
}

// tails are the widest tail of each column.
//
// Width decides and not length: a point is narrower than a digit, so the tail with more signs may
// need less room.
func (t *table) tails() []tail {
	most := make([]tail, len(t.Heads))
	for _, row := range t.Rows {
		for i, cell := range row {
			if one, ok := tailOf(cell); ok && one.wide() > most[i].wide() {
				most[i] = one
			}
		}
	}
	return most
}

// less is by how much a cell's tail is shorter than the longest one.
func (t tail) less(c entry.Cell) tail {
	one, ok := tailOf(c)
	if !ok {
		return tail{}
	}
	return tail{t.digits - one.digits, t.points - one.points, t.signs - one.signs}
}

// css is the room behind a number of a page, as the style of its cell; empty for none.
//
// ch is the width of a digit in the font that the page is shown with, which no estimate is needed
// for.
func (t tail) css() string {
	if t == (tail{}) {
		return ""
	}
	room := "0.9rem + " + strconv.Itoa(t.digits) + "ch"
	if t.digits = 0; t != (tail{}) {
		room += " + " + strconv.FormatFloat(t.wide(), 'f', 2, 64) + "em"
	}
	return ` style="padding-inline-end:calc(` + room + `)"`
}

// tex is the room behind a number in LaTeX.
//
// A phantom takes the room of what it holds and shows nothing, in whatever font.
func (t tail) tex() string {
	room := strings.Repeat("0", max(0, t.digits)) + strings.Repeat("{.}", max(0, t.points)) + strings.Repeat(`{}\pm{}`, max(0, t.signs))
	if room == "" {
		return ""
	}
	return `$\phantom{` + room + `}$`
}
