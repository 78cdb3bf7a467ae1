package algebra

import (
	"testing"

	"steelyard/units"
)

// TestExponent tells with which power an expression grows with x, if with one.
func TestExponent(t *testing.T) {
	for text, want := range map[string][2]int{
		"2π*√(x/g)":                {1, 2},
		"k*x^2/(m*x^3)":            {-1, 1},
		"hypot(x, 0 m)":            {1, 1},
		"hypot(3*x, x, 0)":         {1, 1},
		"abs(x)*x":                 {2, 1},
		"exp(ln(x/(1 m)))":         {1, 1},
		"exp(-2*ln(x) + b)":        {-2, 1},
		"min(x, 2*x)":              {1, 1},
		"√(x^2 + hypot(x, x)^2)":   {1, 1},
		"sin(x/abs(x))*x":          {1, 1},
		"cbrt(abs(x))*sgn(x)":      {1, 3},
		"a":                        {0, 1},
		"x - x + a":                {0, 1},
		"atan2(x, 3*x)*cosh(0*x)":  {0, 0},
		"sgn(x)":                   {0, 0},
		"(x + a)*2":                {0, 0},
		"hypot(x, 1 m)":            {0, 0},
		"max(x, 0 °C)":             {0, 0},
		"exp(x)":                   {0, 0},
		"ln(x)":                    {0, 0},
		"sin(x)":                   {0, 0},
		"exp(ln(x)^2)":             {0, 0},
		"round(x)":                 {0, 0},
		"abs(x) + x^2":             {0, 0},
		"exp(x/abs(x) + ln(x*x))":  {2, 1},
		"2^x":                      {0, 0},
		"x^x":                      {0, 0},
		"(x^2 + 3*x*abs(x))^(1/2)": {1, 1},
	} {
		if e := Exponent(expr(t, text), "x"); e != units.NewExp(want[0], want[1]) {
			t.Errorf("%s: %s", text, e)
		}
	}
}
