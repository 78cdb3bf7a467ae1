package reading

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
)

// prefixed settles a unit of which a prefix may be a unit too: λ = 0.8 W/mK, per
// millikelvin by the rules, is meant per metre and kelvin. The line is refused where
// that makes more sense. Below a slash, where print has no blank to tell them apart, and
// behind a power of ten, which leaves no room for a prefix, a tie is read as one unit, and
// says so.
//
// The SI Brochure (9th edition, 3) writes a prefix and its unit without a blank, and two units with
// one, so that mK has one meaning by the standard and two in a hurry.
func (s *settler) prefixed() Verdict {
	text, stmt := s.Entry.Text, s.Entry.Stmt
	some := false
	for x := range syntax.ExprsOf(stmt) {
		_, one := syntax.PrefixedIn(x, s.Planner.Units.Prefixed)
		some = some || one
	}
	if !some {
		return Verdict{} // nearly all lines
	}
	says := s.claimOf(stmt)
	if len(says.of) == 0 {
		return Verdict{}
	}
	u, ok := syntax.PrefixedIn(says.of[0], s.Planner.Units.Prefixed)
	if !ok || !s.IsUnit(u.Unit.Text) || !s.Unit(u.Apart) {
		return Verdict{}
	}
	with := func(unit string) syntax.Reading {
		return syntax.Reading{Text: text[:u.Unit.At.From] + unit + text[u.Unit.At.To:]}
	}
	rule, two := s.weighStmt(syntax.Reading{Text: text}, stmt), s.weigh(with(u.Apart))
	switch {
	case two.sense > rule.sense:
		return refuse(s.whole(finding.TwoReadings, "`"+u.Word+"` may be one unit with a prefix, or two units.",
			"Put a space between two units; write one by its name.", two.Text, with(u.Named).Text))
	case two.sense == rule.sense && rule.sense > none && u.Below, rule.sense < fitting && scientific(says.of[0]):
		return caution(s.whole(finding.TwoReadings, "`"+u.Word+"` is read as one unit with a prefix.",
			"Put a space between two units: "+u.Apart+".", two.Text))
	}
	return Verdict{}
}

// scientific tells whether an expression is a quantity with a power of ten.
func scientific(x syntax.Expr) bool {
	q, ok := x.(*syntax.Quantity)
	return ok && strings.ContainsAny(q.Value.Text, "eE^")
}
