package run

import (
	"cmp"
	"slices"

	"steelyard/lang/ops"
)

// Moved is the instruction with its operands elsewhere: place says where each is.
// A list of them goes from one list to the end of another.
func (in Instr) Moved(from []Slot, to *[]Slot, place func(Slot) Slot) Instr {
	own := [...]*Slot{&in.A, &in.B, &in.C}
	for _, s := range own[:in.Op.Operands()] {
		*s = place(*s)
	}
	if in.Op.List() {
		list := make([]Slot, 0, in.C)
		for _, s := range from[in.B : in.B+in.C] {
			list = append(list, place(s)) // which may add to the other list
		}
		in.B = Slot(len(*to))
		*to = append(*to, list...)
	}
	return in
}

// reads calls note with every slot of its code that the instruction of one depends on.
//
// A power whose exponent has a name depends on that name, though its instruction holds the
// number alone.
func (c *Code) reads(s Slot, note func(Slot)) {
	in := &c.Instrs[s]
	if p, ok := c.Named(s); ok {
		note(p.Base)
		note(p.Exponent)
	}
	own := [...]Slot{in.A, in.B, in.C}
	for _, s := range own[:in.Op.Operands()] {
		note(s)
	}
	for _, s := range c.list(in) {
		note(s)
	}
}

// takes tells whether anything in a function depends on one of its arguments.
func (f *Func) takes(argument int) bool {
	is := func(s Slot) bool {
		in := &f.Code.Instrs[s]
		return in.Op == ops.Param && int(in.A) == argument
	}
	found := is(f.Result)
	for i := range f.Code.Instrs {
		f.Code.reads(Slot(i), func(s Slot) { found = found || is(s) })
	}
	return found
}

// list is the operands that an instruction has in the arguments of its code.
func (c *Code) list(in *Instr) []Slot {
	if !in.Op.List() || in.B < 0 || in.C < 0 || int(in.B)+int(in.C) > len(c.Args) {
		return nil
	}
	return c.Args[in.B : in.B+in.C]
}

// Reads finds what instructions of a program read. What functions load is looked
// for once.
// It is made for one question at a time: the functions of a program change with each
// line.
type Reads struct {
	p     *Program
	loads map[int][]Slot
}

// Reads returns what finds out what instructions read.
func (p *Program) Reads() Reads { return Reads{p, map[int][]Slot{}} }

// Main calls note with every slot of the main code that the instruction of one
// reads, itself or by the functions that it runs; one may come more than once.
func (r Reads) Main(s Slot, note func(Slot)) {
	r.p.Main.reads(s, note)
	for _, s := range r.loaded(&r.p.Main.Instrs[s]) {
		note(s)
	}
}

// Loads are the slots of the main code that a function loads, itself or by those
// that it runs, each once.
//
// It is noted before it is known, so that functions that call each other, in a program made by
// hand, would not go round.
func (r Reads) Loads(fn int) []Slot {
	known, ok := r.loads[fn]
	if ok || fn < 0 || fn >= len(r.p.Funcs) {
		return known
	}
	r.loads[fn] = nil
	var out []Slot
	seen := map[Slot]bool{}
	code := &r.p.Funcs[fn].Code
	for i := range code.Instrs {
		for _, s := range r.loaded(&code.Instrs[i]) {
			if !seen[s] {
				seen[s] = true
				out = append(out, s)
			}
		}
	}
	r.loads[fn] = out
	return out
}

// loaded are the slots of the main code that an instruction loads, itself or by
// the functions that it runs.
func (r Reads) loaded(in *Instr) []Slot {
	switch {
	case in.Op == ops.Load:
		return []Slot{in.A}
	case in.Op.Runs():
		return r.Loads(int(in.A))
	}
	var out []Slot
	r.runs(in, func(fn int) { out = append(out, r.Loads(fn)...) })
	return out
}

// runs calls note with each function that an instruction runs itself.
func (r Reads) runs(in *Instr, note func(fn int)) {
	switch {
	case in.Op.Runs():
		note(int(in.A))
	case in.Op == ops.Fit && r.p.Fits[in.A].Model >= 0:
		note(r.p.Fits[in.A].Model)
	case in.Op == ops.Solve && in.A >= 0 && int(in.A) < len(r.p.Solves):
		r.p.Solves[in.A].On(func(fn int) int {
			note(fn)
			return fn
		})
	}
}

// needs goes through the instructions of the main code that a slot was worked out from, from
// the last to the first, and on to what one of them reads where look says so.
//
// A slot is above all that reads it, so that going from the last to the first meets each once,
// after everything that needs it.
func (p *Program) needs(s Slot, look func(s Slot, in *Instr) (goOn bool)) {
	reads, from := p.Reads(), backward{s}
	for i := 0; i < len(from); i++ {
		if s := from[i]; look(s, &p.Main.Instrs[s]) {
			reads.Main(s, from.add)
		}
	}
}

// backward are slots from the last to the first, each once. Who goes through them may add
// what they read, which is above them.
type backward []Slot

// add puts a slot in its place. They are few, so that moving those behind it costs less than a
// heap would.
func (b *backward) add(s Slot) {
	if i, found := slices.BinarySearchFunc(*b, s, func(a, s Slot) int { return cmp.Compare(s, a) }); !found {
		*b = slices.Insert(*b, i, s)
	}
}
