package reading

import (
	"math"
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// setOff tells whether a tie leaves quantities as they are: each letter that a
// reading of the same sense takes for a name is set off, in a bracket or on a right
// side that makes some sense.
//
// t = 2 h has the look of a quantity, on a page with a height h too: a blank, and nothing behind.
// A product would have its sign, or its letter directly at the number.
func setOff(rule *weighed, all []weighed, open *syntax.Open) bool {
	for i := range all {
		w := &all[i]
		if w.sense < rule.sense || rule.same(w) {
			continue
		}
		if w.GoesOn || len(w.Names) == 0 || slices.ContainsFunc(w.Names, func(k int) bool { return !open.SetOff[k] }) {
			return false
		}
	}
	return open.Bracket != (syntax.Span{}) || rule.sense > odd
}

// readAsUnit lets a line stand whose open letters are set off. In a bracket, and on the right
// side of a symbol, where nothing says what the quantity is, it says how it was read: G = 2 F,
// where F is a force of the page. A word is hardly a multiple of a symbol, nor is anything with
// decimals: length = 3 m, b = 0.90 m.
func (s *settler) readAsUnit(rule *weighed, all []weighed, open *syntax.Open) Verdict {
	if rule.speaks {
		return Verdict{}
	}
	other := func(w *weighed) bool { return w.sense == rule.sense && !rule.same(w) }
	if open.Bracket == (syntax.Span{}) {
		name, x, _ := syntax.AsResult(s.Entry.Stmt)
		if q, ok := x.(*syntax.Quantity); !ok || strings.Contains(q.Value.Text, ".") || name != "" && units.Symbol(name) == "" {
			return Verdict{}
		}
		shared := func(w *weighed) bool { return w.Units > 0 } // b = 3 N s/m is nobody's 3 N s over a mass
		return s.asUnit("`"+open.Words[0]+"` is read as a unit.", all, func(w *weighed) bool { return other(w) && !shared(w) })
	}
	if d, ok := s.Entry.Stmt.(*syntax.Define); ok && d.X.Span().From+len("(") == open.Bracket.From && d.X.Span().To == open.Bracket.To+len(")") {
		return Verdict{} // the brackets choose the unit: m2 = (200 g)
	}
	bracket := "(" + s.Entry.Text[open.Bracket.From:open.Bracket.To] + ")"
	return s.asUnit("`"+bracket+"` is read with a unit.", all, other)
}

// mayBeShare tells whether a line gives a name one quantity, and is a pure number in every
// reading that makes more sense. A given is hardly written as the share of a name in a
// quantity: c = 0.25 kg/m, a drag per square of a speed, on a page with a mass m.
func (s *settler) mayBeShare(all []weighed) bool {
	return isMeasured(s.Entry.Stmt) && !slices.ContainsFunc(all, func(w weighed) bool { return w.sense > odd && !w.dim.IsOne() })
}

// isMeasured tells whether a line gives a name one quantity.
func isMeasured(stmt syntax.Stmt) bool {
	d, ok := stmt.(*syntax.Define)
	if !ok || !d.Plain() {
		return false
	}
	_, quantity := syntax.Unbracket(d.X).(*syntax.Quantity)
	return quantity
}

// readAsMeasured lets such a line stand, and says how it was read unless brackets do.
func (s *settler) readAsMeasured(rule *weighed, all []weighed, open *syntax.Open) Verdict {
	if open.Bracket != (syntax.Span{}) {
		return Verdict{}
	}
	_, x, _ := syntax.AsResult(s.Entry.Stmt)
	return s.asUnit("`"+s.Entry.Text[x.Span().From:x.Span().To]+"` is read with a unit.", all, func(w *weighed) bool { return !rule.same(w) })
}

// despiteNames lets a line stand that makes most sense by the rules. Where nothing says
// what quantity it is, and its unit is names of the page that run together behind a number
// of formulas, it says how it was read: 2Tm, where T and m are given. So it does where a pure
// number comes out for a symbol that is none: r = x/2m.
func (s *settler) despiteNames(rule *weighed, all []weighed, open *syntax.Open) Verdict {
	_, x, _ := syntax.AsResult(s.Entry.Stmt)
	if k := slices.IndexFunc(all, func(w weighed) bool { return isMeasured(w.stmt) }); k >= 0 && rule.dim.IsOne() && !isMeasured(s.Entry.Stmt) {
		return s.readAs("`"+s.Entry.Text[x.Span().From:x.Span().To]+"` is read with your name, as a number.", "With the unit it is `"+all[k].Text+"`.", all[k].Text)
	}
	behind := func(w *weighed) bool { return len(w.Names) > 0 }
	if n := s.putIn(rule); n > 0 && n == len(slices.Collect(syntax.Each[*syntax.Quantity](rule.stmt.Exprs()...))) {
		return Verdict{} // values put in
	}
	if s.cancels(rule, open) {
		return s.asUnit("`"+open.Words[0]+"` is read as a unit.", all, behind)
	}
	if !open.Letters || rule.speaks || len(open.Words) != 1 {
		return Verdict{}
	}
	parts, _ := syntax.LetteredIn(s.Entry.Text, s.Entry.Stmt, s.claimOf(s.Entry.Stmt).of, &s.scope)
	if len(parts) != 1 {
		return Verdict{}
	}
	q := parts[0]
	if !q.Whole || q.Words > 1 || q.Word != open.Words[0] || !q.Formula || len(q.Lacking) > 0 || len(q.Names) == 1 || syntax.HasTwice(q.Names) {
		return Verdict{}
	}
	return s.asUnit("`"+s.Entry.Text[q.At.From:q.At.To]+"` is read with a unit.", all, behind)
}

// cancels tells whether a letter that is read as a unit makes a pure number of the line: the
// number of another quantity than the name is used for, r = x/(2 m); or any, where the letter
// is directly behind its number, as in x/(2m).
//
// In r = x/2m, with x in metres, the m of metres cancels, and a bare number is left for a radius.
func (s *settler) cancels(rule *weighed, open *syntax.Open) bool {
	_, _, in := syntax.AsResult(s.Entry.Stmt)
	return len(open.Words) == 1 && !in.Present() && rule.plan != nil && rule.dim.IsOne() && rule.sense > odd &&
		(rule.speaks && rule.sense == plain || !open.SetOff[0])
}

// asUnit says how units are read, and how the first of some readings
// is written.
func (s *settler) asUnit(said string, all []weighed, other func(*weighed) bool) Verdict {
	for i := range all {
		if other(&all[i]) {
			return s.readAs(said, "With your name it is `"+all[i].Text+"`.", all[i].Text)
		}
	}
	return Verdict{}
}

// readAs says how the line is read, and how it is written otherwise.
func (s *settler) readAs(said, otherwise, line string) Verdict {
	return caution(s.whole(finding.UnitOrName, said, otherwise, line))
}

// isGram tells whether g behind the number of a name is no gravity. The a of a1 is an
// acceleration often enough.
//
// m = 200 g is on half of all pages of mechanics, and g is a name of each.
func (s *settler) isGram(name string) bool {
	_, given := s.planner.Names.Lookup("g")
	name = strings.TrimRight(name, "_0123456789")
	return !given && !units.Customary(name, units.Of("m/s^2").Dim()) && !units.Customary(name, units.Of("N").Dim())
}

// namesake notes of f = 0.35 N, on a page with a force N, that it is read with the newton: by
// its units it may as well be a part of that force. It is noted once for a letter.
func (s *settler) namesake(stmt syntax.Stmt) Verdict {
	name, x, _ := syntax.AsResult(stmt)
	q, ok := x.(*syntax.Quantity)
	if !ok || name == q.Unit.Text {
		return Verdict{}
	}
	d, ok := s.planner.Names.Lookup(q.Unit.Text)
	u, bad := s.Planner.Unit(q.Unit, units.AfterNumber)
	if !ok || bad != nil || d.Failed() || d.Kind != plan.Quantity || d.Line == 0 || s.planner.Static(d.Slot).Dim != u.Dim() {
		return Verdict{}
	}
	unit, known := units.Lookup(q.Unit.Text)
	if !known || math.Abs(q.Value.Float()) >= 1 {
		return Verdict{} // F2 = 20 N is nobody's 20 times F
	}
	message, product := d.Name+" after a number is the unit "+unit.Name+", not your "+d.Name+".", q.Value.Text+"*"+d.Name
	return Verdict{Findings: []finding.Finding{finding.New(finding.ReadAs, q.At, message, "For your "+d.Name+", write `"+product+"`.", product)}}
}
