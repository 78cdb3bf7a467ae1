package session

import (
	"context"
	"testing"

	"steelyard/units"
)

// TestScaleOfSolution shows a temperature that is solved for in the scale of those beside it, and
// a difference of temperatures as one. The values were worked out by hand.
func TestScaleOfSolution(t *testing.T) {
	given := []string{"m1 = 2.0 kg", "m2 = 3.0 kg", "c = 4.0 kJ/(kg K)", "Q = 40 kJ", "T1 = 18 °C", "T2 = 80 °C", "T3 = 300 K", "T4 = 50 °F"}
	tests := []struct{ line, shown, quantity string }{
		{"m1*(T - T1) = m2*(T2 - T)", "55.2 °C", "temperature"},
		{"m1*c*(T2 - T) = (m2*c + 0.5 kJ/K)*(T - T1)", "42.1951 °C", "temperature"},
		{"solve Q = m1*c*(x - T1) for x", "23 °C", "temperature"},
		{"solve Q = m1*c*(x - T1) for x in K", "296.15 K", "temperature"},
		{"solve Q = m1*c*(T2 - T) for T", "75 °C", "temperature"},
		{"solve Q = m1*c*(T2 - u) for u", "348.15 K", "temperature"}, // u may be a difference
		{"solve Q = m1*c*(T - T3) for T", "305 K", "temperature"},
		{"solve Q = m1*c*(T - T4) for T", "59 °F", "temperature"},
		{"solve Q = m1*c*ΔT for ΔT", "5 K", "temperature difference"},
		{"ΔT = Q/(m1*c)", "5 K", "temperature difference"},
		{"ΔT = Q/(m1*c) in °C", "5 Δ°C", "temperature difference"},
		{"θ = Q/(m1*c)", "5 K", "temperature"},
	}
	for _, test := range tests {
		p := New()
		for _, line := range append(given, test.line) {
			p.Enter(context.Background(), line)
		}
		e := p.Entries()[len(p.Entries())-1]
		if len(e.Values()) != 1 || e.Failed() {
			t.Errorf("%s: %v", test.line, e.Findings)
			continue
		}
		if v := e.Values()[0]; v.Shown(units.File) != test.shown || v.Quantity != test.quantity {
			t.Errorf("%s is %s, %s; want %s, %s", test.line, v.Shown(units.File), v.Quantity, test.shown, test.quantity)
		}
	}
}
