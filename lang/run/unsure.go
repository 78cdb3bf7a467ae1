package run

import (
	"math"
	"slices"

	"steelyard/lang/limit"
	"steelyard/lang/ops"
)

// traces is the domain of numbers that are kept on a tape. It holds what is known of the
// main code.
//
// It is a domain like plain numbers, so that the walker that works a line out also tells
// what the line depends on, through calls and selections, with no rules of its own.
type traces struct{ main *mainUnsure }

func (traces) of(v float64) traced { return traced{v: v} }

func (d traces) constant(in *Instr) traced { return d.of(in.K) }

func (d traces) load(s Slot, i int32, v float64) traced {
	return d.main.load(s, i, v)
}

func (d traces) apply(op ops.Op, a, b traced, k float64) (traced, ops.Fault) {
	v, fault := floats{}.apply(op, a.v, b.v, k)
	if op.Operands() < 2 {
		b.at = 0
	}
	span := a.span && op == ops.Div || op == ops.Mul && (a.span && b.at == 0 || b.span && a.at == 0)
	if span || fault != ops.NoFault {
		return traced{v: v, span: span}, fault
	}
	return d.main.tape.add(made{op: op, a: a.at, b: b.at, va: a.v, vb: b.v, k: k}, v), fault
}

// branch leaves both branches open where the condition depends on a source, for either to
// take the one that it is.
func (d traces) branch(condition traced) (yes, no bool) {
	yes, no = floats{}.branch(condition.v)
	return yes || condition.at != 0, no || condition.at != 0
}

func (d traces) either(of, a, b traced) traced {
	if yes, _ := (floats{}).branch(of.v); !yes {
		a, b = b, a
	}
	// The slope is that of the branch that is taken. The other is kept as a leap: it is how far
	// the value is off if the condition goes the other way.
	return d.main.tape.add(made{op: ops.Select, a: a.at, b: of.at, k: b.v - a.v}, a.v)
}

func (traces) still(n traced) (float64, bool) { return n.v, true }

func (traces) unknown() (traced, ops.Fault) { return traced{}, ops.NoFault }

func (traces) steps() int64 { return 5 }

// mainUnsure holds how slots of the main code were made from sources, as far as that has
// been asked for.
type mainUnsure struct {
	asked[traced, traces]
	tape tape
}

// unsureIn is what is known of a state; what has been asked once is kept in it.
func (p *Program) unsureIn(st *State) *mainUnsure {
	if m := st.unsure; m != nil && m.p == p && m.st == st {
		return m
	}
	m := &mainUnsure{}
	m.asked = asked[traced, traces]{p: p, st: st, d: traces{m}, found: m.found, kept: m.keeps}
	st.unsure = m
	return m
}

// Depends finds on which sources the elements of a slot of the main code depend; nil of
// one without a value.
func (p *Program) Depends(st *State, s Slot) []Unsure {
	m := p.unsureIn(st)
	out := m.unsure(s)
	if st.budget().Ended() != limit.Going {
		st.unsure = nil // what was found meanwhile may lack something
		return nil
	}
	return out
}

// keeps tells what is not worked out step by step: sources, calls of functions that
// search, and what is left of a sum of numbers that are certain, of which it may be 0.
//
// A root, a slope or an area is found by trying places, of which the last digits are noise.
// How it depends on sources is known by a rule of its own, or by moving those.
func (m *mainUnsure) keeps(s Slot) bool {
	switch in := &m.p.Main.Instrs[s]; in.Op {
	case ops.Scatter:
		return true
	case ops.Call:
		return m.p.Funcs[in.A].Searches(m.p)
	case ops.Add, ops.Sub:
		return m.st.residue(in, s) && len(m.sources(s)) == 0
	}
	return slices.ContainsFunc(m.p.constants(s), func(in Instr) bool { return in.Uncertainty() != 0 })
}

// Searches tells whether a function runs a slope, an area or a search for roots, itself or
// by those that it calls.
func (f *Func) Searches(p *Program) bool {
	return f.holds(p, func(_ *Code, in *Instr) bool { return in.Op == ops.Slope || in.Op == ops.Area || in.Op == ops.Solve })
}

