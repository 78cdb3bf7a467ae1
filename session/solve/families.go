package solve

import (
	"math"
	"slices"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
	"steelyard/units/each"
)

// families are the solutions of an equation in sines, cosines or tangents: each
// repeats after a period.
//
// sin(θ) = 1/2 has two: 30° and 150°, each again after 360°. A worksheet wants one number, so
// the principal value is taken and the families are told, unless a condition chooses among
// them.
type families struct {
	at     []float64 // one solution of each, none twice
	period float64
	by     syntax.Expr // the period in symbols
	static run.Static
	// stretches are those of which every number is a solution, again after each period.
	stretches []run.Stretch
	// more tells that some were found by search alone.
	more bool
}

// alike is how close two families are that are one, as a part of their step: an
// angle of which the cosine is 1 is known to half the figures.
const alike = 1e-7

// beyondPeriod is how much more than a period is searched on each side, as a part of
// it: a solution may be at its very end.
const beyondPeriod = 0.03

// repeated finds the families of one equation that was rearranged: the solutions in
// symbols, and those in one period that no inverse leads to. It returns nil where
// the equation is not the same again after some distance.
//
// Inverses alone miss solutions: the arc sine knows one of the two angles, and an equation with
// sines of θ and of 2*θ has more. So one whole period is searched as well, and what the search
// has that symbols have not is added. Roots that lie evenly within a period, as those of tan or
// of sin(2*θ), are listed at their own step.
func (v *solving) repeated() *families {
	if !v.single() || v.absent || !v.rearranged.Repeats {
		return nil
	}
	out, found, all := v.inOnePeriod()
	if out == nil || len(found.stretches) > 0 {
		return nil
	}
	counts := func(x float64) bool {
		if all {
			return found.holds(x)
		}
		good, _ := v.Planner.Program.PutBack(&v.State, v.rule, run.Candidate{X: []float64{x}, Size: math.Abs(x)})
		return good
	}
	for _, r := range v.rearranged.Roots {
		principal, times := v.Try(r.X[0]), 1
		if step, ok := v.step(r); ok {
			times = int(math.Round(out.period / step))
		}
		one := []eval.Got{principal}
		if r.Also != nil {
			one = append(one, v.Try(r.Also.X[0]))
		}
		for _, at := range one {
			for k := range min(times, limit.Turns) {
				if x := at.Value + float64(float64(k)*out.period/float64(times)); at.OK && counts(x) {
					out.add(x)
				}
			}
			if at.OK && at.Static.Tag != units.None {
				out.static = at.Static
			}
		}
	}
	for _, x := range found.at {
		out.more = out.more || !out.holds(x)
		out.add(x)
	}
	if len(out.at) == 0 {
		return nil
	}
	out.fold()
	return out
}

// periodic solves an equation that can't be rearranged, but is the same again after
// a period, by all solutions in one. It returns false where there is no such period,
// or a range is given to look in.
//
// For instance sin(x) + sin(2*x) = 1/2 has no solution in symbols. The period that is searched
// is the one about 0, so that what is found are principal values.
func (v *solving) periodic() bool {
	if v.absent || !v.bounds().ok || v.limited() {
		return false
	}
	out, found, all := v.inOnePeriod()
	if out == nil || !all {
		return false
	}
	v.statics[0] = out.static
	half := func(sign string) run.Slot {
		x, _ := syntax.ParseExpr(sign + "1/2")
		return v.Eval(&syntax.Binary{Op: syntax.Mul, X: x, Y: &syntax.Paren{X: out.by}}, eval.Want{Silent: true}).Slot
	}
	v.args, v.rule.Below, v.rule.Above = []run.Slot{half("-"), half("")}, true, true
	got := run.Searched{Lo: -out.period / 2, Hi: out.period / 2, Whole: true}
	got.Found = each.Of(found.at, out.principal)
	slices.Sort(got.Found)
	out.at = got.Found
	v.within, out.stretches = &got, found.stretches
	if len(out.at) > 0 {
		v.families = out
		out.fold()
	}
	roots := v.named(got, entry.Say("The equation can't be rearranged for …, but repeats; …", entry.Name(v.unknowns[0]), entry.Name(v.unknowns[0])))
	switch {
	case len(out.stretches) > 0:
		v.Find(v.everyIn(out.shownStretches(v), out.shownAlso(v)))
	case len(roots) > 0 && (len(v.s.Where) > 0 || v.beyondEnd()):
		v.Find(v.infinitelyMany())
	default:
		v.choose(roots)
	}
	return true
}

