package plan

import (
	"slices"

	"steelyard/lang/run"
)

// Mark is a place to which a planner can be cut back, so that a line can be
// planned on trial.
//
// All that a plan adds grows at an end: lists get longer, and maps get names that no
// one had. So a place is a handful of lengths, and going back is cutting. What an
// entry of a list says is changed in one way only, when a zero is settled, and those
// are listed too.
type Mark struct {
	that, gravity        *Def
	instrs, args, funcs  int32
	solves, data, fits   int32
	names                int32
	zeros, settled       int32
	plans, loaded, units int32
	part                 int32
}

// Mark returns the present place.
func (p *Planner) Mark() Mark {
	main := &p.Program.Main
	return Mark{
		instrs: int32(len(main.Instrs)), args: int32(len(main.Args)), funcs: int32(len(p.Program.Funcs)), solves: int32(len(p.Program.Solves)), data: int32(len(p.Program.Data)), fits: int32(len(p.Program.Fits)),
		names: int32(len(p.Names.all)), zeros: int32(len(p.zeros)), settled: int32(len(p.settled)),
		plans: int32(len(p.plans)), loaded: int32(len(p.loaded)), units: int32(len(p.own)),
		part: p.part, that: p.that, gravity: p.gravity,
	}
}

// Start returns the first slot after the mark.
func (m Mark) Start() run.Slot { return run.Slot(m.instrs) }

// Cut takes back all that was planned since the mark: nothing of it is left.
//
// It is used for each line that fails, too: a line without a value leaves no
// instruction behind.
func (p *Planner) Cut(m Mark) {
	p.Program.Main.Cut(run.Slot(m.instrs), int(m.args))
	p.Program.Funcs, p.Program.Solves = p.Program.Funcs[:m.funcs], p.Program.Solves[:m.solves]
	p.Program.Data, p.Program.Fits = p.Program.Data[:m.data], p.Program.Fits[:m.fits]
	for i := len(p.plans) - 1; i >= int(m.plans); i-- {
		d := p.plans[i]
		d.planned = d.planned.above
	}
	for _, name := range p.loaded[m.loaded:] {
		delete(p.library, name)
	}
	for _, name := range p.own[m.units:] {
		p.Units.Remove(name)
	}
	p.plans, p.loaded, p.own = p.plans[:m.plans], p.loaded[:m.loaded], p.own[:m.units]
	p.Names.cut(int(m.names))
	for _, z := range p.settled[m.settled:] {
		p.zeros[z] = zero{line: p.zeros[z].line}
	}
	p.settled, p.zeros = p.settled[:m.settled], p.zeros[:m.zeros]
	p.part, p.that, p.gravity = m.part, m.that, m.gravity
}

// Since returns the definitions since the mark.
func (p *Planner) Since(m Mark) []*Def { return p.Names.all[m.names:] }

// Part is the part of the question that the next line belongs to.
func (m Mark) Part() int32 { return m.part }

// That is what the word that stands for in the next line.
func (m Mark) That() *Def { return m.that }

// Told tells whether lines since the mark have said what a unit is, or of what
// dimension the 0 of a line above theirs is: that holds for all the page.
func (p *Planner) Told(m Mark) bool {
	return len(p.own) > int(m.units) || slices.ContainsFunc(p.settled[m.settled:], func(i int32) bool {
		return p.zeros[i].line != p.zeros[i].fixedBy
	})
}

// Lift takes what names mean back to the mark, and leaves the program: lines since
// the mark may be put back with Define as they were, if they have Told nothing. Those
// of a number from on are then others by some lines.
func (p *Planner) Lift(m Mark, from, by int) {
	p.Names.cut(int(m.names))
	p.Names.lengths = lengths{}
	p.part, p.that = m.part, m.that
	for i := range p.zeros {
		if z := &p.zeros[i]; by != 0 && z.line >= from {
			z.line += by
			z.fixedBy += by
		}
	}
}

// Hide takes what names mean back to the mark, and leaves the program, until back is
// called: lines that were planned since may be there again then, as nothing in between is.
func (p *Planner) Hide(m Mark) (back func()) {
	later, part, that := slices.Clone(p.Since(m)), p.part, p.that
	p.Names.cut(int(m.names))
	p.part, p.that = m.part, m.that
	return func() {
		for _, d := range later {
			p.Names.all, p.Names.last[d.Name] = append(p.Names.all, d), d
		}
		p.part, p.that = part, that
	}
}
