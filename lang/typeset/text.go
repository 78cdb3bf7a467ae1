package typeset

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/lang/syntax"
	"steelyard/units/writing"
)

// Text writes an expression as a line of text for a screen. Reading it gives the
// same meaning; none is nothing.
func Text(x syntax.Expr) string { return Expr(x).Text() }

// Text writes a box as a line of text, as it can be typed: products with ·, whole
// exponents raised, quotients with a stroke.
//
// It is what working, findings and listings on a screen are written with, and what is kept in
// no file: there the language's own form stands (syntax.PrintExpr).
func (b Box) Text() string {
	var w textWriter
	w.Grow(shortText)
	w.box(&b)
	return w.String()
}

// Page writes a box as a line of a printed page in plain text: minus signs are minus signs,
// roots roots, powers of ten raised, and the names of formulas are words. It is not typed
// back.
//
// It is for pages in plain text, which are read and not entered: so roots, minus signs and
// names are those of print, and what can't be stacked has brackets.
func (b Box) Page() string {
	w := textWriter{page: true}
	w.Grow(shortText)
	w.box(&b)
	return w.String()
}

// shortText is room for most formulas.
const shortText = 32

type textWriter struct {
	strings.Builder
	page bool // for a page, and not as it is typed
}

func (w *textWriter) box(b *Box) {
	switch b.kind {
	case row, group:
		if b.text != "" && (!w.page || b.kind == row) {
			w.WriteString(b.text)
		} else {
			w.all(b.parts)
		}
	case arrowed:
		w.box(&b.parts[0])
	case fence:
		w.fence(b)
	case choice:
		for i := 0; i+1 < len(b.parts); i += 2 {
			if i > 0 {
				w.WriteString("; ")
			}
			w.box(&b.parts[i])
			w.WriteString(" for ")
			w.box(&b.parts[i+1])
		}
	case fraction:
		w.fraction(b)
	case root:
		w.root(b)
	case withBelow, withAbove, withBoth:
		w.script(b)
	case infix, continued, relation:
		if w.page && b.text == "×" { // of a power of ten
			w.WriteString(b.text)
			return
		}
		w.WriteString(" " + w.sign(b.text) + " ")
	case comma:
		w.WriteString(", ")
	case thin, gap:
		if w.page && b.text != "" { // between units, as a value is shown
			w.WriteString(b.text)
			return
		}
		w.WriteByte(' ')
	case function:
		w.WriteString(w.words(b.text))
	default:
		w.WriteString(w.sign(b.text))
	}
}

// words is a long name, on a page as words.
func (w *textWriter) words(name string) string {
	if w.page {
		return strings.ReplaceAll(name, "_", " ")
	}
	return name
}

// sign is a sign as it is typed, or as a page has it.
func (w *textWriter) sign(text string) string {
	if w.page && text == "−" {
		return text
	}
	return ascii(text)
}

// ascii is a sign as it is typed.
func ascii(sign string) string {
	switch sign {
	case "−":
		return "-"
	case "⋅":
		return "·"
	}
	return sign
}

// Here brackets come back that a bar has made needless: a fraction with a factor behind it,
// (a/b) c, and a quantity beside a product, (3 m)·k.
func (w *textWriter) all(parts []Box) {
	for i := range parts {
		var before, after Box
		if i > 0 {
			before = parts[i-1]
		}
		if i+1 < len(parts) {
			after = parts[i+1]
		}
		switch b := &parts[i]; {
		case b.kind == dot, b.kind == times:
			w.product(b, &after)
		case b.hasScript() && b.text == "" && after.kind == apply: // sin²(x) is typed sin(x)²
			w.box(&b.parts[0])
			w.box(&parts[i+2])
			_, above := b.scripts()
			w.exponent(above)
			w.all(parts[i+3:])
			return
		case b.kind == fraction:
			w.bracketed(b, after.kind == thin || after.isProduct() && after.text == "" || i > 0 && b.first().kind == prefix)
		default:
			w.bracketed(b, b.hasUnit() && (before.isProduct() || after.isProduct()))
		}
	}
}

// isProduct tells whether a box stands between factors.
func (b *Box) isProduct() bool {
	return b.kind == dot || b.kind == times || b.kind == close && b.text == "/"
}

// hasUnit tells whether a box is a number with a unit behind a blank.
//
// 3 m beside another factor needs its brackets; 30°, which touches its number, does not.
func (b *Box) hasUnit() bool {
	return (b.kind == group || b.kind == row) && slices.ContainsFunc(b.parts, func(p Box) bool { return p.kind == thin })
}

// Strokes can't be typed for a number, so a size is abs( ) on a screen.
func (w *textWriter) fence(b *Box) {
	open, shut := b.text[:1], b.text[1:]
	if b.text == "||" && w.page {
		open, shut = "|", "|"
	} else if b.text == "||" {
		open, shut = "abs(", ")"
	}
	w.WriteString(open)
	w.all(b.parts)
	w.WriteString(shut)
}

