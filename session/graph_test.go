package session

import (
	"context"
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"steelyard/lang/finding"
	"steelyard/lang/formula"
	"steelyard/lang/limit"
	"steelyard/lang/syntax"
	"steelyard/session/graph"
)

// enter enters lines and fails the test if one of them fails.
func enter(t *testing.T, lines ...string) *Pad {
	t.Helper()
	p := New()
	for _, line := range lines {
		if e := p.Enter(context.Background(), line); e.Failed() {
			t.Fatalf("%s: %v", line, e.Findings)
		}
	}
	return p
}

// TestShapes draws twenty relations of a first course (common practice) and
// more, and compares what is said of them.
func TestShapes(t *testing.T) {
	p := enter(t, "m = 0.080 kg", "k = 257 N/m", "A = 6.0 cm", "g = 9.80 m/s^2", "v0 = 12 m/s", "T = 2 s", "τ = 4 s", "L = 0.9 m",
		"U(x) = 1/2*k*x^2 in J", "E0 = U(A)", "K(x) = E0 - U(x) in J", "P = pendulum_period(L)", "f = 1/P in Hz",
		"a(t) =\n  2 m/s^2 for 0 s ≤ t ≤ 2 s\n  -1 m/s^2 for 2 s < t ≤ 6 s",
		"v(t) =\n  2 m/s^2*t for 0 s ≤ t ≤ 2 s\n  6 m/s - 1 m/s^2*t for 2 s < t ≤ 6 s")
	tests := []struct{ line, want string }{
		{"U(x) against x from -A to A", "U is a parabola in x that opens upward: least 0 J at x = 0."},
		{"K(x) against x from -A to A", "K is a parabola in x that opens downward: greatest 0.4626 J at x = 0, zero at x = ±6 cm."},
		{"E0 against x from -A to A", "E0 is constant: 0.4626 J."},
		{"-k*x against x from -A to A", "-k·x is a line in x through the origin, with slope -257 N/m."},
		{"v0 - g*t against t from 0 s to 2 s", "v0 - g·t is a line in t with slope -9.8 m/s²: 12 m/s at t = 0, zero at t = 1.22449 s."},
		{"v0 - g*t against t from 3 s to 4 s", "v0 - g·t is a line in t with slope -9.8 m/s²: -17.4 m/s at t = 3 s, -27.2 m/s at t = 4 s."},
		{"v0*t - 1/2*g*t^2 against t from 0 s to 2 s", "v0·t - 1/2·g·t² is a parabola in t that opens downward: greatest 7.34694 m at t = 1.22449 s, zero at t = 0."},
		{"v0*t - 1/2*g*t^2 against t from 2 s to 3 s", "v0·t - 1/2·g·t² is a parabola in t that opens downward: 4.4 m at t = 2 s, -8.1 m at t = 3 s, its vertex at t = 1.22449 s, outside the range, zero at t = 2.44898 s."},
		{"(3 J)/d against d from 1 m to 3 m", "(3 J)/d is inversely proportional to d (their product is 3 J): 3 N at d = 1 m, 1 N at d = 3 m."},
		{"(8 N m^2)/d^2 against d from 1 m to 2 m", "(8 N m²)/d² is inversely proportional to the square of d (an inverse square, 8 J·m over d²): 8 N at d = 1 m, 2 N at d = 2 m."},
		{"P against L from 0 m to 4 m", "P goes as the square root of L: 0 s at L = 0, 4.01418 s at L = 4 m."},
		{"f against L from 1 m to 4 m", "f goes as 1/√L: 0.498234 Hz at L = 1 m, 0.249117 Hz at L = 4 m."},
		{"2π*√(q/k) against q from 0 kg to 1 kg", "2π·√(q/k) goes as the square root of q: 0 s at q = 0, 0.391934 s at q = 1 kg."},
		{"A*cos(2π*t/T) against t from 0 s to 4 s in cm", "A·cos(2π·t/T) is a sinusoid in t with amplitude 6 cm and period 2 s."},
		{"U(A*cos(2π*t/T)) against t from 0 s to 4 s", "U(A·cos(2π·t/T)) is a sinusoid in t with amplitude 0.2313 J and period 1 s, about a mean of 0.2313 J."},
		{"(20 J)*exp(-t/τ) against t from 0 s to 10 s", "(20 J)·exp(-t/τ) falls exponentially in t: 20 J at t = 0, a factor e in 4 s, half in 2.77259 s."},
		{"v0*(1 - exp(-t/τ)) against t from 0 s to 10 s", "v0·(1 - exp(-t/τ)) rises exponentially toward 12 m/s in t: 0 m/s at t = 0, a factor e in its distance from 12 m/s in 4 s, half in 2.77259 s."},
		{"(2 W/m^3)*s^3 against s from 0 m to 2 m", "(2 W/m³)·s³ goes as s³: 0 W at s = 0, 16 W at s = 2 m."},
		{"m*v^2/d against v from 0 m/s to 3 m/s", "d has no value"},
		{"v0*sin(θ) against θ from 0° to 90°", "v0·sin(θ) is a sinusoid in θ with amplitude 12 m/s and period 360°."},
		{"v0^2*sin(2*θ)/g against θ from 0° to 90°", "v0²·sin(2·θ)/g is a sinusoid in θ with amplitude 14.6939 m and period 180°."},
		{"v0^2*sin(θ)*cos(θ) against θ from 0° to 90°", "v0²·sin(θ)·cos(θ) is a sinusoid in θ with amplitude 72 m²/s² and period 180°, judged from 257 values."},
		{"a(t) against t from 0 s to 6 s", "From 0 s to 2 s, a is constant: 2 m/s². From 2 s to 6 s, a is constant: -1 m/s²."},
		{"v(t) against t from 0 s to 6 s", "From 0 s to 2 s, v is a line in t through the origin, with slope 2 m/s². From 2 s to 6 s, v is a line in t with slope -1 m/s²: zero at t = 6 s."},
		{"hypot(v0, g*t) against t from 0 s to 2 s", "hypot(v0, g·t) rises from 12 m/s at t = 0 to 22.9817 m/s at t = 2 s."},
		{"(1 m)*q/(q^2 - 1 m^2) against q from -3 m to 3 m", "(1 m)·q/(q² - 1 m²) runs off at q = -1 m, at q = 1 m; zero at q = 0; the same with the other sign on both sides of q = 0."},
		{"sin(n)^2 + cos(n)^2 - 1 against n from 0 to 10", "sin(n)² + cos(n)² - 1 is constant: 0, judged from 257 values."},
		{"max(n - 3, 0) against n from 0 to 5", "max(n - 3, 0) rises from 0 at n = 0 to 2 at n = 5; 0 from n = 0 to n = 3."},
		{"n^2 against n from 0 to 1", "n² is a parabola in n that opens upward: least 0 at n = 0, 1 at n = 1."},
		{"n^5 - n against n from -1 to 1", "n⁵ - n is greatest, 0.534992, at n = -0.66874 and least, -0.534992, at n = 0.66874; zero at n = -1, 0, 1; the same with the other sign on both sides of n = 0."},
		{"√(1 m^2 - r^2) against r from -1.5 m to 1.5 m", "√(1 m² - r²) is greatest, 1 m, at r = 0 and least, 0 m, at r = -1 m, 1 m; with a break below r = -1 m, above r = 1 m; zero at r = -1 m, 1 m; the same on both sides of r = 0."},
		{"exp(-((n - 3.7)/0.00001)^2) against n from 0 to 10", "exp(-((n - 3.7)/0.00001)²) is greatest, 1, at n = 3.7; too small to be told from 0 from n = 0 to n = 3.69973; too small to be told from 0 from n = 3.70027 to n = 10."},
		{"exp(-n^2) against n from -40 to 40", "exp(-n²) is greatest, 1, at n = 0; too small to be told from 0 from n = -40 to n = -26.875; too small to be told from 0 from n = 26.875 to n = 40; the same on both sides of n = 0."},
		{"-exp(-1000*(n - 0.123)^2) against n from 0 to 1", "-exp(-1000·(n - 0.123)²) is least, -1, at n = 0.123; too small to be told from 0 from n = 0.96875 to n = 1."},
		{"n + exp(-((n - 3.7)/0.00001)^2) against n from 0 to 10", "n + exp(-((n - 3.7)/0.00001)²) is greatest, 10, at n = 10 and least, 0, at n = 0; zero at n = 0."},
		{"(n - 1.46)^2 against n from 0.79 to 2.8", "(n - 1.46)² is a parabola in n that opens upward: least 0 at n = 1.46."},
		{"(n - 0.7)^2*(n - 7.71) against n from -6.31 to 14.72", "(n - 0.7)²·(n - 7.71) is greatest, 1377.89, at n = 14.72 and least, -688.944, at n = -6.31; zero at n = 0.7, 7.71."},
		{"tan(n) against n from 0 to 10", "tan(n) runs off at n = 1.5708, at n = 4.71239, at n = 7.85398; zero at n = 0, 3.14159, 6.28319, 9.42478."},
		{"1e-20/(n - 3)^2 against n from 0 to 10", "1e-20/(n - 3)² runs off at n = 3."},
		{"sin(n)/n against n from -10 to 10", "sin(n)/n is greatest, 1, near n = 0 and least, -0.217234, at n = -4.49341, 4.49341; with a break at n = 0; zero in 6 places; judged from samples, the same on both sides of n = 0."},
		{"√(n^2 - 0.7) against n from -3 to 3", "√(n² - 0.7) is greatest, 2.88, at n = -3 and least, 0, near n = -0.837; with a break from n = -0.837 to 0.837; zero at n = -0.83666, 0.83666; the same on both sides of n = 0 (judged from samples)."},
		{"(1 - cos(n))/n^2 against n from -10 to 10", "(1 - cos(n))/n² is greatest, 0.5, near n = 0 and least, 0, at n = -6.28319, 6.28319; with a break at n = 0; zero at n = -6.28319, 6.28319; judged from samples, the same on both sides of n = 0."},
		{"(exp(n) - 1)/n against n from -1 to 1", "(exp(n) - 1)/n is greatest, 1.71828, at n = 1 and least, 0.632121, at n = -1; with a break at n = 0."},
		{"(n - 1)/(n^2 - 1) against n from -3 to 3", "(n - 1)/(n² - 1) runs off at n = -1."},
		{"(n^3 - 8)/(n - 2) against n from 0 to 4", "(n³ - 8)/(n - 2) is greatest, 28, at n = 4 and least, 4, at n = 0; with a break at n = 2."},
		{"exp(n) - 1 - n against n from -1 to 1", "exp(n) - 1 - n is greatest, 0.718282, at n = 1 and least, 0, at n = 0; zero at n = 0."},
		{"n*cos(100*n) against n from 0 to 10", "n·cos(100·n) is greatest, 9.99027, at n = 9.99027 and least, -9.95885, at n = 9.95886; judged from samples, zero in 319 places at least."},
		{"round(n)/2 against n from 0 to 2", "round(n)/2 is greatest, 1, from n = 1.5 to n = 2 and least, 0; with a break at n = 0.5, at n = 1.5; 0 from n = 0 to n = 0.5."},
		{"1/(1 + exp(-n/0.001)) against n from -1 to 1", "1/(1 + exp(-n/0.001)) rises from nearly 0 at n = -1 to 1 at n = 1; too small to be told from 0 from n = -1 to n = -0.703125."},
		{"sgn(n - 1)*sgn(n - 2)*n against n from 0 to 4", "sgn(n - 1)·sgn(n - 2)·n is greatest, 4, at n = 4 and least, -2, near n = 2; with a break at n = 1, at n = 2; zero at n = 0, 1, 2."},
		{"(n - 1)^2*(n - 1.0001) against n from 0 to 3", "(n - 1)²·(n - 1.0001) is greatest, 7.9996, at n = 3 and least, -1.0001, at n = 0; zero at n = 1, 1.0001."},
		{"(n - 1)*(n - 1.000001)*n against n from 0 to 3", "(n - 1)·(n - 1.000001)·n is greatest, 12, at n = 3 and least, -2.5×10⁻¹³, at n = 1; zero at n = 0, 1, 1.000001."},
		{"round(n) - n against n from 0 to 2", "round(n) - n is greatest, 0.5, at n = 0.5, 1.5 and least, -0.5, near n = 0.5, 1.5; with a break at n = 0.5, at n = 1.5; zero at n = 0, 1, 2."},
		{"ln(abs(n)) against n from -2 to 3", "ln(abs(n)) runs off at n = 0; zero at n = -1, 1."},
		{"√(n^2 - 1) against n from -3 to 3", "√(n² - 1) is greatest, 2.82843, at n = -3, 3 and least, 0, at n = -1, 1; with a break from n = -1 to 1; zero at n = -1, 1; the same on both sides of n = 0."},
		{"tanh(1e6*(n - 1)) against n from 0 to 3", "tanh(1e6·(n - 1)) rises from -1 at n = 0 to 1 at n = 3; zero at n = 1."},
		{"1/(1 - n^2)^2 against n from 0 to 3", "1/(1 - n²)² runs off at n = 1."},
		{"1e-200*n^2*sin(n) against n from 0 to 7", "1e-200·n²·sin(n) is greatest, 3.21923×10⁻¹⁹⁹, at n = 7 and least, -2.4083×10⁻¹⁹⁹, at n = 5.08699; zero at n = 0, 3.14159, 6.28319."},
		{"abs(2 cm*sin(2π*x/(0.4 m))) against x from 0 m to 1 m", "abs((2 cm)·sin(2π·x/(0.4 m))) is greatest, 2 cm, at x = 0.1 m, 0.3 m, 0.5 m, 0.7 m, 0.9 m and least, 0 cm, in 6 places; zero in 6 places."},
		{"n*abs(sin(n)) against n from -5 to 7", "n·abs(sin(n)) is greatest, 4.81447, at n = 4.91318 and least, -4.81447, at n = -4.91318; judged from samples, zero at n = -3.14, 0, 3.14, 6.28."},
		{"√(n^2) against n from -2 to 3", "√(n²) is greatest, 3, at n = 3 and least, 0, at n = 0; zero at n = 0."},
		{"√(abs(n - 1.1)) against n from -2 to 3", "√abs(n - 1.1) is greatest, 1.76068, at n = -2 and least, 0, at n = 1.1; zero at n = 1.1."},
		{"asin(sin(n)) against n from -7 to 7", "asin(sin(n)) is greatest, 1.5708 rad, at n = -4.71239, 1.5708 and least, -1.5708 rad, at n = -1.5708, 4.71239; zero at n = -6.28319, -3.14159, 0, 3.14159, 6.28319; judged from samples, the same with the other sign on both sides of n = 0."},
		{"acos(cos(n)) against n from 0 to 7", "acos(cos(n)) is greatest, 3.14159 rad, at n = 3.14159 and least, 0 rad, at n = 0, 6.28319; zero at n = 0, 6.28319."},
		{"atan(1/n) against n from -1 to 5", "atan(1/n) is greatest, 1.5708 rad, near n = 0 and least, -1.5708 rad, near n = 0; with a break at n = 0."},
		{"cbrt(n) against n from -1 to 2", "cbrt(n) goes as n^(1/3): -1 at n = -1, 1.25992 at n = 2."},
		{"(1 - cos(n))/n^3 against n from -5 to 5", "(1 - cos(n))/n³ runs off at n = 0; judged from samples, the same with the other sign on both sides of n = 0."},
		{"tan(n)^2 against n from 0 to 7", "tan(n)² runs off at n = 1.5708, at n = 4.71239; zero at n = 0, 3.14159, 6.28319."},
		{"1/(n^2 - 2)^2 against n from -3 to 3", "1/(n² - 2)² runs off at n = -1.41421, at n = 1.41421; the same on both sides of n = 0."},
		{"exp(1/n) against n from -2 to 2", "exp(1/n) runs off between n = 0 and 0.0625; too small to be told from 0 from n = -0.00140381 to n = 0 (judged from samples)."},
		{"exp(n^2) against n from -40 to 40", "exp(n²) runs off below n = -23.8, above n = 23.8; the same on both sides of n = 0 (judged from samples)."},
		{"√(n^2) - n against n from 0 to 5", "√(n²) - n is constant: 0; 0 from n = 0 to n = 5 (judged from samples)."},
		{"abs(3.5*sin(3.9*n)) against n from 0 to 5", "abs(3.5·sin(3.9·n)) is greatest, 3.5, in 6 places and least, 0, in 7 places; zero in 7 places."},
		{"2*abs(cos(3.9*n)) + 1 against n from -3 to 5", "2·abs(cos(3.9·n)) + 1 is greatest, 3, in 10 places and least, 1, in 10 places."},
		{"cos(3.39*n)^2*exp(-n) against n from 0 to 5", "cos(3.39·n)²·exp(-n) is greatest, 1, at n = 0 and least, 0, at n = 0.463362, 1.39009, 2.31681, 3.24353, 4.17026; zero at n = 0.463362, 1.39009, 2.31681, 3.24353, 4.17026."},
		{"1 - 1/(1 + exp(-(q - 2 m)/(0.001 m))) against q from 0 m to 4 m", "1 - 1/(1 + exp(-(q - 2 m)/(0.001 m))) falls from 1 at q = 0 to nearly 0 at q = 4 m; too small to be told from 0 from q = 2.03906 m to q = 4 m."},
		{"√(1 + n^2) - n against n from 0 to 1e10", "√(1 + n²) - n falls from 1 at n = 0 to nearly 0 at n = 1×10¹⁰; too small to be told from 0 from n = 3.05×10⁷ to n = 1×10¹⁰ (judged from samples)."},
		{"tanh(n) - 1 against n from -2 to 40", "tanh(n) - 1 rises from -1.96403 at n = -2 to nearly 0 at n = 40; too small to be told from 0 from n = 21.625 to n = 40."},
		{"1/(1 + exp(-(q - 2 m)/(0.001 m))) against q from 0 m to 4 m", "1/(1 + exp(-(q - 2 m)/(0.001 m))) rises from nearly 0 at q = 0 to 1 at q = 4 m; too small to be told from 0 from q = 0 to q = 1.29688 m."},
		{"1/sin(n) against n from 0 to 3.14", "1/sin(n) runs off at n = 0."},
		{"1/√(1 - n^2) against n from -1 to 1", "1/√(1 - n²) runs off at n = -1, at n = 1; the same on both sides of n = 0."},
		{"√(3.1 - n)/n against n from 0 to 3.12", "√(3.1 - n)/n runs off at n = 0; zero at n = 3.1."},
		{"v(t) + (1 m/s^2)*t against t from 0 s to 6 s", "From 0 s to 2 s, v(t) + (1 m/s²)·t is a line in t through the origin, with slope 3 m/s². From 2 s to 6 s, v(t) + (1 m/s²)·t is constant: 6 m/s."},
		{"1/2*m*v(t)^2 against t from 0 s to 3 s", "From 0 s to 2 s, 1/2·m·v(t)² is a parabola in t that opens upward: least 0 J at t = 0, 0.64 J at t = 2 s. From 2 s to 3 s, 1/2·m·v(t)² is a parabola in t that opens upward: 0.64 J at t = 2 s, 0.36 J at t = 3 s, its vertex at t = 6 s, outside the range."},
		{"v0*t - 1/2*g*t^2 against v0*t for t from 0 s to 1 s", "v0·t is a line in t through the origin, with slope 12 m/s. v0·t - 1/2·g·t² is a parabola in t that opens downward: 0 m at t = 0, 7.1 m at t = 1 s, its vertex at t = 1.22449 s, outside the range, zero at t = 0. The path of (v0·t, v0·t - 1/2·g·t²) begins at (0 m, 0 m) and ends at (12 m, 7.1 m). The dots are 0.1 s apart."},
		{"A*sin(2π*t/T) against A*cos(2π*t/T) for t from 0 s to 2 s", "A·cos(2π·t/T) is a sinusoid in t with amplitude 6 cm and period 2 s. A·sin(2π·t/T) is a sinusoid in t with amplitude 6 cm and period 2 s. The path of (A·cos(2π·t/T), A·sin(2π·t/T)) begins and ends at (6 cm, 0 cm). The dots are 0.2 s apart. It is highest when t = 0.5 s, at (0 cm, 6 cm). It comes down to A·sin(2π·t/T) = 0 when t = 1 s, at (-6 cm, 0 cm). It turns back when t = 1 s, at (-6 cm, 0 cm)."},
		{"n, n + 1e-5, n^2 against n from 0 to 3", "n is a line in n through the origin, with slope 1. n + 1e-5 is a line in n with slope 1: 1×10⁻⁵ at n = 0. n² is a parabola in n that opens upward: least 0 at n = 0, 9 at n = 3. In the drawing, n and n + 1e-5 lie on each other."},
		{"1/q against q from 1 kg to 1000 kg log", "1/q is inversely proportional to q (their product is 1): 1 kg⁻¹ at q = 1 kg, 0.001 kg⁻¹ at q = 1000 kg."},
		{"P + 1 s against L from 1 m to 4 m", "P + 1 s rises from 3.00709 s at L = 1 m to 5.01418 s at L = 4 m."},
	}
	for _, tt := range tests {
		e := p.Enter(context.Background(), "graph "+tt.line)
		got := strings.Join(told(e), " ")
		if tt.want == "d has no value" {
			if !e.Failed() || graphOf(e) != nil {
				t.Errorf("%s: drawn", tt.line)
			}
			continue
		}
		if got != tt.want {
			t.Errorf("%s:\n got %s\nwant %s\n%v", tt.line, got, tt.want, e.Findings)
		}
	}
}

