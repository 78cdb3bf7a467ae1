package reading

import (
	"cmp"
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// maxOffers is how many readings are shown.
const maxOffers = 3

// Enter works a text out on trial as if it were the line; ruled tells whether it
// must stand by the rules of this package too.
type Enter func(text string, ruled bool) *entry.Entry

// Verdict is what becomes of a line.
type Verdict struct {
	// Refused tells that the line is not worked out.
	Refused bool
	// Findings say why, or what is worth a look; Slip tells that they replace
	// what else is found wrong.
	Findings []finding.Finding
	Slip     bool
	// Nameless tells that the line gives no name, whatever its left side is; IfFailed, that it
	// does not if it has no value: mg = ρ_w*g*A*d, where m and g have values, and A has none.
	Nameless, IfFailed bool

	try    Enter
	solved bool // the line is read as a solve
	fits   bool // a reading has the unit that the line asks for: no slip is to be looked for
}

// refuse refuses a line for what was found, and caution lets it stand with a word on it.
func refuse(f finding.Finding) Verdict {
	return Verdict{Refused: true, Findings: []finding.Finding{f}}
}

func caution(f finding.Finding) Verdict {
	f.Severity = finding.Caution
	return Verdict{Findings: []finding.Finding{f}}
}

// found tells whether a rule has something to say of the line.
func (v *Verdict) found() bool { return v.solved || len(v.Findings) > 0 }

// first asks rules in the order of their precedence: the first that finds something speaks.
func first(rules ...func() Verdict) (v Verdict) {
	for _, rule := range rules {
		if v = rule(); v.found() {
			break
		}
	}
	return v
}

// whole is a finding about all of the line.
func (s *settler) whole(id finding.ID, message, hint string, readings ...string) finding.Finding {
	return finding.New(id, syntax.Span{To: len(s.Entry.Text)}, message, hint, readings...)
}

// settler settles one line.
type settler struct {
	scope
	*eval.Line
	try     Enter
	offered bool  // readings are wanted
	least   sense // that a reading must make to count
	known   func(name string) bool
	typed   *weighed // the line as it is typed
	// nameless tells that a word on the left is a product, unless the line has a value.
	nameless bool
	letters  lettersIn
	calls    bool   // there may be calls in the line
	claimed  *claim // of the line as it is typed
	plans    []run.Instr
	scale    *scale // what was weighed last, as one question may lead to the next
}

// scale is a line and its readings, weighed.
type scale struct {
	open *syntax.Open
	all  []weighed // the line first
}

// read reads the text of a reading; nil if it can't be read.
func (s *settler) read(r *syntax.Reading) syntax.Stmt {
	return r.Parse(s.roomOf())
}

func (s *settler) enter(text string) *entry.Entry { return s.try(text, false) }

// Known tells what is a name, for a reader of the next line.
func Known(p *eval.Page) func(string) bool { return scopeOf(p).Known }

// Settle finds what becomes of a line. Offers tells whether readings are wanted
// with a refusal.
//
// It is asked of each line that is read, after the line has been worked out by the rules, and of
// each that can't be. Nearly all have nothing open, and are let go by a look at their tree.
func Settle(l *eval.Line, try Enter, offers bool) Verdict {
	s := &settler{scope: scopeOf(l.Page), Line: l, try: try, offered: offers, least: odd}
	v := s.settle()
	if again := s.valueAgain(&v); again.settles() {
		return again
	}
	v.IfFailed = s.nameless
	return v
}

func (s *settler) settle() Verdict {
	var v Verdict
	if s.Entry.Stmt == nil {
		v = first(s.parallels, s.joined, s.chained, s.functionAt)
	} else {
		v = first(s.parallels, s.besideFunction)
	}
	if v.found() {
		return v
	}
	left := s.product()
	if left.Refused || left.solved {
		return left
	}
	v, holds := s.open()
	if v.solved || v.Refused || v.Slip || s.Entry.Stmt == nil {
		return v
	}
	if holds.Units {
		if unit := first(s.behindNumber, s.prefixed); unit.found() {
			return unit
		}
	}
	s.calls = holds.Calls
	if all := first(s.functionAgain, s.convertedHere, s.degrees, s.bare); all.found() {
		return all
	}
	var hidden Verdict
	if holds.Words {
		if hidden = s.hidden(); hidden.Refused {
			return hidden
		}
	}
	v.Findings = slices.Concat(v.Findings, left.Findings, s.wasProduct(), hidden.Findings)
	return v
}

// open settles what print leaves open in the line. Of a line that can be read it
// tells what it may hold.
func (s *settler) open() (v Verdict, holds syntax.Holding) {
	text, stmt := s.Entry.Text, s.Entry.Stmt
	if stmt != nil {
		var may bool
		if may, holds = syntax.MayBeOpen(stmt, &s.scope); !may {
			return Verdict{}, holds
		}
		if s.alone(stmt) {
			return s.namesake(stmt), holds
		}
	}
	if stmt == nil && (s.lacksPower() || s.twoNumbers()) {
		return Verdict{}, holds
	}
	clauses := syntax.GluedClauses
	if s.misplaced(stmt) {
		clauses = syntax.AllClauses
	}
	open := syntax.OpenClauses(text, stmt, &s.scope, clauses)
	if stmt != nil && open.InClause && len(open.Words) > 0 && s.weighStmt(syntax.Reading{Text: text}, stmt).sense == none {
		open = syntax.OpenIn(text, stmt, &s.scope) // what is wrong with a clause is told of it
	}
	if stmt == nil && entry.BeginsWith(text) == "" {
		if equation := s.equationIn(text, false); equation.Equation {
			open = equation
		}
	}
	if s.asOnly(&open) || stmt == nil && s.asOnly(s.mended()) {
		return Verdict{}, syntax.HoldingOf(s.Entry.Stmt)
	}
	if len(open.Readings) == 0 {
		return Verdict{}, holds
	}
	return s.verdict(&open), holds
}

// lacksPower tells whether all that is wrong with a line is a power of a unit without its
// sign, m s-2: the digit is no number that is taken away, whatever names the page has.
func (s *settler) lacksPower() bool {
	return len(s.Entry.Findings) == 1 && syntax.LacksPower(s.Entry.Text, &s.Entry.Findings[0])
}

// twoNumbers tells whether a line that can't be read has been found to have a number that
// may be meant in several ways: 3 x 4, also where x is a name.
func (s *settler) twoNumbers() bool {
	return slices.ContainsFunc(s.Entry.Findings, func(f finding.Finding) bool { return f.ID == finding.BadNumber && len(f.Readings) > 1 })
}

// alone tells whether a line is one quantity, with a blank before its unit, that no
// reading can outweigh: t = 2 s, where s is given too. A number directly before g is in
// grams where no line gives g, unless the name is an acceleration, or a force, which may
// be meant as a mass times g.
func (s *settler) alone(stmt syntax.Stmt) bool {
	name, x, in := syntax.AsResult(stmt)
	q, ok := x.(*syntax.Quantity)
	if in.Present() {
		return false
	}
	if ok && q.Unit.Text == "g" && s.isGram(name) {
		return true
	}
	if !ok || q.Unit.At.From == 0 || s.Entry.Text[q.Unit.At.From-1] != ' ' || strings.ContainsAny(q.Unit.Text, " ·") {
		return false
	}
	u, bad := s.Planner.Unit(q.Unit, units.AfterNumber)
	if bad != nil {
		return false
	}
	sense, speaks := graded(name, u.Dim(), u.Tag())
	return sense == fitting || sense == plain && !speaks && !s.Known(q.Unit.Text)
}

// verdict weighs the readings of a line against the one by the rules.
//
// The readings by sense: where the rules' own makes more than each of the others, the line stands;
// where another makes as much or more, it is refused with those as offers. No other reading is
// taken here, however much sense it makes: that is for asOnly and solveAlone, which need proof.
func (s *settler) verdict(open *syntax.Open) Verdict {
	rule, every := s.weighAll(open)
	all := make([]weighed, 0, len(every))
	best := none // of the readings that are not the one by the rules
	for i := range every {
		w := &every[i]
		if w.sense < s.least || w.clashes && !rule.clashes || w.among(all) {
			continue
		}
		if !rule.same(w) {
			best = max(best, w.sense)
		}
		all = append(all, *w)
	}
	if open.Apart {
		all = slices.DeleteFunc(all, func(w weighed) bool { return w.sense < best })
	}
	if open.Equation && best > none {
		slices.SortStableFunc(all, func(a, b weighed) int { return cmp.Compare(b.sense, a.sense) })
		if v := s.solveAlone(all); v.found() {
			return v
		}
	}
	if open.Equation && best == none && rule.sense == none {
		if v := s.unsolvable(every); v.found() {
			return v
		}
	}
	switch {
	case best == none, rule.sense > best && !open.Many:
		return s.despiteNames(&rule, all, open)
	case rule.sense == best && open.Within && setOff(&rule, all, open):
		return s.readAsUnit(&rule, all, open)
	case rule.sense == odd && (best == plain || open.Bracket != (syntax.Span{})) && open.Within && !slices.Contains(open.SetOff, false) && s.mayBeShare(all):
		return s.readAsMeasured(&rule, all, open)
	case !s.offered:
		return refuse(s.finding(open, nil))
	}
	asked := all
	if with := s.withUnits(all); len(with) > 0 {
		asked = append(with, all...)
	}
	offers := s.offers(asked)
	if v := s.valueless(&rule, max(best, rule.sense), all, offers); v.found() {
		return v
	}
	ruled := func(w weighed) bool { return w.Text == offers[0] && rule.same(&w) }
	if rule.sense > none && (len(offers) == 0 || len(offers) == 1 && slices.ContainsFunc(all, ruled)) {
		for i := range all {
			if v := s.lettered(all[i].Text, all[i].stmt); v.Refused {
				return v
			}
		}
	}
	if len(offers) == 0 || rule.sense > none && len(offers) == 1 && offers[0] == s.Entry.Text {
		return Verdict{}
	}
	f := s.finding(open, offers)
	if open.Equation && !open.Posed && len(offers) == 1 {
		s.findAnew(&f, offers[0])
	}
	if open.Equation && !open.Posed {
		s.checkToo(&f)
	}
	return Verdict{Refused: rule.sense > none, Slip: rule.sense == none, fits: best == fitting, try: s.try, Findings: []finding.Finding{s.withCaution(f)}}
}

// usualPlan is for how many instructions of a reading there is room.
const usualPlan = 8

// weighAll weighs a line, unless it is an equation and no statement, and its readings. One
// makes little sense where a letter that the line is to depend on does nothing, though in
// another reading it does.
func (s *settler) weighAll(open *syntax.Open) (rule weighed, readings []weighed) {
	if s.scale != nil && s.scale.open == open {
		return s.scale.all[0], s.scale.all[1:]
	}
	all := make([]weighed, 1+len(open.Readings))
	if !open.Equation {
		all[0] = s.weighStmt(syntax.Reading{Text: s.Entry.Text}, s.Entry.Stmt)
	}
	s.plans = slices.Grow(s.plans, len(open.Readings)*max(len(all[0].plan)+2, usualPlan))
	most, least := min(all[0].sense, odd), all[0].idle // of the readings that make most sense
	for i, r := range open.Readings {
		w := &all[i+1]
		if open.Equation || r.Text != s.Entry.Text {
			*w = s.weigh(r)
		} else {
			*w = all[0]
			w.Reading = r
		}
		w.unlikely = w.unlikely || w.twofold(open) || w.findsOther()
		switch sense := min(w.sense, odd); {
		case sense > most:
			most, least = sense, w.idle
		case sense == most:
			least = min(least, w.idle)
		}
	}
	for i := range all {
		if all[i].idle > least {
			all[i].sense = min(all[i].sense, odd)
		}
	}
	s.scale = &scale{open, all}
	return all[0], all[1:]
}

// Told tells whether what was found wrong with a line says already what is offered
// here. If not, a line that can't be read or worked out is told of the offers alone;
// a mismatch is told first.
func (v *Verdict) Told(l *eval.Line) bool {
	var wrong []finding.Finding
	for i, f := range l.Entry.Findings {
		switch {
		case f.Severity == finding.Mismatch:
			if v.fits {
				l.Entry.Findings[i].Hint, l.Entry.Outcome = "", nil // it is none of those offered
			}
			return false
		case f.Severity == finding.Error:
			wrong = append(wrong, f)
		}
	}
	if len(wrong) == 1 && v.says(l, &wrong[0]) {
		return true
	}
	l.Entry.Findings = nil
	return false
}

// says tells whether a line put right as a finding says is the one that is offered.
func (v *Verdict) says(l *eval.Line, f *finding.Finding) bool {
	if len(f.Readings) != 1 || len(v.Findings[0].Readings) != 1 {
		return false
	}
	s := &settler{scope: scopeOf(l.Page), Line: l, try: v.try}
	put := func(f *finding.Finding) syntax.Reading {
		at, reading := syntax.InPlace(l.Entry.Text, f.At, f.Readings[0])
		return syntax.Reading{Text: l.Entry.Text[:at.From] + reading + l.Entry.Text[at.To:]}
	}
	mended, offered := s.weigh(put(f)), s.weigh(put(&v.Findings[0]))
	return mended.same(&offered)
}

// valueless refuses a line where the reading that makes most sense, or as much as the
// rules' own, has no value, as √(2*a*L) where a is negative: its plan is as good as if
// it had one, and the line is not to be read in another way for it.
func (s *settler) valueless(rule *weighed, most sense, all []weighed, offers []string) Verdict {
	for i := range all {
		w := &all[i]
		if w.sense < most || rule.same(w) || slices.Contains(offers, w.Text) {
			continue
		}
		x, in, ok := s.result(w.stmt)
		if !ok {
			continue
		}
		if got := s.Try(s.Counted(x, in)); got.OK || got.Slot == run.NoSlot {
			continue
		}
		for _, why := range s.enter(w.Text).Findings {
			if why.Severity == finding.Error {
				f := s.whole(finding.TwoReadings, "Read as `"+w.Text+"`, this line has no value: "+why.Message, why.Hint, offers...)
				return Verdict{Refused: rule.sense > none, Slip: rule.sense == none, Findings: []finding.Finding{f}}
			}
		}
	}
	return Verdict{}
}

// stands tells whether a reading would be taken if it were entered, and its values. A
// result that is open no more, and has no turns in it, is only worked out.
func (s *settler) stands(w *weighed) ([]entry.Value, bool) {
	if x, in, ok := s.result(w.stmt); ok && !w.turns && !s.mayBeOpen(w.stmt) && !s.namesProduct(w.stmt) {
		if v := s.lettered(w.Text, w.stmt); v.Refused {
			return nil, false
		}
		got := s.Try(s.Counted(x, in))
		if !got.OK || got.Static.Absent {
			return nil, got.OK
		}
		return []entry.Value{{SI: got.Value, Dim: got.Static.Dim}}, true
	}
	e := s.try(w.Text, true)
	return e.Values(), worst(e) > finding.Mismatch
}

// namesProduct tells whether a line gives a name that may be a product: mgh.
func (s *settler) namesProduct(stmt syntax.Stmt) bool {
	d, ok := stmt.(*syntax.Define)
	return ok && !s.Known(d.Name) && s.mayBeProduct(d.Name)
}

func (s *settler) mayBeOpen(stmt syntax.Stmt) bool {
	open, _ := syntax.MayBeOpen(stmt, &s.scope)
	return open
}

// result takes a plain result apart: no given, and no name of another kind.
func (s *settler) result(stmt syntax.Stmt) (x syntax.Expr, in syntax.UnitText, ok bool) {
	_, x, in = syntax.AsResult(stmt)
	ok = x != nil
	if define, named := stmt.(*syntax.Define); named {
		d, given := s.Planner.Names.Lookup(define.Name)
		ok = !define.Plain() && (!given || d.Kind == plan.Quantity)
	}
	switch x.(type) {
	case *syntax.With, *syntax.SlopeOf, *syntax.AreaUnder:
		ok = false
	}
	return x, in, ok
}
