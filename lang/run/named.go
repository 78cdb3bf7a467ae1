package run

import (
	"cmp"
	"slices"

	"steelyard/lang/ops"
)

// NamedPower says what a power came from whose exponent is the name of a given. The plan
// holds the value of the exponent, since the unit of the power depends on it: so what varies
// the given must see here that the power depends on it.
type NamedPower struct {
	Base, Exponent Slot
	slot           Slot // of the power
}

// NamePower records that a slot, which comes after those recorded so far, is a power whose
// exponent has a name.
func (c *Code) NamePower(s Slot, p NamedPower) {
	p.slot = s
	c.named = append(c.named, p)
}

// Named is what a slot is a power of, if its exponent has a name.
//
// Few codes have any, so that most ask no further.
func (c *Code) Named(s Slot) (NamedPower, bool) {
	if len(c.named) == 0 {
		return NamedPower{}, false
	}
	i, ok := slices.BinarySearchFunc(c.named, s, func(p NamedPower, s Slot) int { return cmp.Compare(p.slot, s) })
	if !ok {
		return NamedPower{}, false
	}
	return c.named[i], true
}

// ExponentOf is the slot of the main code that has the exponent of a power, in the main code
// or in a function, which loads it.
func (c *Code) ExponentOf(p NamedPower) Slot {
	if in := &c.Instrs[p.Exponent]; in.Op == ops.Load {
		return in.A
	}
	return p.Exponent
}

// Varying is the power with an exponent that varies.
func (p NamedPower) Varying() Instr { return Instr{Op: ops.PowVar, A: p.Base, B: p.Exponent} }

// Varying is a function in which the powers whose exponents vary take any; the same one where
// none does. Varies is asked with what is known of the base of each, and the slot of the main
// code that has its exponent.
//
// A function is shared by all that call it, so it is never changed in place: only its codes
// that differ are made anew.
func (f *Func) Varying(varies func(base Static, exponent Slot) bool) *Func {
	out := f
	for _, p := range f.Code.named {
		if !varies(f.Code.Statics[p.Base], f.Code.ExponentOf(p)) {
			continue
		}
		if out == f {
			anew := *f
			anew.Code.Instrs, anew.Code.named = slices.Clone(f.Code.Instrs), slices.Clone(f.Code.named)
			out = &anew
		}
		out.Code.Instrs[p.slot] = p.Varying()
		out.Code.named = slices.DeleteFunc(out.Code.named, func(q NamedPower) bool { return q.slot == p.slot })
	}
	return out
}

// varying is the program with such functions, where some slots of the main code vary.
//
// Only what has no unit can be raised to an exponent that varies: the unit of any other would
// vary with it.
func (p *Program) varying(slots []Slot) *Program {
	out := p
	for i, f := range p.Funcs {
		anew := f.Varying(func(base Static, exponent Slot) bool {
			return slices.Contains(slots, exponent) && (base.Open != 0 || base.Dim.IsOne())
		})
		if anew == f {
			continue
		}
		if out == p {
			with := *p
			with.Funcs = slices.Clone(p.Funcs)
			out = &with
		}
		out.Funcs[i] = anew
	}
	return out
}

// FixesUnit tells whether a slot is the exponent of a power that another one was worked out
// from and that has a unit by it; pure tells what has none.
//
// A graph of x^n over n, for a length x, has no unit that its axis could be in.
func (p *Program) FixesUnit(by, of Slot, pure func(Static) bool) bool {
	found, seen := false, map[int]bool{}
	look := func(c *Code, s Slot) {
		if power, named := c.Named(s); named && c.ExponentOf(power) == by {
			found = found || !pure(c.Statics[power.Base])
		}
	}
	reads := p.Reads()
	var within func(fn int)
	within = func(fn int) {
		if seen[fn] {
			return
		}
		seen[fn] = true
		c := &p.Funcs[fn].Code
		for i := range c.Instrs {
			look(c, Slot(i))
			reads.runs(&c.Instrs[i], within)
		}
	}
	p.needs(of, func(s Slot, in *Instr) bool {
		look(&p.Main, s)
		reads.runs(in, within)
		return true
	})
	return found
}
