package typeset

import "testing"

func TestSVG(t *testing.T) {
	const italic = `<tspan font-style="italic">`
	for in, want := range map[string]string{
		"K(x)":   italic + "K</tspan>(" + italic + "x</tspan>)",
		"U_g":    italic + `U</tspan><tspan dy="3" font-size="11">g</tspan>`,
		"v_0(t)": italic + `v</tspan><tspan dy="3" font-size="11">0</tspan><tspan dy="-3">(</tspan>` + italic + "t</tspan>)",
		"v0^2":   italic + `v</tspan><tspan dy="3" font-size="11">0</tspan><tspan dy="-8" font-size="11">2</tspan>`,
		"speed":  italic + "speed</tspan>",
		"a - b":  italic + "a</tspan> − " + italic + "b</tspan>",
		"2 m":    "2 m",
		"U(x/2)": italic + "U</tspan>(" + italic + "x</tspan>/2)",
		"√(2/k)": "√(2/" + italic + "k</tspan>)",
	} {
		if got := string(Line(mustRead(t, in)).SVG(nil)); got != want {
			t.Errorf("%s: %s, want %s", in, got, want)
		}
	}
}
