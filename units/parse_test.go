package units

import (
	"slices"
	"strings"
	"testing"
	"time"
)

// TestParse reads texts in both places: the text as it is kept, as it is
// printed, the dimension and the tag.
func TestParse(t *testing.T) {
	for _, x := range []struct {
		text, kept, screen, dim string
		tag                     Tag
	}{
		{"kg", "kg", "kg", "kg", None}, {"N m", "N m", "N·m", "kg m^2 s^-2", PerAngle}, {"N·m", "N m", "N·m", "kg m^2 s^-2", PerAngle},
		{"m/s²", "m/s^2", "m/s²", "m s^-2", None}, {"m s^-2", "m s^-2", "m·s⁻²", "m s^-2", None}, {"m·s⁻²", "m s^-2", "m·s⁻²", "m s^-2", None},
		{"J/(g °C)", "J/(g °C)", "J/(g·°C)", "m^2 s^-2 K^-1", None}, {"J/(°C g)", "J/(°C g)", "J/(°C·g)", "m^2 s^-2 K^-1", None},
		{"m^(1/2)", "m^(1/2)", "m^(1/2)", "m^(1/2)", None}, {"m^0.5", "m^(1/2)", "m^(1/2)", "m^(1/2)", None}, {"s^-1", "1/s", "1/s", "s^-1", None}, {"1/s", "1/s", "1/s", "s^-1", None}, {"1/(kg m)", "1/(kg m)", "1/(kg·m)", "kg^-1 m^-1", None},
		{"kg^-1 m^-2", "1/(kg m^2)", "1/(kg·m²)", "kg^-1 m^-2", None}, {"m^(-1/2)", "1/m^(1/2)", "1/m^(1/2)", "m^(-1/2)", None},
		{"m^+2", "m^2", "m²", "m^2", None}, {"m⁺²", "m^2", "m²", "m^2", None}, {"m^0", "1", "1", "1", None}, {"", "1", "1", "1", None}, {"1", "1", "1", "1", None},
		{"metres", "m", "m", "m", None}, {"meter", "m", "m", "m", None}, {"Kilometres", "km", "km", "m", None}, {"millinewtons", "mN", "mN", "kg m s^-2", None},
		{"litres", "L", "L", "m^3", None}, {"liter", "L", "L", "m^3", None}, {"ml", "mL", "mL", "m^3", None}, {"megabytes", "Mbyte", "Mbyte", "1", None},
		{"millibars", "mbar", "mbar", "kg m^-1 s^-2", None}, {"nautical miles", "nmi", "nmi", "m", None}, {"square metres", "m^2", "m²", "m^2", None},
		{"cubic centimetres", "cm^3", "cm³", "m^3", None}, {"teaspoons", "teaspoon", "teaspoon", "m^3", None}, {"feet", "ft", "ft", "m", None},
		{"um", "μm", "μm", "m", None}, {"µm", "μm", "μm", "m", None}, {"μm", "μm", "μm", "m", None}, {"kohm", "kΩ", "kΩ", "kg m^2 s^-3 A^-2", None},
		{"k\u2126", "kΩ", "kΩ", "kg m^2 s^-3 A^-2", None}, {"\u212b", "Å", "Å", "m", None}, {"A\u030a", "Å", "Å", "m", None},
		{"degC", "°C", "°C", "K", None}, {"degF", "°F", "°F", "K", None}, {"Δ°C", "Δ°C", "Δ°C", "K", None}, {"∆ºF", "Δ°F", "Δ°F", "K", None},
		{"deg", "°", "°", "1", Angle}, {"°/s", "°/s", "°/s", "s^-1", Angle}, {"rad/s", "rad/s", "rad/s", "s^-1", Angle}, {"rad^2", "rad^2", "rad²", "1", 2},
		{"rev/min", "rev/min", "rev/min", "s^-1", Angle}, {"rpm", "rpm", "rpm", "s^-1", Angle}, {"Hz", "Hz", "Hz", "s^-1", Cycle}, {"Hz m", "Hz m", "Hz·m", "m s^-1", Cycle},
		{"rad Hz", "rad Hz", "rad·Hz", "s^-1", None}, {"Hz^2", "Hz^2", "Hz²", "s^-2", None}, {"rad/s^2", "rad/s^2", "rad/s²", "s^-2", Angle}, {"N m/rad", "N m/rad", "N·m/rad", "kg m^2 s^-2", PerSquareAngle},
		{"sr", "sr", "sr", "1", None}, {"%", "%", "%", "1", None}, {"ppm", "ppm", "ppm", "1", None}, {"m\u00a0s\u2009kg", "m s kg", "m·s·kg", "kg m s", None},
		{"°R", "°R", "°R", "K", None}, {"m millisecond^-1", "m/ms", "m/ms", "m s^-1", None}, {"tons of TNT", "tTNT", "tTNT", "kg m^2 s^-2", None},
	} {
		for _, place := range []Place{AfterNumber, AloneInPlace} {
			u, bad := NewTable().Parse(x.text, place)
			if bad != nil {
				t.Errorf("%q: %s %s", x.text, bad.Message, bad.Hint)
				continue
			}
			if u.Text() != x.kept || u.Screen() != x.screen || u.Dim().String() != x.dim || u.Tag() != x.tag {
				t.Errorf("%q is %q, %q, %v, tag %d", x.text, u.Text(), u.Screen(), u.Dim(), u.Tag())
			}
		}
	}
}

