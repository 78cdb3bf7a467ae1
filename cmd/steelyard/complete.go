package main

import (
	"sort"
	"strings"

	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/session/help"
	"steelyard/units"
)

// Complete lists what may stand at a place of a line, by the kind of place.
func (s *scratchpad) Complete(text string, at int) (int, []string) {
	prefix, from, place := syntax.PlaceAt(text, at)
	var words []string
	switch place {
	case syntax.AtUnit:
		words = s.pad.Table().Complete(prefix)
	case syntax.AtStatement:
		words = append(statementWords(), s.values()...)
	case syntax.AtName:
		words = s.values()
	case syntax.AtTopic:
		words = append(help.Words(s.pad), units.NewTable().Complete(prefix)...)
	}
	return from, matching(words, prefix)
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
		case session.Function, session.Formula:
			words = append(words, n.Name+"(")
		case session.OwnUnit:
		default:
			words = append(words, n.Name)
		}
	}
	for _, f := range syntax.Functions() {
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
	seen := map[string]bool{}
	var out []string
	for _, w := range words {
		if strings.HasPrefix(w, prefix) && !seen[w] {
			seen[w] = true
			out = append(out, w)
		}
	}
	sort.Strings(out)
	return out
}
