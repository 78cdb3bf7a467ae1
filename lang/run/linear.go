package run

import (
	"math"
	"slices"

	"steelyard/lang/ops"
)

// Rank is what the coefficients of linear equations say of their solutions.
type Rank uint8

// The ranks.
const (
	NotLinear     Rank = iota // or not known to be, or too near each other to tell
	OneSolution               // the equations leave one value for each unknown
	Dependent                 // some equation follows from others
	Contradictory             // no values satisfy all
)

// Linear is what elimination makes of equations that are linear in their unknowns.
type Linear struct {
	Rank Rank
	// X is the one solution. Rows are the equations that led to it, from the first
	// unknown on: what a row gives is its last number less its multiples of the
	// unknowns behind it.
	X    []float64
	Rows [][]float64
	// From is the equation that each row was made of.
	From []int
	// Beyond tells that there is one solution, with a number that no float64 holds.
	Beyond bool
	// Among are the equations that contradict each other, or each of which follows
	// from the others, in their order.
	Among []int
}

// Linear solves linear equations by elimination. Coefficients that are decimals
// or simple fractions, but for rounding, are taken for these, so that it is no
// matter of rounding whether equations depend on each other.
func (p *Program) Linear(st *State, s *Solve) Linear { return p.floats(st).linear(s) }

// question is some functions, with the numbers that they load and others that the answer
// depends on: while it is the same, so is the answer.
type question struct {
	fns  []*Func
	with []float64
}

// answered is a question with its answer: what elimination made of some functions, or what a
// search found.
type answered[T any] struct {
	question
	answer T
}

// question is what the answer to some functions depends on: what they load, besides what is
// asked with it.
func (w *floatWalker) question(fns []int, with ...float64) question {
	q := question{with: with}
	reads := w.p.Reads()
	for _, fn := range fns {
		q.fns = append(q.fns, w.p.Funcs[fn])
		for _, slot := range reads.Loads(fn) {
			q.with = append(q.with, w.st.At(slot))
		}
	}
	return q
}

// same tells whether a question has been answered already. A function that was made anew is
// another one.
func (q question) same(o question) bool {
	return slices.Equal(q.fns, o.fns) && slices.Equal(q.with, o.with)
}

// linear eliminates once for all unknowns of a solve, each of which is an
// instruction of its own.
func (w *floatWalker) linear(s *Solve) Linear {
	now := answered[Linear]{question: w.question(s.Differences)}
	if known := w.st.eliminated; known.same(now.question) {
		return known.answer
	}
	if now.answer = w.eliminate(s); now.answer.Rank != NotLinear {
		w.st.eliminated = now
	}
	return now.answer
}

// eliminate solves with many digits, since coefficients that nearly cancel would leave none of
// sixteen. Beside each row stands of which equations it was made, so that of equations without
// a solution those that contradict each other can be named.
func (w *floatWalker) eliminate(s *Solve) Linear {
	m, ok := w.coefficients(s)
	if !ok {
		return Linear{}
	}
	e := elimination{w: w, n: len(s.Dims), rows: make([][]precise, len(m)), from: make([]int, len(m))}
	for i, row := range m {
		e.from[i] = i
		for _, x := range row {
			e.rows[i] = append(e.rows[i], simplest(x))
		}
		for k := range m { // of which equations a row is made
			part := newBig()
			if k == i {
				part.SetInt64(1)
			}
			e.rows[i] = append(e.rows[i], exactly(part))
		}
	}
	scale := e.balance()
	if pivots, sure := e.reduce(); w.stopped() || !sure {
		return Linear{}
	} else if pivots < e.n {
		return e.singular(pivots)
	}
	return e.solution(scale)
}

// slopePlaces are where a slope must be as little known as it is everywhere to be the
// same but for rounding: more than one, as at a seam, such as that of abs(sin(x)) at
// 0, it is not known either.
var slopePlaces = [...]float64{0, 0.7, -2.3}

