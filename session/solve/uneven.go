package solve

import (
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
)

// togetherForm is how several equations are written.
const togetherForm = "`solve A = B and C = D for a in m/s^2, T in N`"

// unevenSystem says that there are not as many equations as unknowns, and which
// symbols could be asked for.
func unevenSystem(l *eval.Line, s *syntax.Solve) finding.Finding {
	word := "fewer"
	if len(s.Equations) > len(s.Unknowns) {
		word = "more"
	}
	first, last := s.Unknowns[0], s.Unknowns[len(s.Unknowns)-1]
	message := "There are " + word + " equations (" + strconv.Itoa(len(s.Equations)) + ") than unknowns (" + strconv.Itoa(len(s.Unknowns)) + ")."
	hint := "As many equations are needed as there are unknowns: " + togetherForm + "."
	free := freeSymbols(l, s)
	if word == "fewer" || len(free) == 0 {
		return finding.New(finding.NotSolved, first.NameAt, message, hint)
	}
	if len(free) != len(s.Equations)-len(s.Unknowns) {
		return finding.New(finding.NotSolved, first.NameAt, message, hint+" Without a value yet: "+list(free)+".")
	}
	at := max(last.NameAt.To, last.In.At.To)
	line := l.Entry.Text[:at] + ", " + strings.Join(free, ", ") + l.Entry.Text[at:]
	has := " has no value yet: write `"
	if len(free) > 1 {
		has = " have no value yet: write `"
	}
	return finding.New(finding.NotSolved, syntax.Span{From: first.NameAt.From, To: len(l.Entry.Text)}, message, list(free)+has+line+"`.", line[first.NameAt.From:])
}

// freeSymbols lists the names in equations that have no value and are not asked
// for, in the order in which they stand there.
func freeSymbols(l *eval.Line, s *syntax.Solve) []string {
	var out []string
	seen := map[string]bool{"g": true}
	for _, e := range s.Equations {
		for _, side := range []syntax.Expr{e.Left, e.Right} {
			if side == nil {
				continue
			}
			syntax.Walk(side, func(x syntax.Expr) bool {
				n, ok := x.(*syntax.Name)
				if !ok || seen[n.Name] || n.Line != 0 || isUnknown(s, n.Name) {
					return true
				}
				seen[n.Name] = true
				d, known := l.Planner.Names.Lookup(n.Name)
				if !known || d.Kind == plan.Symbol {
					out = append(out, n.Name)
				}
				return true
			})
		}
	}
	return out
}
