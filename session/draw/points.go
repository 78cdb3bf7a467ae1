package draw

import (
	"math"

	"steelyard/session/entry"
)

// capPart is half the width of the end of an error bar.
const capPart = 3.0

// bars are the ends of the error bar of a reading, across and up: each as far as it may
// be off on either side.
func (p place) bars(r entry.Reading) (left, right, below, above point) {
	return p.at(r.X-r.UX, r.Y), p.at(r.X+r.UX, r.Y), p.at(r.X, r.Y-r.UY), p.at(r.X, r.Y+r.UY)
}

// readings draws the readings with their error bars. Of many in one place one is drawn.
func (s *figureLayout) readings() {
	var bars [][]point
	var dots []point
	drawn := map[point]bool{}
	b := s.box
	for _, r := range s.Points {
		at := s.at(r.X, r.Y)
		place := point{math.Round(at.X), math.Round(at.Y)}
		if !b.holds(at) || drawn[place] {
			continue
		}
		drawn[place] = true
		dots = append(dots, at)
		left, right, below, above := s.bars(r)
		if r.UY > 0 {
			top, bottom := math.Max(above.Y, b.top), math.Min(below.Y, b.bottom)
			bars = append(bars, []point{{at.X, top}, {at.X, bottom}})
			for _, y := range [2]float64{top, bottom} {
				bars = append(bars, []point{{at.X - capPart, y}, {at.X + capPart, y}})
			}
		}
		if r.UX > 0 {
			from, to := math.Max(left.X, b.left), math.Min(right.X, b.right)
			bars = append(bars, []point{{from, at.Y}, {to, at.Y}})
			for _, x := range [2]float64{from, to} {
				bars = append(bars, []point{{x, at.Y - capPart}, {x, at.Y + capPart}})
			}
		}
	}
	s.rules(barInk, bars)
	for _, at := range dots {
		s.dot(at, false)
	}
}

// readings marks the readings, and how far they may be off where that shows.
func (t *textFigure) readings(c *canvas, p place) {
	for _, r := range t.Points {
		left, right, below, above := p.bars(r)
		column, row := c.cell(p.at(r.X, r.Y))
		wide, high := c.grain()
		if below.Y-above.Y > 1.5*float64(high) {
			_, from := c.cell(above)
			_, to := c.cell(below)
			for y := max(from, 0); y <= min(to, c.rows-1); y++ {
				c.mark(column, y, '│')
			}
		}
		if right.X-left.X > 1.5*float64(wide) {
			from, _ := c.cell(left)
			to, _ := c.cell(right)
			for x := max(from, 0); x <= min(to, c.columns-1); x++ {
				c.mark(x, row, '─')
			}
		}
	}
	for _, r := range t.Points {
		if at := p.at(r.X, r.Y); p.box.holds(at) {
			c.put(at, dotSign(false))
		}
	}
}
