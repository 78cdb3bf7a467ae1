package run

import (
	"math"
	"slices"

	"steelyard/lang/ops"
	"steelyard/units/rounding"
)

// Written is the instruction of a number that somebody measured and wrote down: place
// is what one in its last figure is worth, in coherent SI units, and noughts is how many
// noughts at its end may be there for their place alone, as the two of 1200.
//
// It is kept in the operands that a constant does not use, so that numbers with figures cost no
// more room.
func Written(v, place float64, noughts int) Instr {
	bits := math.Float64bits(place)
	return Instr{Op: ops.Const, A: Slot(noughts), B: Slot(bits >> 32), C: Slot(bits & math.MaxUint32), K: v}
}

// Rounded is the instruction of an exact number that was written with more digits than it
// holds.
func Rounded(v float64) Instr { return Written(v, -1, 0) }

// isRounded tells of a constant that it is not all that was written.
func (in *Instr) isRounded() bool { return in.Op == ops.Const && in.A > uncertain && in.bits() < 0 }

// Place is what one in the last figure of a written number is worth; 0 of an exact
// number, and of an instruction that is none.
func (in *Instr) Place() float64 {
	if in.Op != ops.Const || in.A <= uncertain {
		return 0
	}
	return max(in.bits(), 0)
}

// bits is the number that B and C of a constant hold.
func (in *Instr) bits() float64 {
	return math.Float64frombits(uint64(uint32(in.B))<<32 | uint64(uint32(in.C)))
}

// Figured is a value with the place of the last figure to which it is known. A product
// keeps the figures of the factor that has the fewest, a sum the coarsest place of its
// terms, a power or a root the figures of what it is of, and a function changes a place
// as much as it changes its operand.
type Figured struct {
	V float64
	// Place is what one in the last figure is worth, in coherent SI units; 0 of what is
	// exact. Of a product it need not be a power of ten: V/Place is as many as the
	// factor with the fewest figures has, so that 2.0 times 3.25 has 20 of them.
	Place float64
	// Summed tells that the place is one of decimals, as of a sum: 9.96 to tenths is 10.0,
	// and to its two figures 10. A 0 is one that is left of terms which are none.
	Summed bool
	// By is the written number that the place comes from; nil of what is exact.
	By *Instr
	// kept tells that nothing on the way has taken figures: it is a product of powers of what
	// was written. Sure tells that no number in it ends in noughts that may hold a place only.
	kept, sure bool
}

// near1 is by how much the logarithm of a ratio may be off, so that a hundred is not
// taken for a number of two digits.
const near1 = 1e-9

// Figures is how many figures of a number, which is not 0, are known if one in the last
// is worth place; not above 0 where not even the first is.
//
// log10 of 1000 may come out as 2.9999999999999996: near1 is there for that.
func (n Figured) Figures(v, place float64) int {
	return int(math.Floor(math.Log10(math.Abs(v/place))+near1)) + 1
}

// decimal is the place as one of decimals: what a product knows is counted in figures,
// and a sum counts places.
func (n Figured) decimal() float64 {
	switch {
	case n.Summed || n.Place == 0:
		return n.Place
	case n.V == 0: // as 0.0 m times 5 N is, which has no figure to count
		return math.Pow10(int(math.Floor(math.Log10(n.Place) + near1)))
	}
	first := math.Floor(math.Log10(math.Abs(n.V)) + near1)
	return math.Pow10(int(first) - n.Figures(n.V, n.Place) + 1)
}

// keeping is a value that is known to as many figures as another number.
func (n Figured) keeping(v float64) Figured {
	place := 0.0
	if n.V != 0 {
		place = n.Place / math.Abs(n.V) * math.Abs(v)
	}
	return Figured{V: v, Place: place, By: n.By, kept: n.kept, sure: n.sure}
}

// figures is the domain of values with the place to which they are known. It holds what
// is known of the main code; noughts tells that those at the end of a whole number count
// for nothing.
type figures struct {
	main    *mainFigures
	noughts bool
}

func (figures) of(v float64) Figured { return Figured{V: v, kept: true, sure: true} }

func (d figures) constant(in *Instr) Figured {
	n := d.of(in.K)
	n.Place = in.Place()
	if n.Place != 0 {
		n.By, n.Summed, n.sure = in, in.K != 0, in.A == 0
		if d.noughts {
			n.Place *= math.Pow10(int(in.A))
		}
	}
	return n
}