// TestReadings compares slopes and areas with what they are known to be.
func TestReadings(t *testing.T) {
	p := enter(t, "m = 0.080 kg", "k = 257 N/m", "A = 6.0 cm", "g = 9.80 m/s^2", "v0 = 12 m/s", "ω = 3 rad/s",
		"y(t) = v0*t - 1/2*g*t^2 in m", "x(t) = A*cos(ω*t) in cm", "F(x) = k*x in N",
		"v(t) =\n  2 m/s^2*t for 0 s ≤ t ≤ 2 s\n  6 m/s - 1 m/s^2*t for 2 s < t ≤ 6 s")
	for _, check := range []string{
		"slope of y(t) at t = 1 s == v0 - g*(1 s)",
		"slope of y(t) at t = 0 s in km/h == v0",
		"slope of x(t) at t = 0.2 s == -A*ω*sin(0.6)",
		"slope of F(x) at x = 3 cm == k",
		"slope of 1/2*k*x^2 at x = 3 cm in N == F(3 cm)",
		"slope of √(q) at q = 4 m^2 == 0.25 m^-1",
		"slope of v(t) at t = 1 s == 2 m/s^2",
		"slope of ln(q/(1 m)) at q = 2 m == 0.5 m^-1",
		"slope of atan(q/(1 m)) at q = 2 m == 0.2 m^-1",
		"slope of q^q1 at q1 = 2 == 9*ln(3)",
		"area under F(x) from 0 m to A == 1/2*k*A^2",
		"area under F(x) from A to 0 m == -1/2*k*A^2",
		"area under v(t) from 0 s to 6 s == 12 m",
		"area under x(t) from 0 s to 2π/ω == 0 m s",
		"area under (1 N m^2)/r^2 against r from 1 m to 1e6 m == 1 J - 1e-6 J",
		"area under exp(-u^2) against u from -9 to 9 == √π",
		"area under 1/√(u) against u from 0 to 1 == 2",
		"area under 4/(1 + u^2) against u from 0 to 1 == π",
		"area under abs(u) against u from -1 to 2 == 2.5",
	} {
		line, want, _ := strings.Cut(check, " == ")
		if strings.Contains(line, "q1") {
			p.Enter(context.Background(), "q = 3")
		}
		e := p.Enter(context.Background(), line)
		if len(e.Values()) != 1 || !e.Records() {
			t.Errorf("%s: %v", line, e.Findings)
			continue
		}
		w := p.Enter(context.Background(), want)
		if len(w.Values()) != 1 {
			t.Fatalf("%s: %v", want, w.Findings)
		}
		if got := e.Values()[0]; math.Abs(got.SI-w.Values()[0].SI) > 1e-12*math.Max(1, math.Abs(got.SI)) || got.Dim != w.Values()[0].Dim && w.Values()[0].SI != 0 {
			t.Errorf("%s: %g %v, want %g %v", line, got.SI, got.Dim, w.Values()[0].SI, w.Values()[0].Dim)
		}
	}
}

