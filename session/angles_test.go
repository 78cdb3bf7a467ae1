package session

import (
	"context"
	"strings"
	"testing"

	"steelyard/session/entry"
	"steelyard/units"
)

// The units of the products and of the quotients of quantities that speak of angles, as
// a careful teacher writes them. By the SI Brochure, 9th edition (from memory), the
// radian is the number 1 (table 4), and so it is dropped where nobody writes it: rad/s
// times m is m/s. Section 2.3.4 has the newton metre for a torque and never the joule;
// that it is a joule per radian too is said there in the 8th edition (2.2.2). The
// rest follows: W = τθ in J, P = τω in W, τ = Iα and κθ in N m, E = κθ²/2 in J.
const (
	productsOfAngles = `
*         1         rad       s         m         kg m^2    rad/s     rad/s^2   rad/m     kg m^2/s  J         N m       N m/rad   W
1         1         rad       s         m         kg m^2    rad/s     rad/s^2   rad/m     kg m^2/s  J         N m       N m/rad   W
rad       rad       1         s         m         kg m^2    1/s       1/s^2     1/m       kg m^2/s  J         J         N m       W
s         s         s         s^2       m s       kg m^2 s  rad       rad/s     s/m       kg m^2    kg m^2/s  kg m^2/s  kg m^2/s  J
m         m         m         m s       m^2       kg m^3    m/s       m/s^2     rad       kg m^3/s  J m       J m       J m       kg m^3/s^3
kg m^2    kg m^2    kg m^2    kg m^2 s  kg m^3    kg^2 m^4  kg m^2/s  N m       kg m      -         -         -         -         -
rad/s     rad/s     1/s       rad       m/s       kg m^2/s  1/s^2     1/s^3     1/(m s)   J         W         W         W         -
rad/s^2   rad/s^2   1/s^2     rad/s     m/s^2     N m       1/s^3     1/s^4     -         W         -         -         -         -
rad/m     rad/m     1/m       s/m       rad       kg m      1/(m s)   -         1/m^2     kg m/s    N         N         N         N/s
kg m^2/s  kg m^2/s  kg m^2/s  kg m^2    kg m^3/s  -         J         W         kg m/s    -         -         -         -         -
J         J         J         kg m^2/s  J m       -         W         -         N         -         -         -         -         -
N m       N m       J         kg m^2/s  J m       -         W         -         N         -         -         -         -         -
N m/rad   N m/rad   N m       kg m^2/s  J m       -         W         -         N         -         -         -         -         -
W         W         W         J         -         -         -         -         N/s       -         -         -         -         -`

	quotientsOfAngles = `
/         1         rad       s         m         kg m^2    rad/s     rad/s^2   rad/m     kg m^2/s  J         N m       N m/rad   W
1         1         1/rad     1/s       1/m       -         s         s^2       m         -         -         -         -         -
rad       rad       1         rad/s     rad/m     -         s         s^2       m         -         -         -         -         -
s         s         s         1         s/m       -         s^2       s^3       m s       -         -         -         -         -
m         m         m         m/s       1         -         m s       m s^2     m^2       -         -         -         -         -
kg m^2    kg m^2    kg m^2    kg m^2/s  kg m      1         kg m^2 s  -         kg m^3    s         s^2       s^2       s^2       s^3
rad/s     rad/s     1/s       rad/s^2   1/(m s)   -         1         s         m/s       -         -         -         -         -
rad/s^2   rad/s^2   1/s^2     1/s^3     -         -         1/s       1         m/s^2     -         -         -         -         -
rad/m     rad/m     1/m       1/(m s)   1/m^2     -         s/m       s^2/m     1         -         -         -         -         -
kg m^2/s  kg m^2/s  kg m^2/s  J         kg m/s    1/s       kg m^2    kg m^2 s  kg m^3/s  1         s         s         s         s^2
J         J         N m       W         N         1/s^2     kg m^2/s  kg m^2    J m       1/s       1         1         rad       s
N m       N m       N m/rad   W         N         rad/s^2   kg m^2/s  kg m^2    J m       1/s       1         1         rad       s
N m/rad   N m/rad   N m/rad^2 W         N         1/s^2     kg m^2/s  kg m^2    J m       1/s       1/rad     1/rad     1         s
W         W         W         -         N/s       1/s^3     N m       kg m^2/s  -         1/s^2     1/s       rad/s     1/s       1`
)

// kindsOfAngles says as what the values of a unit are told; a unit without a row has no
// claim of an angle, an energy or a torque.
var kindsOfAngles = map[string]string{
	"1": "", "rad": "angle", "1/rad": "number per angle", "rad/s": "angular velocity", "rad/s^2": "angular acceleration",
	"rad/m": "angular wavenumber", "1/s": "rate", "1/s^2": "rate per time", "J": "energy", "N m": "torque",
	"N m/rad": "torque per angle", "N m/rad^2": "", "W": "power", "m/s": "speed", "kg m^2": "moment of inertia",
	"kg m^2/s": "angular momentum", "m": "length", "s": "time",
}

// TestAngles multiplies and divides all pairs of such quantities. The value is shown in
// the same unit and told as the same kind of quantity in its line, reported in that
// unit, described, checked, and with its operands written in the line.
func TestAngles(t *testing.T) {
	for _, table := range []string{productsOfAngles, quotientsOfAngles} {
		rows := strings.Split(strings.TrimSpace(table), "\n")
		head := cells(rows[0])
		for _, row := range rows[1:] {
			row := cells(row)
			for i, want := range row[1:] {
				if want != "-" {
					angleIs(t, "6 "+row[0], head[0], "2 "+head[i+1], want)
				}
			}
		}
	}
}