// inOnePeriod searches one period of an equation for its solutions, about 0. Families
// is nil where the equation has no period, and all tells whether each of its solutions
// was found.
//
// A solution at the very edge of the period would be lost to rounding; so a little more is
// searched on both sides, and what is found twice is one family.
func (v *solving) inOnePeriod() (out *families, found families, all bool) {
	x, ok := v.opened[0].Period(v.unknowns[0])
	if !ok {
		return nil, found, false
	}
	period := v.Try(x)
	if !period.OK || period.Static.Absent || period.Static.Dim != v.statics[0].Dim || period.Value == 0 {
		return nil, found, false
	}
	long := math.Abs(period.Value)
	out = &families{period: long, by: x, static: v.statics[0]}
	if st := &out.static; st.Dim.IsOne() && st.Tag == units.None && syntax.Has[*syntax.Pi](x) {
		st.Tag = units.Angle
	}
	found = *out
	p, edge := v.Planner.Program, long*beyondPeriod
	got := p.FindRoots(&v.State, v.rule, long, -long/2-edge, long/2+edge)
	if len(got.Stretches) > 0 { // one may reach beyond the ends
		got = p.FindRoots(&v.State, v.rule, long, -long-edge, long+edge)
	}
	for _, x := range got.Found {
		found.add(x)
	}
	for _, x := range got.Stretches {
		found.addStretch(x, got.Lo, got.Hi)
	}
	return out, found, len(got.Unsettled) == 0
}

// addStretch adds a stretch that was found between two bounds, two periods apart, unless
// it is one of those, or is cut off by a bound: it is found whole a period away then. One
// that is as long as a period goes on for ever.
//
// max(sin(x), 0) = 0 holds for all x from 180° to 360°. Such stretches need a search over two
// periods, as one may begin before the first of them.
func (f *families) addStretch(x run.Stretch, lo, hi float64) {
	if x.Hi-x.Lo >= f.period*(1-alike) {
		f.stretches = []run.Stretch{{Lo: math.Inf(-1), Hi: math.Inf(1)}}
		return
	}
	at := f.principal(x.Lo)
	known := slices.ContainsFunc(f.stretches, func(o run.Stretch) bool { return math.IsInf(o.Lo, 0) || math.Abs(o.Lo-at) <= alike*f.period })
	if !known && x.Lo > lo && x.Hi < hi {
		x.Lo, x.Hi = at, at+(x.Hi-x.Lo)
		f.stretches = append(f.stretches, x)
	}
}

// step is how far apart the solutions of a root are; false where they are not
// evenly apart.
//
// It is read off three of them, one before and one behind: the turns that were added may be of
// a part of the unknown, as of 2*x in sin(2*x) = 1/2, whose solutions are half a turn apart.
func (v *solving) step(r algebra.Root) (float64, bool) {
	n := len(r.Turns)
	if n == 0 || r.Also == nil {
		return 0, false
	}
	at, before, after := v.Try(r.X[0]), v.Try(r.Turns[0].X[0]), v.Try(r.Turns[n/2].X[0])
	if n%2 != 0 || !at.OK || !before.OK || !after.OK {
		return 0, false
	}
	step := math.Abs(after.Value - at.Value)
	even := math.Abs(after.Value-2*at.Value+before.Value) <= run.Near*(step+math.Abs(at.Value))
	return step, even && step > 0
}

// find is the family that a solution is of, or -1.
//
// The distance is taken round the circle: 359.9999999° is next to 0°.
func (f *families) find(x float64) int {
	return slices.IndexFunc(f.at, func(o float64) bool {
		return math.Abs(math.Remainder(x-o, f.period)) <= alike*f.period
	})
}

// holds tells whether a solution is of one of the families: two that differ by whole periods are
// of one.
func (f *families) holds(x float64) bool { return f.find(x) >= 0 }

// add adds a family, unless it is one of those.
func (f *families) add(x float64) {
	if !f.holds(x) {
		f.at = append(f.at, x)
	}
}

// principal is the solution of a family that is nearest to 0, the positive one of two.
//
// For a solution at half a period both signs are as near; 180° is read easier than -180°.
func (f *families) principal(x float64) float64 {
	x = math.Remainder(x, f.period)
	switch near := alike * f.period; {
	case math.Abs(x) <= near:
		return 0
	case f.period/2-math.Abs(x) <= near:
		return math.Abs(x)
	}
	return x
}

