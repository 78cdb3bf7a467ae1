package session

import (
	"math"
	"strings"

	"steelyard/lang/algebra"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/session/graph"
	"steelyard/units"
)

// shape says in words what a curve is: from its equation where that has one of
// the known forms, else from samples. A function by intervals is told interval
// by interval.
func (w *work) shape(p *plot, c *curve, sampled graph.Curve) ([]string, graph.Shape) {
	if pieces := w.pieces(p, c); pieces != nil {
		return pieces, graph.Shape{}
	}
	named := algebra.Display(shortName(c, p.s.Against.Name))
	if s, ok := w.formOf(p, c, c.x); ok {
		return []string{w.sentence(p, c, named, s, p.from, p.to)}, s
	}
	if s := graph.Recognise(c.eval, p.from, p.to); s.Kind != graph.Other {
		return []string{w.sentence(p, c, named, s, p.from, p.to)}, s
	}
	return []string{w.facts(p, c, named, sampled)}, graph.Shape{}
}

// pieces tells a function by intervals one interval after the other.
func (w *work) pieces(p *plot, c *curve) []string {
	call, ok := c.x.(*syntax.Call)
	if !ok || len(call.Args) != 1 {
		return nil
	}
	n, ok := call.Args[0].X.(*syntax.Name)
	d, found := w.planner.Names.Lookup(call.Func)
	if !ok || n.Name != p.s.Against.Name || !found || d.Kind != plan.Function || d.Func.Pieces == nil {
		return nil
	}
	var out []string
	for _, piece := range d.Func.Pieces {
		lo, hi := p.from, p.to
		if piece.Lo != nil {
			if at, ok := w.bound(w.pinned(syntax.Unplaced(piece.Lo), d, w.e.Line)); ok {
				lo = math.Max(lo, at)
			}
		}
		if piece.Hi != nil {
			if at, ok := w.bound(w.pinned(syntax.Unplaced(piece.Hi), d, w.e.Line)); ok {
				hi = math.Min(hi, at)
			}
		}
		if lo >= hi {
			continue
		}
		x := algebra.Substitute(w.pinned(syntax.Unplaced(piece.X), d, w.e.Line), map[string]syntax.Expr{d.Func.Params[0]: &syntax.Name{Name: p.s.Against.Name}})
		s, ok := w.formOf(p, c, x)
		if !ok {
			// A hair inside, where both ends belong to the interval for certain.
			s = graph.Recognise(c.eval, lo+(hi-lo)*1e-9, hi-(hi-lo)*1e-9)
		}
		lead := "From " + p.shownX(w, lo) + " to " + p.shownX(w, hi) + ", " + call.Func
		if s.Kind == graph.Other {
			within := *p
			within.from, within.to = lo+(hi-lo)*1e-9, hi-(hi-lo)*1e-9
			out = append(out, w.facts(&within, c, lead, graph.Sample(c.eval, within.from, within.to)))
			continue
		}
		out = append(out, w.sentence(p, c, lead, s, lo, hi))
	}
	return out
}

// bound works out the end of an interval of a function.
func (w *work) bound(x syntax.Expr) (float64, bool) {
	got := w.Try(syntax.Unplaced(x))
	return got.Value, got.OK && !got.Static.Absent
}

// formOf finds the shape in the equation of a curve.
func (w *work) formOf(p *plot, c *curve, x syntax.Expr) (graph.Shape, bool) {
	if !usesName(x, p.s.Against.Name) {
		if d, ok := w.planner.Names.Lookup(p.s.Against.Name); !ok || !d.Given || p.depends {
			v, ok := w.bound(x)
			return graph.Shape{Kind: graph.Constant, C: v}, ok
		} else if x, ok = w.throughGiven(x, d); !ok {
			return graph.Shape{}, false
		}
	}
	f, ok := algebra.FormOf(w.opened(x, 0), p.s.Against.Name)
	if !ok {
		return graph.Shape{}, false
	}
	v := make([]float64, len(f.C))
	for i, c := range f.C {
		if v[i], ok = w.bound(c); !ok {
			return graph.Shape{}, false
		}
	}
	return shapeOf(f, v)
}

// throughGiven writes the results in an expression out as far as a given that is
// varied.
func (w *work) throughGiven(x syntax.Expr, given *plan.Def) (syntax.Expr, bool) {
	put := map[string]syntax.Expr{}
	good := true
	syntax.Walk(x, func(x syntax.Expr) bool {
		if n, ok := x.(*syntax.Name); ok && put[n.Name] == nil {
			if d, ok := w.planner.Find(n); ok && d != given && !d.Given && d.Line > 0 {
				put[n.Name], ok = w.written(d, given, 0)
				good = good && ok
			}
		}
		return good
	})
	return algebra.Substitute(x, put), good
}

