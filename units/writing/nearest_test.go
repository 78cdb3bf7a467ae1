package writing

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"
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

// TestDistance holds the distance between words against that of a library.
func TestDistance(t *testing.T) {
	words := []string{"", "g", "G", "mass", "Mass", "mas1", "mass12345", "mass54321", "speed", "spede", "velocity", "θ", "θ_0", "ω_max_ω", "Δx", "tension_left",
		strings.Repeat("speed_ω", 9), strings.Repeat("spead_ω", 9), "x" + strings.Repeat("deeps", 12) + "yzz"}
	for _, a := range words {
		for _, b := range words {
			p := patternOf(a)
			want := levenshtein.ComputeDistance(a, b)
			for most := range want + 3 {
				if got := p.distance(b, utf8.RuneCountInString(b), most); got != want && (got <= most || want <= most) {
					t.Errorf("%q and %q are %d apart, not %d; at most %d are asked for", a, b, want, got, most)
				}
			}
		}
	}
}
