package run

import (
	"math"

	"steelyard/lang/ops"
)

// Uncertain is the instruction of a number that was written with its standard
// uncertainty, in coherent SI units.
func Uncertain(v, u float64) Instr {
	in := Written(v, u, 0)
	in.A = uncertain
	return in
}

// uncertain marks a constant of which B and C hold the standard uncertainty.
const uncertain Slot = -1

// Uncertainty is the standard uncertainty of a written number; 0 of one without.
func (in *Instr) Uncertainty() float64 {
	if in.Op != ops.Const || in.A != uncertain {
		return 0
	}
	return in.bits()
}

// Unsure is a value with what it depends on: by how much it changes with each of the
// numbers that were written with an uncertainty, to first order (JCGM 100:2008, clause
// 5). A number that is used twice is one source, so that x - x depends on nothing.
type Unsure struct {
	V  float64
	By []Part
}

// Part is the slope of a value by one source.
type Part struct {
	Of    *Instr
	Slope float64
}

// Contribution is how much of the value's standard uncertainty comes from a source.
func (p Part) Contribution() float64 { return float64(p.Slope * p.Of.Uncertainty()) }

// Uncertainty is the combined standard uncertainty: the root of the sum of the squares of
// the contributions, as the sources don't depend on each other (JCGM 100:2008, 5.1.2).
func (n Unsure) Uncertainty() float64 {
	sum := 0.0
	for _, p := range n.By {
		sum = math.Hypot(sum, p.Contribution())
	}
	return sum
}

// Minus is the difference of two values.
func (n Unsure) Minus(o Unsure) Unsure {
	d := n.plus(-1, o.By)
	d.V = n.V - o.V
	return d
}

// plus adds the parts of another value, each times a factor.
func (n Unsure) plus(factor float64, other []Part) Unsure {
	out := make([]Part, len(n.By), len(n.By)+len(other))
	copy(out, n.By)
next:
	for _, p := range other {
		p.Slope = float64(factor * p.Slope)
		for i := range out {
			if out[i].Of == p.Of {
				out[i].Slope += p.Slope
				continue next
			}
		}
		out = append(out, p)
	}
	return Unsure{n.V, out}
}

// unsure is the domain of values with what they depend on. It holds what is known of the
// main code.
type unsure struct{ main *mainUnsure }

func (unsure) of(v float64) Unsure { return Unsure{V: v} }

func (d unsure) constant(in *Instr) Unsure {
	if in.Uncertainty() == 0 {
		return d.of(in.K)
	}
	return Unsure{in.K, []Part{{in, 1}}}
}

func (d unsure) load(s Slot, i int32, v float64) Unsure {
	if all := d.main.at(s); int(i) < len(all) {
		return all[i]
	}
	return d.of(v)
}

func (unsure) apply(op ops.Op, a, b Unsure, k float64) (Unsure, ops.Fault) {
	v, fault := floats{}.apply(op, a.V, b.V, k)
	out := Unsure{V: v}
	if fault != ops.NoFault || len(a.By) == 0 && (op.Operands() < 2 || len(b.By) == 0) {
		return out, fault
	}
	da, db := op.Slopes(a.V, b.V, k)
	if len(a.By) > 0 {
		out = out.plus(da, a.By)
	}
	if op.Operands() == 2 && len(b.By) > 0 {
		out = out.plus(db, b.By)
	}
	return out, fault
}

func (unsure) branch(condition Unsure) (yes, no bool) { return floats{}.branch(condition.V) }

func (unsure) either(a, _ Unsure) Unsure { return a }

func (unsure) still(n Unsure) (float64, bool) { return n.V, true }

func (d unsure) slopeOf([]Unsure, func([]Unsure) (Unsure, bool)) (Unsure, ops.Fault) {
	return d.unknown()
}

func (unsure) unknown() (Unsure, ops.Fault) { return Unsure{}, ops.NoFault }

func (unsure) steps() int64 { return 5 }

// mainUnsure holds what slots of the main code depend on, as far as that has been asked
// for.
type mainUnsure struct{ asked[Unsure, unsure] }

// Unsure returns what finds on which sources the elements of slots of the main code
// depend; there are none of a slot without a value.
func (p *Program) Unsure(st *State) func(s Slot) []Unsure {
	m := &mainUnsure{}
	m.asked = asked[Unsure, unsure]{p: p, st: st, d: unsure{m}, found: m.found,
		kept: func(in *Instr) bool { return in.Uncertainty() != 0 }}
	return m.at
}

// found is what a source, a root, a slope or an area depends on.
func (m *mainUnsure) found(s Slot) (Unsure, bool) {
	in, v := &m.p.Main.Instrs[s], m.st.At(s)
	switch in.Op {
	case ops.Const:
		return m.d.constant(in), true
	case ops.Solve:
		if n, ok := m.root(m.p.Solves[in.A], m.p.Main.list(in), v); ok {
			return n, true
		}
	case ops.Fit:
		return m.fit(s, in, v), true
	}
	return m.byRunning(s, v, func(*Instr) bool { return true }), true
}

// root is what a root depends on: by its expression, or by -f_p/f_x, the implicit function
// theorem, for a root of f that was searched for.
func (m *mainUnsure) root(s *Solve, args []Slot, v float64) (Unsure, bool) {
	if !s.Searched {
		for _, a := range args {
			if all := m.at(a); len(all) > 0 && all[0].V == v {
				return all[0], true
			}
		}
	}
	if len(s.Differences) != 1 {
		return Unsure{}, false
	}
	w := newWalker[Unsure](m.p, m.st, 0, m.d)
	rest, ok := w.at(s.Differences[0], []Unsure{{V: v}})
	_, slope, steep := m.p.floats(m.st).slope(s.Differences[0], v)
	if !ok || !steep || slope == 0 {
		return Unsure{}, false
	}
	return Unsure{V: v}.plus(-1/slope, rest.By), true
}

// aside is by how great a part of its uncertainty a source is moved where a slope is told
// from values on both sides of it.
const aside = 0x1p-6

// byRunning is what a value depends on that no rule of slopes reaches: all of the program
// runs again with each source, of those that count, a little less and a little more.
func (m *mainUnsure) byRunning(s Slot, v float64, counts func(*Instr) bool) Unsure {
	out := Unsure{V: v}
	codes := []*Code{&m.p.Main}
	for _, f := range m.p.Funcs {
		codes = append(codes, &f.Code)
	}
	for _, code := range codes {
		for i := range code.Instrs {
			in := &code.Instrs[i]
			u := in.Uncertainty()
			if u == 0 || code == &m.p.Main && Slot(i) > s || !counts(in) {
				continue
			}
			was, h := in.K, aside*u
			values := [2]float64{}
			ok := true
			for k, side := range [2]float64{-h, h} {
				in.K = was + side
				st := &State{Budget: m.st.Budget}
				m.p.Run(st, 0, s+1)
				var has bool
				values[k], has = st.Value(s)
				ok = ok && has
			}
			in.K = was
			if slope := (values[1] - values[0]) / (2 * h); ok && slope != 0 {
				out.By = append(out.By, Part{in, slope})
			}
		}
	}
	return out
}