// coefficients encloses the coefficients of linear equations, and in a last
// column what is added to them; false if an equation is not linear: its slopes by
// the unknowns are then not the same everywhere.
//
// A function whose slope by an unknown is one number over all numbers is a line in it; and one
// that is a line in each, whatever the others are, is linear. So the equations themselves need
// not be read.
func (w *floatWalker) coefficients(s *Solve) ([][]ops.Interval, bool) {
	own := &intervalWalker{walker: newWalker[enclosed](w.p, w.st, w.depth, intervals{exact})}
	n := len(s.Dims)
	m := make([][]ops.Interval, len(s.Differences))
	zero, all := placeOf(n, ops.Point(0)), placeOf(n, ops.Everything())
	for j, fn := range s.Differences {
		m[j] = make([]ops.Interval, n+1)
		for k := range n {
			slope, ok := own.slopeAlong(fn, all, k)
			if !ok || !finite(slope) {
				return nil, false
			}
			m[j][k] = slope
			if known := width(slope) <= unsettled*(math.Abs(slope.Lo)+math.Abs(slope.Hi)); known {
				continue
			}
			for _, x := range slopePlaces {
				if here, ok := own.slopeAlong(fn, placeOf(n, ops.Point(x)), k); !ok || !(width(slope) <= 4*width(here)) {
					return nil, false
				}
			}
		}
		added, ok := own.at(fn, zero)
		if !ok || added.partly || !finite(added.v) {
			return nil, false
		}
		m[j][n] = added.v
	}
	return m, true
}

// placeOf is a place where each of the unknowns lies within an interval.
func placeOf(n int, x ops.Interval) []enclosed {
	place := make([]enclosed, n)
	for i := range place {
		place[i] = enclosed{v: x, d: ops.Point(0)}
	}
	return place
}

// slopeAlong encloses the slopes of a function by one of its arguments; false if
// it has none somewhere.
func (w *intervalWalker) slopeAlong(fn int, place []enclosed, k int) (ops.Interval, bool) {
	place[k].d = ops.Point(1)
	out, ok := w.at(fn, place)
	place[k].d = ops.Point(0)
	return out.d, ok && !out.partly
}

// finite tells whether an interval has a greatest and a least number.
func finite(x ops.Interval) bool { return width(x) < math.Inf(1) }

func width(x ops.Interval) float64 { return x.Hi - x.Lo }

// elimination is linear equations while they are brought into steps. A row holds a
// coefficient for each unknown, then what is added, then how much of each equation
// it is made of.
// Its numbers have 256 bits, since in 64 two equations that are the same but for rounding
// would look like two that contradict each other. What each row is made of is carried
// along, so that the page can name the equations that do.
type elimination struct {
	w    *floatWalker
	n    int // unknowns
	rows [][]precise
	from []int // the equation that each row was
	// added is the largest of what is added, once rows are balanced.
	added float64
}

// balance multiplies rows and columns by powers of two, so that the largest
// coefficient of each is about 1. It returns by what power each unknown is less.
//
// Powers of two change no digit. In units of the page, one equation may be of newtons and
// another of millimetres, and what is small could not be told from what is 0.
func (e *elimination) balance() []int {
	for _, row := range e.rows {
		most := largest(e.n, func(k int) precise { return row[k] })
		for k := range row {
			row[k] = row[k].shifted(-most)
		}
		e.added = max(e.added, magnitude(row[e.n].v))
	}
	scale := make([]int, e.n)
	for k := range scale {
		scale[k] = largest(len(e.rows), func(i int) precise { return e.rows[i][k] })
		for _, row := range e.rows {
			row[k] = row[k].shifted(-scale[k])
		}
	}
	return scale
}

// largest is the power of two that the largest of some numbers is below.
func largest(n int, at func(int) precise) int {
	most, some := 0, false
	for i := range n {
		if x := at(i); x.v.Sign() != 0 && (!some || x.v.MantExp(nil) > most) {
			most, some = x.v.MantExp(nil), true
		}
	}
	return most
}

// slight is what a coefficient is next to nothing below, beside the largest of its row.
const slight = 0x1p-64

// eliminationSteps is about what one multiple of one coefficient costs.
const eliminationSteps = 40

