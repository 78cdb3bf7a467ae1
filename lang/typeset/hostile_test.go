package typeset

import (
	"strings"
	"testing"
)

// Texts that could make a reader go over the same ground again and again.
func TestHostileTexts(t *testing.T) {
	for _, s := range [...]string{"'", "x'", "_", "x_", "^(", "m^", "(", "1 ", "1e", "×10^", "1 m ", "Δ", "ж", "\u0301", "é ", "-", "°1", "a1"} {
		text := "x" + strings.Repeat(s, 5000)
		for _, set := range [...]func(string) Box{nameAlone, Unit, func(s string) Box { return Value(s, s) }} {
			sound(t, s, set(text))
		}
	}
}
