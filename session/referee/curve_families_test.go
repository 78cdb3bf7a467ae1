package referee

import (
	"fmt"
	"math/big"
	"strings"
)

// integral is a closed form at both ends.
func integral(at func(x between) between, lo, hi decimal) between {
	return at(hi.between()).sub(at(lo.between()))
}

// pulses are narrow hills somewhere in a wide range.
func pulses(d dice) scene {
	wide := pick(d, dec(10, 1), dec(100, 1), d.few().add(dec(1, 1)))
	part := pick(d, dec(1, 1e4), dec(1, 1e5), dec(1, 1e6), dec(1, 1e7), dec(1, 1e8))
	w := wide.mul(part)
	a := wide.mul(decimal{big.NewRat(1000+d.Int64N(98000), 100000)})
	height := d.few()
	body := fmt.Sprintf("%s*exp(-((x - %s)/%s)^2)", height, a, w)
	root, _ := piBetween().sqrt()
	is := root.mul(w.between()).mul(height.between())
	switch d.IntN(3) {
	case 0: // beside a floor that hides it
		floor := d.few()
		body = fmt.Sprintf("%s + %s", floor, body)
		is = is.add(floor.mul(wide).between())
	case 1: // Lorentz's curve, whose tails are long
		body = fmt.Sprintf("%s/(1 + ((x - %s)/%s)^2)", height, a, w)
		up, _ := wide.sub(a).between().div(w.between())
		down, _ := a.between().div(w.between())
		is = up.atan().add(down.atan()).mul(w.between()).mul(height.between())
	}
	if d.IntN(3) == 0 {
		return area{is: is, under: is}.of([]string{"p(x) = " + body, fmt.Sprintf("area under p(x) from 0 to %s", wide)})
	}
	return area{is: is, under: is}.of([]string{fmt.Sprintf("area under %s against x from 0 to %s", body, wide)})
}

// steps are functions by intervals that jump.
func steps(d dice) scene {
	n := 2 + d.IntN(5)
	at := dec(0, 1)
	var b strings.Builder
	b.WriteString("F(x) = ")
	sum, under := dec(0, 1), dec(0, 1)
	for range n {
		width, height := d.few(), d.signed()
		if d.IntN(4) == 0 {
			width = dec(1, 1000)
		}
		next := at.add(width)
		fmt.Fprintf(&b, "\n  %s N for %s m ≤ x ≤ %s m", height, at, next)
		sum = sum.add(width.mul(height))
		under = under.add(width.mul(decimal{new(big.Rat).Abs(height.Rat)}))
		at = next
	}
	unit := pick(d, lengths[:3]...)
	to := at.div(unit.size)
	return area{is: sum.between(), under: under.between()}.of([]string{b.String(), fmt.Sprintf("area under F(x) from 0 m to %s %s", to, unit.text)})
}

// seams are curves with corners and jumps of abs, min, max, sgn and round.
func seams(d dice) scene {
	a, h := d.few(), d.few()
	to := a.add(d.few())
	half := big.NewRat(1, 2)
	left, right := a, to.sub(a)
	square := func(x decimal) decimal { return decimal{half}.mul(x).mul(x) }
	var body string
	var is, under decimal
	unsure := false
	switch d.IntN(6) {
	case 0:
		body, is = fmt.Sprintf("%s*abs(x - %s)", h, a), h.mul(square(left).add(square(right)))
		under = is
	case 1:
		body, is = fmt.Sprintf("%s*sgn(x - %s)", h, a), h.mul(right.sub(left))
		under = h.mul(right.add(left))
	case 2:
		body, is = fmt.Sprintf("max(0, %s*(x - %s))", h, a), h.mul(square(right))
		under = is
	case 3:
		body, is = fmt.Sprintf("min(x, %s)", a), square(a).add(a.mul(right))
		under = is
	case 4: // (sgn(x - a) + 1)/2 between two places: a narrow step
		w := pick(d, dec(1, 10), dec(1, 1000), dec(1, 100000), dec(1, 10000000))
		w = w.mul(right)
		body, is = fmt.Sprintf("%s*(sgn(x - %s) - sgn(x - %s))/2", h, a, a.add(w)), h.mul(w)
		under = is
		unsure = is.between().size() < 1e9*0x1p-50*a.between().size()*h.between().size()
	default: // round(x) from 0 to a place n + 1/2
		n := int64(1 + d.IntN(9))
		to = dec(2*n+1, 2)
		body, is = "round(x)", dec(n*(n+1)/2, 1)
		under = is
	}
	return area{is: is.between(), under: under.between(), unsure: unsure}.of([]string{fmt.Sprintf("area under %s against x from 0 to %s", body, to)})
}