// TestAloneOnly reads what is read only where nothing but a unit can stand.
func TestAloneOnly(t *testing.T) {
	for text, want := range map[string]string{
		"N*m": "N m", "N × m": "N m", "m / s": "m/s", "1 / s^2": "1/s^2", "metres per second": "m/s", "metres per second squared": "m/s^2",
		"metres per second per second": "m/s^2", "joules per kilogram kelvin": "J/(kg K)", "kilometres per hour": "km/h",
		"kg * m / s^2": "kg m/s^2", "pounds force per square inch": "lbf/inch^2",
	} {
		u, bad := NewTable().Parse(text, AloneInPlace)
		if bad != nil {
			t.Errorf("%q: %s %s", text, bad.Message, bad.Hint)
			continue
		}
		if u.Text() != want {
			t.Errorf("%q is %q, want %q", text, u.Text(), want)
		}
		if _, bad := NewTable().Parse(text, AfterNumber); bad == nil || len(bad.Readings) == 0 {
			t.Errorf("%q after a number: %+v", text, bad)
		}
	}
}

// TestHelpfulAnswers: what is written otherwise elsewhere is answered with
// every reading, each of which can be read.
func TestHelpfulAnswers(t *testing.T) {
	for text, want := range map[string][]string{
		"kgms^-2": {"kg m s^-2"},
		"ft-lb":   {"ft lbf"}, "lb-ft": {"lbf ft"}, "N-m": {"N m"}, "kg-m": {"kg m"}, "ft-lbs": {"ft lbf"}, "kW-h": {"kW h"},
		"ms^-1": {"m s^-1", "millisecond^-1"}, "ms^-2": {"m s^-2", "millisecond^-2"}, "ms⁻¹": {"m s^-1", "millisecond^-1"}, "kg ms^-2": {"kg m s^-2", "kg millisecond^-2"},
		"ms-1": {"m s^-1"}, "m s-2": {"m s^-2"},
		"J/kg K": {"J/(kg K)"}, "J/kg·K": {"J/(kg K)"}, "W/m^2 K": {"W/(m^2 K)"},
		"Kg": {"kg"}, "KM": {"km"}, "KG": {"kg"}, "mtr": {"m"}, "KJ": {"kJ"}, "KHz": {"kHz"},
		"mps": {"m/s"}, "y": {"yr"}, "in": {"inch"}, "gm": {"g"}, "hz": {"Hz"}, "kg m /s": {"kg m/s"},
		"metrs": {"metres", "metre", "meters"}, "kilometrs": {"kilometres", "kilometre", "kilometers"}, "newtns": {"newtons"}, "secnds": {"seconds"}, "jouls": {"joules"},
		"tsp": {"teaspoon"}, "ozt": {"troy ounce"}, "gr": {"g", "grain"}, "dB": nil, "Kph": {"km/h"}, "Nms": {"N ms"}, "J/kg/K mol": nil, "N,m": {"N m"},
		"Cm": {"cm", "C m"}, "/s": {"s^-1"}, "Mpa": {"MPa", "mPa"},
	} {
		u, bad := NewTable().Parse(text, AfterNumber)
		if bad == nil {
			t.Errorf("%q is read as %s", text, u.Text())
			continue
		}
		for _, w := range want {
			if !slices.Contains(bad.Readings, w) {
				t.Errorf("%q: %q is not among the readings %q", text, w, bad.Readings)
			}
		}
		if len(want) > 0 && bad.Readings[0] != want[0] {
			t.Errorf("%q: the first reading is %q, want %q", text, bad.Readings[0], want[0])
		}
		checkProblem(t, text, AfterNumber, bad)
	}
}

