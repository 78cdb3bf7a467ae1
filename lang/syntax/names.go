package syntax

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"

	"steelyard/units/writing"
)

// Canonical returns the one form of a name that all its spellings share: a run
// of letters that spells a Greek letter is that letter, digits stand on the line
// without an underscore before them, and accents are composed.
//
//	v₀ v_0 → v0    omega → ω    mu_k → μ_k    Delta_x → Δx    omega0 → ω0
//
// Whoever types v_0 and reads v₀ means one thing, and so do omega and ω: two names would be two
// quantities, of which one has no value. Mu as a part of a word, as in mug, stays: only a whole
// run of letters is a letter spelled out.
func Canonical(name string) string {
	if plainName(name) {
		return name
	}
	name = foldName(name)
	var b strings.Builder
	b.Grow(len(name))
	bare := false // the run before was Greek spelled out or a Δ
	for i := 0; i < len(name); {
		r, size := utf8.DecodeRuneInString(name[i:])
		if r == '_' {
			for i < len(name) && name[i] == '_' {
				i++
			}
			next, _ := utf8.DecodeRuneInString(name[i:])
			if !isDigit(next) && (!bare || !unicode.IsLetter(next)) {
				b.WriteByte('_')
			}
			bare = false
			continue
		}
		if !unicode.IsLetter(r) {
			b.WriteRune(r)
			bare = false
			i += size
			continue
		}
		end := len(name) - len(strings.TrimLeftFunc(name[i:], func(r rune) bool { return unicode.IsLetter(r) || unicode.Is(unicode.Mn, r) }))
		run := name[i:end]
		if g := writing.Greek(run); g != "" {
			run = g
		}
		b.WriteString(run)
		bare = run == "Δ" && i == 0
		i = end
	}
	return b.String()
}

// plainName tells whether a name is its own canonical form, as most are.
//
// It is quick, and may say no of one that is.
func plainName(name string) bool {
	for i := 0; i < len(name); i++ {
		c := name[i]
		if c >= utf8.RuneSelf || c == '_' {
			return false
		}
	}
	// The shortest spelling of a Greek letter has two letters, the longest seven.
	letters := 0
	for letters < len(name) && isLetterByte(name[letters]) {
		letters++
	}
	if letters >= 2 && letters <= 7 && writing.Greek(name[:letters]) != "" {
		return false
	}
	for i := letters; i < len(name); i++ {
		if isLetterByte(name[i]) {
			return false // x1omega: rare, so the slow way
		}
	}
	return true
}

// arrow is the mark over a vector's name in print.
const arrow = '\u20d7'

// foldName composes accents and replaces look-alikes and lowered characters, and drops the arrow
// over a vector.
//
// NFC (Unicode Standard Annex 15) makes one sign of a letter with its accent, however it was
// typed.
func foldName(name string) string {
	if !strings.ContainsFunc(name, func(r rune) bool { return r >= utf8.RuneSelf }) {
		return name
	}
	name = norm.NFC.String(strings.ToValidUTF8(name, "\ufffd"))
	var b strings.Builder
	var last rune
	for _, r := range name {
		if r == arrow {
			continue
		}
		if isLoweredLetter(r) {
			if !isLoweredLetter(last) {
				b.WriteByte('_')
			}
			b.WriteByte(writing.Unlowered(r))
		} else if r == '″' {
			b.WriteString("''")
		} else {
			b.WriteRune(foldRune(r))
		}
		last = r
	}
	// A letter that was raised from below may meet an accent.
	return norm.NFC.String(b.String())
}

// foldRune replaces a character by the one that it looks like.
//
// Three signs are written for the prime of x', and mean one name.
func foldRune(r rune) rune {
	switch {
	case r >= '₀' && r <= '₉':
		return rune(writing.Unlowered(r))
	case r == '′', r == '’', r == 'ʹ':
		return '\''
	}
	return writing.LookAlike(r)
}

// isLoweredLetter tells whether r is a letter below the line, as in vₓ.
func isLoweredLetter(r rune) bool {
	return r >= utf8.RuneSelf && !isDigit(r) && writing.Unlowered(r) != 0
}

func isLetterByte(c byte) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' }

func isDigit(r rune) bool { return r >= '0' && r <= '9' || r >= '₀' && r <= '₉' }

// startsName tells whether a name or a word of a unit may begin with r.
//
// Letters that look like a power or an index begin none, nor do ª and º, which are letters to
// Unicode, and π, which is a number. ∆, the increment, is Δ to everyone.
func startsName(r rune) bool {
	if r < utf8.RuneSelf {
		return isLetterByte(byte(r))
	}
	return r == '∆' || r != 'π' && r != 'º' && r != 'ª' && unicode.IsLetter(r) && !unicode.Is(unicode.Lm, r) && !isLoweredLetter(r) && !isSuper(r)
}

// continuesName tells whether a name may go on with r.
//
// Digits, a prime and an underscore go on with a name and begin none: x', v_0, T2.
func continuesName(r rune) bool {
	switch {
	case r < utf8.RuneSelf:
		return isLetterByte(byte(r)) || r >= '0' && r <= '9' || r == '_' || r == '\''
	case isDigit(r), r == '′', r == '″', r == '’', isLoweredLetter(r):
		return true
	}
	return startsName(r) || unicode.Is(unicode.Mn, r)
}