// TestReadingsNamed gives readings names, units and replaced givens.
func TestReadingsNamed(t *testing.T) {
	p := enter(t, "k = 200 N/m", "A = 5 cm", "F(x) = k*x in N", "W = area under F(x) from 0 m to A in mJ", "s = slope of F(x) at x = A")
	for line, want := range map[string]string{"W": "250 mJ", "s": "200 N/m", "W with k = 400 N/m": "500 mJ", "s with k = 1 N/cm": "100 N/m", "W with A = 10 cm": "1000 mJ"} {
		e := p.Enter(context.Background(), line)
		if len(e.Values()) != 1 || e.Values()[0].Shown(0) != want {
			t.Errorf("%s: %v %v", line, e.Values(), e.Findings)
		}
	}
}

// TestGraphFaults names what is wrong with graphs, readings and bar charts.
func TestGraphFaults(t *testing.T) {
	p := enter(t, "k = 200 N/m", "A = 5 cm", "U(x) = 1/2*k*x^2 in J", "F(x) = k*x in N", "let q in N/m", "g = 9.80 m/s^2",
		"a(t) =\n  2 m/s^2 for 0 s ≤ t ≤ 2 s\n  -1 m/s^2 for 2 s < t ≤ 6 s")
	tests := []struct {
		line string
		id   finding.ID
		says string
	}{
		{"graph U(x), F(x) against x from 0 m to A", finding.UnlikeDimensions, "can't share an axis"},
		{"graph U(x) against x from 0 m to A in N", finding.UnitMismatch, "U(x) comes out as"},
		{"graph U(x) against x from 0 m to 2 s", finding.UnlikeDimensions, "The range goes from a length"},
		{"graph U(x) against x from A to A", finding.NoRange, "range are 5 cm"},
		{"graph nothing(x) against x from 0 m to A", finding.UnknownName, ""},
		{"graph q*x against x from 0 m to A", finding.NotWorkedOut, "no value yet"},
		{"graph √(-x) against x from 1 m to 2 m", finding.NoRealValue, "no value anywhere between 1 m and 2 m"},
		{"graph 1/x against x from 1 m to 1 km", finding.Decades, "x and 1/x go over"},
		{"graph 1 m + x against x from 1 m to 1 km", finding.Decades, "x and 1 m + x go over"},
		{"graph 1 m*exp(x/(100 m)) against x from 0 m to 1 km", finding.Decades, "goes over"},
		{"graph 1/x against x from 0 m to 1 km log across", finding.NoRange, "can't show 0 m"},
		{"graph -x against x from 0 m to 1 km log up", finding.NoRealValue, "no value above 0"},
		{"graph 2*x against 3*x for x from 0 m to 1 km log", finding.NoRange, "plain axes"},
		{"graph U(x) against 2*x from 0 m to A", finding.NotWritten, "against one name"},
		{"table U(x) against 2*x for x from 0 m to A", finding.Unreadable, "against one name"},
		{"table U(x) against x from 0 m to A log", finding.Unreadable, "axes of a graph"},
		{"table U(x) against x from 0 m to 1 m by 0.1 mm", finding.TooLong, "1000 rows"},
		{"table U(x) against x from 0 m to 1 m by 1 s", finding.UnlikeDimensions, "The step is a time"},
		{"table U(x) against x from 0 m to 1 m by 0 m", finding.NoRange, "step can't be 0"},
		{"slope of abs(u) at u = 0", finding.NoSlope, "corner"},
		{"slope of abs(3*u - 3.3) at u = 1.1", finding.NoSlope, "corner at u = 1.1: its slope is -3 just before and 3 just after"},
		{"slope of u^(2/3) at u = 0", finding.NoSlope, "grows without limit"},
		{"slope of √(abs(u - 1.1)) at u = 1.1", finding.NoSlope, "grows without limit"},
		{"slope of round(u) + 1000 at u = 2.5", finding.NoSlope, "jumps at u = 2.5"},
		{"slope of a(t) at t = 2 s", finding.NoSlope, "jumps at t = 2 s"},
		{"slope of abs(u - 1) at u = 1", finding.NoSlope, "has a corner at u = 1"},
		{"1 + (slope of abs(u - 1) at u = 1)", finding.NoSlope, "has a corner at u = 1"},
		{"slope of 1/u at u = 0.3 - 3*0.1", finding.NoRealValue, "has no value at u = 0,"},
		{"2*(slope of 1/u at u = 0.3 - 3*0.1)", finding.NoRealValue, "has no value at u = 0,"},
		{"slope of √(u) at u = 0 m^2", finding.NoSlope, ""},
		{"slope of U(A) at x = 1 m", finding.NotSolved, "x isn't in"},
		{"slope of F(x) at x = A in N", finding.UnitMismatch, "force per length"},
		{"area under 1/u against u from 0 to 1", finding.NotSettled, "without limit"},
		{"area under k*x from 0 m to A", finding.Incomplete, "which name changes"},
		{"area under √(u) against u from -1 to 1", finding.NoRealValue, ""},
		{"area under F(x) from 0 m to A in N", finding.UnitMismatch, "an energy"},
		{`bars at "released": U(A) | at "low": 0.2 J`, finding.BooksDiffer, "0.05 J less"},
		{`bars at "released": U(A) | at "low": 0.2 J within 10 %`, finding.BooksDiffer, ""},
		{`bars at "low": 3 J | at "high": 4 J with work 2 J`, finding.BooksDiffer, "3 J at \"low\" and 2 J of work done on the system make 5 J"},
		{`bars at "low": 3 J then work 2 J then at "high": 4 J | at "end": 4 J`, finding.BooksDiffer, "3 J at \"low\" and 2 J of work done on the system make 5 J"},
		{`bars at "low": E_none = 3 J then work 1 J then at "high": 4 J then work -4.5 J then at "end": 0 J`, finding.BooksDiffer, "make -0.5 J"},
		{`bars at "released": U(A), F(A) | at "low": 0.2 J`, finding.UnlikeDimensions, "F(A) is a force"},
		{`bars at "released": U(A) | at "low": 0.25 J within 1 s`, finding.UnlikeDimensions, "The margin"},
		{`bars at "released": `, finding.Unreadable, "missing"},
		{`bars at released: 3 J`, finding.Unreadable, "quotation marks"},
	}
	for _, tt := range tests {
		e := p.Enter(context.Background(), tt.line)
		found := false
		for _, f := range e.Findings {
			found = found || f.ID == tt.id && strings.Contains(f.Message, tt.says)
		}
		if !found {
			t.Errorf("%s: %v", tt.line, e.Findings)
		}
	}
}

