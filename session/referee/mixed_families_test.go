package referee

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"
)

// half is half of a number.
func half(x between) between { return x.mul(exactly(big.NewRat(1, 2))) }

// ofAngle is a page that asks for an angle, over a range or for all there is.
func (t roots) ofAngle(d dice, equation string) scene {
	if d.IntN(3) == 0 {
		lo := decimal{big.NewRat(1000*d.Int64N(60)-20337, 100)}
		hi := lo.add(decimal{big.NewRat(10+10*d.Int64N(40), 1)})
		return asked(d, nil, equation, "θ", fmt.Sprintf(" where %s° < θ < %s°", lo, hi), t.inRange(degrees(lo), degrees(hi)))
	}
	s := t.of("", []string{"solve " + equation + " for θ" + pick(d, "", " in °")})
	s.judge = func(h *hearing) ruling { return t.by(h).judge("")(h) }
	return s
}

// tangents are tangents beside sines and cosines, and what is divided by those. Where a
// tangent has no value, or a divisor is 0, there is no solution.
func tangents(d dice) scene {
	c := decimal{big.NewRat(1+d.Int64N(150), 25)}
	p := piBetween()
	one := whole(1)
	t := roots{period: turn(), close: 1e-8}
	// pair adds the angles with this square of the tangent.
	pair := func(square between) {
		if root, ok := square.sqrt(); ok {
			a := root.atan()
			t.all = append(t.all, a, a.neg(), p.add(a), p.sub(a))
		}
	}
	switch d.IntN(6) {
	case 0: // 2 t²/(1 - t²) = c
		square, _ := c.between().div(c.between().add(whole(2)))
		pair(square)
		return t.ofAngle(d, fmt.Sprintf("tan(θ)*tan(2*θ) = %s", c))
	case 1: // tan 2A = c tan A: t = 0 or t² = 1 - 2/c
		over, _ := whole(2).div(c.between())
		t.all = []between{whole(0), p}
		if square := one.sub(over); square.sign() > 0 {
			pair(square)
		}
		return t.ofAngle(d, fmt.Sprintf("tan(2*θ) = %s*tan(θ)", c))
	case 2: // sin 2A = c sin A: sin A = 0 or cos A = c/2
		t.all = []between{whole(0), p}
		if c.Cmp(big.NewRat(2, 1)) < 0 {
			a, _ := half(c.between()).asin()
			t.all = append(t.all, half(p).sub(a), a.sub(half(p)))
		}
		return t.ofAngle(d, fmt.Sprintf("sin(2*θ) = %s*sin(θ)", c))
	case 3: // c/sin A = tan A: sin² A = c cos A, so that cos A = (√(c² + 4) - c)/2
		root, _ := c.between().mul(c.between()).add(whole(4)).sqrt()
		a, _ := half(root.sub(c.between())).asin()
		t.all = []between{half(p).sub(a), a.sub(half(p))}
		return t.ofAngle(d, fmt.Sprintf("%s/sin(θ) = tan(θ)", c))
	case 4: // 1/cos A + tan A = c: tan(A/2 + 45°) = c, and never c = 0
		t.all = []between{c.between().atan().sub(half(half(p))).mul(whole(2))}
		return t.ofAngle(d, fmt.Sprintf("1/cos(θ) + tan(θ) = %s", c))
	}
	// (1 - cos A)/sin A is the tangent of half the angle.
	t.all = []between{c.between().atan().mul(whole(2))}
	return t.ofAngle(d, fmt.Sprintf("(1 - cos(θ))/sin(θ) = %s", c))
}

// extremal are the greatest or the least of two expressions with the unknown.
func extremal(d dice) scene {
	a, b, c, h := d.few(), d.signed(), d.signed(), d.few()
	name, sign := "max", 1
	if d.IntN(2) == 0 {
		name, sign = "min", -1
	}
	both := func(first, second string) string { return fmt.Sprintf("%s(%s, %s) = %s", name, first, second, h) }
	// allowed tells whether the other one is not beyond h.
	allowed := func(other decimal) bool { return sign*other.Cmp(h.Rat) <= 0 }
	var all []between
	switch d.IntN(3) {
	case 0: // a x + b and c - x
		if x := h.sub(b).div(a); allowed(c.sub(x)) {
			all = append(all, x.between())
		}
		if x := c.sub(h); allowed(a.mul(x).add(b)) {
			all = append(all, x.between())
		}
		return asked(d, nil, both(fmt.Sprintf("%s*x + (%s)", a, b), fmt.Sprintf("(%s) - x", c)), "x", "", are(ordered(all...)...))
	case 1: // x² and x
		if d.IntN(2) == 0 {
			h = h.mul(h)
		}
		root, _ := h.between().sqrt()
		one := dec(1, 1)
		switch {
		case sign > 0 && h.Cmp(one.Rat) >= 0: // beyond 1 the square is the greater one
			all = []between{root.neg(), root}
		case sign > 0:
			all = []between{root.neg(), h.between()}
		case h.Cmp(one.Rat) >= 0:
			all = []between{h.between()}
		default:
			all = []between{root}
		}
		return asked(d, nil, both("x^2", "x"), "x", "", are(ordered(all...)...))
	}
	// sin A and cos 2A = 1 - 2 sin² A, of which the greater one is s: sin A = s where
	// s ≥ 1/2, sin A = -√((1 - s)/2) always, and +√((1 - s)/2) where s ≥ 1/2.
	s := decimal{big.NewRat(d.Int64N(99), 100)}
	root, _ := half(whole(1).sub(s.between())).sqrt()
	low, _ := root.asin()
	p := piBetween()
	t := roots{period: turn(), close: 1e-8, all: []between{low.neg(), p.add(low)}}
	if s.Cmp(big.NewRat(1, 2)) >= 0 {
		up, _ := s.between().asin()
		t.all = ordered(append(t.all, low, p.sub(low), up, p.sub(up))...)
	}
	return t.ofAngle(d, fmt.Sprintf("max(sin(θ), cos(2*θ)) = %s", s))
}

