package solve

import (
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/units/writing"
)

// togetherForm is how several equations are written.
const togetherForm = "`solve A = B and C = D for a in m/s^2, T in N`"

// unevenSystem says that there are not as many equations as unknowns, and which
// symbols could be asked for.
//
// Where as many names have no value as equations are too many, those are the forgotten
// unknowns, and the line with them is offered.
func (v *solving) unevenSystem() finding.Finding {
	word := "fewer"
	if len(v.s.Equations) > len(v.s.Unknowns) {
		word = "more"
	}
	first, last := v.s.Unknowns[0], v.s.Unknowns[len(v.s.Unknowns)-1]
	message := "There are " + word + " equations (" + strconv.Itoa(len(v.s.Equations)) + ") than unknowns (" + strconv.Itoa(len(v.s.Unknowns)) + ")."
	hint := "Use as many equations as unknowns: " + togetherForm + "."
	free := v.freeSymbols()
	if word == "fewer" || len(free) == 0 {
		return finding.New(finding.NotSolved, first.NameAt, message, hint)
	}
	if len(free) != len(v.s.Equations)-len(v.s.Unknowns) {
		return finding.New(finding.NotSolved, first.NameAt, message, hint+" Without a value yet: "+writing.List(free, "and")+".")
	}
	at := max(last.NameAt.To, last.In.At.To)
	line := v.Entry.Text[:at] + ", " + strings.Join(free, ", ") + v.Entry.Text[at:]
	has := " has no value yet: write `"
	if len(free) > 1 {
		has = " have no value yet: write `"
	}
	return finding.New(finding.NotSolved, syntax.Span{From: first.NameAt.From, To: len(v.Entry.Text)}, message, writing.List(free, "and")+has+line+"`.", line[first.NameAt.From:])
}

// freeSymbols lists the names in equations that have no value and are not asked
// for, in the order in which they stand there.
//
// g is none, as every page has it.
func (v *solving) freeSymbols() []string {
	var out []string
	seen := map[string]bool{"g": true}
	for _, e := range v.s.Equations {
		for n := range syntax.Each[*syntax.Name](e.Left, e.Right) {
			if seen[n.Name] || n.Line != 0 || v.s.Asks(n.Name) {
				continue
			}
			seen[n.Name] = true
			if d, known := v.Planner.Names.Lookup(n.Name); !known || d.Kind == plan.Symbol {
				out = append(out, n.Name)
			}
		}
	}
	return out
}
