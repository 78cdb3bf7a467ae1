package referee

import (
	"fmt"
	"math/big"
	"strings"
)

// oneRootWords choose one of several roots, with the word of the statement.
var choices = []struct{ word, means string }{{"", ""}, {"", ""}, {"the greater ", "greatest"}, {"the smaller ", "least"}}

// asked makes a solve of an equation, with one of the ways to ask for a root.
func asked(d dice, before []string, equation, name, tail string, t roots) scene {
	c := pick(d, choices...)
	if t.period != nil {
		c = choices[0]
	}
	line := fmt.Sprintf("solve %s for %s%s%s", equation, c.word, name, tail)
	if len(t.all) > 1 && t.period == nil && d.IntN(5) == 0 && tail == "" && !strings.Contains(name, "_") {
		var names []string
		for i := range t.all {
			names = append(names, fmt.Sprintf("%s%d", name, i+1))
		}
		line, c.means = fmt.Sprintf("solve %s for %s", equation, strings.Join(names, ", ")), "each"
	}
	return t.of(c.means, append(before, line))
}

// factors are products of two or three, one of which must be 0.
func factors(d dice) scene {
	a, b, p, q := d.signed(), d.signed(), d.few(), d.few()
	minus := func(x decimal) string { // - 3, or + 3 for a negative one
		if x.Sign() < 0 {
			return "+ " + x.neg().String()
		}
		return "- " + x.String()
	}
	bx := b.between()
	ax := a.between()
	switch d.IntN(6) {
	case 0:
		return asked(d, nil, fmt.Sprintf("(x %s)*(x %s) = 0", minus(a), minus(b)), "x", "", are(ordered(ax, bx)...))
	case 1:
		return asked(d, nil, fmt.Sprintf("x*(%s*x %s) = 0", p, minus(a)), "x", "", are(ordered(whole(0), exactly(a.div(p).Rat))...))
	case 2:
		return asked(d, nil, fmt.Sprintf("(%s*x %s)*(%s*x %s) = 0", p, minus(a), q, minus(b)), "x", "", are(ordered(exactly(a.div(p).Rat), exactly(b.div(q).Rat))...))
	case 3:
		t := are(ordered(ax, bx)...)
		t.close = 3e-8
		return asked(d, nil, fmt.Sprintf("(x %s)^2*(x %s) = 0", minus(a), minus(b)), "x", "", t)
	case 4: // lengths in mixed units
		u, w := pick(d, lengths...), pick(d, lengths...)
		r1, r2 := exactly(a.mul(u.size).Rat), exactly(b.mul(w.size).Rat)
		return asked(d, nil, fmt.Sprintf("(x %s %s)*(x %s %s) = 0", minus(a), u.text, minus(b), w.text), "x", "", are(ordered(r1, r2)...))
	}
	return asked(d, nil, fmt.Sprintf("(x %s)/(x + 200) = 0", minus(a)), "x", "", are(ax))
}

// undone are equations with one operation on the unknown, undone exactly.
func undone(d dice) scene {
	a, b, c := d.few(), d.few(), d.few()
	square := c.mul(c)
	switch d.IntN(12) {
	case 10: // x^(2/3) = c², so x = ±c³
		cube := square.mul(c)
		return asked(d, nil, fmt.Sprintf("x^(2/3) = %s", square), "x", "", are(cube.neg().between(), cube.between()))
	case 11:
		return asked(d, nil, fmt.Sprintf("x^(-2) = %s", square), "x", "", are(exactly(dec(-1, 1).div(c).Rat), exactly(dec(1, 1).div(c).Rat)))
	case 0:
		return asked(d, nil, fmt.Sprintf("√(%s*x - %s) = 0", b, a), "x", "", are(exactly(a.div(b).Rat)))
	case 1:
		return asked(d, nil, fmt.Sprintf("√(x - %s) = %s", a, c), "x", "", are(exactly(a.add(square).Rat)))
	case 2:
		t := are(a.between())
		t.close = 3e-8
		return asked(d, nil, fmt.Sprintf("(x - %s)^2 = 0", a), "x", "", t)
	case 3:
		return asked(d, nil, fmt.Sprintf("(x - %s)^2 = %s", a, square), "x", "", are(a.sub(c).between(), a.add(c).between()))
	case 4:
		return asked(d, nil, fmt.Sprintf("√(x + %s) = -%s", a, c), "x", "", are())
	case 5:
		return asked(d, nil, fmt.Sprintf("x^2 + %s = %s", a.add(c), a), "x", "", are())
	case 6:
		return asked(d, nil, fmt.Sprintf("%s/x = 0", a), "x", "", are())
	case 7:
		l, _ := exactly(a.Rat).ln()
		return asked(d, nil, fmt.Sprintf("exp(x) = %s", a), "x", "", are(l))
	case 8:
		t := are(a.between())
		t.close = 1e-5
		return asked(d, nil, fmt.Sprintf("(x - %s)^3 = 0", a), "x", "", t)
	}
	return asked(d, nil, fmt.Sprintf("ln(x/%s) = 0", a), "x", "", are(a.between()))
}

