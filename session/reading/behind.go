package reading

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/units"
	"steelyard/units/writing"
)

// behindNumber settles what is read as a unit and may be letters of the page, or symbols.
func (s *settler) behindNumber() Verdict {
	if all, _ := s.letteredIn(s.Entry.Text, s.Entry.Stmt); len(all) == 0 {
		return Verdict{}
	}
	lacking := s.lettered(s.Entry.Text, s.Entry.Stmt)
	if behind := s.behind(); behind.found() && !lacking.Refused {
		return behind
	}
	return lacking
}

// behind refuses a line with a word directly behind a number that is read as a unit, where
// letters of it are names of the page: E = ½kA2, Ek = (3/2)kT; or, behind a fraction, could
// be symbols, and the line wants no such unit. A blank before a unit says
// that it is one. Without, only an everyday unit that the line wants is taken for one, as
// the km of d = 2km, where a product of the letters is not what the line wants; and none
// behind a fraction, which formulas have and givens have not.
func (s *settler) behind() Verdict {
	text, stmt := s.Entry.Text, s.Entry.Stmt
	words := s.wordsBehind(text, stmt)
	if len(words) == 0 {
		return Verdict{}
	}
	product := syntax.Written(text, words, func(q *syntax.Lettered) string { return q.Product })
	wanted, first := s.wanted(text, stmt)
	k := slices.IndexFunc(words, func(q *syntax.Lettered) bool {
		number, unit := text[q.At.From:q.Unit.From], text[q.Unit.From:q.Unit.To]
		if !s.IsUnit(unit) {
			return false
		}
		if !hasName(q) {
			return !wanted // E = ½kA², but not m = ½kg
		}
		whole := len(q.Names) == 1 && len(q.Lacking) == 0 && len(q.Names[0]) > 1 && q.Names[0] == syntax.Canonical(unit)
		letters := len(q.Lacking) == 0 && q.Formula && !(strings.ContainsAny(q.Word[:1], commonPrefixes) && s.weigh(syntax.Reading{Text: product}).sense < fitting)
		return q.Fraction || q.Formula && !first && strings.Contains(number, ".") || whole || letters || !wanted || !s.Everyday(q.Word)
	})
	if k < 0 {
		return Verdict{}
	}
	var lacking []string
	for _, q := range words {
		lacking = append(lacking, q.Lacking...)
	}
	if read := s.read(&syntax.Reading{Text: product}); len(lacking) > 0 && read != nil && slices.ContainsFunc(read.Exprs(), s.hasNoUnit) {
		return Verdict{}
	}
	if len(lacking) == 0 {
		right, bad := s.putRight(product)
		if bad != nil {
			return s.eitherWay(product, bad)
		}
		product = right
	}
	var lines []string
	if len(lacking) == 0 {
		lines = append(lines, product)
	}
	for _, as := range [...]string{"%s %s", "(%s %s)"} {
		line := syntax.Written(text, words, func(q *syntax.Lettered) string {
			return fmt.Sprintf(as, text[q.At.From:q.Unit.From], q.Text)
		})
		if s.offered && len(lines) < 2 && s.accepted(line) {
			lines = append(lines, line)
		}
	}
	at := words[k].At
	message, hint := "`"+text[at.From:at.To]+"` may be a product of names, or a number with a unit.", "Choose the one you mean."
	if len(lacking) > 0 {
		slices.Sort(lacking)
		hint = "For the product, give " + writing.List(slices.Compact(lacking), "and") + " a value first."
	}
	return refuse(s.whole(finding.UnitOrName, message, hint, lines...))
}

// putRight is a line as it can be entered: itself, or with the one slip in it put right;
// else what it is refused for.
//
// A product with one sign missing is no other reading, only the same one badly typed.
func (s *settler) putRight(text string) (string, *finding.Finding) {
	bad := s.slip(text)
	if bad == nil || len(bad.Readings) != 1 || bad.At.To > len(text) {
		return text, bad
	}
	at, reading := syntax.InPlace(text, bad.At, bad.Readings[0])
	text = text[:at.From] + reading + text[at.To:]
	if s.wrong(text) {
		return text, bad
	}
	return text, nil
}

// eitherWay tells what is wrong with a line as a product of names, where its units are
// wrong too. By the rules it stands if they are not.
func (s *settler) eitherWay(product string, bad *finding.Finding) Verdict {
	if bad.Severity != finding.Mismatch || worst(s.enter(s.Entry.Text)) > finding.Mismatch {
		return Verdict{}
	}
	return refuse(s.whole(bad.ID, "Read as `"+product+"`: "+bad.Message, bad.Hint))
}

// wordsBehind are the quantities of a line with one word directly behind their number. One
// letter alone counts with a digit for its power, 4.9t2, or as a part of a product behind a
// fraction, (½C)*V. Of several letters one is a name; behind a fraction, ½kA², none need be,
// for that is how formulas begin. No product has a letter twice: mm.
//
// The mm of 5mm holds a letter twice, as a product of names does not: m*m would be m².
func (s *settler) wordsBehind(text string, stmt syntax.Stmt) []*syntax.Lettered {
	all, _ := s.letteredIn(text, stmt)
	return slices.DeleteFunc(slices.Clone(all), func(q *syntax.Lettered) bool {
		parts := append(slices.Clone(q.Names), q.Lacking...)
		one := len(parts) == 1 && utf8.RuneCountInString(parts[0]) == 1
		return q.Blank || q.Words > 1 || q.Calls || syntax.HasTwice(parts) || !hasName(q) && !(q.Fraction && len(parts) > 1) || one && !q.Power && !(q.Fraction && !q.Whole)
	})
}

// hasName tells whether letters of a quantity are a name of the page, other than g, which
// every page has.
func hasName(q *syntax.Lettered) bool {
	return slices.ContainsFunc(q.Names, func(name string) bool { return name != "g" })
}

// commonPrefixes begin the units that are typed most often: mm, cm, km; m itself is one.
const commonPrefixes = "kcm"

// lacksBehind tells whether a word at a place, which is no unit, is a product of symbols of
// which some have no value: ½CV, where nothing is nearly the word that can be meant.
//
// ½CV with neither given is told as lacking C and V, and not as an unknown unit CV.
func (s *settler) lacksBehind(at syntax.Span) bool {
	text, stmt := s.Entry.Text, s.Entry.Stmt
	if syntax.EndsWithFraction(text[:at.From]) {
		return true
	}
	words := s.wordsBehind(text, stmt)
	return slices.ContainsFunc(words, func(q *syntax.Lettered) bool { return len(q.Lacking) > 0 }) && slices.ContainsFunc(words, func(q *syntax.Lettered) bool {
		return q.Formula && q.At.From <= at.From && at.To <= q.At.To && !s.misspelt(text[q.Unit.From:q.Unit.To], stmt)
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
//
// d = 2km wants a length and has one: the k*m of a spring and a mass is not asked about.
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
