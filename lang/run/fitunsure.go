package run

import (
	"maps"
	"math"
	"slices"
	"steelyard/units/each"
)

// What the points of a fit depend on that was written with an uncertainty is of two kinds.
// What one point alone depends on, as the uncertainty of a reading, says how much that
// point counts. What several depend on, as a factor that all readings are multiplied by,
// moves them all one way: it moves what is fitted, and says nothing of any one point.

// Moves is something that a point alone depends on, and by how much it may move each of the
// point's readings: its standard uncertainty times their slopes.
type Moves struct {
	source Part
	by     []float64
}

// shared are the sources that more than one point depends on.
//
// The length of the scale that all distances were read from makes every one longer or
// shorter: the points still lie on their line as well as before.
func shared(of ...[]Unsure) map[Source]Part {
	last, out := map[Source]int{}, map[Source]Part{}
	for _, list := range of {
		for i, n := range list {
			for _, p := range n.By {
				if at, seen := last[p.Source]; seen && at != i {
					out[p.Source] = p
				}
				last[p.Source] = i
			}
		}
	}
	return out
}

// Moved are, point by point, what may move its readings in some slots, and no others; nil
// where nothing does.
//
// A source that moves both y and x of a point, as one reading of which both were worked out, is
// one entry with two slopes: what it does to the point is not counted as two things.
func (p *Program) Moved(st *State, slots ...Slot) [][]Moves {
	all := make([][]Unsure, len(slots))
	for c, s := range slots {
		all[c] = p.Depends(st, s)
	}
	common := shared(all...)
	out, none := make([][]Moves, len(st.Elements(slots[0]))), true
	for i := range out {
		for c, list := range all {
			if i >= len(list) {
				continue
			}
			for _, part := range list[i].By {
				if _, is := common[part.Source]; is || part.Contribution() == 0 {
					continue
				}
				at := slices.IndexFunc(out[i], func(m Moves) bool { return m.source.Source == part.Source })
				if at < 0 {
					at = len(out[i])
					out[i] = append(out[i], Moves{part, make([]float64, len(slots))})
				}
				out[i][at].by[c] += part.Contribution()
				none = false
			}
		}
	}
	if none {
		return nil
	}
	return out
}

// Least is point by point the uncertainty of the reading that has the greatest one beside the
// size of the readings in its slot; 0 of a point that has none. Slots are those that the work
// of a fit was told.
func (p *Program) Least(st *State, f *Fit, slots []Slot) []float64 {
	size, out := make([]float64, len(slots)), make([]float64, len(f.Moves))
	for c, s := range slots {
		for _, v := range st.Elements(s) {
			size[c] = max(size[c], math.Abs(v))
		}
	}
	for i, moves := range f.Moves {
		for _, m := range moves {
			for c, by := range m.by {
				if by != 0 {
					out[i] = max(out[i], math.Abs(by/size[c]))
				}
			}
		}
	}
	return out
}

// Uncertainties are the standard uncertainties of readings y and x, and the covariances of
// the two; that of x is nil where no x has one.
//
// These are what York's method takes; the sources behind them are known too (Moves), and the
// curve that is fitted to a model uses those.
func Uncertainties(of [][]Moves) (uy, ux, uxy []float64) {
	uy, ux, uxy = make([]float64, len(of)), make([]float64, len(of)), make([]float64, len(of))
	some := false
	for i, moves := range of {
		for _, m := range moves {
			uy[i] = math.Hypot(uy[i], m.by[0])
			ux[i] = math.Hypot(ux[i], m.by[1])
			uxy[i] += float64(m.by[0] * m.by[1])
			some = some || m.by[1] != 0
		}
	}
	if !some {
		return uy, nil, nil
	}
	return uy, ux, uxy
}

// fitRows are what moves a parameter of a fit by one point alone: the uncertainties that the
// readings were written with, each by as much as it counts there; else how they scatter about
// what fits them.
//
// With uncertainties of their own, the readings say how well the parameters are known; how they
// scatter is then a test of those, and not counted again.
func (m *mainUnsure) fitRows(s Slot) []Rows {
	in := &m.p.Main.Instrs[s]
	f := m.p.Fits[in.A]
	got, ok := m.p.Fitted(m.st, s)
	if !ok {
		return nil
	}
	gain := got.Gain[int(in.K)]
	if !f.Weighted() {
		out := Rows{rowsOf: rowsOf{m.p.Main.list(in)[0], byFit}, Freedom: len(gain) - f.Params}
		if out.Freedom < 1 {
			return nil
		}
		sd := math.Sqrt(got.Squares / float64(out.Freedom))
		for _, by := range gain {
			out.Off = append(out.Off, float64(by*sd))
		}
		return []Rows{out}
	}
	out := rowsMoved{at: map[rowsOf]int{}}
	for i, all := range f.Moves {
		for _, by := range all {
			off := 0.0
			for c, moved := range by.by {
				off += float64(gain[i] * got.Across[i][c] * moved)
			}
			p := by.source
			if p.Rows == nil {
				out.row(rowsOf{p.Slot, byStated}, int(m.p.Main.span(p.Slot).width), 0).Off[p.Element] += off
			}
			p.Slope = off / p.U
			out.add(p)
		}
	}
	rows := make([]Rows, len(out.all))
	for i := range rows {
		rows[i] = out.all[i].Rows
	}
	return rows
}

// fitted are the sources that a parameter depends on by what several points depend on, and
// those of the model: what one alone depends on is in its scatter.
//
// To move one of these moves every point, so that the fit is made anew with it to either side.
func (m *mainUnsure) fitted(in *Instr) []Part {
	columns := m.p.Main.list(in)
	if f := m.p.Fits[in.A]; f.Model >= 0 {
		columns = columns[:len(columns)-f.Params] // start values are no readings
	}
	counts := shared(each.Of(columns, m.unsure)...)
	for _, l := range m.p.Reads().loaded(in) {
		for _, n := range m.unsure(l) {
			for _, part := range n.By {
				counts[part.Source] = part
			}
		}
	}
	return slices.SortedFunc(maps.Values(counts), func(p, q Part) int { return p.compare(q.Source) })
}
