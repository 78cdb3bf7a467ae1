package lab

import (
	"math"
	"slices"
	"strconv"

	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
	"steelyard/units/writing"
)

// straightening is a search for the plot of two lists in which the points lie on a
// straight line.
type straightening struct {
	fitting
	yv, xv []float64
	// stated tells that the readings have uncertainties. Where they have none, all y are
	// taken to be uncertain by the same, which is what they turn out to lie off.
	stated bool
	plots  []straightened
	none   []entry.Said // what a reading has no value of
}

// straightened is a plot with the line that fits it best.
type straightened struct {
	y, x syntax.Expr
	// off is χ² per degree of freedom or, where no uncertainties are stated, the standard
	// deviation of the readings y from the line.
	off     float64
	freedom int
	slope   entry.Value
	// bent tells that the points lie on a bow rather than on the line.
	bent bool
}

const (
	// leastStraight is how many points are needed: any three lie on some of the lines.
	leastStraight = 4
	// mostStraight is how many straight plots are told.
	mostStraight = 5
	// likelyNot is how many standard deviations more than chance would have it a plot lies
	// off to be told from the straightest one: as one of twenty that are as straight.
	likelyNot = 1.645
	// surelyNot is how many standard deviations what lies off must be more than chance
	// would have it for a line not to be straight: one true line of a hundred is refused.
	surelyNot = 2.326
)

// Straighten says in which plot of two lists the points lie on a straight line, and which
// formulas say that they do.
func Straighten(l *eval.Line, s *syntax.Straighten) {
	st := &straightening{fitting: fitting{Line: l, s: &syntax.Fit{Y: s.Y, X: s.X}}}
	if !st.readings() {
		return
	}
	st.yv, st.xv = st.State.Elements(st.y.Slot), st.State.Elements(st.x.Slot)
	if len(st.yv) < leastStraight {
		l.Find(finding.New(finding.WrongCall, s.Y.Span(), "Some plot is straight for any "+writing.Count(len(st.yv), "point")+".",
			"Use "+strconv.Itoa(leastStraight)+" points or more."))
		return
	}
	st.ofReadings(2)
	if st.stated = st.work.Weighted(); st.stated && !st.allUncertain(st.y.Slot, st.x.Slot) {
		return
	}
	l.Doing("looking for a straight plot", s.Y.Span())
	if st.search() {
		l.Entry.Outcome = st.tells()
	}
}

// search fits a line to each plot; false where it was ended.
func (st *straightening) search() bool {
	for _, up := range scales(st.y.Unit, true) {
		y := up.shown(st.s.Y, st.y.Unit)
		if _, ok := up.readings(st.yv, make([]float64, len(st.yv))); !ok {
			st.none = append(st.none, entry.Math(y))
			continue
		}
		for _, along := range scales(st.x.Unit, false) {
			if !st.Spend(int64(len(st.yv))) {
				return false
			}
			p := straightened{y: y, x: along.shown(st.s.X, st.x.Unit)}
			if st.fits(&p, up, along) {
				st.plots = append(st.plots, p)
			}
		}
	}
	for _, along := range scales(st.x.Unit, false) {
		if _, ok := along.readings(st.xv, make([]float64, len(st.xv))); !ok {
			st.none = append(st.none, entry.Math(along.shown(st.s.X, st.x.Unit)))
		}
	}
	slices.SortStableFunc(st.plots, func(p, q straightened) int {
		switch {
		case p.bent != q.bent && p.bent:
			return 1
		case p.bent != q.bent:
			return -1
		case p.off < q.off:
			return -1
		case p.off > q.off:
			return 1
		}
		return 0
	})
	return true
}

// mostGuesses is how often what readings without uncertainties lie off is put in again.
const mostGuesses = 6

// fits fits a line to a plot; false where there is none.
func (st *straightening) fits(p *straightened, up, along *scale) bool {
	uy, ux, uxy := st.work.UY, st.work.UX, st.work.UXY
	if st.stated {
		return st.fit(p, up, along, uy, ux, uxy)
	}
	guess := (slices.Max(st.yv) - slices.Min(st.yv)) / 100
	uy = make([]float64, len(st.yv))
	for range mostGuesses {
		for i := range uy {
			uy[i] = guess
		}
		if !st.fit(p, up, along, uy, nil, nil) {
			return false
		}
		guess = max(guess*math.Sqrt(p.off), st.rounding())
	}
	p.off = guess
	return true
}

// rounding is how far readings lie off that lie on a line but for rounding.
func (st *straightening) rounding() float64 {
	return 1e-12 * max(slices.Max(st.yv), -slices.Min(st.yv))
}

