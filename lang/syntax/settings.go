package syntax

import (
	"strings"

	"steelyard/units"
)

type (
	// FiguresSetting is results to N figures.
	FiguresSetting struct{ Figures int }
	// RoundSetting is round halves to even, or round halves away from zero.
	RoundSetting struct {
		Even bool `parser:"'round' 'halves' ( @'to' 'even' | 'away' 'from' 'zero' )"`
	}
)

var resultsWord = StatementWord{
	Word: "results", Form: "results to N figures",
	Summary: "Sets how many figures results are shown with.",
	Example: "results to 3 figures", Stored: true, Ready: true, read: readResults,
	second: "to",
}

var roundWord = StatementWord{
	Word: "round", Form: "round halves to even",
	Summary: "Sets how a final five is rounded.",
	Example: "round halves to even", Stored: true, Ready: true, read: clauses(statement[RoundSetting]()),
	second: "halves",
}

func (*FiguresSetting) Exprs() []Expr    { return nil }
func (*FiguresSetting) Defines() []Ident { return nil }
func (*FiguresSetting) is() nature       { return nature{kept, Aside} }

func (*RoundSetting) Exprs() []Expr    { return nil }
func (*RoundSetting) Defines() []Ident { return nil }
func (*RoundSetting) is() nature       { return nature{kept, Aside} }

// Rule is the rule of rounding that is set.
func (s *RoundSetting) Rule() units.Rounding {
	if s.Even {
		return units.HalfEven
	}
	return units.HalfAway
}

func readResults(r *reader, at int) (Stmt, *fault) {
	if strings.HasPrefix(r.text[r.from:r.to], "results to the") {
		return nil, notYet(Span{From: r.from, To: r.to}, "Results to the figures of the givens")
	}
	return clauses(readFigures)(r, at)
}

func readFigures(r *reader, tokens []token) (Stmt, *fault) {
	p := r.line(tokens, 1)
	p.word("to")
	return &FiguresSetting{Figures: p.count("figure", mostFigures)}, p.ends()
}
