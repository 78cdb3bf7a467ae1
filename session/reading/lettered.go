package reading

import (
	"slices"
	"strings"
	"unicode"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/units"
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
func (s *settler) lettered(text string, stmt syntax.Stmt) (Verdict, bool) {
	if s.alone(stmt) {
		return Verdict{}, false
	}
	c := s.claimOf(stmt)
	lacking, ok := syntax.LackingIn(text, stmt, c.of, valued{&s.scope})
	if !ok {
		return Verdict{}, false
	}
	rule, says := s.weighStmt(syntax.Reading{Text: text}, stmt).sense, c.speaks()
	within := c.withinLetters(&lacking)
	letters, free, given, under, apart := false, true, false, false, false
	for _, p := range lacking.Parts {
		apart = apart || p.Apart
		bare := len(lacking.Symbols[0]) == p.Unit.To-p.Unit.From
		letters, free, given, under = letters || p.Letters, free && p.Free, given || p.Given, under || p.Under && bare
		// A word that is no unit at all is told as such; the d of 2d/v is one.
		unit := text[p.Unit.From:p.Unit.To]
		word := unit[:len(unit)-len(strings.TrimLeftFunc(unit, unicode.IsLetter))]
		if p.Apart && !p.Given && word == unit && len(unit) > 2 && s.IsUnit(unit) {
			return Verdict{}, false // 3 kWh is no product of three letters
		}
		if _, bad := s.Planner.Units.Parse(unit, units.AfterNumber); bad != nil && (p.Apart || bad.Kind != units.ProblemText && !within && !s.IsUnit(word)) {
			return Verdict{}, false
		}
	}
	whole := lacking.Parts[0].At == c.of[0].Span()
	if free && (!says || whole && rule >= plain) {
		return Verdict{}, false // d = 5mm
	}
	fits, first := true, false
	if says {
		fits, first = s.fits(&lacking)
	}
	severity := finding.Caution
	switch {
	case apart && !(says && rule == odd && c.isResult(&lacking, text)), apart && whole && !free && !given:
		return Verdict{}, false
	case apart && !fits:
		best := missing{}
		s.missing(text, false, &best)
		if best.lines == nil || s.asTyped(best.lines[0]) {
			return Verdict{}, false
		}
		return Verdict{Refused: true, Findings: []finding.Finding{best.finding(s.Line, "")}}, true
	case apart && whole && strings.Contains(text[lacking.Parts[0].At.From:lacking.Parts[0].Unit.From], "."):
	case within, rule == none && fits && says, rule == odd && (given || fits || !letters && !free):
		severity = finding.Error
	case rule == none, rule == odd, free && !(first && fits), rule == fitting && !lacking.Others && !free:
		return Verdict{}, false
	case says && fits && (free || given || !letters && (under || first)):
	case !says && lacking.Others && (given || under):
	default:
		return Verdict{}, false
	}
	if rule == none && s.offered && s.wrong(lacking.Text) {
		return Verdict{}, false
	}
	if severity == finding.Caution && len(lacking.Known) == 0 && !slices.ContainsFunc(lacking.Parts, func(p syntax.LackingPart) bool { return p.Formula || !s.Everyday(text[p.Unit.From:p.Unit.To]) }) {
		return Verdict{}, false // 30cm
	}
	return s.withoutValue(&lacking, text, severity), true
}

// wrong tells whether a line is refused for more than names that have no value.
func (s *settler) wrong(text string) bool {
	return slices.ContainsFunc(s.try(text, true).Findings, func(f finding.Finding) bool {
		return f.Severity <= finding.Mismatch && f.ID != finding.UnknownName && f.ID != finding.NotWorkedOut
	})
}

// withoutValue says which symbols have no value, and how the line is written with them.
func (s *settler) withoutValue(lacking *syntax.Lacking, text string, severity finding.Severity) Verdict {
	at := lacking.Parts[0]
	number, unit := text[at.At.From:at.Unit.From], text[at.Unit.From:at.Unit.To]
	have, are, them := " has no value.", " is a symbol", "it"
	if len(lacking.Symbols) > 1 {
		have, are, them = " have no value.", " are symbols", "them"
	}
	symbols := strings.Join(lacking.Symbols, " and ")
	f := finding.New(finding.UnitOrName, finding.Span{To: len(s.Entry.Text)}, "In `"+number+unit+"`, "+symbols+have,
		"Give "+them+" a value first.", lacking.Text)
	if severity == finding.Caution {
		f.Severity = severity
		f.Message, f.Hint = "`"+number+unit+"` is read with a unit.", "If "+symbols+are+", give "+them+" a value first."
		return Verdict{Findings: []finding.Finding{f}}
	}
	apart := text[:at.Unit.From] + " " + text[at.Unit.From:]
	if s.offered && worst(s.try(apart, true)) > finding.Mismatch {
		f.Hint += " If `" + unit + "` is a unit, put a space before it: `" + number + " " + unit + "`."
	}
	return Verdict{Refused: true, Findings: []finding.Finding{f}}
}
