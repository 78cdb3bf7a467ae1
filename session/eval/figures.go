package eval

import (
	"math"
	"slices"
	"strconv"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/units"
)

// Support is how many figures of a value the numbers support that it was worked out
// from.
//
// It is the rule of lab courses, sharpened: the last figure of each given is taken for
// uncertain by one, and the error that follows is carried through the whole way to the value
// (lang/run Known). Where the rule of thumb for products and the one for sums differ, this one
// counts.
type Support struct {
	// Exact tells that nothing measured is in it: any number of figures is right.
	Exact bool
	// Known counts the figures that are known; none, if not above 0.
	Known int
	// Shown are the figures with which the value is shown: one where none is known.
	Shown units.Figures
	// By is the line's own words for the number that limits them, "x = 6.0 cm", or empty.
	By string
	// ByNoughts is the number that limits the figures to fewer, Bare, if noughts at the
	// end of whole numbers, as in 1200 N, hold a place and are none; empty if they
	// decide nothing.
	Bare      int
	ByNoughts string
}

// Lost says how little is left of a value of which no figure is known.
func (s Support) Lost() string {
	if s.By == "" {
		return "less than the last figure of the numbers it comes from"
	}
	return "less than one in the last figure of " + s.By
}

// writtenFigures are the figures with which a quantity was written that is shown in a
// unit and is si in coherent SI units, in this line or as the given that a name stands
// for; false for any other.
//
// A given is shown as its writer wrote it, 6.0 cm and not 6 cm. That holds only where the value
// is still that number: in another unit, or changed by a replaced given, it has no written
// figures.
func (p *Page) writtenFigures(x syntax.Expr, si float64, u *units.Unit) (units.Figures, bool) {
	switch x := x.(type) {
	case *syntax.Number:
		return asMany(x.Value), true
	case *syntax.Quantity:
		own, bad := p.Planner.Unit(x.Unit, units.AfterNumber)
		return asMany(x.Value), bad == nil && own.SameAs(u)
	case *syntax.Call:
		if len(x.Args) > 1 && x.Args[1].Figures > 0 {
			return units.Figures{N: x.Args[1].Figures, Keep: true}, true
		}
	case *syntax.Paren:
		return p.writtenFigures(x.X, si, u)
	case *syntax.Unary:
		return p.writtenFigures(x.X, si, u)
	case *syntax.Name:
		d, ok := p.Planner.Find(x)
		if !ok || !p.Plain(d) || p.State.At(d.Slot) != si { // a name that is solved for was another value
			return units.Figures{}, false
		}
		return p.writtenFigures(p.DefineOf(d).X, si, u)
	}
	return units.Figures{}, false
}

// A written 0.00 has two decimals and no figure that counts.
func asMany(d units.Decimal) units.Figures {
	if d.Hi == 0 && d.LastPlace < 0 {
		return units.Figures{N: 1 - int(d.LastPlace), Keep: true, Decimals: true}
	}
	return units.Figures{N: int(max(1, d.Figures)), Keep: true}
}

// Support tells how many figures are known of a slot, which a line has worked out and
// shows in a unit.
func (p *Page) Support(e *entry.Entry, slot run.Slot, u *units.Unit) Support {
	out, known := p.support(slot, u)
	if known.By != nil {
		out.By = p.source(e, known.By)
	}
	if noughts := p.withoutNoughts(&out, known, slot, u); noughts != nil {
		out.ByNoughts = p.source(e, noughts)
	}
	return out
}

// support is Support without the numbers that limit the figures, which few ask for: they
// are looked for in the lines above.
func (p *Page) support(slot run.Slot, u *units.Unit) (out Support, known run.Figured) {
	if p.Set.Exact {
		return Support{Exact: true}, known
	}
	known, ok := p.Planner.Program.Known(&p.State, slot, u.Affine())
	if !ok || known.Place == 0 {
		return Support{Exact: true}, known
	}
	out.Known, out.Shown = figures(known, known.V, u, p.Set.Rounding)
	return out, known
}

// withoutNoughts adds what is known if the noughts at the end of whole numbers only hold a place, and
// tells the number that limits that; nil where it makes no difference.
func (p *Page) withoutNoughts(out *Support, known run.Figured, slot run.Slot, u *units.Unit) *run.Instr {
	if out.Exact {
		return nil
	}
	bare, some := p.Planner.Program.KnownBare(&p.State, slot, u.Affine())
	if !some || bare.Place <= known.Place {
		return nil
	}
	out.Bare, _ = figures(bare, bare.V, u, p.Set.Rounding)
	return bare.By
}

