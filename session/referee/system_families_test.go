package referee

import (
	"fmt"

	"steelyard/lang/finding"
	"steelyard/session/entry"
	"steelyard/units"
)

// pairs judges two equations for x and y that have one solution, none or
// infinitely many.
type pairs struct {
	x, y between
	many bool
	none bool
	room float64 // how far each may be off, as a part of the greater
}

func (p pairs) judge(h *hearing) ruling {
	if h.found(finding.NoSolution) != nil {
		if p.none {
			return solved
		}
		return wrong("false: there is a solution")
	}
	if f := h.found(finding.WhichRoot); f != nil {
		return wrong("several solutions are named, and there are not several: %s", p.text())
	}
	v := h.last.Values()
	if len(v) == 0 {
		if p.many || p.none {
			return ruling{solved: h.found(finding.NotSolved) != nil}
		}
		return silent
	}
	if p.many || p.none {
		return wrong("there is %s", p.text())
	}
	for i, want := range []between{p.x, p.y} {
		if len(v) != 2 {
			return wrong("not two values")
		}
		if r := p.fits(v[i], want); r.wrong != "" {
			return r
		}
	}
	return solved
}

func (p pairs) text() string {
	switch {
	case p.many:
		return "no single solution: one equation follows from the other"
	case p.none:
		return "no solution: the equations contradict each other"
	}
	return "x = " + p.x.text() + ", y = " + p.y.text()
}

func (p pairs) fits(v entry.Value, want between) ruling {
	room := max(p.room, 1e-9) * max(p.x.size(), p.y.size())
	switch {
	case want.isZero() && p.room == 0 && v.SI != 0:
		return wrong("%s is 0", v.Shown(units.Screen))
	case apart(float(v.SI), want) > room:
		return wrong("%s is %s", v.Shown(units.Screen), want.text())
	}
	return solved
}

// systems are two linear equations.
func systems(d dice) scene {
	a, b, x, y := d.signed(), d.signed(), d.signed(), d.signed()
	if d.IntN(4) == 0 {
		y = dec(0, 1)
	}
	at := func(a, b decimal) decimal { return a.mul(x).add(b.mul(y)) }
	line := func(a, b, c decimal, unit string) string { return fmt.Sprintf("(%s)*x + (%s)*y = %s%s", a, b, c, unit) }
	unit := pick(d, "", " m")
	p := pairs{x: x.between(), y: y.between()}
	c, e := d.signed(), d.signed()
	k := d.few()
	right := at(c, e)
	switch d.IntN(4) {
	case 0: // dependent
		c, e, right, p.many = k.mul(a), k.mul(b), k.mul(at(a, b)), true
	case 1: // contradictory
		c, e = k.mul(a), k.mul(b)
		right, p.none = k.mul(at(a, b)).add(pick(d, dec(1, 10), dec(1, 1000), k)), true
	case 2: // nearly so
		c, e = k.mul(a), k.mul(b).add(dec(1, 1000))
		right, p.room = at(c, e), 1e-7
	default:
		if a.mul(e).Cmp(b.mul(c).Rat) == 0 {
			c = c.add(dec(1, 2))
			if c.Sign() == 0 {
				c = dec(1, 1)
			}
			if a.mul(e).Cmp(b.mul(c).Rat) == 0 {
				return scene{lines: []string{"check 1 = 1"}, judge: judgeCheck}
			}
			right = at(c, e)
		}
	}
	return scene{lines: []string{fmt.Sprintf("solve %s and %s for x, y", line(a, b, at(a, b), unit), line(c, e, right, unit))}, judge: p.judge}
}
