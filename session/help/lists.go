package help

import (
	"slices"
	"strings"
	"sync"

	"steelyard/lang/finding"
	"steelyard/lang/formula"
	"steelyard/lang/ops"
	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/units"
)

// lists are the words that stand for whole lists.
var lists = [...]struct {
	word string
	rows func(*session.Pad) []string
}{
	{"statements", listStatements},
	{"functions", listFunctions},
	{"formulas", listFormulas},
	{"units", listUnits},
	{"quantities", listQuantities},
	{"constants", listConstants},
	{"findings", listFindings},
}

func listing(pad *session.Pad, word string) []string {
	for _, l := range lists {
		if l.word == word {
			return l.rows(pad)
		}
	}
	return nil
}

func listStatements(*session.Pad) []string {
	words := []string{"m = 0.080 kg", "W = 1/2*m*v^2 in J", "T2 = T with L = 2*L", "U(x) = 1/2*k*x^2 in J", "1 lap = 400 m"}
	meanings := []string{"A given.", "A result; in J checks its unit.", "A value with others replaced.", "A function of your own.", "A unit of your own."}
	var later []string
	for _, s := range syntax.Statements() {
		if !s.Ready {
			later = append(later, s.Word)
			continue
		}
		words, meanings = append(words, s.Word), append(meanings, s.Summary)
	}
	out := append([]string{"Statements; help WORD tells more:"}, table(words, meanings)...)
	return append(out, under("not worked out by this version: "+strings.Join(later, ", "))...)
}

func listFunctions(*session.Pad) []string {
	var words, meanings []string
	for _, f := range ops.Functions() {
		words, meanings = append(words, f.Args), append(meanings, f.Summary)
	}
	return append([]string{"Functions; help NAME tells more:"}, table(words, meanings)...)
}

func listFormulas(pad *session.Pad) []string {
	out := []string{"Formulas, by topic; help NAME tells more:"}
	for _, t := range formula.Topics() {
		out = append(out, "  "+t)
		for _, name := range formula.ByTopic(t) {
			if f, ok := pad.Formula(name); ok {
				out = append(out, beside("    "+name, 30, equation(f))...)
			}
		}
	}
	return out
}

// listUnits lists the units that are read by their symbol, by what they
// measure.
func listUnits(*session.Pad) []string {
	out := []string{"Units, by their symbols; help WORD tells more. Others only have names."}
	var order []string
	of := map[string][]string{}
	for _, u := range coreUnits() {
		if of[u.Quantity] == nil {
			order = append(order, u.Quantity)
		}
		of[u.Quantity] = append(of[u.Quantity], u.Symbol)
	}
	slices.Sort(order)
	for _, q := range order {
		out = append(out, beside("  "+q, 30, strings.Join(of[q], ", "))...)
	}
	return out
}

// coreUnits are the units that are read by their symbol, in alphabetical order.
var coreUnits = sync.OnceValue(func() []units.Info {
	var out []units.Info
	for _, word := range units.NewTable().Complete("") {
		info, ok := units.Lookup(word)
		if ok && info.Core && info.Symbol == word {
			out = append(out, info)
		}
	}
	return out
})

func listQuantities(*session.Pad) []string {
	kinds := units.Kinds()
	slices.SortFunc(kinds, func(a, b units.Kind) int { return strings.Compare(a.Name, b.Name) })
	out := []string{"Quantities and the units they are shown in; help NAME tells more:"}
	for _, k := range kinds {
		out = append(out, beside("  "+k.Name, 48, k.Unit)...)
	}
	return out
}

func listConstants(*session.Pad) []string {
	var words, meanings []string
	for _, c := range units.Constants() {
		words, meanings = append(words, c.Symbol), append(meanings, c.Name)
	}
	return append(fold("  ", "Constants of nature (CODATA 2022), brought in with constants SYMBOL:"), table(words, meanings)...)
}

func listFindings(*session.Pad) []string {
	var ids, sentences []string
	for _, id := range finding.IDs() {
		ids = append(ids, string(id))
	}
	slices.Sort(ids)
	for _, id := range ids {
		sentences = append(sentences, finding.ID(id).Sentence())
	}
	return append([]string{"Findings, by identifier:"}, table(ids, sentences)...)
}
