package referee

import (
	"fmt"
	"math/big"
)

// minus writes a number to be subtracted, without two signs side by side.
func minus(x decimal) string {
	if x.Sign() < 0 {
		return "+ " + x.neg().String()
	}
	return "- " + x.String()
}

// domains are equations with a candidate that lies where a side has no value, or
// that squaring has added.
func domains(d dice) scene {
	a, b := d.few(), d.few()
	if a.Cmp(b.Rat) == 0 {
		b = b.add(dec(1, 2))
	}
	lo, hi := a, b
	if lo.Cmp(hi.Rat) > 0 {
		lo, hi = hi, lo
	}
	l, h := lo.between(), hi.between()
	switch d.IntN(9) {
	case 0: // lo lies outside the root's domain
		return asked(d, nil, fmt.Sprintf("√(x - %s)*(x - %s) = 0", hi, lo), "x", "", are(h))
	case 1:
		return asked(d, nil, fmt.Sprintf("√(x - %s)*(x - %s) = 0", lo, hi), "x", "", are(l, h))
	case 2:
		return asked(d, nil, fmt.Sprintf("(x - %s)/√(x - %s) = 0", lo, hi), "x", "", are())
	case 3:
		return asked(d, nil, fmt.Sprintf("ln(x/%s)*(x + %s) = 0", a, b), "x", "", are(a.between()))
	case 4:
		return asked(d, nil, fmt.Sprintf("(x - %s)*exp(-x/%s) = 0", a, b), "x", "", are(a.between()))
	case 5: // (x² - a²)/(x - a) = c is x = c - a, but for c = 2 a
		c := pick(d, dec(0, 1), dec(2, 1).mul(a), b)
		equation := fmt.Sprintf("(x^2 - %s)/(x - %s) = %s", a.mul(a), a, c)
		if c.Cmp(dec(2, 1).mul(a).Rat) == 0 {
			return asked(d, nil, equation, "x", "", are())
		}
		return asked(d, nil, equation, "x", "", are(c.sub(a).between()))
	case 6: // √(x + a) = x - b: with s = √(x + a), s² - s = a + b; the other s is 1 - s
		s := d.few()
		x := s.mul(s).sub(a)
		equation := fmt.Sprintf("√(x + %s) = x %s", a, minus(x.sub(s)))
		other := dec(1, 1).sub(s)
		if other.Sign() < 0 {
			return asked(d, nil, equation, "x", "", are(x.between()))
		}
		t := roots{all: ordered(x.between(), other.mul(other).sub(a).between())}
		if len(t.all) == 1 {
			t.close = 3e-8
		}
		return asked(d, nil, equation, "x", "", t)
	case 7:
		return asked(d, nil, fmt.Sprintf("%s/x = %s/x", a, b), "x", "", are())
	}
	c := pick(d, dec(2, 1), dec(5, 1), dec(-4, 1), dec(1, 8))
	return asked(d, nil, fmt.Sprintf("1/(x - %s) = %s", a, c), "x", "", are(exactly(a.add(dec(1, 1).div(c)).Rat)))
}

// jumps are equations with corners, jumps and poles, some of which change sign
// without a root.
func jumps(d dice) scene {
	a, b, h := d.few(), d.few(), d.few()
	to := a.add(b)
	half := decimal{big.NewRat(1, 2)}
	F := func(left, right string) string {
		return fmt.Sprintf("F(x) =\n  %s for 0 m ≤ x < %s m\n  %s for %s m ≤ x ≤ %s m", left, a, right, a, to)
	}
	switch d.IntN(8) {
	case 0: // from -h to b: no root
		return are().of("", []string{F("-"+h.String()+" N", b.String()+" N"), "solve F(x) = 0 N for x"})
	case 1: // falls to 0 half way, then jumps below
		k := h.div(a).mul(dec(2, 1))
		if _, ends := k.FloatPrec(); !ends {
			return are().of("", []string{F("-"+h.String()+" N", b.String()+" N"), "solve F(x) = 0 for x"})
		}
		return are(half.mul(a).between()).of("", []string{F(fmt.Sprintf("%s N - (%s N/m)*x", h, k), "-"+b.String()+" N"), "solve F(x) = 0 N for x"})
	case 2:
		return asked(d, nil, fmt.Sprintf("1/(x - %s) = 0", a), "x", "", are())
	case 3: // |x - a| + |x - to| = b + 2 h, one on each side
		return asked(d, nil, fmt.Sprintf("abs(x - %s) + abs(x - %s) = %s", a, to, b.add(h).add(h)), "x", "", are(a.sub(h).between(), to.add(h).between()))
	case 4: // less than the distance: none
		return asked(d, nil, fmt.Sprintf("abs(x - %s) + abs(x - %s) = %s", a, to, b.mul(dec(9, 10))), "x", "", are())
	case 5:
		return asked(d, nil, fmt.Sprintf("max(x - %s, 0) = %s", a, h), "x", "", are(a.add(h).between()))
	case 6: // |x| = x - a: never
		return asked(d, nil, fmt.Sprintf("abs(x) = x - %s", a), "x", "", are())
	}
	// |x - a| = x/2 + h: 2 (a + h) on the right, (a - h) 2/3 on the left
	left, right := exactly(a.sub(h).mul(dec(2, 1)).div(dec(3, 1)).Rat), a.add(h).mul(dec(2, 1)).between()
	return asked(d, nil, fmt.Sprintf("abs(x - %s) = x/2 + %s", a, h), "x", "", are(left, right))
}
