package reading

import (
	"slices"
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
	"steelyard/units/writing"
)

// severalUnknowns refuses an equation with more than one unknown. Where an equation above was
// refused for the same unknowns, or for some of them, the solve of both is offered.
//
// F = T - m*g with F and T unknown can't be solved for either. Two such equations can, and whoever
// types the second has the first on the page already.
func (s *settler) severalUnknowns(m *missing) finding.Finding {
	unknown, some, another := append(slices.Clone(m.free), m.symbols...), "one", "a second equation"
	if len(unknown) > 2 {
		some, another = "all but one", "as many equations"
	}
	f := s.whole(finding.UnknownName,
		writing.List(unknown, "and")+" have no value; one equation finds only one of them.",
		"Give "+some+" a value first"+m.example(m.symbols[0], s.Line)+", or type "+another+" for them."+m.constants(s.Line))
	if m.cancels() {
		unit := units.Usual(m.symbols[0])
		f.Hint = "If " + m.symbols[0] + " cancels, type `let " + m.symbols[0] + " in " + unit + "` first. " + f.Hint
	}
	if said, joined := s.together(equationOf(m.lines[0]), unknown); joined != "" {
		f.Hint, f.Readings = said, []string{joined}
	}
	return f
}

// together is the solve of an equation with those above that were refused for the same unknowns,
// as many as there are unknowns, and which lines these are; "" where it finds no values.
//
// Each equation may bring another unknown in: with T1, T2 and a, three are needed.
func (s *settler) together(equation string, unknown []string) (said, joined string) {
	unknown = slices.Clone(unknown)
	var lines, rest []string
	for line := s.Entry.Line - 1; len(unknown) <= mostTogether && line > max(0, s.Entry.Line-maxBetween); line-- {
		above := s.EntryAt(line)
		if above == nil || !above.Failed() || len(above.Text) > longestMissing {
			continue
		}
		other := missing{}
		s.missingInEquation(above.Text, entry.BeginsWith(above.Text), &other)
		isUnknown := func(name string) bool { return slices.Contains(unknown, name) }
		if len(other.lines) == 0 || !isSolve(other.lines[0]) || slices.ContainsFunc(append(slices.Clone(other.free), other.symbols...), func(name string) bool { return !isUnknown(name) }) {
			continue // F = -k*x has a third unknown, F
		}
		of := append(slices.Clone(other.free), other.symbols...)
		if !slices.ContainsFunc(of, func(name string) bool { return slices.Contains(unknown, name) }) {
			continue
		}
		for _, name := range of {
			if !slices.Contains(unknown, name) {
				unknown = append(unknown, name)
			}
		}
		rest = append(rest, strings.TrimPrefix(equationOf(other.lines[0]), "solve "))
		lines = append(lines, strconv.Itoa(line))
		if len(unknown) != len(lines)+1 {
			continue
		}
		slices.Reverse(rest)
		joined = "solve " + strings.Join(append(rest, strings.TrimPrefix(equation, "solve ")), " and ") + " for " + strings.Join(unknown, ", ")
		if !s.accepted(joined) {
			return "", ""
		}
		if len(lines) == 1 {
			return "Line " + lines[0] + " is a second equation for them.", joined
		}
		slices.Reverse(lines)
		return "Lines " + writing.List(lines, "and") + " are the other equations for them.", joined
	}
	return "", ""
}

// mostTogether is how many unknowns are looked for in equations that were typed one by one.
const mostTogether = 4

// cancels tells whether the one symbol that is to have a value, besides the unknown, is on
// both sides of the equation, and has a usual unit.
//
// In ½*m*v^2 = m*g*h the mass is on both sides; a `let` is enough for it, and no number is needed.
func (m *missing) cancels() bool {
	left, right, _ := strings.Cut(strings.TrimPrefix(equationOf(m.lines[0]), "solve "), "=")
	holds := func(side string) bool {
		r := syntax.Reading{Text: side}
		v, ok := r.Parse(&syntax.Reader{}).(*syntax.Value)
		return ok && syntax.Holds(v.X, m.symbols[0])
	}
	return len(m.symbols) == 1 && units.Usual(m.symbols[0]) != "" && holds(left) && holds(right)
}

// maxBetween is how many lines above an equation another is looked for to be solved with it.
const maxBetween = 20

// isSolve tells whether a line is a whole solve.
func isSolve(line string) bool {
	return strings.HasPrefix(line, "solve ") && strings.Contains(line, " for ")
}

// equationOf is a solve without what it is solved for.
func equationOf(solve string) string { return solve[:strings.LastIndex(solve, " for ")] }
