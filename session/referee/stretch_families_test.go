package referee

import (
	"fmt"
	"regexp"
	"strings"

	"steelyard/lang/finding"
)

// stretch is all numbers between two bounds, of which nil is none.
type stretch struct {
	lo, hi         *decimal
	withLo, withHi bool
}

// stretches are equations that every number of a stretch solves.
func stretches(d dice) scene {
	a, b, h := d.few(), d.few(), d.few()
	b = a.add(b)
	from := func(a decimal, with bool) stretch { return stretch{lo: &a, withLo: with} }
	upTo := func(a decimal, with bool) stretch { return stretch{hi: &a, withHi: with} }
	switch d.IntN(9) {
	case 0:
		return from(a, true).of(fmt.Sprintf("solve min(x, %s) = %s for x", a, a))
	case 1:
		return upTo(a, true).of(fmt.Sprintf("solve max(%s, x) = %s for x", a, a))
	case 2: // halves are rounded away from 0
		k := dec(int64(d.IntN(9)-4), 1)
		half := h.mul(dec(1, 2))
		lo, hi := k.mul(h).sub(half), k.mul(h).add(half)
		return stretch{&lo, &hi, k.Sign() > 0, k.Sign() < 0}.of(fmt.Sprintf("solve round(x, %s) = %s for x", h, k.mul(h)))
	case 3:
		return from(a, false).of(fmt.Sprintf("solve sgn(x - %s) = 1 for x", a))
	case 4:
		return stretch{&a, &b, true, true}.of(fmt.Sprintf("solve abs(x - %s) + abs(x - %s) = %s for x", a, b, b.sub(a)))
	case 5:
		return from(a, true).of(fmt.Sprintf("solve abs(x - %s) = x - %s for x", a, a))
	case 6:
		return stretch{&a, &b, true, true}.of(fmt.Sprintf("solve max(%s, min(x, %s)) = x for x", a, b))
	case 7:
		return upTo(dec(0, 1), true).of(fmt.Sprintf("solve %s*abs(x) + %s*x = 0 for x", h, h))
	}
	zero := dec(0, 1)
	f := fmt.Sprintf("F(x) =\n  %s for 0 ≤ x < %s\n  %s for %s ≤ x ≤ %s", h, a, h.add(h), a, b)
	if d.IntN(2) == 0 {
		return stretch{&zero, &a, true, false}.of(f, fmt.Sprintf("solve F(x) = %s for x", h))
	}
	return stretch{&a, &b, true, true}.of(f, fmt.Sprintf("solve F(x) = %s for x", h.add(h)))
}

func (s stretch) of(lines ...string) scene { return scene{lines: lines, judge: s.judge} }

// everyText is the stretch that a message names.
var everyText = regexp.MustCompile(`^Every x (?:with (.+) ([≤<]) x ([≤<]) (.+)|([≤≥<>]) (.+)) solves`)

// judge hears which stretch is claimed.
func (s stretch) judge(h *hearing) ruling {
	if h.found(finding.NoSolution) != nil || len(h.last.Values()) > 0 {
		return wrong("it is a whole stretch")
	}
	f := h.found(finding.WhichRoot)
	if f == nil {
		return silent
	}
	m := everyText.FindStringSubmatch(f.Message)
	if m == nil {
		return wrong("it is one stretch")
	}
	lo, withLo, hi, withHi := m[1], m[2] == "≤", m[4], m[3] == "≤"
	switch m[5] {
	case "≥", ">":
		lo, withLo = m[6], m[5] == "≥"
	case "≤", "<":
		hi, withHi = m[6], m[5] == "≤"
	}
	if !h.isBound(lo, s.lo) || !h.isBound(hi, s.hi) {
		return wrong("the bounds are %v and %v", s.lo, s.hi)
	}
	if withLo != s.withLo || withHi != s.withHi {
		return wrong("the bounds belong to it: %t, %t", s.withLo, s.withHi)
	}
	return solved
}

// recurs is a stretch that comes again after each period.
type recurs struct{ lo, hi, period between }

// againText is one that a message names.
var againText = regexp.MustCompile(`^Every x with (.+?) ≤ x ≤ (.+?), with any whole number n, solves`)

func (t recurs) judge(h *hearing) ruling {
	if h.found(finding.NoSolution) != nil || len(h.last.Values()) > 0 {
		return wrong("whole stretches solve it")
	}
	f := h.found(finding.WhichRoot)
	if f == nil {
		return silent
	}
	m := againText.FindStringSubmatch(f.Message)
	if m == nil {
		return wrong("a stretch solves it, again and again")
	}
	for i, is := range []between{t.lo, t.hi} {
		parts := strings.Split(m[1+i], "n·")
		at, ok := printed{is: whole(0)}, true
		if first := strings.TrimSuffix(parts[0], " + "); first != "" {
			at, ok = h.meant.printed(first)
		}
		by, ok2 := h.meant.printed(parts[len(parts)-1])
		if !ok || !ok2 || len(parts) != 2 {
			return silent
		}
		if apart(by.is, t.period) > by.half || apart(nextTo(is, at.is, t.period), at.is) > at.half+1e-9 {
			return wrong("it goes from %s to %s, again after %s", t.lo.text(), t.hi.text(), t.period.text())
		}
	}
	return solved
}

// isBound tells whether a bound is named as it is, or not where there is none.
func (h *hearing) isBound(text string, is *decimal) bool {
	if text == "" || is == nil {
		return text == "" && is == nil
	}
	p, ok := h.meant.printed(text)
	return ok && apart(p.is, is.between()) <= p.half
}
