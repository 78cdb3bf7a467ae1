package referee

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"

	"steelyard/session/entry"
)

// poles are curves that run off, to the same side or to different ones on the left and
// on the right.
func poles(d dice) scene {
	p, q := d.few(), d.few()
	if p.Cmp(q.Rat) == 0 {
		q = q.add(dec(1, 2))
	}
	if p.Cmp(q.Rat) > 0 {
		p, q = q, p
	}
	wide := q.sub(p)
	from, to := p.sub(wide.mul(dec(7, 10))), q.add(wide.mul(dec(13, 10)))
	h := pick(d, dec(1, 1), d.few())
	both := ordered(p.between(), q.between())
	ask := func(body string, at ...between) scene {
		line := fmt.Sprintf("graph %s against x from %s to %s", body, from, to)
		return scene{lines: []string{line}, judge: runsOff(at).judge}
	}
	switch d.IntN(9) {
	case 0:
		return ask(fmt.Sprintf("%s/(x - %s)^2", h, p), p.between())
	case 1:
		return ask(fmt.Sprintf("%s/((x - %s)*(x - %s))", h, p, q), both...)
	case 2:
		return ask(fmt.Sprintf("%s/(x - %s)^2 + 1/(x - %s)^2", h, p, q), both...)
	case 3:
		return ask(fmt.Sprintf("1/(x - %s)^2 - %s/(x - %s)", p, h, q), both...)
	case 4:
		return ask(fmt.Sprintf("ln(abs(x - %s))", q), q.between())
	case 5:
		return ask(fmt.Sprintf("1/abs((x - %s)*(x - %s))^0.5", p, q), both...)
	case 6: // no pole where a factor cancels
		return ask(fmt.Sprintf("(x - %s)/((x - %s)*(x - %s)^2)", p, p, q), q.between())
	case 7: // the square root of p is a place of many figures
		root, _ := p.between().sqrt()
		from, to = dec(0, 1), q.add(dec(2, 1))
		return ask(fmt.Sprintf("%s/(x^2 - %s)^2", h, p), root)
	}
	from, to = dec(0, 1), dec(int64(4+d.IntN(9)), 1)
	var at []between
	for n := int64(1); ; n += 2 {
		pole := piBetween().mul(exactly(big.NewRat(n, 2)))
		if pole.mid() > float64(to.Num().Int64()) {
			break
		}
		at = append(at, pole)
	}
	return ask(pick(d, "tan(x)^2", "1/cos(x)^2", "tan(x)"), at...)
}

// runsOff are the places where a curve runs off.
type runsOff []between

// offText is what is said of that, and placesOf a list of places.
var (
	offText    = regexp.MustCompile(`runs off (.+?)(?:;|\(|\.$)`)
	betweenAny = regexp.MustCompile(`between x = ([^ ,]+) and ([^ ,]+)`)
	atAny      = regexp.MustCompile(`at x = ([^ ,]+)`)
)

// judge hears which places are named: none that is no pole, and all up to five.
func (r runsOff) judge(h *hearing) ruling {
	g, ok := h.last.Outcome.(*entry.Graph)
	if !ok || len(g.Shapes) == 0 {
		return silent
	}
	text := g.Shapes[0].String()
	m := offText.FindStringSubmatch(text)
	if m == nil {
		if strings.Contains(text, "greatest") {
			return wrong("it runs off at %s", r[0].text())
		}
		return silent
	}
	seen := map[int]bool{}
	for _, named := range betweenAny.FindAllStringSubmatch(m[1], -1) {
		lo, ok1 := h.meant.printed(named[1])
		hi, ok2 := h.meant.printed(named[2])
		inside := false
		for i, pole := range r {
			if hull(lo.is, hi.is).wider(lo.half + hi.half).meets(pole) {
				inside, seen[i] = true, true
			}
		}
		if ok1 && ok2 && !inside {
			return wrong("there is no pole between %s and %s", named[1], named[2])
		}
	}
	for _, named := range atAny.FindAllStringSubmatch(m[1], -1) {
		p, ok := h.meant.printed(named[1])
		is := -1
		for i, pole := range r {
			if apart(p.is, pole) <= p.half {
				is = i
			}
		}
		if ok && is < 0 {
			return wrong("there is no pole at %s", named[1])
		}
		seen[is] = true
	}
	return ruling{solved: len(seen) >= min(len(r), 5)}
}

// insides are areas between a parabola and a line that cuts it, and between two curves
// that cross.
func insides(d dice) scene {
	p, q := d.few(), d.few()
	if p.Cmp(q.Rat) == 0 {
		q = q.add(dec(1, 2))
	}
	if p.Cmp(q.Rat) > 0 {
		p, q = q, p
	}
	// (p + q) x - p q is the line through two points of x²; between them lies (q - p)³/6.
	wide := q.sub(p)
	cube := wide.mul(wide).mul(wide)
	lines := []string{"f(x) = x^2", fmt.Sprintf("g(x) = %s*x - %s", p.add(q), p.mul(q))}
	is := cube.mul(dec(1, 6))
	ask := func(body string, from, to decimal, is, under decimal) scene {
		return area{is: is.between(), under: under.between()}.of(append(lines, fmt.Sprintf("area under %s against x from %s to %s", body, from, to)))
	}
	far := q.add(wide) // as far again: 5/6 of the cube below
	beyond := cube.mul(dec(5, 6))
	switch d.IntN(4) {
	case 0:
		return ask("g(x) - f(x)", p, q, is, is)
	case 1:
		return ask("abs(f(x) - g(x))", p, far, is.add(beyond), is.add(beyond))
	case 2:
		return ask("max(f(x), g(x)) - f(x)", p, far, is, is)
	}
	return ask("f(x) - g(x)", p, far, beyond.sub(is), beyond.add(is))
}
