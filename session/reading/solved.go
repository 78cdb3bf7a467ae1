package reading

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
	"steelyard/units/writing"
)

// solveAlone reads an equation as the solve for the one symbol in it that has no value:
// ½mv² = mgh, or F = ma below a line that gives F. It says so at the first use of the symbol,
// and the value is shown with its name. It needs that
//
//   - of all readings that print allows, for whatever symbol, this one alone makes sense, and
//     none that groups it as print rather does is possible;
//   - what comes out is a quantity that has a name; that it is unusual for the symbol is a caution;
//   - no name of the page that the equation does not have is nearly the symbol, and would fit
//     as well: v0 for v, or v for V;
//   - the symbol is one name, and no product such as mv0, nor a word of a language, such as of
//     and twice, but one for a quantity, such as height; and it is no index, as the N of
//     FN + F*sin(β) = m*g, which FN would be a force for;
//   - the symbol is no constant of nature, and no unit behind a number, of what would come
//     out: the G of F = G*m1*m2/r^2, the V of U = 3*V.
//
// Each of the others is asked about.
func (s *settler) solveAlone(all []weighed) Verdict {
	solve, ok := all[0].stmt.(*syntax.Solve)
	if !ok || slices.ContainsFunc(all[1:], func(w weighed) bool { return w.sense >= min(all[0].sense, plain) || w.Before(&all[0].Reading) }) || all[0].sense < plain && s.but != "" {
		return Verdict{}
	}
	e := s.try(all[0].Text, true)
	values, unknown, said := e.Values(), "", strings.Contains(s.Entry.Text, " for ") // the line says for what
	for i, u := range solve.Unknowns {
		var of entry.Value // of no dimension where the equation has none yet
		if unknown = u.Name; i < len(values) {
			of = values[i]
		}
		if !said && (unknown == entry.BeginsWith(s.Entry.Text) && len(solve.Equations) == 1 || (valued{&s.scope}).Known(unknown) && (numbered{&s.scope}).Known(unknown)) { // it is a result, perhaps of an earlier part
			return Verdict{}
		}
		if said {
			continue
		}
		if isWord(unknown) || s.mayBeProductOf(unknown, of.Dim) || isConstant(unknown, of.Dim) || s.mayBeUnit(unknown, of, solve) {
			return Verdict{}
		}
		near := s.nearGiven(unknown, of.Dim, solve)
		switch {
		case len(solve.Equations) == 1:
			if v := s.askedAs(unknown, near, &all[0], e); v.found() {
				return v
			}
		case near != "":
			return Verdict{}
		}
	}
	if v := s.refusedAs(all[0].Text, e); v.found() {
		return v
	}
	if v := s.cancelled(solve, all[0].Text, e); v.found() {
		return v
	}
	var unusual []string
	for i := range values {
		u := &solve.Unknowns[min(i, len(solve.Unknowns)-1)]
		name := u.Name
		if u.In.Present() || !s.isUnusual(name, values[i], solve) {
			continue
		}
		of := run.Static{Dim: values[i].Dim, Tag: values[i].Tag}
		unusual = append(unusual, name+" comes out "+plan.Words(of)+", which is unusual for it.")
		if _, named := units.KindOf(of.Dim, of.Tag); named {
			unusual[len(unusual)-1] = name + " comes out as " + plan.Words(of) + ", which is unusual for it."
		} else if len(solve.Equations) == 1 {
			return refuse(s.whole(finding.Unreadable, unusual[0], "Check the equation.", all[0].Text))
		}
	}
	read := s.roomOf().ReadSolve(s.Entry.Text, &all[0].Reading, &s.scope)
	if read == nil {
		return Verdict{}
	}
	f := finding.New(finding.ReadAs, read.Unknowns[0].NameAt,
		unknown+" has no value yet: this equation is solved for "+unknown+".", "`"+all[0].Text+"` says so in words.")
	if said {
		f.Message = "This equation is solved for " + unknown + "."
	} else if len(solve.Equations) > 1 {
		var names []string
		for _, u := range solve.Unknowns {
			names = append(names, u.Name)
		}
		f.Message = writing.List(names, "and") + " have no value yet: these equations are solved for them."
	}
	if !s.Page.Set.Note("an equation alone") {
		f.Hint = "" // the page has said how it is written in words
	}
	if len(unusual) > 0 {
		f.Severity, f.Hint = finding.Caution, strings.Join(unusual, " ")+" Check the equation, if you expected something else."
	}
	s.Entry.Stmt, s.Entry.Findings = read, []finding.Finding{f}
	return Verdict{solved: true}
}

