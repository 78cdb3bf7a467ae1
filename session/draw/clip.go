package draw

import (
	"math"
	"slices"

	"steelyard/session/graph"
)

// box is a rectangle of drawing coordinates, y downward.
type box struct{ left, top, right, bottom float64 }

func (b box) holds(p point) bool {
	return p.X >= b.left && p.X <= b.right && p.Y >= b.top && p.Y <= b.bottom
}

// place maps points of a figure to the coordinates of a drawing.
//
// A curve is worked out once and drawn at three widths, each with a place of its own.
type place struct {
	x, y span
	box  box
}

func (p place) at(x, y float64) point { return p.of(point{p.x.part(x), p.y.part(y)}) }

// of is the place of a point that is told as parts of both axes.
func (p place) of(part point) point {
	return point{p.box.left + part.X*(p.box.right-p.box.left), p.box.bottom - part.Y*(p.box.bottom-p.box.top)}
}

// stretches are the pieces of a curve without breaks: it is broken at points that aren't
// finite. Their points are told as parts of both axes, which are the same wherever it is drawn.
//
// A curve is undefined at a pole, and a line drawn over it would be a wall that is not there.
func stretches(x, y span, runs [][]graph.Point) (out [][]point) {
	for _, run := range runs {
		piece := make([]point, 0, len(run))
		for i, p := range run {
			finite := isFinite(p.X) && isFinite(p.Y)
			if finite {
				piece = append(piece, point{x.part(p.X), y.part(p.Y)})
			}
			if last := i == len(run)-1; len(piece) > 0 && (last || !finite) {
				out, piece = append(out, piece), piece[len(piece):]
			}
		}
	}
	return out
}

// visible finds the pieces of a curve that lie inside the box, in drawing coordinates, clipped
// at the border, and simplified to within a tolerance. Only the points that are left by then
// are kept: room is for one stretch after the other.
// Points closer together than grain across are thinned to the first, the
// extreme ones and the last of each column, which no eye can tell apart.
func (p place) visible(stretches [][]point, grain, tolerance float64, room *[]point) [][]point {
	var out [][]point
	for _, s := range stretches {
		*room = p.thin(s, grain, *room)
		from := len(out)
		out = p.box.clip(*room, out)
		for i, line := range out[from:] {
			out[from+i] = slices.Clone(simplify(line, tolerance))
		}
	}
	return out
}

// thin maps a stretch to drawing coordinates and leaves out what can't be seen. What is left
// takes the place of what was in the room.
//
// A curve may have more points than a screen has columns. Joining the first, lowest, highest and
// last of a column covers the same dots as joining all.
func (p place) thin(run []point, grain float64, room []point) []point {
	out := slices.Grow(room[:0], min(len(run), 4096))
	next := p.of(run[0])
	for i := 0; i < len(run); {
		first := next
		column := math.Floor(first.X / grain)
		last, lowest, highest := first, first, first
		lowAt, highAt, end := i, i, i
		for j := i + 1; j < len(run); j++ {
			q := p.of(run[j])
			if math.Floor(q.X/grain) != column {
				next = q
				break
			}
			if q.Y < lowest.Y {
				lowest, lowAt = q, j
			}
			if q.Y > highest.Y {
				highest, highAt = q, j
			}
			last, end = q, j
		}
		if lowAt > highAt {
			lowAt, highAt = highAt, lowAt
			lowest, highest = highest, lowest
		}
		out = append(out, first)
		if lowAt > i && lowAt < end {
			out = append(out, lowest)
		}
		if highAt > lowAt && highAt < end {
			out = append(out, highest)
		}
		if end > i {
			out = append(out, last)
		}
		i = end + 1
	}
	return out
}

// clip appends the parts of a line that lie inside the box.
//
// A curve that leaves the box and comes back is several lines, since a line along the border would
// look like a part of the curve.
func (b box) clip(line []point, out [][]point) [][]point {
	if !slices.ContainsFunc(line, func(p point) bool { return !b.holds(p) }) {
		return append(out, line)
	}
	var piece []point
	for i := 1; i < len(line); i++ {
		from, to, ok := b.segment(line[i-1], line[i])
		if !ok {
			continue
		}
		if len(piece) == 0 || piece[len(piece)-1] != from {
			if len(piece) > 0 {
				out = append(out, piece)
			}
			piece = append(make([]point, 0, 16), from)
		}
		piece = append(piece, to)
	}
	if len(piece) > 0 {
		out = append(out, piece)
	}
	return out
}