// found is how a source, a root, a slope, an area or the call of one was made.
func (m *mainUnsure) found(s Slot) []traced {
	in := &m.p.Main.Instrs[s]
	switch in.Op {
	case ops.Const, ops.Data:
		return m.written(s)
	case ops.Scatter:
		return []traced{m.scatter(s)}
	case ops.Solve:
		if n, ok := m.root(m.p.Solves[in.A], m.p.Main.list(in), m.st.At(s)); ok {
			return []traced{n}
		}
	case ops.Fit:
		return m.byMoving(s, m.fitted(in))
	case ops.Add, ops.Sub:
		out := m.still(s)
		known, _ := m.st.bounds(m.p).sure(s)
		for i, n := range known {
			out[i].v = n.settled()
		}
		return out
	case ops.Spread:
		out := m.still(s)
		for i := range out {
			out[i].span = true
		}
		return out
	}
	return m.byMoving(s, m.sources(s))
}

// still are the values of a slot that depends on no source.
func (m *mainUnsure) still(s Slot) []traced {
	var out []traced
	for _, v := range m.st.Elements(s) {
		out = append(out, traced{v: v})
	}
	return out
}

// written are the numbers of a slot that were written down, of which some are sources.
func (m *mainUnsure) written(s Slot) []traced {
	list := m.p.constants(s)
	out := make([]traced, len(list))
	for i := range list {
		if out[i].v = list[i].K; list[i].Uncertainty() != 0 {
			out[i] = m.tape.source(Part{Source: Source{s, int32(i)}, U: list[i].Uncertainty()}, list[i].K)
		}
	}
	return out
}

// root is how a root was made: by its expression, or by -f_p/f_x, the implicit function
// theorem, for a root of f that was searched for.
//
// If f(x, p) = 0, a change of p moves x by -f_p/f_x. f_x is known from the search, and f_p is
// what the remainder depends on, at the root.
func (m *mainUnsure) root(s *Solve, args []Slot, v float64) (traced, bool) {
	if n, ok := m.candidate(s, args, v); ok {
		return n, true
	}
	if m.p.Funcs[s.Differences[0]].Searches(m.p) {
		return traced{}, false
	}
	rest, slope, ok := m.rest(s, v)
	if !ok {
		return traced{}, false
	}
	return m.rough(m.tape.scaled(rest, -1/slope, v)), true
}

// unsure is what the elements of a slot depend on.
func (m *mainUnsure) unsure(s Slot) []Unsure {
	all := m.at(s)
	out := make([]Unsure, len(all))
	for i, n := range all {
		if out[i] = m.tape.unsure(n); !m.st.budget().Spend(int64(len(out[i].By))) {
			return nil
		}
	}
	return out
}

// rough is a value of which the slopes are known at its place alone.
//
// How it bends is not known, so that it is looked at more closely (Doubt).
func (m *mainUnsure) rough(n traced) traced {
	return m.tape.add(made{op: ops.Copy, a: n.at, va: n.v, rough: true}, n.v)
}

// aside is by how great a part of its uncertainty a source is moved where a slope is told
// from values on both sides of it.
const aside = 0x1p-6

// byMoving is how values were made that no rule of slopes reaches: they are worked out
// again with each of some sources a little less and a little more.
//
// The difference over both sides has an error of the third order alone; a step of 1/64 of
// the uncertainty keeps that small and is still far above rounding.
func (m *mainUnsure) byMoving(s Slot, sources []Part) []traced {
	out := m.still(s)
	x := m.shift(s, sources)
	if x == nil {
		return out
	}
	for from := 0; from < len(sources); from += blockLanes / 2 {
		some := sources[from:min(from+blockLanes/2, len(sources))]
		x.reset()
		for i, p := range some {
			x.aside(p, i)
		}
		x.run(2 * len(some))
		for e := range out {
			for i, p := range some {
				slope := x.slope(p, i, e)
				if part := m.tape.scaled(m.at(p.Slot)[p.Element], slope, 0); slope != 0 {
					out[e] = m.tape.add(made{op: ops.Add, a: out[e].at, b: part.at}, out[e].v)
				}
			}
		}
	}
	for e, n := range out {
		out[e] = m.rough(n)
	}
	return out
}

