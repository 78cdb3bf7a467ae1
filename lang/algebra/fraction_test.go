package algebra

import (
	"steelyard/lang/typeset"
	"testing"
)

func TestOneFraction(t *testing.T) {
	tests := map[string]string{
		"(m1*g - ((m2*g*sin(θ) + f + m2*g)/(1 + m2/m1)))/m1": "(m1·g - m2·g·sin(θ) - f)/(m1 + m2)",
		"(a - (b + a)/(1 + c/d))/d":                          "",
		"m*g + m*(g/2)":                                      "3·m·g/2",
		"1/(1/R1 + 1/R2)":                                    "R1·R2/(R2 + R1)",
		"(a^2 - b^2)/(a - b)":                                "a + b",
		"(m1*g - (2*m2*m1*g/(m1 + m2)))/m1":                  "(m1·g - m2·g)/(m1 + m2)",
		"p/(p^2/(2*K))":                                      "2·K/p",
		"(v/2)^2/(3*a)":                                      "v²/(12·a)",
		"(4*a*b + 4*b^2*c - 4*b*√(d))/(4*b^2 + 4*b*a)":       "(a + b·c - √d)/(b + a)",
		"a/b":         "",
		"x*(1 + y/x)": "x + y",
	}
	for text, want := range tests {
		x, ok := OneFraction(parse(t, text))
		got := ""
		if ok {
			got = typeset.Text(x)
		}
		if want != "" && got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
		if ok && !alike(x, parse(t, text)) {
			t.Errorf("%s became %s", text, got)
		}
		if want == "" {
			t.Logf("%s: %s", text, got)
		}
	}
}
