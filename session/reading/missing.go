package reading

import (
	"cmp"
	"slices"
	"strings"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
	"steelyard/units/writing"
)

// longestMissing is the longest line, in bytes, that is looked at for symbols without a
// value, mostMissing how many readings of it are weighed, and mostTexts of how many texts:
// itself, and those that were offered.
const (
	longestMissing = 200
	mostMissing    = 24
	mostTexts      = 4
)

// mostUnfit is how many symbols a line may lack that makes no sense yet: of more, its
// word is more likely one of its own.
const mostUnfit = 2

// unread are the findings of a line that can't be read, or has a name without a value.
var unread = []finding.ID{finding.UnknownName, finding.NamesTogether, finding.UnitOrName, finding.TwoReadings, finding.NotWritten,
	finding.UnknownUnit, finding.UnitText, finding.Unreadable}

// Missing looks at a line that is refused once more, with what it offers: if it makes
// sense as soon as symbols in it have values, and nothing that is offered makes as much
// without, it says which these are, and offers the line as it is written then.
//
// A line with a letter that nobody gave is the commonest of all refusals, and "c is unknown" helps
// little if E = mc2 was typed. What helps is the line as it is written, and what to give first.
func Missing(l *eval.Line, try Enter) (finding.Finding, bool) {
	if len(l.Entry.Text) > longestMissing {
		return finding.Finding{}, false
	}
	word := entry.BeginsWith(l.Entry.Text)
	s := &settler{scope: scopeOf(l.Page), Line: l, try: try, offered: true}
	if f, ok := s.valuesBehind(); ok {
		return f, true
	}
	if f, ok := s.constantsBefore(); ok {
		return f, true
	}
	if f, ok := s.unindexed(); ok {
		return f, true
	}
	given := word != "" && word != "g" && (valued{&s.scope}).Known(word) // the line may be an equation
	if !given {
		s.but = word
	}
	texts, told, near := []string{l.Entry.Text}, false, false
	_, solve := l.Entry.Stmt.(*syntax.Solve)
	var alone string // a word that no line defines
	for _, f := range l.Entry.Findings {
		if meant, ok := s.unitMeant(&f); ok {
			return meant, true
		}
		if f.ID == finding.UnknownUnit || f.ID == finding.UnitText {
			if round, ok := s.roomOf().WordsRound(l.Entry.Text); ok && !nearWord(&f, round.Readings[0]) && !s.wrong(round.Readings[0]) {
				return round, true
			}
		}
		switch {
		case f.Severity > finding.Mismatch || f.At.To > len(l.Entry.Text):
			continue
		case slices.ContainsFunc(f.Lines, func(line string) bool { return strings.Contains(line, "\n") }), f.ID == finding.Unreadable && slices.ContainsFunc(f.Readings, func(line string) bool { return strings.Contains(line, "\n") }):
			return f, false // it is offered as several
		case f.Message == units.NoMoney:
			return f, false
		case f.ID == finding.UnknownUnit && s.lacksBehind(f.At):
			continue
		case f.ID == finding.UnitText && s.perUnit(l.Entry.Text[f.At.From:f.At.To]):
			return f, false
		case f.ID == finding.NameKind && len(f.Readings) == 0: // sin θ = 1/n
		case !slices.Contains(unread, f.ID) && !(f.ID == finding.NotSolved && solve && len(f.Readings)+len(f.Lines) == 0):
			return s.inClause(&f)
		case f.ID == finding.UnknownName && strings.Contains(l.Entry.Text[f.At.From:f.At.To], "@"):
			return f, false // the number of a line is wrong, and no letter
		case f.ID != finding.UnknownName && f.ID != finding.UnknownUnit && f.ID != finding.NotSolved:
			near = true
		}
		lines, word := f.Lines, l.Entry.Text[f.At.From:f.At.To]
		if f.ID == finding.UnknownName {
			alone, near = word, near || len(f.Readings) > 0 && utf8.RuneCountInString(word) > longestGlued
		}
		told = told || strings.Contains(f.Message+f.Hint, " value")
		for _, r := range f.Readings {
			lines = append(lines, l.Entry.Text[:f.At.From]+r+l.Entry.Text[f.At.To:])
		}
		if !s.hidesNames(&f) && slices.ContainsFunc(lines, s.makesSense) {
			return f, false
		}
		if f.ID != finding.UnknownUnit { // the letters of a unit that is nearly the word are no names
			texts = append(texts, lines...)
		}
	}
	if f, ok := s.unitBehind(); ok {
		return f, true
	}
	texts = texts[:min(len(texts), mostTexts)]
	var best missing
	if strings.Contains(texts[0], "=") && (word == "" || given || units.Usual(word) == "" || syntax.Numbered(word)) {
		if s.missing(texts[0], false, &best); word == "" || given || syntax.Numbered(word) || !isOfLetter(word, best.of[whole], s.usually) {
			best = missing{}
			s.missingInEquation(texts[0], word, &best)
		}
	}
	if best.lines == nil {
		for _, text := range texts {
			s.missing(text, solve, &best)
		}
	}
	if f, ok := s.powered(&best); ok {
		return f, true
	}
	if unfit := best.unfit; best.lines == nil && unfit != nil && (given || !near) {
		best = *unfit
	}
	best.lines = slices.DeleteFunc(best.lines, s.wrong)
	if !given && word != "" && !solve && len(best.lines) > 0 && strings.HasPrefix(best.lines[0], word+" = ") {
		unknown := append([]string{word}, best.symbols...)
		if said, joined := s.together(best.lines[0], unknown); joined != "" { // mgh = ½mv² + ½Iω² above v = ωR
			return s.whole(finding.UnknownName, writing.List(unknown, "and")+" have no value.", said, joined), true
		}
	}
	if len(best.lines) == 0 {
		return finding.Finding{}, false
	}
	if let := s.cancelling(&best); solve && let != "" {
		return s.whole(finding.UnknownName, best.symbols[0]+" has no value.", best.symbols[0]+" cancels, so its unit is enough.", let), true
	}
	if entry.FunctionOf(l.Entry.Text) != "" && len(best.symbols) == 1 {
		name := best.symbols[0]
		if dim, known := best.of[name]; known {
			unit := units.Preferred(dim, units.None).Text()
			if let := "let " + name + " in " + unit + "\n" + l.Entry.Text; s.accepted(let) { // A(t) = A0 e^(-t/τ)
				return s.whole(finding.UnknownName, name+" has no value.", "Give it a value first"+best.example(name, l)+". To find it later, its unit is enough.", let), true
			}
		}
	}
	if told && slices.Contains(texts, best.lines[0]) || s.asTyped(best.lines[0]) {
		return finding.Finding{}, false
	}
	if isSolve(best.lines[0]) && !solve && len(best.symbols) > 0 {
		return s.severalUnknowns(&best), true
	}
	return best.finding(l, alone), true
}

