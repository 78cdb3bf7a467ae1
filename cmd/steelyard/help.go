package main

import (
	"fmt"
	"strings"

	"steelyard/session"
	"steelyard/session/help"
	"steelyard/units/writing"
)

// runHelp looks a word up. A word that nothing is known of is a fault of the
// command line.
func runHelp(w *world, _ given, args []string) int {
	word := writing.Clean(strings.Join(args, " "), writing.Screen)
	pad := session.New()
	text := strings.Join(help.Topic(pad, word, w.width), "\n") + "\n"
	if word != "" && !help.Known(pad, word) {
		fmt.Fprint(w.stderr, text)
		return statusUsage
	}
	return w.print(text)
}
