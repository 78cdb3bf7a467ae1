package units

import (
	"slices"
	"strings"
	"testing"
)

func TestSymbol(t *testing.T) {
	for name, want := range map[string]string{
		"F": "F", "F_y": "F", "v0": "v", "v'": "v", "v′": "v", "θ2": "θ", "Δ": "Δ", "Δ_1": "Δ", "Δx": "",
		"a": "a", "a1": "a", "mass": "", "vx": "", "": "",
	} {
		if got := Symbol(name); got != want {
			t.Errorf("the symbol of %s is %q, want %q", name, got, want)
		}
	}
}

func TestCustoms(t *testing.T) {
	for _, c := range []struct{ name, usual, also, not string }{
		{"m", "kg", "m", "s"},
		{"ΔT", "s", "K", "kg"},
		{"v_0", "m/s", "m/s", "m"},
		{"k1", "N/m", "1/s", "kg"},
		{"θ", "rad", "K", "m"},
		{"temperature_in", "K", "K", "s"},
		{"Temp", "K", "K", "s"},
		{"work_done", "J", "J", "N"},
		{"Δx_1", "m", "rad", "s"},
		{"c", "m/s", "m", "s"},
		{"c_1", "m/s", "m", "s"},
		{"c2", "", "", "m"},
		{"Δ", "", "", "m"},
		{"plunger", "", "", "m"},
	} {
		if got := Usual(c.name); got != c.usual {
			t.Errorf("%s usually is in %q, want %q", c.name, got, c.usual)
		}
		dim := func(text string) Dim {
			u, bad := NewTable().Parse(text, AloneInPlace)
			if bad != nil {
				t.Fatal(text, bad)
			}
			return u.Dim()
		}
		if c.also != "" && !Customary(c.name, dim(c.also)) {
			t.Errorf("%s is not customary in %s", c.name, c.also)
		}
		if Customary(c.name, dim(c.not)) {
			t.Errorf("%s is customary in %s", c.name, c.not)
		}
	}
}

func TestNamedTag(t *testing.T) {
	const per, square = PerAngle, PerSquareAngle
	for name, want := range map[string][3]Tag{ // of an energy, a torque, a torque per angle
		"M": {per, per, per}, "M_1": {per, per, per}, "τ": {per, per, per}, "torque_2": {per, per, per},
		"T": {None, per, square}, "m": {None, per, square}, "": {None, per, square},
		"W": {}, "E1": {}, "energy": {},
		"κ": {None, square, square}, "k": {None, square, square},
	} {
		for i, t0 := range []Tag{None, per, square} {
			if got := NamedTag(name, t0); got != want[i] {
				t.Errorf("%q of tag %d has tag %d, want %d", name, t0, got, want[i])
			}
		}
	}
}

// TestCustomTable reads every unit of the table, and finds no symbol twice.
func TestCustomTable(t *testing.T) {
	var seen []string
	read := func(name string) {
		if slices.Contains(seen, name) {
			t.Errorf("%s is in the table twice", name)
		}
		seen = append(seen, name)
		var dims []string
		for _, text := range strings.Split(customs(name), ", ") {
			u, bad := NewTable().Parse(text, AloneInPlace)
			if bad != nil {
				t.Errorf("%s: %s is no unit: %s", name, text, bad.Message)
				continue
			}
			if slices.Contains(dims, u.Text()) {
				t.Errorf("%s stands for %s twice", name, u.Text())
			}
			dims = append(dims, u.Text())
		}
		if len(dims) == 0 {
			t.Errorf("%s says nothing", name)
		}
	}
	for _, c := range customTable {
		read(c.symbol)
	}
	for _, c := range customWords {
		read(c.word)
	}
}
