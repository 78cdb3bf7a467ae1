package units

import (
	"math/big"
	"strconv"
	"strings"
)

// exps are whole exponents of kg m s A K mol cd, as the tables hold them.
type exps [bases]int8

// dim is the same as a dimension, of which exponents may be fractions.
func (e exps) dim() Dim {
	var d Dim
	for i, n := range e {
		d.num[i] = int16(n)
	}
	return d
}

// exps returns the exponents of a dimension that has only whole ones.
func (d Dim) exps() (exps, bool) {
	if d.less != 0 {
		return exps{}, false
	}
	var e exps
	for i, n := range d.num {
		e[i] = int8(n)
	}
	return e, true
}

// Most units are read by their symbol (core). Those whose symbol is a letter that quantities go
// by are read by name alone, as the tonne.
type flags uint8

const (
	core         flags = 1 << iota // read by its symbol; others by name only
	prefixes                       // takes SI prefixes
	isAngle                        // tag Angle
	isCycle                        // tag Cycle
	isDifference                   // a temperature difference
	measured                       // the factor is a measured value, or one of a range
)

// row is one unit of the catalogue.
// Sizes are texts: a decimal is exact, and the same text serves the double-double, the
// exact factor and the page that explains the unit. What has π in it keeps its power
// beside, so that a degree is exactly π/180.
type row struct {
	// symbol is what a core unit is written as; other units are written by
	// their first name.
	symbol string
	// names are English, separated by commas: singular, plural, then others.
	names string
	// quantity is what the unit measures.
	quantity string
	exps     exps
	// lib is a constant of the unit library, exact at fifteen digits, or 0.
	lib float64
	// factor is the size in coherent SI units, without π: a decimal or a
	// quotient of two. Empty where lib is set.
	factor string
	// pi is the power of π that the factor is multiplied by.
	pi int8
	// offset is the SI value of the zero of a temperature scale.
	offset string
	flags  flags
	source string
	remark string
}

func (r *row) has(f flags) bool { return r.flags&f != 0 }

// text is what the unit is written as.
func (r *row) text() string {
	if r.has(core) {
		return r.symbol
	}
	return r.name()
}

// name is the English name in the singular, or the symbol of a unit without.
func (r *row) name() string {
	if n := field(r.names, 0); n != "" {
		return n
	}
	return r.symbol
}

// Names of units take an s, and some don't: hertz, lux.
func (r *row) plural() string {
	if n := field(r.names, 1); n != "" {
		return n
	}
	return r.name()
}

// tag is what its flags say: no unit is both an angle and a cycle.
func (r *row) tag() Tag {
	switch {
	case r.has(isAngle):
		return Angle
	case r.has(isCycle):
		return Cycle
	}
	return None
}

// factorText is the factor as a decimal or a quotient, without π.
//
// The page of a unit shows this text, so that what is read there is what is worked with.
func (r *row) factorText() string {
	if r.factor != "" {
		return r.factor
	}
	return libraryDecimal(r.lib)
}

// libraryDecimal writes a constant of the library with the fifteen significant
// digits to which it is relied on, zeros at the end dropped.
// The library works some of its constants out from others, and the digits behind the
// fifteenth are then those of rounding.
func libraryDecimal(v float64) string {
	short := strconv.FormatFloat(v, 'e', 14, 64)
	x, _ := strconv.ParseFloat(short, 64)
	return strconv.FormatFloat(x, 'g', -1, 64)
}

// field returns the nth part of a text separated by commas.
func field(s string, n int) string {
	for ; n > 0; n-- {
		_, s, _ = strings.Cut(s, ",")
	}
	s, _, _ = strings.Cut(s, ",")
	return s
}

// quotient splits "a/b"; b is "1" for a decimal.
func quotient(s string) (string, string) {
	if a, b, ok := strings.Cut(s, "/"); ok {
		return a, b
	}
	return s, "1"
}

// ratOf returns a decimal or quotient of the tables exactly.
//
// A text that is none would be a fault of the table, which a test finds; 0 shows it at once.
func ratOf(s string) *big.Rat {
	a, b := quotient(s)
	x, ok := new(big.Rat).SetString(a)
	y, ok2 := new(big.Rat).SetString(b)
	if !ok || !ok2 || y.Sign() == 0 {
		return new(big.Rat)
	}
	return x.Quo(x, y)
}

// pairOf returns a decimal or quotient of the tables as a double-double.
func pairOf(s string) pair {
	a, b := quotient(s)
	x := decimalPair(a)
	if b == "1" {
		return x
	}
	return x.div(decimalPair(b))
}
