package draw

import "math"

// square is the side of the squares of blank axes that is aimed at.
//
// Squared paper of schools has 5 mm, which is about as much on a printed page.
const square = 12.0

// squareArea is the most that blank axes of one scale go across and up.
const squareArea = 300.0

// squares widens the spans of blank axes to whole squares and gives the place of the
// plot area: all of the width that the texts leave, about as high as is asked.
//
// A path drawn on axes of one unit must keep its shape, so both axes get the same squares then.
// The height follows from the width, as squares are as high as wide.
func (s *figureLayout) squares(right, high float64) (left, w, h float64) {
	across, down := 0, 0
	room := s.width - s.leftOf(s.yTicks) - right
	if oneScale(s.Graph) && s.x == s.y {
		room = math.Min(room, squareArea)
		s.x, s.xTicks, across = squared(s.x, int(room/square))
		s.y, s.yTicks, down = s.x, s.xTicks, across
		left = s.leftOf(s.yTicks)
		w = math.Min(room, s.width-left-right)
	} else {
		s.x, s.xTicks, across = squared(s.x, int(room/square))
		s.y, s.yTicks, down = squared(s.y, int(high/room*float64(across)))
		left = s.leftOf(s.yTicks)
		w = s.width - left - right
	}
	s.square = w / float64(across)
	return left, w, s.square * float64(down)
}

// squared widens a span to whole steps of its ticks, each a handy whole number
// of squares long, so that values can be plotted by counting squares. Of all
// steps it takes the one that fills most of the room.
//
// From 2 to 12 ticks are tried, as the step that is the next round one may be far longer than the
// one before it, and leave half of the paper empty.
func squared(s span, most int) (wide span, t ticks, squares int) {
	most = max(most, 15) // which every span can be drawn in
	for about := 2; about <= 12; about++ {
		mantissa, power := roundStep((s.to - s.from) / float64(about))
		step := decimal(mantissa, power)
		first, last := math.Floor(s.from/step+1e-6), math.Ceil(s.to/step-1e-6)
		for _, each := range handy(int(mantissa)) {
			n := each * max(1, int(last-first))
			if n > most || n < squares || n == squares && each < 5 {
				continue
			}
			squares = n
			wide = span{from: decimal(first*mantissa, power), to: decimal(last*mantissa, power)}
			t = wide.ticksOf(mantissa, power)
		}
	}
	return wide, t, squares
}

// handy gives the numbers of squares a step of a mantissa may be long: one
// square is then a round value too.
//
// A square of a third or a seventh of a step can't be counted in: with steps of 2, a square is
// 0.2, 0.25, 0.5 or 1.
func handy(mantissa int) []int {
	switch mantissa {
	case 1:
		return []int{10, 5, 4, 2}
	case 2:
		return []int{10, 8, 4, 2}
	}
	return []int{10, 5}
}

// grid gives the lines between the squares.
func (s *figureLayout) grid() [][]point {
	var lines [][]point
	b := s.box
	for x := b.left + s.square; x < b.right+s.square/2; x += s.square {
		lines = append(lines, []point{{x, b.top}, {x, b.bottom}})
	}
	for y := b.top; y < b.bottom-s.square/2; y += s.square {
		lines = append(lines, []point{{b.left, y}, {b.right, y}})
	}
	return lines
}
