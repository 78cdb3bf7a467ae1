package units

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// word is one entry of the index of the catalogue, which is sorted by text.
type word struct {
	text   string
	row    int16
	symbol bool // a symbol or another short form
	name   bool // an English name; bar is both
}

// alias is another way to type a symbol, for keyboards without the sign.
//
// They are read and never written: what is shown has the sign.
type alias struct{ text, symbol string }

var aliases = [...]alias{
	{"deg", "°"}, {"arcmin", "′"}, {"arcsec", "″"},
	{"degC", "°C"}, {"degF", "°F"}, {"degR", "°R"}, {"ΔdegC", "Δ°C"}, {"ΔdegF", "Δ°F"},
	{"ohm", "Ω"}, {"l", "L"}, {"amu", "u"},
}

// prefix is a decimal or binary multiple: those of the SI Brochure (9th edition, with the
// four that the General Conference added in 2022), and of IEC 80000-13. A binary one has
// a name only, for its symbol is written with bits and bytes alone. deka is read for
// deca, and u for μ.
type prefix struct {
	symbol, name string
	tens, kibi   int8
}

var prefixTable = [...]prefix{
	{"da", "deca", 1, 0}, {"da", "deka", 1, 0}, {"h", "hecto", 2, 0}, {"k", "kilo", 3, 0},
	{"M", "mega", 6, 0}, {"G", "giga", 9, 0}, {"T", "tera", 12, 0}, {"P", "peta", 15, 0},
	{"E", "exa", 18, 0}, {"Z", "zetta", 21, 0}, {"Y", "yotta", 24, 0}, {"R", "ronna", 27, 0},
	{"Q", "quetta", 30, 0}, {"d", "deci", -1, 0}, {"c", "centi", -2, 0}, {"m", "milli", -3, 0},
	{"μ", "micro", -6, 0}, {"n", "nano", -9, 0}, {"p", "pico", -12, 0}, {"f", "femto", -15, 0},
	{"a", "atto", -18, 0}, {"z", "zepto", -21, 0}, {"y", "yocto", -24, 0}, {"r", "ronto", -27, 0},
	{"q", "quecto", -30, 0}, {"u", "", -6, 0},
	{"", "kibi", 0, 1}, {"", "mebi", 0, 2}, {"", "gibi", 0, 3}, {"", "tebi", 0, 4},
	{"", "pebi", 0, 5}, {"", "exbi", 0, 6}, {"", "zebi", 0, 7}, {"", "yobi", 0, 8},
}

// lowerBound returns the place of the first entry that is not before text. The index is
// sorted when it is written, so that no start of the program pays for a map of it.
func lowerBound(text string) int {
	lo, hi := 0, len(words)
	for lo < hi {
		mid := int(uint(lo+hi) >> 1)
		if words[mid].text < text {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return lo
}

// findWord looks a whole word up in the index.
func findWord(text string) (word, bool) {
	i := lowerBound(text)
	if i < len(words) && words[i].text == text {
		return words[i], true
	}
	return word{}, false
}

// beginsLongName tells whether a name of several words begins with these.
//
// The index is sorted, so that names with more words stand right behind the shorter one.
func beginsLongName(text string) bool {
	i := lowerBound(text)
	for ; i < len(words) && strings.HasPrefix(words[i].text, text); i++ {
		rest := words[i].text[len(text):]
		if rest != "" && rest[0] == ' ' {
			return true
		}
		if rest != "" && rest[0] > ' ' {
			return false
		}
	}
	return false
}

// find looks a word up: as a whole first, then as a prefix and a unit, then
// as a name with capitals.
// The order settles what a text with two meanings is: cd is the candela, whatever might
// take a prefix c; a symbol comes before a name, since symbols are what people type.
// Nothing longer than any word of the table is looked for: it may be a whole line.
func find(text string) (atom, bool) {
	if len(text) > 64 {
		return atom{}, false
	}
	if w, ok := findWord(text); ok {
		return w.atom(), true
	}
	if a, ok := prefixed(text, true); ok {
		return a, true
	}
	if a, ok := prefixed(text, false); ok {
		return a, true
	}
	return capital(text)
}

// capital reads an English name that begins with a capital: Newtons.
// Shorter words could be symbols in the wrong case, and those mean something else.
func capital(text string) (atom, bool) {
	r, n := utf8.DecodeRuneInString(text)
	if !unicode.IsUpper(r) || len(text) < 4 {
		return atom{}, false
	}
	lower := string(unicode.ToLower(r)) + text[n:]
	if w, ok := findWord(lower); ok && w.name {
		return w.atom(), true
	}
	return prefixed(lower, false)
}

// prefixed reads a prefix and a unit, both by symbol or both by name.
//
// A prefix is tried by its first letter before anything is compared: nearly all are out by
// that.
func prefixed(text string, symbol bool) (atom, bool) {
	if text == "" {
		return atom{}, false
	}
	for i := range prefixTable {
		p := &prefixTable[i]
		head := p.name
		if symbol {
			head = p.symbol
		}
		if head == "" || head[0] != text[0] || len(head) >= len(text) || text[:len(head)] != head {
			continue
		}
		w, ok := findWord(text[len(head):])
		if !ok || !w.is(symbol) || !w.takes(p) {
			continue
		}
		return w.atom().prefixed(p), true
	}
	return atom{}, false
}

// is tells whether the word is a symbol, or else whether it is a name.
func (w word) is(symbol bool) bool {
	if symbol {
		return w.symbol
	}
	return w.name
}

// takes tells whether a prefix may stand before the unit.
// A name of several words has no place for one: kilo goes before neither word of
// nautical mile.
//
// bits and bytes alone have binary prefixes (IEC 80000-13).
func (w word) takes(p *prefix) bool {
	r := &catalogue[w.row]
	if p.kibi != 0 {
		return r.symbol == "bit" || r.symbol == "byte"
	}
	return r.has(prefixes) && !strings.Contains(w.text, " ")
}

// atom is a word of the catalogue without a prefix.
func (w word) atom() atom {
	r := &catalogue[w.row]
	return atom{row: r, text: r.text()}
}

// prefixed puts a prefix before a unit. A unit that has a row of its own with
// the prefix (kg, kcal) is written as that.
//
// A unit that is written by its name has its prefix by name too: kilocalorie, as its symbol is
// not read.
func (a atom) prefixed(p *prefix) atom {
	a.tens, a.kibi = p.tens, p.kibi
	head := p.symbol
	switch {
	case head == "u":
		head = "μ"
	case p.kibi != 0 || !a.row.has(core):
		head = p.name
	}
	a.text = head + a.text
	return a
}