// askedAs asks about an unknown that may be an index, a product, or a name of the page, near.
func (s *settler) askedAs(unknown, near string, w *weighed, e *entry.Entry) Verdict {
	if line := s.asIndex(unknown, w, e); line != "" {
		return s.ask(unknown+" may be an index.", "Which is it?", line, w.Text)
	}
	if line := s.pastIndex(unknown, w); line != "" {
		return s.ask(unknown+" may be a name, or a product.", "Which is it?", line, w.Text)
	}
	if near != "" {
		return s.askNear(unknown, near, w)
	}
	return Verdict{}
}

// cancelled asks about an equation whose unknown is in it twice and comes out as 0: the m of
// ½mv² = mgh, where the rest of it does not hold.
//
// Solved for m, ½mv² = mgh is m*(v²/2 - gh) = 0, of which 0 is the only root unless the bracket is.
// A mass of 0 is no answer to anything.
func (s *settler) cancelled(solve *syntax.Solve, text string, tried *entry.Entry) Verdict {
	unknown, e := solve.Unknowns[0].Name, solve.Equations[0]
	again := func(name string) bool { return name != unknown }
	if len(slices.DeleteFunc(append(namesIn(e.Left), namesIn(e.Right)...), again)) < 2 {
		return Verdict{}
	}
	values := tried.Values()
	if len(values) != 1 || values[0].SI != 0 {
		return Verdict{}
	}
	f := s.whole(finding.NotSolved, unknown+" has no value, and only 0 solves this equation.", "", text)
	if unit := units.Usual(unknown); unit != "" {
		f.Hint = "If " + unknown + " cancels, type `let " + unknown + " in " + unit + "` and then `check " + strings.TrimPrefix(equationOf(text), "solve ") + "`."
	}
	return refuse(f)
}

// refusedAs is what a solve is refused for, as it was tried, with its offers as whole lines.
func (s *settler) refusedAs(solve string, tried *entry.Entry) Verdict {
	for _, f := range tried.Findings {
		if f.Severity > finding.Mismatch {
			continue
		}
		for i, r := range f.Readings {
			f.Readings[i] = solve[:f.At.From] + r + solve[f.At.To:]
		}
		f.At = syntax.Span{To: len(s.Entry.Text)}
		return refuse(f)
	}
	return Verdict{}
}

// unsolvable refuses an equation that no real value solves, as its solve is refused: sin(φ) = 2.
// It needs that one reading alone can be worked out that far, that its symbol is no
// product, as mv is in ½mv² = mgh, and that the line does not begin with a word that may be
// meant for a name, as sinγ may.
func (s *settler) unsolvable(all []weighed) Verdict {
	if _, glued := syntax.GluedCall(entry.BeginsWith(s.Entry.Text), &s.scope); glued {
		return Verdict{}
	}
	var line string
	for i := range all {
		solve, ok := all[i].stmt.(*syntax.Solve)
		if !ok || s.mayBeProductOf(solve.Unknowns[0].Name, units.Dim{}) {
			continue
		}
		none := func(f finding.Finding) bool { return f.ID == finding.NoSolution }
		if e := s.try(all[i].Text, true); !slices.ContainsFunc(e.Findings, none) {
			continue
		}
		if line != "" {
			return Verdict{}
		}
		line = all[i].Text
	}
	if line == "" && entry.BeginsWith(s.Entry.Text) == "" && s.unlike(&all[0]) {
		line = all[0].Text
	}
	if line == "" {
		return Verdict{}
	}
	v := s.refusedAs(line, s.try(line, true))
	if v.found() {
		v.Findings[0].Hint = strings.TrimRight("It is read as `"+line+"`. "+v.Findings[0].Hint, " ")
	}
	return v
}

