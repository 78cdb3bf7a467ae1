package units

import (
	"math/big"
	"strings"
	"testing"
)

// TestKinds: each quantity's unit is a coherent SI unit of its dimension and
// tag, and names are not given twice to one dimension.
func TestKinds(t *testing.T) {
	names := map[string]bool{}
	for _, k := range Kinds() {
		u := mustUnit(t, k.Unit)
		if u.Dim() != k.Dim() || u.Factor().Cmp(big.NewRat(1, 1)) != 0 || u.Tag() != k.Tag {
			t.Errorf("the %s is in %s, which is %v, tag %d", k.Name, k.Unit, u.Dim(), u.Tag())
		}
		if names[k.Name] {
			t.Errorf("two kinds are called %s", k.Name)
		}
		names[k.Name] = true
		vowel := strings.ContainsRune("aeiou", rune(strings.ToLower(k.Name)[0]))
		if (k.Article == "an") != vowel || k.Article != "a" && k.Article != "an" {
			t.Errorf("%s %s", k.Article, k.Name)
		}
		for _, o := range k.Others() {
			if o == k.Name || o == "" || strings.TrimSpace(o) != o {
				t.Errorf("the %s has the other name %q", k.Name, o)
			}
		}
		if got := FindKind(k.Name); len(got) == 0 || got[0].Name != k.Name {
			t.Errorf("%s finds %v", k.Name, got)
		}
	}
	if len(names) < 80 {
		t.Errorf("only %d kinds", len(names))
	}
}

func TestKindOf(t *testing.T) {
	for text, want := range map[string]string{
		"J": "energy", "N m": "torque", "J/rad": "torque", "N m/rad": "torque per angle", "kW h": "energy", "ft lbf": "torque", "1/rad": "number per angle", "rad^2": "pure number", "m/rad": "length", "N": "force", "N/m": "force per length", "Pa": "pressure", "W": "power", "kg m/s": "momentum", "N s": "momentum",
		"m/s": "speed", "m/s^2": "acceleration", "rad/s": "angular velocity", "rev/min": "angular velocity", "Hz": "frequency", "1/s": "rate", "rad": "angle",
		"1": "pure number", "%": "pure number", "kg m^2": "moment of inertia", "kg m^2/s": "angular momentum", "kg/m^3": "density", "J/K": "heat capacity",
		"J/(kg K)": "specific heat capacity", "kg/s": "mass per time", "J/kg": "energy per mass", "1/m": "wavenumber", "rad/m": "angular wavenumber", "Pa s": "dynamic viscosity",
		"V": "electric potential difference", "Ω": "electric resistance", "T": "magnetic flux density", "V/m": "electric field strength", "K": "temperature",
	} {
		u := mustUnit(t, text)
		if k, ok := KindOf(u.Dim(), u.Tag()); !ok || k.Name != want {
			t.Errorf("%s is a %s, want %s", text, k.Name, want)
		}
	}
	for word, unit := range map[string]string{
		"torque": "N m", "Torque": "N m", "spring constant": "N/m", "stiffness": "N/m", "surface tension": "N/m", "impulse": "N s", "moment_of_inertia": "kg m^2",
		"velocity": "m/s", "work": "J", "voltage": "V", "weight": "N", "entropy": "J/K", "period": "s", "angular frequency": "rad/s", "wavelength": "m",
	} {
		if got := FindKind(word); len(got) == 0 || got[0].Unit != unit {
			t.Errorf("%s finds %v, want one in %s", word, got, unit)
		}
	}
	if got := FindKind("flavour"); len(got) > 0 {
		t.Errorf("flavour finds %v", got)
	}
}

// TestPreferred is the bullet of the language that says what a result is
// shown in.
func TestPreferred(t *testing.T) {
	for text, want := range map[string]string{
		"kg m/s^2": "N", "N/m^2": "Pa", "N m": "N m", "J/rad": "N m", "N m/°": "N m/rad", "J rad": "J", "N m rad": "J", "kg m^2/s^2": "J", "J/s": "W", "A s": "C", "J/C": "V", "C/V": "F", "V/A": "Ω", "A/V": "S", "V s": "Wb", "Wb/m^2": "T", "Wb/A": "H",
		"kHz": "Hz", "°": "rad", "rev/min": "rad/s", "1/min": "1/s", "Bq": "1/s", "lbf/ft": "N/m", "cal/(g °C)": "J/(kg K)", "mol/s": "mol/s", "lm": "cd", "lx": "cd/m^2",
		"rev": "rad", "%": "1", "kg m^2/s": "kg m^2/s", "kg^2 m": "kg^2 m", "mol^2 cd/(K m)": "mol^2 cd/(m K)", "m^(1/2)": "m^(1/2)", "kg^-1": "1/kg", "Sv": "m^2/s^2",
		"rad m": "m", "Hz m": "m/s", "km/h": "m/s", "A^3 kg^(1/2)/s^5": "kg^(1/2) A^3/s^5", "ft^3 s": "m^3 s",
	} {
		u := mustUnit(t, text)
		if got := Preferred(u.Dim(), u.Tag()); got.Text() != want || got.Dim() != u.Dim() {
			t.Errorf("%s is shown in %s, want %s", text, got.Text(), want)
		}
		c := Preferred(u.Dim(), u.Tag())
		if back := mustUnit(t, c.Text()); !back.SameAs(c) || back.Dim() != c.Dim() || c.Factor().Cmp(big.NewRat(1, 1)) != 0 {
			t.Errorf("the SI unit of %s, %s, does not read back", text, c.Text())
		}
	}
}

func TestMissing(t *testing.T) {
	for _, x := range []struct{ got, wanted, want string }{
		{"N/m", "N", `"per length" is missing`}, {"N", "J", ""}, {"J", "N", ""}, {"N", "kg", ""}, {"s", "Hz", ""},
		{"m/s^2", "m/s", `"per time" is missing`}, {"m/s", "m/s^2", `one "per time" too many`}, {"m", "m/s^2", `one "per time squared" too many`},
		{"J", "W", ""}, {"kg", "N", ""}, {"m", "s", ""}, {"m", "kg", ""}, {"m", "m", ""}, {"m^(1/2)", "m", ""},
		{"N", "N/m", `one "per length" too many`}, {"m^2", "m", ""}, {"kg/m^3", "kg", `"per volume" is missing`},
	} {
		if got := Missing(mustUnit(t, x.got).Dim(), mustUnit(t, x.wanted).Dim()); got != x.want {
			t.Errorf("%s for %s: %q, want %q", x.got, x.wanted, got, x.want)
		}
	}
}