// cells cuts a row into its cells of ten columns.
func cells(row string) []string {
	var out []string
	for len(row) > 0 {
		n := min(10, len(row))
		out, row = append(out, strings.TrimSpace(row[:n])), row[n:]
	}
	return out
}

// angleIs checks what is said of one product.
func angleIs(t *testing.T, a, sign, b, want string) {
	t.Helper()
	a, b = strings.TrimSuffix(a, " 1"), strings.TrimSuffix(b, " 1")
	p := enter(t, "first = "+a, "second = "+b, "got = first"+sign+"second")
	kind, named := kindsOfAngles[want]
	for _, line := range []string{"got", "(" + a + ")" + sign + "(" + b + ")", "got in " + want, "first" + sign + "second in " + want} {
		e := p.Enter(context.Background(), line)
		if want == "1" && strings.Contains(line, "in 1") {
			continue
		}
		if values := e.Values(); len(values) != 1 || values[0].Unit.Text() != want || named && values[0].Quantity != kind {
			t.Errorf("first = %s, second = %s: %s is %v, want %s in %s", a, b, line, values, kind, want)
		}
	}
	e := p.Enter(context.Background(), "check got = first"+sign+"second")
	if v, ok := e.Outcome.(*entry.Verdict); !ok || !v.Holds || v.Left.Unit.Text() != want {
		t.Errorf("first = %s, second = %s: the check is %v, want it in %s", a, b, e.Outcome, want)
	}
	described := strings.Join(told(p.Enter(context.Background(), "describe got")), "\n")
	if kind != "" && !strings.Contains(described, " "+kind) {
		t.Errorf("first = %s, second = %s: described as %s, want %s", a, b, described, kind)
	}
}

// TestAnglesInLines follows angles through longer lines, names, powers, roots, slopes
// and areas.
func TestAnglesInLines(t *testing.T) {
	scope := []string{"τ = 1.2 N m", "θ = 240 rad", "I = 0.25 kg m^2", "α = 4.8 rad/s^2", "ω = 5 rad/s", "r = 0.3 m", "F = 12 N",
		"κ = 3 N m/rad", "W1 = 75 N m", "n = 240", "P = 6 W", "h = 2 m", "m = 3 kg", "v = r*ω", "s = r*θ", "L = I*ω", "x = 0.4 rad", "U(q) = 1/2*κ*q^2"}
	for line, want := range map[string]string{
		"W = τ*θ":                 "288 J, energy",
		"W = τ*θ in J":            "288 J, energy",
		"W = τ*2π":                "7.53982 J, energy",
		"τ*2π":                    "7.53982 J, energy",
		"2*τ":                     "2.4 N m, torque",
		"2*W1":                    "150 J, energy",
		"E = 2*τ":                 "2.4 J, energy",
		"τ2 = F*r":                "3.6 N m, torque",
		"τ2 = κ*0.5":              "1.5 N m, torque",
		"κ2 = F*r/θ":              "0.015 N m/rad, torque per angle",
		"F*r":                     "3.6 N m, torque",
		"F*s":                     "864 J, energy", // a force times an arc
		"F*r + τ":                 "4.8 N m, torque",
		"√(τ^2 + (0.5 N m)^2)":    "1.3 N m, torque",
		"τ/(F*r)":                 "0.333333, ",
		"1/2*κ*x^2":               "0.24 J, energy",
		"1/2*I*ω^2":               "3.125 J, energy",
		"L^2/(2*I)":               "3.125 J, energy",
		"L/I":                     "5 rad/s, angular velocity",
		"m*r^2*α":                 "1.296 N m, torque",
		"τ/α/r^2":                 "2.77778 kg, mass",
		"m*g*(v/ω)":               "8.82599 J, energy", // the radius v/ω is a length
		"√(ω^2 + 2*α*θ)":          "48.2597 rad/s, angular velocity",
		"√(κ/I)":                  "3.4641 s^-1, rate",
		"√(κ/I)*(2 s)":            "6.9282, ",
		"v/r":                     "5 rad/s, angular velocity",
		"s/r":                     "240 rad, angle",
		"h/s":                     "0.0277778, ",
		"v/(340 m/s)":             "0.00441176, ",
		"n/(2π rad)":              "38.1972 rad^-1, number per angle",
		"θ/(2π)":                  "38.1972, ",
		"sin(x)/x":                "0.973546 rad^-1, number per angle",
		"P/ω":                     "1.2 N m, torque",
		"P/τ":                     "5 rad/s, angular velocity",
		"slope of U(q) at q = x":  "1.2 N m, torque",
		"slope of ω*t at t = 1 s": "5 rad/s, angular velocity",
		"area under κ*q against q from 0 rad to 2 rad": "6 J, energy",
		"solve (1.2 N m) = I*β for β":                  "4.8 rad/s^2, angular acceleration",
		"solve M*ω = P for M":                          "1.2 N m, torque",
	} {
		p := enter(t, scope...)
		e := p.Enter(context.Background(), line)
		got := ""
		for _, v := range e.Values() {
			got = v.Shown(units.File) + ", " + v.Quantity
		}
		if got != want {
			t.Errorf("%s is %s, want %s %v", line, got, want, e.Findings)
		}
	}
}
