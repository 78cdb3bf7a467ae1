package syntax

import (
	"strconv"
	"strings"

	"steelyard/lang/finding"
)

// Report is report NAME [in UNIT] [to N figures] [for N points], or report
// sign of NAME.
type Report struct {
	Sign    bool     `parser:"'report' ( @'sign' 'of' )?"`
	X       Expr     `parser:"@@"`
	In      UnitText `parser:"( 'in' @@ )?"`
	Figures int      `parser:"( 'to' @Number ( 'figures' | 'figure' ) )?"` // 0 if none was asked
	Points  int      `parser:"( 'for' @Number ( 'points' | 'point' ) )?"`  // 0 if none was given
}

var reportWord = StatementWord{
	Word: "report", Form: "report NAME [in UNIT] [to N figures] [for N points]",
	Summary: "Makes a value an answer of its part.",
	Example: "report k in N/m to 3 figures for 2 points", Stored: true, Ready: true, read: clauses(readReport),
	expr: true, next: []string{"in", "to", "for"},
}

func (s *Report) Exprs() []Expr  { return []Expr{s.X} }
func (*Report) Defines() []Ident { return nil }
func (*Report) Records() bool    { return false }
func (*Report) Stored() bool     { return true }
func (*Report) stmt()            {}

var reportLines = production[Report]()

func readReport(r *reader, tokens []token) (Stmt, *fault) {
	s, bad := parse(reportLines, tokens, r.to)
	if uncounted := counts(tokens); uncounted != nil && (bad == nil || uncounted.At.From <= bad.At.From) {
		bad = uncounted
	}
	return statement(s, bad)
}

// counts refuses a number of figures or points that is not a whole one, or too
// great.
func counts(tokens []token) *fault {
	for i := 1; i < len(tokens); i++ {
		if tokens[i].kind != wordToken || tokens[i-1].kind != numToken {
			continue
		}
		most := 1000 // points
		if strings.HasPrefix(tokens[i].text, "figure") {
			most = 15 // as many as a number has
		}
		if n, err := strconv.Atoi(tokens[i-1].text); err != nil || n < 1 || n > most {
			return &fault{finding.New(finding.BadNumber, tokens[i-1].span(), "A whole number from 1 to "+strconv.Itoa(most)+" should stand here.", "Write it in digits.")}
		}
	}
	return nil
}
