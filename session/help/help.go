// Package help answers what a word means: a unit, a quantity, a formula, a
// topic, a function, a constant, a statement or the identifier of a finding. It
// reads the catalogues that the rest of the program works from and has few
// sentences of its own. It works nothing out and prints nothing.
package help

import (
	_ "embed"
	"slices"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/formula"
	"steelyard/lang/ops"
	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/units"
	"steelyard/units/writing"
)

// overview is what help says without a word: one screen of 24 rows of 80 cells,
// the prompt and an indent of eight included.
//
//go:embed overview.txt
var overview string

// page is one place where a word is looked for. It returns nil where nothing is
// known of the word.
type page func(pad *session.Pad, word string) []string

var pages = []page{
	listing, guide, ofPad, statement, clause, function, formulaPage, topic, quantity, unit, constant, findingPage,
}

// Topic answers a word with rows of at most so many cells and no more than 72,
// or without a word how things are written. Of an unknown word it says which are
// spelled nearly so. No row is broken within a word.
func Topic(pad *session.Pad, word string, cells int) []string {
	return fit(unfitted(pad, word), cells)
}

// unfitted answers a word with rows that are not fitted to a screen yet.
func unfitted(pad *session.Pad, word string) []string {
	word = tidy(word)
	if word == "" {
		return strings.Split(strings.TrimSuffix(overview, "\n"), "\n")
	}
	if out := answer(pad, word); out != nil {
		return out
	}
	return unknown(pad, word)
}

// Known tells whether anything is known of a word.
func Known(pad *session.Pad, word string) bool { return answer(pad, tidy(word)) != nil }

// tidy drops the marks that a word may have been copied with.
func tidy(word string) string {
	word = strings.Trim(strings.Join(strings.Fields(word), " "), "`?\"")
	return strings.TrimSuffix(word, "()")
}

// answer collects what the pages know of a word as it is written; failing that,
// of the word in small letters.
func answer(pad *session.Pad, word string) []string {
	if word == "" || len(word) > 120 {
		return nil
	}
	for _, w := range []string{word, strings.ToLower(word)} {
		var out []string
		for _, p := range pages {
			if rows := p(pad, w); rows != nil {
				if out != nil {
					out = append(out, "")
				}
				out = append(out, rows...)
			}
		}
		if out != nil {
			return out
		}
	}
	return nil
}

// unknown says that a word is not known, and which are spelled nearly so.
func unknown(pad *session.Pad, word string) []string {
	short := word
	if rs := []rune(word); len(rs) > 40 {
		short = string(rs[:40]) + "…"
	}
	out := []string{"No help on `" + short + "`."}
	words := Words(pad)
	near := writing.Nearest(word, slices.Values(words))
	for _, w := range words {
		if len(word) > 2 && len(near) < 6 && strings.Contains(w, strings.ToLower(word)) && !slices.Contains(near, w) {
			near = append(near, w)
		}
	}
	for _, u := range pad.Table().Suggest(word) {
		if len(word) > 2 && len(near) < 3 && !slices.Contains(near, u) {
			near = append(near, u)
		}
	}
	if len(near) > 0 {
		out = append(out, fold("  ", "Did you mean "+strings.Join(near, ", ")+"?")...)
	}
	return append(out, "`help` shows how to write things.")
}

// Words lists the words that help knows, sorted, for completion: all but the
// units and the names of the scratchpad.
func Words(pad *session.Pad) []string {
	words := make([]string, 0, 300)
	for _, l := range lists {
		words = append(words, l.word)
	}
	words = append(words, heads(guides)...)
	for _, s := range syntax.Statements() {
		words = append(words, s.Word)
	}
	for _, f := range ops.Functions() {
		words = append(words, f.Name)
	}
	for _, k := range units.Kinds() {
		words = append(words, k.Name)
		words = append(words, k.Others()...)
	}
	words = append(words, pad.FormulaNames()...)
	words = append(words, formula.Topics()...)
	for _, id := range finding.IDs() {
		words = append(words, string(id))
	}
	slices.Sort(words)
	return slices.Compact(words)
}