// TestLoose reads what is not written as units are and can mean but one of them.
func TestLoose(t *testing.T) {
	for text, want := range map[string]string{
		"Nm": "N m", "kNm": "kN m", "Ns": "N s", "kgm/s": "kg m/s", "kgm^2": "kg m^2", "Pas": "Pa s", "Js": "J s", "Vs": "V s", "Nmm": "N mm",
		"m/s2": "m/s^2", "m2": "m^2", "cm3": "cm^3", "kgm2": "kg m^2", "kg/m3": "kg/m^3", "N/mm2": "N/mm^2",
		"J/kg/K": "J/(kg K)", "W/m/K": "W/(m K)", "m/s/s": "m/s^2", "J/kg°C": "J/(kg °C)", "N.m": "N m", "kg.m/s": "kg m/s",
		"sec": "s", "m/sec": "m/s", "hrs": "h", "km/hr": "km/h", "kph": "km/h", "KPH": "km/h", "kmh": "km/h", "lbs": "lb", "amps": "A", "RPM": "rpm", "cm/y": "cm/yr",
	} {
		for _, place := range []Place{AfterNumber, AloneInPlace} {
			if u, bad := NewTable().Parse(text, place); bad != nil || u.Text() != want || !u.Loose() {
				t.Errorf("%q is not read as %s: %+v", text, want, bad)
			}
		}
	}
}

func checkProblem(t testing.TB, text string, place Place, bad *Problem) {
	t.Helper()
	if bad.Message == "" || bad.Hint == "" || bad.From < 0 || bad.To > len(text) || bad.From > bad.To {
		t.Errorf("%.60q: %+v", text, bad)
	}
	for _, r := range bad.Readings {
		if _, worse := NewTable().Parse(r, place); worse != nil {
			t.Errorf("%.60q: the reading %q can't be read: %s", text, r, worse.Message)
		}
	}
}

// TestProblemKinds tells unknown units, texts that are not written so, and
// what is out of range apart.
func TestProblemKinds(t *testing.T) {
	for text, want := range map[string]ProblemKind{
		"blorks": ProblemUnknown, "Kg": ProblemUnknown, "metrs": ProblemUnknown, "ms^-1": ProblemText,
		"J/kg K": ProblemText, "ft-lb": ProblemText, "'": ProblemText, "\"": ProblemText, "5": ProblemText, "m^": ProblemText, "m/": ProblemText,
		"m^100": ProblemRange, "m^1000000000": ProblemRange, "m^-1000000000": ProblemRange, "m^(1/1000000000)": ProblemRange, "m^(1/0)": ProblemRange,
		"m^99 m": ProblemRange, "Qm^99": ProblemRange, "m^0.0000001": ProblemRange, "m⁹⁹⁹": ProblemRange, "m^99999999999999999999999": ProblemRange,
	} {
		_, bad := NewTable().Parse(text, AfterNumber)
		if bad == nil || bad.Kind != want {
			t.Errorf("%q: %+v, want kind %d", text, bad, want)
			continue
		}
		checkProblem(t, text, AfterNumber, bad)
	}
	for _, text := range []string{"m^99", "m^-99", "m^(1/99)", "m^(-99/98)"} {
		if _, bad := NewTable().Parse(text, AfterNumber); bad != nil {
			t.Errorf("%q: %s", text, bad.Message)
		}
	}
}

// TestHostileTexts are answered at once.
func TestHostileTexts(t *testing.T) {
	for name, text := range map[string]string{
		"parentheses": strings.Repeat("(", 100000), "closed": "m/" + strings.Repeat("(", 100000) + "s" + strings.Repeat(")", 100000),
		"name": strings.Repeat("m", 2<<20), "words": strings.Repeat("m ", 100000), "solidi": strings.Repeat("m/", 100000), "powers": "m" + strings.Repeat("^2", 100000),
		"raised": "m" + strings.Repeat("²", 100000), "minus": "m^" + strings.Repeat("-", 100000), "nul": "m\x00s", "bytes": "m\xff\xfe", "marks": "m\u202es",
		"long names": strings.Repeat("nautical ", 100), "few": strings.Repeat("(", 500), "letters": strings.Repeat("kgms", 12), "degrees": strings.Repeat("°", 100),
		"square": strings.Repeat("square ", 100), "per": strings.Repeat("per ", 100), "squared": "m " + strings.Repeat("squared ", 90), "blank": strings.Repeat(" ", 1000) + "$",
	} {
		for _, place := range []Place{AfterNumber, AloneInPlace} {
			begun := time.Now()
			_, bad := NewTable().Parse(text, place)
			if bad == nil {
				t.Errorf("%s: read as a unit", name)
				continue
			}
			checkProblem(t, text, place, bad)
			if len(bad.Message)+len(bad.Hint) > 1000 || time.Since(begun) > 2*time.Second {
				t.Errorf("%s: %d bytes of answer after %v", name, len(bad.Message)+len(bad.Hint), time.Since(begun))
			}
		}
	}
	if _, bad := NewTable().Parse(strings.Repeat("m ", maxWords-1)+"m", AfterNumber); bad != nil {
		t.Errorf("%d words: %s", maxWords, bad.Message)
	}
	if _, bad := NewTable().Parse(strings.Repeat("m ", maxWords)+"m", AfterNumber); bad == nil {
		t.Errorf("%d words are read", maxWords+1)
	}
}