// first is what a box begins with: a name, a sign, a number, a bracket.
//
// A writer that looks at what comes next must see through rows and scripts to the first sign.
func (b *Box) first() *Box {
	for b.text == "" && len(b.parts) > 0 && b.kind != root && b.kind != fence {
		b = &b.parts[0]
	}
	return b
}

// bracketed writes a box in round brackets, or as it is.
func (w *textWriter) bracketed(b *Box, brackets bool) {
	if brackets {
		w.WriteByte('(')
	}
	w.box(b)
	if brackets {
		w.WriteByte(')')
	}
}

// fraction writes a fraction with a stroke.
//
// Below the stroke everything but a single thing gets brackets, as 1/2πr would be read in two
// ways.
func (w *textWriter) fraction(b *Box) {
	over, under := &b.parts[0], &b.parts[1]
	w.bracketed(over, over.hasUnit() || over.kind == row && slices.ContainsFunc(over.parts, isLoose))
	w.WriteByte('/')
	w.bracketed(under, !isSingle(under))
}

// isLoose tells whether what a box stands in is no product.
func isLoose(b Box) bool {
	switch b.kind {
	case infix, continued, relation, comma, gap:
		return true
	}
	return false
}

// isSingle tells whether a box holds together as a name does.
//
// A name with its index is one thing, and so is a call with its bracket.
func isSingle(b *Box) bool {
	return b.kind != fraction && !b.hasUnit() && (b.kind != row || b.text != "" || isNameOrCall(b.parts))
}

func isNameOrCall(parts []Box) bool {
	return len(parts) == 3 && parts[1].kind == apply || len(parts) == 1 && parts[0].kind == row && parts[0].text != ""
}

// root writes a root, as a function if it was typed as one.
//
// √ reaches over one thing; of anything longer, and of a power, the bracket says how far.
func (w *textWriter) root(b *Box) {
	of, degree := &b.parts[0], &b.parts[1]
	typed := b.text
	if w.page && (degree.IsEmpty() || degree.kind == digits) {
		typed = ""
		w.WriteString(writing.Raised(degree.text))
	}
	switch typed {
	case "":
		w.WriteString("√")
		_, above := of.scripts()
		w.bracketed(of, !isSingle(of) || above.kind != nothing && above.kind != primes)
	case "root":
		w.WriteString("root(")
		w.box(of)
		w.WriteString(", ")
		w.box(degree)
		w.WriteByte(')')
	default:
		w.WriteString(b.text)
		w.bracketed(of, true)
	}
}

// The text of a name is what was typed, v_max; its exponent is written behind that.
func (w *textWriter) script(b *Box) {
	base := &b.parts[0]
	below, above := b.scripts()
	switch {
	case b.text != "": // a name
		w.WriteString(b.text)
		if above.kind == primes {
			return
		}
		if above.kind == row && above.parts[0].kind == primes {
			above = &above.parts[1]
		}
	case base.kind == fence && isNameOrCall(base.parts): // Δx² is the square of Δx
		w.all(base.parts)
	default:
		w.bracketed(base, base.kind == root && base.text == "")
		w.box(below) // of log₁₀, that log has more than one meaning
	}
	w.exponent(above)
}

// exponent writes a whole exponent raised, any other behind ^.
//
// x² and x⁻¹ can be typed and read as they are seen; for x^(n+1) there are no raised letters
// that all fonts have.
func (w *textWriter) exponent(b *Box) {
	if b.IsEmpty() {
		return
	}
	sign, n := "", b
	if b.kind == row && len(b.parts) == 2 && b.parts[0].kind == prefix {
		sign, n = ascii(b.parts[0].text), &b.parts[1]
	}
	if n.kind == digits && allDigits(n.text) {
		w.WriteString(writing.Raised(sign + n.text))
		return
	}
	w.WriteByte('^')
	w.bracketed(b, !isSingle(b))
}

// product writes the sign between two factors. One that is left out leaves a blank
// where it is needed: before a function's name, and after a number (0.5(2) is an
// uncertainty). Where the factors would run into each other it is written: behind a
// number a word is a unit.
//
// Where print leaves the sign out, a line of text may need it: behind a number a letter would
// be a unit, 2·m, and after a letter another would run into it.
func (w *textWriter) product(b, after *Box) {
	before, _ := utf8.DecodeLastRuneInString(w.String())
	next := after.first()
	begins, _ := utf8.DecodeRuneInString(next.text)
	isName := next.kind == symbol && next.text != "π" || next.hasScript() || next.kind == row
	isFunction := next.kind != symbol && !isName && next.kind != fence && unicode.IsLetter(begins)
	number := unicode.IsDigit(before) || writing.Unraised(before) != 0
	switch {
	case b.text != "", unicode.IsDigit(begins), before != 'π' && unicode.IsLetter(before), isName && (number || before == ')'):
		w.WriteString("·")
	case isFunction || after.kind == hair, number && next.text != "π":
		w.WriteByte(' ')
	}
}
