package units

import "strings"

// Constant is a constant of nature, or a conventional value.
type Constant struct {
	// Symbol is the name that it has in a worksheet: c, ε0, m_e.
	Symbol string
	Name   string
	Value  Decimal
	// Unit is the text of its unit.
	Unit   string
	Source string
	// Exact tells that the value has no uncertainty. Where its decimals do
	// not end, Value has more of them than a float64 holds.
	Exact bool
}

type constantRow struct {
	symbol, name, value, unit, source string
	exact                             bool
}

func (c *constantRow) constant() Constant {
	d, _ := ParseDecimal(c.value)
	return Constant{c.symbol, c.name, d, c.unit, c.source, c.exact}
}

// spelled are other ways to type the symbols of constants: Greek in letters,
// with or without an underscore before a digit.
var greekNames = [...][2]string{
	{"epsilon", "ε"}, {"mu", "μ"}, {"sigma", "σ"}, {"alpha", "α"}, {"lambda", "λ"},
	{"gamma", "γ"}, {"Phi", "Φ"}, {"Delta", "Δ"}, {"nu", "ν"}, {"tau", "τ"},
	{"µ", "μ"},
}

// constantSymbol brings a symbol to the form of the table.
func constantSymbol(s string) string {
	parts := strings.Split(s, "_")
	for i, p := range parts {
		for _, g := range greekNames {
			if rest, ok := strings.CutPrefix(p, g[0]); ok && strings.Trim(rest, "0123456789") == "" {
				parts[i] = g[1] + rest
			}
		}
	}
	s = strings.Replace(strings.Join(parts, "_"), "Δ_", "Δ", 1)
	s = strings.NewReplacer("₀", "_0", "₁", "_1", "₂", "_2", "ℏ", "hbar", "ħ", "hbar", "∞", "inf").Replace(s)
	if i := strings.LastIndexByte(s, '_'); i > 0 && i < len(s)-1 && strings.Trim(s[i+1:], "0123456789") == "" {
		s = s[:i] + s[i+1:]
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
		if constantTable[i].symbol == symbol {
			return constantTable[i].constant(), true
		}
	}
	return Constant{}, false
}

// Constants returns every constant.
func Constants() []Constant {
	out := make([]Constant, len(constantTable))
	for i := range constantTable {
		out[i] = constantTable[i].constant()
	}
	return out
}
