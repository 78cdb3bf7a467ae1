package plan

import (
	"steelyard/lang/run"
	"steelyard/units"
)

// A 0 without a unit is 0 of anything: `v = 0` may mean 0 m/s, and it is left open
// what it means until something says so. Each such 0 has a dimension of its own,
// an unknown by number; a static says with Open and Exp to which power of that
// unknown its dimension has come (√z has half of it). A sum, a check, an equation
// or the unit asked for settles the unknown, for every slot that has it: those
// planned before too, so that `z = 0`, `z + 3 m`, `z + 2 s` is a mistake in the
// third line. Two that are added are alike from then on. Two unknowns in one product are a
// third: nothing is known of that.

// zero is the undetermined dimension of one bare 0. Its first use settles it.
type zero struct {
	settled bool
	dim     units.Dim
	// open and exp are the zero that it is like, to which power, beside dim; 0 where its
	// dimension is known.
	open int32
	exp  units.Exp
	// fixedBy is the line whose use settled it.
	fixedBy int
	line    int // of the 0
}

// newZero returns the static of a bare 0.
func (p *Planner) newZero() run.Static {
	if len(p.zeros) == 0 {
		p.zeros = append(p.zeros, zero{}) // number 0 means none
	}
	p.zeros = append(p.zeros, zero{line: p.line})
	return run.Static{Open: int32(len(p.zeros) - 1), Exp: units.NewExp(1, 1), Width: 1}
}

// settledStatic returns a static with the dimension of its zero put in, as far as that
// is settled.
func (p *Planner) settledStatic(s run.Static) run.Static {
	for s.Open != 0 && p.zeros[s.Open].settled {
		z := &p.zeros[s.Open]
		d, e := s.Dim.Mul(z.dim.Pow(s.Exp)), s.Exp.Mul(z.exp)
		if d.Lost() || e.Lost() {
			break
		}
		s.Dim, s.Open, s.Exp = d, z.open, e
	}
	return s
}

// settle fixes the dimension of the zero in s so that s has dimension d. With s =
// S·u^e, the unknown is u = (d/S)^(1/e); where its exponents are beyond what a
// dimension holds, it stays open.
func (p *Planner) settle(s run.Static, d units.Dim) {
	dim := d.Div(s.Dim).Pow(s.Exp.Inv())
	if dim.Lost() {
		return
	}
	z := &p.zeros[s.Open]
	z.settled, z.dim, z.fixedBy = true, dim, p.line
	p.settled = append(p.settled, s.Open)
}

// agree makes two statics agree in dimension where a bare zero among them
// allows it, and tells whether they do. The dimension that both have then is
// returned.
//
// A mismatch that a bare zero could mend is none. So the order of the lines matters:
// the first that says something about the zero decides.
func (p *Planner) agree(a, b run.Static) (run.Static, bool) {
	a, b = p.settledStatic(a), p.settledStatic(b)
	switch {
	case a.Open == 0 && b.Open == 0:
		return a, a.Dim == b.Dim
	case a.Open != 0 && b.Open == 0:
		p.settle(a, b.Dim)
		return p.settledStatic(b), true
	case a.Open == 0:
		p.settle(b, a.Dim)
		return a, true
	}
	if a.Open == b.Open {
		return p.agreeSame(a, b)
	}
	p.alike(a, b)
	return p.settledStatic(a), true
}

// alike makes two zeros one, the later one what the earlier is: what settles that settles both.
// With S·u^e = T·w^f, u is (T/S)^(1/e)·w^(f/e).
func (p *Planner) alike(a, b run.Static) {
	if a.Open < b.Open {
		a, b = b, a
	}
	dim, exp := b.Dim.Div(a.Dim).Pow(a.Exp.Inv()), b.Exp.Mul(a.Exp.Inv())
	if dim.Lost() || exp.Lost() {
		return
	}
	p.zeros[a.Open] = zero{settled: true, dim: dim, open: b.Open, exp: exp, fixedBy: p.line, line: p.zeros[a.Open].line}
	p.settled = append(p.settled, a.Open)
}

// agreeSame makes two statics of one undetermined dimension agree: if its power
// differs between them, that settles it.
func (p *Planner) agreeSame(a, b run.Static) (run.Static, bool) {
	power, rest := a.Exp.Add(b.Exp.Neg()), b.Dim.Div(a.Dim)
	if power.Lost() || rest.Lost() || power.IsZero() {
		return a, power.IsZero() && rest.IsOne()
	}
	p.settle(run.Static{Open: a.Open, Exp: power}, rest)
	return p.settledStatic(a), true
}

// SettleTo makes a slot of the main code agree with a dimension, if a bare
// zero leaves it open.
func (p *Planner) SettleTo(s run.Slot, d units.Dim) run.Static { return p.coder("").settledTo(s, d) }

// settledTo is what is known of a slot that ought to have a dimension: a bare zero
// has it then, anything else what it had.
func (c *coder) settledTo(s run.Slot, d units.Dim) run.Static {
	st := c.static(s)
	if st.Open != 0 {
		c.p.settle(st, d)
		st = c.static(s)
	}
	return st
}
