package rows

import "github.com/mattn/go-runewidth"

// Folds are the places, in bytes, at which a text without line ends goes on in a next row:
// the first row has begun with so many cells, each below it begins with hang of them, and
// none is wider than width. Blanks where a row ends may have no cell left in it; a piece
// wider than a row is broken.
func Folds(text string, first, hang, width int) []int {
	if first+len(text) <= width {
		return nil // no character has more cells than bytes
	}
	var at []int
	used := first
	for from, to := range pieces(text, 0) {
		if from > 0 {
			used++ // the blank before it
		}
		cells := characters(text[from:to])
		if used+cells > width && used > hang && cells > 0 {
			at, used = append(at, from), hang
		}
		if used+cells <= width {
			used += cells
			continue
		}
		for i, r := range text[from:to] {
			w := runewidth.RuneWidth(r)
			if w > 0 && used+w > width {
				at, used = append(at, from+i), hang
			}
			used += w
		}
	}
	return at
}

// characters is how many cells the characters of a text take one by one, as a terminal
// sets them.
func characters(text string) (cells int) {
	for _, r := range text {
		if usual(r) {
			cells++
		} else {
			cells += runewidth.RuneWidth(r)
		}
	}
	return cells
}
