package reading

import (
	"slices"
	"strings"
	"unicode"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/units"
	"steelyard/units/writing"
)

// valued is a scope of which only the names that have a value are known.
type valued struct{ *scope }

func (s valued) Known(name string) bool {
	d, ok := s.planner.Names.Lookup(name)
	return s.scope.Known(name) && !(ok && d.Failed() && name != "g")
}

// lettered settles letters right behind a number that are read as a unit, though they
// may be symbols of which some have no value: E = 3kT/2 where T is given and k is not.
// The line is refused where it then is not what the symbol on its left says; where it
// makes sense both ways, it is read with the unit, and says so.
//
// By the rules 3kT is a number of kiloteslas. With T given and k not, kT is an energy of one degree
// of freedom to anyone who reads E on the left; the line is not taken so, since k may be meant as
// the prefix, but it is not let through either.
func (s *settler) lettered(text string, stmt syntax.Stmt) Verdict {
	if all, _ := s.letteredIn(text, stmt); len(all) == 0 || s.alone(stmt) {
		return Verdict{}
	}
	c := s.claimOf(stmt)
	lacking, ok := s.lackingIn(text, stmt)
	if !ok {
		return Verdict{}
	}
	rule, says := s.weighStmt(syntax.Reading{Text: text}, stmt).sense, c.speaks()
	within := c.withinLetters(&lacking)
	letters, free, given, under, apart := false, true, false, false, false
	for _, p := range lacking.parts {
		apart = apart || p.Blank
		bare := len(lacking.symbols[0]) == p.Unit.To-p.Unit.From
		letters, free, given, under = letters || several(p), free && isFree(p), given || p.Given, under || p.Under && bare
		// A word that is no unit at all is told as such; the d of 2d/v is one.
		unit := text[p.Unit.From:p.Unit.To]
		word := firstWord(unit)
		if p.Blank && !p.Given && word == unit && len(unit) > 2 && s.IsUnit(unit) {
			return Verdict{} // 3 kWh is no product of three letters
		}
		if _, bad := s.Planner.Units.Parse(unit, units.AfterNumber); bad != nil && (p.Blank || bad.Kind != units.ProblemText && !within && !s.IsUnit(word)) {
			return Verdict{}
		}
	}
	first, whole := lacking.parts[0], lacking.parts[0].At == c.of[0].Span()
	if free && (!says || whole && rule >= plain) {
		return Verdict{} // d = 5mm
	}
	fits, usual := true, false
	if says {
		product := s.read(&syntax.Reading{Text: lacking.text})
		if fits = product != nil; fits { // else it has another slip, too
			fits, usual, _ = s.fittingOf(product, lacking.text, lacking.symbols)
		}
	}
	severity := finding.Caution
	switch {
	case apart && !(says && rule == odd && c.isResult(&lacking, text)), apart && whole && !free && !given:
		return Verdict{}
	case apart && !fits:
		best := missing{}
		s.missing(text, false, &best)
		switch {
		case best.lines == nil && given && whole: // J = 5 F d, which is no impulse whatever d is
			return s.withoutValue(&lacking, text, finding.Caution)
		case best.lines == nil || s.asTyped(best.lines[0]):
			return Verdict{}
		}
		return refuse(best.finding(s.Line, ""))
	case apart && whole && strings.Contains(text[first.At.From:first.Unit.From], "."):
	case within, rule == none && fits && says, rule == odd && (given || fits || !letters && !free):
		severity = finding.Error
	case rule == none, rule == odd, free && !(usual && fits), rule == fitting && !lacking.others && !free:
		return Verdict{}
	case says && fits && (free || given || !letters && (under || usual)):
	case !says && lacking.others && (given || under):
	default:
		return Verdict{}
	}
	if severity == finding.Caution && len(lacking.known) == 0 && !slices.ContainsFunc(lacking.parts, func(p *syntax.Lettered) bool { return p.Formula || !s.Everyday(text[p.Unit.From:p.Unit.To]) }) {
		return Verdict{} // 30cm
	}
	return s.withoutValue(&lacking, text, severity)
}

// lettersIn are the quantities of a statement with letters that may be names or symbols, and
// whether there are names beside them.
type lettersIn struct {
	stmt  syntax.Stmt
	all   []*syntax.Lettered
	names bool
}

// letteredIn looks for them once: two rules ask.
func (s *settler) letteredIn(text string, stmt syntax.Stmt) ([]*syntax.Lettered, bool) {
	if s.letters.stmt != stmt {
		s.letters = lettersIn{stmt: stmt}
		for x := range syntax.ExprsOf(stmt) {
			if syntax.MayBeLettered(text, x) {
				s.letters.all, s.letters.names = syntax.LetteredIn(text, stmt, s.claimOf(stmt).of, valued{&s.scope})
				break
			}
		}
	}
	return s.letters.all, s.letters.names
}

