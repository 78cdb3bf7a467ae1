package typeset

import "strings"

// minus is a sign before its operand.
var minus = Box{kind: prefix, text: "−"}

// number lays out a number in plain ASCII, such as 0.080, -5 or 3.2e5, with the
// power of ten that its exponent stands for.
func number(to []Box, text string) []Box {
	if rest, ok := strings.CutPrefix(text, "-"); ok {
		to, text = append(to, minus), rest
	}
	head, power, scientific := strings.Cut(text, "e")
	if !scientific {
		return append(to, Box{kind: digits, text: text})
	}
	if head != "1" {
		to = append(to, Box{kind: digits, text: head}, Box{kind: infix, text: "×"})
	}
	power = strings.TrimPrefix(power, "+")
	raised := Box{kind: digits, text: power}
	if rest, ok := strings.CutPrefix(power, "-"); ok {
		raised.text = rest
		raised = Row(minus, raised)
	}
	return append(to, scripted(Box{kind: digits, text: "10"}, Box{}, raised))
}