// unlike tells of the check of an equation, of which no symbol lacks a value, whether its sides are
// different quantities.
func (s *settler) unlike(w *weighed) bool {
	check, ok := w.stmt.(*syntax.CheckStmt)
	return ok && syntax.Any(check.Left, s.hasValue) && slices.ContainsFunc(s.try(w.Text, true).Findings, func(f finding.Finding) bool { return f.ID == finding.UnlikeDimensions })
}

// hasValue tells whether an expression is a name of the page that has a value.
func (s *settler) hasValue(x syntax.Expr) bool {
	n, ok := x.(*syntax.Name)
	return ok && (valued{&s.scope}).Known(n.Name)
}

// valueAgain reads a line as such a solve that begins with a name which has a value already,
// where it would be refused: F = m*a below a line that gives F, but not a.
func (s *settler) valueAgain(v *Verdict) Verdict {
	d, gives := s.Entry.Stmt.(*syntax.Define)
	if gives && (!(valued{&s.scope}).Known(d.Name) || !v.Refused && !s.lacks(d.X)) {
		return Verdict{} // most lines
	}
	name := entry.BeginsWith(s.Entry.Text)
	if _, given := s.planner.Names.Lookup("g"); name == "" || name == "g" && !given || !(valued{&s.scope}).Known(name) || gives && syntax.Holds(d.X, name) {
		return Verdict{}
	}
	open := s.equationIn(s.timesT(), true)
	return s.verdict(&open)
}

// timesT is the line with a*t for an at that has no place in it: d = ½at².
func (s *settler) timesT() string {
	text := s.Entry.Text
	for _, f := range s.Entry.Findings {
		if f.ID == finding.NameKind && f.At.To <= len(text) && text[f.At.From:f.At.To] == "at" && len(f.Readings) == 1 {
			return text[:f.At.From] + f.Readings[0] + text[f.At.To:]
		}
	}
	return text
}

// settles tells whether an equation is settled by what its one unknown is: it is read as a
// solve, or that solve says why there is none.
func (v *Verdict) settles() bool {
	id := finding.Unreadable
	if len(v.Findings) > 0 {
		id = v.Findings[0].ID
	}
	return v.solved || v.Refused && id != finding.Unreadable || v.Slip && id == finding.NotWritten // F = m*a for a
}

// equationIn is what is open in an equation. Names that have failed count as names without a
// value where it has no other.
func (s *settler) equationIn(text string, product bool) syntax.Open {
	open := syntax.OpenEquation(text, product, &s.scope)
	isCheck := func() bool { return open.Equation && strings.HasPrefix(open.Readings[0].Text, "check ") }
	if isCheck() {
		if valued := syntax.OpenEquation(text, product, valued{&s.scope}); len(valued.Readings) == 1 {
			open = valued
		}
	}
	if isCheck() {
		if numbered := syntax.OpenEquation(text, product, numbered{&s.scope}); len(numbered.Readings) == 1 {
			if v := s.try(numbered.Readings[0].Text, true).Values(); len(v) == 1 && v[0].SI != 0 { // else it cancels
				open = numbered
			}
		}
	}
	if isCheck() && s.planner.Part() > 0 {
		if anew := syntax.OpenEquation(text, product, anew{&s.scope}); len(anew.Readings) > 0 && anew.Readings[0].Text != open.Readings[0].Text {
			open.Readings, open.Apart = append(open.Readings, anew.Readings...), false
		}
	}
	return open
}

