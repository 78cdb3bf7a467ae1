package lab

import (
	"math"
	"strconv"

	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/session/entry"
	"steelyard/units"
)

// leastSquares is a sum of squares below which numbers hold too few figures of it.
const leastSquares = ops.Least * 1e16

// quality says how well what is fitted goes with the readings. Where those have no
// uncertainties, the parameters have theirs from how the readings scatter.
func (f *fitting) quality(got run.Fitted) *entry.Fit {
	n, k := len(got.Left), len(got.Values)
	q := &entry.Fit{N: n, R2: math.NaN(), Covariance: got.Covariance}
	if total := f.total(got); total > leastSquares {
		if q.R2 = 1 - got.Squares/total; math.Abs(q.R2) < 1e-12 {
			q.R2 = 0 // but for rounding
		}
	}
	if n > k {
		squares := 0.0
		for _, v := range got.Left {
			squares += float64(v * v)
		}
		q.SD = math.Sqrt(squares / float64(n-k))
		if f.work.Weighted() {
			chi := got.Squares / float64(n-k)
			q.ChiSquared = &chi
		}
	}
	if !f.work.Weighted() {
		for _, row := range q.Covariance {
			for j := range row {
				row[j] *= float64(q.SD * q.SD)
			}
		}
	}
	return q
}

// total is the sum of the squares of what is fitted, each by its weight: from its mean,
// unless the line goes through the origin.
func (f *fitting) total(got run.Fitted) float64 {
	y, about := f.State.Elements(f.y.Slot), 0.0
	if !f.s.Through {
		weights := 0.0
		for i, w := range got.Weight {
			about += float64(w * y[i])
			weights += w
		}
		about /= weights
	}
	sum := 0.0
	for i, w := range got.Weight {
		sum += float64(w * (y[i] - about) * (y[i] - about))
	}
	return sum
}

const (
	// farOff is how many standard deviations a point lies off to be named: one of two
	// hundred does by chance.
	farOff = 2.8
	// farOffChi is how many standard deviations χ² is off what is expected to be named.
	farOffChi = 3
	// mostFarOff is how many points are named.
	mostFarOff = 5
)

// tells says how well the readings go with what is fitted.
func (f *fitting) tells(got run.Fitted, q *entry.Fit) {
	r := f.Entry.Result()
	r.Fit = q
	said := entry.Say("R² = …", f.Told(units.Figures{}, q.R2, units.One))
	if q.R2 < 0 {
		said = said.And(", below 0: the points lie nearer to their mean than to this")
	}
	if q.R2-q.R2 != 0 {
		said = entry.Say("the values of … differ too little for R²", entry.Math(f.s.Y))
	}
	if q.SD > 0 {
		said = said.And("; the "+strconv.Itoa(q.N)+" points lie … from it (standard deviation)", f.difference(q.SD, f.y.Unit))
	}
	r.Notes = append(r.Notes, said)
	if q.ChiSquared != nil {
		r.Notes = append(r.Notes, f.chiSquared(*q.ChiSquared, q.N-len(got.Values)))
	}
	if f.s.Ends {
		r.Notes = append(r.Notes, f.ends()...)
	}
	if y := oneName(f.s.Y); f.s.Model == nil && y != "" && y == oneName(f.s.X) {
		r.Notes = append(r.Notes, entry.Say("both are worked out from … alone: they go together however … was measured", entry.Name(y), entry.Name(y)))
	}
	if f.s.Model == nil {
		r.Notes = append(r.Notes, f.meanings(r.Values[0], true)...)
	} else if got.Searched {
		r.Notes = append(r.Notes, entry.Words("start values were looked for near the sizes of the readings"))
	}
	r.Notes = append(append(r.Notes, f.untold(r.Values)...), f.farOff(got, q)...)
}

// untoldBy is how many times as great as a parameter its uncertainty is where the readings
// do not tell it, nor by how much they do not: slopes at its place say nothing of places so
// far away.
const untoldBy = 10

// untold names the parameters of a model that the readings do not tell.
func (f *fitting) untold(values []entry.Value) []entry.Said {
	var out []entry.Said
	for i, v := range values {
		if f.s.Model != nil && v.SI != 0 && v.U > untoldBy*math.Abs(v.SI) {
			out = append(out, entry.Say("these readings don't fix …: its uncertainty is more than "+strconv.Itoa(untoldBy)+" times its value", entry.Name(f.params[i].label)))
		}
	}
	return out
}

// chiSquared says what χ² per degree of freedom is, which is about 1 where points scatter as
// their uncertainties say; its standard deviation is √(2/ν).
func (f *fitting) chiSquared(chi float64, freedom int) entry.Said {
	said := entry.Say("χ² per degree of freedom = …", f.Told(units.Figures{N: 3}, chi, units.One))
	switch off := (chi - 1) / math.Sqrt(2/float64(freedom)); {
	case off > farOffChi:
		return said.And(": the points scatter more than their uncertainties say")
	case off < -farOffChi:
		return said.And(": the points scatter less than their uncertainties say")
	}
	return said
}

// farOff names the points that lie far off; they count all the same.
func (f *fitting) farOff(got run.Fitted, q *entry.Fit) []entry.Said {
	sd := q.SD
	if q.ChiSquared != nil { // of points that all scatter more, none is named for that
		sd = math.Sqrt(max(1, *q.ChiSquared))
	}
	y := f.State.Elements(f.y.Slot)
	var out []entry.Said
	for i, left := range got.Left {
		free := 1 - got.Lever[i]
		off := math.Abs(left) * math.Sqrt(got.Weight[i]) / (sd * math.Sqrt(free))
		if free < 1e-9 || sd == 0 || off < farOff {
			continue
		}
		if len(out) == mostFarOff {
			return append(out, entry.Words("more points are far off"))
		}
		place := entry.Words("")
		if f.along != nil {
			place = entry.Say("… = …, ", entry.Math(f.along), f.Told(f.Set.Figures, f.State.Elements(f.x.Slot)[i], f.x.Unit))
		}
		out = append(out, entry.Say("point "+strconv.Itoa(i+1)+" is far off: …… = … is … standard deviations off", place,
			entry.Math(f.s.Y), f.Told(f.Set.Figures, y[i], f.y.Unit), f.Told(units.Figures{N: 2}, off, units.One)))
	}
	return out
}

// difference is a difference in a unit, with two figures.
func (f *fitting) difference(v float64, u *units.Unit) entry.Said {
	return f.Told(units.Figures{N: 2, Keep: true}, v, u.OfDifference())
}
