package algebra

import (
	"fmt"
	"steelyard/lang/typeset"
	"strings"
	"testing"
)

func TestFormOf(t *testing.T) {
	tests := map[string]string{
		"3":                    "0: 3; 0; 0",
		"a":                    "0: a; 0; 0",
		"1/2*k*x^2":            "0: 0; 0; k/2",
		"E - 1/2*k*x^2":        "0: E; 0; -k/2",
		"k*(A - x)":            "0: k·A; -k; 0",
		"1/2*k*(A^2 - x^2)":    "0: k·A²/2; 0; -k/2",
		"(a + x)^2":            "0: a²; 2·a; 1",
		"v0 - g*x":             "0: v0; -g; 0",
		"G*m/x^2":              "1: G·m ^-2",
		"p/x":                  "1: p ^-1",
		"2π*√(x/g)":            "1: 2·π·√(1/g) ^1/2",
		"x^3":                  "1: 1 ^3",
		"A*cos(ω*x + φ)":       "3: 0; A; ω; φ cos",
		"1/2*k*(A*sin(ω*x))^2": "3: 0; k·A²/2; ω; 0 squared",
		"y + A*sin(2π*x/T)":    "3: y; A; 2·π/T; 0",
		"U*exp(-x/τ)":          "2: 0; U; -1/τ; 0",
		"U*(1 - exp(-x/τ))":    "2: U; -U; -1/τ; 0",
		"x*sin(x)":             "",
		"sin(x^2)":             "",
		"x + 1/x":              "",
		"sin(x) + cos(x)":      "",
		"√(1 + x)":             "",
		"exp(x)^2":             "",
		"tan(x)":               "",
		"2^x":                  "",
		"√(L^2 - x^2)":         "",
		"x^2 + x^3":            "",
		"3*x - 3*x":            "0: 0; 0; 0",
	}
	for text, want := range tests {
		got := ""
		if f, ok := FormOf(parse(t, text), "x"); ok {
			var c []string
			for _, x := range f.C {
				c = append(c, typeset.Text(x))
			}
			got = fmt.Sprintf("%d: %s", f.Kind, strings.Join(c, "; "))
			if f.Kind == PowerForm {
				got += " ^" + f.Exp.String()
			}
			if f.Squared {
				got += " squared"
			}
			if f.Cosine {
				got += " cos"
			}
		}
		if got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}