// figures counts the known figures of a value that is shown in a unit, and says how it is
// shown.
//
// A sum keeps decimals, a product keeps figures: 12.3 m + 0.04 m is 12.3 m, and 0.04 of 12.3 m
// has one figure. A sum that is 0 is known to be less than one in its last place, and no more
// is.
func figures(n run.Figured, si float64, u *units.Unit, r units.Rounding) (known int, shown units.Figures) {
	v, place := u.FromSI(si), u.FromSIDifference(n.Place)
	switch {
	case v == 0 && n.Summed:
		return 0, units.Figures{N: 1, Keep: true, Givens: true}
	case v == 0: // 0.0 m times 5 N is not the rest of anything
		behind := min(-int(math.Floor(math.Log10(place)+1e-9)), mostKnown-1)
		return 1, units.Figures{N: 1 + max(behind, 0), Keep: true, Givens: true, Decimals: true}
	}
	known = min(n.Figures(v, place), mostKnown)
	// 4.00 - 3.99 is a little less than the 0.01 as which it is counted: that is no rounding up.
	below := n.Figures(v/(1+4e-9), place) < known
	shown = units.Figures{N: max(known, 1), Keep: true, Givens: true, Decimals: n.Summed && known > 0 && !below}
	if shown.Decimals && units.RoundsUp(v, shown, r) {
		known++
	}
	return known, shown
}

// FiguresOf are the figures with which the value of a slot is shown in a unit: those that
// its givens support, where results are shown to those and it is not exact.
//
// Everything that is shown in a line asks here, so that a bound and a root beside it have like
// figures.
func (l *Line) FiguresOf(slot run.Slot, u *units.Unit) units.Figures {
	if l.Set.ByGivens {
		if of, _ := l.support(slot, u); of.Shown.Givens {
			shown := of.Shown
			shown.Usual = l.Set.Figures.Usual
			return shown
		}
	}
	return l.Set.Figures
}

// figuresOfEach are the figures with which each element of a list is shown, or each component of
// a vector; nil where all are shown alike.
func (l *Line) figuresOfEach(slot run.Slot, list *entry.List, u *units.Unit) []units.Figures {
	if !l.Set.ByGivens || l.Set.Exact {
		return nil
	}
	known := l.Planner.Program.KnownEach(&l.State, slot, u.Affine())
	if len(known) != len(list.SI) {
		return nil
	}
	inOrder(known, l.Planner.Static(slot))
	out := make([]units.Figures, len(known))
	for i, n := range known {
		out[i] = l.Set.Figures
		if n.Place != 0 {
			_, out[i] = figures(n, list.SI[i], u, l.Set.Rounding)
			out[i].Usual = l.Set.Figures.Usual
		}
	}
	return out
}

// FiguresAlong are the figures with which the values of a function are told, which it has
// between two places: those that its givens support of most of them, where results are
// shown to those. What is near a zero is known to fewer, and to as many decimals.
//
// A turning point at x = 0.2 m between givens of two figures is told to two. Near a zero a
// function keeps its decimals and loses figures, so that one place alone would say too little.
func (l *Line) FiguresAlong(fn int, from, to float64, u *units.Unit) units.Figures {
	if !l.Set.ByGivens || l.Set.Exact {
		return l.Set.Figures
	}
	const pieces = 6
	var x [pieces + 1]float64
	for i := range x {
		x[i] = from + float64((to-from)*float64(i))/pieces
	}
	var most units.Figures
	for _, n := range l.Planner.Program.KnownAlong(&l.State, fn, x[:]) {
		if n.Place == 0 || n.V == 0 {
			continue
		}
		if _, shown := figures(n, n.V, u, l.Set.Rounding); shown.N > most.N {
			most = shown
		}
	}
	if most.N == 0 {
		return l.Set.Figures
	}
	most.Usual, most.Decimals = l.Set.Figures.Usual, false
	return most
}

// SayFigures cautions where the givens support no figure of a value that is shown to
// theirs, and where noughts at the end of one decide how many. What nobody asked for is
// not said of every line.
//
// The caution about noughts is for those who asked for the givens' figures themselves: a page
// that has them by custom would be told at every 200 g.
func (l *Line) SayFigures(at syntax.Span, slot run.Slot, u *units.Unit) {
	if !l.Set.ByGivens {
		return
	}
	of, known := l.support(slot, u)
	if !of.Exact && of.Known <= 0 {
		l.Find(finding.New(finding.NoFigures, at, "No figure of this value is sure: it is "+l.Support(l.Entry, slot, u).Lost()+".",
			"Measure more finely what is subtracted. Here the value is shown to one figure."))
		return
	}
	if l.Set.Figures.Usual {
		return
	}
	noughts := l.withoutNoughts(&of, known, slot, u)
	if noughts == nil || of.Bare >= of.Known {
		return
	}
	if by := l.source(l.Entry, noughts); by != "" {
		l.Find(finding.New(finding.Noughts, at, "The zeros of "+by+" count as measured. If they only fill places, the givens support "+Counted(of.Bare)+" here.",
			"Then write it with a power of ten, as in 1.2e3 N."))
	}
}

// mostKnown is how many figures a number holds.
const mostKnown = 15

