package syntax

import (
	"fmt"
	"strconv"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/units/writing"
)

// guard refuses, before anything else looks at it, a text that is too long or
// holds what no line may hold.
//
// A character that can't be seen, or that turns the direction of writing, would show a reader
// another line than the one that is worked out.
func guard(text string) *fault {
	if len(text) > limit.Line {
		return &fault{finding.New(finding.TooLong, Span{From: limit.Line, To: limit.Line},
			"This line is longer than "+strconv.Itoa(limit.Line)+" bytes.", "Split it into several lines.")}
	}
	for i := 0; i < len(text); {
		c := text[i]
		if c >= ' ' && c < 0x7f || c == '\n' || c == '\t' {
			i++
			continue
		}
		r, n := utf8.DecodeRuneInString(text[i:])
		at := Span{From: i, To: i + n}
		switch {
		case r == utf8.RuneError && n <= 1:
			return &fault{finding.New(finding.BadText, at, "This isn't text in UTF-8.", "Save the file as UTF-8, or type the character again.")}
		case r == '\r' && (i+1 == len(text) || text[i+1] == '\n'):
		case r < ' ', r >= 0x7f && r < 0xa0:
			return &fault{finding.New(finding.BadText, at, fmt.Sprintf("There is a control character (%U) here.", r), "Take it out.")}
		case writing.Hidden(r):
			return &fault{finding.New(finding.BadText, at, fmt.Sprintf("There is a character here that can't be seen (%U).", r),
				"Take it out: the line could look like another one.")}
		}
		i += n
	}
	return nil
}