// TestBars balances books, with work and without.
func TestBars(t *testing.T) {
	p := enter(t, "k = 200 N/m", "A = 5 cm", "U = 1/2*k*A^2 in J", "W = -0.05 J")
	for line, want := range map[string]string{
		`bars at "released": U, 0 J | at "leaves": 0 J, 0.25 J`:                                   "The energies add up: 0.25 J in all.",
		`bars at "released": U | at "rough": 0.2 J with work W`:                                   "The energies add up: 0.25 J and -0.05 J of work done make 0.2 J in all.",
		`bars at "a": U | at "b": 0.1 J, 0.15 J | at "c": 0.3 J with work 50 mJ`:                  "The energies add up: 0.25 J and 0.05 J of work done make 0.3 J in all.",
		`bars at "a": U | at "b": 0.24 J within 5 %`:                                              "The energies add up: 0.25 J in all, within 5 %.",
		`bars at "a": U | at "b": 0.24 J within 0.02 J`:                                           "The energies add up: 0.25 J in all, within 0.02 J.",
		`bars at "a": -0.1 J, 0.35 J | at "b": U`:                                                 "The energies add up: 0.25 J in all.",
		`bars at "a": K = U then work W then at "b": U_g = 0.2 J then work W then at "c": 0.15 J`: "The energies add up: 0.25 J and -0.05 J of work done make 0.2 J and -0.05 J of work done make 0.15 J in all.",
		`bars at "here": U, 0.1 J`:                                                                "The sum at \"here\" is 0.35 J.",
	} {
		e := p.Enter(context.Background(), line)
		if barsOf(e) == nil || !barsOf(e).Holds || barsOf(e).Books.String() != want {
			t.Errorf("%s: %+v %v", line, barsOf(e), e.Findings)
		}
	}
}

