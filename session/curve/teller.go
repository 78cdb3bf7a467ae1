package curve

import (
	"math"
	"strconv"
	"strings"

	"steelyard/lang/algebra"
	"steelyard/lang/typeset"
	"steelyard/session/graph"
	"steelyard/units"
)

// teller puts the numbers of a curve into words.
type teller struct {
	p        *plot
	c        *curve
	from, to float64
	figures  units.Figures
	off      bool // only where the curve runs off counts as a break
}

// roughly is how many figures what is judged from samples has.
const roughly = 3

// teller tells of a curve over a range, roughly where it is judged from samples.
func (p *plot) teller(c *curve, from, to float64, sampled bool) teller {
	t := teller{p: p, c: c, from: from, to: to, figures: p.Set.Figures}
	if sampled && (t.figures.N == 0 || t.figures.N > roughly) {
		t.figures = units.Figures{N: roughly}
	}
	return t
}

// shown is a value in a unit.
func (t teller) shown(v float64, u *units.Unit) string {
	return units.FormatQuantity(u.FromSI(v), u, t.figures, t.p.Set.Rounding, units.Screen)
}

// y is a value of the curve, x a place on the axis, each with its unit.
func (t teller) y(v float64) string {
	if u := t.c.unit.Screen(); v == 0 && u != "1" {
		return "0 " + u
	}
	return t.shown(v, t.c.unit)
}

func (t teller) x(v float64) string { return t.p.s.Against.Name + " = " + t.xValue(v) }

func (t teller) xValue(v float64) string {
	if v == 0 {
		return "0"
	}
	return t.shown(v, t.p.unit)
}

func (t teller) inside(x float64) bool {
	edge := 1e-9 * (t.to - t.from)
	return x >= t.from-edge && x <= t.to+edge
}

// per is a value of the curve's unit times the axis's to a power.
func (t teller) per(v float64, power int) string {
	e := units.NewExp(power, 1)
	d := t.c.static.Dim.Mul(t.p.static.Dim.Pow(e))
	if d.Lost() {
		return units.FormatNumber(v, t.figures, t.p.Set.Rounding, units.Screen)
	}
	var axes units.Product
	if axes.Times(t.c.unit, units.NewExp(1, 1)) && axes.Times(t.p.unit, e) {
		if u := axes.Per(d, units.None); u != nil {
			return t.shown(v, u)
		}
	}
	return t.shown(v, units.Preferred(d, units.None))
}

// sentence says what a curve of a known shape is.
func (p *plot) sentence(c *curve, named string, s graph.Shape, from, to float64) string {
	t := p.teller(c, from, to, s.From > 0)
	text := ""
	switch s.Kind {
	case graph.Constant:
		text = "is constant: " + t.y(s.C)
	case graph.Line:
		text = t.line(s)
	case graph.Parabola:
		text = t.parabola(s)
	case graph.Power:
		text = t.power(s)
	case graph.Exponential:
		text = t.exponential(s)
	default:
		text = t.wave(s)
	}
	if s.From > 0 {
		text += ", judged from " + strconv.Itoa(s.From) + " values"
	}
	return named + " " + text + "."
}

func (t teller) line(s graph.Shape) string {
	text := "is a line in " + t.p.s.Against.Name
	if s.C == 0 {
		return text + " through the origin, with slope " + t.per(s.B, -1)
	}
	text += " with slope " + t.per(s.B, -1)
	var more []string
	if t.inside(0) {
		more = append(more, t.y(s.C)+" at "+t.x(0))
	}
	if x := -s.C / s.B; t.inside(x) {
		more = append(more, "zero at "+t.x(x))
	}
	if more == nil {
		more = t.values(func(x float64) float64 { return t.own(s.B*x+s.C, x, s.C) })
	}
	return text + ": " + strings.Join(more, ", ")
}

// own is the value that the curve itself has at a place, which knows what rounding has
// left of 0, where that of its form is the same but for rounding.
func (t teller) own(v, x, scale float64) float64 {
	if y, ok := t.c.eval.At(x); ok && math.Abs(y-v) <= 1e-9*max(math.Abs(scale), math.Abs(v)) {
		return y
	}
	return v
}

// values tells those at both ends of the range.
func (t teller) values(f func(float64) float64) []string {
	return []string{t.y(f(t.from)) + " at " + t.x(t.from), t.y(f(t.to)) + " at " + t.x(t.to)}
}