// shapeOf makes a shape of a form and the values of its coefficients.
func shapeOf(f algebra.Form, v []float64) (graph.Shape, bool) {
	switch f.Kind {
	case algebra.PolynomialForm:
		switch {
		case v[2] != 0:
			return graph.Shape{Kind: graph.Parabola, A: v[2], B: v[1], C: v[0]}, true
		case v[1] != 0:
			return graph.Shape{Kind: graph.Line, B: v[1], C: v[0]}, true
		}
		return graph.Shape{Kind: graph.Constant, C: v[0]}, true
	case algebra.PowerForm:
		return graph.Shape{Kind: graph.Power, A: v[0], E: f.Exp.Num(), Of: f.Exp.Den()}, v[0] != 0
	case algebra.ExponentialForm:
		return graph.Shape{Kind: graph.Exponential, A: v[1] * math.Exp(v[3]), B: v[2], C: v[0]}, v[1] != 0 && v[2] != 0
	}
	s := graph.Shape{Kind: graph.Wave, A: math.Abs(v[1]), B: math.Abs(v[2]), C: v[0]}
	if f.Squared { // sin² = 1/2 - 1/2·cos of twice the angle
		s.A, s.B, s.C = s.A/2, 2*s.B, s.C+v[1]/2
	}
	return s, v[1] != 0 && v[2] != 0
}

// teller puts the numbers of a curve into words.
type teller struct {
	w        *work
	p        *plot
	c        *curve
	from, to float64
}

// y is a value of the curve, x a place on the axis, each with its unit.
func (t teller) y(v float64) string {
	if v == 0 {
		return "0 " + t.c.unit.Screen()
	}
	return t.w.shownIn(v, t.c.unit)
}
func (t teller) x(v float64) string { return t.p.s.Against.Name + " = " + t.xValue(v) }
func (t teller) xValue(v float64) string {
	if v == 0 {
		return "0"
	}
	return t.p.shownX(t.w, v)
}
func (t teller) inside(x float64) bool {
	edge := 1e-9 * (t.to - t.from)
	return x >= t.from-edge && x <= t.to+edge
}

// per is a value of the curve's unit times the axis's to a power.
func (t teller) per(v float64, power int) string {
	e, _ := units.NewExp(power, 1)
	part, ok := t.p.static.Dim.Pow(e)
	if !ok {
		return units.FormatNumber(v, t.w.set.figures, t.w.set.rounding, units.Screen)
	}
	d, ok := t.c.static.Dim.Mul(part)
	if !ok {
		return units.FormatNumber(v, t.w.set.figures, t.w.set.rounding, units.Screen)
	}
	return t.w.shownIn(v, units.Preferred(d, units.None))
}

// sentence says what a curve of a known shape is.
func (w *work) sentence(p *plot, c *curve, named string, s graph.Shape, from, to float64) string {
	t := teller{w, p, c, from, to}
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
		text += ", judged from " + itoa(s.From) + " values"
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
		more = t.ends(func(x float64) float64 { return s.B*x + s.C })
	}
	return text + ": " + strings.Join(more, ", ")
}