// TestTable lists rows by a step, or eleven.
func TestTable(t *testing.T) {
	p := enter(t, "k = 200 N/m", "U(x) = 1/2*k*x^2 in J", "F(x) = k*x in N")
	e := p.Enter(context.Background(), "table U(x), F(x) in mN against x from 0 cm to 5 cm by 2.5 cm")
	if tableOf(e) == nil || fmt.Sprint(tableOf(e).Heads) != "[x / cm U / J F / mN]" {
		t.Fatalf("%+v %v", e.Outcome, e.Findings)
	}
	var rows []string
	for _, r := range tableOf(e).Rows {
		rows = append(rows, strings.Trim(fmt.Sprint(r), "[]"))
	}
	if got := strings.Join(rows, "; "); got != "0 0 0; 2.5 0.0625 5000; 5 0.25 10000" {
		t.Error(got)
	}
	if e := p.Enter(context.Background(), "table 1/x against x from 0 m to 1 m"); len(tableOf(e).Rows) != 11 || tableOf(e).Rows[0][1].String() != "no value" || tableOf(e).Rows[10][1].String() != "1" {
		t.Errorf("%v", tableOf(e).Rows)
	}
	if e := p.Enter(context.Background(), "table sgn(x)*x against x from -5 to 5 by 5"); fmt.Sprint(tableOf(e).Rows) != "[[-5 5] [0 0] [5 5]]" {
		t.Errorf("%v %v", tableOf(e), e.Findings)
	}
	if e := p.Enter(context.Background(), "table F(x) against x from 0 m to 0.3 m by 0.1 m"); len(tableOf(e).Rows) != 4 {
		t.Errorf("%v", tableOf(e).Rows)
	}
}

