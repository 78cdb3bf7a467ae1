// Package help answers what a word means: a unit, a quantity, a formula, a
// topic, a function, a constant, a statement or the identifier of a finding. It
// reads the catalogues that the rest of the program works from, and has few
// sentences of its own.
package help

import (
	"sort"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/formula"
	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/units"

	"github.com/agnivade/levenshtein"
)

// overview is what help says without a word: one screen.
var overview = []string{
	"Write a line as on paper. A line that begins with = is the result of the one above.",
	"",
	"  m = 0.080 kg                  a given: a number and its unit",
	"  W = 1/2*m*v^2                 a result; `* / ^ ( )`, also · × ÷ ² √ π",
	"  k = 2*W/x^2 in N/m            a result reported in a unit, which is checked",
	"  check 1/2*k*x^2 = W           a second route; `within 1 %`, `< > ≤ ≥`, `is negative`",
	"  U(x) = 1/2*k*x^2 in J         a function;  U(3 cm)",
	"  spring_energy(k, x)           a formula of the library",
	"  that in kJ                    the value above, in another unit",
	"  let k in N/m                  a symbol with a unit and no value yet",
	"  1 lap = 400 m                 a unit of your own",
	"  part a: How stiff is it?      note …      # remark      report k in N/m to 3 figures",
	"",
	"Ask:      names   describe k   help newton   help torque   help spring_energy   help check",
	"Lists:    help units   help quantities   help formulas   help functions",
	"          help statements   help constants   help findings",
	"Do:       undo   save FILE   open FILE   replay   quit",
	"Keys:     Tab completes, Ctrl-R searches, Ctrl-C drops the line, Ctrl-D leaves.",
	"",
	"A study aid: not for engineering, medical or safety decisions; local codes and",
	"licensed practice come first.",
}

// answers are the places where a word is looked for, in order.
var answers = []func(*session.Pad, string) []string{
	listing, statement, unit, quantity, formulaText, topic, function, constant, findingText,
}

// Topic answers a word, or nothing for how to write things.
func Topic(pad *session.Pad, word string) []string {
	word = strings.TrimSpace(word)
	if word == "" {
		return overview
	}
	var out []string
	for _, answer := range answers {
		if lines := answer(pad, word); lines != nil {
			if out != nil {
				out = append(out, "")
			}
			out = append(out, lines...)
		}
	}
	if out == nil {
		return unknown(pad, word)
	}
	return out
}

// Known tells whether anything is known of a word.
func Known(pad *session.Pad, word string) bool {
	for _, answer := range answers {
		if answer(pad, strings.TrimSpace(word)) != nil {
			return true
		}
	}
	return false
}

// unknown says that a word is not known, and which are spelled nearly so.
func unknown(pad *session.Pad, word string) []string {
	out := []string{"Nothing is known of \"" + word + "\"."}
	near := nearest(word, Words(pad))
	if len(near) > 0 {
		out = append(out, "Did you mean "+strings.Join(near, ", ")+"?")
	}
	return append(out, "`help` alone shows how to write things.")
}

// nearest returns up to three words that are spelled nearly like one.
func nearest(word string, words []string) []string {
	if len(word) > 40 {
		return nil
	}
	best := make(map[string]int)
	var near []string
	for _, w := range words {
		if d := levenshtein.ComputeDistance(strings.ToLower(word), strings.ToLower(w)); d <= 1+len(word)/4 && d < len(word) {
			if _, seen := best[w]; !seen {
				near = append(near, w)
			}
			best[w] = d
		}
	}
	sort.Slice(near, func(i, j int) bool {
		if best[near[i]] != best[near[j]] {
			return best[near[i]] < best[near[j]]
		}
		return near[i] < near[j]
	})
	return near[:min(3, len(near))]
}

// Words lists the words that help knows, for completion: all but the units.
func Words(pad *session.Pad) []string {
	words := []string{"units", "quantities", "formulas", "functions", "statements", "constants", "findings"}
	for _, s := range syntax.Statements() {
		words = append(words, s.Word)
	}
	for _, f := range syntax.Functions() {
		words = append(words, f.Name)
	}
	for _, k := range units.Kinds() {
		words = append(words, k.Name)
	}
	words = append(words, pad.FormulaNames()...)
	words = append(words, formula.Topics()...)
	for _, id := range finding.IDs() {
		words = append(words, string(id))
	}
	sort.Strings(words)
	return words
}
