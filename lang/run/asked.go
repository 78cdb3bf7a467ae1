package run

import (
	"slices"

	"steelyard/lang/limit"
	"steelyard/lang/ops"
)

// asked holds what is known of slots of the main code in some domain, as far as it has
// been asked for: a slot is worked out from those that it reads, and from no others. It
// is for domains that a line does not pay for until somebody asks. Kept with the values,
// it tells of the next line what it knows already.
type asked[N any, D domain[N]] struct {
	p  *Program
	st *State
	// d is the domain, which may hold these slots itself, to load them.
	d D
	// found is what is known of the elements of a slot that was looked for, and not worked
	// out step by step: an area, a slope, a root, a fit. It is nil for one of which nothing is known.
	found func(s Slot) []N
	// kept tells which instructions are found too, and never copied. It may be nil.
	kept func(s Slot) bool

	known [][]N         // by slot: nil of what is not known, empty where there is nothing to know
	runs  *walker[N, D] // whose frames serve one question after the other
	// failed says why the slot that was asked for last has no value.
	failed Failure
}

// at is the elements of a slot; none if it has no value.
//
// What was worked out on the way is kept, so that asking for every line of a page costs as much
// as one run of it.
func (m *asked[N, D]) at(s Slot) []N {
	if all, ok := m.knows(s); ok || s < 0 || s >= m.st.Len() {
		return all
	}
	if m.searched(s) {
		if all := m.found(s); m.st.causes[s] == 0 {
			m.learn(s, all)
		}
		all, _ := m.knows(s)
		return all
	}
	code, from := m.tail(s)
	n := Slot(len(code.Instrs))
	vals, causes := make([]N, code.column(n)), make([]int32, n)
	before := len(m.st.failures)
	w := m.walker()
	main, depth := w.main, w.depth
	w.depth = 0
	w.exec(&code, nil, vals, causes, 0, n, args[N]{})
	w.main, w.depth = main, depth
	if cause := int(causes[n-1]); cause > before {
		m.failed = m.st.failures[cause-1]
		m.failed.Slot = from[m.failed.Slot]
	}
	m.st.failures = m.st.failures[:before]
	for i, s := range from {
		if own := code.span(Slot(i)); causes[i] == 0 {
			m.learn(s, vals[own.first:own.first+own.width])
		}
	}
	all, _ := m.knows(s)
	return all
}

// knows is what is known of a slot by now.
func (m *asked[N, D]) knows(s Slot) ([]N, bool) {
	if s < 0 || int(s) >= len(m.known) {
		return nil, false
	}
	return m.known[s], m.known[s] != nil
}

// walker is what slots are run by. Running one may ask for another, which the same one runs
// then.
func (m *asked[N, D]) walker() *walker[N, D] {
	if m.runs == nil {
		w := newWalker[N](m.p, m.st, 0, m.d)
		m.runs = &w
	}
	m.runs.budget = m.st.budget()
	return m.runs
}

// learn notes what is known of a slot, unless the budget has ended: something may lack then.
func (m *asked[N, D]) learn(s Slot, all []N) {
	if m.st.budget().Ended() != limit.Going {
		return
	}
	if more := int(s) + 1 - len(m.known); more > 0 {
		m.known = append(m.known, make([][]N, more)...)
	}
	if m.known[s] = all; all == nil {
		m.known[s] = []N{}
	}
}

// forget forgets what is known of the slots from n on.
func (m *asked[N, D]) forget(n Slot) {
	if int(n) < len(m.known) {
		clear(m.known[n:])
		m.known = m.known[:n]
	}
}

// tail copies what a slot is worked out from, itself last, and tells which slots
// of the main code its own are. What is known, or was looked for, is loaded.
//
// It is a program of its own with no more in it, in the order of the lines.
func (m *asked[N, D]) tail(s Slot) (Code, []Slot) {
	main := &m.p.Main
	from := backward{s}
	for i := 0; i < len(from); i++ {
		if !m.loads(from[i]) {
			main.reads(from[i], from.add)
		}
	}
	slices.Reverse(from)
	local := func(s Slot) Slot {
		i, _ := slices.BinarySearch(from, s)
		return Slot(i)
	}
	out := Code{Instrs: make([]Instr, len(from))} // nobody asks for its text, or what is known of it
	if main.firsts != nil {
		out.firsts = make([]int32, len(from)+1) // lists stay lists
	}
	for i, s := range from {
		out.Instrs[i] = Instr{Op: ops.Load, A: s}
		if !m.loads(s) {
			out.Instrs[i] = main.Instrs[s].Moved(main.Args, &out.Args, local)
		}
		if out.firsts != nil {
			out.firsts[i+1] = out.firsts[i] + main.span(s).width
		}
	}
	return out, from
}

// loads tells whether a slot is loaded, not worked out again.
func (m *asked[N, D]) loads(s Slot) bool {
	_, ok := m.knows(s)
	return ok || m.searched(s)
}

// searched tells whether a slot is looked for, and not worked out step by step.
func (m *asked[N, D]) searched(s Slot) bool {
	in := &m.p.Main.Instrs[s]
	switch in.Op {
	case ops.Area, ops.Slope, ops.Solve, ops.Fit, ops.Spread:
		return true
	}
	return m.kept != nil && m.kept(s)
}

// load is what is known of an element of a slot that has a value.
func (m *asked[N, D]) load(s Slot, i int32, v float64) N {
	if all := m.at(s); int(i) < len(all) {
		return all[i]
	}
	return m.d.of(v)
}

// candidate is what is known of a root by the expression that it is the value of.
func (m *asked[N, D]) candidate(s *Solve, args []Slot, v float64) (n N, ok bool) {
	for _, a := range args {
		if all := m.at(a); !s.Searched && len(all) > 0 {
			if of, _ := m.d.still(all[0]); of == v {
				return all[0], true
			}
		}
	}
	return n, false
}

// rest is what is known of the difference of the sides at a root of one equation, and its
// slope there: by these the root is known as well, as the implicit function theorem says.
func (m *asked[N, D]) rest(s *Solve, v float64) (rest N, slope float64, ok bool) {
	if len(s.Differences) != 1 {
		return rest, 0, false
	}
	w := newWalker[N](m.p, m.st, 0, m.d)
	rest, ok = w.at(s.Differences[0], []N{m.d.of(v)})
	_, slope, steep := m.p.floats(m.st).slope(s.Differences[0], v)
	return rest, slope, ok && steep && slope != 0
}
