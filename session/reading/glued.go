package reading

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
)

// ofFunction settles a line that begins with a function directly before its argument:
// sinθ1 = n*sin(θ2). It gives no name sinθ1, which would keep its value when θ1 has
// another: the solve for the angle is offered, or the check where it is known.
//
// With a name sinθ1 a page has a number that looks like the sine of θ1 and is not. What is meant is
// Snell's law, solved for the angle.
func (s *settler) ofFunction(word, call string) Verdict {
	v := Verdict{}
	text := s.Entry.Text
	if d, ok := s.Entry.Stmt.(*syntax.Define); ok {
		text = text[:d.X.Span().To] // without the words about the name
	}
	open := s.equationIn(call+" "+text[strings.IndexByte(text, '='):], false)
	if open.Equation {
		v = s.verdict(&open)
	}
	switch {
	case v.settles():
		return v
	case len(v.Findings) == 0:
		return s.noName(word, call, strings.TrimSpace(anotherName))
	}
	v.Findings[0].ID, v.Findings[0].Message = finding.NameKind, isCall(word, call)
	return nameless(v.Findings[0])
}

// solvedFor refuses such a word as the unknown of an equation.
func (s *settler) solvedFor(stmt *syntax.Solve) Verdict {
	for i := range stmt.Unknowns {
		word := stmt.Unknowns[i].Name
		if call, ok := syntax.GluedCall(word, &s.scope); ok {
			return s.noName(word, call, "Write "+call+" in the equation, and solve for what is in the brackets.")
		}
	}
	return Verdict{}
}

// nameless refuses a line that gives no name.
func nameless(f finding.Finding) Verdict {
	v := refuse(f)
	v.Nameless = true
	return v
}

func (s *settler) noName(word, call, hint string) Verdict {
	return nameless(s.whole(finding.NameKind, isCall(word, call), hint))
}

func isCall(word, call string) string {
	return word + " is " + call + ", not a name of its own."
}
