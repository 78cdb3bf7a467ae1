package referee

import (
	"fmt"
	"math/big"
)

func valueOf(before []string, x string) scene {
	return scene{lines: append(before, x), judge: judgeValue}
}

// remainders are sums and differences of decimals, in mixed units: many exactly 0,
// some not.
func remainders(d dice) scene {
	a, b := d.few(), d.few()
	u, w, z := pick(d, lengths[:3]...), pick(d, lengths[:3]...), pick(d, lengths[:3]...)
	sum := a.mul(u.size).add(b.mul(w.size)).div(z.size)
	if d.IntN(3) == 0 {
		sum = sum.add(pick(d, dec(1, 1000), dec(1, 1000000), dec(-1, 1000000000)))
	}
	x := fmt.Sprintf("%s %s + %s %s - %s %s", a, u.text, b, w.text, sum, z.text)
	switch d.IntN(7) {
	case 0:
		return valueOf(nil, x)
	case 1:
		return valueOf(nil, "d = "+x)
	case 2:
		return scene{lines: []string{"d = " + x, "report sign of d"}, judge: judgeSign}
	case 3:
		return scene{lines: []string{"check " + x + " = 0"}, judge: judgeCheck}
	case 4:
		return scene{lines: []string{fmt.Sprintf("check %s %s + %s %s %s %s %s", a, u.text, b, w.text, pick(d, ">", "<", "≥", "≤", "="), sum, z.text)}, judge: judgeCheck}
	case 5:
		return scene{lines: []string{"check " + x + " is " + pick(d, "zero", "positive", "negative")}, judge: judgeCheck}
	}
	k := d.few()
	return valueOf([]string{"d = " + x, fmt.Sprintf("k = %s N/m", k)}, "1/2*k*d^2")
}

// exactAngles have sines, cosines and tangents that are 0, ±1/2 or ±1.
func exactAngles(d dice) scene {
	deg := decimal{big.NewRat(30*(d.Int64N(49)-24), 1)}
	if d.IntN(3) == 0 {
		deg = decimal{big.NewRat(45*(d.Int64N(33)-16), 1)}
	}
	angle := deg.String() + "°"
	if d.IntN(4) == 0 {
		angle = fmt.Sprintf("(%s*π)", pick(d, "2", "3", "1/2", "3/2", "1/6", "5/2", "-1/2", "7"))
	}
	f := pick(d, "sin", "cos", "tan")
	force, way := d.few(), d.few()
	work := fmt.Sprintf("(%s N)*(%s m)*%s(%s)", force, way, f, angle)
	switch d.IntN(8) {
	case 0:
		return valueOf(nil, f+"("+angle+")")
	case 1:
		return valueOf([]string{"θ = " + angle}, f+"(θ)")
	case 2:
		return valueOf([]string{"θ = " + angle, fmt.Sprintf("F = %s N", force)}, "F*"+f+"(θ)")
	case 3:
		return valueOf(nil, work+" in J")
	case 4:
		return scene{lines: []string{"check " + work + " = 0"}, judge: judgeCheck}
	case 5:
		return scene{lines: []string{"W = " + work, "report sign of W"}, judge: judgeSign}
	case 6:
		return valueOf([]string{"θ = " + angle}, f+"(2*θ)")
	}
	return valueOf([]string{"θ = " + angle, "W(a) = " + fmt.Sprintf("(%s N)*(%s m)*%s(a)", force, way, f)}, "W(θ + 90°)")
}

// arithmetic is all sorts of expressions of quantities.
func arithmetic(d dice) scene {
	a, b, c := d.few(), d.few(), d.few()
	u, w := pick(d, lengths...), pick(d, lengths...)
	before := []string{fmt.Sprintf("a = %s %s", a, u.text), fmt.Sprintf("b = %s %s", b, w.text), fmt.Sprintf("t = %s s", c), fmt.Sprintf("m = %s g", c)}
	x := pick(d, "(a - b)^2", "a^2 - b^2", "√(a^2 + b^2)", "hypot(a, b)", "1/2*m*(a/t)^2", "(a + b)/t", "a*exp(-b/a)", "ln(a/b)", "atan(a/b)",
		"(a^2*b)^(1/3)", "abs(a - b)", "min(a, b) - max(a, b)", "√(a^2 - b^2)", "1/(a - b)", "(a - b)/(a - b)", "2*π*√(a/g)", "m*g*a*(1 - cos(b/a))", "a*sin(b/a)^2 + a*cos(b/a)^2 - a",
		"sinh(a/(a + b))", "(a + b)*(a - b) - a^2 + b^2", "cosh(b/(a + b))^2 - sinh(b/(a + b))^2")
	if d.IntN(4) == 0 {
		return scene{lines: append(before, "E = "+x, "report sign of E"), judge: judgeSign}
	}
	if d.IntN(3) == 0 {
		return valueOf(before, x+" with a = "+b.String()+" "+w.text)
	}
	return valueOf(before, x)
}

// identities are sides that are equal, or differ by a little.
func identities(d dice) scene {
	a, b, c := d.few(), d.few(), d.few()
	before := []string{fmt.Sprintf("a = %s m", a), fmt.Sprintf("b = %s cm", b), fmt.Sprintf("t = %s s", c)}
	pair := pick(d, [2]string{"(a + b)^2", "a^2 + 2*a*b + b^2"}, [2]string{"(a - b)*(a + b)", "a^2 - b^2"}, [2]string{"a/t + b/t", "(a + b)/t"},
		[2]string{"hypot(a, b)^2", "a^2 + b^2"}, [2]string{"exp(ln(a/b))", "a/b"}, [2]string{"sin(2*t/(1 s))", "2*sin(t/(1 s))*cos(t/(1 s))"}, [2]string{"√(a^2)", "a"})
	tail := pick(d, "", "", " within 1 %")
	off := pick(d, "", "", "*1.000001", "*1.00000001", "*1.02")
	switch d.IntN(4) {
	case 0:
		return scene{lines: append(before, fmt.Sprintf("check %s - %s%s = 0", pair[0], pair[1], off)), judge: judgeCheck}
	case 1:
		return scene{lines: append(before, fmt.Sprintf("check %s %s %s%s", pair[0], pick(d, ">", "<", "≥", "≤"), pair[1], off)), judge: judgeCheck}
	case 2:
		if tail != "" {
			return scene{lines: append(before, fmt.Sprintf("check %s = %s%s", pair[0], pair[1], off)), judge: judgeCheck}
		}
	}
	x := a.mul(b)
	return scene{lines: append(before, fmt.Sprintf("check a*b*100 = %s m^2", pick(d, x, x.add(dec(1, 100)), x.mul(dec(11, 10))))), judge: judgeCheck}
}