// nearWord tells whether a word behind a statement may be a slip for a unit that a finding
// offers, as minuts is, but not sand.
func nearWord(f *finding.Finding, about string) bool {
	_, words, _ := strings.Cut(about, ", ")
	word, more, _ := strings.Cut(words, " ")
	return more == "" && len(word) > leastWord+1 && slices.ContainsFunc(f.Readings, func(r string) bool {
		unit := strings.Fields(r)
		return len(unit) > 0 && writing.Within(2, word, unit[len(unit)-1])
	})
}

// perUnit tells whether a quotient that is found to lack a unit is by one of several letters,
// which are no names then: 0.30/kWh.
func (s *settler) perUnit(quotient string) bool {
	number, word, _ := strings.Cut(quotient, "/")
	return endsWithNumber(number) && utf8.RuneCountInString(word) > 1 && s.IsUnit(word)
}

// hidesNames tells whether a line that is read in two ways by where its unit belongs has
// letters there of which the first, which the unit takes for its prefix, is a name of the
// page: 3/2kT with k given, where the T of it has no value yet, is hardly a number of
// kiloteslas. The g of 1/2 kg is a constant, too, and means nothing.
//
// What is offered there would settle where the unit goes, and leave the line wrong.
func (s *settler) hidesNames(f *finding.Finding) bool {
	if f.ID != finding.TwoReadings {
		return false
	}
	word := strings.TrimLeft(s.Entry.Text[f.At.From:f.At.To], "0123456789./ ()^-⁻¹²³")
	parts, lacking, ok := syntax.Apart(word, s.Known, units.IsSymbol)
	return ok && len(lacking) > 0 && !slices.Contains(lacking, parts[0])
}

// unitBehind looks for a unit behind a formula, E = ½kx² J: the line is right with an in
// before it. Where a value is missing, the unit must be one that the line's name goes by.
//
// On paper the unit that an answer is wanted in comes last, without a word before it.
func (s *settler) unitBehind() (finding.Finding, bool) {
	text := s.Entry.Text
	if s.Entry.Meaning() != "" {
		return finding.Finding{}, false // the last word is one about the name
	}
	for i := range len(text) {
		head, unit := strings.TrimRight(text[:i], " "), text[i:]
		if head == "" || i == len(head) || endsWithNumber(head) || !s.IsUnit(unit) || s.Known(unit) {
			continue
		}
		line := head + " in " + unit
		u, _ := s.Planner.Units.Parse(unit, units.AfterNumber)
		likely := strings.ContainsAny(head, "*/") && units.Customary(entry.BeginsWith(text), u.Dim())
		if s.accepted(line) || likely && !s.wrong(line) {
			return s.whole(finding.NotWritten, "The unit of a result comes after `in`.", "", line), true
		}
	}
	return finding.Finding{}, false
}

