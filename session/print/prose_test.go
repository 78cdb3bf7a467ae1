package print

import (
	"strings"
	"testing"
)

// TestProse sets names of the worksheet in prose, and nothing that is a word.
func TestProse(t *testing.T) {
	set := newSetter(entered("W_f = -3 J", "x = 2 cm", "a = 3 m/s^2", "T3 = 3 s", "gain = 4 s", "y(t) = a*t^2", "L = 2 m", "is = 3"))
	for text, want := range map[string]string{
		"the amplitude x and a push":            "the amplitude [x] and a push",
		"W_f is negative":                       "[W_f] is negative",
		"goes as T3²":                           "goes as [T3²]",
		"y(t) at t = 3 s":                       "[y(t)] at [t] = 3 s",
		"grows as √L":                           "grows as [√L]",
		"a = 3 m/s^2 and the gain is a lot":     "[a] = 3 m/s² and the gain is a lot",
		"part a, e.g. the spring's x":           "part a, e.g. the spring's [x]",
		"from (3.0, -4.0) L/s^2 on, 3 and 4 L":  "from (3.0, −4.0) L/s² on, 3 and 4 L",
		"K = 1/2*m*L^2 (or a*x), in m*L":        "K = [1/2·m·L²] (or [a·x]), in m*[L]",
		"in L·s and x/L, not (L/s²) or x·L":     "in L·s and [x]/[L], not (L/s²) or [x]·[L]",
		"both sides are -6.20 m":                "both sides are −6.20 m",
		"5 minutes, 2 L of water, x-ray, 3x":    "5 minutes, 2 L of water, [x]-ray, 3x",
		"spring_energy goes as the square of x": "spring energy goes as the square of [x]",
	} {
		got := ""
		for _, p := range set.prose(text) {
			got += strings.ReplaceAll(p.words, "\u00a0", " ")
			if s := p.set.Text(); s != "" {
				got += "[" + s + "]"
			}
		}
		if got != want {
			t.Errorf("%s\n got %s\nwant %s", text, got, want)
		}
	}
}

// TestFindingsAreSet sets what findings say of a line: names and formulas of the page, but
// not what is to be typed, and no unit that is spelled like a name.
func TestFindingsAreSet(t *testing.T) {
	d, _ := New("Flaws", entered("m_1 = 0.20 kg", "N = 3 N", "Ψ_α = 32°", "k = 200 N/m", "x_1 = 2.0 cm", "J = 2 N s", "part a: All",
		"L = 3.000 m*cos(Ψ_α)", "report L to 3 figures", "check m_1 = -2 kg", "E = 1/2*k*x_1 in J", "F = k*x_1 + m_1", "r = 3 m", "W = r*N in J",
		"f = 1/(2*π)*√(k/m_1) in Hz", "w = √(k/m_1) in Hz", "q = -L/(2 m) in kg"), Key)
	for form, all := range map[string][]string{
		"html":     {"<mi>Ψ</mi>", "right side <span class=\"one\">−2 kg;</span>", "write <code>givens are exact</code> above"},
		"markdown": {`limited by $\Psi_{\alpha}$ = 32°`, `$k x_{1}$ is a force, $m_{1}$ is a mass`, `Is the weight $m_{1} g$ meant?`, "`1/2*k*x1^2` is in J", "comes out as a force (N); J is an energy.", `$\sqrt{\frac{k}{m_{1}}}$ is in radians`},
		"latex":    {`$E$ comes out as a force (N); J is an energy.`, `\texttt{givens\ are\ exact}`},
		"text":     {"limited by Ψ_α = 32°", "`givens are exact`", "side −2 kg"},
	} {
		text := strings.ReplaceAll(string(writers[form](d)), "\n!! ", " ")
		for _, want := range all {
			if !strings.Contains(text, want) {
				t.Errorf("%s lacks %s:\n%s", form, want, text)
			}
		}
	}
}

