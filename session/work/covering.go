package work

import (
	"math"
	"slices"
	"strconv"

	"steelyard/lang/run"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// expand adds the expanded uncertainty: the coverage factor is that of Student's t with the
// effective degrees of freedom (JCGM 100:2008, G.4).
func (b *budget) expand(cover float64) {
	x := &entry.Expanded{Probability: cover, Freedom: b.of.Freedom()}
	x.Factor = studentFactor(cover, x.Freedom)
	x.U = float64(x.Factor * b.out.U)
	b.out.Expanded = x
	text := "Expanded uncertainty for " + percent(cover) + ": …, with coverage factor " + number(x.Factor, 3)
	if x.Freedom > 0 {
		text += " for " + number(math.Floor(x.Freedom), 6) + " effective degrees of freedom"
	}
	b.out.Told = append(b.out.Told, entry.Say(text, b.off(x.U, b.v.Unit)))
}

func percent(part float64) string { return number(100*part, 15) + " %" }

func number(v float64, figures int) string {
	return units.FormatNumber(v, units.Figures{N: figures}, units.HalfAway, units.Screen)
}

// sample adds what random draws come to, and whether first order says the same; false where
// the line was stopped.
func (b *budget) sample(cover float64) bool {
	got, ok := b.Planner.Program.Sample(&b.State, b.slot, cover)
	if !ok && got.Draws == 0 {
		return false
	}
	lacking := ""
	if got.Lacking > 0 {
		lacking = " In " + number(100*float64(got.Lacking)/float64(got.Draws), 2) + " %" + " of the draws there is no value."
	}
	if !ok {
		b.out.Told = append(b.out.Told, entry.Words("By sampling, "+draws(got.Draws)+":"+lacking))
		return true
	}
	if b.ofFewReadings() {
		got.Mean, got.SD, got.Skew = math.NaN(), math.NaN(), 0
	}
	out := &entry.Sampling{Draws: got.Draws, Lacking: got.Lacking, Mean: got.Mean, U: got.SD, Lo: got.Lo, Hi: got.Hi, Covered: cover}
	factor := studentFactor(cover, b.of.Freedom())
	lo, hi := b.of.V-float64(factor*b.out.U), b.of.V+float64(factor*b.out.U)
	place := tolerance(b.out.U)
	spread := (got.Hi - got.Lo) / 2
	if got.SD < spread { // a few draws far off make the standard deviation say little
		spread = got.SD
	}
	out.Agrees = math.Abs(lo-got.Lo) <= place && math.Abs(hi-got.Hi) <= place
	b.out.Sampled = out
	ends := entry.Say(percent(cover)+" of the values lie between … and …."+lacking, b.end(got.Lo, spread), b.end(got.Hi, spread))
	said := entry.Words("By sampling, " + draws(got.Draws) + ": ")
	if got.SD == got.SD {
		said = said.And("mean and standard uncertainty …; ", b.UnsureIn(got.Mean, got.SD, b.v.Unit).Said())
	}
	b.out.Told = append(b.out.Told, said.And("…", ends))
	if got.SD != got.SD {
		b.out.Told = append(b.out.Told, entry.Words("There is no standard uncertainty: with only 2 or 3 readings the mean can be too far off. Take 4 or more."))
	}
	if b.out.U-b.out.U != 0 {
		return true
	}
	if out.Agrees {
		b.out.Told = append(b.out.Told, entry.Words("First order says the same."))
		return true
	}
	misleads := "not the same to two figures: "
	if math.Max(math.Abs(lo-got.Lo), math.Abs(hi-got.Hi)) > spread/4 {
		misleads = "it misleads here: "
	}
	first := entry.Say("First order has …", b.UnsureIn(b.of.V, b.out.U, b.v.Unit).Said())
	if b.out.U > 0 {
		first = first.And(", and from … to …", b.end(lo, spread), b.end(hi, spread))
	}
	b.out.Told = append(b.out.Told, first.And("; "+misleads+b.why(got.Mean, got.SD, spread, got.Skew)+"."))
	return true
}

// ofFewReadings tells whether a source is known by how a few readings scatter: Student's t of
// 1 or 2 degrees of freedom has no standard deviation, and that of draws comes to anything.
func (b *budget) ofFewReadings() bool {
	return slices.ContainsFunc(b.of.By, func(p run.Part) bool {
		return slices.ContainsFunc(p.Rows, func(r run.Rows) bool { return r.Freedom == 1 || r.Freedom == 2 })
	})
}

// draws is how many draws there were, in words.
func draws(n int) string {
	if n == 1_000_000 {
		return "a million draws"
	}
	return strconv.Itoa(n) + " draws"
}

// tolerance is how far the ends of an interval may be apart and are the same: half of one in
// the second figure of the uncertainty (JCGM 101:2008, 8.2).
func tolerance(u float64) float64 {
	if u == 0 {
		return 0
	}
	return 0.5 * math.Pow10(int(math.Floor(math.Log10(u)))-1)
}

// why says what misleads first order.
func (b *budget) why(mean, sd, spread, skew float64) string {
	switch {
	case spread < sd:
		return "a few values lie very far off"
	case b.out.U < sd/2:
		return "the slopes are 0 or nearly, as at a turning point"
	case skew > 0.1:
		return "the values are skewed, and reach farther up"
	case skew < -0.1:
		return "the values are skewed, and reach farther down"
	case math.Abs(mean-b.of.V) > 0.1*sd:
		return "the mean is not the value at the givens"
	}
	return "the values are not spread like a bell"
}

// end is an end of an interval, to the place of the second figure of the uncertainty.
func (b *budget) end(si, u float64) entry.Said {
	v := b.ValueIn(si, b.v.Unit)
	if off := math.Abs(b.v.Unit.FromSIDifference(u)); off > 0 && v.InUnit != 0 {
		n := math.Floor(math.Log10(math.Abs(v.InUnit))) - math.Floor(math.Log10(off)) + eval.UsualOff
		v.Figures = units.Figures{N: int(min(max(n, 1), 15)), Keep: true}
	}
	return v.Said()
}

// studentFactor is how many standard uncertainties to both sides cover a probability: of
// Student's t with a whole number of degrees of freedom, or of the normal distribution where
// there is no end of them (0).
func studentFactor(cover, freedom float64) float64 {
	lo, hi := 0.0, 1.0
	for covered(hi, freedom) < cover && hi < 1e9 {
		hi *= 2
	}
	for range 80 {
		if mid := (lo + hi) / 2; covered(mid, freedom) < cover {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi
}

// mostFreedom is beyond which number of degrees of freedom Student's t is the normal
// distribution to four figures.
const mostFreedom = 10_000

// covered is the probability that Student's t is at most so far from 0 (M. Abramowitz and I.
// A. Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4; from memory).
func covered(t, freedom float64) float64 {
	n := math.Floor(freedom)
	switch {
	case freedom == 0 || n > mostFreedom:
		return math.Erf(t / math.Sqrt2)
	case n < 1:
		n = 1
	}
	angle := math.Atan(t / math.Sqrt(n))
	cos2 := math.Pow(math.Cos(angle), 2)
	if math.Mod(n, 2) == 0 {
		term, sum := 1.0, 1.0
		for k := 2.0; k <= n-2; k += 2 {
			term *= (k - 1) / k * cos2
			sum += term
		}
		return math.Sin(angle) * sum
	}
	if n == 1 {
		return 2 * angle / math.Pi
	}
	term := math.Cos(angle)
	sum := term
	for k := 3.0; k <= n-2; k += 2 {
		term *= (k - 1) / k * cos2
		sum += term
	}
	return 2 / math.Pi * (angle + float64(math.Sin(angle)*sum))
}
