package lab

import (
	"math"
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/eval"
	"steelyard/units"
	"steelyard/units/writing"
)

// column is a list of readings that stands in a model by its name.
//
// What is known of it is known of one reading: the model is planned for one point, and runs
// over all of them.
type column struct {
	name   string
	def    *plan.Def
	static run.Static // of one reading
}

// columnsOf are the lists that stand in expressions by their names, but for some names.
//
// They are told from other names by what the page has: a list is a reading for each point, one
// value is the same at every point. T = 2*π*√(m/k) has the columns T and m where k is asked
// for.
func columnsOf(l *eval.Line, but []string, of ...syntax.Expr) []column {
	var out []column
	for n := range syntax.Each[*syntax.Name](of...) {
		if slices.Contains(but, n.Name) || slices.ContainsFunc(out, func(c column) bool { return c.name == n.Name }) {
			continue
		}
		d, ok := l.Planner.Find(n)
		if !ok || d.Failed() || d.Kind != plan.Quantity {
			continue
		}
		if st := l.Planner.Static(d.Slot); st.Shape == run.List {
			st.Shape, st.Width = run.Scalar, 1
			out = append(out, column{n.Name, d, st})
		}
	}
	return out
}

// names are those of the parameters of a model.
func names(s *syntax.Fit) []string {
	var out []string
	for _, p := range s.Params {
		out = append(out, p.Name)
	}
	return out
}

// ofModel plans a model as a function of its parameters and of the readings of a point, and
// fits it.
//
// y and the model may hold several columns, and each of them as often as it likes: a point is
// a row through all of them. That is why they need names; a list that is written in the model
// has none by which its row could be taken.
func (f *fitting) ofModel() bool {
	f.y = f.Eval(f.s.Y, eval.Want{Lists: true, Shown: true})
	if !f.y.OK || !f.isReadings(f.s.Y, f.y) {
		return false
	}
	columns := columnsOf(f.Line, names(f.s), f.s.Y, f.s.Model)
	var slots []run.Slot
	for _, c := range columns {
		f.Uses([]*plan.Def{c.def}, f.s.Y.Span())
		if f.Planner.Static(c.def.Slot).Width != f.y.Static.Width {
			f.Find(plan.UnequalLists(f.s.Model.Span(), typeset.Text(f.s.Y), int(f.y.Static.Width), c.name, int(f.Planner.Static(c.def.Slot).Width)))
			return false
		}
		slots = append(slots, c.def.Slot)
		if x := (&syntax.Name{Name: c.name}); syntax.Holds(f.s.Model, c.name) && f.along == nil {
			f.along, f.x = x, eval.Got{Compiled: plan.Compiled{Slot: c.def.Slot}, Unit: c.def.Unit}
		}
	}
	if len(columns) == 0 {
		f.Find(finding.New(finding.WrongCall, f.s.Y.Span(), "The readings need a name here.", "Give them in a line above, as in `T = [0.45, 0.63] s`, or under `data`."))
		return false
	}
	planned, ok := f.planModel(columns)
	if !ok {
		return false
	}
	start, ok := f.starts(columns)
	if !ok {
		return false
	}
	f.work = &run.Fit{Params: len(f.params), Model: planned.Fn, Search: len(f.s.Start) == 0}
	if f.Planner.Unsure {
		f.work.Moves = f.Planner.Program.Moved(&f.State, slots...)
	}
	f.Doing("fitting "+writing.List(names(f.s), "and"), f.s.Params[0].NameAt)
	return f.enough() && f.allUncertain(slots...) && f.fitted(append(slots, start...))
}

// mostPlans is how often a model is planned until what is known of its parameters stays: a
// term may tell the dimension of one that is added to another.
//
// In A*x + B the term B has the dimension of y by the sum, and A by what is left; each time
// the model is planned, one more of them is known.
const mostPlans = 4

