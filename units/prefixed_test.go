package units

import "testing"

// TestPrefixed tells words of two units in one from those that are one unit only.
func TestPrefixed(t *testing.T) {
	table := NewTable()
	for word, want := range map[string]string{
		"mK": "m K millikelvin", "ms": "m s millisecond", "Tm": "T m terametre",
		"mm": "", "mol": "", "min": "", "m": "", "mile": "", "kK": "", "mx": "",
	} {
		head, rest, name, ok := table.Prefixed(word)
		if got := head + " " + rest + " " + name; ok != (want != "") || ok && got != want {
			t.Errorf("%s: %q", word, got)
		}
	}
}
