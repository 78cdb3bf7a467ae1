package referee

import (
	"fmt"
	"math"
	"math/big"
)

// inverses are functions with an inverse, and those that are folded once.
func inverses(d dice) scene {
	a, c := d.few(), d.few()
	small := decimal{big.NewRat(1+d.Int64N(98), 100)}
	half := exactly(big.NewRat(1, 2))
	square := func(x between) between { return x.mul(x) }
	switch d.IntN(12) {
	case 0: // sinh x = c: ln(c + √(c² + 1))
		root, _ := square(c.between()).add(whole(1)).sqrt()
		l, _ := c.between().add(root).ln()
		return asked(d, nil, fmt.Sprintf("sinh(x) = %s", c), "x", "", are(l))
	case 1:
		c = c.add(dec(1, 1))
		root, _ := square(c.between()).sub(whole(1)).sqrt()
		l, _ := c.between().add(root).ln()
		return asked(d, nil, fmt.Sprintf("cosh(x) = %s", c), "x", "", are(l.neg(), l))
	case 2: // tanh x = s
		q, _ := whole(1).add(small.between()).div(whole(1).sub(small.between()))
		l, _ := q.ln()
		return asked(d, nil, fmt.Sprintf("tanh(x) = %s", small), "x", "", are(l.mul(half)))
	case 3:
		return asked(d, nil, fmt.Sprintf("asin(x) = %s", small), "x", "", are(small.between().sin()))
	case 4:
		return asked(d, nil, fmt.Sprintf("acos(x) = %s", small), "x", "", are(small.between().cos()))
	case 5:
		s, cc := small.between().sin(), small.between().cos()
		q, _ := s.div(cc)
		return asked(d, nil, fmt.Sprintf("atan(x/%s) = %s", a, small), "x", "", are(q.mul(a.between())))
	case 6: // hypot(x, a m) = b m
		b := a.add(c)
		root, _ := exactly(b.mul(b).sub(a.mul(a)).Rat).sqrt()
		return asked(d, nil, fmt.Sprintf("hypot(x, %s m) = %s m", a, b), "x", "", are(root.neg(), root))
	case 7:
		return asked(d, nil, fmt.Sprintf("max(x, %s) = %s", a, a.add(c)), "x", "", are(a.add(c).between()))
	case 8:
		return asked(d, nil, fmt.Sprintf("min(2*x, %s) = %s", a.add(c), a), "x", "", are(exactly(a.div(dec(2, 1)).Rat)))
	case 9:
		return asked(d, nil, fmt.Sprintf("abs(%s*x - %s) = %s", a, c, small), "x", "", are(exactly(c.sub(small).div(a).Rat), exactly(c.add(small).div(a).Rat)))
	case 10:
		return asked(d, nil, fmt.Sprintf("abs(x - %s) = 0", a), "x", "", are(a.between()))
	}
	return asked(d, nil, fmt.Sprintf("cbrt(x) = %s", c), "x", "", are(exactly(c.mul(c).mul(c).Rat)))
}

// bisected is the root of a function between two places at which it has different
// signs, to nearly 200 bits.
func bisected(f func(between) between, lo, hi decimal) (between, bool) {
	a, b := lo.between().middle(), hi.between().middle()
	first, last := f(a).sign(), f(b).sign()
	if first == 0 || last == 0 || first == last {
		return between{}, false
	}
	va, vb := f(a), f(b)
	for parts := 2.0; hull(a, b).width() > 1e-55*(1+b.size()); {
		// Where a line through both ends is 0, on a grid of so many parts: J. Abbott,
		// Quadratic interval refinement (2006).
		step := b.sub(a).mul(float(1 / parts)).middle()
		k := 1.0
		if rise, ok := va.middle().div(va.sub(vb).middle()); ok {
			k = min(max(math.Floor(rise.mid()*parts), 0), parts-1)
		}
		lo, hi := a.add(step.mul(float(k))).middle(), a.add(step.mul(float(k+1))).middle()
		vlo, vhi := f(lo), f(hi)
		switch {
		case vlo.sign() == 0:
			return lo.wider(1e-42), true
		case vhi.sign() == 0:
			return hi.wider(1e-42), true
		case vlo.sign() == first && vhi.sign() == last:
			a, b, va, vb = lo, hi, vlo, vhi
			parts = min(parts*parts, 1<<50)
			continue
		case vlo.sign() == last:
			b, vb = lo, vlo
		default:
			a, va = hi, vhi
		}
		parts = max(math.Sqrt(parts), 2)
	}
	return hull(a, b), true
}

