package main

import (
	"cmp"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"steelyard/lang/ops"
	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/session/ask"
	"steelyard/session/help"
	"steelyard/session/worksheet"
	"steelyard/units"
	"steelyard/units/writing"
)

// Complete lists what may stand at a place of a line, by the kind of place: the best
// first, so what the page has given before what is built in.
func (s *scratchpad) Complete(text string, at int) (int, []string) {
	prefix, from, place := syntax.PlaceAt(text, at)
	if from, names, ok := s.filesAt(text[:at]); ok {
		return from, names
	}
	if symbols := s.symbolsFor(text[:from]); symbols != nil {
		return from, matching(symbols, prefix)
	}
	var words []string
	if prefix == "sqrt" && place != syntax.AtTopic {
		return from, []string{"√"}
	}
	switch place {
	case syntax.AtUnit:
		words = s.unitsAt(text[:from], prefix)
	case syntax.AtStatement:
		words = slices.Concat(s.given(), statementWords(), spelled(prefix), s.builtIn())
	case syntax.AtName:
		words = slices.Concat(s.given(), spelled(prefix), s.builtIn())
	case syntax.AtClause:
		for _, w := range syntax.Clauses(text[strings.LastIndexByte(text[:from], '\n')+1:]) {
			words = append(words, w+" ")
		}
	case syntax.AtTopic:
		words = matching(topics(s.pad.Pad, prefix), prefix)
		slices.Sort(words)
	}
	return from, matching(words, prefix)
}

// symbolsFor are the symbols of the formula that is being solved, where one of them comes
// next: solve spring_energy for.
func (s *scratchpad) symbolsFor(before string) []string {
	words := strings.Fields(before)
	if len(words) < 3 || words[0] != "solve" || words[2] != "for" {
		return nil
	}
	f, ok := s.pad.Formula(words[1])
	if last := words[len(words)-1]; !ok || len(words) > 3 && last != "and" && !strings.HasSuffix(last, ",") {
		return nil
	}
	return f.Names()
}

// topics are the words that help knows, and the units that begin with a prefix.
func topics(pad *session.Pad, prefix string) []string {
	return append(help.Words(pad), units.NewTable().Complete(prefix)...)
}

// statementWords lists the words that begin a statement.
func statementWords() []string {
	var words []string
	for _, st := range syntax.Statements() {
		if st.Ready {
			words = append(words, st.Word+" ")
		}
	}
	return words
}

// given lists what the page has given, the last first.
func (s *scratchpad) given() []string {
	var words []string
	for _, n := range slices.Backward(s.pad.Names()) {
		switch n.Kind {
		case ask.Function, ask.Formula:
			words = append(words, n.Name+"(")
		case ask.OwnUnit:
		default:
			words = append(words, n.Name)
		}
	}
	return words
}

// spelled are the Greek letters that a word spells out or begins to: om.
func spelled(prefix string) []string {
	var words []string
	if len(prefix) > 1 {
		for _, name := range writing.GreekNames() {
			if strings.HasPrefix(name, prefix) && name != "omicron" { // which is written o
				words = append(words, writing.Greek(name))
			}
		}
	}
	return words
}

// builtIn lists the functions and formulas that may stand where a name stands.
func (s *scratchpad) builtIn() []string {
	var words []string
	for _, f := range ops.Functions() {
		words = append(words, f.Name+"(")
	}
	for _, f := range s.pad.FormulaNames() {
		words = append(words, f+"(")
	}
	slices.Sort(words)
	return words
}

// matching keeps the words that begin with a prefix, or with the letter that it spells,
// each once.
func matching(words []string, prefix string) []string {
	letters := spelled(prefix)
	seen := map[string]bool{}
	var out []string
	for _, w := range words {
		fits := strings.HasPrefix(w, prefix) || slices.ContainsFunc(letters, func(l string) bool { return strings.HasPrefix(w, l) })
		if fits && !seen[w] {
			out = append(out, w)
		}
		seen[w] = true
	}
	return out
}

// filesAt lists the files whose name may go on at the end of a line: worksheets after save
// and open, tables of readings, which are beside the worksheet, after data.
func (s *scratchpad) filesAt(line string) (from int, names []string, ok bool) {
	word, name, _ := strings.Cut(line, " ")
	name = strings.TrimLeft(name, " ")
	from = len(line) - len(name)
	switch {
	case from == len(word) || strings.Contains(name, " "):
	case word == "save" || word == "open":
		return from, filesIn("", name, worksheet.Extension), true
	case word == "data":
		return from, filesIn(filepath.Dir(s.file.path), name, ".csv", ".tsv", ".txt", ".xlsx"), true
	}
	return 0, nil, false
}

// maxNames is how many file names are offered.
const maxNames = 200

// filesIn lists the files with one of some extensions, and the folders, that begin with a
// name in a folder.
func filesIn(folder, name string, extensions ...string) []string {
	dir, base := filepath.Split(name)
	entries, err := os.ReadDir(cmp.Or(filepath.Join(folder, fromHome(dir)), "."))
	if err != nil {
		return nil
	}
	var out []string
	for _, e := range entries {
		switch {
		case len(out) == maxNames:
			return out
		case !strings.HasPrefix(e.Name(), base) || strings.HasPrefix(e.Name(), ".") && base == "" || strings.Contains(e.Name(), " "):
		case e.IsDir():
			out = append(out, dir+e.Name()+string(filepath.Separator))
		case slices.Contains(extensions, filepath.Ext(e.Name())):
			out = append(out, dir+e.Name())
		}
	}
	return out
}
