package curve

import "steelyard/session/entry"

// off finds the standard uncertainty of a curve at places of the axis, by their number; 0
// where nothing in it is uncertain.
func (p *plot) off(c *curve, x []float64) func(i int) float64 {
	if p.Planner.Unsure {
		if all := p.Planner.Program.SpreadAlong(&p.State, c.slot, c.along, x); all != nil {
			return func(i int) float64 { return p.Off(all[i]) }
		}
	}
	return func(int) float64 { return 0 }
}

// spreadPlaces are at how many places the uncertainty of a curve is looked at.
const spreadPlaces = 101

// spread says of a curve that is uncertain where it is most: it is drawn for the givens as
// they are.
func (p *plot) spread(c *curve) []entry.Said {
	if !p.Planner.Unsure {
		return nil
	}
	x, y, good := make([]float64, spreadPlaces), make([]float64, spreadPlaces), make([]bool, spreadPlaces)
	for i := range x {
		x[i] = p.written(p.from + float64((p.to-p.from)*float64(i))/(spreadPlaces-1))
	}
	c.eval(x, y, good)
	off, most, at := p.off(c, x), 0.0, 0
	for i := range x {
		if u := off(i); good[i] && u > most {
			most, at = u, i
		}
	}
	v := p.UnsureIn(y[at], most, c.unit)
	if v.U == 0 {
		return nil
	}
	return []entry.Said{entry.Say("… is drawn without its uncertainty, which is greatest at … = …: ….",
		entry.Math(c.x), entry.Name(p.s.Against.Name), p.ValueIn(x[at], p.unit).Said(), v.Said())}
}
