package referee

import (
	"fmt"
	"math/big"
)

// multiples are equations in functions of multiples of one angle. cos(A) = cos(B) is
// where the angles are the same or opposite, but for full turns.
func multiples(d dice) scene {
	n, m := 1+d.Int64N(4), 1+d.Int64N(4)
	if n == m {
		n++
	}
	p, q := 5*(d.Int64N(17)-8), 5*(d.Int64N(17)-8) // in degrees
	t := roots{period: turn(), close: 1e-7}
	add := func(from, by int64) { // (from + k·360°)/by
		for k := range max(by, -by) {
			t.all = append(t.all, degrees(decimal{big.NewRat(from+360*k, by)}))
		}
	}
	add(q-p, n-m)
	add(-p-q, n+m)
	equation := fmt.Sprintf("cos(%d*θ + %d°) = cos(%d*θ + %d°)", n, p, m, q)
	if d.IntN(2) == 0 { // the same by sines
		equation = fmt.Sprintf("sin(%d*θ + %d°) = sin(%d*θ + %d°)", n, p+90, m, q+90)
	}
	if d.IntN(2) == 0 {
		lo := decimal{big.NewRat(1000*d.Int64N(60)-20337, 100)}
		hi := lo.add(decimal{big.NewRat(10+10*d.Int64N(40), 1)})
		return asked(d, nil, equation, "θ", fmt.Sprintf(" where %s° < θ < %s°", lo, hi), t.inRange(degrees(lo), degrees(hi)))
	}
	s := t.of("", []string{"solve " + equation + " for θ" + pick(d, "", " in °")})
	s.judge = func(h *hearing) ruling { return t.by(h).judge("")(h) }
	return s
}

// by are the roots of the period that is spoken of, if they come again by that too.
func (t roots) by(h *hearing) roots {
	for i := range h.last.Findings {
		for _, m := range byText.FindAllStringSubmatch(h.last.Findings[i].Message, -1) {
			said, ok := h.meant.printed(m[1])
			if !ok {
				continue
			}
			parts, ok := t.period.div(said.is)
			n := rounded(parts.middle().lo)
			if !ok || n < 1 || apart(*t.period, said.is.mul(whole(n))) > float64(n)*said.half {
				continue
			}
			short := exactly(big.NewRat(1, n)).mul(*t.period)
			out := roots{period: &short, close: t.close}
			for _, x := range t.all {
				if !t.near(x.add(short), 1e-9) {
					return t
				}
				if out.which(x, 0) < 0 {
					out.all = append(out.all, x)
				}
			}
			return out
		}
	}
	return t
}

// exponentials are equations in powers of one base, written by others.
func exponentials(d dice) scene {
	b := pick(d, int64(2), 3, 5, 10)
	power := func(e int64) decimal {
		return decimal{new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(b), big.NewInt(e), nil))}
	}
	p, q := d.Int64N(4), d.Int64N(4)
	switch d.IntN(3) {
	case 0: // (b^x - b^p)(b^x - b^q) = 0
		square := pick(d, fmt.Sprintf("%d^x", b*b), fmt.Sprintf("%d^(2*x)", b))
		t := are(ordered(whole(p), whole(q))...)
		if p == q {
			t.close = 1e-7
		}
		return asked(d, nil, fmt.Sprintf("%s - %s*%d^x + %s = 0", square, power(p).add(power(q)), b, power(p+q)), "x", "", t)
	case 1: // (b^x - b^p)(b^x + b^q) = 0
		return asked(d, nil, fmt.Sprintf("%d^(2*x) = %s - (%s)*%d^x", b, power(p+q), power(q).sub(power(p)), b), "x", "", are(whole(p)))
	}
	// a·b^x = c·d^x, two growths that meet
	a, c := d.few(), d.few()
	other := pick(d, int64(7), 11, 13)
	ratio, _ := c.between().div(a.between())
	bases, _ := whole(b).div(whole(other))
	over, _ := ratio.ln()
	under, _ := bases.ln()
	x, _ := over.div(under)
	return asked(d, nil, fmt.Sprintf("%s*%d^x = %s*%d^x", a, b, c, other), "x", "", are(x))
}

// quotients are equations of which both sides of a quotient are 0 in one place, where
// there is no root.
func quotients(d dice) scene {
	a, c := d.few(), d.few()
	switch d.IntN(4) {
	case 0: // (x² - a²)/(x - a) = x + a, but for a
		t := are(exactly(c.sub(a).Rat))
		if c.Cmp(a.add(a).Rat) == 0 {
			t = are()
		}
		return asked(d, nil, fmt.Sprintf("(x^2 - %s)/(x - %s) = %s", a.mul(a), a, c), "x", "", t)
	case 1: // sin(u)/u falls from 1 to 0 between 0 and a half turn
		s := decimal{big.NewRat(1+d.Int64N(98), 100)}
		f := func(u between) between { return u.sin().sub(s.between().mul(u)) }
		if root, ok := bisected(f, dec(1, 100), dec(314, 100)); ok {
			return asked(d, nil, fmt.Sprintf("sin(u)/u = %s", s), "u", " where 0 < u < 3", are(root).within(dec(0, 1), dec(3, 1)))
		}
	case 2: // (exp(u) - 1)/u rises through 1 at 0
		s := decimal{big.NewRat(11+d.Int64N(98), 10)}
		f := func(u between) between { return u.exp().sub(whole(1)).sub(s.between().mul(u)) }
		if root, ok := bisected(f, dec(1, 100), dec(20, 1)); ok {
			return asked(d, nil, fmt.Sprintf("(exp(u) - 1)/u = %s", s), "u", "", are(root))
		}
	case 3: // sin(u)/u is 1 nowhere, nor more
		return asked(d, nil, fmt.Sprintf("sin(%s*u)/u = %s", a, pick(d, a, a.add(c))), "u", "", are())
	}
	return asked(d, nil, "sin(u)/u = 1", "u", "", are())
}

// within are the roots between two bounds.
func (t roots) within(lo, hi decimal) roots {
	var all []between
	for _, x := range t.all {
		if x.lo.Cmp(hi.between().lo) < 0 && x.hi.Cmp(lo.between().hi) > 0 {
			all = append(all, x)
		}
	}
	return roots{all: all, close: t.close}
}
