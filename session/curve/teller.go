package curve

import (
	"math"
	"strconv"

	"steelyard/lang/algebra"
	"steelyard/lang/ops"
	"steelyard/session/entry"
	"steelyard/session/graph"
	"steelyard/units"
)

// teller puts the numbers of a curve into words.
//
// One teller has one range and one precision, so that all numbers of a sentence agree.
type teller struct {
	p        *plot
	c        *curve
	from, to float64
	figures  units.Figures
	tall     float64 // how far the curve's greatest value is above its least, once they are known
	off      bool    // only where the curve runs off counts as a break
	// faint is where it is too small to be told from 0, once its zeros have been looked for.
	faint []ops.Interval
}

// roughly is how many figures what is judged from samples has.
const roughly = 3

// teller tells of a curve over a range, roughly where it is judged from samples.
func (p *plot) teller(c *curve, from, to float64, sampled bool) teller {
	return teller{p: p, c: c, from: from, to: to, figures: p.figures(c, from, to, sampled)}
}

// rough tells in the figures of what is judged from samples.
func (t teller) rough() teller {
	t.figures = t.p.figures(t.c, t.from, t.to, true)
	return t
}

// figures are those with which the values of a curve between two places are told, roughly
// where it is judged from samples.
//
// No number of a sentence has more figures than the givens support at any place of the curve.
// What samples have seen is told to three, as the next sample may have been higher.
func (p *plot) figures(c *curve, from, to float64, sampled bool) units.Figures {
	out := p.FiguresAlong(c.fn, from, to, c.unit)
	if out.Givens {
		out.N = fewest(out.N, p.most)
	}
	if sampled && (out.N == 0 || out.N > roughly) {
		out = units.Figures{N: roughly}
	}
	return out
}

// shown is a value in a unit.
func (t teller) shown(v float64, u *units.Unit) entry.Said { return t.p.Told(t.figures, v, u) }

// y is a value of the curve, x a place on the axis, each with its unit.
//
// A nought is 0 m, without figures that nobody has measured.
func (t teller) y(v float64) entry.Said {
	if v == 0 {
		return entry.Words(units.Behind("0", t.c.unit, units.Screen))
	}
	return t.shown(v, t.c.unit)
}

func (t teller) x(v float64) entry.Said { return entry.Say("… = …", t.axis(), t.xValue(v)) }

// axis is the name of the axis.
func (t teller) axis() entry.Said { return entry.Name(t.p.s.Against.Name) }

func (t teller) xValue(v float64) entry.Said {
	if v == 0 {
		return entry.Words("0")
	}
	return t.shown(v, t.p.unit)
}

// inside tells whether a place is in the range. One at the very end is, whatever rounding made
// of the end.
func (t teller) inside(x float64) bool {
	edge := 1e-9 * (t.to - t.from)
	return x >= t.from-edge && x <= t.to+edge
}