// planModel plans what is left of a point, and finds out the dimensions of the parameters.
//
// A dimension comes from what is written behind the name, else from its start value, else from
// the equation: both sides are of one kind, and so are the terms of a sum. A name that stands
// in a power or under a sine alone is told by none of these, and its unit is asked for.
func (f *fitting) planModel(columns []column) (plan.Planned, bool) {
	all := names(f.s)
	statics := f.Planner.Unknowns(len(all))
	for i, p := range f.s.Params {
		if p.In.Present() {
			u, ok := f.ReadUnit(p.In)
			if !ok {
				return plan.Planned{}, false
			}
			statics[i] = run.Static{Dim: u.Dim(), Tag: u.Tag(), Width: 1}
			f.params = append(f.params, param{p.Name, statics[i], u})
			continue
		}
		f.params = append(f.params, param{label: p.Name})
	}
	for _, b := range f.s.Start {
		i := slices.Index(all, b.Name)
		if got := f.Try(b.X); got.OK && got.Static.Open == 0 && f.params[i].unit == nil {
			statics[i] = run.Static{Dim: got.Static.Dim, Tag: got.Static.Tag, Width: 1}
			f.params[i].unit = f.UnitWithin(b.X, statics[i])
		}
	}
	var got plan.Planned
	for range mostPlans {
		of := slices.Clone(statics)
		with := slices.Clone(all)
		for _, c := range columns {
			of, with = append(of, c.static), append(with, c.name)
		}
		got = f.Planner.CompileOf(f.Entry.Text, with, of, f.s.Y, f.s.Model)
		open := false
		for i, st := range statics {
			statics[i] = f.Planner.Settled(st)
			open = open || statics[i].Open != 0
		}
		if !open || !got.OK {
			break
		}
	}
	f.Find(got.Findings...)
	f.Uses(got.Uses, f.s.Model.Span())
	if !got.OK {
		return got, false
	}
	for i, st := range statics {
		p := &f.params[i]
		switch {
		case !syntax.Holds(f.s.Model, p.label):
			f.Find(finding.New(finding.NotSolved, f.s.Params[i].NameAt, p.label+" isn't in the model.", "Fit a name that is."))
			return got, false
		case st.Open != 0:
			f.Find(finding.New(finding.NotSolved, f.s.Params[i].NameAt, "The model doesn't say the unit of "+p.label+".", "Write it after the name, as in `for "+p.label+" in m`."))
			return got, false
		}
		if p.static = st; p.unit == nil {
			p.unit = units.Preferred(st.Dim, st.Tag)
		}
	}
	return got, !got.Static.Absent
}

// starts are the start values of the parameters, as slots: those that are told, or else
// their natural scales.
//
// A start that is told is taken as it is, and only the hollow that it lies in is searched: who
// tells one knows of several. Without, many places about the scales are tried.
func (f *fitting) starts(columns []column) ([]run.Slot, bool) {
	out := make([]run.Slot, len(f.params))
	if len(f.s.Start) == 0 {
		for i, p := range f.params {
			out[i] = f.Planner.Emit(run.Instr{Op: ops.Const, K: f.scale(p.static.Dim, columns)}, p.static)
		}
		f.CatchUp()
		return out, true
	}
	for i, p := range f.params {
		at := slices.IndexFunc(f.s.Start, func(b syntax.Binding) bool { return b.Name == p.label })
		if at < 0 {
			f.Find(finding.New(finding.WrongCall, f.s.Start[0].NameAt, p.label+" has no start value.", "Write one for each name, or none."))
			return nil, false
		}
		b := f.s.Start[at]
		got := f.Eval(b.X, eval.Want{})
		if !got.OK {
			return nil, false
		}
		st := f.Planner.SettleTo(got.Slot, p.static.Dim)
		if st.Dim != p.static.Dim {
			f.Find(finding.New(finding.UnlikeDimensions, b.X.Span(), p.label+" is "+plan.Words(p.static)+"; its start value is "+plan.Words(st)+".", "Use a unit of the same kind."))
			return nil, false
		}
		out[i] = got.Slot
	}
	return out, true
}

// mostPower is the greatest power of a list that natural scales are made of, and halves
// counts them.
const mostPower, halves = 4, 2

// scale is a number of the size that readings give a dimension: powers of what is fitted
// and of one of the other lists.
//
// A rate of T over m is some T/m: of all products of powers that have the dimension, the one
// of the smallest powers is taken. The start may be off by a good deal: many places about it
// are tried.
func (f *fitting) scale(d units.Dim, columns []column) float64 {
	size := func(s run.Slot) float64 {
		most := 0.0
		for _, v := range f.State.Elements(s) {
			most = max(most, v, -v)
		}
		if most == 0 {
			return 1
		}
		return most
	}
	y, sizeY := f.y.Static.Dim, size(f.y.Slot)
	best, scale := 2*mostPower*halves+1, 1.0
	for _, c := range columns {
		x, sizeX := c.static.Dim, size(c.def.Slot)
		for a := -mostPower * halves; a <= mostPower*halves; a++ {
			for b := -mostPower * halves; b <= mostPower*halves; b++ {
				powers := max(a, -a) + max(b, -b)
				if powers >= best || y.Pow(units.NewExp(a, halves)).Mul(x.Pow(units.NewExp(b, halves))) != d {
					continue
				}
				best, scale = powers, math.Pow(sizeY, float64(a)/halves)*math.Pow(sizeX, float64(b)/halves)
			}
		}
	}
	return scale
}