func BenchmarkGraph(b *testing.B) {
	p := New()
	for _, line := range []string{"k = 257 N/m", "A = 6.0 cm", "U(x) = 1/2*k*x^2 in J", "E0 = U(A)", "K(x) = E0 - U(x) in J"} {
		p.Enter(context.Background(), line)
	}
	for b.Loop() {
		p.Enter(context.Background(), "graph U(x), K(x), E0 against x from -A to A in J")
		p.Undo()
	}
}

// drawnRelation is a relation of a first course (common practice) as a curve: the
// line, with parameters written as %g, and the shape that it must have.
type drawnRelation struct {
	line  string
	draws int
	want  func(p []float64) graph.Shape
}

// TestShapesOfRelations draws each of twenty relations with a hundred choices of
// its parameters, and compares the numbers of its shape.
func TestShapesOfRelations(t *testing.T) {
	line := func(c, b float64) graph.Shape { return graph.Shape{Kind: graph.Line, B: b, C: c} }
	parabola := func(c, b, a float64) graph.Shape { return graph.Shape{Kind: graph.Parabola, A: a, B: b, C: c} }
	power := func(a float64, e, of int) graph.Shape { return graph.Shape{Kind: graph.Power, A: a, E: e, Of: of} }
	wave := func(a, b, c float64) graph.Shape { return graph.Shape{Kind: graph.Wave, A: a, B: b, C: c} }
	relations := []drawnRelation{
		{"%g m/s + %g m/s^2*t against t from 0 s to 3 s", 2, func(p []float64) graph.Shape { return line(p[0], p[1]) }},
		{"%g m + %g m/s*t against t from 0 s to 3 s", 2, func(p []float64) graph.Shape { return line(p[0], p[1]) }},
		{"(%g m/s)*t - 1/2*(%g m/s^2)*t^2 against t from 0 s to 3 s", 2, func(p []float64) graph.Shape { return parabola(0, p[0], -p[1]/2) }},
		{"%g N/m*x against x from -1 m to 1 m", 1, func(p []float64) graph.Shape { return line(0, p[0]) }},
		{"1/2*(%g N/m)*x^2 against x from -1 m to 1 m", 1, func(p []float64) graph.Shape { return parabola(0, 0, p[0]/2) }},
		{"%g J - 1/2*(%g N/m)*x^2 against x from -1 m to 1 m", 2, func(p []float64) graph.Shape { return parabola(p[0], 0, -p[1]/2) }},
		{"1/2*(%g kg)*v^2 against v from 0 m/s to 9 m/s", 1, func(p []float64) graph.Shape { return parabola(0, 0, p[0]/2) }},
		{"%g kg*v against v from 0 m/s to 9 m/s", 1, func(p []float64) graph.Shape { return line(0, p[0]) }},
		{"(%g kg)*(%g m/s^2)*h against h from 0 m to 9 m", 2, func(p []float64) graph.Shape { return line(0, p[0]*p[1]) }},
		{"(%g kg)*v^2/(%g m) against v from 1 m/s to 9 m/s", 2, func(p []float64) graph.Shape { return parabola(0, 0, p[0]/p[1]) }},
		{"(%g kg)*(%g m/s)^2/r against r from 1 m to 9 m", 2, func(p []float64) graph.Shape { return power(p[0]*p[1]*p[1], -1, 1) }},
		{"(%g N m^2)/r^2 against r from 1 m to 9 m", 1, func(p []float64) graph.Shape { return power(p[0], -2, 1) }},
		{"-(%g J m)/r against r from 1 m to 9 m", 1, func(p []float64) graph.Shape { return power(-p[0], -1, 1) }},
		{"2π*√(L/(%g m/s^2)) against L from 0 m to 4 m", 1, func(p []float64) graph.Shape { return power(2*math.Pi/math.Sqrt(p[0]), 1, 2) }},
		{"2π*√(m/(%g N/m)) against m from 0 kg to 4 kg", 1, func(p []float64) graph.Shape { return power(2*math.Pi/math.Sqrt(p[0]), 1, 2) }},
		{"√(2*(%g m/s^2)*h) against h from 0 m to 4 m", 1, func(p []float64) graph.Shape { return power(math.Sqrt(2*p[0]), 1, 2) }},
		{"(%g m)*cos((%g rad/s)*t + %g) against t from 0 s to 7 s", 3, func(p []float64) graph.Shape { return wave(p[0], p[1], 0) }},
		{"1/2*(%g N/m)*((%g m)*sin((%g rad/s)*t))^2 against t from 0 s to 7 s", 3, func(p []float64) graph.Shape { e := p[0] * p[1] * p[1] / 4; return wave(e, 2*p[2], e) }},
		{"(%g J)*exp(-t/(%g s)) against t from 0 s to 9 s", 2, func(p []float64) graph.Shape { return graph.Shape{Kind: graph.Exponential, A: p[0], B: -1 / p[1]} }},
		{"(%g W/m^3)*s^3 against s from 0 m to 2 m", 1, func(p []float64) graph.Shape { return power(p[0], 3, 1) }},
	}
	r := rand.New(rand.NewPCG(9, 10))
	for _, rel := range relations {
		for range 100 {
			p := make([]float64, rel.draws)
			args := make([]any, rel.draws)
			for i := range p {
				p[i] = math.Round(math.Pow(10, 1.6*r.Float64()-0.3)*1e4) / 1e4
				args[i] = p[i]
			}
			text := "graph " + fmt.Sprintf(rel.line, args...)
			e := New().Enter(context.Background(), text)
			if graphOf(e) == nil {
				t.Fatalf("%s: %v", text, e.Findings)
			}
			got, want := graphOf(e).Curves[0].Shape, rel.want(p)
			size := 1e-9 * math.Max(math.Abs(want.A), math.Max(math.Abs(want.B), math.Abs(want.C)))
			if got.Kind != want.Kind || got.E != want.E || got.Of != want.Of || got.From != 0 ||
				math.Abs(got.A-want.A) > size || math.Abs(got.B-want.B) > size || math.Abs(got.C-want.C) > size {
				t.Errorf("%s: %+v, want %+v", text, got, want)
			}
		}
	}
}

