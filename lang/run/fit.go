package run

import (
	"math"
	"slices"

	"steelyard/lang/ops"
	"steelyard/units/each"
)

// Fit is the work of the ops.Fit instructions of one statement, one for each parameter:
// the values with which a line or a model fits readings best, by least squares. Their
// arguments are the readings of what is fitted, y, and those of what it is fitted against,
// x; of a model the columns of readings in it, and the start values of its parameters.
type Fit struct {
	// Params is how many parameters there are; those of a line are its slope, then its
	// intercept, unless that is 0.
	Params int
	// Model is the number of a function of the parameters, then of the readings of a point:
	// by how much they differ from the model. It is below 0 for a line.
	Model int
	// Search tells that the start values are no more than natural scales, from which better
	// ones are looked for.
	Search bool
	// UY and UX are the standard uncertainties of the readings, and UXY the covariances
	// of the two, as of T^2 and T. They are nil where all points count alike.
	UY, UX, UXY []float64
	// Moves are point by point what its readings may be off; nil where all count alike.
	Moves [][]Moves
}

// Weighted tells that points count by their uncertainties.
func (f *Fit) Weighted() bool { return f.UY != nil || f.Moves != nil }

// Fitted is what a fit has found, in coherent SI units.
type Fitted struct {
	Values []float64
	// Covariance is that of the parameters, where each point counts by its uncertainty;
	// where all count alike, it is to be taken times the variance of one of them.
	Covariance [][]float64
	// Left is by how much each y is more than what is fitted, and Weight how much each
	// point counts: one over the variance of y, or 1.
	Left, Weight []float64
	// Gain is how much each parameter moves with what is left of each point, and Across how
	// much that moves with each column of readings, where those have uncertainties.
	Gain, Across [][]float64
	// Lever is the part of each point's own y in what is fitted there, from 0 to 1.
	Lever []float64
	// Squares is the sum of the squares of what is left, each by its weight.
	Squares float64
	// Searched tells that start values were looked for.
	Searched bool
}

// Fitted is what the instruction of a slot has found; false if that has no value.
func (p *Program) Fitted(st *State, s Slot) (Fitted, bool) {
	in := &p.Main.Instrs[s]
	if in.Op != ops.Fit || st.causes[s] != 0 {
		return Fitted{}, false
	}
	got, fault := p.floats(st).fitted(p.Fits[in.A], each.Of(p.Main.list(in), st.Elements))
	return got, fault == ops.NoFault
}

// lastFit is the last fit of a state: each of its parameters asks for it.
type lastFit struct {
	fit   *Fit
	given []float64
	got   Fitted
	fault ops.Fault
}

// fit is a parameter of a fit. Readings that vary have one that nothing is known of.
func (w *walker[N, D]) fit(in *Instr, code *Code, fn *Func, i Slot, vals []N, causes []int32) (v N, cause int32) {
	x := make([][]float64, in.C)
	for k, s := range code.list(in) {
		if causes[s] != 0 {
			return v, causes[s]
		}
		var still bool
		if x[k], still = w.still(code, s, vals); !still {
			return w.unknown(fn, i)
		}
	}
	got, fault := w.plain().fitted(w.p.Fits[in.A], x)
	if fault != ops.NoFault {
		return v, w.fail(fault, fn, i)
	}
	return w.d.of(got.Values[int(in.K)]), 0
}

// still are the elements of a slot as plain numbers, and whether none of them varies.
func (w *walker[N, D]) still(code *Code, s Slot, vals []N) (plain []float64, still bool) {
	own := code.span(s)
	plain, still = make([]float64, own.width), true
	for e := range plain {
		v, known := w.d.still(vals[own.at(int32(e))])
		plain[e], still = v, still && known
	}
	return plain, still
}

// unknown is what the domain knows of what it can't work out.
func (w *walker[N, D]) unknown(fn *Func, i Slot) (v N, cause int32) {
	v, fault := w.d.unknown()
	if fault != ops.NoFault {
		cause = w.fail(fault, fn, i)
	}
	return v, cause
}

// fitted does the work of a fit, or finds that it was the last one.
func (w *floatWalker) fitted(f *Fit, x [][]float64) (Fitted, ops.Fault) {
	last := &w.st.fitted
	given := slices.Concat(x...)
	if f.Model >= 0 {
		for _, s := range w.p.Reads().Loads(f.Model) {
			given = append(given, w.st.Elements(s)...)
		}
	}
	if last.fit == f && slices.Equal(last.given, given) {
		return last.got, last.fault
	}
	w.budget.Spend(int64(len(given)))
	*last = lastFit{fit: f, given: given}
	if f.Model < 0 {
		var ok bool
		if last.got, ok = f.Line(x[0], x[1]); !ok {
			last.fault = ops.NoFit
		}
	} else {
		columns := len(x) - f.Params
		var start []float64
		for _, s := range x[columns:] {
			start = append(start, s[0])
		}
		last.got, last.fault = newModelFit(w, f, x[:columns]).best(start)
	}
	if last.fault == ops.NoFault && !allFinite(last.got.Values...) {
		last.fault = ops.NoFit
	}
	return last.got, last.fault
}

// mean is the weighted mean of numbers, corrected by that of what is left: the sum of
// many that hardly differ has lost their last figures.
func mean(x, w []float64) float64 {
	m := 0.0
	for range 2 {
		sum, weights := 0.0, 0.0
		for i, v := range x {
			sum += float64(w[i] * (v - m))
			weights += w[i]
		}
		m += sum / weights
	}
	return m
}

func square(x float64) float64 { return float64(x * x) }

// allFinite tells whether all numbers are.
func allFinite(x ...float64) bool {
	return !slices.ContainsFunc(x, func(v float64) bool { return math.IsNaN(v) || math.IsInf(v, 0) })
}
