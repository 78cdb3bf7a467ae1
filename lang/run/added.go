package run

import (
	"math"

	"steelyard/lang/ops"
)

// AddedUp is the size of what a slot of the main code is added up from, in its
// own unit: about the rounding error of its value, divided by that of one
// number of its size. Slots below from count as exact to their last bit.
func (p *Program) AddedUp(st *State, s, from Slot) float64 {
	if s < from {
		return math.Abs(st.Vals[s])
	}
	size := make(map[Slot]float64)
	var of func(s Slot, depth int) float64
	of = func(s Slot, depth int) float64 {
		v := math.Abs(st.Vals[s])
		if s < from || depth > 400 {
			return v
		}
		if known, ok := size[s]; ok {
			return known
		}
		in := &p.Main.Instrs[s]
		out := v
		switch in.Op {
		case ops.Copy, ops.Neg, ops.Abs:
			out = of(in.A, depth+1)
		case ops.Add, ops.Sub:
			out = math.Max(of(in.A, depth+1), of(in.B, depth+1))
		case ops.Mul:
			out = math.Max(of(in.A, depth+1)*math.Abs(st.Vals[in.B]), of(in.B, depth+1)*math.Abs(st.Vals[in.A]))
		case ops.Div:
			if b := math.Abs(st.Vals[in.B]); b > 0 {
				out = math.Max(of(in.A, depth+1)/b, v*of(in.B, depth+1)/b)
			}
		case ops.Sqrt:
			a := of(in.A, depth+1)
			if out = math.Sqrt(a); v > 0 {
				out = math.Max(v, a/(2*v))
			}
		}
		size[s] = out
		return out
	}
	if out := of(s, 0); out-out == 0 {
		return out
	}
	return math.Abs(st.Vals[s])
}
