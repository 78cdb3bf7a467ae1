package typeset

import "strings"

// number writes a number in plain ASCII, such as 0.080, -5 or 3.2e5, with the
// power of ten that its exponent stands for.
func (w *writer) number(text string) {
	if rest, ok := strings.CutPrefix(text, "-"); ok {
		w.minus()
		text = rest
	}
	head, power, scientific := strings.Cut(text, "e")
	if !scientific {
		w.digits(text)
		return
	}
	if head != "1" {
		w.digits(head)
		w.both("<mo>×</mo>", ` \times `)
	}
	w.both("<msup><mn>10</mn>", "10^")
	power = strings.TrimPrefix(power, "+")
	if rest, ok := strings.CutPrefix(power, "-"); ok {
		w.group()
		w.minus()
		w.digits(rest)
		w.ungroup()
	} else {
		w.both("", "{")
		w.digits(power)
		w.both("", "}")
	}
	w.both("</msup>", "")
}

// digits writes digits with their decimal point.
func (w *writer) digits(text string) {
	if w.form == MathML {
		w.element("mn", text)
		return
	}
	for i := range len(text) {
		if !isDigit(text[i]) && text[i] != '.' {
			w.texText(roman, text) // not a number after all
			return
		}
	}
	w.tex(text)
}
