package referee

import (
	"fmt"
	"math/big"
)

// expressed are conditions on what is worked out from the unknown: its multiple, its
// square, a function of it.
func expressed(d dice) scene {
	p, q, k := d.signed(), d.few(), d.few()
	if p.Cmp(q.Rat) == 0 {
		q = q.add(dec(1, 2))
	}
	above := d.IntN(2) == 0
	word := map[bool]string{true: ">", false: "<"}[above]
	value := func(x decimal) decimal { return k.mul(x).sub(q) }
	condition := fmt.Sprintf("%s*x - %s %s %%s", k, q, word)
	before := []string(nil)
	switch d.IntN(3) {
	case 0:
		value = func(x decimal) decimal { return x.mul(x) }
		condition = "x^2 " + word + " %s"
	case 1:
		value = func(x decimal) decimal { return x.mul(x).mul(k) }
		condition = "F(x) " + word + " %s"
		before = []string{fmt.Sprintf("F(u) = %s*u^2", k)}
	}
	// The bound is between the values at both roots, beyond both, or at one.
	a, b := value(p), value(q)
	bound := pick(d, a.add(b).mul(dec(1, 2)), b.add(dec(1, 4)), a.sub(dec(1, 8)), a)
	var all []between
	for _, x := range []decimal{p, q} {
		if by := value(x).Cmp(bound.Rat); by > 0 && above || by < 0 && !above {
			all = append(all, x.between())
		}
	}
	sum, product := p.add(q), p.mul(q)
	equation := fmt.Sprintf("x^2 - (%s)*x + (%s) = 0", sum, product)
	return asked(d, before, equation, "x", " where "+fmt.Sprintf(condition, bound), are(ordered(all...)...))
}

// recurring are stretches that come again with each period: a sine, or a cosine, is no
// greater than a number.
func recurring(d dice) scene {
	n := 1 + d.Int64N(4)
	half := 5 * (1 + d.Int64N(34)) // in degrees: cos(A) ≤ cos(half) from half to 360° - half
	mid := 5 * (d.Int64N(9) - 4)   // the cosine is greatest where n·x is that
	over := func(deg int64) decimal { return decimal{big.NewRat(deg, n)} }
	lo, hi := over(mid+half), over(mid+360-half)
	t := recurs{lo: degrees(lo), hi: degrees(hi), period: degrees(over(360))}
	sign := map[bool]string{true: "+", false: "-"}[mid < 0]
	cosine := fmt.Sprintf("cos(%d*x %s %d°)", n, sign, max(mid, -mid))
	line := fmt.Sprintf("solve max(%s, cos(%d°)) = cos(%d°) for x", cosine, half, half)
	return scene{lines: []string{line + pick(d, "", " in °")}, judge: t.judge}
}