// TestReadingsToSixtyDigits takes the slope of every formula of the library
// against every symbol of its right side, and compares it with a difference
// quotient of math/big with a step of 10⁻²⁰.
func TestReadingsToSixtyDigits(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	judged := 0
	for _, name := range formula.Names() {
		f, _ := New().Formula(name)
		values, ok := drawnValues(f, r)
		for tries := 0; !ok && tries < 50; tries++ {
			values, ok = drawnValues(f, r)
		}
		for _, s := range f.Symbols {
			v, given := values[s.Name]
			if !ok || !given || !syntax.Holds(f.Right, s.Name) {
				continue
			}
			p := New()
			d := &digits{values: map[string]*big.Float{"g": bigOf(9.80665)}, most: bigZero()}
			for _, o := range f.Symbols {
				if w, ok := values[o.Name]; ok {
					if e := give(p, o, w); len(e.Values()) == 1 {
						d.values[o.Name] = bigOf(e.Values()[0].SI)
					}
				}
			}
			unit := ""
			if s.Unit.Text != "1" {
				unit = " " + s.Unit.Text
			}
			line := fmt.Sprintf("slope of %s at %s = %s%s", syntax.PrintExpr(f.Right), s.Name, strconv.FormatFloat(v, 'g', 17, 64), unit)
			e := p.Enter(context.Background(), line)
			if len(e.Values()) != 1 {
				t.Errorf("%s: %v", line, e.Findings)
				continue
			}
			at := d.values[s.Name]
			step, _, _ := big.ParseFloat("1e-20", 10, digitsBits, big.ToNearestEven)
			step.Mul(step, at)
			d.values[s.Name] = bigZero().Add(at, step)
			up := d.of(f.Right)
			d.values[s.Name] = bigZero().Sub(at, step)
			down := d.of(f.Right)
			if up == nil || down == nil {
				continue
			}
			want, _ := bigZero().Quo(bigZero().Sub(up, down), step.Mul(step, bigOf(2))).Float64()
			if got := e.Values()[0].SI; math.Abs(got-want) > 1e-11*math.Abs(want) {
				t.Errorf("%s: %g, want %g", line, got, want)
			}
			judged++
		}
	}
	if judged < 250 {
		t.Errorf("only %d judged", judged)
	}
	t.Logf("%d slopes judged", judged)
}