// evenRoots are even powers with givens of either sign beside them: c·x⁴ = r has two
// solutions where r and c have one sign, and none else.
func evenRoots(d dice) scene {
	c, k, x := d.signed(), d.signed(), d.few()
	p := pick(d, 2, 4, 4, 6, 8)
	power, top := dec(1, 1), x
	for range p {
		power = power.mul(x)
	}
	name := fmt.Sprintf("x^%d", p)
	if d.IntN(5) == 0 { // x is the cube of a number
		power, top, name = x.mul(x).mul(x).mul(x), x.mul(x).mul(x), "x^(4/3)"
	}
	t := are(top.neg().between(), top.between())
	givens := []string{fmt.Sprintf("c = %s", c), fmt.Sprintf("k = %s", k)}
	switch d.IntN(8) {
	case 0:
		return asked(d, givens, fmt.Sprintf("c*%s = %s", name, c.mul(power)), "x", "", t)
	case 1:
		return asked(d, givens, fmt.Sprintf("c*k*%s = %s", name, c.mul(k).mul(power)), "x", "", t)
	case 2:
		return asked(d, givens, fmt.Sprintf("c^2*%s = %s", name, c.mul(c).mul(power)), "x", "", t)
	case 3:
		return asked(d, givens, fmt.Sprintf("c^3*%s/k^2 = (%s)/k^2", name, c.mul(c).mul(c).mul(power)), "x", "", t)
	case 4:
		return asked(d, givens, fmt.Sprintf("c*%s = -(%s)", name, c.mul(power)), "x", "", are())
	case 5:
		return asked(d, givens, fmt.Sprintf("k*(%s)/c = k*%s/c", power, name), "x", "", t)
	case 6:
		return asked(d, append(givens, fmt.Sprintf("f(s) = c*s + k*%s", strings.Replace(name, "x", "s", 1))), fmt.Sprintf("f(x) - c*x = %s", k.mul(power)), "x", "", t)
	}
	m := x.mul(x).neg() // c²·x⁴ = m², of an m below 0
	return asked(d, []string{givens[0], fmt.Sprintf("m = %s", m)}, "c^2*x^4 = m^2*c^2", "x", "", are(x.neg().between(), x.between()))
}

// throws are heights, times and ways under a constant acceleration, with a zero
// among the givens or as the answer.
func throws(d dice) scene {
	v, a := d.few(), pick(d, dec(98, 10), dec(981, 100), d.few())
	vv := v.mul(v)
	givens := func() []string {
		return []string{fmt.Sprintf("v0 = %s m/s", v), fmt.Sprintf("a = %s m/s^2", a)}
	}
	two := dec(2, 1)
	t0 := exactly(v.div(a).Rat)
	top := exactly(vv.div(two.mul(a)).Rat)
	switch d.IntN(8) {
	case 0:
		return asked(d, givens(), "v0^2 - 2*a*h = 0", "h", "", are(top))
	case 1:
		return asked(d, givens(), "0 = v0^2 - 2*a*h", "h", " in cm", are(top))
	case 2:
		return asked(d, givens(), "v0 - a*t = 0", "t", "", are(t0))
	case 3:
		return asked(d, nil, fmt.Sprintf("t*(%s m/s - (%s m/s^2)*t) = 0", v, a), "t", "", are(whole(0), t0))
	case 4:
		return asked(d, givens(), "v0*t - 1/2*a*t^2 = 0", "t", "", are(whole(0), t0.mul(whole(2))))
	case 5:
		before := append(givens(), "v = 0 m/s")
		return asked(d, before, "v^2 = v0^2 - 2*a*s", "s", "", are(top))
	case 6:
		before := append(givens(), "y(t) = v0*t - 1/2*a*t^2")
		return asked(d, before, "y(t) = 0", "t", "", are(whole(0), t0.mul(whole(2))))
	}
	before := append(givens(), "y(t) = v0*t - 1/2*a*t^2 in m")
	return are(t0.mul(whole(2))).of("", append(before, "solve y(t) = 0 for t where t > 0"))
}

