package curve

import (
	"math"
	"slices"
	"strconv"

	"steelyard/lang/algebra"
	"steelyard/lang/limit"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/graph"
	"steelyard/units"
)

// claim is something said of a curve, and whether it is proved; if not, it is judged
// from samples.
//
// The two are kept apart to the last word: a sentence says of each half whether it is proved.
type claim struct {
	text   entry.Said
	proved bool
}

// facts says of a curve without a name what can be said. Where something narrow is
// between the samples, the curve is sampled again through it.
func (p *plot) facts(c *curve, named entry.Said, sampled *graph.Curve) entry.Said {
	t := p.teller(c, p.from, p.to, false)
	f := graph.Look(c.eval, *sampled, p.from, p.to)
	zeros, faint := t.zeros(f)
	t.faint = faint
	said := append([]claim{t.course(f, sampled)}, zeros...)
	said = append(said, t.symmetry(f))
	var proved, rest []entry.Said
	for _, s := range said {
		switch {
		case s.text == nil:
		case s.proved && said[0].proved:
			proved = append(proved, s.text)
		default:
			rest = append(rest, s.text)
		}
	}
	switch {
	case rest == nil:
		return entry.Say("… ….", named, entry.Joined(proved, "; "))
	case proved == nil:
		return entry.Say("… … (judged from samples).", named, entry.Joined(rest, "; "))
	}
	return entry.Say("… …; judged from samples, ….", named, entry.Joined(proved, "; "), entry.Joined(rest, "; "))
}

// course says how a curve goes: up or down throughout, off at a pole, or between a
// greatest and a least value.
//
// A proof is tried first, by enclosures over the whole range. Where the search of an extreme
// has found more than the samples show, there is a peak between two of them, and the curve is
// sampled again through it: what is drawn must be what is said.
func (t teller) course(f graph.Facts, sampled *graph.Curve) claim {
	ends := f.HasFrom && f.HasTo
	monotone := claim{}
	switch {
	case f.Rises && f.Falls && ends:
		monotone = claim{entry.Say("is constant: …", t.y(f.AtFrom.Y)), false}
	case f.Rises && ends:
		monotone = claim{entry.Say("rises from … to …", t.ends(f)...), t.rises(1)}
	case f.Falls && ends:
		monotone = claim{entry.Say("falls from … to …", t.ends(f)...), t.rises(-1)}
	}
	if monotone.proved {
		return monotone
	}
	greatest, ok1 := t.peak(1)
	least, ok2 := t.peak(-1)
	switch {
	case ok1 && greatest.Endless:
		return claim{t.runsOff(*sampled, greatest.At[0].Lo), true}
	case ok2 && least.Endless:
		return claim{t.runsOff(*sampled, least.At[0].Lo), true}
	case ok1 && ok2:
		if more := 1e-3 * (greatest.Y - least.Y); greatest.Y > sampled.Hi+more || least.Y < sampled.Lo-more {
			var through []float64
			for _, at := range append(greatest.At, least.At...) {
				through = append(through, at.Lo)
			}
			*sampled = graph.Sample(t.c.eval, t.from, t.to, through...)
		}
	case monotone.text != nil:
		return monotone
	default:
		if t = t.rough(); sampled.Cut {
			return claim{t.runsOff(*sampled), false}
		}
		greatest, least = t.seen(f.Greatest), t.seen(f.Least)
	}
	t.tall = greatest.Y - least.Y
	said := entry.Say("is greatest, … and least, …", t.extreme(greatest), t.extreme(least))
	switch {
	case t.vanishes(least):
		said = entry.Say("is greatest, …", t.extreme(greatest))
	case t.vanishes(greatest):
		said = entry.Say("is least, …", t.extreme(least))
	}
	gaps, empty := t.gaps(*sampled)
	if gaps != nil {
		said = said.And("; with a break …", gaps)
	}
	return claim{said, ok1 && ok2 && empty}
}

