package run

import (
	"math"
	"slices"

	"steelyard/lang/ops"
)

// traced is a number with the place on a tape where it was made; 0 for one that depends on
// no source. An uncertainty, and its quotient by anything, has none of its own: u(x)/x.
type traced struct {
	v    float64
	at   int32
	span bool
}

// tape keeps the operations on what depends on sources, in their order. One pass over it
// from behind tells the slopes of a value by all of its sources, however many those are
// (reverse accumulation: L. B. Rall, Automatic Differentiation, Springer 1981; from memory).
type tape struct {
	made    []made // the first stands for what depends on nothing
	sources []Part

	// What looking at it needs: slopes and what they are added up from, 0 between two looks,
	// and which were reached.
	slopes  []slope
	reached []bool
	// spread is about how far each value may be off, and left how far beyond its slopes an
	// operation goes then; of the first ones.
	spread, left []float64
}

// slope is a slope with the sum of the sizes of what it was added up from.
type slope struct{ v, size float64 }

// add adds to a slope.
func (s *slope) add(by, of slope) {
	s.v, s.size = s.v+float64(by.v*of.v), s.size+float64(by.size*of.size)
}

// left is a slope, or 0 where nothing is left of it but rounding.
func (s slope) left() float64 {
	if math.Abs(s.v) < 1e-13*s.size {
		return 0
	}
	return s.v
}

// made is one operation: with its operands, and where on the tape they were made.
type made struct {
	op        ops.Op
	a, b      int32
	va, vb, k float64
	// rough tells that its slopes are not those of its row: they are known at one place,
	// and nothing is known of how they change.
	rough bool
}

// add adds an operation to the tape, if it is on what depends on a source.
//
// Most of a page depends on no source; its operations leave nothing behind.
func (t *tape) add(m made, v float64) traced {
	if m.a == 0 && m.b == 0 && m.op != ops.Const {
		return traced{v: v}
	}
	if len(t.made) == 0 {
		t.made = append(t.made, made{})
	}
	t.made = append(t.made, m)
	return traced{v: v, at: int32(len(t.made) - 1)}
}

// source adds a source with a value.
func (t *tape) source(p Part, v float64) traced {
	t.sources = append(t.sources, p)
	return t.add(made{op: ops.Const, a: int32(len(t.sources) - 1)}, v)
}

// scaled adds a value with a slope that is known.
func (t *tape) scaled(n traced, by, v float64) traced {
	return t.add(made{op: ops.Mul, a: n.at, vb: by, va: n.v}, v)
}

// by are the slopes of an operation by its operands. Rounding is no part of what a value
// depends on: 49 for 49.36 ± 1.2 is as unsure.
func (m *made) by() (da, db float64) {
	switch m.op {
	case ops.Add, ops.Copy, ops.Select:
		return 1, 1
	case ops.Sub:
		return 1, -1
	case ops.Mul:
		return m.vb, m.va
	case ops.Round:
		return 1, 0
	}
	return m.op.Slopes(m.va, m.vb, m.k)
}

// value is that of an operation with other operands.
func (m *made) value(a, b float64) float64 { return m.op.Value(a, b, m.k) }

// unsure is what a value depends on.
//
// It goes from the value back to the sources, with the slope of the value by each operation
// on the way. An operation that is used twice has its slopes added up before they go on,
// since the list is in the order in which things were made: so x - x has the slope 0 by x,
// and x*x has 2x.
func (t *tape) unsure(n traced) Unsure {
	out := Unsure{V: n.v}
	if n.at == 0 {
		return out
	}
	t.measure(n.at)
	t.slopes = append(t.slopes, make([]slope, len(t.made)-len(t.slopes))...)
	t.slopes[n.at] = slope{1, 1}
	for _, at := range t.below(n.at) {
		m, by := &t.made[at], t.slopes[at]
		t.slopes[at] = slope{}
		if m.op == ops.Const {
			p := t.sources[m.a]
			p.Slope = by.left()
			out.By = append(out.By, p)
			continue
		}
		if left := t.left[at]; left != 0 {
			out.bent = math.Hypot(out.bent, by.v*left)
		}
		da, db := m.by()
		if m.a != 0 {
			t.slopes[m.a].add(by, slope{da, math.Abs(da)})
		}
		if m.b != 0 {
			t.slopes[m.b].add(by, slope{db, math.Abs(db)})
		}
	}
	slices.SortFunc(out.By, func(p, q Part) int { return p.compare(q.Source) })
	return out
}

// below are the places that one was made from, itself included, the last first.
func (t *tape) below(at int32) []int32 {
	t.reached = append(t.reached, make([]bool, len(t.made)-len(t.reached))...)
	list := []int32{at}
	t.reached[0], t.reached[at] = true, true
	for i := 0; i < len(list); i++ {
		m := &t.made[list[i]]
		if m.op == ops.Const {
			continue
		}
		for _, from := range [2]int32{m.a, m.b} {
			if !t.reached[from] {
				t.reached[from] = true
				list = append(list, from)
			}
		}
	}
	for _, at := range list {
		t.reached[at] = false
	}
	slices.SortFunc(list, func(i, j int32) int { return int(j - i) })
	return list
}

// measure finds how far what was made up to a place may be off, taking operands as if they
// had nothing in common, and how far each operation goes beyond its slopes within that.
//
// It is a first look that costs little, so that few values are looked at closely: where
// nothing bends much, slopes say all. What was measured once stays measured, as a tape only
// gets longer.
func (t *tape) measure(upTo int32) {
	for at := int32(len(t.left)); at <= upTo; at++ {
		m, spread, left := &t.made[at], 0.0, 0.0
		switch {
		case at == 0:
		case m.op == ops.Const:
			spread = t.sources[m.a].U
		default:
			a, b := t.spread[m.a], t.spread[m.b]
			da, db := m.by()
			left = m.beyond(a, b, da, db)
			spread = math.Hypot(math.Hypot(times(da, a), times(db, b)), left)
		}
		t.spread, t.left = append(t.spread, spread), append(t.left, left)
	}
}

// times is a product in which 0 stays 0.
func times(da, by float64) float64 {
	if by == 0 {
		return 0
	}
	return float64(da * by)
}

// beyond is how far an operation goes beyond its slopes where its operands are off by a and
// b; infinite where it has no value there.
func (m *made) beyond(a, b, da, db float64) float64 {
	switch {
	case m.rough:
		return math.Inf(1)
	case m.op == ops.Mul:
		return float64(a * b)
	case m.op == ops.Add, m.op == ops.Sub, m.op == ops.Neg, m.op == ops.Copy, m.op == ops.Round:
		return 0
	case m.op == ops.Select: // between pieces, where the condition may go either way
		if b > 0 {
			return math.Abs(m.k)
		}
		return 0
	}
	// The corners of the rectangle that the operands lie in are where a smooth operation is
	// farthest from its tangent plane.
	v, most := m.value(m.va, m.vb), 0.0
	for corner := range 4 {
		x, y := a, b
		if corner&1 != 0 {
			x = -x
		}
		if corner&2 != 0 {
			y = -y
		}
		off := math.Abs(m.value(m.va+x, m.vb+y) - v - times(da, x) - times(db, y))
		if off-off != 0 {
			return math.Inf(1)
		}
		most = max(most, off)
	}
	return most
}
