package reading

import (
	"slices"
	"strings"

	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// claim is what a line says of its expressions: that two are equal, or that one is the
// quantity that a symbol or a unit speaks of.
type claim struct {
	// of is the expression, or are the two sides of an equation.
	of []syntax.Expr
	// quantities are the dimensions that the one expression may have, the likeliest
	// first; none where nothing says it.
	quantities []units.Dim
	// free are names that have no value of their own: unknowns, arguments.
	free []string
}

// claimOf is the claim of a line; of is empty for one that makes none. That of the line as it
// is typed is found once: many rules ask.
func (s *settler) claimOf(stmt syntax.Stmt) claim {
	if stmt != s.Entry.Stmt {
		return s.newClaim(stmt)
	}
	if s.claimed == nil {
		c := s.newClaim(stmt)
		s.claimed = &c
	}
	return *s.claimed
}

// F = k*x claims that k*x is a force, since F stands for one; check A = B, that both sides are one
// quantity; a graph of two curves, that both go on one axis.
func (s *settler) newClaim(stmt syntax.Stmt) (c claim) {
	is := func(name string, x syntax.Expr, in syntax.UnitText) {
		c.quantities = units.Customs(name)
		if u := s.Page.Unit(in); u != nil {
			c.quantities = []units.Dim{u.Dim()}
		}
		if with, ok := x.(*syntax.With); ok {
			x = with.X // whose quantities are of one kind with those that they replace
		}
		if x != nil {
			c.of = []syntax.Expr{x}
		}
	}
	switch stmt := stmt.(type) {
	case *syntax.Define:
		is(stmt.Name, stmt.X, stmt.In)
	case *syntax.Value:
		is("", stmt.X, stmt.In)
	case *syntax.Report:
		is("", stmt.X, stmt.In)
	case *syntax.FuncDef:
		is(stmt.Name, stmt.X, stmt.In)
		c.free = stmt.Params
	case *syntax.CheckStmt:
		if stmt.Sign == syntax.NoSign {
			c.of = []syntax.Expr{stmt.Left, stmt.Right}
		}
	case *syntax.Solve:
		if e := stmt.Equations[0]; len(stmt.Equations) == 1 && e.Right != nil {
			c.of = []syntax.Expr{e.Left, e.Right}
		}
		for _, u := range stmt.Unknowns {
			c.free = append(c.free, u.Name)
		}
		for _, b := range stmt.With {
			c.free = append(c.free, b.Name)
		}
	case *syntax.Graph:
		if g := &stmt.Curves[0]; len(stmt.Curves) == 1 {
			in := g.In
			if !in.Present() {
				in = stmt.In
			}
			is("", g.X, in)
		} else if stmt.Path.X == nil { // curves on one axis are one quantity
			for i := range stmt.Curves {
				c.of = append(c.of, stmt.Curves[i].X)
			}
		}
		c.free = []string{stmt.Against.Name}
	}
	return c
}

// speaks tells whether the line says what quantity it is.
func (c *claim) speaks() bool { return len(c.of) > 1 || c.quantities != nil }

// withinLetters tells whether a name of the line's own, an unknown or what a curve is
// drawn against, is in it among letters alone: the x of graph 3kx against x.
func (c *claim) withinLetters(lacking *lettersLacking) bool {
	return slices.ContainsFunc(c.free, func(name string) bool {
		return slices.Contains(lacking.known, name) && !slices.ContainsFunc(c.of, func(x syntax.Expr) bool { return syntax.Holds(x, name) })
	})
}

// isResult tells whether a line is no equation, and no plain quantity but one of several
// letters: 1.5 kT, ½ C V².
func (c *claim) isResult(lacking *lettersLacking, text string) bool {
	p := lacking.parts[0]
	return len(c.of) == 1 && (!p.Whole || several(p) && (p.Given || !strings.Contains(text[p.Unit.From:p.Unit.To], "/")))
}

// mostFitted is the most names of which all customary quantities are tried together, with
// the line's own, and mostCommon that of which the common ones are.
const (
	mostFitted = 4
	mostCommon = 8
)

// fittingOf tells whether a line is what it says if each symbol without a value is a quantity
// that it is used for, whether each is the first of these, and the dimensions of the names in
// the first case that fits.
//
// Of E = ½kx² with k lacking: E may be an energy, x is a length, so k must be a force per length;
// that is what k is used for, so the line fits. Each symbol is tried with each of its customary
// quantities, and the last one is worked out from the rest, so that three symbols with four
// quantities each take sixteen plans.
func (s *settler) fittingOf(stmt syntax.Stmt, text string, symbols []string) (fits, first bool, found map[string]units.Dim) {
	c := s.claimOf(stmt)
	f := fitted{settler: s, text: text, pure: true}
	for _, x := range c.of {
		f.sides = append(f.sides, syntax.Unplaced(x))
	}
	f.named = c.quantities == nil
	if len(c.of) == 1 {
		f.sides = append(f.sides, &syntax.Name{Name: whole})
		if !f.named {
			f.names, f.quantities = []string{whole}, [][]units.Dim{c.quantities}
		}
	}
	for _, name := range append(slices.Clone(symbols), c.free...) {
		if !slices.Contains(f.names, name) {
			f.names, f.quantities = append(f.names, name), append(f.quantities, s.quantitiesOf(name))
		}
	}
	if len(c.of) == 1 && f.named {
		f.names, f.quantities = append(f.names, whole), append(f.quantities, nil)
	}
	if len(f.names) == 0 {
		first, other := s.Try(c.of[0]), s.Try(c.of[len(c.of)-1])
		return first.Static.Open == 0 && !first.Static.Dim.IsOne() && first.Slot != run.NoSlot && other.Static.Dim == first.Static.Dim, true, nil
	}
	f.of = make([]run.Static, len(f.names))
	if fits, first = f.from(0); !fits && len(f.names) > mostFitted {
		f.loose = true
		fits, first = f.from(0)
	}
	return fits, first, f.found
}

// quantitiesOf are the customary quantities of a name, and that of a constant of nature
// with its symbol.
//
// h is a height on most pages, and an action where the line is h*f.
func (s *settler) quantitiesOf(name string) []units.Dim {
	out := units.Customs(name)
	if k, ok := units.LookupConstant(name); ok {
		if u, bad := s.Planner.Units.Parse(k.Unit, units.AloneInPlace); bad == nil && !slices.Contains(out, u.Dim()) {
			out = append(slices.Clone(out), u.Dim())
		}
	}
	return out
}

// fitted tries quantities for names that have no value.
type fitted struct {
	*settler
	text  string
	sides []syntax.Expr
	names []string
	// quantities are the customary ones of each name, of what is known of them.
	quantities [][]units.Dim
	of         []run.Static
	// pure tells that the last may be a pure number, and named that the line may be any
	// quantity that has a name.
	pure, named bool
	// loose tells that the names may be any quantities.
	loose bool
	// found are the dimensions of the names in the first case that fits.
	found map[string]units.Dim
}

// whole is the name of what a line of one expression says it is.
const whole = "="

// from tries those of the names from i on; that of the last follows from the equation.
//
// It goes down the list of names: one quantity is put for the first, and the rest is tried below
// that. The plan of a try is cut off again, so that the page never sees it.
func (f *fitted) from(i int) (fits, first bool) {
	name := f.names[i]
	m := f.Planner.Mark()
	defer f.Planner.Cut(m)
	switch {
	case i == len(f.names)-1:
		f.of[i] = f.Planner.Unknowns(1)[0]
		if got := f.Planner.CompileOf(f.text, f.names, f.of, f.sides...); !got.OK || f.loose || len(f.names) > mostCommon {
			return got.OK, false
		}
		dim := f.Planner.Settled(f.of[i]).Dim
		fits, first = (f.pure || !dim.IsOne()) && slices.Contains(f.quantities[i], dim), f.usually(name, dim)
		if name == whole && f.named {
			_, fits = units.KindOf(dim, units.None)
			first = true
		}
		if fits && f.found == nil {
			f.found = map[string]units.Dim{}
			for k, name := range f.names {
				f.found[name] = f.Planner.Settled(f.of[k]).Dim
			}
		}
		return fits, first
	case f.loose, len(f.names) > mostCommon, len(f.quantities[i]) == 0:
		f.of[i] = f.Planner.Unknowns(1)[0]
		fits, _ = f.from(i + 1)
		return fits, false
	}
	quantities := f.quantities[i]
	if len(f.names) > mostFitted {
		quantities = quantities[:min(len(quantities), commonest)]
	}
	for k, dim := range quantities {
		if dim.IsOne() && name != whole && k > 0 {
			continue // an angle may be one
		}
		f.of[i] = run.Static{Dim: dim}
		one, all := f.from(i + 1)
		fits, first = fits || one, first || all && k == 0
	}
	return fits, first
}