// Counted is a number of figures in words.
func Counted(n int) string {
	words := [...]string{"no figure", "one figure", "two figures", "three figures", "four figures", "five figures", "six figures", "seven figures", "eight figures", "nine figures"}
	if n = max(n, 0); n < len(words) {
		return words[n]
	}
	return strconv.Itoa(n) + " figures"
}

// source finds the number that a line was worked out from, itself or by lines above, as it
// was written; empty if it stands in none.
//
// x = 6.0 cm of a given, 6.0 cm of a number in the line itself, and the name alone of a
// constant.
func (p *Page) source(e *entry.Entry, in *run.Instr) string {
	name, x := p.writtenAt(e, in.K)
	if x != nil && name != "" {
		return name + " = " + typeset.Text(x)
	}
	if x != nil {
		return typeset.Text(x)
	}
	return name
}

// writtenAt finds the number that a line was worked out from, itself or by lines above: as
// it was written, and the name of the given that it is or of the constant.
//
// It goes back line by line, the nearest first, so that a number that stands in several lines
// is told where the reader has seen it last.
func (p *Page) writtenAt(e *entry.Entry, si float64) (string, syntax.Expr) {
	seen := map[*entry.Entry]bool{}
	for lines := []*entry.Entry{e}; len(lines) > 0; lines = lines[1:] {
		e := lines[0]
		if e == nil || e.Stmt == nil || seen[e] {
			continue
		}
		seen[e] = true
		if name, x, ok := told(e, si); ok {
			if now, _ := p.Planner.Names.Lookup(name); x != nil && now != nil && now.Line != e.Line {
				name += "@" + strconv.Itoa(e.Line) // another has its name by now
			}
			return name, x
		}
		if d, ok := e.Stmt.(*syntax.Define); ok && d.Plain() && p.writtenSI(d.X, si) {
			return d.Name, d.X
		}
		for _, x := range e.Stmt.Exprs() {
			if of, ok := p.holding(x, si); ok {
				return "", of
			}
		}
		for _, line := range e.Uses {
			lines = append(lines, p.EntryAt(line))
		}
	}
	return "", nil
}

// told finds a number among the values of an entry that writes none as an expression: a
// constant, what was fitted, a reading of a table.
func told(e *entry.Entry, si float64) (string, syntax.Expr, bool) {
	for _, v := range e.Values() {
		in := &syntax.Quantity{Unit: syntax.UnitText{Text: v.Unit.Text()}}
		switch e.Stmt.(type) {
		case *syntax.Constants:
			if v.SI == si {
				return v.Name, nil, true
			}
		case *syntax.Fit:
			if v.SI == si {
				return v.Name, in, true
			}
		case *syntax.Data:
			if i := slices.Index(v.List.SI, si); i >= 0 {
				return v.Name + " in row " + strconv.Itoa(i+1), in, true
			}
		}
	}
	return "", nil, false
}

// Plain tells whether a definition is a given that is one number as it was written.
//
// 2*3 m is a given without a name in it and still no one number as it was written.
func (p *Page) Plain(d *plan.Def) bool {
	s := p.DefineOf(d)
	return s != nil && s.Plain() && d.Slot != run.NoSlot // else its line has failed
}

// holding finds the written quantity in an expression that comes to a value in SI units.
//
// The first that comes to the value is taken: where 2 m stands twice, either is the one.
func (p *Page) holding(x syntax.Expr, si float64) (syntax.Expr, bool) {
	var found syntax.Expr
	syntax.Any(x, func(x syntax.Expr) bool {
		switch x := x.(type) {
		case *syntax.Number:
		case *syntax.List:
			for i := range x.Elems {
				if one := x.Measured(i); p.writtenSI(one, si) {
					found = one
				}
			}
		default:
			if p.writtenSI(x, si) {
				found = x
			}
		}
		return found != nil
	})
	return found, found != nil
}

// writtenSI tells whether an expression is a written number that comes to a value in SI
// units, its sign left out.
//
// Numbers are compared with room for the last bits: the program holds a product of the number
// and its unit's factor, and a mixed quantity a sum.
func (p *Page) writtenSI(x syntax.Expr, si float64) bool {
	sum := 0.0
	add := func(q *syntax.Quantity) {
		if u, bad := p.Planner.Unit(q.Unit, units.AfterNumber); bad == nil {
			sum += u.ToSI(q.Value)
		}
	}
	switch x := x.(type) {
	case *syntax.Paren:
		return p.writtenSI(x.X, si)
	case *syntax.Unary:
		return p.writtenSI(x.X, si)
	case *syntax.Number:
		sum = x.Value.Float()
	case *syntax.Quantity:
		add(x)
	case *syntax.Mixed:
		for _, q := range x.Parts {
			add(q)
		}
	default:
		return false
	}
	return math.Abs(math.Abs(sum)-math.Abs(si)) <= 1e-12*math.Abs(si)
}