// numbered is a scope in which the symbols of a let, which have a unit and no value, are not
// known.
type numbered struct{ *scope }

func (s numbered) Known(name string) bool {
	d, ok := s.planner.Names.Lookup(name)
	return s.scope.Known(name) && !(ok && d.Kind == plan.Symbol)
}

// anew is a scope in which a result of an earlier part has no value, as it may be found anew.
type anew struct{ *scope }

func (s anew) Known(name string) bool {
	d, ok := s.planner.Names.Lookup(name)
	return s.scope.Known(name) && !(ok && !d.Given && d.Slot != run.NoSlot && d.Part != s.planner.Part())
}

// lacks tells whether a name in an expression has no value, or what is behind a number is no
// unit.
func (s *settler) lacks(x syntax.Expr) bool {
	for x := range syntax.Nodes(x) {
		switch x := x.(type) {
		case *syntax.Name:
			if x.Line == 0 && !s.Known(x.Name) {
				return true
			}
		case *syntax.Call:
			if !ops.IsFunction(x.Func) && !s.scope.Function(x.Func) {
				return true
			}
		}
	}
	return s.hasNoUnit(x)
}

// hasNoUnit tells whether what is behind a number of an expression is no unit.
func (s *settler) hasNoUnit(x syntax.Expr) bool {
	return syntax.Any(x, func(x syntax.Expr) bool {
		switch x := x.(type) {
		case *syntax.Quantity:
			return !s.IsUnit(x.Unit.Text)
		case *syntax.Measured:
			return !s.IsUnit(x.Unit.Text)
		}
		return false
	})
}

// namesIn are the names in an expression.
func namesIn(x syntax.Expr) (names []string) {
	for n := range syntax.Each[*syntax.Name](x) {
		names = append(names, n.Name)
	}
	return names
}

// mayBeProductOf tells whether a word may be names of the page and symbols, three symbols, or a rate
// times t that is a pure number, and is no letter with its index: mv0 in J, nRT, γt, but not Rp in Ω.
//
// Solving for mv0 as one name would find a number that is no speed and no mass.
func (s *settler) mayBeProductOf(word string, dim units.Dim) bool {
	parts, lacking, ok := syntax.Apart(word, s.Known, units.IsSymbol)
	if s.timesKind(parts, lacking, dim) {
		return true
	}
	overTime := dim.IsOne() && len(parts) == 2 && parts[1] == "t"
	return ok && units.Symbol(word) == "" && (len(lacking) < len(parts) || overTime || len(parts) > 2 && !syntax.IsSpoken(word)) && !isOfLetter(word, dim, units.Customary)
}

// isUnusual tells of an unknown whether what comes out is nothing that it is used for, nor what
// another name of the equations is: the h of m*v = m*h is a speed, as v is.
func (s *settler) isUnusual(unknown string, v entry.Value, solve *syntax.Solve) bool {
	sense, _ := graded(unknown, v.Dim, v.Tag)
	return sense < plain && !slices.ContainsFunc(solve.Exprs(), func(side syntax.Expr) bool {
		return syntax.Any(side, func(x syntax.Expr) bool {
			n, ok := x.(*syntax.Name)
			return ok && s.Known(n.Name) && s.Try(n).Static.Dim == v.Dim
		})
	})
}

// isConstant tells whether a symbol may be a constant of nature that the page has not brought
// in: one of what comes out, or the e of an exponential. An α without a dimension is an angle.
func isConstant(symbol string, dim units.Dim) bool {
	k, ok := units.LookupConstant(symbol)
	if !ok {
		return false
	}
	u, bad := units.NewTable().Parse(k.Unit, units.AloneInPlace)
	return symbol == "e" || bad == nil && u.Dim() == dim && !dim.IsOne()
}

// isWord tells whether a name is a word of a language that says of no quantity what it is, or a
// unit of levels, dB.
func isWord(name string) bool {
	return (syntax.IsSpoken(name) || name == "of") && units.Usual(name) == "" || units.IsLevel(name)
}