// touching are parabolas that touch, just miss or just cross the value asked for.
func touching(d dice) scene {
	a, t0 := d.few(), d.few()
	near := pick(d, dec(0, 1), dec(0, 1), dec(0, 1), dec(1, 1000), dec(1, 1000000), dec(-1, 1000), dec(-1, 1000000))
	shift := near.mul(a).mul(t0).mul(t0)
	b, c := dec(2, 1).mul(a).mul(t0), a.mul(t0).mul(t0).add(shift)
	var t roots
	switch near.Sign() {
	case 0:
		t = are(t0.between())
		t.close = 3e-8
	case -1:
		off, _ := exactly(near.neg().Rat).sqrt()
		off = off.mul(t0.between())
		t = are(t0.between().sub(off), t0.between().add(off))
		t.close = 1e-10
	}
	switch d.IntN(4) {
	case 0:
		return asked(d, nil, fmt.Sprintf("%s*x^2 - %s*x + %s = 0", a, b, c), "x", "", t)
	case 1:
		return asked(d, nil, fmt.Sprintf("%s*x = %s*x^2 + %s", b, a, c), "x", "", t)
	case 2:
		return asked(d, nil, fmt.Sprintf("%s m = (%s m/s)*t - (%s m/s^2)*t^2", c, b, a), "t", "", t)
	}
	before := []string{fmt.Sprintf("h = %s m", c), fmt.Sprintf("v0 = %s m/s", b), fmt.Sprintf("a = %s m/s^2", a.add(a))}
	return asked(d, before, "h = v0*t - 1/2*a*t^2", "t", "", t)
}

// charges are places where two inverse powers balance, with poles between.
func charges(d dice) scene {
	p, q, gap := d.few(), d.few(), d.few()
	givens := func(second decimal) []string {
		return []string{fmt.Sprintf("q_1 = %s C", p), fmt.Sprintf("q_2 = %s C", second), fmt.Sprintf("D = %s m", gap)}
	}
	between := exactly(p.mul(gap).div(p.add(q)).Rat)
	switch d.IntN(4) {
	case 0: // p/x = q/(D - x)
		return asked(d, givens(q), "q_1/x_0 = q_2/(D - x_0)", "x_0", "", are(between))
	case 1:
		return asked(d, givens(q.neg()), "q_1/x_0 + q_2/(D - x_0) = 0 C/m", "x_0", "", are(between))
	case 2: // p + q x/(D - x) = 0
		if p.Cmp(q.Rat) == 0 {
			return asked(d, givens(q), "q_1/x_0 + q_2/(D - x_0) = 0 C/m", "x_0", "", are())
		}
		return asked(d, givens(q), "q_1/x_0 + q_2/(D - x_0) = 0", "x_0", "", are(exactly(p.mul(gap).div(p.sub(q)).Rat)))
	}
	// √p (D - x) = ±√q x
	rp, _ := p.between().sqrt()
	rq, _ := q.between().sqrt()
	g := gap.between()
	first, _ := rp.mul(g).div(rp.add(rq))
	if p.Cmp(q.Rat) == 0 {
		return asked(d, givens(q), "q_1/x_0^2 = q_2/(D - x_0)^2", "x_0", "", are(first))
	}
	second, ok := rp.mul(g).div(rp.sub(rq))
	if !ok {
		return asked(d, givens(q), "q_1/x_0^2 = q_2/(D - x_0)^2", "x_0", "", are(first))
	}
	return asked(d, givens(q), "q_1/x_0^2 = q_2/(D - x_0)^2", "x_0", "", are(ordered(first, second)...))
}

