package help

import (
	_ "embed"
	"strings"

	"steelyard/session"
)

// Each text has sections: a head "@ WORD", and the rows on that word as they are
// shown on a screen of 72 cells.
var (
	// guides tell how something is written that is no statement of its own.
	//
	//go:embed guide.txt
	guides string
	// more tells of statements whose form does not say it all.
	//
	//go:embed statement.txt
	more string
)

// section returns the rows of a text on a word, or nil.
func section(text, word string) []string {
	_, rest, ok := strings.Cut("\n"+text, "\n@ "+word+"\n")
	if !ok {
		return nil
	}
	rows, _, _ := strings.Cut(rest, "\n@ ")
	return strings.Split(strings.TrimSuffix(rows, "\n"), "\n")
}

// heads lists the words that a text has sections on.
func heads(text string) []string {
	var words []string
	for row := range strings.Lines(text) {
		if word, ok := strings.CutPrefix(row, "@ "); ok {
			words = append(words, strings.TrimSpace(word))
		}
	}
	return words
}

func guide(_ *session.Pad, word string) []string {
	switch word {
	case "angle", "temperature", "number":
		return nil // quantities of their own
	case "name":
		word = "naming"
	case "π":
		word = "pi"
	case "√", "·", "×", "÷", "²", "½", "≤", "≥":
		word = "signs"
	}
	return section(guides, word)
}
