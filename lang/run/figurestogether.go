package run

import (
	"math"
)

// mostTogether is how many written numbers are moved at most to see what a value keeps.
const mostTogether = 64

// together looks again at a value of which a difference on the way has taken figures: the
// terms may come from the same numbers, and lose less than terms that have nothing in
// common. Of I - I*R2/(R2 + R3) all is known that is known of I.
//
// One in the last figure of each number moves the value by as much as its slope says; the
// greatest of those moves is the place that the value is known to. It is never known to more
// figures than the number that has the fewest. The slot may have several elements.
//
// A temperature that is shown in °C has no such figures: they count from another zero than the
// kelvins that it is worked out in. The temperature of a mixture of 0.60 kg, 52 °C, moves by a
// fifth of a degree with the last figure of that, and is not known to two figures of 325 K.
func (m *mainFigures) together(s Slot, n Figured, element int, otherZero bool) Figured {
	if n.V == 0 || n.Place == 0 || n.kept && !otherZero {
		return n
	}
	moved, by, fewest := m.measured(s, n.V)
	known := func(n Figured) int { return n.Figures(n.V, n.Place) }
	if len(moved) == 0 || len(moved) > mostTogether || !otherZero && known(n) >= known(fewest) {
		return n
	}
	if otherZero {
		fewest = Figured{V: n.V}
	}
	x := m.p.newShift(m.st, s, moved)
	if x == nil || element >= len(x.out) {
		return n
	}
	x.reset()
	for i, p := range moved {
		x.aside(p, i)
	}
	x.run(2 * len(moved))
	out := fewest
	for i, p := range moved {
		place := math.Abs(x.slope(p, i, element) * p.U)
		if place-place != 0 {
			return n
		}
		if place > out.Place {
			out = Figured{V: n.V, Place: place, By: by[i]}
		}
	}
	if otherZero && out.Place > 0 {
		out.Place, out.Summed = math.Pow10(int(math.Round(math.Log10(out.Place)))), true
	}
	if out.Place > 0 && (out.Place < n.Place && otherZero || known(out) > known(n)) {
		return out
	}
	return n
}

// measured are the written numbers that a slot was worked out from, each moved by one in its
// last figure, and a value with the figures of the one that has the fewest.
func (m *mainFigures) measured(s Slot, v float64) (moved []Part, by []*Instr, fewest Figured) {
	m.p.needs(s, func(at Slot, _ *Instr) (goOn bool) {
		written := m.p.constants(at)
		for i := range written {
			of := m.d.constant(&written[i])
			if of.Place == 0 {
				continue
			}
			moved = append(moved, Part{Source: Source{Slot: at, Element: int32(i)}, U: of.Place})
			by = append(by, of.By)
			if kept := of.keeping(v); of.V != 0 && kept.Place > fewest.Place {
				fewest = kept
			}
		}
		return true
	})
	return moved, by, fewest
}
