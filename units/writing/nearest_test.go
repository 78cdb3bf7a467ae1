package writing

import (
	"slices"
	"strings"
	"testing"

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

// TestApartIsNeverMore holds the letters that two words do not share against the
// number of letters that must be changed: it is never more, and tells most
// strangers from each other.
func TestApartIsNeverMore(t *testing.T) {
	words := []string{"", "g", "G", "mass", "Mass", "mas1", "mass12345", "mass54321", "speed", "spede", "velocity", "θ", "θ_0", "ω_max", "Δx", "tension_left"}
	strangers := 0
	for _, a := range words {
		for _, b := range words {
			least := kindsOf(a).apart(kindsOf(b))
			if d := levenshtein.ComputeDistance(strings.ToLower(a), strings.ToLower(b)); least > d {
				t.Errorf("%q and %q are %d apart, not %d", a, b, d, least)
			}
			if least > Reach(a) {
				strangers++
			}
		}
	}
	if all := len(words) * len(words); strangers < all/2 {
		t.Errorf("of %d pairs, only %d are known for strangers", all, strangers)
	}
}