func (t teller) parabola(s graph.Shape) string {
	opens, extreme := "upward", "least "
	if s.A < 0 {
		opens, extreme = "downward", "greatest "
	}
	text := "is a parabola in " + t.p.s.Against.Name + " that opens " + opens
	x0 := -s.B / (2 * s.A)
	if s.B == 0 {
		x0 = 0
	}
	y0 := s.C - s.B*s.B/(4*s.A)
	at := func(x float64) float64 { return t.own((s.A*x+s.B)*x+s.C, x, s.C) }
	y0 = t.own(y0, x0, s.C)
	var more []string
	if t.inside(x0) {
		more = append(more, extreme+t.y(y0)+" at "+t.x(x0))
		edge := 1e-9 * (t.to - t.from)
		other := t.to
		if math.Abs(x0-t.to) < edge {
			other = t.from
		}
		half := math.Abs(x0-t.from) < edge || other == t.from
		if y := at(other); half && y != 0 {
			more = append(more, t.y(y)+" at "+t.x(other))
		}
	} else {
		more = append(t.values(at), "its vertex at "+t.x(x0)+", outside the range")
	}
	return text + ": " + strings.Join(append(more, t.parabolaZeros(s, x0, y0)...), ", ")
}

// parabolaZeros names the zeros within the range.
func (t teller) parabolaZeros(s graph.Shape, x0, y0 float64) []string {
	under := -y0 / s.A
	if y0 == 0 || under < 0 {
		return nil
	}
	half := math.Sqrt(under)
	if x0 == 0 && t.inside(half) && t.inside(-half) {
		return []string{"zero at " + t.p.s.Against.Name + " = ±" + t.xValue(half)}
	}
	var at []string
	for _, x := range []float64{x0 - half, x0 + half} {
		if math.Abs(x) < 1e-12*half {
			x = 0
		}
		if t.inside(x) {
			at = append(at, t.xValue(x))
		}
	}
	if at == nil {
		return nil
	}
	return []string{"zero at " + t.p.s.Against.Name + " = " + strings.Join(at, " and ")}
}

func (t teller) power(s graph.Shape) string {
	x := t.p.s.Against.Name
	text := ""
	e := units.NewExp(s.E, s.Of)
	switch {
	case s.E == -1 && s.Of == 1:
		text = "is inversely proportional to " + x + " (their product is " + t.per(s.A, 1) + ")"
	case s.E == -2 && s.Of == 1:
		text = "is inversely proportional to the square of " + x + " (an inverse square, " + t.per(s.A, 2) + " over " + x + "²)"
	case s.E == 1 && s.Of == 2:
		text = "goes as the square root of " + x
	case s.E < 0:
		text = "goes as 1/" + typeset.Text(algebra.Power(x, e.Neg()))
	default:
		text = "goes as " + typeset.Text(algebra.Power(x, e))
	}
	var more []string
	for _, at := range []float64{t.from, t.to} {
		if v, ok := t.c.eval.At(at); ok {
			more = append(more, t.y(v)+" at "+t.x(at))
		} else {
			more = append(more, "no value at "+t.x(at))
		}
	}
	if s.E < 0 && t.from < 0 && t.to > 0 {
		more = append(more, "running off at "+t.x(0))
	}
	return text + ": " + strings.Join(more, ", ")
}

func (t teller) exponential(s graph.Shape) string {
	text := "grows exponentially"
	if s.B < 0 {
		text = "falls exponentially"
		if s.A < 0 {
			text = "rises exponentially"
		}
	} else if s.A < 0 {
		text = "falls ever faster, exponentially"
	}
	if s.C != 0 && s.B < 0 {
		text += " toward " + t.y(s.C)
	}
	at := t.from
	if t.inside(0) {
		at = 0
	}
	text += " in " + t.p.s.Against.Name + ": " + t.y(s.A*math.Exp(s.B*at)+s.C) + " at " + t.x(at)
	what := "a factor e"
	if s.C != 0 {
		what = "a factor e in its distance from " + t.y(s.C)
	}
	twice := ", half in "
	if s.B > 0 {
		twice = ", twice in "
	}
	return text + ", " + what + " in " + t.xValue(1/math.Abs(s.B)) + twice + t.xValue(math.Ln2/math.Abs(s.B))
}

func (t teller) wave(s graph.Shape) string {
	text := "is a sinusoid in " + t.p.s.Against.Name + " with amplitude " + t.y(s.A) + " and period " + t.xValue(2*math.Pi/s.B)
	if s.C != 0 {
		text += ", about a mean of " + t.y(s.C)
	}
	return text
}
