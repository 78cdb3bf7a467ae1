package graph

import (
	"math"
	"slices"
	"strconv"
)

// poleWidth is how far the points on both sides of a pole are apart at most, as a part of
// the range.
const poleWidth = 0.02

// ends looks at where the pieces of a curve begin and end: at a pole, at a jump, or where
// a range without a value begins.
func (s *sampler) ends(c *Curve) {
	if c.Empty() {
		return
	}
	close := (s.to - s.from) * 1e-6
	if first := c.Runs[0][0]; first.X > s.from+close && c.off(first) {
		c.Poles = append(c.Poles, s.edge(first.X, s.from))
	}
	for i := 1; i < len(c.Runs); i++ {
		before := c.Runs[i-1]
		left, right, place, valued := s.locate(before[len(before)-1], c.Runs[i][0], -1, s.far)
		c.Breaks = append(c.Breaks, place)
		offLeft, offRight := c.off(left), c.off(right)
		switch wide := right.X - left.X; {
		case (offLeft || offRight) && wide < poleWidth*(s.to-s.from):
			c.Poles = append(c.Poles, place)
		case wide > close: // a range without a value
			if offLeft {
				c.Poles = append(c.Poles, s.edge(left.X, place))
			}
			if offRight {
				c.Poles = append(c.Poles, s.edge(right.X, place))
			}
		default:
			valued = valued && !s.without(before[len(before)-1].X, c.Runs[i][0].X)
			first := s.holdsPlace(left.X, right.X)
			c.Dots = append(c.Dots, Dot{left, !valued || !first}, Dot{right, !valued || first})
		}
	}
	lastRun := c.Runs[len(c.Runs)-1]
	if last := lastRun[len(lastRun)-1]; last.X < s.to-close && c.off(last) {
		c.Poles = append(c.Poles, s.edge(last.X, s.to))
	}
}

// edge is how far a curve has values from a place where it has one, toward another where
// it has none.
func (s *sampler) edge(in, out float64) float64 {
	in, _ = border(in, out, func(x float64) bool { _, ok := s.at(x); return ok })
	return in
}

// border is where something ends that holds at one place and not at another: the last number
// found at which it does, and the first at which it doesn't.
func border(in, out float64, holds func(x float64) bool) (last, first float64) {
	for range 60 {
		mid := in + (out-in)/2
		if mid == in || mid == out {
			break
		}
		if holds(mid) {
			in = mid
		} else {
			out = mid
		}
	}
	return in, out
}

// without tells whether a place between two was looked at and has no value.
func (s *sampler) without(from, to float64) bool {
	i, _ := slices.BinarySearch(s.x, from)
	for ; i < len(s.x) && s.x[i] < to; i++ {
		if !s.ok[i] {
			return true
		}
	}
	return false
}

// off tells whether a point lies beyond the values worth showing.
func (c *Curve) off(p Point) bool { return c.Cut && (p.Y < c.Lo || p.Y > c.Hi) }

// locate narrows the break between two points to its place: where the rise is that stays
// when the piece is halved, or where there is no value, nor one that drop takes for none. It
// ends where the rise is no more than the least that counts.
func (s *sampler) locate(a, b Point, least float64, drop func(y float64) bool) (left, right Point, place float64, valued bool) {
	for range 100 {
		mid := a.X + (b.X-a.X)/2
		if mid == a.X || mid == b.X || math.Abs(b.Y-a.Y) <= least {
			break
		}
		y, ok := s.at(mid)
		switch {
		case !ok || drop(y):
			return a, b, mid, false
		case math.Abs(y-a.Y) >= math.Abs(b.Y-y):
			b = Point{mid, y}
		default:
			a = Point{mid, y}
		}
	}
	return a, b, a.X, true
}

// holdsPlace tells whether a jump between two neighbouring numbers is at the first of
// them, whose value then is the curve's at the jump: at one that is known to matter, else
// at that with fewer digits.
func (s *sampler) holdsPlace(a, b float64) bool {
	if slices.Contains(s.through, b) {
		return false
	}
	if slices.Contains(s.through, a) {
		return true
	}
	round, err := strconv.ParseFloat(strconv.FormatFloat(a, 'g', 12, 64), 64)
	return err == nil && math.Abs(a-round) <= math.Abs(b-round)
}
