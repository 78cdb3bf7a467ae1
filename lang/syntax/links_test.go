package syntax

import (
	"strings"
	"testing"
)

// TestLinks takes sums and products apart: what is subtracted or divided by has a minus,
// what is below another one a stroke.
func TestLinks(t *testing.T) {
	tell := func(links []Link) string {
		var out []string
		for _, l := range links {
			text := PrintExpr(l.X)
			if l.Minus {
				text = "-" + text
			}
			if l.Below {
				text = "|" + text
			}
			out = append(out, text)
		}
		return strings.Join(out, " ")
	}
	for text, want := range map[string][2]string{
		"a":               {"a", "a"},
		"a*b":             {"a*b", "a b"},
		"a - (b - c)":     {"a |-b |c", "a - (b - c)"},
		"a/(b/(c*d))":     {"a/(b/(c*d))", "a |-b |c |d"},
		"(a*b)/c*(d + e)": {"(a*b)/c*(d + e)", "a b |-c (d + e)"},
		"-a*b + c^2":      {"-a*b c^2", "-a*b + c^2"},
	} {
		x, fs := ParseExpr(text)
		if len(fs) > 0 {
			t.Fatalf("%s: %v", text, fs)
		}
		if terms, factors := tell(Terms(x)), tell(Factors(x)); terms != want[0] || factors != want[1] {
			t.Errorf("%s: terms %s, factors %s", text, terms, factors)
		}
	}
}
