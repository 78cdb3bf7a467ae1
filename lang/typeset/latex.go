package typeset

import (
	"strings"
	"unicode/utf8"
)

// LaTeX writes a box for math mode, without $ round it, with the package amsmath.
//
// The first fonts of LaTeX have ASCII alone, so that every other sign is a command, and a
// character without one gets a stand-in that can be read (TeXText).
func (b Box) LaTeX() string {
	var w latexWriter
	if len(b.parts) > 0 {
		w.b.Grow(64)
	}
	w.box(&b)
	return w.b.String()
}

type latexWriter struct {
	b strings.Builder
	// word tells that what is written ends with a control word, which a letter
	// after it would become part of.
	word bool
	// deep tells that a fraction is around what is written.
	deep bool
}

// tex writes LaTeX as it is.
//
// \alpha x needs its blank and \alpha_1 none: \alphax would be a command that nobody has
// defined.
func (w *latexWriter) tex(s string) {
	if s == "" {
		return
	}
	if w.word && isLetter(s[0]) {
		w.b.WriteByte(' ')
	}
	w.b.WriteString(s)
	n := len(s)
	for n > 0 && isLetter(s[n-1]) {
		n--
	}
	w.word = n > 0 && n < len(s) && s[n-1] == '\\'
}

// Each box has one command, and the room about signs is TeX's own: what is an operator there is
// written as one.
func (w *latexWriter) box(b *Box) {
	switch b.kind {
	case row, group:
		w.all(b.parts)
	case fence:
		w.fence(b)
	case choice:
		w.cases(b.parts)
	case fraction:
		w.fraction(b)
	case root:
		w.tex(`\sqrt`)
		if !b.parts[1].IsEmpty() {
			w.group("[{", &b.parts[1], "}]")
		}
		w.group("{", &b.parts[0], "}")
	case withBelow, withAbove, withBoth:
		w.script(b)
	case arrowed:
		w.tex(`\vec`)
		w.group("{", &b.parts[0], "}")
	case symbol:
		w.symbol(b.text)
	case word:
		w.text(roman, proper(b.text))
	case upright:
		w.upright(b.text)
	case operator:
		w.operator(b.text)
	case function:
		w.function(b.text)
	case digits:
		w.digits(b.text)
	case primes:
		for _, r := range b.text {
			w.tex(`\prime`)
			if r == '″' {
				w.tex(`\prime`)
			}
		}
	default:
		w.sign(b)
	}
}

// fraction writes a fraction; within another one it keeps its size, where \frac would be
// hard to read.
//
// \dfrac is of the package amsmath, which all pages load.
func (w *latexWriter) fraction(b *Box) {
	command, above := `\frac`, w.deep
	if above {
		command = `\dfrac`
	}
	w.tex(command)
	w.deep = true
	w.group("{", &b.parts[0], "}")
	w.group("{", &b.parts[1], "}")
	w.deep = above
}

func (w *latexWriter) all(parts []Box) {
	for i := range parts {
		w.box(&parts[i])
	}
}

// fence writes brackets. Those that grow have room before them, unless told not to;
// where all in them is as high as a line they need not grow.
//
// \left and \right grow with what is in them and leave room outside, where a function's name
// should touch its bracket; an empty \mathopen takes that room.
func (w *latexWriter) fence(b *Box) {
	open, shut := b.text[:1], b.text[1:]
	if b.tall {
		open, shut = `\mathopen{}\left`+open, `\right`+shut
	} else if b.text == "||" {
		open, shut = `\lvert `, `\rvert `
	}
	w.tex(open)
	w.all(b.parts)
	w.tex(shut)
}

func (w *latexWriter) group(open string, b *Box, shut string) {
	w.tex(open)
	w.box(b)
	w.tex(shut)
}

// script writes a base with what stands below and above. A base of several things
// is grouped, so that an exponent belongs to all of them; that of a number stands
// on its last digit, which looks the same.
//
// Braces make one thing of several for TeX, and cost nothing to see.
func (w *latexWriter) script(b *Box) {
	base := &b.parts[0]
	sub, sup := b.scripts()
	switch {
	case base.kind == row, base.kind == root, base.kind == fence && base.text != "()",
		base.kind == loose, base.kind == upright && strings.ContainsAny(base.text, "°′″"):
		w.group("{", base, "}")
	default:
		w.box(base)
	}
	deep := w.deep
	w.deep = false // an exponent is small anyway
	if !sub.IsEmpty() {
		w.group("_{", sub, "}")
	}
	if !sup.IsEmpty() {
		w.group("^{", sup, "}")
	}
	w.deep = deep
}

