package main

import (
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
)

// Complete lists what may stand at a place of a line, by the kind of place.
func (s *scratchpad) Complete(text string, at int) (int, []string) {
	prefix, from, place := syntax.PlaceAt(text, at)
	if head, dir, ok := filePlace(text[:at]); ok {
		return head, worksheetsIn(dir)
	}
	var words []string
	switch place {
	case syntax.AtUnit:
		words = s.pad.Table().Complete(prefix)
	case syntax.AtStatement:
		words = append(statementWords(), s.values()...)
	case syntax.AtName:
		words = s.values()
	case syntax.AtClause:
		for _, w := range syntax.Clauses(text[strings.LastIndexByte(text[:from], '\n')+1:]) {
			words = append(words, w+" ")
		}
	case syntax.AtTopic:
		words = topics(s.pad.Pad, prefix)
	}
	return from, matching(words, prefix)
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

// values lists what may stand where a name stands.
func (s *scratchpad) values() []string {
	var words []string
	for _, n := range s.pad.Names() {
		switch n.Kind {
		case ask.Function, ask.Formula:
			words = append(words, n.Name+"(")
		case ask.OwnUnit:
		default:
			words = append(words, n.Name)
		}
	}
	for _, f := range ops.Functions() {
		if f.Ready {
			words = append(words, f.Name+"(")
		}
	}
	for _, f := range s.pad.FormulaNames() {
		words = append(words, f+"(")
	}
	return words
}

// matching keeps the words that begin with a prefix, each once, sorted.
func matching(words []string, prefix string) []string {
	words = slices.DeleteFunc(slices.Clone(words), func(w string) bool { return !strings.HasPrefix(w, prefix) })
	slices.Sort(words)
	return slices.Compact(words)
}

// filePlace tells whether a file's name is being written after save or open: where
// it begins, and what is there of it.
func filePlace(text string) (from int, name string, ok bool) {
	for _, word := range []string{"save ", "open "} {
		if rest, found := strings.CutPrefix(text, word); found && !strings.Contains(strings.TrimLeft(rest, " "), " ") {
			name = strings.TrimLeft(rest, " ")
			return len(text) - len(name), name, true
		}
	}
	return 0, "", false
}

// maxNames is how many file names are offered.
const maxNames = 200

// worksheetsIn lists the worksheets and folders that begin with a name.
func worksheetsIn(name string) []string {
	dir, base := filepath.Split(name)
	at := fromHome(dir)
	if at == "" {
		at = "."
	}
	entries, err := os.ReadDir(at)
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
		case strings.HasSuffix(e.Name(), worksheet.Extension):
			out = append(out, dir+e.Name())
		}
	}
	return out
}
