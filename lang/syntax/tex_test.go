package syntax

import "testing"

// TestFromTeX reads lines of TeX as they are written here.
func TestFromTeX(t *testing.T) {
	for in, want := range map[string]string{
		`W = \frac{1}{2} m v^2`:                                  "W = 1/2*m*v^2",
		`$E = \frac{1}{2}mv^{2} + mgh$`:                          "E = 1/2*m*v^2 + m*g*h",
		`k = \frac{2W}{x^2}`:                                     "k = (2*W)/(x^2)",
		`T = 2\pi\sqrt{\frac{L}{g}}`:                             "T = 2*π*√(L/g)",
		`v = 3.4\,\mathrm{m/s}`:                                  "v = 3.4 m/s",
		`a = 2\,\mathrm{m}\,\mathrm{s}^{-2}`:                     "a = 2 m s^-2",
		`\omega_0 = \sqrt{k/m}`:                                  "ω_0 = √(k/m)",
		`v_{\mathrm{max}} = A\omega`:                             "v_max = A*ω",
		`F_x = F\cos 30^\circ`:                                   "F_x = F*cos(30°)",
		`y = 2\cos 30^{\circ} + 1`:                               "y = 2*cos(30°) + 1",
		`x = A\cos\omega t + x_0`:                                "x = A*cos(ω*t) + x_0",
		`R = v^2\sin 2\theta/g`:                                  "R = v^2*sin(2*θ)/g",
		`x = v\cos\theta\sin\phi`:                                "x = v*cos(θ)*sin(φ)",
		`y = \sin^2\theta`:                                       "y = sin(θ)^2",
		`\theta = \sin^{-1} 0.5`:                                 "θ = asin(0.5)",
		`s = \ln 2.5\cdot b`:                                     "s = ln(2.5)*b",
		`F_x = F\cos\theta`:                                      "F_x = F*cos(θ)",
		`F_x = F\cos(\theta + 30^\circ)`:                         "F_x = F*cos(θ + 30°)",
		`\Delta x = v \cdot \Delta t`:                            "Δx = v*Δt",
		`x = \left( v_0 + v \right) t`:                           "x = (v_0 + v)*t",
		`solve W = \frac{1}{2} m v^2 for v`:                      "solve W = 1/2*m*v^2 for v",
		`p = 5 \times 10^{-3}\,\mathrm{Pa}`:                      "p = 5×10^-3 Pa",
		`x = \int v`:                                             `x = \int v`,
		`W = \frac{1}{2}\,(3\,\mathrm{kg})\,(2\,\mathrm{m/s})^2`: "W = 1/2*(3 kg)*(2 m/s)^2",
		`x(t) = v t + x_0(2)`:                                    `x(t) = v t + x_0(2)`,
		`\theta(t) = \omega t`:                                   "θ(t) = ω*t",
		"m = 3 kg":                                               "m = 3 kg",
		`r = \sqrt[3]{V}`:                                        "r = V^(1/3)",
		`r = \sqrt[3]{\frac{3V}{4\pi}}`:                          "r = ((3*V)/(4*π))^(1/3)",
		`x = \frac{1}{2`:                                         `x = \frac{1}{2`,
		`x = \sqrt{2`:                                            `x = \sqrt{2`,
		`x = \sqrt`:                                              `x = \sqrt`,
		`W &= \tfrac12 k (\Delta x)^2 \\`:                        "W = 1/2*k(Δx)^2",
		`v = \omega r \tag{1}`:                                   "v = ω*r",
		`v = \omega r \\ a = \omega v`:                           `v = \omega r \\ a = \omega v`,
		`\begin{align*} v &= \omega r \\ \end{align*}`:           "v = ω*r",
		`\begin{cases} v \end{cases}`:                            `\begin{cases} v \end{cases}`,
		`\frac{`:                                                 `\frac{`, `\`: `\`, `\mathrm`: `\mathrm`, `x_{`: "x_{",
	} {
		if got := FromTeX(in); got != want {
			t.Errorf("%s is read as %s, want %s", in, got, want)
		}
	}
}

// FuzzFromTeX reads anything, and does not grow it beyond measure.
func FuzzFromTeX(f *testing.F) {
	f.Add(`W = \frac{1}{2} m v^2`)
	f.Add(`\sqrt\sqrt{\frac`)
	f.Add(`\\^{^{_\mathrm{`)
	f.Fuzz(func(t *testing.T, in string) {
		if got := FromTeX(in); len(got) > 8*len(in)+16 {
			t.Errorf("%q is %q", in, got)
		}
	})
}

// TestTeXThatIsTyped tells of TeX as a whole, and not of its first stroke.
func TestTeXThatIsTyped(t *testing.T) {
	for in, want := range map[string]string{
		`m = \SI{1.0}{\metre}`:   `The command \SI of TeX can't be read here.`,
		`W = \frac{1}{2} m v^2`:  "This line has commands of TeX.",
		`a = \frac{1}{2`:         "This line of TeX ends in the middle: a brace is not closed, or what a command is of is missing.",
		`\begin{align}`:          "This line has nothing but commands of TeX.",
		`v &= \omega r \tag{1}`:  "This line has commands of TeX.",
		`m = 3 \ kg + \3`:        `The character \ can't be used here.`,
		`v = \omega r \\ a = 2b`: `The character \ can't be used here.`,
	} {
		_, found := Parse(in)
		if len(found) != 1 || found[0].Message != want {
			t.Errorf("%s: %v, want %s", in, found, want)
		}
	}
}
