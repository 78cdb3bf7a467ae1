package reading

import (
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// varied is a name that goes over plain numbers in a line: t of slope of x(t) at t = 2.5,
// or, in x(2.5), that of the function.
type varied struct {
	name    string
	put     string        // the name in the expressions
	of      []syntax.Expr // what goes with it
	in      []syntax.UnitText
	numbers []*syntax.Number
}

// bare refuses a line in which a name goes over plain numbers, though it has a unit: the
// page gives it one, or the curve makes sense with one and less without. The line is offered
// with the unit. Where only custom says that the name has one, the line stands with a caution.
//
// slope of x(t) at t = 2.5, with t in seconds elsewhere, would be the slope at a plain 2.5: where
// x has t squared with its unit, the terms disagree, and 2.5 s is offered.
func (s *settler) bare() Verdict {
	text, stmt := s.Entry.Text, s.Entry.Stmt
	for _, v := range s.variedIn(text, stmt) {
		bare, dim := s.senseOf(&v, run.Static{Width: 1})
		for _, u := range s.unitsFor(&v, bare) {
			with, of := s.senseOf(&v, run.Static{Dim: u.Dim(), Tag: u.Tag(), Width: 1})
			given := s.givenIn(v.name) == u
			if v.put == whole && bare > odd && dim.IsOne() && !given {
				continue // f(1) of f(x) = 2*x is a plain number, though f may be a length
			}
			sure := with > bare || with == bare && given
			unusual := !dim.IsOne() && (with > odd && units.Usual(v.name) == "m" || !units.Customary(v.name, units.Dim{}))
			mended := v.inUnit(text, u)
			if with == none || bare > none && of == dim && !(given && s.through(&v)) || !sure && !unusual || s.offered && !s.accepted(mended) {
				continue
			}
			n := v.numbers[0]
			hint := "Did you mean " + n.Value.Text + " " + u.Behind(units.Screen) + "?"
			f := s.whole(finding.LackingUnit, n.Value.Text+" has no unit.", hint, mended)
			if !sure {
				return caution(f)
			}
			f.Severity = finding.Error
			return refuse(f)
		}
	}
	return Verdict{}
}

// through tells whether what goes with a name was worked out from it in lines above.
func (s *settler) through(v *varied) bool {
	return slices.ContainsFunc(v.of, func(x syntax.Expr) bool { return len(s.planner.WorkedOutFrom(v.name, x)) > 0 })
}

// variedIn are the names that go over plain numbers alone: along a curve, and in calls of
// functions of the worksheet.
//
// A place that is worked out, t1 or 2*T, has its unit from there and is none of them.
func (s *settler) variedIn(text string, stmt syntax.Stmt) (out []varied) {
	if v, places := along(stmt); len(places) > 0 {
		for _, p := range places {
			v.take(p.X)
		}
		out = append(out, v)
	}
	if s.calls {
		for c := range syntax.Each[*syntax.Call](stmt.Exprs()...) {
			if !ops.IsFunction(c.Func) {
				out = append(out, s.calledAt(c)...)
			}
		}
	}
	return slices.DeleteFunc(out, func(v varied) bool { return len(v.numbers) == 0 })
}

// along is what varies along the curves of a statement, with its places.
func along(stmt syntax.Stmt) (v varied, places []syntax.Binding) {
	names, of := syntax.Bound(stmt)
	if len(names) != 1 {
		return v, nil
	}
	v = varied{name: names[0], put: names[0], of: of}
	if g, ok := stmt.(*syntax.Graph); ok {
		for _, c := range g.Curves {
			if !c.In.Present() {
				c.In = g.In
			}
			v.in = append(v.in, c.In)
		}
	}
	return v, syntax.Placed(stmt)
}

// misplaced tells whether a curve makes more sense where the unit of one of its places is a
// name of the page: from 0 to 2 L over a length, where L is one.
func (s *settler) misplaced(stmt syntax.Stmt) bool {
	v, places := along(stmt)
	return slices.ContainsFunc(places, func(p syntax.Binding) bool {
		q, ok := p.X.(*syntax.Quantity)
		if !ok || !(valued{&s.scope}).Known(q.Unit.Text) {
			return false
		}
		unit, _ := s.senseOf(&v, s.Try(q).Static)
		name, _ := s.senseOf(&v, s.Try(&syntax.Name{Name: q.Unit.Text}).Static)
		return name > unit
	})
}

// calledAt are the arguments of a function of the worksheet, each as what varies in its call.
func (s *settler) calledAt(c *syntax.Call) (out []varied) {
	d, ok := s.planner.Names.Lookup(c.Func)
	if !ok || d.Failed() || d.Kind != plan.Function || len(d.Func.Params) != len(c.Args) {
		return nil
	}
	for i := range c.Args {
		v := varied{name: d.Func.Params[i], put: whole}
		if v.take(c.Args[i].X); len(v.numbers) == 0 {
			continue
		}
		call := *c
		call.Args = slices.Clone(c.Args)
		call.Args[i].X = &syntax.Name{Name: whole}
		v.of = []syntax.Expr{&call}
		out = append(out, v)
	}
	return out
}

// take notes a plain number. A 0 fits every dimension.
func (v *varied) take(x syntax.Expr) {
	if minus, ok := x.(*syntax.Unary); ok {
		x = minus.X
	}
	if n, ok := x.(*syntax.Number); ok && n.Value.Float() != 0 {
		v.numbers = append(v.numbers, n)
	}
}

// inUnit is a line with a unit behind the numbers.
func (v *varied) inUnit(text string, u *units.Unit) string {
	for _, n := range slices.Backward(v.numbers) {
		text = text[:n.At.To] + " " + u.Behind(units.File) + text[n.At.To:]
	}
	return text
}

// unitsFor are the units that the numbers may lack, the likeliest first: that of the given
// with the name, that of its letter, and that which makes the units agree where they don't.
func (s *settler) unitsFor(v *varied, bare sense) (out []*units.Unit) {
	add := func(u *units.Unit) {
		if u != nil && !u.Affine() && !u.Dim().IsOne() && !slices.Contains(out, u) {
			out = append(out, u)
		}
	}
	add(s.givenIn(v.name))
	if text := units.Usual(v.name); text != "" {
		add(units.Of(text))
	}
	if bare == none {
		m := s.Planner.Mark()
		defer s.Planner.Cut(m)
		unknown := s.Planner.Unknowns(1)
		for _, x := range v.of {
			if !s.Planner.CompileOf(s.Entry.Text, []string{v.put}, unknown, syntax.Unplaced(x)).OK {
				return out
			}
		}
		if st := s.Planner.Settled(unknown[0]); st.Open == 0 {
			add(units.Preferred(st.Dim, st.Tag))
		}
	}
	return out
}

// givenIn is the unit of the quantity that has a name on the page, if it has one.
func (s *settler) givenIn(name string) *units.Unit {
	d, ok := s.planner.Names.Lookup(name)
	if !ok || d.Failed() || d.Kind != plan.Quantity || s.planner.Static(d.Slot).Dim.IsOne() {
		return nil
	}
	return d.Unit
}

// senseOf is the least sense that what goes with the name makes where the name is what a
// static says, and the dimension of the last.
//
// Of several curves the one that makes least sense counts: each has the name at the same places.
func (s *settler) senseOf(v *varied, of run.Static) (least sense, dim units.Dim) {
	m := s.Planner.Mark()
	defer s.Planner.Cut(m)
	least = fitting
	for i, x := range v.of {
		got := s.Planner.CompileOf(s.Entry.Text, []string{v.put}, []run.Static{of}, syntax.Unplaced(x))
		if !got.OK || slices.ContainsFunc(got.Findings, func(f finding.Finding) bool { return f.Severity <= finding.Mismatch }) {
			return none, dim
		}
		dim = got.Static.Dim
		if i < len(v.in) && v.in[i].Present() {
			if u := s.Page.Unit(v.in[i]); u == nil || u.Dim() != dim {
				return none, dim
			}
			continue
		}
		name := ""
		if c, ok := x.(*syntax.Call); ok {
			name = c.Func
		}
		makes, _ := graded(name, dim, got.Static.Tag)
		least = min(least, makes)
	}
	return least, dim
}
