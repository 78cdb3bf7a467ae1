package units

import (
	"math/big"
	"strconv"
	"strings"

	"steelyard/units/writing"
)

// Info is what can be told of a unit.
type Info struct {
	Symbol, Name, Plural string
	// Quantity is what the unit measures.
	Quantity string
	// Exact is its size in SI units: "0.3048 m", "π/180 rad".
	Exact string
	// Source is the document that the size comes from.
	Source string
	Remark string
	// Prefixable tells whether it takes SI prefixes.
	Prefixable bool
	// Core tells whether it is read by its symbol; others are read by name.
	Core bool
}

// Lookup tells about a unit by its symbol or name, with or without a prefix.
func Lookup(word string) (Info, bool) {
	a, ok := find(word)
	if !ok {
		return Info{}, false
	}
	r := a.row
	info := Info{
		Symbol: a.text, Name: r.name(), Plural: r.plural(), Quantity: r.quantity,
		Source: r.source, Remark: r.remark, Core: r.has(core),
		Prefixable: r.has(prefixes) && a.tens == 0 && a.kibi == 0,
		Exact:      a.exactText(),
	}
	if r.names == "" {
		info.Name, _, _ = strings.Cut(r.remark, " (")
		info.Plural, info.Remark = info.Name, ""
	}
	if p := a.prefix(); p != nil {
		info.Name, info.Plural = p.name+info.Name, p.name+info.Plural
	}
	return info, true
}

// prefix returns the prefix of a word, or nil. Of two names of one prefix the first.
func (a atom) prefix() *prefix {
	for i := range prefixTable {
		if p := &prefixTable[i]; p.name != "" && p.tens == a.tens && p.kibi == a.kibi {
			return p
		}
	}
	return nil
}

// exactText writes the size of a unit with its SI unit: in the unit that quantities of
// its kind are shown in, unless that is itself; an angle in radians, which base units
// would leave out; a temperature scale with its zero.
func (a atom) exactText() string {
	r := a.row
	p := part{a, whole(1), false}
	size, n := p.exact()
	unit := BaseUnits(r.exps.dim()).Behind(File)
	if r.tag() == Angle {
		unit = "rad" + perSecond(r)
	} else if own := Preferred(r.exps.dim(), None); own.Text() != a.text && !r.exps.dim().IsOne() {
		unit = own.Behind(File)
	}
	if r.offset != "" {
		return decimalText(ratOf(r.offset)) + " K + " + decimalText(size) + " K each"
	}
	text := factorPi(size, n)
	if unit == "" {
		return text
	}
	return text + " " + unit
}

// perSecond is what a unit of angle has behind the radian: nothing, or a second below for
// a rate such as rpm.
func perSecond(r *row) string {
	if r.exps.dim().IsOne() {
		return ""
	}
	return "/s"
}

// factorPi writes a rational times a power of π: π/180, 2 π.
func factorPi(size *big.Rat, n int) string {
	one := big.NewRat(1, 1)
	sign := "π"
	if abs(n) > 1 {
		sign += writing.Raised(strconv.Itoa(abs(n)))
	}
	switch {
	case n == 0:
		return decimalText(size)
	case n < 0:
		return decimalText(size) + "/" + sign
	case size.Cmp(one) == 0:
		return sign
	case size.Num().Cmp(big.NewInt(1)) == 0:
		return sign + "/" + size.Denom().String()
	}
	return decimalText(size) + " " + sign
}

// decimalText writes a rational as a decimal where it ends within thirty
// places, else as a quotient. Sizes are told exactly or not at all: what is rounded
// would be taken for the definition.
func decimalText(r *big.Rat) string {
	const places = 30
	if r.IsInt() {
		s := r.Num().String()
		if tail := strings.TrimRight(s, "0"); len(s) > 7 && len(tail) < len(s)-5 {
			return tail + "e" + strconv.Itoa(len(s)-len(tail))
		}
		return s
	}
	if n, ok := r.FloatPrec(); ok {
		if n > places || strings.HasPrefix(r.FloatString(n), "0.0000") {
			return scientific(r, n)
		}
		return r.FloatString(n)
	}
	return r.RatString()
}

// scientific writes a decimal of n places with a power of ten.
func scientific(r *big.Rat, n int) string {
	digits := new(big.Int).Quo(new(big.Int).Mul(r.Num(), new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil)), r.Denom()).String()
	exp := len(digits) - 1 - n
	digits = strings.TrimRight(digits, "0")
	if len(digits) > 1 {
		digits = digits[:1] + "." + digits[1:]
	}
	return digits + "e" + strconv.Itoa(exp)
}