// ends tells the values at both ends of the range.
func (t teller) ends(f func(float64) float64) []string {
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
	var more []string
	if t.inside(x0) {
		more = append(more, extreme+t.y(y0)+" at "+t.x(x0))
		edge := 1e-9 * (t.to - t.from)
		other := t.to
		if math.Abs(x0-t.to) < edge {
			other = t.from
		}
		if math.Abs(x0-t.from) < edge || other == t.from { // half a parabola
			more = append(more, t.y((s.A*other+s.B)*other+s.C)+" at "+t.x(other))
		}
	} else {
		more = append(t.ends(func(x float64) float64 { return (s.A*x+s.B)*x + s.C }), "its vertex at "+t.x(x0)+", outside the range")
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
	f := func(at float64) float64 { return s.A * math.Pow(at, float64(s.E)/float64(s.Of)) }
	text := ""
	e, _ := units.NewExp(s.E, s.Of)
	switch {
	case s.E == -1 && s.Of == 1:
		text = "is inversely proportional to " + x + " (their product is " + t.per(s.A, 1) + ")"
	case s.E == -2 && s.Of == 1:
		text = "is inversely proportional to the square of " + x + " (an inverse square, " + t.per(s.A, 2) + " over " + x + "²)"
	case s.E == 1 && s.Of == 2:
		text = "goes as the square root of " + x
	case s.E < 0:
		text = "goes as 1/" + algebra.Power(x, e.Neg())
	default:
		text = "goes as " + algebra.Power(x, e)
	}
	var more []string
	for _, at := range []float64{t.from, t.to} {
		if v := f(at); v-v == 0 {
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

// maxZeros is how many zeros are named.
const maxZeros = 5

// facts says of a curve without a name what can be said.
func (w *work) facts(p *plot, c *curve, named string, sampled graph.Curve) string {
	t := teller{w, p, c, p.from, p.to}
	f := graph.Look(c.eval, sampled, p.from, p.to)
	for _, y := range []*float64{&f.Greatest.Y, &f.Least.Y} {
		if math.Abs(*y) < 1e-12*(sampled.Hi-sampled.Lo) {
			*y = 0
		}
	}
	for _, at := range []*float64{&f.Greatest.X, &f.Least.X} {
		if math.Abs(*at) < 1e-9*(p.to-p.from) {
			*at = 0
		}
	}
	var parts []string
	ends := f.HasFrom && f.HasTo
	switch {
	case f.Rises && ends:
		parts = append(parts, "rises from "+t.y(f.AtFrom.Y)+" at "+t.x(p.from)+" to "+t.y(f.AtTo.Y)+" at "+t.x(p.to))
	case f.Falls && ends:
		parts = append(parts, "falls from "+t.y(f.AtFrom.Y)+" at "+t.x(p.from)+" to "+t.y(f.AtTo.Y)+" at "+t.x(p.to))
	case sampled.Cut:
		where := t.gaps(sampled)
		if where == "" && !f.HasFrom {
			where = "at " + t.x(p.from)
		} else if where == "" {
			where = "at " + t.x(p.to)
		}
		parts = append(parts, "runs off "+where)
	default:
		parts = append(parts, "is greatest, "+t.y(f.Greatest.Y)+", at "+t.x(f.Greatest.X)+" and least, "+t.y(f.Least.Y)+", at "+t.x(f.Least.X))
		if len(sampled.Runs) > 1 || !ends {
			parts = append(parts, t.gaps(sampled))
		}
	}
	parts = append(parts, t.zeros(f)...)
	switch {
	case f.Even:
		parts = append(parts, "the same on both sides of "+t.x(0))
	case f.Odd:
		parts = append(parts, "the same with the other sign on both sides of "+t.x(0))
	}
	var said []string
	for _, s := range parts {
		if s != "" {
			said = append(said, s)
		}
	}
	return named + " " + strings.Join(said, "; ") + " (judged from samples)."
}

func (t teller) zeros(f graph.Facts) []string {
	if len(f.Zeros) == 0 {
		return nil
	}
	if len(f.Zeros) > maxZeros {
		return []string{"zero in " + itoa(len(f.Zeros)) + " places"}
	}
	var at []string
	for _, x := range f.Zeros {
		if math.Abs(x) < 1e-12*(t.to-t.from) {
			x = 0
		}
		at = append(at, t.xValue(x))
	}
	return []string{"zero at " + t.p.s.Against.Name + " = " + strings.Join(at, ", ")}
}

// gaps says where a curve breaks off.
func (t teller) gaps(c graph.Curve) string {
	var at []string
	edge := 1e-6 * (t.to - t.from)
	if first := c.Runs[0][0].X; first > t.from+edge {
		at = append(at, "below "+t.x(first))
	}
	for i := 1; i < len(c.Runs); i++ {
		end, begin := c.Runs[i-1][len(c.Runs[i-1])-1].X, c.Runs[i][0].X
		if begin-end < 0.02*(t.to-t.from) {
			mid := c.Breaks[i-1]
			if math.Abs(mid) < 1e-9*(t.to-t.from) {
				mid = 0
			}
			at = append(at, "at "+t.x(mid))
		} else {
			at = append(at, "from "+t.x(end)+" to "+t.xValue(begin))
		}
	}
	last := c.Runs[len(c.Runs)-1]
	if end := last[len(last)-1].X; end < t.to-edge {
		at = append(at, "above "+t.x(end))
	}
	if len(at) > maxZeros {
		at = append(at[:maxZeros], "and further places")
	}
	if at == nil {
		return ""
	}
	if c.Cut {
		return strings.Join(at, ", ")
	}
	return "with a break " + strings.Join(at, ", ")
}
