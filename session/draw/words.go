package draw

import (
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"
)

// clean makes one line of a text: what can't be printed becomes a space.
func clean(text string) string {
	plain := true
	for i := 0; i < len(text); i++ {
		if text[i] < ' ' || text[i] > '~' {
			plain = false
			break
		}
	}
	if plain {
		return text
	}
	return strings.Map(func(r rune) rune {
		switch {
		case r == utf8.RuneError, r == 0xFFFE, r == 0xFFFF:
			return '?'
		case unicode.IsControl(r), unicode.Is(unicode.Zl, r), unicode.Is(unicode.Zp, r):
			return ' '
		}
		return r
	}, text)
}

// noWidth says whether a rune takes no cell of its own.
func noWidth(r rune) bool {
	return r >= 0x300 && unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf)
}

// width counts the display cells of a text.
func width(text string) int {
	n := 0
	for _, r := range text {
		if !noWidth(r) {
			n++
		}
	}
	return n
}

// wrap breaks a text into lines of at most columns cells, at spaces where it
// can and inside a word where it must.
func wrap(text string, columns int) []string {
	var lines []string
	line, used := "", 0
	for _, word := range strings.Fields(clean(text)) {
		n := width(word)
		if used > 0 && used+1+n <= columns {
			line, used = line+" "+word, used+1+n
			continue
		}
		if used > 0 {
			lines = append(lines, line)
		}
		for n > columns {
			var head string
			head, word = split(word, columns)
			lines = append(lines, head)
			n = width(word)
		}
		line, used = word, n
	}
	if used > 0 {
		lines = append(lines, line)
	}
	return lines
}

// split cuts a word after the given number of cells.
func split(word string, cells int) (head, tail string) {
	n := 0
	for i, r := range word {
		if noWidth(r) {
			continue
		}
		if n == cells {
			return word[:i], word[i:]
		}
		n++
	}
	return word, ""
}

var plain = sync.OnceValue(func() map[rune]string {
	return map[rune]string{
		'−': "-", '–': "-", '—': "-", '‐': "-", '×': "*", '·': "*", '⋅': "*", '÷': "/", '√': "sqrt", '±': "+/-",
		'≈': "~", '≤': "<=", '≥': ">=", '≠': "!=", '→': "->", '…': "...", '°': "deg", '′': "'", '″': "\"",
		'“': "\"", '”': "\"", '‘': "'", '’': "'", '½': "1/2", '\u00B5': "u", '\u03BC': "u", '\u03A9': "ohm", '\u2126': "ohm",
		'α': "alpha", 'β': "beta", 'γ': "gamma", 'δ': "delta", 'ε': "epsilon", 'ζ': "zeta", 'η': "eta", 'θ': "theta",
		'κ': "kappa", 'λ': "lambda", 'ν': "nu", 'ξ': "xi", 'π': "pi", 'ρ': "rho", 'σ': "sigma", 'τ': "tau",
		'φ': "phi", 'ϕ': "phi", 'χ': "chi", 'ψ': "psi", 'ω': "omega", 'Δ': "Delta", 'Σ': "Sigma", 'Φ': "Phi",
		'Ψ': "Psi", 'Θ': "Theta", 'Λ': "Lambda", 'Γ': "Gamma", 'Π': "Pi", '∞': "inf", 'é': "e", 'è': "e", 'Å': "A",
		'\u00A0': " ", '\u202F': " ", '\u2009': " ",
	}
})

const raised, lowered = "⁰¹²³⁴⁵⁶⁷⁸⁹⁻", "₀₁₂₃₄₅₆₇₈₉₋"

// toASCII writes a text with bytes below 128 only: exponents as ^2, Greek
// letters by name, what has no such form as "?".
func toASCII(text string) string {
	text = clean(text)
	var b strings.Builder
	mode := ' '
	for _, r := range text {
		was := mode
		mode = ' '
		if r < 128 {
			b.WriteRune(r)
		} else if i := strings.IndexRune(raised, r); i >= 0 {
			mode = '^'
			writeIndex(&b, raised, r, was == mode, '^')
		} else if i := strings.IndexRune(lowered, r); i >= 0 {
			mode = '_'
			writeIndex(&b, lowered, r, was == mode, '_')
		} else if s, ok := plain()[r]; ok {
			b.WriteString(s)
		} else if !noWidth(r) {
			b.WriteByte('?')
		}
	}
	return b.String()
}

func writeIndex(b *strings.Builder, from string, r rune, inside bool, mark byte) {
	if !inside {
		b.WriteByte(mark)
	}
	for i, d := range []rune(from) {
		if d == r {
			b.WriteByte("0123456789-"[i])
		}
	}
}