// endsWithNumber tells whether a text ends with a written number, which may have its
// uncertainty in brackets: 2.0(1).
func endsWithNumber(text string) bool {
	if open := strings.LastIndexByte(text, '('); open > 0 && strings.HasSuffix(text, ")") && strings.Trim(text[open:], "()0123456789") == "" {
		text = text[:open]
	}
	return text != "" && strings.ContainsAny(text[len(text)-1:], "0123456789")
}

// longestGlued is how long a word of symbols may be that is nearly a name of the page.
const longestGlued = 3

// inClause looks at a range or a new value that is refused for its dimension: a unit in it
// may be a name, 2T in from 0 s to 2T.
func (s *settler) inClause(f *finding.Finding) (finding.Finding, bool) {
	if s.Entry.Stmt == nil || s.Entry.Refusals() > 1 || f.ID != finding.UnlikeDimensions && f.ID != finding.ArgumentDimension {
		return *f, false
	}
	var lines []string
	open := syntax.OpenClauses(s.Entry.Text, s.Entry.Stmt, &s.scope, syntax.AllClauses)
	if g, ok := s.Entry.Stmt.(*syntax.Graph); ok && g.Vector { // x(t) for t from 0 s to 2T, of an x that is none
		for _, r := range open.Readings {
			r.Text = strings.Replace(r.Text, " for "+g.Against.Name+" ", " against "+g.Against.Name+" ", 1)
			open.Readings = append(open.Readings, r)
		}
	}
	for _, r := range open.Readings[:min(len(open.Readings), mostMissing)] {
		if len(r.Names) > 0 && len(lines) < maxOffers && s.weigh(r).sense > none && s.accepted(r.Text) {
			lines = append(lines, r.Text)
		}
	}
	if len(lines) == 0 {
		return *f, false
	}
	return s.whole(finding.UnitOrName, open.Words[0]+" is read as a unit, which can't be right here.", "Put `*` before the name.", lines...), true
}

// noValue says of some names that they have no value.
func noValue(names []string) string {
	if len(names) > 1 {
		return writing.List(names, "and") + " have no value"
	}
	return writing.List(names, "and") + " has no value"
}

// finding says which symbols have no value.
func (m *missing) finding(l *eval.Line, alone string) finding.Finding {
	message, hint := noValue(m.symbols)+".", "Give it a value first"
	if len(m.symbols) > 1 {
		hint = "Give them values first"
	}
	if len(m.symbols) > 0 {
		hint += m.example(m.symbols[0], l) + "."
	}
	if strings.HasPrefix(m.lines[0], "solve ") && len(m.symbols) == 0 {
		message, hint = "This equation isn't solved for a symbol yet.", "Choose the symbol that you are looking for."
		if len(m.lines) == 1 && len(m.free) == 1 {
			message, hint = m.free[0]+" has no value.", "To find it, begin with `solve`."
		}
	}
	if utf8.RuneCountInString(alone) == 2 && len(m.symbols) > 0 && !slices.Contains(m.symbols, syntax.Canonical(alone)) {
		hint += " Or give " + alone + " a value, if it is one symbol."
	}
	return finding.New(finding.UnknownName, syntax.Span{To: len(l.Entry.Text)}, message, hint+m.constants(l), m.lines...)
}

// constants says how constants of nature among the symbols get their value.
func (m *missing) constants(l *eval.Line) (hint string) {
	for _, name := range append(slices.Clone(m.symbols), m.free...) {
		if k, ok := units.LookupConstant(name); ok {
			if u, bad := l.Planner.Units.Parse(k.Unit, units.AloneInPlace); bad == nil && m.of[name] == u.Dim() && u.Dim() != (units.Dim{}) {
				hint += " For the " + k.Name + ", write `constants " + name + "`."
			}
		}
	}
	return hint
}

// asTyped tells whether a line is the one that was typed, but for brackets.
func (s *settler) asTyped(text string) bool {
	typed, offered := syntax.Reading{Text: s.Entry.Text}, syntax.Reading{Text: text}
	a, b := s.read(&typed), s.read(&offered)
	return a != nil && b != nil && sameShape(a, b)
}

// missing is how a line is written with symbols that have no value.
type missing struct {
	lines   []string
	symbols []string
	free    []string             // what the line is solved for
	of      map[string]units.Dim // what each is, if that is known
	first   bool                 // each is the first quantity that its letter is used for
	units   int                  // the units that may be names
	unfit   *missing             // the first that makes no sense yet
}

// compare puts what is likelier first.
func (m *missing) compare(o *missing) int {
	return cmp.Or(one(o.first)-one(m.first), m.units-o.units, len(m.symbols)-len(o.symbols))
}

