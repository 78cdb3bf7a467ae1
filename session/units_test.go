package session

import (
	"context"
	"strings"
	"testing"

	"steelyard/session/entry"
	"steelyard/units"
)

// TestUnitsReached enters every unit of the catalogue after a number, as it is
// printed: what a page shows can be typed. A unit of one country is in words.
func TestUnitsReached(t *testing.T) {
	for _, word := range units.NewTable().Complete("") {
		about, ok := units.Lookup(word)
		if !ok {
			t.Errorf("%s is listed, and not found", word)
			continue
		}
		if s := about.Symbol; strings.HasSuffix(s, "UK") || strings.HasSuffix(s, "US") {
			t.Errorf("%s is printed as %s", word, s)
		}
		if e := New().Enter(context.Background(), "3 "+about.Symbol); e.Failed() {
			t.Errorf("%s, printed as %s: %v", word, about.Symbol, e.Findings)
		}
	}
}

// TestResultsFollowGivens looks at the units that results have from those of the page.
func TestResultsFollowGivens(t *testing.T) {
	givens := []string{
		"F = 12 N", "t = 0.25 s", "E1 = 2.3 eV", "E2 = 1.9 eV", "Γ = 6.5 K/km", "h = 2.0 km", "v = 54 km/h", "a = 5 cm", "b = 4 mm",
		"k = 5 N/cm", "ρ = 1.2 g/cm^3", "n = 30 cm^3", "θ = 38°", "ω = 33 rev/min", "P = 2.4 kW", "p = 20 %", "m = 150 g", "C1 = 20 °C",
		"R(x) = E1 + E2*x/(2 m)", "T(x) = 288 K - Γ*x", "S(x) = k*x in N", "y(x) = a*x/(1 s)", "f(x) = F", "P1(x) = P", "u1(x) = v",
	}
	for line, want := range map[string]string{
		"F*t": "3 N·s", "2*F*t + F*t": "9 N·s", "m*(20 m/s)": "3 kg·m/s", "E1 - E2": "0.4 eV", "-(E1 + 2*E2)/2": "-3.05 eV", "R(1 m)": "3.25 eV",
		"Γ - 2 K/km": "4.5 K/km", "Γ*h": "13 K", "3*h": "6 km", "h + 300 m": "2300 m", "v + 18 km/h": "72 km/h", "v*(2 h)": "108 km", "v*(30 min)": "27000 m",
		"v/(30 min)": "0.00833333 m/s²", "2*a": "10 cm", "a*a": "25 cm²", "a^2*(1 cm)": "25 cm³", "a*b": "2×10⁻⁴ m²", "√(a^2)": "5 cm", "√(2*h*(9.8 m/s^2))": "197.99 m/s", "1/a": "20 m⁻¹",
		"a/(20 ms)": "2.5 m/s", "k*a": "25 N", "k/2": "2.5 N/cm", "ρ*n": "36 g", "90° - θ": "52°", "2*θ*θ": "0.879735", "2*ω": "6.9115 rad/s",
		"P*p": "0.48 kW", "P*(3 h)": "2.592×10⁷ J", "p + p": "0.4", "C1 + 5 K": "25 °C", "2*m*(3 m)": "0.9 kg·m",
		"slope of T(x) at x = h": "-6.5 K/km", "slope of S(x) at x = a": "500 N/m", "slope of y(x) at x = 3 s": "5 cm/s", "slope of R(x) at x = 1 m": "0.95 eV/m", "area under P1(x) from 0 h to 3 h": "7.2 kW·h",
		"area under f(x) from 0 s to t": "3 N·s", "area under f(x) from 0 m to 2 m": "24 J", "area under u1(x) from 0 h to 2 h": "108 km", "slope of u1(x) at x = 1 min": "0 m/s²",
	} {
		e := enter(t, givens...).Enter(context.Background(), line)
		if v := e.Values(); len(v) != 1 || v[0].Shown(units.Screen) != want {
			t.Errorf("%s is %v, want %s: %v", line, v, want, e.Findings)
		}
	}
	p := enter(t, givens...)
	if e := p.Enter(context.Background(), "graph T(x) against x from 0 km to 4 km"); !strings.Contains(entry.Joined(e.Outcome.(*entry.Graph).Shapes, "").String(), "slope -6.5 K/km") {
		t.Errorf("%v", e.Outcome)
	}
}

// TestSolutionsFollowGivens looks at the units that solutions have: those of all quantities of the
// kind in the equation.
func TestSolutionsFollowGivens(t *testing.T) {
	for line, want := range map[string]string{
		"solve 1/f = 1/g + 1/b for b": "20 cm", "solve f*b = g*h for b": "5 m", "solve p*V1 = p2*V2 for V2": "1.5 L",
		"solve m1*v1 = m2*v2 for v2": "4.5 km/h", "solve E = 1/2*k*x^2 for x": "0.0516398 m", "solve T*q = 3*T for q": "3",
	} {
		e := enter(t, "f = 12 cm", "g = 30 cm", "h = 2 m", "V1 = 3 L", "p = 2 bar", "p2 = 4 bar", "m1 = 300 g", "m2 = 0.2 kg", "v1 = 3 km/h",
			"E = 4 mJ", "k = 3 N/m", "T = 20 °C").Enter(context.Background(), line)
		if v := e.Values(); len(v) != 1 || v[0].Shown(units.Screen) != want {
			t.Errorf("%s is %v, want %s: %v", line, v, want, e.Findings)
		}
	}
}