func (d figures) load(s Slot, i int32, v float64) Figured {
	return d.main.load(s, i, v)
}

func (d figures) apply(op ops.Op, a, b Figured, k float64) (Figured, ops.Fault) {
	v, fault := floats{}.apply(op, a.V, b.V, k)
	if op.Operands() < 2 {
		b = d.of(0)
	}
	if fault != ops.NoFault || a.Place == 0 && b.Place == 0 || op == ops.LastFigure {
		return d.of(v), fault
	}
	sure := a.sure && b.sure
	switch op {
	case ops.Copy, ops.Neg, ops.Abs:
		a.V = v
		return a, fault
	// A sum is known to the coarsest place: 12.1 + 0.456 is 12.6. Rounding is a sum in this.
	case ops.Add, ops.Sub, ops.Round:
		if b.Place == 0 && op == ops.Round {
			b.Place, b.Summed = math.Abs(b.V), true // the step to which it is rounded
		}
		if b.Place == 0 && b.V == 0 {
			a.V = v // 0 adds nothing, nor takes a figure
			return a, fault
		}
		a.Place, b.Place = a.decimal(), b.decimal()
		if a.Place < b.Place {
			a.Place, a.By = b.Place, b.By
		}
		return Figured{V: v, Place: a.Place, Summed: v != 0 || a.V != 0, By: a.By, sure: sure}, fault
	case ops.Pow, ops.Sqrt, ops.Cbrt, ops.Root:
		if v != 0 && a.V != 0 {
			return a.keeping(v), fault
		}
	}
	// Anything else is known as far as its worse operand moves it.
	da, db := op.Slopes(a.V, b.V, k)
	byA := moved(da, v, a, func(a float64) float64 { return op.Value(a, b.V, k) })
	byB := moved(db, v, b, func(b float64) float64 { return op.Value(a.V, b, k) })
	if byA < byB {
		a, byA, da = b, byB, db
	}
	kept := (op == ops.Mul || op == ops.Div) && a.kept && b.kept && byA == math.Abs(da*a.Place)
	return Figured{V: v, Place: byA, By: a.By, kept: kept, sure: sure}, fault
}

// moved is how far one in the last figure of an operand moves the value of an operation:
// as far as its slope says, or what the slope leaves out if that is more, as at a turning
// point or at the end of what a function takes.
//
// The sine at 90° has no slope, and is known better than the angle; a step of the last figure
// to both sides shows how well.
func moved(slope, v float64, n Figured, at func(float64) float64) float64 {
	if n.Place == 0 {
		return 0
	}
	by := float64(slope * n.Place)
	if by-by != 0 {
		by = 0
	}
	most := math.Abs(by)
	for _, side := range [2]float64{1, -1} {
		if beside := at(n.V + float64(side*n.Place)); beside-beside == 0 {
			most = max(most, math.Abs(beside-v-float64(side*by)))
		}
	}
	return most
}

func (figures) branch(condition Figured) (yes, no bool) { return floats{}.branch(condition.V) }

func (figures) either(_, a, _ Figured) Figured { return a }

func (figures) still(n Figured) (float64, bool) { return n.V, true }

func (figures) unknown() (Figured, ops.Fault) { return Figured{}, ops.NoFault }

func (figures) steps() int64 { return 5 }

// mainFigures holds to which places slots of the main code are known, as far as that has
// been asked for.
type mainFigures struct{ asked[Figured, figures] }

// figures is what the state knows of that.
func (st *State) figures(p *Program, noughts bool) *mainFigures {
	of := &st.figured
	if noughts {
		of = &st.noughted
	}
	if *of == nil || (*of).p != p || (*of).st != st {
		m := &mainFigures{}
		m.asked = asked[Figured, figures]{p: p, st: st, d: figures{m, noughts}, found: m.found}
		*of = m
	}
	return *of
}

// Known tells to which place the value of a slot of the main code is known from what was
// written, of a list the first that is not exact; false for one without a value. OtherZero
// tells that the value is shown from another zero than its own, as in °C.
func (p *Program) Known(st *State, s Slot, otherZero bool) (Figured, bool) {
	return st.figures(p, false).first(s, otherZero)
}