// smoothAreas are waves, some fast, exponentials and poles.
func smoothAreas(d dice) scene {
	a, to := d.few(), d.few()
	line := func(body string) []string {
		return []string{fmt.Sprintf("area under %s against x from 0 to %s", body, to)}
	}
	switch d.IntN(7) {
	case 0, 1: // sin(ω x)
		w := pick(d, a, dec(1000, 1), dec(100000, 1), dec(12345, 1))
		if w.Cmp(dec(1000, 1).Rat) > 0 { // some thousand waves, and no more
			to = to.mul(dec(1, 100))
		}
		is := integral(func(x between) between { v, _ := x.mul(w.between()).cos().neg().div(w.between()); return v }, dec(0, 1), to)
		return area{is: is, under: to.between().mul(exactly(big.NewRat(1, 2)))}.of(line(fmt.Sprintf("sin(%s*x)", w)))
	case 2: // |sin x|
		turns, _ := to.between().div(piBetween())
		n := whole(rounded(between{turns.sub(exactly(big.NewRat(1, 2))).middle().lo, nil}.lo))
		rest := to.between().sub(n.mul(piBetween()))
		is := n.mul(whole(2)).add(whole(1).sub(rest.cos()))
		return area{is: is, under: is}.of(line("abs(sin(x))"))
	case 3: // exp(-x/τ), with τ far shorter than the range at times
		tau := pick(d, a, dec(1, 1000), dec(1, 100000)).between()
		q, _ := to.between().div(tau)
		is := tau.mul(whole(1).sub(q.neg().exp()))
		t := decimal{ratOf(tau)}
		return area{is: is, under: is}.of(line(fmt.Sprintf("exp(-x/%s)", t)))
	case 4: // x^(-1/2) has an area
		root, _ := to.between().sqrt()
		is := root.mul(whole(2))
		return area{is: is, under: is}.of(line("1/√(x)"))
	case 5: // 1/x, 1/x² and 1/(x - a) have none
		body := pick(d, "1/x", "1/x^2", fmt.Sprintf("1/(x - %s)", to.mul(dec(3, 10))), fmt.Sprintf("1/(x - %s)^2", to.mul(dec(3, 10))))
		return area{endless: true}.of(line(body))
	}
	n := 1 + d.IntN(5)
	p, _ := to.between().power(n + 1)
	is, _ := p.div(whole(int64(n + 1)))
	if d.IntN(3) == 0 { // backwards
		return area{is: is.neg(), under: is}.of([]string{fmt.Sprintf("area under x^%d against x from %s to 0", n, to)})
	}
	return area{is: is, under: is}.of(line(fmt.Sprintf("x^%d", n)))
}

// ratOf is a number that is a decimal, as it was written.
func ratOf(x between) *big.Rat {
	r := new(big.Rat)
	r.SetString(x.middle().lo.Text('g', 12))
	return r
}

// slopes are derivatives at smooth places, at seams and beside them.
func slopes(d dice) scene {
	a, b := d.few(), d.few()
	at := func(body string, x decimal, s slope) scene {
		return scene{lines: []string{fmt.Sprintf("slope of %s at x = %s", body, x)}, judge: s.judge}
	}
	none := slope{none: true}
	is := func(x between) slope { return slope{is: x} }
	zero := dec(0, 1)
	ab := a.mul(b)
	switch d.IntN(15) {
	case 14:
		return at(fmt.Sprintf("%s*(x - %s)^(%s)", b, a, pick(d, "4/3", "5/3", "7/5")), a, is(whole(0)))
	case 0:
		return at("abs(x)*x", zero, is(whole(0)))
	case 1:
		return at(fmt.Sprintf("abs(%s*x - %s)", b, ab), a, none)
	case 2:
		return at("x^(2/3)", zero, none)
	case 3:
		return at(fmt.Sprintf("sgn(x - %s)", a), a, none)
	case 4:
		return at(fmt.Sprintf("max(x, %s)", a), a, none)
	case 5:
		return at(fmt.Sprintf("abs(x - %s)^3", a), a, is(whole(0)))
	case 6: // x² - 2 a x is flat at a
		return at(fmt.Sprintf("%s*x^2 - %s*x", b, dec(2, 1).mul(ab)), a, is(whole(0)))
	case 7:
		return at(fmt.Sprintf("abs(%s*x - %s)", b, ab), a.add(pick(d, dec(1, 1000), dec(1, 1000000))), is(b.between()))
	case 8:
		return at(fmt.Sprintf("%s*sin(x/%s)", b, a), zero, is(exactly(b.div(a).Rat)))
	case 9:
		c := b.between().cos()
		return at(fmt.Sprintf("sin(%s*x)", b), dec(1, 1), is(c.mul(b.between())))
	case 10:
		return at("cbrt(x)", zero, none)
	case 11:
		return at("1/x", a, is(exactly(dec(-1, 1).div(a.mul(a)).Rat)))
	case 12: // by intervals, smooth where they meet: x² and 2 a x - a²
		f := fmt.Sprintf("F(x) =\n  x^2 for x ≤ %s\n  %s*x - %s for x > %s", a, dec(2, 1).mul(a), a.mul(a), a)
		return scene{lines: []string{f, fmt.Sprintf("slope of F(x) at x = %s", a)}, judge: is(a.mul(dec(2, 1)).between()).judge}
	}
	f := fmt.Sprintf("F(x) =\n  %s*x for x ≤ %s\n  %s for x > %s", b, a, ab, a)
	return scene{lines: []string{f, fmt.Sprintf("slope of F(x) at x = %s", a)}, judge: none.judge}
}

