package work

import (
	"testing"

	"steelyard/session/entry"
	"steelyard/units"
)

// A power of a unit that has a power already, or a product, stands in brackets.
func TestProductOfUnits(t *testing.T) {
	e := func(n, d int) units.Exp { return units.NewExp(n, d) }
	for want, all := range map[string][]unitPower{
		"(m²)²":             {{"m²", e(2, 1)}},
		"(m²)²/s²":          {{"m²", e(2, 1)}, {"s", e(-2, 1)}},
		"√(J/kg)":           {{"J/kg", e(1, 2)}},
		"√((J/kg)/(m/s²))":  {{"J/kg", e(1, 2)}, {"m/s²", e(-1, 2)}},
		"³√(m²·m⁴)":         {{"m²", e(1, 3)}, {"m⁴", e(1, 3)}},
		"³√((m³)²)":         {{"m³", e(2, 3)}},
		"(m²)^(1/2)·s":      {{"m²", e(1, 2)}, {"s", e(1, 1)}},
		"(m^(1/2))²":        {{"m^(1/2)", e(2, 1)}},
		"(J/kg)·kg":         {{"J/kg", e(1, 1)}, {"kg", e(1, 1)}},
		"1/(kg·m)":          {{"kg·m", e(-1, 1)}},
		"(N·m)³/((m/s)·kg)": {{"N·m", e(3, 1)}, {"m/s", e(-1, 1)}, {"kg", e(-1, 1)}},
		"J/m²":              {{"J", e(1, 1)}, {"m", e(-2, 1)}},
	} {
		if got := productOfUnits(all).String(); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

// A chain of units ends in that of the value, without its prefix.
func TestFinalUnit(t *testing.T) {
	for unit, want := range map[string]string{"MJ/kg": "J/kg", "m²/s²": "m²/s²", "cm": "m", "N m": "N·m", "km/h": "m/s", "kHz": "Hz", "rpm": "rad/s", "°C": "K"} {
		u := units.Of(unit)
		if got := finalUnit(entry.Value{Dim: u.Dim(), Tag: u.Tag(), Unit: u}); got != want {
			t.Errorf("%s ends in %s, want %s", unit, got, want)
		}
	}
}
