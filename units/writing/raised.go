package writing

import (
	"strings"
	"unicode/utf8"
)

// The raised digits with the signs and the letter n, the lowered digits and letters,
// and their plain forms in the same order. Unicode has ¹ ² ³ apart from the other
// raised ones (Latin-1 Supplement), so that no arithmetic on their numbers would do.
const (
	raised       = "⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺ⁿ"
	plainRaised  = "0123456789-+n"
	lowered      = "₀₁₂₃₄₅₆₇₈₉ₐₑₕᵢⱼₖₗₘₙₒₚᵣₛₜᵤᵥₓ"
	plainLowered = "0123456789aehijklmnoprstuvx"
)

// counterpart returns the character that stands in one list where another stands in
// the other, or 0.
func counterpart(r rune, from, to string) rune {
	for _, f := range from {
		t, n := utf8.DecodeRuneInString(to)
		if f == r {
			return t
		}
		to = to[n:]
	}
	return 0
}

// Raised writes digits and signs as an exponent has them: -2 as ⁻². Other
// characters stay as they are.
func Raised(text string) string {
	var b strings.Builder
	b.Grow(3 * len(text))
	for _, r := range text {
		if up := counterpart(r, plainRaised, raised); up != 0 {
			r = up
		}
		b.WriteRune(r)
	}
	return b.String()
}

// Unraised returns the plain form of a raised digit, sign or n, or 0 for any
// other character.
func Unraised(r rune) byte {
	if r < '²' || r > '¹' && r < '⁰' { // as most are
		return 0
	}
	return byte(counterpart(r, raised, plainRaised))
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
	if r < 'ᵢ' { // as most are
		return 0
	}
	return byte(counterpart(r, lowered, plainLowered))
}
