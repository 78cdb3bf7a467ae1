package run

import (
	"math"

	"steelyard/lang/ops"
)

// Line is the straight line that fits readings y against x; false where there is none.
func (f *Fit) Line(y, x []float64) (Fitted, bool) {
	return (&lineFit{y: y, x: x, Fit: f}).best()
}

// lineFit is a straight line while it is fitted.
type lineFit struct {
	*Fit
	y, x []float64
	// w is how much each point counts, and the rest is of the line of that: where it is
	// known best, and how far each point lies from there across and up.
	w, u, v        []float64
	aboutX, aboutY float64
}

const (
	// mostLines is how often a line is fitted again where the weights depend on it.
	mostLines = 200
	// sameLine is when the slope no longer changes, as a part of itself; where it changes
	// less than nearLine, and no less each time, the rest is rounding.
	sameLine, nearLine = 1e-15, 1e-9
)

// best fits the line; false where there is none.
//
// Where all points count alike, or by the uncertainties of y, it is that of least squares
// (P. R. Bevington and D. K. Robinson, Data Reduction and Error Analysis, 3rd ed., chapter
// 6; from memory). With uncertainties in both it is that of D. York, N. M. Evensen, M. L.
// Martínez and J. De Basabe Delgado, American Journal of Physics 72, 2004, p. 367 (from
// memory), which has the slope on both sides of its equation, so that it is put in
// until it stays.
func (l *lineFit) best() (Fitted, bool) {
	n := len(l.y)
	l.w, l.u, l.v = make([]float64, n), make([]float64, n), make([]float64, n)
	l.weigh(0)
	if l.UX != nil {
		for i := range l.w {
			l.w[i] = 1
		}
	}
	l.center()
	slope := l.slope(l.u)
	if l.UX == nil {
		return l.found(slope, l.u)
	}
	beta := make([]float64, n)
	last := math.Inf(1)
	for range mostLines {
		l.weigh(slope)
		l.center()
		for i := range beta {
			beta[i] = l.w[i] * (float64(l.u[i]*square(l.UY[i])) + float64(float64(slope*l.v[i])*square(l.UX[i])) -
				float64((float64(slope*l.u[i])+l.v[i])*l.UXY[i]))
		}
		was := slope
		slope = l.slope(beta)
		by := math.Abs(slope-was) / math.Abs(slope)
		if by <= sameLine || by < nearLine && by >= last || !allFinite(slope) {
			break
		}
		last = by
	}
	// The points as they are adjusted, from their mean: what is known of the slope.
	if l.Params > 1 {
		middle := mean(beta, l.w)
		l.aboutX += middle
		for i := range beta {
			beta[i] -= middle
		}
	}
	return l.found(slope, beta)
}

// weigh says how much each point counts with a slope.
//
// An error of x moves a point up or down by the slope times as much. What x and y have in
// common is taken out: along the line it moves nothing.
func (l *lineFit) weigh(slope float64) {
	for i := range l.w {
		l.w[i] = 1
		if l.UY == nil {
			continue
		}
		spread := square(l.UY[i])
		if l.UX != nil {
			spread += float64(square(slope)*square(l.UX[i])) - float64(float64(2*slope)*l.UXY[i])
		}
		l.w[i] = 1 / spread
	}
}

// center counts both readings from their means, or from 0 where the line goes through
// that.
//
// From their means, slope and height of the line don't depend on each other, and no figures are
// lost to where the readings lie on the axis.
func (l *lineFit) center() {
	l.aboutX, l.aboutY = 0, 0
	if l.Params > 1 {
		l.aboutX, l.aboutY = mean(l.x, l.w), mean(l.y, l.w)
	}
	for i := range l.x {
		l.u[i], l.v[i] = l.x[i]-l.aboutX, l.y[i]-l.aboutY
	}
}

// slope is that of least squares along some numbers.
func (l *lineFit) slope(along []float64) float64 {
	up, across := 0.0, 0.0
	for i, w := range l.w {
		by := w * along[i]
		up += float64(by * l.v[i])
		across += float64(by * l.u[i])
	}
	return up / across
}

// found is what has been fitted, with the places of the points along the line.
//
// The intercept depends on the slope by how far the mean is from the axis: with readings to the
// right of that, a line that is a little too steep meets it a little too low. That is their
// covariance.
func (l *lineFit) found(slope float64, along []float64) (Fitted, bool) {
	n := len(l.x)
	squares, rise, weights := 0.0, 0.0, 0.0
	for i, w := range l.w {
		squares += float64(w * square(along[i]))
		rise += float64(w * square(l.v[i]))
		weights += w
	}
	ofSlope := 1 / squares
	out := Fitted{Values: []float64{slope}, Covariance: [][]float64{{ofSlope}}, Weight: l.w, Left: make([]float64, n), Lever: make([]float64, n)}
	atMean := 0.0
	if l.Params > 1 {
		out.Values = append(out.Values, l.intercept(slope))
		atMean = 1 / weights
		both := -float64(l.aboutX * ofSlope)
		out.Covariance = [][]float64{{ofSlope, both}, {both, atMean + float64(square(l.aboutX)*ofSlope)}}
	}
	out.Gain = make([][]float64, l.Params)
	for k := range out.Gain {
		out.Gain[k] = make([]float64, n)
	}
	across := []float64{1, -slope}
	for i, w := range l.w {
		bySlope := float64(w*along[i]) * ofSlope
		out.Gain[0][i] = bySlope
		if l.Params > 1 {
			out.Gain[1][i] = float64(w*atMean) - float64(l.aboutX*bySlope)
		}
		if l.Moves != nil {
			out.Across = append(out.Across, across)
		}
		out.Left[i] = unlessRounding(l.v[i]-float64(slope*l.u[i]), math.Abs(l.y[i])+math.Abs(l.aboutY)+math.Abs(slope)*(math.Abs(l.x[i])+math.Abs(l.aboutX)))
		out.Squares += float64(w * square(out.Left[i]))
		out.Lever[i] = w * (atMean + float64(square(along[i])*ofSlope))
	}
	// Beyond the range of numbers, what is divided by an infinite sum would be 0.
	return out, allFinite(slope, rise, out.Squares, ofSlope) && ofSlope >= ops.Least
}

// intercept is where the line meets the axis of y.
func (l *lineFit) intercept(slope float64) float64 {
	y, x := mean(l.y, l.w), mean(l.x, l.w)
	return unlessRounding(y-float64(slope*x), math.Abs(y)+math.Abs(slope*x))
}

// roundings are those that a fit may leave of its readings.
const roundings = 8 * exact

// unlessRounding is a difference of numbers of some size, or 0 where it is no more than a few
// roundings of those: what three points on a line leave is no scatter.
func unlessRounding(left, size float64) float64 {
	if math.Abs(left) <= roundings*size {
		return 0
	}
	return left
}