// ends are the values at both ends of the range.
func (t teller) ends(f graph.Facts) []entry.Said {
	return []entry.Said{t.at(f.AtFrom.Y, t.from), t.at(f.AtTo.Y, t.to)}
}

// extreme is the greatest value, or the least, with its places. Stretches along which
// it is 0 are told beside the other zeros.
//
// A value that is approached and never taken is near its place, as at a jump or a hole.
func (t teller) extreme(p run.Peak) entry.Said {
	if p.Y == 0 && slices.ContainsFunc(p.At, func(x ops.Interval) bool { return !x.IsPoint() }) {
		return t.y(0)
	}
	at := "at "
	if !t.reached(t.tidy(p.At[0].Lo), p.Y) { // sin(x)/x at 0
		at = "near "
	}
	return entry.Say("…, …", t.y(p.Y), t.where(at, p.At))
}

// reached tells whether a curve has a value at a place as it is printed, and not beside
// it alone, as before a jump.
func (t teller) reached(at, value float64) bool {
	short, ok := units.ParseDecimal(strconv.FormatFloat(t.p.unit.FromSI(at), 'g', 6, 64))
	if x := t.p.unit.ToSI(short); ok && math.Abs(x-at) < 1e-9*(t.to-t.from) {
		at = x
	}
	y, ok := t.c.eval.At(at)
	return ok && math.Abs(y-value) <= 1e-3*math.Abs(value)+1e-12*t.tall
}

// seen is the greatest value, or the least, as far as samples tell. One that the last digit of its
// place changes is 0: √(x² - 0.7) at the end of its domain.
func (t teller) seen(at graph.Point) run.Peak {
	for _, side := range [...]float64{math.Inf(-1), math.Inf(1)} {
		if y, ok := t.c.eval.At(math.Nextafter(at.X, side)); ok && math.Abs(y-at.Y) > math.Abs(at.Y)/10 {
			at.Y = 0
		}
	}
	return run.Peak{Y: at.Y, At: points([]float64{at.X})}
}

func points(all []float64) []ops.Interval {
	out := make([]ops.Interval, len(all))
	for i, x := range all {
		out[i] = ops.Point(x)
	}
	return out
}

// where says where something is: in places, at or near each, and along stretches.
//
// Two places that look the same with their figures are told with more: a reader would take the
// second for a slip.
func (t teller) where(word string, all []ops.Interval) entry.Said {
	if len(all) > limit.Places {
		return entry.Words("in " + strconv.Itoa(len(all)) + " places")
	}
	var said, at []entry.Said
	for _, x := range all {
		if !x.IsPoint() {
			said = append(said, entry.Say("from … to …", t.x(t.tidy(x.Lo)), t.x(t.tidy(x.Hi))))
			continue
		}
		place := t.xValue(t.tidy(x.Lo))
		if n := len(at); n > 0 && at[n-1].Same(place) {
			fine := t
			fine.figures.N = 12
			place = fine.xValue(t.tidy(x.Lo))
		}
		at = append(at, place)
	}
	if at != nil {
		said = append(said, entry.Say(word+"… = …", t.axis(), listed(at)))
	}
	return listed(said)
}

// over is the range of the axis, for what is proved over it.
func (t teller) over() ops.Interval { return ops.Between(t.from, t.to) }

// rises tells whether it is proved that a curve rises throughout, or falls. One that varies a
// given of the page is no function of the axis alone, and can't be enclosed: of it nothing is
// proved.
func (t teller) rises(by float64) bool {
	return t.c.alone && t.p.Planner.Program.Rises(&t.p.State, t.c.fn, t.over(), by)
}

func (t teller) peak(by float64) (run.Peak, bool) {
	if !t.c.alone {
		return run.Peak{}, false
	}
	return t.p.Planner.Program.Peak(&t.p.State, t.c.fn, t.over(), by)
}

