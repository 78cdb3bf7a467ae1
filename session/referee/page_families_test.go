package referee

import (
	"fmt"
	"regexp"
	"strings"

	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// judgeTable reads each cell of a table beside the value at its place.
func judgeTable(h *hearing) ruling {
	s, ok := h.last.Stmt.(*syntax.Graph)
	t, shown := h.last.Outcome.(*entry.Table)
	if !ok || !shown {
		return silent
	}
	for _, row := range t.Rows {
		x, ok := h.meant.printed(row[0].Value.Shown(units.File))
		if !ok {
			return wrong("the place %s can't be read", row[0])
		}
		for k, c := range s.Curves {
			meant, has := h.meant.with(s.Against.Name, x.is).value(c.X)
			rough, safe := h.rough.with(s.Against.Name, h.rough.step(x.is)).value(c.X)
			switch v := row[k+1].Value; {
			case v == nil && has && safe:
				return wrong("at %s it is %s, and the cell says %q", row[0], meant.text(), row[k+1])
			case v == nil:
			case !has:
				return wrong("at %s there is no value, and the cell says %s", row[0], row[k+1])
			case safe:
				if r := h.fits(*v, meant, rough); r.wrong != "" {
					return wrong("at %s: %s", row[0], r.wrong)
				}
			}
		}
	}
	return solved
}

// tables pass through 0 at a place of theirs.
func tables(d dice) scene {
	k := d.few()
	step := pick(d, dec(1, 10), dec(1, 5), dec(1, 4), dec(1, 2), dec(3, 10), dec(1, 1))
	n := int64(3 + d.IntN(8))
	to := step.mul(dec(n, 1))
	zero := step.mul(dec(int64(d.IntN(int(n+1))), 1))
	var x string
	switch d.IntN(5) {
	case 0:
		x = fmt.Sprintf("%s m - (%s m/s)*t", k.mul(zero), k)
	case 1:
		x = fmt.Sprintf("(t - %s s)*(%s m/s)", zero, k)
	case 2:
		x = fmt.Sprintf("%s m/s^2*t^2 - %s m", k, k.mul(zero).mul(zero))
	case 3:
		x = fmt.Sprintf("%s m*sin(2*π*t/(%s s))", k, step.mul(dec(2, 1)))
	default:
		x = fmt.Sprintf("%s m/(t - %s s)", k, zero)
	}
	return scene{lines: []string{fmt.Sprintf("table %s against t from 0 s to %s s by %s s", x, to, step)}, judge: judgeTable}
}

// books are energies that balance to the last digit, or do not.
func books(d dice) scene {
	a, b, c := d.few(), d.few(), d.few()
	off := pick(d, dec(0, 1), dec(0, 1), dec(1, 1000), dec(-1, 100))
	rest := a.add(b).add(c).add(off)
	part := rest.mul(dec(int64(1+d.IntN(9)), 10))
	before := []string{fmt.Sprintf("U = %s J", a), fmt.Sprintf("K = %s J", b), fmt.Sprintf("W = %s J", c), fmt.Sprintf("U2 = %s J", part), fmt.Sprintf("K2 = %s J", rest.sub(part))}
	line := `bars at "first": U, K, W | at "then": U2, K2`
	if d.IntN(2) == 0 {
		line = `bars at "first": U, K | at "then": U2, K2 with work W`
	}
	return scene{lines: append(before, line), judge: func(h *hearing) ruling {
		got, ok := h.last.Outcome.(*entry.Bars)
		switch {
		case !ok:
			return silent
		case got.Holds != (off.Sign() == 0):
			return wrong("the sums differ by %s J", off)
		}
		return solved
	}}
}

// replaced are results with a given replaced, which may have been given again since:
// what varies is the one that the result was worked out from.
func replaced(d dice) scene {
	k, k2, m, f := d.few(), d.few(), d.few(), d.few()
	page := []string{fmt.Sprintf("k = %s N/m", k), fmt.Sprintf("m = %s kg", m)}
	chain := pick(d,
		[]string{"T = 2*π*√(m/k)"},
		[]string{"ω = √(k/m)", "T = 2*π/ω"},
		[]string{"W = 1/2*k*(3 cm)^2", "T = W/m"},
		[]string{"U(x) = 1/2*k*x^2 in J", "T = U(0.2 m)/m"},
	)
	page = append(page, chain...)
	again := d.IntN(2) == 0
	if again {
		page = append(page, "part b: another spring", fmt.Sprintf("k = %s N/m", k2))
	}
	value := f.String() + " N/m"
	if !again && d.IntN(3) == 0 {
		value = f.String() + "*k"
	}
	asked := append(page, fmt.Sprintf("T with k = %s", value))
	return scene{lines: asked, judge: func(h *hearing) ruling {
		meant, rough := newReading(0), newReading(bits)
		for i, line := range page {
			if strings.HasPrefix(line, "k = ") && i == 0 {
				line = "k = " + strings.Replace(value, "*k", fmt.Sprintf("*(%s N/m)", k), 1)
			}
			meant.learn(read(line))
			rough.learn(read(line))
		}
		if len(h.last.Values()) == 0 {
			return silent
		}
		x := &syntax.Name{Name: "T"}
		want, ok1 := meant.value(x)
		room, ok2 := rough.value(x)
		if !ok1 || !ok2 {
			return wrong("the page is built wrong")
		}
		return h.fits(h.last.Values()[0], want, room)
	}}
}

// timesText is by how much doubling a quantity multiplies another.
var timesText = regexp.MustCompile(`doubling [^ ]+ (?:multiplies [^ ]+ by ([^ ;.]+(?:\.[0-9]+)?(?:×10[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)?)|leaves)`)

// scalings tell how a result grows with a given.
func scalings(d dice) scene {
	a, b := d.few(), d.few()
	body := pick(d, "3*L^2/A", "√(L^3/A)", "A/L", "hypot(L, 0 m)*A", "abs(L)*L", "exp(ln(L/(1 m)))*A", "(L + A)*2", "A*exp(-L/(2 m))", "L*A + L*A", "L - A + A", "2*π*√(L/g)", "(L*A)^(1/3)", "sin(L/A)")
	before := []string{fmt.Sprintf("L = %s m", a), fmt.Sprintf("A = %s m", b), "y = " + body}
	return scene{lines: append(before, "scaling y against L"), judge: func(h *hearing) ruling {
		rows, ok := h.last.Outcome.(entry.Lines)
		if !ok {
			return silent
		}
		m := timesText.FindStringSubmatch(entry.Joined(rows, " ").String())
		if m == nil {
			return silent
		}
		x, _ := syntax.ParseExpr(body)
		was, ok1 := h.meant.value(x)
		twice, ok2 := h.meant.with("L", exactly(a.mul(dec(2, 1)).Rat)).value(x)
		p, ok3 := h.meant.printed(m[1])
		by, ok4 := twice.div(orZero(was))
		switch {
		case !ok1 || !ok2 || !ok4:
			return wrong("there is no factor")
		case !ok3:
			return wrong("the factor %q can't be read", m[1])
		case apart(p.is, by) > p.half+1e-9*by.size():
			return wrong("the factor is %s", by.text())
		}
		return solved
	}}
}
