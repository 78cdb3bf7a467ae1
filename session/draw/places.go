package draw

import "iter"

// ground is where names look for their places.
type ground struct {
	area  box
	seen  [][][]point // the visible pieces of each curve
	names []name
	// crowded tells that lines may go any way.
	crowded bool
	// zero is where the lines of zero cross, which names keep off; a drawing without
	// them has it outside of the area.
	zero point
}

// inside looks for a free place beside points of the curve from its end backward, right
// of them before left, above before below.
//
// A name right of a point and above it is read with the curve below it, as in most books; left and
// below are second best.
func (s *ground) inside(n *name, marks iter.Seq[point]) bool {
	w := textWidth(n.text)
	for p := range marks {
		for _, q := range []point{
			{p.X + 8, p.Y + ascent/2}, {p.X - 8 - w, p.Y + ascent/2},
			{p.X + 6, p.Y - 8}, {p.X - 6 - w, p.Y - 8}, {p.X + 6, p.Y + ascent + 7}, {p.X - 6 - w, p.Y + ascent + 7},
		} {
			if s.free(textBox(q.X, q.Y, start, n.text)) {
				n.x, n.y = q.X, q.Y
				return true
			}
		}
	}
	return false
}

// marks gives up to n points along a curve, its end first, that lie on no other curve.
// Whether one does is looked at when it is asked for: a name is mostly put by the first.
func (s *ground) marks(curve, n int) iter.Seq[point] {
	pieces := s.seen[curve]
	return func(yield func(point) bool) {
		for _, p := range backward(pieces[len(pieces)-1], n) {
			around := box{p.X - 6, p.Y - 6, p.X + 6, p.Y + 6}
			if !s.crossed(around, curve) && !yield(p) {
				return
			}
		}
	}
}

// afar looks for a free place some way off points of the curve, to which a leader goes:
// one that crosses no other curve, if there is any.
//
// Short leaders are tried first, and all that cross no curve before any that does.
func (s *ground) afar(n *name, marks []point) bool {
	w := textWidth(n.text)
	for _, crossing := range []bool{false, true} {
		for way := 20.0; way < s.area.bottom-s.area.top; way *= 1.5 {
			for _, p := range marks {
				for _, d := range s.ways() {
					to := point{p.X + d.X*way, p.Y + d.Y*way}
					n.x, n.y = to.X+3, to.Y+ascent/2
					if d.X < 0 {
						n.x = to.X - 3 - w
					}
					n.leader = []point{p, to}
					if s.free(textBox(n.x, n.y, start, n.text)) && s.leads(n, crossing) {
						return true
					}
				}
			}
		}
	}
	return false
}

// ways are the directions in which leaders go: aslant, and in a crowded drawing in all
// between.
func (s *ground) ways() []point {
	all := [...]point{{0.7, -0.7}, {0.7, 0.7}, {-0.7, -0.7}, {-0.7, 0.7}, {0.92, -0.38}, {0.92, 0.38}, {-0.92, -0.38}, {-0.92, 0.38}, {0.38, -0.92}, {0.38, 0.92}, {-0.38, -0.92}, {-0.38, 0.92}}
	if s.crowded {
		return all[:]
	}
	return all[:4]
}

// leads says whether the leader of a name crosses no other name or leader and, unless
// that may be, no other curve.
func (s *ground) leads(n *name, crossing bool) bool {
	from, to := n.leader[0], n.leader[1]
	for _, other := range s.names {
		if _, _, crossed := textBox(other.x, other.y, other.anchor, other.text).segment(from, to); crossed {
			return false
		}
		if other.leader != nil && cross(from, to, other.leader[0], other.leader[1]) {
			return false
		}
	}
	for i, pieces := range s.seen {
		for _, line := range pieces {
			for k := 1; k < len(line) && i != n.curve && !crossing; k++ {
				if cross(from, to, line[k-1], line[k]) {
					return false
				}
			}
		}
	}
	return true
}

// cross says whether two lines from point to point cross.
func cross(a, b, c, d point) bool {
	side := func(a, b, p point) bool {
		return float64((b.X-a.X)*(p.Y-a.Y)) > float64((b.Y-a.Y)*(p.X-a.X))
	}
	return side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b)
}

// free says whether a box lies within the plot, clear of all curves,
// names and zero lines, with a little room around it.
func (s *ground) free(b box) bool {
	if b.left < s.area.left+3 || b.right > s.area.right || b.top < s.area.top || b.bottom > s.area.bottom-3 {
		return false
	}
	for _, n := range s.names {
		if b.meets(textBox(n.x, n.y, n.anchor, n.text)) {
			return false
		}
		if n.leader != nil {
			if _, _, crossed := b.segment(n.leader[0], n.leader[1]); crossed {
				return false
			}
		}
	}
	wide := box{b.left - 4, b.top - 4, b.right + 4, b.bottom + 4}
	if wide.left <= s.zero.X && s.zero.X <= wide.right || wide.top <= s.zero.Y && s.zero.Y <= wide.bottom {
		return false
	}
	return !s.crossed(wide, -1)
}

// crossed says whether any curve but one goes through a box.
func (s *ground) crossed(b box, but int) bool {
	for i, pieces := range s.seen {
		for _, line := range pieces {
			for k := 1; k < len(line) && i != but; k++ {
				if b.beyond(line[k-1], line[k]) {
					continue
				}
				if _, _, crossed := b.segment(line[k-1], line[k]); crossed {
					return true
				}
			}
		}
	}
	return false
}

func (b box) meets(c box) bool {
	const touch = 1e-6 // boxes that touch do not meet, whatever rounding makes of it
	return b.left < c.right-touch && c.left < b.right-touch && b.top < c.bottom-touch && c.top < b.bottom-touch
}
