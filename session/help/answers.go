package help

import (
	"sort"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/formula"
	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/units"
)

// listing answers the words that stand for whole lists.
func listing(pad *session.Pad, word string) []string {
	switch word {
	case "units":
		return append([]string{"Units, by their symbols (help SYMBOL tells more; SI prefixes where they are customary):"}, columns(units.NewTable().Complete(""))...)
	case "quantities":
		var names []string
		for _, k := range units.Kinds() {
			names = append(names, k.Name)
		}
		sort.Strings(names)
		return append([]string{"Quantities:"}, columns(names)...)
	case "formulas":
		out := []string{"Formulas, by topic:"}
		for _, t := range formula.Topics() {
			out = append(out, "  "+t+": "+strings.Join(formula.ByTopic(t), ", "))
		}
		return out
	case "functions":
		out := []string{"Functions:"}
		for _, f := range syntax.Functions() {
			if f.Ready {
				out = append(out, "  "+pad20(f.Args)+f.Summary)
			}
		}
		return out
	case "statements":
		out := []string{"Statements:", "  " + pad20("m = 0.080 kg") + "A given.", "  " + pad20("W = 1/2*m*v^2 in J") + "A result, reported in a unit."}
		for _, s := range syntax.Statements() {
			if s.Ready {
				out = append(out, "  "+pad20(s.Word)+s.Summary)
			}
		}
		return out
	case "constants":
		out := []string{"Constants (CODATA 2022); bring one in with `constants SYMBOL`:"}
		for _, c := range units.Constants() {
			out = append(out, "  "+pad20(c.Symbol)+c.Name)
		}
		return out
	case "findings":
		out := []string{"Findings, by identifier:"}
		var ids []string
		for _, id := range finding.IDs() {
			ids = append(ids, string(id))
		}
		sort.Strings(ids)
		for _, id := range ids {
			out = append(out, "  "+pad20(id)+finding.ID(id).Sentence())
		}
		return out
	}
	return nil
}

// pad20 fills a word up to a column.
func pad20(s string) string {
	return s + strings.Repeat(" ", max(1, 24-len([]rune(s))))
}

// columns sets words in rows of at most 76 cells.
func columns(words []string) []string {
	var out []string
	row := " "
	for _, w := range words {
		if len([]rune(row))+1+len([]rune(w)) > 76 {
			out = append(out, row)
			row = " "
		}
		row += " " + w
	}
	return append(out, row)
}

// statement answers the word of a statement.
func statement(_ *session.Pad, word string) []string {
	for _, s := range syntax.Statements() {
		if s.Word != word {
			continue
		}
		out := []string{s.Form, "  " + s.Summary}
		if !s.Ready {
			return append(out, "  Part of the language; this version does not work it out yet.")
		}
		out = append(out, "  Example:")
		for line := range strings.SplitSeq(s.Example, "\n") {
			out = append(out, "    "+line)
		}
		if more, ok := moreOf[word]; ok {
			out = append(out, more...)
		}
		return out
	}
	return nil
}

// moreOf are further lines on statements whose form does not say it all.
var moreOf = map[string][]string{
	"check": {
		"  Against a written quantity it asks whether the value rounds to it:",
		"    check k = 257 N/m          holds for 256.889 N/m",
		"  Other forms:",
		"    check v < 4 m/s            also > ≤ ≥",
		"    check W is negative        also positive, zero",
		"    check k = k2 within 1 %    or within 2 N/m",
	},
	"results": {"  Trailing zeros are kept then; without it six figures are shown at most."},
	"round":   {"  The usual rule is `round halves away from zero`."},
}

