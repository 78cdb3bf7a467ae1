package syntax

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/units"
)

type (
	// FiguresSetting is results to N figures, or results to the givens' figures, of which
	// Figures is 0.
	//
	// It is in force from its line on. Figures of 0 says that the givens decide how
	// many a result has.
	FiguresSetting struct {
		aside
		Figures int
	}
	// ExactSetting is givens are exact.
	//
	// Then 2 kg counts as two whole kilograms, and not as one figure.
	ExactSetting struct{ aside }
	// SpreadSetting is results with uncertainties added, or with uncertainties rounded up.
	SpreadSetting struct {
		aside
		Up bool
	}
	// RoundSetting is round halves to even, or round halves away from zero.
	//
	// It matters for a final five alone: 2.5 is 2 to even and 3 away from zero.
	RoundSetting struct {
		aside
		Even bool `parser:"'round' 'halves' ( @'to' 'even' | 'away' 'from' 'zero' )"`
	}
)

var resultsWord = StatementWord{
	Word: "results", Form: "results to N figures, or with uncertainties added",
	Summary: "Sets how many figures results are shown with.",
	Example: "results to 3 figures", Stored: true, Ready: true, read: readResults,
	second: "to", sure: "with uncertainties",
}

var givensWord = StatementWord{
	Word: "givens", Form: "givens are exact",
	Summary: "Makes all givens exact: they limit no figures.",
	Example: "givens are exact", Stored: true, Ready: true, read: readGivens,
	second: "are",
}

var roundWord = StatementWord{
	Word: "round", Form: "round halves to even",
	Summary: "Sets how a final five is rounded.",
	Example: "round halves to even", Stored: true, Ready: true, read: clauses(statement(&RoundSetting{})),
	second: "halves",
}

// Rule is the rule of rounding that is set.
func (s *RoundSetting) Rule() units.Rounding {
	if s.Even {
		return units.HalfEven
	}
	return units.HalfAway
}

// The words with an apostrophe are looked for in the text, since a quotation mark
// is no token of the language.
func readResults(r *reader, at int) (Stmt, *fault) {
	if givensFigures(r.text[at:r.to]) {
		return &FiguresSetting{}, nil
	}
	switch strings.Join(strings.Fields(r.text[at:r.to]), " ") {
	case "with uncertainties added":
		return &SpreadSetting{}, nil
	case "with uncertainties rounded up":
		return &SpreadSetting{Up: true}, nil
	}
	return clauses(readFigures)(r, at)
}

// givensFigures tells whether the rest of a line is: to the givens' figures. The sign
// behind the s has several forms, and is often left out.
//
// It takes to the givens' figures, with ' or ’ or ′, and to the givens figures.
func givensFigures(rest string) bool {
	words := strings.Fields(strings.ToLower(rest))
	if len(words) != 4 {
		return false
	}
	words[2] = strings.TrimRight(words[2], "'’′")
	return strings.Join(words, " ") == "to the givens figures"
}

// There is one such line; any other is told how it is written.
func readGivens(r *reader, at int) (Stmt, *fault) {
	if rest := strings.Fields(r.text[at:r.to]); len(rest) == 2 && rest[1] == "exact" {
		return &ExactSetting{}, nil
	}
	return nil, &fault{finding.New(finding.Unreadable, Span{From: at, To: r.to}, "This part of the line can't be read.", "Write `givens are exact`.")}
}

// Decimal places are refused, to 2 dp: a number of them means nothing until the
// unit is known, and 5.12 m and 512 cm are one value.
func readFigures(r *reader, tokens []token) (Stmt, *fault) {
	p := r.line(tokens, 1)
	p.word("to")
	return &FiguresSetting{Figures: p.count("figure", mostFigures)}, p.ends()
}
