package solve

import (
	"math"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
)

// families are the solutions of an equation in a sine, a cosine or a tangent: each
// repeats with a full turn of the angle.
type families struct {
	at     []float64 // one solution of each, none twice
	period float64
	static run.Static
}

// alike is how close two families are that are one, as a part of their step: an
// angle of which the cosine is 1 is known to half the figures.
const alike = 1e-7

// maxTurns is how many full turns solutions in symbols are listed for.
const maxTurns = 40

// repeated finds the families of one equation that was rearranged; nil if no
// solution repeats, or not by the same step.
func (v *solving) repeated() *families {
	if !v.single() || v.absent {
		return nil
	}
	var out families
	for _, r := range v.rearranged.Roots {
		step, ok := v.step(r)
		if !ok {
			continue
		}
		if out.period != 0 && math.Abs(step-out.period) > run.Near*out.period {
			return nil
		}
		out.period = step
		principal := v.Try(r.X[0])
		out.static = principal.Static
		out.add(principal.Value)
		if also := v.Try(r.Also.X[0]); also.OK {
			out.add(also.Value)
		}
	}
	if out.period == 0 {
		return nil
	}
	out.halve()
	return &out
}

// step is how far apart the solutions of a root are; false where they are not
// evenly apart.
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

// add adds a family, unless it is one of those.
func (f *families) add(x float64) {
	for _, o := range f.at {
		if math.Abs(math.Remainder(x-o, f.period)) <= alike*f.period {
			return
		}
	}
	f.at = append(f.at, x)
}

// halve makes one family of two that lie half a step apart, as those of a tangent.
func (f *families) halve() {
	if len(f.at) == 2 && math.Abs(math.Abs(math.Remainder(f.at[1]-f.at[0], f.period))-f.period/2) <= run.Near*f.period {
		f.at, f.period = f.at[:1], f.period/2
	}
}

// shown lists the families: 30° + n·360° and 150° + n·360°.
func (f *families) shown(v *solving) string {
	u, text := v.solutionUnit(0, f.static), ""
	for i, x := range f.at {
		if i > 0 {
			text += " and "
		}
		if x != 0 {
			text += v.ShownIn(x, u) + " + "
		}
		text += "n·" + v.ShownIn(f.period, u)
	}
	return text + ", with any whole number n"
}

// limited tells whether there is a bound on the side on which solutions are asked
// for, so that these are not infinitely many.
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

// turned lists the solutions that repeat as far as the conditions reach; false
// where it must be said which are meant.
func (v *solving) turned() bool {
	b := v.bounds()
	if !b.ok {
		return false
	}
	asked := v.s.Unknowns[0].Which != syntax.AnyRoot || len(v.s.Unknowns) > 1
	if !v.limited() && asked && !v.statics[0].Dim.IsOne() {
		v.Find(v.infinitelyMany())
		return false
	}
	first, last := math.Inf(1), math.Inf(-1)
	for _, x := range v.families.at {
		first, last = math.Min(first, x), math.Max(last, x)
	}
	// A full turn of the angle may be two periods, and may lead downwards.
	lo, hi := b.lo, b.hi
	if math.IsInf(lo, 0) {
		lo = hi
	}
	if math.IsInf(hi, 0) {
		hi = lo
	}
	v.turns = algebra.Turns{}
	if !math.IsInf(lo, 0) {
		from, to := (lo-last)/v.families.period-2, (hi-first)/v.families.period+2
		reach := math.Max(math.Abs(from), math.Abs(to))
		if reach > maxTurns {
			v.farTurns()
			return false
		}
		v.turns = algebra.Turns{From: -int(reach), To: int(reach)}
	}
	v.rearrange()
	return true
}

// unevenTurns looks for the solutions that repeat with turns of an angle, but not
// by the same step: all of those in a range.
func (v *solving) unevenTurns() {
	b := v.bounds()
	if !b.ok {
		return
	}
	if !math.IsInf(b.lo, 0) && !math.IsInf(b.hi, 0) {
		v.searchTurns()
		return
	}
	name := v.s.Unknowns[0].Name
	v.Find(finding.New(finding.WhichRoot, v.s.Unknowns[0].NameAt, "This equation has infinitely many solutions, at uneven steps.",
		"Say the range: where A < "+name+" < B."))
}

// searchTurns searches the range that is asked for.
func (v *solving) searchTurns() {
	v.again, v.rule.Searched, v.rearranged = true, true, nil
	v.choose(v.allowed(v.named(v.piecewise(), "There are more solutions with each turn; "+v.unknowns[0])))
}

// farTurns searches the range that is asked for where that is many turns away.
func (v *solving) farTurns() {
	if b := v.bounds(); math.IsInf(b.lo, 0) || math.IsInf(b.hi, 0) {
		v.Find(v.infinitelyMany())
		return
	}
	v.searchTurns()
}

// infinitelyMany says that there are more solutions than can be named.
func (v *solving) infinitelyMany() finding.Finding {
	name := v.s.Unknowns[0].Name
	return finding.New(finding.WhichRoot, v.s.Unknowns[0].NameAt,
		"Infinitely many values of "+name+" solve the equation: "+v.families.shown(v)+".",
		"Say the range: where A < "+name+" < B.")
}
