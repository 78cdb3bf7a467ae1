package units

import (
	"math"
	"slices"
	"strings"

	"steelyard/units/writing"
)

// Constant is a constant of nature, or a conventional value.
type Constant struct {
	// Symbol is the name that it has in a worksheet: c, ε0, m_e.
	Symbol, Name string
	value        string
	// Unit is the text of its unit.
	Unit, Source string
	// Exact tells that the value has no uncertainty. Where its decimals do
	// not end, Value has more of them than a float64 holds.
	Exact bool
}

// Value returns the number in its unit.
func (c Constant) Value() Decimal {
	d, _ := ParseDecimal(c.value)
	return d
}

// plainSymbols writes signs below the line and their like as the table does.
var plainSymbols = strings.NewReplacer("₀", "_0", "₁", "_1", "₂", "_2", "ℏ", "hbar", "ħ", "hbar", "∞", "inf", "µ", "μ")

// constantSymbol brings a symbol to the form of the table: Greek letters may be
// typed by name, digits with an underscore before them or below the line.
func constantSymbol(s string) string {
	s = plainSymbols.Replace(s)
	parts := strings.Split(s, "_")
	for i, p := range parts {
		head := strings.TrimRight(p, "0123456789")
		if letter := writing.Greek(head); letter != "" {
			parts[i] = letter + p[len(head):]
		}
	}
	s = strings.Replace(strings.Join(parts, "_"), "Δ_", "Δ", 1)
	if i := strings.LastIndexByte(s, '_'); i > 0 && i < len(s)-1 && strings.Trim(s[i+1:], "0123456789") == "" {
		s = s[:i] + s[i+1:]
	}
	if s == "k_B" { // as many books have it
		return "k"
	}
	return s
}

// LookupConstant finds a constant by the name that it has in a worksheet.
func LookupConstant(symbol string) (Constant, bool) {
	if len(symbol) > 32 {
		return Constant{}, false
	}
	symbol = constantSymbol(symbol)
	for i := range constantTable {
		if constantTable[i].Symbol == symbol {
			return constantTable[i], true
		}
	}
	return Constant{}, false
}

// NearConstant finds a constant of which the symbol is written in small or capital
// letters, or without its index below the line: NA for N_A.
func NearConstant(symbol string) (Constant, bool) {
	plain := strings.ReplaceAll(symbol, "_", "")
	for i := range constantTable {
		k := &constantTable[i]
		if len(plain) > 1 && len(plain) <= len(k.Symbol) && strings.EqualFold(strings.ReplaceAll(k.Symbol, "_", ""), plain) {
			return *k, true
		}
	}
	return Constant{}, false
}

// ConstantOf finds the constant with a unit that a written number is, to two figures or
// more: 6.02e23 is the Avogadro constant per mole.
func ConstantOf(d Decimal) (Constant, bool) {
	for i := range constantTable {
		k := &constantTable[i]
		if v := k.Value().Hi; d.Figures > 1 && k.Unit != "1" && math.Abs(d.Hi-v) <= 0.5*math.Pow10(int(d.LastPlace)) {
			return *k, true
		}
	}
	return Constant{}, false
}

// ConstantCalled finds the constant with a unit that goes by the letter of a name and is near a
// number, R = 8.31; standard gravity is often rounded to 10.
func ConstantCalled(name string, v float64) (Constant, bool) {
	for i := range constantTable {
		k := &constantTable[i]
		letter, index, _ := strings.Cut(k.Symbol, "_")
		same := name == letter+index || name == k.Symbol || index == "" && Symbol(name) == letter || k.Symbol == "g_n" && name == "g"
		if same && k.Unit != "1" && (math.Abs(v/k.Value().Hi-1) < 0.005 || name == "g" && v == 10) {
			return *k, true
		}
	}
	return Constant{}, false
}

// Constants returns every constant.
func Constants() []Constant { return slices.Clone(constantTable[:]) }