// fit fits a line to a plot of readings with some uncertainties.
func (st *straightening) fit(p *straightened, up, along *scale, uy, ux, uxy []float64) bool {
	if ux == nil {
		ux = make([]float64, len(uy))
	}
	y, ok1 := up.readings(st.yv, uy)
	x, ok2 := along.readings(st.xv, ux)
	if !ok1 || !ok2 {
		return false
	}
	f := &run.Fit{Params: 2, Model: -1, UY: y.off}
	if uxy != nil {
		f.UX, f.UXY = x.off, make([]float64, len(uxy))
		for i, both := range uxy {
			f.UXY[i] = y.slope[i] * x.slope[i] * both
		}
	}
	got, ok := f.Line(y.v, x.v)
	if !ok {
		return false
	}
	p.freedom = -f.Params
	for _, w := range got.Weight {
		if w > 0 { // of √0 nothing is known
			p.freedom++
		}
	}
	if p.freedom < 1 {
		return false
	}
	p.off = got.Squares / float64(p.freedom)
	p.slope = entry.Value{SI: got.Values[0], U: math.Sqrt(got.Covariance[0][0] * max(1, p.off))}
	p.bent = !st.stated && bow(x.v, got, p.freedom) > surelyNot
	return true
}

// bow is how sure it is that the points lie on a bow: how much less is left of them by a
// square of x beside the line.
func bow(x []float64, got run.Fitted, freedom int) float64 {
	total, middle, slope, squares := 0.0, 0.0, 0.0, 0.0
	for i, w := range got.Weight {
		total += w
		middle += float64(w * x[i])
	}
	middle /= total
	spread := 0.0
	for i, w := range got.Weight {
		spread += float64(w * (x[i] - middle) * (x[i] - middle))
	}
	for i, w := range got.Weight {
		u := x[i] - middle
		slope += float64(w * u * u * u)
	}
	slope /= spread
	up := 0.0
	for i, w := range got.Weight { // the square less what a line makes of it
		u := x[i] - middle
		left := float64(u*u) - spread/total - float64(slope*u)
		up += float64(w * left * got.Left[i])
		squares += float64(w * left * left)
	}
	taken := up * up / squares
	return beyond(taken*float64(freedom-1)/(got.Squares-taken), 1, float64(freedom-1))
}

// beyond is how many standard deviations a ratio of two variances is more than one would
// have by chance, from their degrees of freedom; the second may be infinite (E. Paulson,
// Annals of Mathematical Statistics 13, 1942, p. 233; from memory).
func beyond(ratio, freedom, of float64) float64 {
	a, b, third := 2/(9*freedom), 2/(9*of), math.Cbrt(max(ratio, 0))
	return ((1-b)*third - (1 - a)) / math.Sqrt(float64(b*third*third)+a)
}

// straight tells whether a plot is as straight as its readings can tell.
func (st *straightening) straight(p *straightened) bool {
	if st.stated {
		return beyond(p.off, float64(p.freedom), math.Inf(1)) <= surelyNot
	}
	best := st.plots[0]
	ratio := p.off / best.off
	return !p.bent && beyond(float64(ratio*ratio), float64(p.freedom), float64(best.freedom)) <= likelyNot
}

// tells says which plots are straight and what formulas say so; then how the one of the
// readings themselves is, and what was not tried.
func (st *straightening) tells() entry.Lines {
	var out, rest entry.Lines
	n := 0
	for i := range st.plots {
		p := &st.plots[i]
		switch {
		case st.straight(p):
			if n++; n <= mostStraight {
				out = append(append(out, p.said(st.straightly(i == 0)).And("…", st.off(p))), st.formulas(p)...)
			}
		case i == 0:
			out = append(out, p.said(" is nearest to a straight line, and is not one: ").And("…", st.off(p)))
		case p.y == st.s.Y && p.x == st.s.X:
			rest = append(rest, p.said(" is not straight: ").And("…", st.off(p)))
		}
	}
	if n > mostStraight {
		out = append(out, entry.Words(writing.Count(n-mostStraight, "other plot")+" can't be told from a straight line either"))
	}
	if n > 1 {
		out = append(out, entry.Words("these readings can't tell which of the "+strconv.Itoa(n)+" it is"))
	}
	out = append(out, rest...)
	if len(st.none) > 0 {
		out = append(out, entry.Say("not tried, because some readings have no such value: …", entry.Listed(st.none)))
	}
	return out
}

func (p *straightened) said(text string) entry.Said {
	return entry.Say("… against …"+text, entry.Math(p.y), entry.Math(p.x))
}

// off says how far the points of a plot lie off.
func (st *straightening) off(p *straightened) entry.Said {
	if st.stated {
		return entry.Say("χ² per degree of freedom = …", st.Told(units.Figures{N: 2}, p.off, units.One))
	}
	if p.off <= st.rounding() {
		return entry.Words("the readings lie on the line")
	}
	return entry.Say("the readings lie … from the line (standard deviation)", st.difference(p.off, st.y.Unit))
}

// straightly says of a plot that it is straight, as far as that can be known.
func (st *straightening) straightly(first bool) string {
	switch {
	case st.stated:
		return " is straight within the uncertainties: "
	case first:
		return " is the straightest: "
	}
	return " may be as straight: "
}

// formulas are those that say of a plot that it is straight, with its slope.
func (st *straightening) formulas(p *straightened) []entry.Said {
	f := st.fitting
	f.s = &syntax.Fit{Y: p.y, X: p.x}
	return f.meanings(p.slope, false)
}
