package units

import (
	"slices"
	"strings"
	"sync"
	"unicode/utf8"
)

// Symbol returns the letter that a name is, alone or with an index after it, as
// in F, F_y, v0, v' and Rp, where a small letter follows a capital. It is "" for a word.
func Symbol(name string) string {
	first, n := utf8.DecodeRuneInString(name)
	if n == len(name) {
		return name
	}
	next, m := utf8.DecodeRuneInString(name[n:])
	if next >= 'a' && next <= 'z' && n+m == len(name) && first >= 'A' && first <= 'Z' {
		return name[:n]
	}
	if next == '_' || next == '\'' || next == '′' || next >= '0' && next <= '9' {
		return name[:n]
	}
	return ""
}

// customs are the units of the quantities that a name customarily stands for, the
// commonest first, as texts that Parse reads with commas between them. A Δ or Σ before a
// symbol changes nothing. It is empty for a name that says nothing, as a b c with
// digits do, which are mostly coefficients.
func customs(name string) string {
	if rest := strings.TrimLeft(name, "ΔΣ"); rest != "" {
		name = rest
	}
	symbol := Symbol(name)
	if len(name) > 1 && strings.Contains("abc", symbol) && name[1] <= '9' && name[1] >= '0' {
		return ""
	}
	if of, ok := customSymbols()[symbol]; ok {
		return of
	}
	lower := strings.ToLower(name)
	for i := range customWords {
		if c := &customWords[i]; strings.HasPrefix(lower, c.word) {
			return c.units
		}
	}
	return ""
}

// customSymbols are the units by symbol.
var customSymbols = sync.OnceValue(func() map[string]string {
	out := make(map[string]string, len(customTable))
	for i := range customTable {
		out[customTable[i].symbol] = customTable[i].units
	}
	return out
})

// Usual is the unit of the quantity that a name stands for most often, or "".
func Usual(name string) string {
	first, _, _ := strings.Cut(customs(name), ", ")
	return first
}

// Also is the unit of the quantity that a name stands for next to that of Usual, if it is
// one that differs and that a number can have, or "".
func Also(name string) string {
	_, rest, _ := strings.Cut(customs(name), ", ")
	next, _, _ := strings.Cut(rest, ", ")
	if strings.HasPrefix(next, "1") || next == "m" {
		return ""
	}
	return next
}

// NamedTag is the tag of an energy or a torque as its name says: J, N m or N m/rad
// is among its customs. It is t where the name says nothing, and where it may be an
// energy as well as a torque; k and κ are per angle only of what is so already.
func NamedTag(name string, t Tag) Tag {
	var joule, torque, stiffness bool
	of := customs(name)
	if _, n := utf8.DecodeRuneInString(name); of == "" && utf8.RuneCountInString(name) == 2 {
		of = customs(name[:n]) // Mo is a torque, as M_o is
	}
	for text := range strings.SplitSeq(of, ", ") {
		joule = joule || text == "J"
		torque = torque || text == "N m"
		stiffness = stiffness || text == "N m/rad"
	}
	switch {
	case joule && !torque:
		return None
	case torque && !joule:
		return PerAngle
	case stiffness && t < None:
		return PerSquareAngle
	}
	return t
}

// Customary tells whether a name customarily stands for a quantity of some
// dimension.
func Customary(name string, d Dim) bool { return slices.Contains(Customs(name), d) }

// HasSymbol tells whether some letter customarily stands for quantities of a dimension.
func HasSymbol(d Dim) bool {
	for _, of := range customDims() {
		if slices.Contains(of, d) {
			return true
		}
	}
	return false
}

// Customs are the dimensions of the quantities that a name customarily stands for, the
// commonest first.
func Customs(name string) []Dim {
	of := customs(name)
	if of == "" {
		return nil
	}
	return customDims()[of]
}

// customDims are the dimensions of the lists of units in the tables of customs.
var customDims = sync.OnceValue(func() map[string][]Dim {
	out := map[string][]Dim{}
	table := NewTable()
	add := func(list string) {
		var dims []Dim
		for text := range strings.SplitSeq(list, ", ") {
			u, _ := table.Parse(text, AloneInPlace)
			dims = append(dims, u.Dim())
		}
		out[list] = dims
	}
	for _, c := range customTable {
		add(c.units)
	}
	for _, c := range customWords {
		add(c.units)
	}
	return out
})

// IsChange tells whether a name is that of a change: ΔT, and dT as it is typed.
func IsChange(name string) bool {
	index, of := strings.CutPrefix(name, "dT")
	return strings.HasPrefix(name, "Δ") || of && strings.Trim(strings.TrimPrefix(index, "_"), "0123456789") == ""
}

// Speaks tells whether a name is a symbol that says what quantity it stands for.
// A word does not.
func Speaks(name string) bool {
	return Symbol(strings.TrimPrefix(name, "Δ")) != "" && customs(name) != ""
}

// IsSymbol tells whether a name is a letter, perhaps with a Δ before it and digits or a
// letter as its index behind, that a quantity or a constant goes by: T2, N_A. The e of print
// is mostly that of an exponential.
func IsSymbol(name string) bool {
	name = strings.TrimPrefix(name, "Δ")
	letter := strings.TrimRight(name, "0123456789")
	if head, index, ok := strings.Cut(letter, "_"); ok && utf8.RuneCountInString(index) == 1 {
		letter = head
	}
	if letter == "e" || utf8.RuneCountInString(letter) != 1 {
		return false
	}
	_, constant := LookupConstant(name)
	return constant || Speaks(name)
}

// WrongSign tells of a name that goes with a quantity of one sign, such as the normal
// force, that the other sign is wrong for it: what it is, and why its sign is sure.
func WrongSign(name string, d Dim, negative bool) (what, why string, wrong bool) {
	if last := name[len(name)-1]; len(name) > 1 && last >= 'x' && last <= 'z' {
		return "", "", false // a component has either sign
	}
	for i := range oneSign {
		q := &oneSign[i]
		if q.negative == negative || !slices.ContainsFunc(q.names, func(n string) bool { return isNamed(name, n) }) {
			continue
		}
		if Of(q.unit).Dim() == d {
			return q.what, q.why, true
		}
	}
	return "", "", false
}

// isNamed tells whether a name is another, alone or with an index.
func isNamed(name, other string) bool {
	rest, ok := strings.CutPrefix(name, other)
	return ok && (rest == "" || Symbol("x"+rest) == "x")
}
