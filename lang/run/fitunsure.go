package run

import (
	"maps"
	"slices"
)

// What the points of a fit depend on that was written with an uncertainty is of two kinds.
// What one point alone depends on, as the uncertainty of a reading, says how much that
// point counts. What several depend on, as a factor that all readings are multiplied by,
// moves them all one way: it moves what is fitted, and says nothing of any one point.

// shared are the sources that more than one point depends on.
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

// PointsUnsure are the standard uncertainties of readings y and x in two slots, and the
// covariances of the two, by what one point alone depends on. They are nil where none
// depends on anything; that of x is where no x does.
func (p *Program) PointsUnsure(st *State, y, x Slot) (uy, ux, uxy []float64) {
	ys, xs := p.Depends(st, y), p.Depends(st, x)
	common := shared(ys, xs)
	own := func(list []Unsure) (u []float64, by []map[Source]float64) {
		u, by = make([]float64, len(list)), make([]map[Source]float64, len(list))
		none := true
		for i, n := range list {
			by[i] = map[Source]float64{}
			alone := Unsure{}
			for _, part := range n.By {
				if _, of := common[part.Source]; !of {
					alone.By = append(alone.By, part)
					by[i][part.Source] = part.Contribution()
				}
			}
			u[i] = alone.Uncertainty()
			none = none && u[i] == 0
		}
		if none {
			return nil, by
		}
		return u, by
	}
	uy, byY := own(ys)
	ux, byX := own(xs)
	if uy == nil && ux == nil {
		return nil, nil, nil
	}
	if uy == nil {
		uy = make([]float64, len(ux))
	}
	if ux == nil {
		return uy, nil, nil
	}
	uxy = make([]float64, len(ux))
	for i := range min(len(byX), len(byY)) {
		for of, part := range byX[i] {
			uxy[i] += float64(part * byY[i][of])
		}
	}
	return uy, ux, uxy
}

// fitted are the sources that a parameter depends on by what several points depend on: its
// own uncertainty is a source beside it.
func (m *mainUnsure) fitted(in *Instr) []Part {
	var all [][]Unsure
	for _, a := range m.p.Main.list(in) {
		all = append(all, m.unsure(a))
	}
	common := shared(all...)
	for _, list := range all[min(2, len(all)):] { // start values are no readings
		for _, n := range list {
			for _, part := range n.By {
				delete(common, part.Source)
			}
		}
	}
	for _, l := range m.p.Reads().loaded(in) {
		for _, n := range m.unsure(l) {
			for _, part := range n.By {
				common[part.Source] = part
			}
		}
	}
	return slices.SortedFunc(maps.Values(common), func(p, q Part) int { return p.compare(q.Source) })
}
