package main

import (
	"context"
	"io"
	"os"
	"slices"
	"strings"
	"testing"

	"steelyard/session/live"
)

// TestComplete tells what Tab offers at the end of a line, the first few.
func TestComplete(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, name := range []string{"swing.csv", "swing.worked"} {
		if err := os.WriteFile(name, nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	s := &scratchpad{w: &world{stdout: io.Discard}, pad: live.New()}
	for _, line := range []string{"m = 80 g", "v = 3.4 m/s", "k = 250 N/m", "spring_x = 2 cm", "omega_0 = 2 rad/s", "W = 1/2*m*v^2"} {
		s.Enter(context.Background(), line, true)
	}
	for _, tt := range []struct {
		line, first string
		lacks       string
	}{
		{"W in ", "J kJ", "N"},
		{"W in k", "kJ", "kg"},
		{"k*spring_x in ", "N kN", "J"},
		{"v in ", "m/s km/s", "m"},
		{"3 k", "kg", ""},
		{"x = 3 c", "cm", ""},
		{"sprin", "spring_x spring_", ""},
		{"2*sprin", "spring_x spring_", ""},
		{"om", "ω0 ω", ""},
		{"2*sqrt", "√", "sqrt("},
		{"2*thet", "θ", ""},
		{"solve spring_energy for ", "U k x", "spring_x"},
		{"solve spring_energy for k, ", "U k x", "spring_x"},
		{"solve spring_ene", "spring_energy(", ""},
		{"graph v*t ag", "against ", ""},
		{"check ", "W ω0", ""},
		{"steps ", "W ω0", ""},
		{"fit W ", "against ", ""},
		{"remove ", "", "W"},
		{"data sw", "swing.csv", "swing.worked"},
		{"open ", "swing.worked", "swing.csv"},
		{"", "W ω0 spring_x k v m", ""},
	} {
		from, words := s.Complete(tt.line, len(tt.line))
		all := strings.Join(words, " ")
		if !strings.HasPrefix(all, tt.first) || tt.lacks != "" && slices.Contains(words, tt.lacks) {
			t.Errorf("%q from %d: %.60s; want %s, not %s", tt.line, from, all, tt.first, tt.lacks)
		}
	}
}