// sources are those that a slot may depend on, in their order.
//
// They come in the order of their slots, so that the same page names them alike each time.
func (m *mainUnsure) sources(s Slot) []Part {
	var out []Part
	m.p.needs(s, func(s Slot, in *Instr) (goOn bool) {
		switch {
		case in.Op == ops.Const, in.Op == ops.Data:
			for i, one := range m.p.constants(s) {
				if u := one.Uncertainty(); u != 0 {
					out = append(out, Part{Source: Source{s, int32(i)}, U: u})
				}
			}
		case in.Op == ops.Scatter:
			if n := m.scatter(s); n.at != 0 {
				out = append(out, m.tape.sources[m.tape.made[n.at].a])
			}
		case in.Op == ops.Spread:
		case in.Op == ops.Fit: // what each point has of its own is in the scatter of the parameter
			out = append(out, m.fitted(in)...)
		default:
			return true
		}
		return false
	})
	slices.SortFunc(out, func(p, q Part) int { return p.compare(q.Source) })
	return slices.CompactFunc(out, func(p, q Part) bool { return p.Source == q.Source })
}

// Doubt is what speaks against uncertainties to first order.
//
// First order is what everyone works out by hand. Where a value bends within its uncertainty,
// as the square of what is near 0 does, that is wrong by more than it says, and the page says
// so.
type Doubt struct {
	// Beyond is how far a value moves beyond what its slopes say, with all of its sources one
	// standard uncertainty off; 0 where that is less than half of its uncertainty.
	Beyond float64
	// Lacks tells that for some of those there is no value.
	Lacks bool
}

// doubtLanes are the ways in which the sources are off together, one way or the other.
const doubtLanes = 8

// Doubt tells whether the slopes of a slot say how its values spread. Few lines are looked at
// closely: those in which some operation goes far beyond its slopes.
//
// With three sources there are eight corners to which all of them can be off together, with
// thirty a billion. Eight lanes are run for any number: the signs are those of a Hadamard
// matrix, so that every two of the first seven are off the same way in half of the lanes and
// different ways in the rest, and what two of them do together is seen.
func (p *Program) Doubt(st *State, s Slot, of []Unsure) Doubt {
	bent := func(n Unsure) bool { return len(n.By) > 0 && !(n.bent <= n.Uncertainty()/4) }
	if !slices.ContainsFunc(of, bent) {
		return Doubt{}
	}
	m := p.unsureIn(st)
	sources := m.sources(s)
	x := m.shift(s, sources)
	if x == nil {
		return Doubt{}
	}
	x.reset()
	off, factors := make([][doubtLanes]float64, len(sources)), latent(sources)
	for lane := range doubtLanes {
		for i, source := range sources {
			for _, f := range factors[i] {
				off[i][lane] += float64(f.by * way(f.of, lane))
			}
			x.move(source.Source, lane, off[i][lane])
		}
	}
	x.run(doubtLanes + 1) // the last one as it is
	out, rounded := Doubt{}, p.Off(st, s)
	for e, n := range of {
		squares, most := 0.0, 0.0
		for lane := range doubtLanes {
			v := x.out[e][lane]
			out.Lacks = out.Lacks || v-v != 0
			beyond := v - x.out[e][doubtLanes]
			for _, p := range n.By {
				i, _ := slices.BinarySearchFunc(sources, p.Source, func(q Part, s Source) int { return q.compare(s) })
				beyond -= float64(off[i][lane] * p.Slope)
			}
			squares, most = squares+float64(beyond*beyond), max(most, math.Abs(beyond))
		}
		rounding := max(16*rounded[min(e, len(rounded)-1)], Near*math.Abs(n.V))
		if n.bent-n.bent == 0 {
			rounding = max(rounding, 1e-6*n.bent) // of what cancels
		}
		if u := n.apart(); math.Sqrt(squares/doubtLanes) > max(u/2, rounding) {
			out.Beyond = max(out.Beyond, most)
		}
	}
	return out
}

// way is to which side a source is off in a lane: any two of seven are on different sides in
// half of the lanes.
func way(source, lane int) float64 {
	way := 1.0
	for both := (source + 1) & lane; both != 0; both &= both - 1 {
		way = -way
	}
	return way
}
