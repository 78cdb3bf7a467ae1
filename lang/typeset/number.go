package typeset

import (
	"strings"

	"steelyard/units"
)

// minus is a sign before its operand.
var minus = Box{kind: prefix, text: "−"}

// number lays out a number in plain ASCII, such as 0.080, -5 or 3.2e5, with the
// power of ten that its exponent stands for.
//
// 1×10⁵ is 10⁵ here, as the one adds nothing and has no figure. The text is kept as 1e5, the
// way in which it is typed.
//
// An uncertainty is a second number, with the exponent of its own that it was written with.
func (l *layout) number(text string) {
	if value, off, ok := strings.Cut(text, " ± "); ok {
		l.number(value)
		l.put(Box{kind: infix, text: "±"})
		l.number(off)
		return
	}
	unsigned := strings.TrimPrefix(strings.TrimPrefix(text, "-"), "−")
	if unsigned != text {
		l.put(minus)
	}
	head, power, scientific := strings.Cut(unsigned, "e")
	if !scientific {
		l.put(Box{kind: digits, text: unsigned})
		return
	}
	outer := l.begin()
	if head != "1" {
		l.put(Box{kind: digits, text: head})
		l.put(Box{kind: infix, text: "×"})
	}
	power = strings.TrimPrefix(power, "+")
	raised := Box{kind: digits, text: power}
	if rest, ok := strings.CutPrefix(power, "-"); ok {
		raised.text = rest
		raised = l.holding(row, "", minus, raised)
	}
	l.put(l.scripted("", Box{kind: digits, text: "10"}, Box{}, raised))
	l.put(holding(group, unsigned, l.end(outer)))
}

// spread lays out a written number; with its uncertainty, in brackets.
//
// The brackets say that the unit belongs to both numbers (SI Brochure 9, 5.4.5).
func (l *layout) spread(d units.Decimal) {
	if d.Off == nil {
		l.number(d.Text)
		return
	}
	l.put(Box{kind: loose, text: "("})
	l.number(d.Written())
	l.put(Box{kind: loose, text: ")"})
}
