package main

import (
	"fmt"
	"strings"

	"github.com/mattn/go-runewidth"

	"steelyard/session/rows"
	"steelyard/units/writing"
)

// What the shell help and the manual page say beside the table of commands.
const (
	intro = "steelyard carries units through a physics problem."

	scratchpadIs = "a line goes in, a checked quantity comes out; with a worksheet opened in it"

	piped = "Without a terminal, steelyard alone works out the lines of standard input, as eval does."

	status = "0 if all holds (cautions and notes too); 1 if there is an error, a mismatch, a failed check or a difference from a record; 2 if the command line or a file as a whole can't be used; 130 if Ctrl-C stopped the work."

	caution = "A study aid: not for engineering, medical or safety decisions; local codes and licensed practice come first."
)

// text is shell help that is being written, in rows of a screen.
type text struct {
	strings.Builder
	cells int
}

// say writes paragraphs, each with a row between it and what is above.
func (t *text) say(paragraphs ...string) {
	for _, p := range paragraphs {
		if t.Len() > 0 {
			t.WriteByte('\n')
		}
		for _, row := range rows.Wrap(p, t.cells) {
			t.WriteString(row + "\n")
		}
	}
}

// list writes pairs of a term and what it means, side by side where there is
// room for both.
func (t *text) list(pairs [][2]string) {
	wide := 0
	for _, p := range pairs {
		wide = max(wide, 2+runewidth.StringWidth(p[0])+2)
	}
	t.WriteByte('\n')
	for _, p := range pairs {
		term, at := "  "+p[0], wide
		if t.cells-wide < 30 {
			t.WriteString(term + "\n")
			term, at = "", 6
		}
		for _, row := range rows.Wrap(p[1], max(t.cells-at, 20)) {
			t.WriteString(runewidth.FillRight(term, at) + row + "\n")
			term = ""
		}
	}
}

// about is the shell help of the program.
func (w *world) about() string {
	t := text{cells: min(w.width, 80)}
	t.say(intro)
	t.list(programs())
	t.say(piped, "Exit status: "+status, caution)
	return t.String()
}

// programs lists every way of calling the program, and what it does.
func programs() [][2]string {
	pairs := [][2]string{{"steelyard [FILE]", "the scratchpad: " + scratchpadIs}}
	for _, c := range commands() {
		pairs = append(pairs, [2]string{strings.TrimSpace("steelyard " + c.name + " " + c.takes), c.summary})
	}
	return append(pairs, [2]string{"steelyard COMMAND --help", "what a command takes"})
}

// help is the shell help of a command.
func (c *command) help(cells int) string {
	t := text{cells: min(cells, 80)}
	t.say(c.synopsis(), c.about)
	if len(c.options) > 0 {
		var pairs [][2]string
		for _, o := range c.options {
			pairs = append(pairs, [2]string{o.written(), o.help})
		}
		t.list(pairs)
	}
	t.WriteByte('\n')
	for _, e := range c.examples {
		t.WriteString("  " + e + "\n") // whole, to be copied
	}
	if c.status != "" {
		t.say("Exit status: " + c.status)
	}
	t.say(caution)
	return t.String()
}

// synopsis is how a command is written.
func (c *command) synopsis() string {
	options := ""
	if len(c.options) > 0 {
		options = " [OPTIONS]"
	}
	return strings.TrimSpace("steelyard " + c.name + options + " " + c.takes)
}

// written is an option as it is typed.
func (o *option) written() string {
	word := "--" + o.name
	if o.short != "" {
		word = "-" + o.short + ", " + word
	}
	return strings.TrimSpace(word + " " + o.takes)
}

// usage says what is wrong with the command line of a subcommand, or of the
// program if the name is empty.
func (w *world) usage(command, problem string) int {
	if command != "" {
		command += " "
	}
	w.complain("steelyard: " + problem)
	fmt.Fprintf(w.stderr, "Try: steelyard %s--help\n", command)
	return statusUsage
}

// complain writes one row to standard error, whatever names are in it.
func (w *world) complain(row string) { fmt.Fprintln(w.stderr, writing.Clean(row, writing.Screen)) }
