package help

import (
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/formula"
	"steelyard/lang/ops"
	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/session/ask"
)

const later = "  Part of the language; this version does not work it out yet."

// ofPad answers a name of the scratchpad.
func ofPad(pad *session.Pad, word string) []string {
	name := syntax.Canonical(word)
	for _, n := range pad.Names() {
		if n.Name == name && n.Kind != ask.Failed {
			return fold("  ", name+" is a name of yours (line "+strconv.Itoa(n.Line)+"); describe "+name+" tells what it is.")
		}
	}
	return nil
}

// statement answers the word of a statement.
func statement(_ *session.Pad, word string) []string {
	for _, s := range syntax.Statements() {
		if s.Word != word {
			continue
		}
		out := append([]string{s.Form}, under(s.Summary)...)
		if !s.Ready {
			return append(out, later)
		}
		out = append(out, "  Example:")
		for line := range strings.SplitSeq(s.Example, "\n") {
			out = append(out, "    "+line)
		}
		return append(out, rowsOf(more[:], word)...)
	}
	return nil
}

// more are further rows on statements whose form does not say it all.
var more = [...]section{
	{"check", []string{
		"  Against a written quantity it asks whether the value rounds to it:",
		"    check k = 257 N/m          holds for 256.889 N/m",
		"  Two values must agree to 9 figures, unless it says how nearly:",
		"    check k = k2 within 1 %    of the right side; or within 2 N/m",
		"  Other forms:",
		"    check v < 4 m/s            also > ≤ ≥",
		"    check W is negative        also positive, zero",
		"  A check that does not hold is a finding, and the exit status is 1.",
	}},
	{"solve", []string{
		"  A formula is solved by its name; with gives its symbols values:",
		"    solve spring_energy for k in N/m with U = 3 J, x = 5 cm",
		"  Of several solutions the positive one is taken; else say which:",
		"    solve h = v0*t - 1/2*g*t^2 for the later t",
		"    solve h = v0*t - 1/2*g*t^2 for t where t > 1 s",
		"    solve h = v0*t - 1/2*g*t^2 for t1, t2",
		"  As many equations as unknowns are solved together:",
		"    solve x + y = 10 m and x - y = 2 m for x, y",
		"  steps k then shows the working.",
	}},
	{"let", []string{
		"  Until a line gives k a value, lines that use it are checked for their",
		"  units and have no value.",
	}},
	{"formula", []string{
		"  Each symbol has a line with its unit; 1 is that of a pure number.",
		"  Then call it with the symbols in the order of those lines, the left",
		"  side left out, or by name:",
		"    hill_energy(70 kg, 9.8 m/s^2, 30 m)",
		"    hill_energy(h = 30 m, m = 70 kg, a = 9.8 m/s^2)",
		"  θ in °, angle, 0° if left out: gives a symbol a value of its own.",
		"  Lines may follow that begin with holds for, topic and source.",
		"  help formulas lists those that every worksheet has.",
	}},
	{"report", []string{
		"  to 3 figures keeps zeros at the end. report sign of W tells whether W",
		"  is positive, negative or zero.",
	}},
	{"results", []string{
		"  Zeros at the end are kept then. Without it results have six figures at",
		"  most, zeros at the end dropped.",
	}},
	{"round", []string{"  The usual rule is round halves away from zero."}},
	{"constants", []string{"  help constants lists them. CODATA 2022 is meant."}},
	{"part", []string{"  Within a part, giving a name a second time is a caution."}},
	{"replay", []string{"  In the shell: steelyard replay FILE."}},
	{"save", []string{"  A file that someone else has changed since is not written over."}},
	{"undo", []string{"  Lines below that used it are taken back first: undo takes the last."}},
}

// function answers a built-in function.
func function(_ *session.Pad, word string) []string {
	for _, f := range ops.Functions() {
		match := f.Name == word
		for _, a := range f.Aliases {
			match = match || a == word
		}
		if !match {
			continue
		}
		out := append([]string{f.Args}, under(f.Summary)...)
		if !f.Ready {
			return append(out, later)
		}
		if len(f.Aliases) > 0 {
			out = append(out, "  also written "+strings.Join(f.Aliases, ", "))
		}
		return append(out, "  Example:", "    "+f.Example)
	}
	return nil
}

// equation is a formula as it is written.
func equation(f *syntax.FormulaDef) string {
	return syntax.PrintExpr(f.Left) + " = " + syntax.PrintExpr(f.Right)
}

// formulaPage answers a formula with its symbols.
func formulaPage(pad *session.Pad, word string) []string {
	f, ok := pad.Formula(word)
	if !ok {
		return nil
	}
	out := fold("    ", f.Name+": "+equation(f))
	var places, named []string
	for _, s := range f.Symbols {
		out = append(out, under(symbolLine(s))...)
		if left, isName := f.Left.(*syntax.Name); isName && left.Name == s.Name {
			continue
		}
		if s.Default != nil {
			continue
		}
		places = append(places, s.Name)
		named = append(named, strings.TrimSuffix(s.Name+" = "+strconv.Itoa(max(9-len(named), 1))+" "+s.Unit.Text, " 1"))
	}
	if f.Holds != "" {
		out = append(out, under("holds "+f.Holds)...)
	}
	if f.Source != "" {
		out = append(out, under("source: "+f.Source)...)
	}
	out = append(out, "  Write:", "    "+f.Name+"("+strings.Join(places, ", ")+")")
	return append(out, fold("      ", "    "+f.Name+"("+strings.Join(named, ", ")+")")...)
}

// symbolLine tells the unit and the words of a formula's symbol.
func symbolLine(s syntax.FormulaSymbol) string {
	text := s.Name
	if s.Unit.Text != "1" {
		text += " in " + s.Unit.Text
	}
	if s.Meaning != "" {
		text += ", " + s.Meaning
	}
	if s.Default != nil {
		text += ", " + syntax.PrintExpr(s.Default) + " if left out"
	}
	return text
}

// topic answers a topic with its formulas.
func topic(pad *session.Pad, word string) []string {
	names := formula.ByTopic(word)
	if len(names) == 0 {
		return nil
	}
	out := []string{"Formulas on " + word + "; help NAME tells more:"}
	for _, n := range names {
		if f, ok := pad.Formula(n); ok {
			out = append(out, beside("  "+n, 28, equation(f))...)
		}
	}
	return out
}

// findingPage answers the identifier of a finding.
func findingPage(_ *session.Pad, word string) []string {
	id := finding.ID(word)
	if id.Sentence() == "" {
		return nil
	}
	weight := "does not change the exit status"
	if id.Severity().Fails() {
		weight = "the exit status is 1"
	}
	out := []string{word + ": the identifier of a finding (" + id.Severity().String() + ")"}
	return append(append(out, under(id.Sentence())...), "  "+weight)
}
