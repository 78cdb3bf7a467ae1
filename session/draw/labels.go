package draw

import (
	"math"
	"sort"
)

// name is the direct label of a curve, at its baseline.
type name struct {
	curve int
	label
	x, y   float64
	anchor anchor
	wish   float64 // where y would best be
	order  float64
}

const mostSegments = 5000

// placeNames finds a place for the name of each curve: right of the plot
// beside its end, or near a point inside the plot that nothing else needs. A
// curve whose name finds none is told in the key.
func (s *figureLayout) placeNames() {
	var ends, others []name
	for i, l := range s.labels {
		n := name{curve: i, label: l, anchor: start}
		pieces := s.seen[i]
		if width(n.text) == 0 {
			continue
		}
		if len(pieces) == 0 || textWidth(n.text) > figureWidth/4 {
			s.keyed = append(s.keyed, i)
			continue
		}
		last := pieces[len(pieces)-1]
		end := last[len(last)-1]
		if end.X < s.box.right-2 {
			others = append(others, n)
			continue
		}
		n.x, n.wish = s.box.right+6, end.Y+ascent/2-0.5
		n.order = n.wish + 0.3*(before(last, 30)-end.Y)
		ends = append(ends, n)
	}
	spread(ends, s.box.top+ascent, s.box.bottom)
	s.names = ends
	for _, n := range ends {
		if math.Abs(n.y-n.wish) > lineHeight { // too far off to be read alone
			s.keyed = append(s.keyed, n.curve)
		}
	}
	segments := 0
	for _, pieces := range s.seen {
		for _, line := range pieces {
			segments += len(line)
		}
	}
	for _, n := range others {
		// A search among very many lines would take long and find nothing.
		if segments < mostSegments/len(others) && s.inside(&n) {
			s.names = append(s.names, n)
		} else {
			s.keyed = append(s.keyed, n.curve)
		}
	}
	if len(s.keyed) > 0 { // a key with some of the names would puzzle
		s.keyed = s.keyed[:0]
		for i, l := range s.labels {
			if width(l.text) > 0 {
				s.keyed = append(s.keyed, i)
			}
		}
	}
}

// before gives the height of a line some way before its end.
func before(line []point, way float64) float64 {
	end := line[len(line)-1]
	for i := len(line) - 2; i >= 0; i-- {
		p, q := line[i], line[i+1]
		if reached := end.X - p.X; reached >= way && q.X > p.X {
			return p.Y + (q.Y-p.Y)*(reached-way)/(q.X-p.X)
		}
	}
	return line[0].Y
}

// backward gives n points evenly along a line, its end first.
func backward(line []point, n int) []point {
	length := 0.0
	for i := 1; i < len(line); i++ {
		length += math.Hypot(line[i].X-line[i-1].X, line[i].Y-line[i-1].Y)
	}
	step := length / float64(n)
	out := []point{line[len(line)-1]}
	todo := step
	for i := len(line) - 1; i > 0 && step > 0; i-- {
		p, q := line[i], line[i-1]
		piece := math.Hypot(q.X-p.X, q.Y-p.Y)
		for at := todo; at <= piece && len(out) < n; at += step {
			out = append(out, point{p.X + (q.X-p.X)*at/piece, p.Y + (q.Y-p.Y)*at/piece})
			todo += step
		}
		todo -= piece
	}
	return out
}

// spread sets the heights of names above one another: as near to their wishes
// as a line's height between them allows, and within top and bottom.
func spread(names []name, top, bottom float64) {
	sort.SliceStable(names, func(i, j int) bool { return names[i].order < names[j].order })
	type group struct {
		first, n int
		middle   float64
	}
	var groups []group
	settle := func(g group) group {
		sum := 0.0
		for i := range g.n {
			sum += names[g.first+i].wish
		}
		half := lineHeight * float64(g.n-1) / 2
		g.middle = math.Max(top+half, math.Min(bottom-half, sum/float64(g.n)))
		return g
	}
	for i := range names {
		g := settle(group{i, 1, 0})
		for len(groups) > 0 {
			p := groups[len(groups)-1]
			if g.middle-p.middle >= lineHeight*float64(g.n+p.n)/2 {
				break
			}
			groups = groups[:len(groups)-1]
			g = settle(group{p.first, p.n + g.n, 0})
		}
		groups = append(groups, g)
	}
	for _, g := range groups {
		for i := range g.n {
			names[g.first+i].y = g.middle + lineHeight*(float64(i)-float64(g.n-1)/2)
		}
	}
}