// vanishes tells whether an extreme is 0 only as numbers don't hold what is smaller, as
// exp(-x²) far out.
func (t teller) vanishes(p run.Peak) bool { return p.Y == 0 && within(p.At[0], t.faint) }

// within tells whether the middle of a piece lies in one of some others.
func within(x ops.Interval, others []ops.Interval) bool {
	return slices.ContainsFunc(others, func(o ops.Interval) bool { return o.Lo <= x.Middle() && x.Middle() <= o.Hi })
}

// zeros says where a curve is 0, or too small to be told from it: along stretches, and in
// places; and where it is too small.
func (t teller) zeros(f graph.Facts) (said []claim, faint []ops.Interval) {
	proved := false
	var all run.Roots
	if t.c.alone {
		all = t.p.Planner.Program.Zeros(&t.p.State, t.c.fn, t.over())
		if proved = len(all.Unsettled) == len(all.Flat); proved {
			f.Zeros, f.Flat = all.Found, all.Flat
		}
	}
	for _, by := range [...]float64{1, -1} { // abs(sin(x)) is 0 where it is least
		if p, ok := t.peak(by); !proved && ok && !p.Endless && p.Y == 0 {
			proved = true
			f.Zeros, f.Flat = nil, nil
			for _, x := range p.At {
				if x.IsPoint() {
					f.Zeros = append(f.Zeros, x.Lo)
				} else {
					f.Flat = append(f.Flat, x)
				}
			}
		}
	}
	if !proved {
		t = t.rough()
	}
	// Only what is 0 at every number of a piece is 0 along a stretch; the rest is within its error.
	for _, x := range f.Flat {
		if t.c.alone && (within(x, all.Faint) || !within(x, all.Flat)) {
			faint = append(faint, x)
		}
	}
	if n := len(f.Flat); n > limit.Places {
		text := "0 along "
		if faint != nil {
			text = "0, or too small to be told from it, along "
		}
		said = append(said, claim{entry.Words(text + strconv.Itoa(n) + " stretches"), proved})
	} else {
		for _, x := range f.Flat {
			text := "0 from … to …"
			if within(x, faint) {
				text = "too small to be told from 0 from … to …"
			}
			said = append(said, claim{entry.Say(text, t.x(t.tidy(x.Lo)), t.x(t.tidy(x.Hi))), proved})
		}
	}
	if len(f.Zeros) > 0 {
		text := entry.Say("zero …", t.where("at ", points(f.Zeros)))
		if len(f.Zeros) > limit.Places && !proved {
			text = text.And(" at least")
		}
		said = append(said, claim{text, proved})
	}
	return said, faint
}

// symmetry says whether a curve is the same on both sides of 0. It is proved where
// the equation says so.
//
// The samples have shown it; the algebra proves it where f(-x)/f(x) comes to 1 or to -1.
func (t teller) symmetry(f graph.Facts) claim {
	text, sign := "the same on both sides of …", 1.0
	switch {
	case f.Even:
	case f.Odd:
		text, sign = "the same with the other sign on both sides of …", -1
	default:
		return claim{}
	}
	name := t.p.s.Against.Name
	x := t.c.x
	if t.c.of != nil {
		x = t.c.of
	}
	x = t.p.opened(x)
	other := algebra.Substitute(x, map[string]syntax.Expr{name: &syntax.Paren{X: &syntax.Unary{Op: syntax.Sub, X: &syntax.Name{Name: name}}}})
	r, ok := algebra.Ratio(other, x)
	return claim{entry.Say(text, t.x(0)), t.c.alone && ok && r == sign}
}

// tidy is a place on the axis, 0 where it is but for rounding.
func (t teller) tidy(x float64) float64 {
	if math.Abs(x) < 1e-12*(t.to-t.from) {
		return 0
	}
	return x
}