// reduce brings the equations into steps, as many as there are pivots, and returns
// how many that are. Sure is false if it can't be told of a number whether it is 0.
// The first equation that surely holds an unknown is taken for it, but for one that holds next
// to nothing of it: to divide by that would lose all digits of the others.
//
// The order of the equations is that of the page as far as it goes, so that the working reads
// as it would be done by hand.
func (e *elimination) reduce() (pivots int, sure bool) {
	row := 0
	for col := 0; col < e.n && row < len(e.rows); col++ {
		best, most := row, 0.0
		for i := row; i < len(e.rows); i++ {
			x := e.rows[i][col]
			if !x.settled(1) {
				return row, false
			}
			c := x.certainty()
			if size := magnitude(x.v); size < slight {
				c *= size
			}
			if c > most {
				best, most = i, c
			}
		}
		if most == 0 {
			continue
		}
		e.rows[row], e.rows[best] = e.rows[best], e.rows[row]
		e.from[row], e.from[best] = e.from[best], e.from[row]
		for i := row + 1; i < len(e.rows); i++ {
			if !e.w.st.Budget.Spend(eliminationSteps * int64(len(e.rows[i])-col)) {
				return row, false
			}
			if !e.rows[i][col].isZero() {
				e.subtract(e.rows[i], e.rows[row], col)
			}
		}
		row++
	}
	return row, true
}

// subtract takes that multiple of a row from another which leaves a 0 in a column.
// Most of the time goes here, so that it is done in place.
func (e *elimination) subtract(to, by []precise, col int) {
	f := to[col].over(by[col])
	to[col] = exactly(newBig())
	size, product := magnitude(f.v), newBig()
	for k := col + 1; k < len(to); k++ {
		if by[k].isZero() {
			continue
		}
		to[k].v.Sub(to[k].v, product.Mul(f.v, by[k].v))
		to[k].off += float64(size*by[k].off) + float64(f.off*(magnitude(by[k].v)+by[k].off))
	}
}

// solution works the unknowns out, the last first.
//
// The rows are kept for the working, with the scale taken out again. A number of which not even
// the size is known, or that no float64 holds, is none: it is never taken for 0.
func (e *elimination) solution(scale []int) Linear {
	out := Linear{Rank: OneSolution, X: make([]float64, e.n), From: e.from, Rows: make([][]float64, e.n)}
	x := make([]precise, e.n)
	for i := e.n - 1; i >= 0; i-- {
		row := e.rows[i]
		right := row[e.n].negative()
		size := magnitude(right.v)
		out.Rows[i] = make([]float64, e.n+1)
		for k := i + 1; k < e.n; k++ {
			part := row[k].times(x[k])
			right, size = right.minus(part), max(size, magnitude(part.v))
			out.Rows[i][k] = row[k].over(row[i]).shifted(scale[k] - scale[i]).float()
		}
		if !right.settled(size) {
			return Linear{}
		}
		x[i] = right.over(row[i])
		out.Rows[i][e.n] = row[e.n].negative().over(row[i]).shifted(-scale[i]).float()
		if x[i].certainty() > 0 {
			out.X[i], _ = newBig().SetMantExp(x[i].v, -scale[i]).Float64()
			out.Beyond = out.Beyond || !ops.Held(out.X[i]) || out.X[i] == 0
		}
	}
	if out.Beyond {
		return Linear{Beyond: true}
	}
	return out
}

// singular tells of equations of which some came to nothing whether what is left
// there is 0, and which of the others they are made of.
//
// A row of zeros with a number beside it says 0 = 3: those equations contradict each other. One
// with a 0 beside it says nothing, and there are too few equations. Where it can't be told,
// nothing is said.
func (e *elimination) singular(pivots int) Linear {
	out := Linear{Rank: Dependent, Among: e.partsOf(pivots)}
	for i := pivots; i < len(e.rows); i++ {
		switch left := e.rows[i][e.n]; {
		case left.certainty() > 0:
			return Linear{Rank: Contradictory, Among: e.partsOf(i)}
		case !left.settled(e.added):
			out = Linear{}
		}
	}
	return out
}

// partsOf are the equations that a row is made of, in their order.
func (e *elimination) partsOf(row int) []int {
	var out []int
	for k := range e.rows {
		if e.rows[row][e.n+1+k].certainty() > 0 {
			out = append(out, k)
		}
	}
	return out
}
