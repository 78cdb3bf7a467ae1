package run

import (
	"cmp"

	"steelyard/lang/ops"
)

// arithmetic works on numbers of any domain, each of which is told by its place.
//
// What works on many of them, a list or the pieces between readings, is written by this, and
// is in the program once and not once for each domain.
type arithmetic interface {
	// of is a number that does not vary.
	of(v float64) int32
	// do is what an operation makes of two numbers. It may take the place of one that is
	// not needed any more; that is below 0 where there is none.
	do(op ops.Op, into, a, b int32, k float64) int32
	// still is the number of one that does not vary.
	still(n int32) (float64, bool)
}

// nowhere is the place of no number.
const nowhere = -1

// held are numbers of a domain by their places.
type held[N any, D domain[N]] struct {
	d   D
	all []N
	why ops.Fault // the first fault of an operation
}

// hold holds some numbers, and tells their places.
func hold[N any, D domain[N]](d D, list []N) (*held[N, D], []int32) {
	h := &held[N, D]{d: d, all: append(make([]N, 0, 2*len(list)+4), list...)}
	return h, (&span{0, int32(len(list))}).columns()
}

func (h *held[N, D]) of(v float64) int32 {
	h.all = append(h.all, h.d.of(v))
	return int32(len(h.all) - 1)
}

func (h *held[N, D]) do(op ops.Op, into, a, b int32, k float64) int32 {
	v, fault := h.d.apply(op, h.all[a], h.all[b], k)
	h.why = cmp.Or(h.why, fault)
	if into != nowhere {
		h.all[into] = v
		return into
	}
	h.all = append(h.all, v)
	return int32(len(h.all) - 1)
}

func (h *held[N, D]) still(n int32) (float64, bool) { return h.d.still(h.all[n]) }
