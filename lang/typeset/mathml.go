package typeset

import "unicode/utf8"

// MathML appends a box to a page as one element, without <math> round it, or as nothing.
//
// MathML Core is what browsers set by themselves; nothing here needs a script or a font.
func (b Box) MathML(page []byte) []byte {
	w := mathmlWriter{page}
	w.box(&b)
	return w.out
}

type mathmlWriter struct{ out []byte }

func (w *mathmlWriter) put(text string) { w.out = append(w.out, text...) }

// A symbol of one letter is in italics by itself in mi, and upright only if it is told so; a
// longer text is the other way round (MathML Core, 3.2.2).
//
// The parts of most boxes are in the order of the children of their element. A root without an
// index has an element of its own.
func (w *mathmlWriter) box(b *Box) {
	switch b.kind {
	case row:
		w.element("mrow", b.parts)
	case group:
		w.all(b.parts)
	case fence:
		w.fence(b)
	case choice:
		w.cases(b.parts)
	case fraction:
		w.element("mfrac", b.parts)
	case root:
		if b.parts[1].IsEmpty() {
			w.element("msqrt", b.parts)
		} else {
			w.element("mroot", b.parts)
		}
	case withBelow:
		w.element("msub", b.parts)
	case withAbove:
		w.element("msup", b.parts)
	case withBoth:
		w.element("msubsup", b.parts)
	case arrowed:
		w.put(`<mover accent="true">`)
		w.box(&b.parts[0])
		w.put(`<mo stretchy="false">→</mo></mover>`)
	case symbol:
		if letterEnd(b.text) < len(b.text) {
			w.atom("mi", ` style="font-style:italic"`, proper(b.text))
		} else {
			w.atom("mi", "", b.text)
		}
	case word, upright:
		if letterEnd(b.text) == len(b.text) {
			w.atom("mi", ` mathvariant="normal"`, b.text)
		} else {
			w.atom("mi", "", proper(b.text))
		}
	case operator:
		w.atom("mi", "", proper(b.text))
	case function:
		w.atom("mi", "", spaced(b.text))
	case digits:
		w.atom("mn", "", b.text)
	case primes:
		w.atom("mo", "", b.text)
	default:
		w.sign(b)
	}
}

// A product without a sign is U+2062 and an application U+2061: invisible, and said by a screen
// reader. The room of units is a thin space in text, since an operator would have room of its
// own.
func (w *mathmlWriter) sign(b *Box) {
	switch b.kind {
	case infix, relation, comma:
		w.atom("mo", "", b.text)
	case continued:
		w.atom("mo", ` form="infix"`, b.text)
	case prefix:
		w.atom("mo", ` form="prefix"`, b.text)
	case close:
		if b.text == "," {
			w.atom("mo", "", b.text)
		} else {
			w.atom("mo", ` lspace="0" rspace="0"`, b.text)
		}
	case loose:
		w.atom("mo", ` stretchy="false"`, b.text)
	case dot:
		w.atom("mo", "", "⋅")
	case times:
		w.atom("mo", "", "\u2062")
	case apply:
		w.atom("mo", "", "\u2061")
	case hair:
		w.put(`<mspace width="0.1667em"/>`)
	case thin:
		w.atom("mtext", "", "\u2009")
	case gap:
		w.put(`<mspace width="0.2778em"/>`)
	}
}

// fence writes brackets. Round ones stretch only where something higher than a
// line is in them: a bracket that may stretch is given the room of its largest
// form by some browsers, even where it stays small.
func (w *mathmlWriter) fence(b *Box) {
	attributes := ""
	if b.text == "()" && !b.tall {
		attributes = ` stretchy="false"`
	}
	w.put("<mrow>")
	w.atom("mo", attributes, b.text[:1])
	w.all(b.parts)
	w.atom("mo", attributes, b.text[1:])
	w.put("</mrow>")
}

// cases writes pairs of a value and a condition behind a brace.
//
// The brace stretches with the table, which no other bracket here does.
func (w *mathmlWriter) cases(parts []Box) {
	w.put(`<mrow><mo>{</mo><mtable style="text-align:left" columnalign="left">`)
	for i := 0; i+1 < len(parts); i += 2 {
		w.put("<mtr><mtd>")
		w.box(&parts[i])
		w.put(`</mtd><mtd><mtext>for&#160;</mtext>`)
		w.box(&parts[i+1])
		w.put("</mtd></mtr>")
	}
	w.put("</mtable></mrow>")
}

// mfrac, msub and the like take each of their parts for a child, so that a part may not be a
// group of several; in a row it may.
func (w *mathmlWriter) element(tag string, parts []Box) {
	w.tag("<", tag, "")
	if tag == "mrow" {
		w.all(parts)
	} else {
		for i := range parts {
			w.box(&parts[i])
		}
	}
	w.tag("</", tag, "")
}

// all writes the parts of a row.
func (w *mathmlWriter) all(parts []Box) {
	for i := range parts {
		if b := &parts[i]; b.kind == group {
			w.all(b.parts)
		} else {
			w.box(b)
		}
	}
}

// atom writes an element that holds text.
//
// The text is escaped here and nowhere else, so that no box can bring an element of its own.
func (w *mathmlWriter) atom(tag, attributes, text string) {
	w.tag("<", tag, attributes)
	w.out = appendXML(w.out, text)
	w.tag("</", tag, "")
}

// appendXML escapes text. What XML 1.0 has no place for (section 2.2) becomes
// U+FFFD.
func appendXML(to []byte, text string) []byte {
	from := 0
	for i, r := range text {
		if r > '>' && r < utf8.RuneError || r >= ' ' && r < '<' && r != '&' {
			continue
		}
		to, from = append(to, text[from:i]...), i+1
		switch {
		case r == '&':
			to = append(to, "&amp;"...)
		case r == '<':
			to = append(to, "&lt;"...)
		case r == '>':
			to = append(to, "&gt;"...)
		case r == '\t', r == '\n', r == '\r':
			to = append(to, ' ')
		case r < ' ', r == 0xfffe, r == 0xffff, r == utf8.RuneError:
			to = utf8.AppendRune(to, utf8.RuneError)
			_, size := utf8.DecodeRuneInString(text[i:])
			from = i + size
		default:
			from = i
		}
	}
	return append(to, text[from:]...)
}

func (w *mathmlWriter) tag(open, name, attributes string) {
	w.put(open)
	w.put(name)
	w.put(attributes)
	w.put(">")
}