// nearest is the solution of the same family that is nearest to 0, out of those a turn
// or more away: the sum of an arc cosine and another angle may be beyond half a turn. The
// family is told by it then.
//
// acos(-1/2) + 300° is 420°; the same family has 60°, and that is what is shown and taken.
func (f *families) nearest(v *solving, r algebra.Root, turns []algebra.Root) algebra.Root {
	own := v.Try(r.X[0])
	i := f.find(own.Value)
	if !own.OK || i < 0 || math.Abs(own.Value) <= f.period/2*(1+alike) {
		return r
	}
	for _, other := range turns {
		if at := v.Try(other.X[0]); at.OK && math.Abs(at.Value) <= f.period/2*(1+alike) && f.find(at.Value) == i {
			f.at[i] = at.Value
			return other
		}
	}
	return r
}

// fold makes one family of those that lie evenly within a period.
//
// Of 10°, 130° and 250° with a period of 360° it makes 10° with one of 120°, the way in which
// someone would say it. The greatest number of parts that fits is tried first.
func (f *families) fold() {
	for n := len(f.at); n > 1; n-- {
		if len(f.at)%n != 0 {
			continue
		}
		short := families{period: f.period / float64(n)}
		for _, x := range f.at {
			short.add(x)
		}
		if len(short.at) == len(f.at)/n {
			f.at, f.period = short.at, short.period
			for i, x := range f.at {
				f.at[i] = f.principal(x)
			}
			slices.Sort(f.at)
			return
		}
	}
}

// shown lists the families: 30° + n·360° and 150° + n·360°.
//
// It is what a note and a question say of the solutions that are not taken.
func (f *families) shown(v *solving) entry.Said {
	var all []entry.Said
	for _, x := range f.at {
		all = append(all, f.each(v, x))
	}
	return entry.Listed(all).And(", with any whole number …", entry.Name("n"))
}

// each is a number and those that are some periods away: 30° + n·360°.
//
// The turn beside an angle is exact, 360°, whatever figures the solution is shown with.
func (f *families) each(v *solving, x float64) entry.Said {
	u := v.solutionUnit(0, f.static)
	turns := entry.Say("…·…", entry.Name("n"), v.ValueIn(f.period, u).Said())
	if !f.static.Dim.IsOne() { // a turn is exact
		turns = entry.Say("…·…", entry.Name("n"), v.beside(f.period, u))
	}
	if x == 0 {
		return turns
	}
	return entry.Say("… + …", v.beside(x, u), turns)
}

// shownStretches lists the stretches: every x with n·360° ≤ x ≤ 180° + n·360°.
func (f *families) shownStretches(v *solving) (parts []string) {
	name := v.s.Unknowns[0].Name
	for _, x := range f.stretches {
		if math.IsInf(x.Lo, 0) {
			return []string{"every " + name}
		}
		lo, hi := f.each(v, x.Lo).String(), f.each(v, x.Hi).String()
		part := "every " + name + " with " + lo + " " + atMost(x.WithLo) + " " + name + " " + atMost(x.WithHi) + " " + hi
		if x.Loose {
			part = "every " + name + " between " + lo + " and " + hi
		}
		parts = append(parts, part)
	}
	return append(parts[:len(parts)-1], parts[len(parts)-1]+", with any whole number n,")
}

// shownAlso lists the families beside the stretches.
//
// max(sin(x), 0)*(x - 90°) = 0 has stretches, and 90° beside them.
func (f *families) shownAlso(v *solving) string {
	if len(f.at) == 0 {
		return ""
	}
	return f.shown(v).String()
}

// limited tells whether there is a bound on the side on which solutions are asked
// for, so that these are not infinitely many.
//
// For the greater root a bound above is enough, and for the smaller one a bound below.
func (v *solving) limited() bool {
	b := v.bounds()
	below, above := !math.IsInf(b.lo, 0), !math.IsInf(b.hi, 0)
	switch v.s.Unknowns[0].Which {
	case syntax.LeastRoot:
		return below
	case syntax.GreatestRoot:
		return above
	}
	return below && above
}

// beyondEnd tells whether the greater or the smaller of infinitely many is asked for, or a few of
// them, and no range says of which.
//
// An angle that has two in each turn, as that of a throw has, is meant within a turn: the
// greater is that of the two principal ones. A time that comes again and again has no later.
func (v *solving) beyondEnd() bool {
	asked := v.s.Unknowns[0].Which != syntax.AnyRoot || len(v.s.Unknowns) > 1
	return asked && !v.limited() && (!v.statics[0].Dim.IsOne() || len(v.families.at) != 2)
}