// owned are equations of functions of one's own.
func owned(d dice) scene {
	k, m := d.few(), d.few()
	before := []string{fmt.Sprintf("k = %s N/m", k), fmt.Sprintf("m = %s kg", m), "U(x) = 1/2*k*x^2 - m*g*x in J"}
	grav := decimal{big.NewRat(980665, 100000)}
	far := exactly(dec(2, 1).mul(m).mul(grav).div(k).Rat)
	switch d.IntN(4) {
	case 0:
		return asked(d, before, "U(x) = 0", "x", " in cm", are(whole(0), far))
	case 1:
		return asked(d, before, "U(x) = 0 J", "x", "", are(whole(0), far))
	case 2:
		h, v := d.few(), d.few()
		two := dec(2, 1)
		root, _ := exactly(v.mul(v).add(two.mul(grav).mul(h)).Rat).sqrt()
		early, _ := v.between().sub(root).div(grav.between())
		late, _ := v.between().add(root).div(grav.between())
		return asked(d, []string{fmt.Sprintf("y(t) = %s m + (%s m/s)*t - 1/2*g*t^2", h, v)}, "y(t) = 0", "t", "", are(early, late))
	}
	a, b := d.few(), d.few()
	s := d.few()
	end := a.mul(s)
	// Up to s at speed a, then on at speed b: where is it at a place beyond?
	f := fmt.Sprintf("x(t) =\n  (%s m/s)*t for 0 s ≤ t ≤ %s s\n  %s m + (%s m/s)*(t - %s s) for t > %s s", a, s, end, b, s, s)
	more := d.few()
	t := exactly(s.add(more.div(b)).Rat)
	return are(t).of("", []string{f, fmt.Sprintf("solve x(t) = %s m for t", end.add(more))})
}

// cancelling are equations in which the unknown cancels, or nearly does.
func cancelling(d dice) scene {
	a, b, c := d.few(), d.few(), d.few()
	switch d.IntN(4) {
	case 3: // always equal
		two := a.add(b)
		line := fmt.Sprintf("solve %s*x + %s*x + %s = %s*x + %s for x", a, b, c, two, c)
		return roots{every: true}.of("", []string{pick(d, line, fmt.Sprintf("solve %s*(x + %s) = %s*x + %s for x", a, c, a, a.mul(c)))})
	case 0: // a x = b x: 0 alone
		if a.Cmp(b.Rat) == 0 {
			b = b.add(dec(1, 10))
		}
		return asked(d, nil, fmt.Sprintf("%s*x = %s*x", a, b), "x", "", are(whole(0)))
	case 1: // never equal
		return asked(d, nil, fmt.Sprintf("%s*x + %s = %s*x + %s", a, b, a, b.add(c)), "x", "", are())
	}
	// (a + tiny) x = a x + c tiny
	tiny := pick(d, dec(1, 1000), dec(1, 1000000))
	return asked(d, nil, fmt.Sprintf("%s*x = %s*x + %s", a.add(tiny), a, c.mul(tiny)), "x", "", roots{all: []between{c.between()}, close: 1e-7})
}

// sums have as unknown what is left of decimals, perhaps exactly 0.
func sums(d dice) scene {
	a, b := d.few(), d.few()
	u, w := pick(d, lengths[:3]...), pick(d, lengths[:3]...)
	rest := pick(d, dec(0, 1), dec(0, 1), d.signed())
	total := a.mul(u.size).add(b.mul(w.size)).add(rest)
	before := []string{fmt.Sprintf("L = %s m", total), fmt.Sprintf("a = %s %s", a, u.text), fmt.Sprintf("b = %s %s", b, w.text)}
	x := rest.between()
	switch d.IntN(3) {
	case 0:
		return are(x).of("", append(before, "solve L = a + b + x for x"))
	case 1:
		t := are(x)
		if rest.Sign() <= 0 {
			t = are()
		}
		return t.of("", append(before, "solve L = a + b + x for x where x > 0"))
	}
	t := roots{all: ordered(x, x.neg())}
	if rest.Sign() == 0 {
		t.close = 1e-8
	}
	return asked(d, before, "(L - a - b)^2 = x^2", "x", "", t)
}