// TestSaid sets what the program says by what it is: a name that is a word of the language
// too, an expression whole, and the n of a whole number, which is no name of the page.
func TestSaid(t *testing.T) {
	d, _ := New("Said", entered("a = 3.0 m/s^2", "m = 2 kg", "n = 4", "P(I) = I^2*(4.7 Ω)", "let c in m/s^2",
		"part a: All", "graph P(I) against I from -2 A to 2 A", "graph tan(a) against a from 0° to 180°", "F = m*a", "F with a = 2*a", "scaling F against a",
		"bars at \"a\": m*a*(2 m) | at \"m\": 12 J", "solve sin(θ) = 0.3 for θ", "L = 0.842 ± 0.002 m", "A_1 = L^2", "budget A_1", "check F = 6 N within 1 kg m/s^2"), Key)
	text := string(Markdown(d))
	for _, want := range []string{
		"$P$ is a parabola in $I$ that opens upward", `$\tan(a)$ runs off at $a$ = 90`, "with $a$ = $2 a$", "$F$ goes as $a$ ($m$ fixed): doubling $a$ multiplies $F$ by 2.",
		"add up: 12 J in all", "rad + $n$·6.28", "any whole number $n$.", "within 1 kg·m/s²", `| $L$ | 0.8420 m | 0.0020 m |`, "unknown, in m/s²",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing in\n%s", want, text)
		}
	}
}

// TestNothingIsSource prints lines that were once printed as they are typed.
func TestNothingIsSource(t *testing.T) {
	d, _ := New("Source", entered("a_1 = 2.0 m/s^2", "m = 3 kg", "v(t) =\n  a_1*t for 0 s ≤ t ≤ 4 s\n  8 m/s for t > 4 s", "L = 2 m", "part a: What does v(t) do?",
		"T = pendulum_period(L)", "T with L = 2*L", "W_f = -(3 N)*(2 m)", "report sign of W_f", "check kinetic_energy(m, v(2 s)) > 0 J", "E = 1/2*(3.0 kg)*(4 m/(2 s))^2"), Key)
	for form, write := range writers {
		text := string(write(d))
		for _, source := range []string{"a_1", "W_f", "W\\_f", "*t", "pendulum_period", "pendulum\\_period", "kinetic_energy", "kinetic\\_energy", "T with L =", "= -6 J"} {
			if form == "text" && source[1] == '_' {
				continue // it has no indices but as they are typed
			}
			if i := strings.Index(text, source); i >= 0 {
				t.Errorf("%s has %s:\n%s", form, source, text[max(0, i-60):min(len(text), i+60)])
			}
		}
	}
}

// TestUnitsFollowTheGivens cancels the units that the givens have, without their prefixes.
func TestUnitsFollowTheGivens(t *testing.T) {
	d, _ := New("Units", entered("L_s = 2.26 MJ/kg", "P = 1.6 kW", "c = 4.19 J/(g °C)", "m = 250 g", "g = 9.81 N/kg", "ω = 3 rad/s", "part a: All",
		"m_s = P*(5 min)/L_s", "Q = m*c*(20 K)", "G = m*g", "u = ω*(2 m)"), Key)
	text := string(Plain(d, 0))
	for _, want := range []string{"W·s/(J/kg) = (kg·m²/s³)·s/(m²/s²) = kg\n", "kg·(J/(kg·K))·K =", "kg·(N/kg) = kg·(m/s²) =", "(1/s)·m = m/s\n"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing in\n%s", want, text)
		}
	}
}

// TestWorkings prints what a part has beside the workings of its results.
func TestWorkings(t *testing.T) {
	d, _ := New("Workings", entered("g = 9.81 m/s^2", "h = 2.0 m", "m = 3 kg", "part a: A fall",
		"solve m*g*h = 1/2*m*v^2 for v", "solve m*g*h = 1/2*m*v2^2 for v2",
		"part b: Its steps", "steps v", "part c: Twice as high?", "v with h = 2*h", "part d: A pull", "solve T - m*g = m*a and T = 40 N + m*a/2 for T, a",
		"part e: A slope", "Γ = 6.5 K/km", "T_h(x) = (288 K) - Γ*x", "slope of T_h(x) at x = 2 km"), Key)
	text := string(Plain(d, 76))
	for _, want := range []string{
		"  as in the working for v:\n  v2 = ", "The working for v is in part a.", "  with h = 2·h:\n  v = ", "1.41421 times v as it was",
		"| v with h = 2·h is ", "  c  v with h = 2·h is ", "Working for T and a\n",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing in\n%s", want, text)
		}
	}
	if n := strings.Count(text, "= −6.5 K/km"); n != 1 {
		t.Errorf("a value is there %d times in\n%s", n, text)
	}
	if n := strings.Count(text, "swap the sides"); n != 1 {
		t.Errorf("a working is there %d times", n)
	}
}