// turned lists the solutions that repeat as far as the conditions reach; false
// where it must be said which are meant.
//
// With bounds, roots are listed only as far as they reach, and a little more for the ends.
// Without, a choice such as the greater has no answer: there is always a greater one.
func (v *solving) turned() bool {
	b := v.bounds()
	if !b.ok {
		return false
	}
	if v.beyondEnd() {
		v.Find(v.infinitelyMany())
		return false
	}
	first, last := math.Inf(1), math.Inf(-1)
	for _, x := range v.families.at {
		first, last = math.Min(first, x), math.Max(last, x)
	}
	// A full turn of the angle may be two periods, and may lead downwards.
	lo, hi, before := b.lo, b.hi, v.turns
	// A condition with one end, x > 0, lists those about that end.
	if math.IsInf(lo, 0) {
		lo = hi
	}
	if math.IsInf(hi, 0) {
		hi = lo
	}
	if v.families.more && v.chosenAmong() {
		v.farTurns()
		return false
	}
	if v.chosenAmong() {
		v.turns = algebra.Turns{}
	}
	if !math.IsInf(lo, 0) {
		// Two periods more at each end: the least and the greatest solution may lie in any
		// place of theirs.
		from, to := (lo-last)/v.families.period-2, (hi-first)/v.families.period+2
		reach := math.Max(math.Abs(from), math.Abs(to))
		if reach > limit.Turns {
			v.farTurns()
			return false
		}
		v.turns = algebra.Turns{From: -int(reach), To: int(reach)}
	}
	if v.turns == before || v.rearrange() {
		return true
	}
	v.Find(finding.New(finding.TooLong, v.s.Unknowns[0].NameAt, "There are too many solutions for "+v.s.Unknowns[0].Name+" to list.", v.sayRange(v.solutionUnit(0, v.statics[0]), 2)))
	return false
}

// unevenTurns answers where turns of an angle may add solutions, but not evenly. A
// range is searched, and that the givens suggest too, if nothing is left open there;
// else some were found in symbols, or none, and the range must be asked for. It
// returns false where what was found in symbols is to be chosen from.
//
// The solutions of sin(x^2) = 1/2 come again and again, and closer and closer. Where the one
// that was found in symbols is all that is asked for, and the range that the givens suggest is
// settled, it is taken without asking.
func (v *solving) unevenTurns(found []solution) bool {
	b := v.bounds()
	if !b.ok {
		return true
	}
	if v.chosenAmong() && !math.IsInf(b.lo, 0) && !math.IsInf(b.hi, 0) {
		v.searchTurns()
		return true
	}
	before := *v.rule
	args := v.args
	got := v.piecewise()
	open := len(got.Unsettled) > 0 || !got.Whole
	switch {
	case !open || len(found) == 0 && !v.chosenAmong():
		v.fromTurns(got)
		return true
	case v.chosenAmong():
		v.Find(finding.New(finding.WhichRoot, v.s.Unknowns[0].NameAt, "This equation has infinitely many solutions, at steps that I couldn't tell.", v.sayRange(v.solutionUnit(0, v.statics[0]), 10)))
		return true
	}
	*v.rule, v.args, v.within = before, args, nil
	return false
}

// searchTurns searches the range that is asked for.
func (v *solving) searchTurns() { v.fromTurns(v.piecewise()) }

// fromTurns chooses from what a search found. Its values come from no rearranged equation, so
// that none is shown.
func (v *solving) fromTurns(got run.Searched) {
	v.again, v.rule.Searched, v.rearranged = true, true, nil
	v.choose(v.allowed(v.named(got, entry.Say("There may be more solutions with each turn; …", entry.Name(v.unknowns[0])))))
}

// farTurns searches the range that is asked for where that is many turns away.
//
// Listing a thousand turns in symbols would take longer than a search of the range that was
// asked for.
func (v *solving) farTurns() {
	if b := v.bounds(); math.IsInf(b.lo, 0) || math.IsInf(b.hi, 0) {
		v.Find(v.infinitelyMany())
		return
	}
	v.searchTurns()
}

// infinitelyMany says that there are more solutions than can be named.
//
// It is a question and no refusal: with a range the same line is answered.
func (v *solving) infinitelyMany() finding.Finding {
	name := v.s.Unknowns[0].Name
	u := v.solutionUnit(0, v.families.static)
	return finding.New(finding.WhichRoot, v.s.Unknowns[0].NameAt,
		"Infinitely many values of "+name+" solve the equation: "+v.families.shown(v).String()+".", v.sayRange(u, u.FromSIDifference(v.families.period)))
}

// sayRange shows how the range of the unknown is said, with an end in its unit.
func (v *solving) sayRange(u *units.Unit, end float64) string {
	text := func(x float64) string {
		return units.FormatQuantity(x, u, units.Figures{N: v.Set.Figures.N}, v.Set.Rounding, units.Screen)
	}
	return "Say the range, as in `where " + text(0) + " < " + v.s.Unknowns[0].Name + " < " + text(end) + "`."
}