// or is the reading of two that lacks fewer symbols, with all lines that lack as few.
func (m *missing) or(o *missing) *missing {
	switch {
	case len(o.symbols) > mostUnfit, m != nil && len(m.symbols) < len(o.symbols):
	case m == nil, len(o.symbols) < len(m.symbols):
		return o
	case len(m.lines) < maxOffers:
		m.lines = append(m.lines, o.lines...)
	}
	return m
}

// example is a line that gives a symbol a value.
func (m *missing) example(name string, l *eval.Line) string {
	for _, d := range slices.Backward(l.Planner.Names.All()) { // V0 is like V
		if letter := units.Symbol(name); letter != "" && d.Kind == plan.Quantity && d.Slot != run.NoSlot && !d.Failed() && units.Symbol(d.Name) == letter {
			if dim := l.Planner.Static(d.Slot).Dim; units.Customary(name, dim) && !dim.IsOne() {
				return plan.Example(name, units.Preferred(dim, units.None).Text())
			}
		}
	}
	usual, bad := units.NewTable().Parse(units.Usual(name), units.AloneInPlace)
	dim, known := m.of[name]
	if !known || bad == nil && usual.Dim() == dim {
		return plan.Example(name, units.Usual(name))
	}
	return plan.Example(name, units.Preferred(dim, units.None).Text())
}

// makesSense tells whether a line that is offered is what it says it is, if it says so.
func (s *settler) makesSense(text string) bool {
	w := s.weigh(syntax.Reading{Text: text})
	_, result := w.stmt.(*syntax.Define)
	return w.sense == fitting || w.sense > none && !result || w.sense > odd && !w.speaks
}

// isSum tells whether an expression is a sum or a difference.
func isSum(x syntax.Expr) bool {
	b, ok := x.(*syntax.Binary)
	return ok && (b.Op == syntax.Add || b.Op == syntax.Sub)
}

func one(is bool) int {
	if is {
		return 1
	}
	return 0
}

// missingInEquation weighs an equation that may be meant to be solved for one of its
// symbols, those of one side first. A word on its left is a product of names, or of three
// symbols at least.
func (s *settler) missingInEquation(text, word string, best *missing) {
	_, _, product := syntax.Apart(word, s.Known, nil) // or one that has a value
	if letters, _, _ := syntax.Apart(word, units.IsSymbol, nil); word != "" && !product && !syntax.Numbered(word) && len(letters) < 3 {
		return
	}
	if !syntax.OpenEquation(text, word != "", &s.scope).Equation {
		return
	}
	_, symbols := syntax.OpenLacking("check "+text, valued{&s.scope}, units.IsSymbol)
	left, right, _ := strings.Cut(text, "=")
	slices.SortStableFunc(symbols, func(a, b string) int {
		both := func(name string) int { return one(strings.Contains(left, name) && strings.Contains(right, name)) }
		return both(a) - both(b)
	})
	for _, name := range symbols {
		s.missing("solve "+text+" for "+name, true, best)
	}
}

// missing weighs the readings of a text that has symbols without a value.
func (s *settler) missing(text string, solving bool, best *missing) {
	open, symbols := syntax.OpenLacking(text, valued{&s.scope}, units.IsSymbol)
	if len(symbols) == 0 {
		if !solving {
			return // what has no value is no symbol
		}
		open = syntax.OpenIn(text, nil, &s.scope)
	}
	for _, line := range open.Readings[:min(len(open.Readings), mostMissing)] {
		r := syntax.Reading{Text: line.Text}
		stmt := s.read(&r)
		if stmt == nil {
			continue
		}
		c := s.claimOf(stmt)
		var lacking []string
		for n := range syntax.Each[*syntax.Name](c.of...) {
			if n.Line == 0 && !(valued{&s.scope}).Known(n.Name) && !slices.Contains(c.free, n.Name) && !slices.Contains(lacking, n.Name) {
				lacking = append(lacking, n.Name)
			}
		}
		unknown := func(name string) bool { return !slices.Contains(symbols, name) }
		if len(c.of) == 0 || len(lacking) == 0 && !solving || slices.ContainsFunc(lacking, unknown) {
			continue
		}
		fits, first, found := s.fittingOf(stmt, r.Text, lacking)
		by := missing{[]string{line.Text}, lacking, c.free, found, first, line.Units, nil}
		switch order := by.compare(best); {
		case !fits && len(lacking) > 1 && isSum(c.of[0]): // its terms would disagree
		case !fits:
			best.unfit = best.unfit.or(&by)
		case best.lines == nil, order < 0:
			*best = by
		case order == 0 && len(best.lines) < maxOffers && !slices.Contains(best.lines, line.Text):
			best.lines = append(best.lines, line.Text)
		}
	}
}