// transcendental are equations that can't be rearranged. Each has pieces on which
// it rises or falls throughout, so that its roots are known to be all.
func transcendental(d dice) scene {
	a, c := d.few(), d.few()
	never := are().of("", []string{"solve exp(x) = 0 for x"})
	switch d.IntN(5) {
	case 0: // x + ln x = c rises
		f := func(x between) between { l, _ := x.ln(); return x.add(l).sub(c.between()) }
		if root, ok := bisected(f, dec(1, 1<<20), dec(200, 1)); ok {
			return asked(d, nil, fmt.Sprintf("x + ln(x) = %s", c), "x", "", are(root))
		}
	case 1: // cos x = a x has one root between 0 and π/2 and, for a ≥ 1, no other
		a = a.add(dec(1, 1))
		f := func(x between) between { return x.cos().sub(a.between().mul(x)) }
		if root, ok := bisected(f, dec(0, 1), dec(157, 100)); ok {
			return asked(d, nil, fmt.Sprintf("cos(x) = %s*x", a), "x", "", are(root))
		}
	case 2: // x exp(-x/a) = y is greatest, a/e, at x = a
		f := func(y decimal) func(x between) between {
			return func(x between) between {
				q, _ := x.div(a.between())
				return x.mul(q.neg().exp()).sub(y.between())
			}
		}
		y := a.mul(decimal{big.NewRat(1+d.Int64N(50), 100)})
		before := []string{fmt.Sprintf("τ = %s s", a)}
		equation := fmt.Sprintf("u*exp(-u/τ) = %s s", y)
		first, ok1 := bisected(f(y), dec(0, 1), a)
		last, ok2 := bisected(f(y), a, a.mul(dec(200, 1)))
		if ok1 && ok2 {
			return asked(d, before, equation, "u", "", are(first, last))
		}
		if y.Cmp(a.mul(dec(4, 10)).Rat) > 0 {
			return asked(d, before, equation, "u", "", are())
		}
	case 3: // x³ + a x = c rises
		f := func(x between) between { return x.mul(x).mul(x).add(a.between().mul(x)).sub(c.between()) }
		if root, ok := bisected(f, dec(0, 1), dec(200, 1)); ok {
			return asked(d, nil, fmt.Sprintf("x^3 + %s*x = %s", a, c), "x", "", are(root))
		}
	case 4: // (x - p)(x - q)(x - r) written out
		p, q, r := d.signed(), d.signed(), d.signed()
		two := p.add(q).add(r)
		one := p.mul(q).add(p.mul(r)).add(q.mul(r))
		none := p.mul(q).mul(r)
		t := roots{all: ordered(p.between(), q.between(), r.between())}
		if len(t.all) < 3 {
			t.close = 1e-6
		}
		return asked(d, nil, fmt.Sprintf("x^3 - (%s)*x^2 + (%s)*x - (%s) = 0", two, one, none), "x", "", t)
	}
	return never
}

// bounded are parabolas whose roots conditions allow or not, some at the very bound.
func bounded(d dice) scene {
	a, b := d.few(), d.few()
	if a.Cmp(b.Rat) == 0 {
		b = b.add(dec(1, 2))
	}
	if a.Cmp(b.Rat) > 0 {
		a, b = b, a
	}
	// (x - a)(x - b) = x² - (a + b) x + a b
	equation := fmt.Sprintf("x^2 - %s*x + %s = 0", a.add(b), a.mul(b))
	in := func(all ...decimal) roots {
		var t roots
		for _, x := range all {
			t.all = append(t.all, x.between())
		}
		return t
	}
	step := dec(1, 8)
	var where string
	var t roots
	switch d.IntN(7) {
	case 0:
		where, t = fmt.Sprintf(" where x > %s", a), in(b)
	case 1:
		where, t = fmt.Sprintf(" where x ≥ %s", a), in(a, b)
	case 2:
		where, t = fmt.Sprintf(" where x < %s", b), in(a)
	case 3:
		where, t = fmt.Sprintf(" where %s < x < %s", a.sub(step), b), in(a)
	case 4:
		where, t = fmt.Sprintf(" where %s ≤ x ≤ %s", a, b), in(a, b)
	case 5:
		where, t = fmt.Sprintf(" where %s < x < %s", a, b), in()
	case 6:
		where, t = fmt.Sprintf(" where x > %s", b.add(step)), in()
	}
	return asked(d, nil, equation, "x", where, t)
}

// conditions stand before and after the unit, singly and in chains.
func conditions(d dice) scene {
	v, a, h := d.few(), d.few(), d.few()
	u := pick(d, lengths[:3]...)
	p, q := v, v.add(a)
	equation := fmt.Sprintf("(%s N/m^2)*(s - %s m)*(s - %s m) = 0 N", h, p, q)
	lo, hi := p.sub(dec(1, 4)), p.add(dec(1, 1000))
	bounds := fmt.Sprintf("%s m < s < %s m", lo, hi)
	if d.IntN(2) == 0 {
		bounds = fmt.Sprintf("s > %s m and s < %s m", lo, hi)
	}
	t := are(p.between())
	if q.Cmp(hi.Rat) < 0 {
		t = are(p.between(), q.between())
	}
	if d.IntN(2) == 0 {
		return t.of("", []string{fmt.Sprintf("solve %s for s in %s where %s", equation, u.text, bounds)})
	}
	return t.of("", []string{fmt.Sprintf("solve %s for s where %s in %s", equation, bounds, u.text)})
}
