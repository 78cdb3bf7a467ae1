package session

import (
	"context"
	"strings"
	"testing"

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