// digits writes digits with their decimal point.
//
// Infinity may come as a bound of an interval.
func (w *latexWriter) digits(text string) {
	if text == "∞" {
		w.tex(`\infty`)
		return
	}
	for i := range len(text) {
		if !isDigit(text[i]) && text[i] != '.' {
			w.text(roman, text) // not a number after all
			return
		}
	}
	w.tex(text)
}

// operator writes the fixed name of a function, by LaTeX's own command for it
// if there is one.
//
// arcsin and its like are LaTeX's own; sgn and others are set in the same way by \operatorname.
func (w *latexWriter) operator(name string) {
	switch name {
	case "sin", "cos", "tan", "arcsin", "arccos", "arctan", "sinh", "cosh", "tanh", "exp", "ln", "log", "min", "max":
		w.tex(`\` + name)
	default:
		w.function(name)
	}
}

// function writes the name of a function that LaTeX has no command for.
func (w *latexWriter) function(name string) {
	w.tex(`\operatorname{`)
	if plainWord(name) {
		w.tex(name)
	} else {
		w.text(roman, spaced(name))
	}
	w.tex("}")
}

// cases writes pairs of a value and a condition behind a brace.
func (w *latexWriter) cases(parts []Box) {
	w.tex(`\begin{cases}`)
	for i := 0; i+1 < len(parts); i += 2 {
		if i > 0 {
			w.tex(` \\ `)
		}
		w.tex(`\displaystyle `) // or fractions would be small
		w.box(&parts[i])
		w.tex(` & \text{for }`)
		w.box(&parts[i+1])
	}
	w.tex(`\end{cases}`)
}

// texMarksOfUnits are the units that are signs.
var texMarksOfUnits = map[string]string{
	"°": `{}^{\circ}`, "°C": `{}^{\circ}\mathrm{C}`, "°F": `{}^{\circ}\mathrm{F}`,
	"′": `{}^{\prime}`, "″": `{}^{\prime\prime}`, "%": `\%`,
}

// upright writes the symbol of a unit. LaTeX has Greek letters outside of text
// only.
//
// Ω and μ of units are signs of mathematics to LaTeX; in text there are none.
func (w *latexWriter) upright(s string) {
	for s != "" {
		if mark, ok := texMarksOfUnits[s]; ok {
			w.tex(mark)
			return
		}
		i := strings.IndexFunc(s, func(r rune) bool { return texGreek()[r] != "" })
		if i < 0 {
			w.text(roman, proper(s))
			return
		}
		if i > 0 {
			w.text(roman, proper(s[:i]))
		}
		r, n := utf8.DecodeRuneInString(s[i:])
		w.tex(texGreek()[r])
		s = s[i+n:]
	}
}

// A sign in braces has no room round it, as that in a unit must have none.
func (w *latexWriter) sign(b *Box) {
	sign := b.text
	if s, ok := texSigns[sign]; ok {
		sign = s
	}
	switch b.kind {
	case infix, continued:
		w.tex(" " + sign + " ")
	case relation:
		w.relation(b.text)
	case prefix, loose:
		if b.kind == prefix && strings.HasSuffix(w.b.String(), `\;`) {
			sign = "{" + sign + "}" // behind a word it would be taken for a difference
		}
		w.tex(sign)
	case comma:
		w.tex(", ")
	case close:
		if strings.HasPrefix(sign, `\`) {
			sign = "{" + sign + "}" // no room round it
		}
		w.tex(sign)
	case dot:
		w.tex(` \cdot `)
	case times:
		w.tex(" ")
	case thin:
		w.tex(`\,`)
	case gap:
		w.tex(`\;`)
	}
}

// relation writes a sign between two sides, with room round it.
//
// A sign that LaTeX has no command for is text with the room of a relation.
func (w *latexWriter) relation(sign string) {
	if s, ok := texSigns[sign]; ok {
		w.tex(" " + s + " ")
		return
	}
	w.tex(` \mathrel{`)
	w.text(roman, sign)
	w.tex("} ")
}

var texSigns = map[string]string{
	"=": "=", "<": "<", ">": ">", "≤": `\le`, "≥": `\ge`, "≠": `\ne`, "≈": `\approx`, "≡": `\equiv`,
	"~": `\sim`, "∼": `\sim`, "∝": `\propto`, "⇒": `\Rightarrow`, "⇔": `\Leftrightarrow`, "→": `\to`,
	"≪": `\ll`, "≫": `\gg`, ":=": `:=`, "±": `\pm`, "≟": `\overset{?}{=}`,
	"−": "-", "⋅": `\cdot`, "×": `\times`, "/": "/",
}