// segment clips one segment to the box by the range of its parameter
// (Liang–Barsky). ok is false where nothing of it is inside.
//
// It asks at which part of the way the line enters each side and at which it leaves, and keeps
// what is between the last entry and the first exit.
func (b box) segment(p, q point) (from, to point, ok bool) {
	if b.holds(p) && b.holds(q) {
		return p, q, true
	}
	if b.beyond(p, q) {
		return p, q, false
	}
	t0, t1 := 0.0, 1.0
	dx, dy := q.X-p.X, q.Y-p.Y
	for _, side := range [4][2]float64{{-dx, p.X - b.left}, {dx, b.right - p.X}, {-dy, p.Y - b.top}, {dy, b.bottom - p.Y}} {
		rate, room := side[0], side[1]
		switch { // a rate of 0 is along a side that the line is within
		case rate < 0:
			t0 = max(t0, room/rate)
		case rate > 0:
			t1 = min(t1, room/rate)
		}
	}
	if t0 > t1 {
		return p, q, false
	}
	from, to = p, q
	if t0 > 0 {
		from = b.pull(point{p.X + t0*dx, p.Y + t0*dy})
	}
	if t1 < 1 {
		to = b.pull(point{p.X + t1*dx, p.Y + t1*dy})
	}
	return from, to, true
}

// beyond tells of points that lie both off one side of the box.
//
// Most segments far off are settled by this, without a division.
func (b box) beyond(p, q point) bool {
	return p.X < b.left && q.X < b.left || p.X > b.right && q.X > b.right || p.Y < b.top && q.Y < b.top || p.Y > b.bottom && q.Y > b.bottom
}

// pull moves a point that rounding left just outside onto the border.
//
// A point a millionth outside would be drawn outside the frame by a format that writes two
// decimals.
func (b box) pull(p point) point {
	return point{math.Max(b.left, math.Min(b.right, p.X)), math.Max(b.top, math.Min(b.bottom, p.Y))}
}

// simplify leaves out the points of a line that lie within tolerance of the
// chord drawn instead. It goes along the line once, keeping the range of
// directions in which a chord from the last kept point passes all the others. What is left
// takes the place of the line.
func simplify(line []point, tolerance float64) []point {
	if len(line) < 3 || tolerance == 0 {
		return line
	}
	out := line[:1]
	for i := 1; i < len(line); {
		end := reach(line, i, tolerance)
		out = append(out, line[end])
		i = end + 1
	}
	return out
}

// reach gives the index of the farthest point a chord from line[i-1] may go to. The
// chord passes a point within the tolerance if it runs between the two tangents to the
// circle around it.
func reach(line []point, i int, tolerance float64) int {
	from := line[i-1]
	var low, high point // directions, the second turned from the first by less than half a turn
	far, set := 0.0, false
	for ; i < len(line); i++ {
		d := point{line[i].X - from.X, line[i].Y - from.Y}
		square := d.X*d.X + d.Y*d.Y // of the distance
		if square < far {
			return i - 1
		}
		far = square
		if square <= tolerance*tolerance {
			continue
		}
		if set && (turned(low, d) < 0 || turned(d, high) < 0) {
			return i - 1
		}
		along := math.Sqrt(square - tolerance*tolerance)
		right := point{d.X*along + d.Y*tolerance, d.Y*along - d.X*tolerance}
		left := point{d.X*along - d.Y*tolerance, d.Y*along + d.X*tolerance}
		if !set || turned(low, right) > 0 {
			low = right
		}
		if !set || turned(left, high) > 0 {
			high = left
		}
		set = true
	}
	return len(line) - 1
}

// turned is positive where b is turned from a as y is from x, negative the other way.
func turned(a, b point) float64 { return a.X*b.Y - a.Y*b.X }
