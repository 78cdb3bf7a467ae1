package reading

import (
	"math"
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// sense is how much sense a reading makes.
type sense uint8

const (
	none    sense = iota // it can't be worked out
	odd                  // its quantity has no name, or another than the symbol on the left
	plain                // its quantity has a name, and nothing says more
	fitting              // it fits what the line says: its `in`, or the symbol on the left
)

// weighed is a reading with the sense that it makes and its plan.
type weighed struct {
	syntax.Reading
	stmt  syntax.Stmt
	sense sense
	plan  []run.Instr // of one expression
	sum   uint64      // of the plan: two plans with different sums differ
	shape string      // of a statement of several
	dim   units.Dim   // of the value
	// speaks tells that the line says what quantity it is.
	speaks bool
	// turns tells that there may be turns in it.
	turns bool
	// clashes tells that the units of a function's body disagree, whatever its
	// arguments are.
	clashes bool
	// idle is how many names that it is to depend on it does not depend on.
	idle int
	// unlikely tells of readings with the same sense which come last: the sides of an
	// equation are no quantity that has a name, or a letter is a name here and a unit
	// there.
	unlikely bool
}

// same tells whether two readings are one: their plans are.
func (w *weighed) same(o *weighed) bool {
	if w.sense == none || o.sense == none {
		return false
	}
	return w.sum == o.sum && w.shape == o.shape && slices.Equal(w.plan, o.plan)
}

// among tells whether a reading is one of several.
func (w *weighed) among(all []weighed) bool {
	for i := range all { // a copy of each would cost more than the look
		if all[i].same(w) {
			return true
		}
	}
	return false
}

// sumOf is a sum over a plan (FNV-1a over the fields of its instructions).
//
// FNV-1a is that of Fowler, Noll and Vo, with the offset and the prime for 64 bits (from memory).
// It spares comparing plans that differ, and decides nothing: same compares them.
func sumOf(plan []run.Instr) uint64 {
	sum := uint64(14695981039346656037)
	for i := range plan {
		in := &plan[i]
		for _, v := range [...]uint64{uint64(in.Op), uint64(in.A), uint64(in.B), uint64(in.C), math.Float64bits(in.K)} {
			sum = (sum ^ v) * 1099511628211
		}
	}
	return sum
}

// weigh finds how much sense a reading makes. What is planned for it is taken back.
//
// Nothing of it is kept on the page: each reading is planned on trial and cut off again.
func (s *settler) weigh(r syntax.Reading) weighed {
	stmt := s.read(&r)
	if d, ok := stmt.(*syntax.Define); ok && syntax.Holds(d.X, d.Name) && !s.isQuantity() {
		r = r.Named(d, d.Name+"2") // F = 2 F cos θ is another F
		stmt = s.read(&r)
	}
	return s.weighStmt(r, stmt)
}

// isQuantity tells whether the line gives a name a written quantity and no more.
func (s *settler) isQuantity() bool {
	d, ok := s.Entry.Stmt.(*syntax.Define)
	if !ok || !d.Plain() {
		return false
	}
	q, ok := d.X.(*syntax.Quantity)
	return !ok || s.IsUnit(q.Unit.Text)
}

// weighStmt is weigh for a reading that has been read.
func (s *settler) weighStmt(r syntax.Reading, stmt syntax.Stmt) weighed {
	if stmt == nil || stmt != s.Entry.Stmt {
		return s.weighAnew(r, stmt)
	}
	if s.typed == nil || s.typed.stmt != stmt {
		w := s.weighAnew(r, stmt)
		s.typed = &w
	}
	w := *s.typed
	w.Reading = r
	return w
}

// weighAnew is weighStmt for a reading that has not been weighed before.
func (s *settler) weighAnew(r syntax.Reading, stmt syntax.Stmt) weighed {
	w := weighed{Reading: r, stmt: stmt}
	if stmt == nil {
		return w
	}
	name, x, in := syntax.AsResult(stmt)
	if solve, ok := stmt.(*syntax.Solve); ok {
		name = solve.Unknowns[0].Name
	}
	switch x.(type) {
	case nil, *syntax.With, *syntax.SlopeOf, *syntax.AreaUnder:
		s.weighEntered(&w, name, in)
	default:
		s.weighOne(&w, name, x, in)
	}
	return w
}

// weighEntered weighs a line that is not one expression alone: it is entered on
// trial.
//
// A check, a solve or a graph is more than one expression, so that its parts must agree; what the
// statement itself would say to them is asked of it.
func (s *settler) weighEntered(w *weighed, name string, in syntax.UnitText) {
	e := s.enter(w.Text)
	if len(w.stmt.Exprs()) == 0 || worst(e) <= finding.Mismatch && !asksWhich(e) {
		return
	}
	w.sense, w.idle = plain, syntax.Idle(w.stmt)
	if f, ok := w.stmt.(*syntax.FuncDef); ok {
		w.speaks = f.In.Present() || units.Speaks(f.Name)
		w.clashes = f.X != nil && s.clashes(f, w.Text)
		if w.speaks && !w.clashes && f.X != nil {
			if fits, _, _ := s.fittingOf(f, w.Text, nil); fits {
				w.sense = fitting // where its arguments are what their symbols are used for
			}
		}
	} else if v := e.Values(); len(v) == 1 {
		w.dim = v[0].Dim
		w.sense, w.speaks = graded(name, v[0].Dim, v[0].Tag)
		if w.findsOther() {
			w.sense = odd
		}
		if s.findsProduct(w) {
			w.sense = none
		}
		if in.Present() {
			w.sense, w.speaks = fitting, true
		}
	} else if solve, ok := w.stmt.(*syntax.Solve); ok {
		for i := range min(len(v), len(solve.Unknowns)) {
			as, _ := graded(solve.Unknowns[i].Name, v[i].Dim, v[i].Tag)
			w.sense = min(w.sense, as)
		}
	}
	if sides := s.claimOf(w.stmt).of; len(sides) == 2 {
		w.unlikely = !slices.ContainsFunc(sides, s.isNamed) || slices.ContainsFunc(e.Findings, func(f finding.Finding) bool { return f.ID == finding.CheckFailed })
	}
	for _, b := range syntax.Placed(w.stmt) {
		if got := s.Try(b.X); got.Slot != run.NoSlot {
			as, _ := graded(b.Name, got.Static.Dim, got.Static.Tag)
			w.sense = min(w.sense, max(as, odd)) // litres for a length s
		}
	}
	if solve, ok := w.stmt.(*syntax.Solve); ok {
		w.shape = solve.Unknowns[0].Name + ":" // and no check of the same sides
	}
	for _, x := range w.stmt.Exprs() {
		w.shape += syntax.Shape(x) + ";"
	}
}

// findsOther tells of a solve whether what comes out is nothing that the symbol is used for:
// the number c of sin(θ*c), beside an angle θc.
func (w *weighed) findsOther() bool {
	solve, ok := w.stmt.(*syntax.Solve)
	return ok && w.speaks && !units.Customary(solve.Unknowns[0].Name, w.dim)
}

// findsProduct tells of a solve whether its unknown is rather so many of a given: mλ, a length.
func (s *settler) findsProduct(w *weighed) bool {
	solve, ok := w.stmt.(*syntax.Solve)
	if !ok {
		return false
	}
	parts, lacking, ok := syntax.Apart(solve.Unknowns[0].Name, s.Known, units.IsSymbol)
	return ok && s.timesKind(parts, lacking, w.dim)
}

// asksWhich tells whether a line is refused only for not saying which of several roots is
// meant: what it says makes sense.
func asksWhich(e *entry.Entry) bool {
	return !slices.ContainsFunc(e.Findings, func(f finding.Finding) bool {
		return f.Severity <= finding.Mismatch && f.ID != finding.WhichRoot
	})
}

// isNamed tells whether an expression is a quantity that has a name.
func (s *settler) isNamed(x syntax.Expr) bool {
	got := s.Try(x)
	_, named := units.KindOf(got.Static.Dim, got.Static.Tag)
	return got.Slot != run.NoSlot && named
}

// twofold tells whether a letter is read as a name in one place and as a unit in another.
func (w *weighed) twofold(open *syntax.Open) bool {
	for i, word := range open.Words {
		k := slices.Index(open.Words, word)
		if len(open.Words) == len(open.SetOff) && slices.Contains(w.Names, i) != slices.Contains(w.Names, k) {
			return true
		}
	}
	return false
}

// clashes tells whether no dimensions of its arguments make the units of a
// function's body agree: those are left open until a call.
//
// In f(x) = x + 3 m + 2 s no x makes the sum agree; of x + x^2 a pure number does.
func (s *settler) clashes(f *syntax.FuncDef, text string) bool {
	m := s.Planner.Mark()
	defer s.Planner.Cut(m)
	return !s.Planner.CompileOf(text, f.Params, s.Planner.Unknowns(len(f.Params)), f.X).OK
}

// accepted tells whether a line would stand by the rules of this package too.
func (s *settler) accepted(text string) bool { return worst(s.try(text, true)) > finding.Mismatch }

// worst is the heaviest of the findings of an entry, but for what it needs of
// lines above that failed.
func worst(e *entry.Entry) finding.Severity {
	out := finding.Note
	for _, f := range e.Findings {
		if f.ID != finding.NotWorkedOut {
			out = min(out, f.Severity)
		}
	}
	return out
}

// weighOne weighs a line of one expression.
func (s *settler) weighOne(w *weighed, name string, x syntax.Expr, in syntax.UnitText) {
	p := s.Planner
	m := p.Mark()
	c := p.CompileOnTrial(s.Counted(x, in), w.Text, name)
	defer p.Cut(m)
	if c.Slot == run.NoSlot {
		return
	}
	w.sense, w.speaks = s.gradedAs(name, in, c.Slot)
	w.turns = in.Present() || s.Turning(c.Uses)
	w.dim = p.Static(c.Slot).Dim
	from := len(s.plans)
	s.plans = append(s.plans, p.Program.Main.Instrs[m.Start():]...)
	w.plan = s.plans[from:len(s.plans):len(s.plans)]
	w.sum = sumOf(w.plan)
}

// gradedAs is the sense of a value in a line with a name on its left and a unit
// after its `in`.
func (s *settler) gradedAs(name string, in syntax.UnitText, slot run.Slot) (sense, bool) {
	st := s.Planner.Static(slot)
	if in.Present() {
		u, bad := s.Planner.Unit(in, units.AloneInPlace)
		if bad != nil {
			return none, true
		}
		st = s.Planner.SettleTo(slot, u.Dim())
		if st.Dim != u.Dim() || st.Tag.Clashes(u.Tag()) {
			return none, true
		}
		return fitting, true
	}
	return graded(name, st.Dim, st.Tag)
}

// graded is the sense of a value in a line with a name on its left.
//
// A pure number is plain even for an F: half of what is worked out on a page is a ratio.
func graded(name string, dim units.Dim, tag units.Tag) (sense, bool) {
	switch speaks := units.Speaks(name); {
	case speaks && units.Customary(name, dim):
		return fitting, true
	case dim.IsOne():
		return plain, speaks
	case speaks:
		return odd, true
	}
	if _, named := units.KindOf(dim, tag); !named {
		return odd, false
	}
	return plain, false
}
