package reading

import (
	"iter"
	"slices"
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
	"steelyard/units/writing"
)

// joined settles equations with commas or `and` between them: they are solved together for the
// names in them that have no value, as many as there are equations.
func (s *settler) joined() Verdict {
	if s.Entry.Stmt != nil || !syntax.MayBeSeveral(s.Entry.Text) {
		return Verdict{}
	}
	text := s.joinedBy(s.Entry.Text)
	if text == "" {
		return Verdict{}
	}
	open := s.equationIn(text, false)
	if open.Several && !open.Equation {
		return s.otherUnknowns(text, open.Lacking)
	}
	return s.verdict(&open)
}

// otherUnknowns refuses equations of which more names lack a value than there are equations, or
// fewer. Where fewer do, the solve for these and for others that have values is offered: for those
// that a line worked out first, then for the oldest.
func (s *settler) otherUnknowns(text string, lacking []string) Verdict {
	equations := strings.Split(text, " and ")
	have, count := noValue(lacking), strconv.Itoa(len(equations))
	if len(lacking) > len(equations) {
		return refuse(s.whole(finding.UnknownName, have+"; "+count+" equations find only "+count+" of them.", "Give the others a value first."))
	}
	f := s.whole(finding.NotWritten, "Every name in these equations has a value.", "Use `check` to compare the sides, or `solve` to find some of them again.")
	if len(lacking) > 0 {
		f.Message, f.Hint = have+"; "+count+" equations find "+count+" names.", "Use `solve`, and say which others are to be found again."
	} else if checks := "check " + strings.Join(equations, "\ncheck "); s.accepted(checks) {
		f.Readings = []string{checks}
	}
	if !s.offered {
		return refuse(f)
	}
	var sides []syntax.Expr
	for _, line := range equations {
		open := s.equationIn(line, entry.BeginsWith(line) != "")
		for _, r := range open.Readings[:min(1, len(open.Readings))] {
			if stmt := s.read(&r); stmt != nil {
				sides = append(sides, stmt.Exprs()...)
			}
		}
	}
	known := s.toFind(sides)
	for names := range choices(known[:min(len(known), mostTried)], len(equations)-len(lacking)) {
		solve := "solve " + text + " for " + strings.Join(append(slices.Clone(lacking), names...), ", ")
		if len(f.Readings) == maxOffers {
			break
		}
		if s.accepted(solve) {
			f.Readings = append(f.Readings, solve)
		}
	}
	return refuse(f)
}

// mostTried is how many names with a value are tried as unknowns of several equations.
const mostTried = 6

// choices are all choices of n names, the first of them first.
func choices(names []string, n int) iter.Seq[[]string] {
	return func(yield func([]string) bool) {
		var from func(i int, chosen []string) bool
		from = func(i int, chosen []string) bool {
			if len(chosen) == n {
				return yield(chosen)
			}
			for k := i; k < len(names); k++ {
				if !from(k+1, append(slices.Clip(chosen), names[k])) {
					return false
				}
			}
			return true
		}
		from(0, nil)
	}
}

// partsOf are the parts of a line with commas, semicolons or `and` between them.
func partsOf(text string) (parts []string) {
	for _, part := range strings.Split(strings.NewReplacer("; and ", ", ", "; ", ", ", ", and ", ", ", " and ", ", ").Replace(text), ", ") {
		parts = append(parts, strings.TrimSpace(part))
	}
	return parts
}

// joinedBy are equations with commas between them as they are with `and`; "" for another line, and
// where each gives a name a value, which is several lines.
func (s *settler) joinedBy(text string) string {
	parts := partsOf(text)
	gives := func(part string) bool {
		name := entry.BeginsWith(part)
		_, _, product := syntax.Apart(name, s.Known, nil) // mgh
		return name != "" && (!product || s.Known(name))
	}
	if len(parts) < 2 || !slices.ContainsFunc(parts, func(part string) bool { return !gives(part) }) {
		return ""
	}
	for _, part := range parts {
		if strings.Count(part, "=") != 1 || strings.ContainsAny(part, "<>≤≥:\"") || strings.Count(part, "(") != strings.Count(part, ")") {
			return ""
		}
	}
	return strings.Join(parts, " and ")
}

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
		"Give "+some+" a value first"+m.example(m.symbols[0], s.Line)+", or put "+another+" behind this one, with `and` before it."+m.constants(s.Line))
	if let := s.cancelling(m); let != "" {
		f.Hint, f.Readings = m.symbols[0]+" cancels, so its unit is enough.", []string{let}
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

// cancelling is the `let` for the one symbol, besides the unknown, that has no value, and the line
// below it, where that then has one: the symbol cancels. It is "" where it does not.
//
// In ½*m*v^2 = m*g*h the mass is on both sides, and no number is needed.
func (s *settler) cancelling(m *missing) string {
	if len(m.symbols) != 1 || units.Usual(m.symbols[0]) == "" {
		return ""
	}
	for _, line := range [...]string{s.Entry.Text, m.lines[0]} {
		text := "let " + m.symbols[0] + " in " + units.Usual(m.symbols[0]) + "\n" + line
		if e := s.try(text, true); worst(e) > finding.Mismatch && len(e.Values()) == 1 {
			return text
		}
	}
	return ""
}

// maxBetween is how many lines above an equation another is looked for to be solved with it.
const maxBetween = 20

// isSolve tells whether a line is a whole solve.
func isSolve(line string) bool {
	return strings.HasPrefix(line, "solve ") && strings.Contains(line, " for ")
}

// equationOf is a solve without what it is solved for.
func equationOf(solve string) string { return solve[:strings.LastIndex(solve, " for ")] }
