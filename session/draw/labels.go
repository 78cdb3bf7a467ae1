package draw

import (
	"math"
	"slices"
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
	leader []point // a thin line from the curve to a name that is not beside it
}

const (
	mostNamed    = 6 // curves whose names are put beside them; more have a key
	mostSegments = 5000
	nameGap      = 6.0  // between a curve's end and its name
	leaderGap    = 22.0 // the same, with a leader between them
)

// placeNames finds a place for the name of each curve: right of the plot beside its
// end, or inside at a place that nothing else needs, with a leader where it isn't beside
// its curve. Where there are too many curves, or a name finds no place, a key tells
// them all.
//
// A name at its curve is found faster than a pattern in a key. But half of the names at curves and
// half in a key would have a reader look twice, so that it is all or none.
func (s *figureLayout) placeNames() {
	var ends, others []name
	segments := 0
	for i, l := range s.labels {
		n := name{curve: i, label: l, anchor: start}
		pieces := s.seen[i]
		for _, line := range pieces {
			segments += len(line)
		}
		if width(n.text) == 0 {
			continue
		}
		s.keyed = append(s.keyed, i)
		if len(pieces) == 0 {
			return
		}
		last := pieces[len(pieces)-1]
		end := last[len(last)-1]
		if end.X < s.box.right-2 || textWidth(n.text) > s.width/4 {
			others = append(others, n)
			continue
		}
		n.x, n.wish = s.box.right+nameGap, end.Y+ascent/2-0.5
		n.order = n.wish + 0.02*(before(last, 30)-end.Y)
		ends = append(ends, n)
	}
	// A search among very many lines would take long and find nothing.
	if len(s.keyed) > mostNamed || segments*len(others) > mostSegments {
		return
	}
	ends = s.clustered(ends)
	spread(ends, s.box.top+ascent, s.box.bottom)
	s.lead(ends)
	s.names = append(s.names, ends...)
	for _, n := range others {
		if !s.beside(&n) {
			s.names = nil
			return
		}
		s.names = append(s.names, n)
	}
	s.keyed = nil
}

// beside finds a place for a name by its curve, if there is one.
func (s *figureLayout) beside(n *name) bool {
	return s.inside(n, s.marks(n.curve, 40)) || s.afar(n, slices.Collect(s.marks(n.curve, 24)))
}

// clustered puts the names of curves that end all but in one point elsewhere, where
// there is a place, and gives the others.
func (s *figureLayout) clustered(ends []name) []name {
	var left []name
	for i, n := range ends {
		alone := !slices.ContainsFunc(ends, func(other name) bool {
			return other.curve != n.curve && math.Abs(other.wish-n.wish) < lineHeight/3
		})
		if alone || !s.beside(&n) {
			left = append(left, ends[i])
			continue
		}
		s.names = append(s.names, n)
	}
	return left
}

// lead draws leaders to the names right of the plot where one is off the end of its
// curve.
func (s *figureLayout) lead(ends []name) {
	off := func(n name) bool { return math.Abs(n.y-n.wish) > lineHeight/3 }
	if !slices.ContainsFunc(ends, off) {
		return
	}
	for i := range ends {
		n := &ends[i]
		n.x = s.box.right + leaderGap
		n.leader = []point{{s.box.right + 2, n.wish - ascent/2}, {n.x - 4, n.y - ascent/2}}
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
//
// Neighbours that would overlap form a group, which is put as near as can be to the mean of its
// wishes; groups that then meet become one. That is the least sum of squares of how far names are
// off.
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

// key is the key to the lines of curves that have no name beside them.
func (s *figureLayout) key() *key {
	k := &key{sample: 44, gap: 8, apart: 20, most: math.MaxInt, width: s.width}
	for _, i := range s.keyed {
		k.names = append(k.names, s.labels[i])
	}
	return k
}
