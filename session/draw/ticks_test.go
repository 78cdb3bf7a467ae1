package draw

import (
	"strings"
	"testing"
)

func TestTicks(t *testing.T) {
	for _, c := range []struct {
		from, to float64
		about    int
		want     string
	}{
		{0, 10, 5, "0 2 4 6 8 10"},
		{10, 0, 5, "0 2 4 6 8 10"},
		{0, 1, 5, "0 0.2 0.4 0.6 0.8 1.0"},
		{-0.3, 0.3, 6, "−0.3 −0.2 −0.1 0 0.1 0.2 0.3"},
		{-1, 1, 4, "−1.0 −0.5 0 0.5 1.0"},
		{0, 0.025, 5, "0 0.005 0.010 0.015 0.020 0.025"},
		{0, 6e-6, 3, "0 2 4 6 times 10⁻⁶"},
		{0, 2e-6, 4, "0 0.5 1.0 1.5 2.0 times 10⁻⁶"},
		{-3e8, 3e8, 3, "−200 0 200 times 10⁶"},
		{20000, 80000, 3, "20000 40000 60000 80000"},
		{1000000, 1000004, 4, "1.000000 1.000001 1.000002 1.000003 1.000004 times 10⁶"},
		{3, 3, 5, "0 2 4 6"},
		{1, 1 + 1e-15, 5, "0 0.5 1.0 1.5 2.0"},
	} {
		ticks := newSpan(c.from, c.to).ticks(c.about)
		got := strings.Join(ticks.texts, " ")
		if ticks.power != 0 {
			got += " times " + powerOfTen(ticks.power)
		}
		if got != c.want || len(ticks.at) != len(ticks.texts) {
			t.Errorf("ticks from %v to %v, about %d: %q, want %q", c.from, c.to, c.about, got, c.want)
		}
	}
}

func TestNiceRange(t *testing.T) {
	for _, c := range [][4]float64{
		{0, 0.925, 0, 1}, {0.13, 9.7, 0, 10}, {-0.47, 0.6, -0.6, 0.6}, {0, 0, 0, 1}, {5, 5, 0, 10}, {-2, -2, -4, 0}, {0, 10, 0, 10}, {3, -3, -3, 3},
	} {
		if lo, hi := NiceRange(c[0], c[1]); lo != c[2] || hi != c[3] {
			t.Errorf("NiceRange(%v, %v) = %v, %v", c[0], c[1], lo, hi)
		}
	}
}

func TestASCII(t *testing.T) {
	for in, want := range map[string]string{
		"b / 10⁻⁶ m": "b / 10^-6 m", "x₀·ω": "x_0*omega", "−3 °": "-3 deg", "漢": "?", "e\u0301": "e",
	} {
		if got := toASCII(in); got != want {
			t.Errorf("toASCII(%q) = %q, want %q", in, got, want)
		}
	}
}