// inside looks for a free place beside the curve's points from its end
// backward, right of them before left, above before below.
func (s *figureLayout) inside(n *name) bool {
	w := textWidth(n.text)
	pieces := s.seen[n.curve]
	for _, p := range backward(pieces[len(pieces)-1], 40) {
		for _, q := range []point{
			{p.X + 8, p.Y + ascent/2}, {p.X - 8 - w, p.Y + ascent/2},
			{p.X + 6, p.Y - 10}, {p.X - 6 - w, p.Y - 10}, {p.X + 6, p.Y + ascent + 8}, {p.X - 6 - w, p.Y + ascent + 8},
		} {
			if s.free(textBox(q.X, q.Y, start, n.text)) {
				n.x, n.y = q.X, q.Y
				return true
			}
		}
	}
	return false
}

// free says whether a box lies within the plot, clear of all curves,
// names and zero lines, with a little room around it.
func (s *figureLayout) free(b box) bool {
	if b.left < s.box.left+3 || b.right > s.box.right || b.top < s.box.top || b.bottom > s.box.bottom-3 {
		return false
	}
	for _, n := range s.names {
		if b.meets(textBox(n.x, n.y, n.anchor, n.text)) {
			return false
		}
	}
	wide := box{b.left - 4, b.top - 4, b.right + 4, b.bottom + 4}
	zero := s.at(0, 0)
	if wide.left <= zero.X && zero.X <= wide.right || wide.top <= zero.Y && zero.Y <= wide.bottom {
		return false
	}
	for _, pieces := range s.seen {
		for _, line := range pieces {
			for i := 1; i < len(line); i++ {
				if _, _, crossed := wide.segment(line[i-1], line[i]); crossed {
					return false
				}
			}
		}
	}
	return true
}

func (b box) meets(c box) bool {
	const touch = 1e-6 // boxes that touch do not meet, whatever rounding makes of it
	return b.left < c.right-touch && c.left < b.right-touch && b.top < c.bottom-touch && c.top < b.bottom-touch
}

const sampleLength = 44.0

// keyColumns gives how many entries of the key stand beside one another.
func (s *figureLayout) keyColumns() int {
	widest := 1.0
	for _, i := range s.keyed {
		widest = math.Max(widest, sampleLength+8+textWidth(s.labels[i].text)+20)
	}
	return max(1, int((figureWidth-2*edge+20)/widest))
}

func (s *figureLayout) keyLines() int {
	room := figureWidth - 2*edge - sampleLength - 8
	if columns := s.keyColumns(); columns > 1 {
		return (len(s.keyed) + columns - 1) / columns
	}
	n := 0
	for _, i := range s.keyed {
		n += len(s.labels[i].rows(room))
	}
	return n
}

// writeKey draws a sample of each line of the key beside its name, from y downward.
func (s *figureLayout) writeKey(y float64) {
	columns := s.keyColumns()
	across := (figureWidth - 2*edge) / float64(columns)
	for k, i := range s.keyed {
		x := edge + across*float64(k%columns)
		level := y + lineHeight/2 - 1
		s.curves(curveInk(i), [][]point{{{x, level}, {x + sampleLength, level}}})
		if columns == 1 {
			y = s.block(x+sampleLength+8, y, s.labels[i].rows(figureWidth-2*edge-sampleLength-8))
			continue
		}
		s.text(x+sampleLength+8, y+ascent+2, start, s.labels[i])
		if (k+1)%columns == 0 || k == len(s.keyed)-1 {
			y += lineHeight
		}
	}
}
