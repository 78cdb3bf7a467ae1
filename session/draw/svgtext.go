package draw

import (
	"html"
	"strings"
	"unicode"
	"unicode/utf8"
)

func escape(text string) string {
	if !strings.ContainsAny(text, "&<>\"'") {
		return text
	}
	return html.EscapeString(text)
}

// symbol marks up a quantity's symbol: its letters in italics, what follows an
// underscore lowered and upright, digits and parentheses upright.
func symbol(text string) string {
	var b strings.Builder
	move := "" // back from an index to the line
	for text != "" {
		kind, n := piece(text)
		part := text[:n]
		text = text[n:]
		switch {
		case kind == index:
			b.WriteString(`<tspan dy="3" font-size="11">` + escape(part[1:]) + "</tspan>")
			move = ` dy="-3"`
			continue
		case kind == italic:
			b.WriteString("<tspan" + move + ` font-style="italic">` + escape(part) + "</tspan>")
		case move != "":
			b.WriteString("<tspan" + move + ">" + escape(part) + "</tspan>")
		default:
			b.WriteString(escape(part))
		}
		move = ""
	}
	return b.String()
}

type pieceKind int

const (
	upright pieceKind = iota
	italic
	index
)

// piece gives the kind and the length in bytes of what a symbol begins with.
func piece(text string) (pieceKind, int) {
	if text[0] == '_' {
		for i, r := range text[1:] {
			if !unicode.IsLetter(r) && !unicode.IsDigit(r) && !noWidth(r) {
				if i > 0 {
					return index, i + 1
				}
				return upright, 1
			}
		}
		if len(text) > 1 {
			return index, len(text)
		}
		return upright, 1
	}
	first, size := utf8.DecodeRuneInString(text)
	letters := unicode.IsLetter(first)
	for i, r := range text[size:] {
		if !noWidth(r) && (unicode.IsLetter(r) != letters || r == '_') {
			return kindOf(letters), size + i
		}
	}
	return kindOf(letters), len(text)
}

func kindOf(letters bool) pieceKind {
	if letters {
		return italic
	}
	return upright
}

// isSymbol says whether a name is a symbol such as "U(x)" rather than words.
func isSymbol(text string) bool {
	letters := 0
	for _, r := range text {
		switch {
		case r == '_':
			return letters > 0
		case unicode.IsLetter(r):
			if letters++; letters > 1 {
				return false
			}
		case unicode.IsSpace(r):
			return false
		default:
			if !noWidth(r) {
				letters = 0
			}
		}
	}
	return true
}

// nameMarkup marks up the name of a curve or bar.
func nameMarkup(name string) string {
	if isSymbol(name) {
		return symbol(name)
	}
	return escape(name)
}

// labelMarkup marks up an axis label "symbol / unit"; words stay upright.
func labelMarkup(text string) string {
	before, unit, ok := strings.Cut(text, " / ")
	if !ok {
		return nameMarkup(text)
	}
	var parts []string
	for _, name := range strings.Split(before, ", ") {
		if strings.Contains(name, " ") {
			parts = append(parts, escape(name))
		} else {
			parts = append(parts, symbol(name))
		}
	}
	return strings.Join(parts, ", ") + escape(" / "+unit)
}