// per is a value of the curve's unit times the axis's to a power.
//
// The unit is made of those on the axes, (m/s)/s as m/s²: a reader can read the slope off the
// drawing with it.
func (t teller) per(v float64, power int) entry.Said {
	e := units.NewExp(power, 1)
	d := t.c.static.Dim.Mul(t.p.static.Dim.Pow(e))
	if d.Lost() {
		return t.shown(v, units.One)
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
//
// The words are those of a textbook, and each claims no more than the shape: a line through
// the origin is proportional, another one is not.
func (p *plot) sentence(c *curve, named entry.Said, s graph.Shape, from, to float64) entry.Said {
	t := p.teller(c, from, to, s.From > 0)
	var said entry.Said
	switch s.Kind {
	case graph.Constant:
		said = entry.Say("is constant: …", t.y(s.C))
	case graph.Line:
		said = t.line(s)
	case graph.Parabola:
		said = t.parabola(s)
	case graph.Power:
		said = t.power(s)
	case graph.Exponential:
		said = t.exponential(s)
	default:
		said = t.wave(s)
	}
	if s.From > 0 {
		said = said.And(", judged from " + strconv.Itoa(s.From) + " values")
	}
	return entry.Say("… ….", named, said)
}

// line tells where a line meets the axes, if that is in the range; else its ends.
func (t teller) line(s graph.Shape) entry.Said {
	if s.C == 0 {
		return entry.Say("is a line in … through the origin, with slope …", t.axis(), t.per(s.B, -1))
	}
	var more []entry.Said
	if t.inside(0) {
		more = append(more, t.at(s.C, 0))
	}
	if x := -s.C / s.B; t.inside(x) {
		more = append(more, entry.Say("zero at …", t.x(x)))
	}
	if more == nil {
		more = t.values(func(x float64) float64 { return t.own(s.B*x+s.C, x, s.C) })
	}
	return entry.Say("is a line in … with slope …: …", t.axis(), t.per(s.B, -1), listed(more))
}

// at is a value of the curve with its place: nearly 0 where it is too small to be told from it.
func (t teller) at(y, x float64) entry.Said {
	text := "… at …"
	if y == 0 && within(ops.Point(x), t.faint) {
		text = "nearly … at …"
	}
	return entry.Say(text, t.y(y), t.x(x))
}

// listed puts commas between things.
func listed(all []entry.Said) entry.Said { return entry.Joined(all, ", ") }

// own is the value that the curve itself has at a place, which knows what rounding has
// left of 0, where that of its form is the same but for rounding.
func (t teller) own(v, x, scale float64) float64 {
	if y, ok := t.c.eval.At(x); ok && math.Abs(y-v) <= 1e-9*max(math.Abs(scale), math.Abs(v)) {
		return y
	}
	return v
}

// values tells those at both ends of the range.
func (t teller) values(f func(float64) float64) []entry.Said {
	return []entry.Said{t.at(f(t.from), t.from), t.at(f(t.to), t.to)}
}

// parabola tells of the vertex first, as it is what is read off a parabola; one outside the
// range is told as such, since nobody sees it in the drawing.
func (t teller) parabola(s graph.Shape) entry.Said {
	opens, extreme := "upward", "least …"
	if s.A < 0 {
		opens, extreme = "downward", "greatest …"
	}
	x0 := -s.B / (2 * s.A)
	if s.B == 0 {
		x0 = 0
	}
	y0 := s.C - s.B*s.B/(4*s.A)
	at := func(x float64) float64 { return t.own((s.A*x+s.B)*x+s.C, x, s.C) }
	y0 = t.own(y0, x0, s.C)
	var more []entry.Said
	if t.inside(x0) {
		more = append(more, entry.Say(extreme, t.at(y0, x0)))
		edge := 1e-9 * (t.to - t.from)
		other := t.to
		if math.Abs(x0-t.to) < edge {
			other = t.from
		}
		half := math.Abs(x0-t.from) < edge || other == t.from
		if y := at(other); half && y != 0 {
			more = append(more, t.at(y, other))
		}
	} else {
		more = append(t.values(at), entry.Say("its vertex at …, outside the range", t.x(x0)))
	}
	if zeros := t.parabolaZeros(s, x0, y0); zeros != nil {
		more = append(more, entry.Say("zero at … = …", t.axis(), zeros))
	}
	return entry.Say("is a parabola in … that opens "+opens+": …", t.axis(), listed(more))
}

// parabolaZeros names the zeros within the range; nil for none.
func (t teller) parabolaZeros(s graph.Shape, x0, y0 float64) entry.Said {
	under := -y0 / s.A
	if y0 == 0 || under < 0 {
		return nil
	}
	half := math.Sqrt(under)
	if x0 == 0 && t.inside(half) && t.inside(-half) {
		return entry.Say("±…", t.xValue(half))
	}
	var at []entry.Said
	for _, x := range []float64{x0 - half, x0 + half} {
		if math.Abs(x) < 1e-12*half {
			x = 0
		}
		if t.inside(x) {
			at = append(at, t.xValue(x))
		}
	}
	return entry.Joined(at, " and ")
}

// power tells how a power goes. Inverse and inverse square have names of their own, and a
// constant: the product, or the product with the square, is what a table of the curve would be
// checked by.
func (t teller) power(s graph.Shape) entry.Said {
	x, e := t.p.s.Against.Name, units.NewExp(s.E, s.Of)
	power := func(e units.Exp) entry.Said { return entry.Math(algebra.Power(x, e)) }
	var said entry.Said
	switch {
	case s.E == -1 && s.Of == 1:
		said = entry.Say("is inversely proportional to … (their product is …)", t.axis(), t.per(s.A, 1))
	case s.E == -2 && s.Of == 1:
		said = entry.Say("is inversely proportional to the square of … (an inverse square, … over …)", t.axis(), t.per(s.A, 2), power(units.NewExp(2, 1)))
	case s.E == 1 && s.Of == 2:
		said = entry.Say("goes as the square root of …", t.axis())
	case s.E < 0:
		said = entry.Say("goes as 1/…", power(e.Neg()))
	default:
		said = entry.Say("goes as …", power(e))
	}
	var more []entry.Said
	for _, at := range []float64{t.from, t.to} {
		if v, ok := t.c.eval.At(at); ok {
			more = append(more, t.at(v, at))
		} else {
			more = append(more, entry.Say("no value at …", t.x(at)))
		}
	}
	if s.E < 0 && t.from < 0 && t.to > 0 {
		more = append(more, entry.Say("running off at …", t.x(0)))
	}
	return said.And(": …", listed(more))
}

// exponential tells after what distance the curve has changed by a factor e, and after which
// by 2: both are in use. With a constant beside it, it is the distance from that which changes
// so.
func (t teller) exponential(s graph.Shape) entry.Said {
	text := "grows exponentially"
	if s.B < 0 {
		text = "falls exponentially"
		if s.A < 0 {
			text = "rises exponentially"
		}
	} else if s.A < 0 {
		text = "falls ever faster, exponentially"
	}
	said := entry.Words(text)
	if s.C != 0 && s.B < 0 {
		said = said.And(" toward …", t.y(s.C))
	}
	at := t.from
	if t.inside(0) {
		at = 0
	}
	said = said.And(" in …: …, a factor e", t.axis(), t.at(s.A*math.Exp(s.B*at)+s.C, at))
	if s.C != 0 {
		said = said.And(" in its distance from …", t.y(s.C))
	}
	twice := " in …, half in …"
	if s.B > 0 {
		twice = " in …, twice in …"
	}
	return said.And(twice, t.xValue(1/math.Abs(s.B)), t.xValue(math.Ln2/math.Abs(s.B)))
}

// wave tells of a sinusoid. Its amplitude counts from the mean, and is half of what it goes
// from top to bottom.
func (t teller) wave(s graph.Shape) entry.Said {
	said := entry.Say("is a sinusoid in … with amplitude … and period …", t.axis(), t.y(s.A), t.xValue(2*math.Pi/s.B))
	if s.C != 0 {
		said = said.And(", about a mean of …", t.y(s.C))
	}
	return said
}
