package main

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// manual writes the manual page in the language of man: a row that begins with a dot
// is an order to it, so text never does.
type manual struct{ strings.Builder }

// signs are those that man would draw otherwise than they are typed, or take for its own.
var signs = strings.NewReplacer(`\`, `\e`, "-", `\-`, "'", `\(aq`, "`", `\(ga`, "^", `\(ha`, "~", `\(ti`, `"`, `\(dq`)

// plainMan is text as man shows it; what is not ASCII is written by its number, so that
// the page needs no encoding.
func plainMan(text string) string {
	var b strings.Builder
	for _, r := range signs.Replace(text) {
		if r < utf8.RuneSelf {
			b.WriteRune(r)
		} else {
			fmt.Fprintf(&b, `\[u%04X]`, r)
		}
	}
	return b.String()
}

func (m *manual) text(paragraphs ...string) {
	for i, p := range paragraphs {
		if i > 0 {
			m.order("PP", "")
		}
		m.WriteString(`\&` + plainMan(p) + "\n")
	}
}

func (m *manual) order(name, rest string) {
	m.WriteString("." + name)
	if rest != "" {
		m.WriteString(` "` + plainMan(rest) + `"`)
	}
	m.WriteByte('\n')
}

// item is a term with what it means.
func (m *manual) item(term, meaning string) {
	m.WriteString(".TP\n\\fB" + plainMan(term) + "\\fR\n")
	m.text(meaning)
}

// runMan writes the manual page from the table of commands.
func runMan(w *world, _ given, _ []string) int {
	var m manual
	m.WriteString(".TH STEELYARD 1 \"\" \"steelyard " + plainMan(version()) + "\" \"\"\n")
	m.order("SH", "NAME")
	m.text("steelyard - carry units through a physics problem")
	m.order("SH", "SYNOPSIS")
	for _, p := range programs() {
		m.text(p[0])
		m.order("br", "")
	}
	m.order("SH", "DESCRIPTION")
	m.text("steelyard alone opens the scratchpad: "+scratchpadIs+". help there tells more.", piped)
	m.order("SH", "COMMANDS")
	for _, c := range commands() {
		m.order("SS", c.synopsis())
		m.text(c.about)
		for _, o := range c.options {
			m.item(o.written(), o.help)
		}
		m.order("PP", "")
		m.order("EX", "")
		for _, e := range c.examples {
			m.text(e)
		}
		m.order("EE", "")
		if c.status != "" {
			m.order("PP", "")
			m.text("Exit status: " + c.status)
		}
	}
	m.order("SH", "EXIT STATUS")
	m.text(status)
	m.order("SH", "ENVIRONMENT")
	for _, v := range environment {
		m.item(v[0], v[1])
	}
	m.order("SH", "FILES")
	m.item("$XDG_STATE_HOME/steelyard", "The journals of scratchpads, by which a page that was not saved is brought back, and the lines that were typed before.")
	m.order("SH", "CAUTION")
	m.text(caution)
	return w.print(m.String())
}

// environment lists the variables that the program looks at.
var environment = [][2]string{
	{"NO_COLOR", "If it is not empty, type is plain, and there is no preview under the line that is typed."},
	{"TERM", "If it is dumb, type is plain, nothing is drawn again, and graphs are drawn in plain characters."},
	{"STEELYARD_PLAIN", "If it is not empty, nothing on the screen is drawn again, for a screen reader: one line after another."},
	{"VISUAL, EDITOR", "The program in which a line is edited when Ctrl-X Ctrl-E asks for it; the first that is not empty."},
	{"PAGER", "The program for answers longer than the screen: more without it, none if it is empty."},
	{"LC_ALL, LC_CTYPE, LANG", "The first that is not empty: C, POSIX or a character set other than UTF-8 has graphs drawn in plain characters."},
	{"GOGC", "By how many percent the memory in use may grow before it is collected; 400 without it."},
	{"GOMEMLIMIT", "The memory that the program tries to stay below, such as 500MiB; 190 MiB without it."},
	{"XDG_STATE_HOME", "Where journals are kept: ~/.local/state without it."},
}
