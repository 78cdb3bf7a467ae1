package lab

import (
	"math"
	"strconv"

	"steelyard/session/entry"
)

// bars are the error bars of points: how far each reaches, up and across.
type bars struct{ y, x, uy, ux []float64 }

// mostBars is through how many points lines are looked for: each pair of them counts.
const mostBars = 2000

// ends tells the steepest and the flattest line that go through all error bars, of one
// standard uncertainty each.
func (f *fitting) ends() []entry.Said {
	switch n := int(f.y.Static.Width); {
	case n > mostBars:
		return entry.Lines{entry.Words("the steepest and the flattest line are found for at most " + strconv.Itoa(mostBars) + " points")}
	case !f.work.Weighted():
		return entry.Lines{entry.Words("the steepest and the flattest line need readings with uncertainties")}
	}
	b := bars{y: f.State.Elements(f.y.Slot), x: f.State.Elements(f.x.Slot), uy: f.work.UY, ux: f.work.UX}
	if b.ux == nil {
		b.ux = make([]float64, len(b.x))
	}
	flattest, steepest, ok := b.slopes(f.s.Through)
	if !ok {
		return entry.Lines{entry.Words("no straight line goes through all error bars, of one standard uncertainty each")}
	}
	var out entry.Lines
	p := f.params[0]
	for i, slope := range []float64{steepest, flattest} {
		said := entry.Say([]string{"steepest", "flattest"}[i]+" line through the error bars: … = …", entry.Words(p.label), f.ValueIn(slope, p.unit).Said())
		if !f.s.Through {
			said = said.And(", … = …", entry.Words(f.params[1].label), f.ValueIn(b.intercept(slope), f.params[1].unit).Said())
		}
		out = append(out, said)
	}
	return append(out, entry.Say("half the difference of their slopes is …", f.difference((steepest-flattest)/2, p.unit)))
}

// touching is the part of its size by which rounding may keep a line that just touches the
// ends of bars from them.
const touching = 1e-12

// slopes are the least and the greatest slope of a line through all bars: each pair of them
// allows some. A line that rises meets a bar of both kinds as if that were higher by its slope
// times the width, and one that falls likewise, so that the two are looked at apart.
func (b *bars) slopes(through bool) (least, most float64, ok bool) {
	least, most = math.Inf(1), math.Inf(-1)
	for _, sign := range [2]float64{1, -1} {
		lo, hi, possible := 0.0, math.Inf(1), true // of the slope times the sign
		allow := func(dx, above, below, wide float64) {
			// -below ≤ slope·dx ≤ above, each more by slope·wide
			for _, one := range [2][2]float64{{sign*dx - wide, above}, {-sign*dx - wide, below}} {
				switch by := one[1] / one[0]; {
				case one[0] > 0:
					hi = min(hi, by)
				case one[0] < 0:
					lo = max(lo, by)
				default:
					possible = possible && one[1] >= -touching*(math.Abs(above)+math.Abs(below))
				}
			}
		}
		for j := range b.x {
			if through {
				allow(b.x[j], b.y[j]+b.uy[j], b.uy[j]-b.y[j], b.ux[j])
				continue
			}
			for i := range j {
				dy, off := b.y[j]-b.y[i], b.uy[j]+b.uy[i]
				allow(b.x[j]-b.x[i], dy+off, off-dy, b.ux[j]+b.ux[i])
			}
		}
		if lo > hi && lo-hi <= touching*lo {
			lo = hi // it touches bars on both sides
		}
		if possible && lo <= hi && hi < math.Inf(1) {
			least, most, ok = min(least, sign*lo, sign*hi), max(most, sign*lo, sign*hi), true
		}
	}
	return least, most, ok
}

// intercept is that of a line of some slope through all bars: the middle of what there is.
func (b *bars) intercept(slope float64) float64 {
	lo, hi, size := math.Inf(-1), math.Inf(1), 0.0
	for i := range b.x {
		at, off := b.y[i]-float64(slope*b.x[i]), b.uy[i]+float64(math.Abs(slope)*b.ux[i])
		lo, hi, size = max(lo, at-off), min(hi, at+off), max(size, math.Abs(b.y[i]))
	}
	if middle := lo + (hi-lo)/2; math.Abs(middle) > touching*size {
		return middle
	}
	return 0
}
