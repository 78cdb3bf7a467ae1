package main

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/repl"
	"steelyard/session/view"
)

// lookOf is what the terminal shows beside the characters that are typed, by what its
// user asks for (STEELYARD_PLAIN, and NO_COLOR as no-color.org has it) and by its kind.
func lookOf(env func(name string) string) repl.Look {
	kind := env("TERM")
	look := repl.Look{Plain: env("STEELYARD_PLAIN") != "" || kind == "dumb"}
	look.Preview = !look.Plain && env("NO_COLOR") == ""
	look.Italics = look.Preview
	for _, without := range []string{"linux", "screen", "vt", "ansi", "cons", "sun"} {
		look.Italics = look.Italics && !strings.HasPrefix(kind, without)
	}
	return look
}

// Incomplete tells whether a statement asks for more lines.
func (s *scratchpad) Incomplete(text string) bool { return syntax.Incomplete(text) }

// Continues tells whether a line is one more of a statement: with it, that can be read.
func (s *scratchpad) Continues(text, line string) bool {
	if !syntax.Incomplete(text) {
		return false
	}
	if lines := strings.SplitN(text, "\n", 3); len(lines) > 2 && strings.TrimSpace(lines[0]) == "data" {
		text = lines[0] + "\n" + lines[1] // a row of a table fits its heads, whatever is between
	}
	stmt, fs := syntax.Parse(text + "\n  " + strings.TrimSpace(line))
	return stmt != nil || strings.TrimSpace(text) == "data" && fs[0].ID == finding.Incomplete // the heads alone
}

// Pasted is a line from elsewhere as it is written here: one of TeX is told by its commands.
func (s *scratchpad) Pasted(line string) string { return syntax.FromTeX(line) }

// Aside tells whether a line within a statement is a command: help and quit are.
func (s *scratchpad) Aside(line string) bool {
	stmt, _ := syntax.Parse(strings.TrimSpace(line))
	cmd, is := stmt.(*syntax.Command)
	return is && (cmd.Word == "help" || cmd.Word == "quit")
}

// Names are the parts of a statement that stand in italics.
func (s *scratchpad) Names(text string) []repl.Span {
	spans := syntax.Slanted(text)
	out := make([]repl.Span, len(spans))
	for i, at := range spans {
		out[i] = repl.Span{From: at.From, To: at.To}
	}
	return out
}

// Preview says in a few words what a line would come to; nothing of one that asks for more.
func (s *scratchpad) Preview(text string) string {
	if s.unseen || s.Incomplete(text) {
		return ""
	}
	if e := s.tried(text); e != nil {
		return view.Brief(e)
	}
	return ""
}

// tried is what a text comes to as the line that is typed, or nil.
func (s *scratchpad) tried(text string) *entry.Entry {
	line := s.pad.Next()
	if s.draft != nil {
		line = s.draft.Line
	}
	return s.pad.Preview(line, text)
}

// Lends tells how another program can have the terminal.
func (s *scratchpad) Lends(lend func(run func() error) error) { s.lend = lend }

// preview is preview off and preview on.
func (s *scratchpad) preview(arg string) {
	switch arg {
	case "on", "off":
		s.unseen = arg == "off"
	case "":
		s.tell("What a line would come to is shown under it as you type: `preview off` switches that off, `preview on` on again.")
	default:
		s.tell("Write `preview on` or `preview off`.")
	}
}
