package run

import (
	"slices"

	"steelyard/lang/ops"
)

// shift works the elements of a slot out in lanes, in each of which some sources are
// elsewhere.
type shift struct {
	columns *Columns
	at      map[Slot]int // the first column of a source's slot
	still   []float64    // what each column has where nothing is moved
	in, out [][]float64
	// held are the columns of the parameters of fits, each with how it follows a source.
	held      []int
	following map[Source][]follows
}

// follows is by how much a column follows a source.
type follows struct {
	column int
	slope  float64
}

// shift prepares a slot to be worked out from sources, as newShift does, where parameters of
// fits follow those by their slopes.
//
// A reading that is moved would make the fit another one, which its parameters say already by
// the source that they have for it; and the least squares of each lane would take as long as
// all else together.
func (m *mainUnsure) shift(s Slot, sources []Part, before ...Slot) *shift {
	var fits []Slot
	m.p.needs(s, func(at Slot, in *Instr) (goOn bool) {
		if in.Op == ops.Fit && at != s {
			fits = append(fits, at)
		}
		return in.Op != ops.Fit || at == s
	})
	x := m.p.newShift(m.st, s, sources, append(slices.Clone(before), fits...)...)
	if x == nil || len(fits) == 0 {
		return x
	}
	x.following = map[Source][]follows{}
	for i, at := range fits {
		column := len(before) + i
		x.held, x.still[column] = append(x.held, column), m.st.At(at)
		for _, p := range m.unsure(at)[0].By {
			x.following[p.Source] = append(x.following[p.Source], follows{column, p.Slope})
		}
	}
	return x
}

// newShift prepares a slot to be worked out from sources, and from slots of one element that
// come before those; nil where there are no sources.
func (p *Program) newShift(st *State, s Slot, sources []Part, before ...Slot) *shift {
	x := &shift{at: map[Slot]int{}, still: make([]float64, len(before))}
	varying := before
	for _, p := range sources {
		if _, known := x.at[p.Slot]; !known {
			x.at[p.Slot] = len(x.still)
			x.still = append(x.still, st.Elements(p.Slot)...)
			varying = append(varying, p.Slot)
		}
	}
	columns, ok := p.Columns(st, []Slot{s}, varying)
	if !ok || len(sources) == 0 {
		return nil
	}
	x.columns = columns
	x.in, x.out = make([][]float64, columns.Inputs()), make([][]float64, columns.Outputs())
	for i := range x.in {
		x.in[i] = make([]float64, blockLanes)
	}
	for i := range x.out {
		x.out[i] = make([]float64, blockLanes)
	}
	return x
}

// reset puts every source where it is, in all lanes.
//
// A lane is the whole page worked out once more, with its own values of the sources; that
// many lanes cost little more than one is why moving is done in blocks.
func (x *shift) reset() {
	for i, v := range x.still {
		for lane := range x.in[i] {
			x.in[i][lane] = v
		}
	}
}

// move moves a source in a lane.
func (x *shift) move(s Source, lane int, by float64) {
	x.in[x.at[s.Slot]+int(s.Element)][lane] += by
	for _, f := range x.following[s] {
		x.in[f.column][lane] += float64(f.slope * by)
	}
}

// hold puts the parameters of fits where they are, in the first lanes.
func (x *shift) hold(lanes int) {
	for _, column := range x.held {
		for lane := range lanes {
			x.in[column][lane] = x.still[column]
		}
	}
}

// follow moves what follows a source, which has been moved to some places from v.
func (x *shift) follow(s Source, places []float64, v float64) {
	for _, f := range x.following[s] {
		for lane, at := range places {
			x.in[f.column][lane] += float64(f.slope * (at - v))
		}
	}
}

// aside moves a source a little less and a little more, in a pair of lanes; slope is how
// a result then changes with it.
func (x *shift) aside(p Part, pair int) {
	x.move(p.Source, 2*pair, -aside*p.U)
	x.move(p.Source, 2*pair+1, aside*p.U)
}

// The sources were moved by aside of their uncertainty to both sides, so this is the whole way
// between.
func (x *shift) slope(p Part, pair, result int) float64 {
	return (x.out[result][2*pair+1] - x.out[result][2*pair]) / (2 * aside * p.U)
}

// run works the first lanes out; what has no value is not a number.
func (x *shift) run(lanes int) {
	in, out := make([][]float64, len(x.in)), make([][]float64, len(x.out))
	for i := range in {
		in[i] = x.in[i][:lanes]
	}
	for i := range out {
		out[i] = x.out[i][:lanes]
	}
	x.columns.Run(in, out)
}

// SpreadAlong is what a slot depends on at each of some places: those that the slots in along
// have then, all of them the same; nil where nothing is uncertain but those.
func (p *Program) SpreadAlong(st *State, s Slot, along []Slot, places []float64) []Unsure {
	m := p.unsureIn(st)
	of := slices.DeleteFunc(m.sources(s), func(q Part) bool { return slices.Contains(along, q.Slot) })
	x := m.shift(s, of, along...)
	if x == nil {
		return nil
	}
	out := make([]Unsure, len(places))
	for from := 0; from < len(places); from += blockLanes / 2 {
		some := places[from:min(from+blockLanes/2, len(places))]
		for _, source := range of {
			x.reset()
			for i, place := range some {
				for col := range along {
					x.in[col][2*i], x.in[col][2*i+1] = place, place
				}
				x.aside(source, i)
			}
			x.run(2 * len(some))
			for i := range some {
				source.Slope = x.slope(source, i, 0)
				out[from+i].By = append(out[from+i].By, source)
			}
		}
	}
	return out
}
