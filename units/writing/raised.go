package writing

import (
	"strings"
	"unicode/utf8"
)

// raised are the raised digits with the signs and the letter n, in the order of
// plain. Unicode has ¹ ² ³ apart from the others (Latin-1 Supplement), so that
// no arithmetic on their numbers would do.
const (
	raised = "⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺ⁿ"
	plain  = "0123456789-+n"
)

// Raised writes digits and signs as an exponent has them: -2 as ⁻². Other
// characters stay as they are.
func Raised(text string) string {
	var b strings.Builder
	b.Grow(3 * len(text))
	for _, r := range text {
		if i := strings.IndexRune(plain, r); i >= 0 {
			r = nth(raised, i)
		}
		b.WriteRune(r)
	}
	return b.String()
}

// nth returns one character of a text.
func nth(text string, n int) rune {
	for _, r := range text {
		if n == 0 {
			return r
		}
		n--
	}
	return utf8.RuneError
}

// Unraised returns the plain form of a raised digit, sign or n, or 0 for any
// other character.
func Unraised(r rune) byte {
	switch r {
	case '¹':
		return '1'
	case '²':
		return '2'
	case '³':
		return '3'
	case '⁻':
		return '-'
	case '⁺':
		return '+'
	case 'ⁿ':
		return 'n'
	}
	if r == '⁰' || r >= '⁴' && r <= '⁹' {
		return byte('0' + r - '⁰')
	}
	return 0
}

// OnTheLine writes raised digits and signs plainly: ⁻² as -2. Other characters
// stay as they are.
func OnTheLine(text string) string {
	return strings.Map(func(r rune) rune {
		if c := Unraised(r); c != 0 {
			return rune(c)
		}
		return r
	}, text)
}

// Unlowered returns the plain form of a lowered digit or letter, as in v₀ and
// vₓ, or 0 for any other character.
func Unlowered(r rune) byte {
	if r >= '₀' && r <= '₉' {
		return byte('0' + r - '₀')
	}
	if r < 'ᵢ' {
		return 0
	}
	const lowered, letters = "ₐₑₕᵢⱼₖₗₘₙₒₚᵣₛₜᵤᵥₓ", "aehijklmnoprstuvx"
	i := 0
	for _, l := range lowered {
		if l == r {
			return letters[i]
		}
		i++
	}
	return 0
}
