package help

import (
	"slices"
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
		if s.Word != word && s.Also != word {
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
		return append(out, section(more, s.Word)...)
	}
	return nil
}

// clause answers a word with which a statement goes on: examples that have it.
func clause(_ *session.Pad, word string) (out []string) {
	for _, s := range syntax.Statements() {
		if !slices.Contains(s.Clauses(), word) {
			continue
		}
		for _, row := range append([]string{"    " + s.Example}, section(more, s.Word)...) {
			if example, ok := strings.CutPrefix(row, "    "); ok && slices.Contains(strings.Fields(example), word) {
				if out == nil {
					out = []string{"`" + word + "` is a word within statements:"}
				}
				out = append(out, row)
				break
			}
		}
	}
	return out
}

// function answers a built-in function.
func function(_ *session.Pad, word string) []string {
	f, ok := ops.Named(word)
	if !ok {
		return nil
	}
	out := append([]string{f.Args}, under(f.Summary)...)
	if len(f.Aliases) > 0 {
		out = append(out, "  also written "+strings.Join(f.Aliases, ", "))
	}
	return append(out, "  Example:", "    "+f.Example)
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
	for _, s := range f.Symbols {
		out = append(out, under(s.String())...)
	}
	var named []string
	for _, s := range f.Takes() {
		if s.Default == nil {
			value := strconv.Itoa(max(9-len(named), 1))
			if s.Axes > 0 {
				value = "(" + value + strings.Repeat(", 1", s.Axes-1) + ")"
			}
			named = append(named, strings.TrimSuffix(s.Name+" = "+value+" "+s.Unit.Text, " 1"))
		}
	}
	if f.Holds != "" {
		out = append(out, under("holds "+f.Holds)...)
	}
	if f.Source != "" {
		out = append(out, under("source: "+f.Source)...)
	}
	out = append(out, "  Write:", "    "+f.Call())
	return append(out, fold("      ", "    "+f.Name+"("+strings.Join(named, ", ")+")")...)
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
