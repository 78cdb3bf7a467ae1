package run

import (
	"math"

	"steelyard/lang/ops"
)

// Settle makes 0 of the value of a slot of the main code that lies within the
// bound of its own error: a residue of rounding, of what was written in decimals
// and of the factors of units. So it is within: the root of a residue is that of
// 0, and what is divided by one has no value. Slots below from have been settled
// before. Where nothing cancels, no bound is worked out.
func (p *Program) Settle(st *State, s, from Slot) {
	failed := st.Failure(s)
	doubtful := failed.Kind == ops.NoReal || failed.Kind == ops.LostAngle || failed.Kind == ops.NoFault && p.cancels(st, s, from)
	if failed.Slot < from || !doubtful {
		return
	}
	all, why := st.bounds(p).sure(s)
	st.forget(from) // of what was looked for, more is known from its value as it is set below
	switch {
	case all == nil && (why.Kind == ops.DivZero || why.Kind == ops.LostAngle || why.Kind == ops.NoReal):
		p.settleOperands(st, why.Slot, from)
		st.failures = append(st.failures, why)
		st.causes[s] = int32(len(st.failures))
		return
	case all == nil:
		return
	}
	st.causes[s] = 0
	vanishes := true
	for i, n := range all {
		st.vals[st.column(s)+i] = n.settled()
		vanishes = vanishes && n.v == 0
	}
	if vanishes {
		st.bounded.learn(s, all)
	}
}

// settleOperands settles what an operation of the line was to work on that failed, so that it
// is told as it is: ln of 0, and not of the residue that is left of it.
func (p *Program) settleOperands(st *State, s, from Slot) {
	if in := &p.Main.Instrs[s]; in.Op.Operands() > 0 && in.A >= from {
		p.Settle(st, in.A, from)
	}
}

// Settling settles values of a function of one number, as Settle does those of lines.
type Settling struct {
	fn     int
	bounds *boundWalker
	digits walker[precise, digits]
}

// Settling is nil for a function in which nothing can cancel.
func (p *Program) Settling(st *State, fn int) *Settling {
	if !p.Funcs[fn].holds(p, decides) {
		return nil
	}
	w := p.floats(st).bounds(exact)
	return &Settling{fn, w, newWalker[precise](p, st, 0, digits{newMainDigits(w.d.main)})}
}

// Drawn is the value at a point of a drawing, 0 where that lies within the bound of its error;
// false if it has none.
func (s *Settling) Drawn(x float64) (float64, bool) {
	n, ok := s.bounds.boundAt(s.fn, []float64{x}, exact, 0)
	return n.settled(), ok
}

// Read is the value v at a place that is read, if it is one, as a line has it that is entered
// with that place. One that nobody would write, as three quarters of a period, is off by some
// roundings.
func (s *Settling) Read(x, v float64, has bool) (float64, bool) {
	if n, ok := s.bounds.boundAt(s.fn, []float64{x}, exact, 0); ok && has && !n.doubtful() {
		return v, has
	}
	at := simplest(ops.Point(x))
	if at.off == 0 {
		at.off = fewRoundings * math.Abs(x)
	}
	switch n, ok := s.digits.at(s.fn, []precise{at}); {
	case ok && n.off-n.off == 0:
		return n.float(), true
	case !ok && (s.digits.why == ops.DivZero || s.digits.why == ops.NoReal || s.digits.why == ops.LostAngle):
		return 0, false
	}
	return v, has
}

// residuePlaces are the places of a range at which a curve is asked what it is
// added up from.
const residuePlaces = 9

// Residue is below what size a value of a curve over a range is looked at for being
// 0 but for its error; 0 for a curve in which nothing cancels.
func (p *Program) Residue(st *State, fn int, from, to float64) float64 {
	if !p.Funcs[fn].adds(p) {
		return 0
	}
	w, most := p.floats(st).bounds(exact), 0.0
	for i := range residuePlaces {
		x := from + float64((to-from)*float64(i))/(residuePlaces-1)
		if n, ok := w.boundAt(fn, []float64{x}, exact, 0); ok && n.e-n.e == 0 {
			most = max(most, n.e)
		}
	}
	return 4 * most
}

// Off is how far each element of a slot of the main code may be off: the bound of
// its error, in coherent SI units. It is 0 if the slot has no value.
func (p *Program) Off(st *State, s Slot) []float64 {
	out := []float64{0}
	all, _ := st.bounds(p).sure(s)
	for i, n := range all {
		if i > 0 {
			out = append(out, 0)
		}
		if n.e-n.e == 0 {
			out[i] = n.e
		}
	}
	return out
}

// AddedUp is the size of what a slot of the main code is added up from, in its
// own unit: the bound of its value's error, divided by that of one number of
// its size.
func (p *Program) AddedUp(st *State, s Slot) float64 {
	size := math.Abs(st.At(s))
	if all := st.bounds(p).at(s); len(all) > 0 && all[0].e-all[0].e == 0 {
		size = max(size, all[0].e/exact)
	}
	return size
}

// small is how small the result of a sum must be, as a part of what it is added
// up from, to be looked at for a residue: even after three that are larger more figures are
// left than are shown.
const small = 1e-3

// alongside is how far the places are at which the slopes beside another are looked at, and how
// great a part of those may be rounding.
const alongside = 1e-6

// steep is how steep an operation is whose result may be off by more than is shown as it is,
// where its operand was rounded a few times.
const steep = kept / fewRoundings

