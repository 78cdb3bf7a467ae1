// Package formula holds the built-in formulas. They are written in the
// worksheet language itself, in the embedded files beside this one, a file for
// each topic; no formula has Go code of its own. The package finds the text of
// a formula by its name and reads nothing else: what the text means is the
// business of lang/syntax and lang/plan.
package formula

import (
	"embed"
	"maps"
	"slices"
	"strings"
	"sync"
)

//go:embed *.txt
var files embed.FS

// entry is one formula's place.
type entry struct {
	text  string
	topic string
}

// index holds every formula; it is made once, when the first is asked for.
var index = sync.OnceValue(readAll)

// readAll finds every formula in the files. It looks at the margins of their
// lines only, so that it stays cheap however many formulas there are.
func readAll() map[string]entry {
	all := make(map[string]entry)
	list, err := files.ReadDir(".")
	if err != nil {
		return all
	}
	for _, f := range list {
		data, err := files.ReadFile(f.Name())
		if err != nil {
			continue
		}
		scan(string(data), strings.TrimSuffix(f.Name(), ".txt"), all)
	}
	return all
}

// scan takes a file apart into formulas: each begins at the margin, and its
// indented lines follow.
func scan(text, topic string, all map[string]entry) {
	const head = "formula "
	for text != "" {
		end := nextStatement(text)
		statement := strings.TrimRight(text[:end], "\n")
		text = text[end:]
		rest, ok := strings.CutPrefix(statement, head)
		if !ok {
			continue
		}
		if name, _, ok := strings.Cut(rest, ":"); ok {
			all[strings.TrimSpace(name)] = entry{text: statement, topic: topic}
		}
	}
}

// nextStatement returns where the statement at the start of a text ends: before
// the next line that is not indented.
func nextStatement(text string) int {
	at := 0
	for {
		nl := strings.IndexByte(text[at:], '\n')
		if nl < 0 {
			return len(text)
		}
		at += nl + 1
		if at == len(text) || text[at] != ' ' {
			return at
		}
	}
}

// Source returns the statement that defines a formula, with its indented lines.
func Source(name string) (string, bool) {
	e, ok := index()[name]
	return e.text, ok
}

// Names lists the formulas in alphabetical order.
func Names() []string {
	return slices.Sorted(maps.Keys(index()))
}

// Topics lists the topics in alphabetical order.
func Topics() []string {
	var topics []string
	for _, e := range index() {
		topics = append(topics, e.topic)
	}
	slices.Sort(topics)
	return slices.Compact(topics)
}

// ByTopic lists the formulas of a topic in alphabetical order.
func ByTopic(topic string) []string {
	var names []string
	for _, name := range Names() {
		if index()[name].topic == topic {
			names = append(names, name)
		}
	}
	return names
}
