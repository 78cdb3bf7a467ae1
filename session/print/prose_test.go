package print

import (
	"strings"
	"testing"
)

// TestProse sets names of the worksheet in prose, and nothing that is a word.
func TestProse(t *testing.T) {
	set := newSetter(entered("W_f = -3 J", "x = 2 cm", "a = 3 m/s^2", "T3 = 3 s", "gain = 4 s", "y(t) = a*t^2", "L = 2 m", "is = 3"))
	for text, want := range map[string]string{
		"the amplitude x and a push":            "the amplitude [x] and a push",
		"W_f is negative":                       "[W_f] is negative",
		"goes as T3²":                           "goes as [T3²]",
		"y(t) at t = 3 s":                       "[y(t)] at [t] = 3 s",
		"grows as √L":                           "grows as [√L]",
		"a = 3 m/s^2 and the gain is a lot":     "[a] = 3 m/s² and the gain is a lot",
		"part a, e.g. the spring's x":           "part a, e.g. the spring's [x]",
		"both sides are -6.20 m":                "both sides are −6.20 m",
		"5 minutes, 2 L of water, x-ray, 3x":    "5 minutes, 2 L of water, [x]-ray, 3x",
		"spring_energy goes as the square of x": "spring energy goes as the square of [x]",
	} {
		got := ""
		for _, p := range set.prose(text) {
			got += p.words
			if s := p.set.Text(); s != "" {
				got += "[" + s + "]"
			}
		}
		if got != want {
			t.Errorf("%s\n got %s\nwant %s", text, got, want)
		}
	}
}

// TestNothingIsSource prints lines that were once printed as they are typed.
func TestNothingIsSource(t *testing.T) {
	d, _ := New("Source", entered("a_1 = 2.0 m/s^2", "m = 3 kg", "v(t) =\n  a_1*t for 0 s ≤ t ≤ 4 s\n  8 m/s for t > 4 s", "L = 2 m", "part a: What does v(t) do?",
		"T = pendulum_period(L)", "T with L = 2*L", "W_f = -(3 N)*(2 m)", "report sign of W_f", "check kinetic_energy(m, v(2 s)) > 0 J", "E = 1/2*(3.0 kg)*(4 m/(2 s))^2"), Key)
	for form, write := range writers {
		if form == "text" {
			continue // as it can be typed
		}
		text := string(write(d))
		for _, source := range []string{"a_1", "*t", "pendulum_period", "pendulum\\_period", "kinetic_energy", "kinetic\\_energy", "T with L =", "W_f", "W\\_f"} {
			if i := strings.Index(text, source); i >= 0 {
				t.Errorf("%s has %s:\n%s", form, source, text[max(0, i-60):min(len(text), i+60)])
			}
		}
	}
}
