package eval

import (
	"maps"

	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// Results follow the units that the page gives: twice 6 cm is in cm, the sum of two
// energies in eV in eV, and a force in N times a time in s in N s.

// follower multiplies the units of an expression.
type follower struct {
	p     *Page
	bound map[string]*units.Product // of names that the expression binds; nil if unknown
	left  int                       // nodes that may still be looked at
}

// mostFollowed is how many nodes of an expression, and of the functions that it calls,
// are looked at for the unit that a result is shown in.
const mostFollowed = 100

// Follow is the unit that an expression has from those of its names and numbers; nil
// where that of the catalogue reads better.
//
// A page in eV stays in eV, and one in hours and kilometres has km/h. Where the units multiply
// to something nobody writes, such as N·m/cm, the catalogue's unit is taken (units.Product).
func (p *Page) Follow(x syntax.Expr, st run.Static) *units.Unit {
	return p.FollowAgainst(x, st, "", nil)
}

// FollowAgainst is Follow for a curve against a name with a unit.
func (p *Page) FollowAgainst(x syntax.Expr, st run.Static, name string, u *units.Unit) *units.Unit {
	f := follower{p: p, left: mostFollowed}
	if u != nil {
		var axis units.Product
		axis.Times(u, units.NewExp(1, 1))
		f.bound = map[string]*units.Product{name: &axis}
	}
	var out units.Product
	if st.Open != 0 || !f.times(&out, x, units.NewExp(1, 1)) {
		return nil
	}
	switch syntax.Unbracket(x).(type) {
	case *syntax.SlopeOf, *syntax.AreaUnder:
		return out.Per(st.Dim, st.Tag)
	}
	return out.Unit(st.Dim, st.Tag)
}

// times multiplies by the units of an expression to a power, and tells whether they are
// known.
//
// The bounds on the nodes keep a line quick whose functions call functions: past them the
// catalogue decides, as it does where a part has no unit that could be known.
func (f *follower) times(out *units.Product, x syntax.Expr, e units.Exp) bool {
	if f.left--; f.left < 0 {
		return false
	}
	switch x := x.(type) {
	case *syntax.Number, *syntax.Pi:
		return true
	case *syntax.Paren:
		return f.times(out, x.X, e)
	case *syntax.Unary:
		return f.times(out, x.X, e)
	case *syntax.Binary:
		return f.binary(out, x, e)
	case *syntax.Root:
		return f.times(out, x.X, e.Mul(units.NewExp(1, 2)))
	case *syntax.Name:
		if of, ok := f.bound[x.Name]; ok {
			return of != nil && out.Mul(of, e)
		}
	case *syntax.Call:
		return f.call(out, x, e)
	case *syntax.SlopeOf:
		return f.curve(out, x.X, x.Var.Name, x.Place, units.NewExp(-1, 1), e)
	case *syntax.AreaUnder:
		return f.curve(out, x.X, x.Var.Name, x.To, units.NewExp(1, 1), e)
	}
	u := f.p.PartUnit(x)
	return u != nil && out.Times(u, e)
}

// Both terms of a sum must have the same unit; 3 m + 2 cm follows neither.
func (f *follower) binary(out *units.Product, x *syntax.Binary, e units.Exp) bool {
	switch x.Op {
	case syntax.Mul:
		return f.times(out, x.X, e) && f.times(out, x.Y, e)
	case syntax.Div:
		return f.times(out, x.X, e) && f.times(out, x.Y, e.Neg())
	case syntax.Pow:
		n := syntax.Rational(x.Y)
		return !n.Lost() && f.times(out, x.X, n.Mul(e))
	}
	var left, right units.Product
	return f.times(&left, x.X, units.NewExp(1, 1)) && f.times(&right, x.Y, units.NewExp(1, 1)) && left.Alike(&right) && out.Mul(&left, e)
}

// call follows a function of the worksheet into its expression. Those of every worksheet
// that give a pure number change no unit: A*sin(θ) is in the unit of A.
func (f *follower) call(out *units.Product, x *syntax.Call, e units.Exp) bool {
	own, builtIn := ops.Named(x.Func)
	switch {
	case !builtIn:
	case own.Takes == ops.PureToPure, own.Takes == ops.AngleToPure, own.Takes == ops.AnyToPure:
		return true
	case own.Takes == ops.PureToAngle, own.Takes == ops.SameToAngle:
		u := f.p.DegreesIn(x)
		return u != nil && out.Times(u, e)
	case own.Keeps() && len(x.Args) > 0:
		return f.times(out, x.Args[0].X, e)
	}
	if u := f.p.callUnit(x); u != nil {
		return out.Times(u, e)
	}
	d, ok := f.p.Planner.Names.Lookup(x.Func)
	if !ok || builtIn || d.Kind != plan.Function || d.Func.X == nil || len(d.Func.Params) != len(x.Args) {
		return false
	}
	bound := map[string]*units.Product{}
	for i, a := range x.Args {
		of := new(units.Product)
		if !f.times(of, a.X, units.NewExp(1, 1)) {
			of = nil
		}
		bound[d.Func.Params[i]] = of
	}
	return f.within(bound, func() bool { return f.times(out, d.Func.X, e) })
}

// DegreesIn is the degree where an expression has an angle in it, or nil: asin(n1*sin(θ1)/n2)
// is in the unit of θ1, as on paper.
//
// A refraction that was given in degrees is answered in degrees.
func (p *Page) DegreesIn(x syntax.Expr) *units.Unit {
	return p.unitWithin(x, func(u *units.Unit) bool { return u.Dim().IsOne() && u.Screen() == "°" })
}

// curve multiplies by the unit of a curve, and of its axis to the power of a slope or an
// area.
func (f *follower) curve(out *units.Product, x syntax.Expr, name string, place syntax.Expr, power, e units.Exp) bool {
	var axis units.Product
	if !f.times(&axis, place, units.NewExp(1, 1)) {
		return false
	}
	bound := map[string]*units.Product{}
	maps.Copy(bound, f.bound)
	bound[name] = &axis
	ok := f.within(bound, func() bool { return f.times(out, x, e) })
	return ok && out.Mul(&axis, power.Mul(e))
}

// within looks at something where other names are bound.
//
// The names of an outer call mean nothing in the body of an inner one.
func (f *follower) within(bound map[string]*units.Product, look func() bool) bool {
	above := f.bound
	f.bound = bound
	ok := look()
	f.bound = above
	return ok
}
