package run

import (
	"math"

	"steelyard/lang/ops"
)

// spread fills out with the standard uncertainties of a slot of the main code, which the
// instruction of an ops.Spread names. It is no arithmetic on the value: it is told by what
// the value came from, and does not vary with it.
func (w *walker[N, D]) spread(in *Instr, code *Code, fn *Func, i Slot, out []N) int32 {
	all, fault := w.p.spreads(w.st, code.Args[in.B], in.K == 1)
	if fault != ops.NoFault {
		return w.fail(fault, fn, i)
	}
	for e := range out {
		out[e] = w.d.of(all[min(e, len(all)-1)])
	}
	return 0
}

// leastSpread is below which part of a value an uncertainty is less than its rounding.
const leastSpread = 1e-14

// spreads are the standard uncertainties of the elements of a slot, or the sums of what the
// sources add to them. What was worked out from nothing uncertain has none, which is not 0.
func (p *Program) spreads(st *State, s Slot, added bool) ([]float64, ops.Fault) {
	if f := st.Failure(s); f.Kind != ops.NoFault {
		return nil, f.Kind
	}
	fault := ops.Sure
	all := p.Depends(st, s)
	if all == nil {
		return nil, ops.Stopped
	}
	out := make([]float64, len(all))
	for e, n := range all {
		if len(n.By) > 0 {
			fault = ops.NoFault
		}
		if out[e] = n.Uncertainty(); added {
			out[e] = n.Added()
		}
		switch {
		case out[e]-out[e] != 0:
			return nil, ops.NoSlope
		case out[e] < leastSpread*math.Abs(n.V):
			out[e] = 0
		}
	}
	return out, fault
}
