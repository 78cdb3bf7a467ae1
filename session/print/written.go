package print

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"steelyard/units"
	"steelyard/units/writing"
)

// written is a number as it stands in prose, read in one of the ways that its spelling
// allows.
//
// 1,250 is twelve hundred and fifty to one reader and one and a quarter to another, so that a text
// may hold both.
type written struct {
	text  string
	value float64
	// last is what one more in its last figure comes to.
	last    float64
	figures int
	digits  int         // as it is written, with noughts at the end of a whole number
	unit    *units.Unit // nil for a number that has none behind it
	// counts tells that a word follows which is no unit: 24 pupils.
	counts bool
	// told tells that words before the number say that something has this value.
	told bool
}

// numbers are what looks like a number in prose: a point or a comma before decimals,
// blanks or commas between thousands, a power of ten in any spelling.
var numbers = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?:[0-9]{1,3}(?:[ \x{a0}\x{202f}\x{2009},'’][0-9]{3})+(?:[.,][0-9]+)?|[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+)` +
		`(?:[eE][-−+]?[0-9]+|[ \x{a0}]?[×x·*⋅][ \x{a0}]?10(?:\^?[({]?[-−+]?[0-9]+[)}]?|[⁻⁺]?[⁰¹²³⁴-⁹]+))?`)
})

// others are the numbers behind one that has its unit from the last of them: (3.0, 4.0) m/s,
// 3 and 4 m.
var others = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^(?:(?:[,;]| and| ±)[ \x{a0}]?[-−+]?[0-9]+(?:[.,][0-9]+)?)+[)\]]?|^[)\]]`)
})

// hasDigit tells whether there may be a number in a text.
func hasDigit(text string) bool { return strings.ContainsAny(text, "0123456789") }

// readNumbers finds the numbers in a text with the units behind them, but for uncertainties.
//
// An uncertainty is no value that could be asked for: the 0.2 of 4.7 ± 0.2 is left out.
func readNumbers(text string, table *units.Table) []written {
	var out []written
	for _, at := range numbers().FindAllStringIndex(text, -1) {
		before, _ := utf8.DecodeLastRuneInString(text[:at[0]])
		if unicode.IsLetter(before) || before == '_' || strings.HasSuffix(strings.TrimRight(text[:at[0]], " \u00a0"), "±") {
			continue // the 2 of m2 and of v_2
		}
		unit, end, counts := unitBehind(text, at[1], table)
		if unit == nil {
			if rest := others().FindString(text[at[1]:]); rest != "" {
				unit, _, _ = unitBehind(text, at[1]+len(rest), table)
			}
		}
		ways := spelled(text[at[0]:at[1]])
		if strings.HasSuffix(text[:at[0]], "(") { // (72,180) m
			for one := range strings.SplitSeq(text[at[0]:at[1]], ",") {
				ways = append(ways, spelled(one)...)
			}
		}
		for _, n := range ways {
			n.text, n.unit, n.told = text[at[0]:end], unit, saysSo(text[:at[0]])
			n.counts = counts && n.value == math.Trunc(n.value)
			out = append(out, n)
		}
	}
	return out
}

// saysSo tells whether a text ends with a sign or word that gives something a value.
func saysSo(text string) bool {
	text = strings.TrimRight(text, " \u00a0-−")
	for _, end := range [...]string{"=", "≈", ":", " is", " are", " be", " about", " to"} {
		if strings.HasSuffix(text, end) {
			return true
		}
	}
	return false
}

// spelled reads a number; one with a comma before three digits may be either.
func spelled(text string) []written {
	head, power := text, 0
	if i := strings.IndexAny(text, "eE×x·*⋅"); i >= 0 {
		exponent := strings.Map(func(r rune) rune {
			if c := writing.Unraised(r); c != 0 {
				r = rune(c)
			}
			switch {
			case r == '−':
				return '-'
			case r >= '0' && r <= '9' || r == '-':
				return r
			}
			return -1
		}, text[i:])
		if text[i]|0x20 != 'e' {
			exponent = strings.TrimPrefix(exponent, "10")
		}
		head = strings.TrimSpace(text[:i])
		power, _ = strconv.Atoi(exponent)
	}
	head = strings.Map(func(r rune) rune {
		if r == '\'' || r == '’' || unicode.IsSpace(r) {
			return -1
		}
		return r
	}, head)
	commas, dot := strings.Count(head, ","), strings.Contains(head, ".")
	var out []written
	if commas > 0 && (dot || commas > 1 || len(head)-strings.IndexByte(head, ',') == 4) {
		out = append(out, decimal(strings.ReplaceAll(head, ",", ""), power))
	}
	if commas == 0 || commas == 1 && !dot {
		out = append(out, decimal(strings.ReplaceAll(head, ",", "."), power))
	}
	return out
}

// decimal reads digits with a point. Noughts at the end of a whole number may be there
// for their place alone: they are no figures.
//
// How many figures a number has decides how near to a result it must be to be that result.
func decimal(head string, power int) written {
	whole, fraction, point := strings.Cut(head, ".")
	digits := whole + fraction
	if !point {
		digits = strings.TrimRight(whole, "0")
		power += len(whole) - len(digits)
	}
	value, _ := strconv.ParseFloat(digits+"e"+strconv.Itoa(power-len(fraction)), 64)
	return written{value: value, last: math.Pow10(power - len(fraction)), figures: len(strings.TrimLeft(digits, "0")), digits: len(whole) + len(fraction)}
}

// longestUnit is how many bytes behind a number are looked at for its unit.
const longestUnit = 48

// unitBehind reads the unit that follows a number in prose: the longest run of words and
// signs that is one. It returns where that ends, or else whether a word follows, which
// the number counts.
//
// The longest is meant: m/s behind a number is not metres, with a stroke after it.
func unitBehind(text string, at int, table *units.Table) (u *units.Unit, end int, counts bool) {
	rest, _, _ := strings.Cut(text[at:], "\n")
	sc := units.Scanner{Text: rest}
	var ends []int
	for sc.At < longestUnit {
		t := sc.Next()
		if t.Kind == units.PartWord && !table.Has(t.Text) && !joins(t.Text) {
			counts = len(ends) == 0
			break
		}
		if t.Kind == units.PartEnd || t.Kind == units.PartNumber || t.Kind == units.PartOther {
			break
		}
		if t.Kind == units.PartWord || t.Kind == units.PartPower || t.Kind == units.PartClose {
			ends = append(ends, t.To)
		}
	}
	for _, to := range slices.Backward(ends) {
		unit := strings.TrimSpace(rest[:to])
		for _, place := range [...]units.Place{units.AfterNumber, units.AloneInPlace} {
			if u, bad := table.Parse(unit, place); bad == nil {
				return u, at + to, false
			}
		}
	}
	return nil, at, counts
}

// joins tells whether a word joins those of a unit: newtons per metre squared.
func joins(word string) bool {
	return word == "per" || word == "square" || word == "squared" || word == "cubic" || word == "cubed"
}
