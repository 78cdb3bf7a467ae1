package lab

import (
	"strconv"

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

// fitting is a fit while it is worked out.
//
// A line and a model differ in what is planned for them; the work, and what is told of it, is
// one.
type fitting struct {
	*eval.Line
	s      *syntax.Fit
	y, x   eval.Got
	along  syntax.Expr // what x is in words of the line; nil for a model without
	params []param
	work   *run.Fit
}

// param is a parameter: what it is called, what is known of it and the unit in which it
// is shown.
type param struct {
	label  string
	static run.Static
	unit   *units.Unit
}

// Fit fits a straight line or a model by least squares: its parameters are results.
func Fit(l *eval.Line, s *syntax.Fit) {
	f := &fitting{Line: l, s: s}
	work := f.ofLine
	if s.Model != nil {
		work = f.ofModel
	}
	if !work() {
		f.fails()
	}
}

// fails leaves the names of the line without a value.
func (f *fitting) fails() {
	for _, n := range f.s.Defines() {
		if d, ok := f.Planner.Names.Lookup(n.Name); !ok || d.Line != f.Entry.Line {
			f.Fail(&plan.Def{Name: n.Name, Kind: plan.Quantity, Slot: run.NoSlot}, nil)
		}
	}
}

// readings works the two quantities out; false, which is found, unless they are lists of
// one length.
//
// A line over °C is fitted over what each is above 0 °C: its intercept then is what a reader
// sees where it meets the axis. Over kelvins that would be far outside the paper.
func (f *fitting) readings() bool {
	f.y = f.Eval(f.s.Y, eval.Want{Lists: true, Shown: true})
	f.x = f.Eval(f.s.X, eval.Want{Lists: true, Shown: true})
	if !f.x.OK || !f.y.OK {
		return false
	}
	if !f.isReadings(f.s.Y, f.y) || !f.isReadings(f.s.X, f.x) {
		return false
	}
	f.along = f.s.X
	if nx, ny := int(f.x.Static.Width), int(f.y.Static.Width); nx != ny {
		f.Find(plan.UnequalLists(f.s.Y.Span().Join(f.s.X.Span()), typeset.Text(f.s.Y), ny, typeset.Text(f.s.X), nx))
		return false
	}
	if f.x.Unit.Affine() { // what is above 0 °C, where a line meets its axis
		above := f.Eval(f.above(), eval.Want{Lists: true, Silent: true})
		f.x.Slot, f.x.Static = above.Slot, above.Static
	}
	return f.varies()
}

// isReadings tells whether something is a list, and says so where it is not.
func (f *fitting) isReadings(x syntax.Expr, got eval.Got) bool {
	if got.Static.Shape != run.List {
		f.Find(noReadings(x, got.Static, "a fit needs lists of readings."))
	}
	return got.Static.Shape == run.List
}

// noReadings says what is where readings are to be.
func noReadings(x syntax.Expr, st run.Static, needed string) finding.Finding {
	is, hint := plan.ShapeName(st), "Write them as a list, or under `data`."
	switch n, ok := x.(*syntax.Name); {
	case st.Shape == run.Scalar:
		is = "one value"
	case st.Shape == run.Vectors && ok && n.Line == 0:
		return finding.New(finding.WrongCall, x.Span(), n.Name+" is "+is+"; "+needed, "Take one of its components, or the magnitudes.", n.Name+"_x", n.Name+"_y", "|"+n.Name+"|")
	}
	return finding.New(finding.WrongCall, x.Span(), typeset.Text(x)+" is "+is+"; "+needed, hint)
}

// varies tells whether the readings leave a line to be found, and says so where they all
// are at one place.
func (f *fitting) varies() bool {
	all := f.State.Elements(f.x.Slot)
	if len(all) == 1 {
		return true // too few, whatever they are
	}
	for _, v := range all {
		if v != all[0] || f.s.Through && v != 0 {
			return true
		}
	}
	f.Find(finding.New(finding.WrongCall, f.s.X.Span(), "All values of "+typeset.Text(f.s.X)+" are the same, so there is no line.", "Take readings at different values of it."))
	return false
}

// above is a temperature in °C as what it is above 0 °C.
func (f *fitting) above() syntax.Expr {
	nought, _ := units.ParseDecimal("0")
	at := f.s.X.Span()
	return &syntax.Binary{At: at, OpFrom: at.From, Op: syntax.Sub, X: f.s.X,
		Y: &syntax.Quantity{At: at, Value: nought, Unit: syntax.UnitText{Text: f.x.Unit.Text(), At: at}}}
}

// ofLine fits a straight line.
func (f *fitting) ofLine() bool {
	if !f.readings() {
		return false
	}
	f.lineParams()
	f.ofReadings(len(f.params))
	return f.enough() && f.allUncertain(f.y.Slot, f.x.Slot) && f.fitted([]run.Slot{f.y.Slot, f.x.Slot})
}

// ofReadings begins the work of a line: each point counts by its uncertainties.
//
// What moves x moves y by the slope, so that both count; and what moves both at once, as one
// reading that both were worked out from, counts once (JCGM 100:2008, 5.2).
func (f *fitting) ofReadings(params int) {
	f.work = &run.Fit{Params: params, Model: -1}
	if f.Planner.Unsure {
		if of := f.Planner.Program.Moved(&f.State, f.y.Slot, f.x.Slot); of != nil {
			f.work.Moves = of
			f.work.UY, f.work.UX, f.work.UXY = run.Uncertainties(of)
		}
	}
}

// fitted does the work and gives the parameters to the entry.
func (f *fitting) fitted(args []run.Slot) bool {
	statics := make([]run.Static, len(f.params))
	for i, p := range f.params {
		statics[i] = p.static
	}
	slots := f.Planner.EmitFit(f.work, args, statics)
	f.CatchUp()
	got, ok := f.Planner.Program.Fitted(&f.State, slots[0])
	if !ok {
		f.HasValue(slots[0])
		return false
	}
	q := f.quality(got)
	f.uncertain(slots, q.Covariance)
	for i, s := range slots {
		if !f.gives(i, s) {
			return false
		}
	}
	f.tells(got, q)
	return true
}

// lineParams says what is known of the slope and the intercept.
func (f *fitting) lineParams() {
	y, x := f.y.Static, f.x.Static
	slope := run.Static{Dim: y.Dim.Div(x.Dim), Tag: units.ProductTag(y.Dim, y.Tag, x.Dim, x.Tag, true), Width: 1}
	f.params = []param{{"slope", slope, f.slopeUnit(slope)}}
	if !f.s.Through {
		y.Shape, y.Width = run.Scalar, 1
		f.params = append(f.params, param{"intercept", y, f.y.Unit})
	}
	for i, n := range f.s.As {
		f.params[i].label = n.Name
	}
}

// slopeUnit is the unit of the slope: that of y over that of x, mL/K for mL over °C.
func (f *fitting) slopeUnit(st run.Static) *units.Unit {
	var of units.Product
	if of.Times(f.y.Unit.OfDifference(), units.NewExp(1, 1)) && of.Times(f.x.Unit.OfDifference(), units.NewExp(-1, 1)) {
		if u := of.Per(st.Dim, st.Tag); u != nil {
			return u
		}
	}
	return units.Preferred(st.Dim, st.Tag)
}

// enough tells whether there are more points than parameters: what fits them all says
// nothing of how well it is known, unless the points themselves do.
func (f *fitting) enough() bool {
	least := len(f.params) + 1
	if f.work.Weighted() {
		least--
	}
	n := int(f.y.Static.Width)
	if n < least {
		f.Find(finding.New(finding.WrongCall, f.s.Y.Span(), "This goes through any "+writing.Count(n, "point")+", so nothing says how good the fit is.",
			"Use "+strconv.Itoa(least)+" points or more."))
	}
	return n >= least
}

// leastOff is the part of the greatest reading that an uncertainty is at least: readings are
// held to 16 figures, and what is less than their rounding says nothing of them.
const leastOff = 1e-15

// allUncertain tells whether all points have an uncertainty, or none: one without any
// would count for infinitely much. Those that have one are told by the slots that it is of.
func (f *fitting) allUncertain(of ...run.Slot) bool {
	if !f.work.Weighted() {
		return true
	}
	for i, u := range f.Planner.Program.Least(&f.State, f.work, of) {
		switch {
		case u == 0:
			f.Find(finding.New(finding.WrongCall, f.s.Y.Span(), "Point "+strconv.Itoa(i+1)+" has no uncertainty, and others have one.",
				"Give each reading one, or none."))
		case u < leastOff:
			f.Find(finding.New(finding.WrongCall, f.s.Y.Span(), "The uncertainty of point "+strconv.Itoa(i+1)+" is too small: numbers here have 16 figures, and it is beyond the last of its reading.",
				"Give each reading the uncertainty that it was measured with, or leave out all of them."))
		default:
			continue
		}
		return false
	}
	return true
}

// uncertain adds to each parameter what is uncertain of it.
//
// How the readings scatter is one source for each parameter, however many lines read it: the
// difference of a slope and itself is 0 and certain.
func (f *fitting) uncertain(slots []run.Slot, covariance [][]float64) {
	for i, of := range slots {
		st := f.params[i].static
		if covariance[i][i] > 0 {
			f.Planner.Unsure = true
			off := f.Planner.Emit(run.Instr{Op: ops.Scatter, A: of}, st)
			slots[i] = f.Planner.Emit(run.Instr{Op: ops.Add, A: of, B: off}, st)
		} else {
			slots[i] = f.Planner.Emit(run.Instr{Op: ops.Copy, A: of}, st)
		}
	}
	f.CatchUp()
}

// gives makes a result of a parameter.
func (f *fitting) gives(i int, s run.Slot) bool {
	p, d := f.params[i], eval.Unnamed()
	if given := f.s.Defines(); i < len(given) {
		n := given[i]
		if !f.MayDefine(n.Name, n.NameAt, plan.Quantity) {
			return false
		}
		f.GivenAgain(n.Name, n.NameAt, true)
		d.Name = n.Name
	}
	got := eval.Got{Compiled: plan.Compiled{Slot: s, Static: f.Planner.Static(s)}, Value: f.State.At(s), Unit: p.unit, OK: true}
	r := f.Answer(d, p.label, f.s.Y, got)
	if r == nil {
		return false
	}
	r.Shows, r.Records = true, true
	return true
}
