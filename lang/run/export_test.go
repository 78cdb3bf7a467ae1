package run

import "steelyard/lang/ops"

// Enclose runs a function of one number over an interval: its values and its
// slopes lie within those returned. None tells that no number of the interval
// has a value; partly, that nothing follows from the slopes.
func (p *Program) Enclose(st *State, fn int, x ops.Interval) (values, slopes ops.Interval, none, partly bool) {
	n, some := p.intervals(st).over(fn, x)
	return n.v, n.d, !some, n.partly
}
