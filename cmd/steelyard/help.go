package main

import (
	"fmt"
	"strings"

	"steelyard/session"
	"steelyard/session/help"
)

// helpCommand looks a word up.
type helpCommand struct {
	Topic []string `arg:"" optional:"" name:"topic" help:"A unit, a quantity, a formula, a function, a statement; without one, how to write things."`
}

// run prints the topic. A word that nothing is known of is a fault of the
// command line.
func (c *helpCommand) run(w *world) int {
	word := strings.Join(c.Topic, " ")
	for _, line := range help.Topic(session.New(), word) {
		fmt.Fprintln(w.stdout, line)
	}
	if word != "" && !help.Known(session.New(), word) {
		return statusUsage
	}
	return statusHolds
}