// runsOff says where a curve runs off: where it breaks, else at a place that is known, or at
// the end of the range that has no value.
//
// A curve that grows without bound has no greatest value, and none is told: what a sample has
// seen beside the pole depends on where it happened to lie.
func (t teller) runsOff(c graph.Curve, known ...float64) entry.Said {
	t.off = true
	where, _ := t.gaps(c, known...)
	if where != nil {
		return entry.Say("runs off …", where)
	}
	at := t.to
	if known != nil {
		at = t.tidy(known[0])
	} else if _, ok := t.c.eval.At(t.from); !ok {
		at = t.from
	}
	return entry.Say("runs off at …", t.x(at))
}

// gaps says where a curve breaks off, and tells whether it is proved to have no value
// where it has none. Of one that runs off, only poles are named, and breaks of which it
// is not known what they are: a place that is known may be in one of those.
func (t teller) gaps(c graph.Curve, place ...float64) (where entry.Said, empty bool) {
	if c.Empty() { // the budget ended while it was drawn: nothing is known
		return nil, false
	}
	var at []entry.Said
	edge, beside := 1e-6*(t.to-t.from), 1e-3*(t.to-t.from)
	empty = true
	none := func(lo, hi float64) {
		inside := 1e-6 * (hi - lo)
		empty = empty && t.c.alone && t.p.Planner.Program.Empty(&t.p.State, t.c.fn, ops.Between(lo+inside, hi-inside))
	}
	name := func(lo, hi float64, said entry.Said) {
		if t.off {
			switch pole, some, known := t.pole(lo, hi); {
			case some:
				said = entry.Say("at …", t.x(t.tidy(pole)))
			case known:
				return
			case len(place) > 0 && lo-beside <= place[0] && place[0] <= hi+beside:
				said = entry.Say("at …", t.x(t.tidy(place[0])))
			}
		}
		if n := len(at); n == 0 || !at[n-1].Same(said) {
			at = append(at, said)
		}
	}
	if first := c.Runs[0][0].X; first > t.from+edge {
		none(t.from, first)
		name(t.from, first, entry.Say("below …", t.x(first)))
	}
	for i := 1; i < len(c.Runs) && len(at) <= limit.Places; i++ {
		end, begin := c.Runs[i-1][len(c.Runs[i-1])-1].X, c.Runs[i][0].X
		switch narrow := begin-end < 0.02*(t.to-t.from); {
		case !narrow:
			none(end, begin)
			name(end, begin, entry.Say("from … to …", t.x(end), t.xValue(begin)))
		case t.off && t.c.lifts.Near(c.Breaks[i-1], edge): // a break, but no pole
		case t.off:
			name(end, begin, t.between(t.tidy(end), t.tidy(begin)))
		default:
			name(end, begin, entry.Say("at …", t.x(t.tidy(c.Breaks[i-1]))))
		}
	}
	last := c.Runs[len(c.Runs)-1]
	if x := last[len(last)-1].X; x < t.to-edge {
		none(x, t.to)
		name(x, t.to, entry.Say("above …", t.x(x)))
	}
	if len(at) > limit.Places {
		at = append(at[:limit.Places], entry.Words("and further places"))
	}
	return listed(at), empty
}

// between says that something is between two places, or at the one that both look like.
func (t teller) between(lo, hi float64) entry.Said {
	from, to := t.xValue(lo), t.xValue(hi)
	if from.Same(to) {
		return entry.Say("at …", t.x(lo))
	}
	return entry.Say("between … and …", t.x(lo), to)
}

// pole is the place between two at which a curve grows without bound; known tells
// whether it is proved that there is one, or none.
func (t teller) pole(lo, hi float64) (at float64, some, known bool) {
	t.from, t.to = lo, hi
	known = true
	for _, by := range [...]float64{1, -1} {
		p, ok := t.peak(by)
		if ok && p.Endless {
			return p.At[0].Lo, true, true
		}
		known = known && ok
	}
	return 0, false, known
}
