package writing

import (
	"slices"
	"strings"
	"testing"
)

func TestNearest(t *testing.T) {
	words := []string{"speed", "speeds", "spend", "mass", "g", "G", "kinetic_energy", "kinetic_energies", "θ1", "θ2"}
	for _, c := range []struct{ word, want string }{
		{"sped", "speed spend"},
		{"speedd", "speed speeds"},
		{"SPEED", "speed"},
		{"peed", "speed"},
		{"spedn", "speed speeds spend"},
		{"g", ""}, // one letter is near to every other
		{"k", ""},
		{"mas", "mass"},
		{"kinetc_energy", "kinetic_energy"},
		{"θ3", "θ1 θ2"},
		{"work", ""},
		{strings.Repeat("speed", 9), ""},
		{"", ""},
	} {
		if got := strings.Join(Nearest(c.word, slices.Values(words)), " "); got != c.want {
			t.Errorf("%q: %q, want %q", c.word, got, c.want)
		}
	}
}

func TestNearestOffersThree(t *testing.T) {
	got := Nearest("speed0", slices.Values([]string{"speed4", "speed1", "speed1", "speed3", "speed2"}))
	if want := []string{"speed1", "speed2", "speed3"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestWithin(t *testing.T) {
	for _, c := range []struct {
		reach int
		a, b  string
		want  bool
	}{
		{1, "kilo", "kilp", true}, {1, "kilo", "kil", true}, {1, "kilo", "kl", false},
		{1, "Kilo", "kilp", false}, {0, "µ", "µ", true}, {2, "", "abc", false},
	} {
		if got := Within(c.reach, c.a, c.b); got != c.want {
			t.Errorf("%d letters between %q and %q: %v", c.reach, c.a, c.b, got)
		}
	}
}