// mayBeUnit tells whether a symbol is a factor behind a written number, and a unit: the V of
// U = 3*V, but not the T of 25 T = 68.2 s, which is a time, as T may be, and no plain unit.
func (s *settler) mayBeUnit(symbol string, v entry.Value, solve *syntax.Solve) bool {
	u, bad := s.Planner.Units.Parse(symbol, units.AfterNumber)
	sense, _ := graded(symbol, v.Dim, v.Tag)
	if bad != nil || u.Dim() != v.Dim && sense == fitting && !slices.Contains(eval.PlainUnits[:], symbol) {
		return false
	}
	for b := range syntax.Each[*syntax.Binary](solve.Exprs()...) {
		if b.Op == syntax.Mul && syntax.IsPlain(b.X) {
			if n, ok := b.Y.(*syntax.Name); ok && n.Name == symbol {
				return true
			}
		}
	}
	return false
}

// leastWord is how many letters a name has at least in which a letter may be a slip.
const leastWord = 3

// ask refuses the line and offers others, those that are accepted.
func (s *settler) ask(message, question string, lines ...string) Verdict {
	f := s.whole(finding.UnknownName, message, question)
	for _, line := range lines {
		if s.accepted(line) {
			f.Readings = append(f.Readings, line)
		}
	}
	return refuse(f)
}

// checkToo offers first to check an equation that holds, where each of its names has a value and
// solving it for one of them is offered: v² = 2*g*h as a second way to the same result.
func (s *settler) checkToo(f *finding.Finding) {
	if len(f.Readings) == 0 || !isSolve(f.Readings[0]) {
		return
	}
	if check := "check " + strings.TrimPrefix(equationOf(f.Readings[0]), "solve "); s.accepted(check) {
		f.Readings = slices.Insert(f.Readings, 0, check)[:min(len(f.Readings)+1, maxOffers)]
	}
}

// findAnew offers, beside the check of an equation in which every name has a value and that does
// not hold, to solve it for a name of it: one that a line worked out first, then the oldest. Of a
// solve that is offered it says where its unknown has a value from.
func (s *settler) findAnew(f *finding.Finding, line string) {
	if isSolve(line) {
		name, _, _ := strings.Cut(strings.TrimPrefix(line, equationOf(line)+" for "), " ")
		if d, ok := s.planner.Names.Lookup(name); ok && d.Line > 0 {
			f.Message, f.Hint = name+" has a value from line "+strconv.Itoa(d.Line)+".", "To find it again, begin with `solve`."
		}
		return
	}
	e := s.try(line, true)
	if !slices.ContainsFunc(e.Findings, func(f finding.Finding) bool { return f.ID == finding.CheckFailed }) {
		return
	}
	for _, name := range s.toFind(e.Stmt.Exprs()) {
		solve := "solve " + strings.TrimPrefix(line, "check ") + " for " + name
		if len(f.Readings) < maxOffers && s.accepted(solve) {
			f.Readings = append(f.Readings, solve)
		}
	}
	f.Message, f.Hint = "Every name in this equation has a value.", "Use `check` to compare the sides, or `solve` to find one of them again."
}

// toFind are the names in some expressions that have a value of the page, those that a line worked
// out first, then the oldest.
func (s *settler) toFind(all []syntax.Expr) (out []string) {
	var names []*plan.Def
	for _, x := range all {
		for _, name := range namesIn(x) {
			if d, ok := s.planner.Names.Lookup(name); ok && d.Line > 0 && !slices.Contains(names, d) {
				names = append(names, d)
			}
		}
	}
	slices.SortStableFunc(names, func(a, b *plan.Def) int { return cmp.Or(one(a.Given)-one(b.Given), cmp.Compare(a.Line, b.Line)) })
	for _, d := range names {
		out = append(out, d.Name)
	}
	return out
}