// cancels tells whether some instruction may have left a residue in the slots
// from ≤ i ≤ s.
func (p *Program) cancels(st *State, s, from Slot) bool {
	for i := from; i <= s; i++ {
		in := &p.Main.Instrs[i]
		switch _, together := in.Op.Elements(0); {
		case in.Op == ops.Slope, in.Op == ops.Call && p.Funcs[in.A].holds(p, decides):
			return true
		case !in.Op.Cancels() && in.Op != ops.Pow && in.Op != ops.PowVar:
		case st.steepness(in) > steep, in.Op.Cancels() && (together || st.residue(in, i)):
			return true
		}
	}
	return false
}

// steepness is how many times its part of itself the operand of a power or a sine may be off
// that is the part of the result; 0 of others.
func (st *State) steepness(in *Instr) float64 {
	inverse, _ := in.Op.Inverse()
	switch {
	case in.Op == ops.Pow:
		return math.Abs(in.K)
	case in.Op == ops.PowVar && st.causes[in.B] == 0:
		return math.Abs(st.At(in.B))
	case inverse.Turns && st.causes[in.A] == 0:
		return math.Abs(st.At(in.A))
	}
	return 0
}

// residue tells whether an element of a slot is so small beside what it was worked out from
// that rounding may have left it. A 0 may hide as much as its terms were off by. Of several of
// which one has no value the others are not looked at here.
func (st *State) residue(in *Instr, s Slot) bool {
	if st.causes[s] != 0 {
		return st.span(s).width > 1
	}
	for e, v := range st.Elements(s) {
		size := 1.0
		if in.Op.Operands() == 2 {
			size = max(math.Abs(st.vals[st.span(in.A).at(int32(e))]), math.Abs(st.vals[st.span(in.B).at(int32(e))]))
		}
		if math.Abs(v) < small*size {
			return true
		}
	}
	return false
}

// adds tells whether a function holds an operation whose terms may cancel.
func (f *Func) adds(p *Program) bool {
	return f.holds(p, func(_ *Code, in *Instr) bool { return in.Op.Cancels() || in.Op == ops.Slope })
}

// decides tells whether what terms may leave when they cancel can matter to a function: in its
// value, or in the interval that is taken.
func decides(_ *Code, in *Instr) bool {
	return in.Op.Cancels() || in.Op == ops.Slope || in.Op == ops.Less || in.Op == ops.AtMost
}

// mainBounds holds the bounds of slots of the main code, as far as they have been
// asked for.
type mainBounds struct {
	asked[bounded, bounds]
	digits *mainDigits // nil until one is doubtful
	// residue tells that an operation has met a number that is 0 but for its error.
	residue bool
}

// forget forgets what is known of the slots from n on.
func (m *mainBounds) forget(n Slot) {
	if m.asked.forget(n); m.digits != nil {
		m.digits.forget(n)
	}
}

// bounds is what the state knows of them.
func (st *State) bounds(p *Program) *mainBounds {
	if st.bounded == nil || st.bounded.p != p || st.bounded.st != st {
		m := &mainBounds{}
		m.asked = asked[bounded, bounds]{p: p, st: st, d: bounds{given: exact, main: m}, found: m.found}
		st.bounded = m
	}
	return st.bounded
}

// found is how far what was looked for may be off: an area, a slope, a root.
func (m *mainBounds) found(s Slot) []bounded {
	in := &m.p.Main.Instrs[s]
	v := m.st.At(s)
	off := exact * math.Abs(v)
	switch in.Op {
	case ops.Slope:
		off = m.offSlope(in, v)
	case ops.Solve:
		off = m.offRoot(m.p.Solves[in.A], m.p.Main.list(in), v)
	}
	return []bounded{{v, off}}
}

// offRoot is how far a root may be off: as its expression is, or as far as the
// equation stays within its own error.
func (m *mainBounds) offRoot(s *Solve, args []Slot, v float64) float64 {
	if n, ok := m.candidate(s, args, v); ok {
		return n.e
	}
	off := 4 * exact * math.Abs(v)
	if len(s.Differences) > 1 {
		return max(off, 1e-12*math.Abs(v))
	}
	rest, slope, ok := m.rest(s, v)
	if e := rest.e / math.Abs(slope); ok && e-e == 0 {
		return max(off, e)
	}
	return off
}

// offSlope is how far a slope may be off: the enclosure of the slopes where every
// number may be off by a rounding. At a seam, as that of min(x, sin(x)) at 0, that is
// as much as the slopes around, and says nothing.
func (m *mainBounds) offSlope(in *Instr, v float64) float64 {
	w := &intervalWalker{walker: newWalker[enclosed](m.p, m.st, 0, intervals{exact})}
	var given []enclosed
	for _, a := range m.p.Main.list(in) {
		given = append(given, w.d.of(m.st.At(a)))
	}
	if len(given) == 0 {
		return 0
	}
	given[0].d = ops.Point(1)
	out, ok := w.at(int(in.A), given)
	e := max(out.d.Hi-v, v-out.d.Lo)
	if !ok || e-e != 0 {
		return 0
	}
	own, x := m.p.floats(m.st), given[0].v.Middle()
	h := alongside * max(math.Abs(x), own.placeScale(int(in.A)))
	for _, at := range [2]float64{x - h, x + h} {
		var still []float64
		for _, n := range given[1:] {
			still = append(still, n.v.Middle())
		}
		if _, slope, ok := own.slope(int(in.A), at, still...); ok && e <= alongside*math.Abs(slope) {
			return e
		}
	}
	return 0
}