// TestAreasAgainstGonum compares areas with the Gauss-Legendre rule of
// gonum.org/v1/gonum/integrate/quad.
func TestAreasAgainstGonum(t *testing.T) {
	for text, f := range map[string]func(float64) float64{
		"sin(u)/(1 + u^2)": func(u float64) float64 { return math.Sin(u) / (1 + u*u) },
		"exp(-u)*u^3":      func(u float64) float64 { return math.Exp(-u) * u * u * u },
		"√(1 + u^4)":       func(u float64) float64 { return math.Sqrt(1 + u*u*u*u) },
		"ln(2 + cos(u))":   func(u float64) float64 { return math.Log(2 + math.Cos(u)) },
		"tanh(u)*atan(u)":  func(u float64) float64 { return math.Tanh(u) * math.Atan(u) },
	} {
		e := New().Enter(context.Background(), "area under "+text+" against u from 0 to 5")
		want := quad.Fixed(f, 0, 5, 200, quad.Legendre{}, 0)
		if len(e.Values()) != 1 || math.Abs(e.Values()[0].SI-want) > 1e-11*math.Abs(want) {
			t.Errorf("%s: %v %v, want %g", text, e.Values(), e.Findings, want)
		}
	}
}

// TestCurveLimits draws and lists at the limits and just beyond.
func TestCurveLimits(t *testing.T) {
	for n, fails := range map[int]bool{(limit.CurveCost - 1) / 2: false, (limit.CurveCost-1)/2 + 1: true} {
		e := New().Enter(context.Background(), "graph x"+strings.Repeat("+1", n)+" against x from 0 to 1")
		if e.Failed() != fails {
			t.Errorf("a curve of %d sums: %v", n, e.Findings)
		}
	}
	for rows, fails := range map[int]bool{limit.Rows: false, limit.Rows + 1: true} {
		e := New().Enter(context.Background(), fmt.Sprintf("table x against x from 0 m to %d m by 1 m", rows-1))
		if e.Failed() != fails || !fails && len(tableOf(e).Rows) != rows {
			t.Errorf("a table of %d rows: %v", rows, e.Findings)
		}
	}
}