// unit answers a unit: its exact factor and where that is from.
func unit(_ *session.Pad, word string) []string {
	info, ok := units.Lookup(word)
	if !ok {
		return nil
	}
	head := info.Name
	if info.Symbol != "" && info.Symbol != info.Name {
		head += " (" + info.Symbol + ")"
	}
	out := []string{head + ", a unit of " + info.Quantity}
	out = append(out, "  1 "+firstOf(info.Symbol, info.Name)+" = "+info.Exact)
	if info.Prefixable {
		out = append(out, "  takes SI prefixes: k"+info.Symbol+", m"+info.Symbol+"; in words kilo"+info.Name+", milli"+info.Name)
	}
	if info.Remark != "" {
		out = append(out, "  "+info.Remark)
	}
	return append(out, "  source: "+info.Source)
}

func firstOf(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// quantity answers the name of a kind of quantity.
func quantity(_ *session.Pad, word string) []string {
	var out []string
	for _, k := range units.FindKind(strings.ToLower(word)) {
		if out != nil {
			out = append(out, "")
		}
		head := k.Name
		if len(k.Others) > 0 {
			head += " (also " + strings.Join(k.Others, ", ") + ")"
		}
		out = append(out, head, "  reported in "+firstOf(k.Unit, "1")+"; dimension "+k.Dim.String())
	}
	return out
}

// formulaText answers a formula with its symbols.
func formulaText(pad *session.Pad, word string) []string {
	f, ok := pad.Formula(word)
	if !ok {
		return nil
	}
	out := []string{f.Name + ": " + syntax.PrintExpr(f.Left) + " = " + syntax.PrintExpr(f.Right)}
	var args []string
	for _, s := range f.Symbols {
		text := "  " + s.Name
		if s.Unit.Text != "1" {
			text += " in " + s.Unit.Text
		}
		if s.Meaning != "" {
			text += ", " + s.Meaning
		}
		if s.Default != nil {
			text += " (" + syntax.PrintExpr(s.Default) + " if left out)"
		}
		out = append(out, text)
		if left, isName := f.Left.(*syntax.Name); (!isName || left.Name != s.Name) && s.Name != "g" {
			args = append(args, s.Name)
		}
	}
	out = append(out, "  write: "+f.Name+"("+strings.Join(args, ", ")+")")
	if f.Holds != "" {
		out = append(out, "  holds "+f.Holds)
	}
	if f.Source != "" {
		out = append(out, "  source: "+f.Source)
	}
	return out
}

// topic answers a topic with its formulas.
func topic(_ *session.Pad, word string) []string {
	names := formula.ByTopic(strings.ToLower(word))
	if len(names) == 0 {
		return nil
	}
	out := []string{"Formulas of the topic " + word + ":"}
	for _, n := range names {
		text, _ := formula.Source(n)
		head, _, _ := strings.Cut(text, "\n")
		out = append(out, "  "+strings.TrimPrefix(head, "formula "))
	}
	return out
}

// function answers a built-in function.
func function(_ *session.Pad, word string) []string {
	for _, f := range syntax.Functions() {
		match := f.Name == word
		for _, a := range f.Aliases {
			match = match || a == word
		}
		if !match {
			continue
		}
		out := []string{f.Args, "  " + f.Summary}
		if !f.Ready {
			return append(out, "  Part of the language; this version does not work it out yet.")
		}
		if len(f.Aliases) > 0 {
			out = append(out, "  also "+strings.Join(f.Aliases, ", "))
		}
		return append(out, "  Example: "+f.Example)
	}
	return nil
}

// constant answers a constant of nature.
func constant(_ *session.Pad, word string) []string {
	c, ok := units.LookupConstant(word)
	if !ok {
		return nil
	}
	exact := ""
	if c.Exact {
		exact = ", exact"
	}
	value := c.Value.Text
	if c.Unit != "" && c.Unit != "1" {
		value += " " + c.Unit
	}
	return []string{c.Name + ", a constant", "  " + c.Symbol + " = " + value + exact, "  bring it in with `constants " + c.Symbol + "`", "  source: " + c.Source}
}

// findingText answers the identifier of a finding.
func findingText(_ *session.Pad, word string) []string {
	id := finding.ID(word)
	if id.Sentence() == "" {
		return nil
	}
	return []string{word + " (" + id.Severity().String() + ")", "  " + id.Sentence()}
}