// graphs have zeros, extremes, poles and stretches of 0.
func graphs(d dice) scene {
	p, q := d.few(), d.few()
	if p.Cmp(q.Rat) == 0 {
		q = q.add(dec(1, 2))
	}
	lo, hi := p, q
	if lo.Cmp(hi.Rat) > 0 {
		lo, hi = hi, lo
	}
	wide := hi.sub(lo)
	from, to := lo.sub(wide), hi.add(wide)
	l := look{}
	l.from, _ = from.Float64()
	l.to, _ = to.Float64()
	ask := func(body string) scene {
		return scene{lines: []string{fmt.Sprintf("graph %s against x from %s to %s", body, from, to)}, judge: l.judge}
	}
	minus := func(x decimal) string { return "- " + x.String() }
	set := func(least, greatest between, zeros ...between) {
		l.least, l.greatest, l.zeros = &least, &greatest, zeros
		l.tall = greatest.sub(least).size()
	}
	w := wide.between()
	switch d.IntN(9) {
	case 8: // a steep rise from 0 to 1
		from, to = dec(0, 1), dec(5, 1)
		l.from, l.to = 0, 5
		zero, one := whole(0), whole(1)
		l.least, l.greatest, l.tall, l.flat = &zero, &one, 1, true
		return ask(fmt.Sprintf("1/(1 + exp(-(x - %s)/(%s)))", d.decimal(1, 4, 2), pick(d, "0.01", "0.001", "0.0001")))
	case 0: // two zeros, least in the middle
		quarter, _ := w.mul(w).div(whole(-4))
		set(quarter, w.mul(w).mul(whole(2)), lo.between(), hi.between())
		return ask(fmt.Sprintf("(x %s)*(x %s)", minus(lo), minus(hi)))
	case 1: // touching at lo, crossing at hi: cubic
		f := func(x decimal) between { return x.sub(lo).mul(x.sub(lo)).mul(x.sub(hi)).between() }
		set(f(from), f(to), lo.between(), hi.between())
		return ask(fmt.Sprintf("(x %s)^2*(x %s)", minus(lo), minus(hi)))
	case 2: // touching alone
		set(whole(0), w.mul(w).mul(whole(4)), lo.between())
		return ask(fmt.Sprintf("(x %s)^2", minus(lo)))
	case 3: // |x - lo| - less than the range
		set(w.neg(), w, lo.between(), hi.add(wide).between().sub(w))
		l.zeros = ordered(lo.sub(wide).between(), hi.between())
		set(w.neg(), w, l.zeros...)
		return ask(fmt.Sprintf("abs(x %s) - %s", minus(lo), wide))
	case 4: // a pole
		l.breaks = true
		return ask(fmt.Sprintf("1/(x %s)", minus(lo)))
	case 5: // 0 along a stretch
		set(whole(0), w.mul(whole(2)))
		l.flat = true
		return ask(fmt.Sprintf("max(0, x %s)", minus(lo)))
	case 6: // a narrow hill
		from, to = dec(0, 1), dec(10, 1)
		l.from, l.to = 0, 10
		a := decimal{big.NewRat(1000+d.Int64N(8000), 1000)}
		one := whole(1)
		l.greatest, l.tall = &one, 1
		least := whole(0)
		l.least, l.flat = &least, true
		return ask(fmt.Sprintf("exp(-((x - %s)/%s)^2)", a, pick(d, "0.01", "0.001", "0.0001")))
	}
	// a cosine over some turns: x from 0 to n turns and a quarter
	from, to = dec(0, 1), dec(int64(2+d.IntN(6)), 1)
	l.from, l.to = 0, float64(to.Num().Int64())
	n := 2 * to.Num().Int64()
	var zeros []between
	for k := range n {
		zeros = append(zeros, exactly(big.NewRat(2*k+1, 4)))
	}
	set(whole(-1), whole(1), zeros...)
	return ask("cos(2*π*x)")
}
