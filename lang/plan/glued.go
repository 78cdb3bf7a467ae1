package plan

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
)

// gluedCall reads a word as a function with its argument behind it, without
// brackets: sin30, cosθ, ln2. A word of letters only is one where the rest is a
// name of the worksheet or a Greek letter. The shortest function counts.
//
// Print sets sin 30° and ln 2 without brackets. Typed without the blank they are
// words, which no line defines; what they would be in print is offered, and never
// taken: lnk may be a name that somebody forgot to give a value. A bare number behind
// sin is offered in degrees, since hardly any angle in radians is a whole number.
func (c *coder) gluedCall(word string) (string, bool) {
	for end := 2; end < len(word); end++ {
		f, ok := ops.Named(word[:end])
		if !ok || f.Name != word[:end] {
			continue
		}
		rest := word[end:]
		if strings.Trim(rest, "0123456789") == "" {
			if f.Ready && f.Takes == ops.AngleToPure {
				rest += "°"
			}
			return f.Name + "(" + rest + ")", f.Ready
		}
		name := syntax.Canonical(strings.TrimLeft(rest, "_"))
		letter := []rune(name + " ")[0]
		if c.known(name) || letter >= 'α' && letter <= 'ω' {
			return f.Name + "(" + name + ")", f.Ready
		}
	}
	return "", false
}

// notGlued records that an argument stands without its brackets.
func (c *coder) notGlued(at syntax.Span, call, reading string) run.Slot {
	name, _, _ := strings.Cut(call, "(")
	return c.refuse(finding.NotWritten, at, name+" needs brackets here.", "Write "+call+".", reading)
}
