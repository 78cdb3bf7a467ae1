package session

import (
	"strings"
	"unicode"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
)

// Title returns the title of the worksheet, or nothing.
func (p *Pad) Title() string { return p.title }

// SetTitle gives the worksheet a title.
func (p *Pad) SetTitle(title string) { p.title = title }

// entitle answers title, and a worksheet's first line: it gives the title, at any
// time, and alone tells it.
func (p *Pad) entitle(e *entry.Entry, cmd *syntax.Command) {
	fields := strings.Fields(strings.TrimPrefix(cmd.Arg, ":"))
	if len(fields) == 0 {
		e.Outcome = entry.Rows("No title yet. Write one like this: title Porch swing.")
		if p.title != "" {
			e.Outcome = entry.Rows("title: " + p.title)
		}
		return
	}
	if cmd.Word == "title" {
		fields = append([]string{"1"}, fields...)
	}
	title := strings.Join(fields[1:], " ")
	number := strings.IndexFunc(fields[0], func(r rune) bool { return !unicode.IsDigit(r) }) < 0
	switch {
	case !number:
		line := "worksheet 1 " + strings.Join(fields, " ")
		e.Findings = append(e.Findings, finding.New(finding.UnknownFormat, syntax.Span{From: cmd.WordAt.From, To: cmd.ArgAt.To},
			"The title needs a 1 in front.", "Write `"+line+"`.", line))
	case fields[0] != "1":
		f := finding.New(finding.UnknownFormat, cmd.ArgAt, "The number after worksheet must be 1.", "")
		f.Lines = []string{strings.TrimSpace("worksheet 1 " + title)}
		e.Findings = append(e.Findings, f)
	case title == "":
		e.Findings = append(e.Findings, finding.New(finding.Incomplete, cmd.ArgAt, "The title is missing.", "Write, for example, worksheet 1 Crates over a pulley."))
	default:
		if !p.trying {
			p.title = title
		}
		e.Outcome = entry.Rows("title: " + title)
	}
}