// KnownBare is Known with noughts at the end of whole numbers that count for nothing; false
// where there are none on the way to the slot.
func (p *Program) KnownBare(st *State, s Slot, otherZero bool) (Figured, bool) {
	if !slices.ContainsFunc(st.figures(p, false).at(s), func(n Figured) bool { return !n.sure }) {
		return Figured{}, false
	}
	return st.figures(p, true).first(s, otherZero)
}

func (m *mainFigures) first(s Slot, otherZero bool) (Figured, bool) {
	all := m.at(s)
	if len(all) == 0 {
		return Figured{}, false
	}
	if at := slices.IndexFunc(all, func(n Figured) bool { return n.Place != 0 }); at > 0 { // [0, 0.5] m
		return all[at], true
	}
	return m.together(s, all[0], 0, otherZero), true
}

// mostLookedAgain is of how many elements of a list it is looked at what their terms have in
// common.
const mostLookedAgain = 16

// KnownEach is Known of each element of a list, or component of a vector, in the order of its
// columns.
func (p *Program) KnownEach(st *State, s Slot, otherZero bool) []Figured {
	m := st.figures(p, false)
	all := slices.Clone(m.at(s))
	for i := range all {
		if len(all) <= mostLookedAgain {
			all[i] = m.together(s, all[i], i, otherZero)
		}
	}
	return all
}

// KnownAlong tells to which places the values of a function are known at some places, which
// are exact; places where it has none are left out.
func (p *Program) KnownAlong(st *State, fn int, x []float64) []Figured {
	w, out := st.figures(p, false).walker(), make([]Figured, 0, len(x))
	for _, at := range x {
		if n, ok := w.at(fn, []Figured{{V: at}}); ok {
			out = append(out, n)
		}
	}
	return out
}

// found is to which place a value is known that was looked for.
func (m *mainFigures) found(s Slot) []Figured {
	in, v := &m.p.Main.Instrs[s], m.st.At(s)
	switch in.Op {
	case ops.Solve:
		return []Figured{m.root(m.p.Solves[in.A], m.p.Main.list(in), v)}
	case ops.Fit:
		return []Figured{{V: v}} // how well it is known is its uncertainty
	case ops.Spread: // which is known to two figures (JCGM 100:2008, 7.2.6)
		var out []Figured
		for _, v := range m.st.Elements(s) {
			out = append(out, Figured{V: v, Place: rounding.LastPlace(v, 2)})
		}
		return out
	}
	return []Figured{m.fewest(v, in)}
}

// root is to which place a root is known: as its expression is; else as far as it has to
// be moved to move the equation's sides by one in their last figure.
func (m *mainFigures) root(s *Solve, args []Slot, v float64) Figured {
	if n, ok := m.candidate(s, args, v); ok {
		return n
	}
	if rest, slope, ok := m.rest(s, v); ok {
		return Figured{V: v, Place: rest.Place / math.Abs(slope), By: rest.By}
	}
	var all []int
	s.On(func(fn int) int { all = append(all, fn); return fn })
	return m.fewestOf(v, all)
}

// fewest gives a value the fewest figures of what an instruction reads: of the places
// asked for, of what its function loads and of what that comes to there.
//
// How an area depends on what it loads would take as many areas again. The fewest figures of
// anything that is read are what the rule of school is for a product.
func (m *mainFigures) fewest(v float64, in *Instr) Figured {
	var given []Figured
	for _, a := range m.p.Main.list(in) {
		if all := m.at(a); len(all) > 0 {
			given = append(given, all[0])
		}
	}
	w := newWalker[Figured](m.p, m.st, 0, m.d)
	rest := given
	if in.Op == ops.Area && len(given) > 1 {
		rest = given[1:] // the function has one place, and an area two
	}
	if at, ok := w.at(int(in.A), rest); ok {
		given = append(given, at)
	}
	return m.fewestOf(v, []int{int(in.A)}, given...)
}

// fewestOf gives a value the fewest figures of some numbers and of what functions load.
func (m *mainFigures) fewestOf(v float64, fns []int, of ...Figured) Figured {
	reads := m.p.Reads()
	for _, fn := range fns {
		for _, s := range reads.Loads(fn) {
			of = append(of, m.at(s)...)
		}
	}
	out := Figured{V: v}
	for _, n := range of {
		if n.V == 0 {
			continue
		}
		if kept := n.keeping(v); kept.Place > out.Place {
			out = kept
		}
	}
	out.kept, out.sure = false, false
	return out
}
