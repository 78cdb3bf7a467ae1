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
		`\frac{`:                                                 "()/()", `\`: `\`, `\mathrm`: `\mathrm`, `x_{`: "x_{",
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
