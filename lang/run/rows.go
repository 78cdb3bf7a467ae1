package run

import (
	"math"

	"steelyard/units/matrix"
)

// Rows are elements of a slot that move a source worked out from them: a mean, or a parameter
// of a fit. Sources that the same rows move go together row by row (JCGM 100:2008, 4.2 and
// 5.2.3).
//
// A mean of T and a mean of m go together where a row of one table has both. The slope of a
// fit goes together with its intercept, and with each reading that was written with an
// uncertainty of its own: a T that is too great makes the slope too great as well.
type Rows struct {
	rowsOf
	// Off is by how much each row moves the source, with its sign: the sum of the squares is
	// that of the source's uncertainty, or what these rows have of it.
	Off []float64
	// Freedom is how many degrees of freedom Off has where it is told by how readings scatter;
	// 0 where it is told by their own uncertainties.
	Freedom int
}

// rowsOf are the slot that rows are elements of, and why they are off.
type rowsOf struct {
	slot Slot
	by   offBy
}

// offBy is why rows are off.
type offBy uint8

const (
	byStated offBy = iota // each by the uncertainty that it was written with: each is a source
	byMean                // as they scatter about their mean
	byFit                 // as they scatter about what fits them
)

// movedRows are rows with what they come to together.
type movedRows struct {
	Rows
	size float64 // of all that was added up
}

// uncertainty is what the rows come to: what cancels in all of them, as in a difference of two
// means of one column, is 0 and not a remainder of rounding.
func (m *movedRows) uncertainty() float64 {
	sum := matrix.Norm(m.Off)
	if sum < 1e-13*m.size { // nothing is left but rounding
		return 0
	}
	return sum
}

// rowsMoved are all rows that move the sources of a value, in their order.
type rowsMoved struct {
	all []movedRows
	at  map[rowsOf]int
}

// have tells whether a source is one of the rows, or was worked out from them.
func (r *rowsMoved) have(p Part) bool {
	if len(r.all) == 0 {
		return false
	}
	_, is := r.at[rowsOf{p.Slot, byStated}]
	return is || p.Rows != nil
}

// row are some rows; new ones, if they are not there yet.
func (r *rowsMoved) row(of rowsOf, n, freedom int) *movedRows {
	at, known := r.at[of]
	if !known {
		at, r.at[of] = len(r.all), len(r.all)
		r.all = append(r.all, movedRows{Rows: Rows{of, make([]float64, n), freedom}})
	}
	return &r.all[at]
}

// add adds what moves a source, by as much as it moves a value by way of that.
func (r *rowsMoved) add(p Part) {
	for i := range p.Rows {
		of := &p.Rows[i]
		m := r.row(of.rowsOf, len(of.Off), of.Freedom)
		m.size += math.Abs(p.Slope) * matrix.Norm(of.Off)
		for row, off := range of.Off {
			m.Off[row] += float64(p.Slope * off)
		}
	}
}

// rows are those that move a value's sources, each by as much as it moves the value.
func (n Unsure) rows() rowsMoved {
	out := rowsMoved{}
	for _, p := range n.By {
		if p.Rows != nil && out.at == nil {
			out.at = map[rowsOf]int{}
		}
		out.add(p)
	}
	if out.at == nil {
		return out
	}
	for _, p := range n.By {
		if at, is := out.at[rowsOf{p.Slot, byStated}]; is && p.Rows == nil {
			out.all[at].Off[p.Element] += p.Contribution()
			out.all[at].size += math.Abs(p.Contribution())
		}
	}
	return out
}

// covariance is that of two sources.
func covariance(p, q Part) float64 {
	if p.Rows == nil {
		p, q = q, p
	}
	sum := 0.0
	for i := range p.Rows {
		r := &p.Rows[i]
		if q.Rows == nil && r.rowsOf == (rowsOf{q.Slot, byStated}) {
			sum += float64(r.Off[q.Element] * q.U)
		}
		for k := range q.Rows {
			if of := &q.Rows[k]; of.rowsOf == r.rowsOf {
				for row, off := range r.Off {
					sum += float64(off * of.Off[row])
				}
			}
		}
	}
	return sum
}