// far are equations whose only root lies far beyond the numbers in them.
func far(d dice) scene {
	k := decimal{big.NewRat(1+d.Int64N(3000), 10)}
	cube := k.mul(k).mul(k)
	six := cube.mul(cube)
	switch d.IntN(3) {
	case 0:
		return asked(d, nil, fmt.Sprintf("√(x) + cbrt(x) = %s", cube.add(k.mul(k))), "x", "", are(six.between()))
	case 1:
		return asked(d, nil, fmt.Sprintf("x + cbrt(x) = %s", cube.add(k)), "x", "", are(cube.between()))
	}
	f := func(x between) between { l, _ := x.ln(); return x.add(l).sub(six.between()) }
	if root, ok := bisected(f, dec(1, 1<<20), six.add(dec(1, 1))); ok {
		return asked(d, nil, fmt.Sprintf("x + ln(x) = %s", six), "x", "", are(root))
	}
	return asked(d, nil, "x + cbrt(x) = 1010", "x", "", are(whole(1000)))
}

// gaps are areas between two curves that meet at 0 and at a: a x and x², or x³ and
// a² x.
func gaps(d dice) scene {
	a, b := d.few(), d.few()
	to := a.add(b)
	cube := func(x decimal) decimal { return x.mul(x).mul(x) }
	// ∫ a x - x² from 0 to a is a³/6, and what follows is below.
	inner := cube(a).div(dec(6, 1))
	whole := cube(to).div(dec(3, 1)).sub(a.mul(to).mul(to).div(dec(2, 1)))
	line, curve := fmt.Sprintf("%s*x", a), "x^2"
	if d.IntN(3) == 0 { // ∫ a² x - x³ from 0 to a is a⁴/4
		inner = cube(a).mul(a).div(dec(4, 1))
		whole = cube(to).mul(to).div(dec(4, 1)).sub(a.mul(a).mul(to).mul(to).div(dec(2, 1)))
		line, curve = fmt.Sprintf("%s*x", a.mul(a)), "x^3"
	}
	is := whole.add(inner).add(inner).between()
	body := pick(d, "abs(f(x) - h(x))", "max(f(x), h(x)) - min(f(x), h(x))", "√((f(x) - h(x))^2)")
	return area{is: is, under: is}.of([]string{"f(x) = " + line, "h(x) = " + curve, fmt.Sprintf("area under %s against x from 0 to %s", body, to)})
}

// osculating are curves that touch a line or a parabola at a place, to the third or
// fourth order at times, and meet it nowhere else: near it nothing but rounding tells
// them apart.
func osculating(d dice) scene {
	a, x := dec(0, 1), "x"
	if d.IntN(2) == 0 {
		a = d.few()
		x = fmt.Sprintf("(x - %s)", a)
	}
	t := are(a.between())
	t.close = 1e-4
	equation := pick(d, "tan(x) = x", "sinh(x) = x", "sin(x) = x", "exp(x) = 1 + x", "ln(1 + x) = x", "atan(x) = x",
		"cosh(x) - 1 = x^2/2", "cos(x) = 1 - x^2/2", "√(1 + x) = 1 + x/2", "x^3 = sin(x)^3")
	where := ""
	if strings.HasPrefix(equation, "tan") || d.IntN(4) > 0 {
		where = fmt.Sprintf(" where %s < x < %s", a.sub(dec(3, 4)), a.add(dec(3, 4)))
	}
	equation = regexp.MustCompile(`\bx\b`).ReplaceAllLiteralString(equation, x)
	return t.of("", []string{fmt.Sprintf("solve %s for x%s", equation, where)})
}
