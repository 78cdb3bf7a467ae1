package reading

import (
	"slices"
	"strings"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/units"
	"steelyard/units/writing"
)

// behind refuses a line with a word directly behind a number that is read as a unit, where
// letters of it are names of the page: E = ½kA2, Ek = (3/2)kT; or, behind a fraction, could
// be symbols, and the line wants no such unit. A blank before a unit says
// that it is one. Without, only an everyday unit that the line wants is taken for one, as
// the km of d = 2km, where a product of the letters is not what the line wants; and none
// behind a fraction, which formulas have and givens have not.
func (s *settler) behind(text string, stmt syntax.Stmt) (Verdict, bool) {
	words, ok := syntax.BehindIn(text, stmt, s.claimOf(stmt).of, valued{&s.scope})
	if !ok {
		return Verdict{}, false
	}
	wanted, first := s.wanted(text, stmt)
	k := slices.IndexFunc(words.Words, func(w syntax.BehindWord) bool {
		product := w.All && w.Formula && !(strings.ContainsAny(w.Text[:1], commonPrefixes) && s.weigh(syntax.Reading{Text: words.Product}).sense < fitting)
		if !w.Some {
			return s.IsUnit(w.Unit) && !wanted // E = ½kA², but not m = ½kg
		}
		return s.IsUnit(w.Unit) && (w.Fraction || w.Formula && !first && strings.Contains(text[w.At.From:w.At.To], ".") || w.Whole || product || !wanted || !s.Everyday(w.Text))
	})
	if k < 0 {
		return Verdict{}, false
	}
	var lines []string
	if len(words.Lacking) > 0 || !s.offered || worst(s.try(words.Product, true)) > finding.Mismatch {
		lines = []string{words.Product}
	}
	for _, unit := range [...]string{words.Unit, words.Bracket} {
		if s.offered && len(lines) < 2 && worst(s.try(unit, true)) > finding.Mismatch {
			lines = append(lines, unit)
		}
	}
	if len(lines) == 0 {
		return Verdict{}, false
	}
	at := words.Words[k].At
	message, hint := "`"+text[at.From:at.To]+"` may be a product of names, or a number with a unit.", "Choose the one you mean."
	if lacking := words.Lacking; len(lacking) > 0 {
		slices.Sort(lacking)
		lacking = slices.Compact(lacking)
		hint = "For the product, give " + writing.List(lacking, "and") + " a value first."
	}
	return Verdict{Refused: true, Findings: []finding.Finding{
		finding.New(finding.UnitOrName, syntax.Span{To: len(text)}, message, hint, lines...)}}, true
}

// commonPrefixes begin the units that are typed most often: mm, cm, km; m itself is one.
const commonPrefixes = "kcm"

// lacksBehind tells whether a word at a place, which is no unit, is a product of symbols of
// which some have no value: ½CV, where nothing is nearly the word that can be meant.
func (s *settler) lacksBehind(at syntax.Span) bool {
	text, stmt := s.Entry.Text, s.Entry.Stmt
	if syntax.EndsWithFraction(text[:at.From]) {
		return true
	}
	words, ok := syntax.BehindIn(text, stmt, s.claimOf(stmt).of, valued{&s.scope})
	return ok && len(words.Lacking) > 0 && slices.ContainsFunc(words.Words, func(w syntax.BehindWord) bool {
		return w.Formula && w.At.From <= at.From && at.To <= w.At.To && !s.misspelt(w.Unit, stmt)
	})
}

// misspelt tells whether a word behind a number is nearly a unit of what the name of the line
// stands for: V = 2kv.
func (s *settler) misspelt(unit string, stmt syntax.Stmt) bool {
	d, ok := stmt.(*syntax.Define)
	return ok && slices.ContainsFunc(s.Planner.Units.Suggest(unit), func(near string) bool {
		u, bad := s.Planner.Units.Parse(near, units.AfterNumber)
		of := units.Customs(d.Name)
		return bad == nil && slices.Contains(of[:min(len(of), commonest)], u.Dim())
	})
}

// wanted tells whether a line is by the rules what the letter of its name stands for, or a
// quantity that has a name where no letter says it; first, whether it is the quantity that
// the name is used for first.
func (s *settler) wanted(text string, stmt syntax.Stmt) (wanted, first bool) {
	rule := s.weighStmt(syntax.Reading{Text: text}, stmt)
	d, ok := stmt.(*syntax.Define)
	if ok && !rule.speaks && !syntax.IsSpoken(d.Name) {
		letter, n := utf8.DecodeRuneInString(d.Name)
		if units.Speaks(string(letter)) && utf8.RuneCountInString(d.Name[n:]) <= longestIndex {
			return units.Customary(string(letter), rule.dim), s.usually(string(letter), rule.dim)
		}
	}
	return rule.sense == fitting || rule.sense == plain && !rule.speaks, !ok || s.usually(d.Name, rule.dim)
}
