package referee

import (
	"fmt"
	"math"
	"math/big"
)

// turn is a full turn.
func turn() *between {
	t := piBetween().mul(whole(2))
	return &t
}

// degrees is an angle in rad.
func degrees(x decimal) between { return x.between().mul(piBetween()).mul(exactly(big.NewRat(1, 180))) }

// inRange lists every root of a period between two bounds, neither of which is allowed
// itself.
func (t roots) inRange(lo, hi between) roots {
	var all []between
	for _, root := range t.all {
		n := math.Floor((lo.mid() - root.mid()) / t.period.mid())
		for x := root.add(t.period.mul(whole(int64(n)))); x.hi.Cmp(hi.lo) < 0; x = x.add(*t.period) {
			if x.lo.Cmp(lo.hi) > 0 {
				all = append(all, x)
			}
		}
	}
	return roots{all: ordered(all...), close: t.close}
}

// wave is an equation of one sine, cosine or tangent, with the roots of a period.
func wave(d dice) (equation string, t roots) {
	name, c := pick(d, "sin", "cos", "tan"), decimal{big.NewRat(d.Int64N(199)-99, 100)}
	if d.IntN(4) == 0 {
		c = pick(d, dec(0, 1), dec(5, 10), dec(-5, 10), dec(1, 1), dec(-1, 1))
	}
	half := piBetween().mul(exactly(big.NewRat(1, 2)))
	t.period = turn()
	a, _ := c.between().asin()
	switch name {
	case "sin":
		t.all = ordered(a, piBetween().sub(a))
	case "cos":
		t.all = ordered(half.sub(a), half.sub(a).neg())
	default:
		p := piBetween()
		t.period, t.all = &p, []between{c.between().atan()}
	}
	if name != "tan" && c.Sign() == 0 { // both come again after half a turn
		p := piBetween()
		t.period, t.all = &p, t.all[:1]
	}
	if name != "tan" && (c.Cmp(big.NewRat(1, 1)) == 0 || c.Cmp(big.NewRat(-1, 1)) == 0) {
		t.all, t.close = t.all[:1], 3e-8
	}
	return fmt.Sprintf("%s(θ) = %s", name, c), t
}

// angles are equations whose roots come again, with and without a range.
func angles(d dice) scene {
	equation, t := wave(d)
	unit := pick(d, "", " in °")
	if d.IntN(3) == 0 {
		return t.of("", []string{"solve " + equation + " for θ" + unit})
	}
	lo := decimal{big.NewRat(10*d.Int64N(60)+7-200, 1)}
	hi := lo.add(decimal{big.NewRat(60+10*d.Int64N(50)+5, 1)})
	if d.IntN(5) == 0 { // bounded on one side alone: still without end
		line := fmt.Sprintf("solve %s for θ%s where θ %s %s°", equation, unit, pick(d, "<", ">", "≤", "≥"), lo)
		return t.of("", []string{line})
	}
	where := fmt.Sprintf(" where %s° < θ < %s°", lo, hi)
	if d.IntN(3) == 0 {
		where = fmt.Sprintf(" where θ > %s° and θ < %s°", lo, hi)
	}
	in := t.inRange(degrees(lo), degrees(hi))
	return asked(d, nil, equation, "θ", unit+where, in)
}

// squares are squares of waves, and sums of a sine and a cosine, in a range.
func squares(d dice) scene {
	lo := d.decimal(-3, 8, 1)
	hi := lo.add(d.few())
	where := fmt.Sprintf(" where c > %s and c < %s", lo, hi)
	if d.IntN(2) == 0 {
		s := decimal{big.NewRat(1+d.Int64N(98), 100)}
		a, _ := s.between().asin()
		p := piBetween()
		t := roots{all: ordered(a, a.neg()), period: &p}
		return asked(d, nil, fmt.Sprintf("sin(c)^2 = %s", s.mul(s)), "c", where, t.inRange(lo.between(), hi.between()))
	}
	// a sin c + b cos c = R sin(c + φ)
	a, b := d.few(), d.few()
	size, _ := a.mul(a).add(b.mul(b)).between().sqrt()
	top := d.few()
	part, _ := top.between().div(size)
	ratio, _ := b.between().div(a.between())
	t := roots{period: turn()}
	exact := a.mul(a).add(b.mul(b)).Cmp(top.mul(top).Rat)
	if x, ok := part.asin(); ok && exact >= 0 {
		phase := ratio.atan()
		t.all = ordered(x.sub(phase), piBetween().sub(x).sub(phase))
		if exact == 0 {
			half := piBetween().mul(exactly(big.NewRat(1, 2)))
			t.all, t.close = []between{half.sub(phase)}, 3e-8
		}
	}
	return asked(d, nil, fmt.Sprintf("%s*sin(c) + %s*cos(c) = %s", a, b, top), "c", where, t.inRange(lo.between(), hi.between()))
}

// pythagorean are sums of a sine and a cosine that just reach the value asked for.
func pythagorean(d dice) scene {
	triple := pick(d, [3]int64{3, 4, 5}, [3]int64{5, 12, 13}, [3]int64{8, 15, 17}, [3]int64{7, 24, 25})
	scale := d.few()
	a, b, c := scale.mul(dec(triple[0], 1)), scale.mul(dec(triple[1], 1)), scale.mul(dec(triple[2], 1))
	ratio, _ := a.between().div(b.between())
	t := roots{all: []between{ratio.atan()}, period: turn(), close: 3e-8}
	equation := fmt.Sprintf("%s*sin(θ) + %s*cos(θ) = %s", a, b, c)
	if d.IntN(2) == 0 {
		return t.of("", []string{"solve " + equation + " for θ in °"})
	}
	t.period = nil
	return t.of("", []string{"solve " + equation + " for θ where 0° < θ < 90°"})
}