// lettersLacking are the letters of a line that are read as units, of which some have no
// value.
type lettersLacking struct {
	parts          []*syntax.Lettered
	symbols, known []string // those that have no value, and the names that are beside them
	others         bool     // the line has further names
	text           string   // the line with products
}

// lackingIn finds them. One letter may be a symbol as a factor among names, behind a number
// that formulas have; several letters may be symbols anywhere. A blank before a unit says that
// it is one, but behind such a number: 2 g h, 1.5 kT. Each is the usual symbol of a quantity.
func (s *settler) lackingIn(text string, stmt syntax.Stmt) (out lettersLacking, ok bool) {
	all, others := s.letteredIn(text, stmt)
	out.others, out.parts = others, slices.DeleteFunc(slices.Clone(all), func(q *syntax.Lettered) bool {
		unit := text[q.Unit.From:q.Unit.To]
		switch {
		case len(q.Lacking) == 0 || q.Digits || slices.ContainsFunc(q.Lacking, isNoSymbol),
			len(q.Names) == 0 && several(q) && syntax.HasTwice(q.Lacking),
			q.Bracket && q.Blank && len(q.Names) == 0 && strings.Contains(unit, "/") && s.Unit(unit): // (6 m/s²)
			return true
		case q.Blank && !(q.Whole && q.Formula && firstWord(unit) != "kg") && strings.Count(q.Product, "*") > 1+strings.Count(unit, " ")+strings.Count(unit, "·"):
			return true // 3 cm is no c*m, and 35 kg/s no k*g/s
		}
		return !(q.Formula && (q.Whole || q.Factor)) && (!several(q) || q.Blank && q.Formula) || s.isValueAbove(text[q.At.From:q.Unit.To]) // 1025kg/m^3, as ρ is
	})
	for _, q := range out.parts {
		out.known = append(out.known, q.Names...)
		for _, name := range q.Lacking {
			if !slices.Contains(out.symbols, name) {
				out.symbols = append(out.symbols, name)
			}
		}
	}
	out.text = syntax.Written(text, out.parts, func(q *syntax.Lettered) string { return q.Product })
	return out, len(out.parts) > 0 && (out.others || several(out.parts[0]) || isFree(out.parts[0]))
}

// firstWord is the first word of a unit.
func firstWord(unit string) string {
	return unit[:len(unit)-len(strings.TrimLeftFunc(unit, unicode.IsLetter))]
}

// isNoSymbol tells whether a letter is the usual one of no quantity, and of no constant such as G.
func isNoSymbol(name string) bool {
	_, constant := units.LookupConstant(name)
	return !constant && units.Usual(name) == ""
}

// several tells whether a quantity has more than one letter.
func several(q *syntax.Lettered) bool { return len(q.Names)+len(q.Lacking) > 1 }

// isFree tells whether no letter of a quantity is a name, or its one letter has nothing beside it.
func isFree(q *syntax.Lettered) bool {
	return len(q.Names) == 0 && several(q) || q.Whole && !several(q)
}

// wrong tells whether a line is refused for more than names that have no value.
func (s *settler) wrong(text string) bool { return s.slip(text) != nil }

// slip is what a line is refused for, if it is more than names that have no value.
func (s *settler) slip(text string) *finding.Finding {
	for _, f := range s.try(text, true).Findings {
		if f.Severity <= finding.Mismatch && f.ID != finding.NotWorkedOut && f.ID != finding.UnknownName {
			return &f
		}
	}
	return nil
}

// withoutValue says which symbols have no value.
func (s *settler) withoutValue(lacking *lettersLacking, text string, severity finding.Severity) Verdict {
	at := lacking.parts[0]
	number, unit := text[at.At.From:at.Unit.From], text[at.Unit.From:at.Unit.To]
	have, are, them := " has no value.", " is a symbol", "it"
	if len(lacking.symbols) > 1 {
		have, are, them = " have no value.", " are symbols", "them"
	}
	symbols := writing.List(lacking.symbols, "and")
	f := s.whole(finding.UnitOrName, "In `"+number+unit+"`, "+symbols+have, "Give "+them+" a value first.")
	if severity == finding.Caution {
		f.Message, f.Hint = "`"+number+unit+"` is read with a unit.", "If "+symbols+are+", give "+them+" a value first."
		return caution(f)
	}
	apart := text[:at.Unit.From] + " " + text[at.Unit.From:]
	if s.offered && s.accepted(apart) {
		f.Hint += " If `" + unit + "` is a unit, put a space before it: `" + number + " " + unit + "`."
	}
	return refuse(f)
}
