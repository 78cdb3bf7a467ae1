package units

import (
	"fmt"
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// pi60 is π to sixty digits.
const pi60 = "3.14159265358979323846264338327950288419716939937510582097494"

// exactConversion is the conversion in rational arithmetic.
func exactConversion(d Decimal, from, to *Unit) *big.Rat {
	π, _ := new(big.Rat).SetString(pi60)
	r := d.Rat()
	r.Mul(r, from.Factor())
	r.Mul(r, ratPower(π, from.PiPower()))
	if from.Affine() {
		r.Add(r, ratOf(from.scale.offset))
	}
	if to.Affine() {
		r.Sub(r, ratOf(to.scale.offset))
	}
	r.Quo(r, to.Factor())
	return r.Quo(r, ratPower(π, to.PiPower()))
}

// ulps is how far a float64 is from an exact number, in units of the last
// place of the float64 nearest to it.
func ulps(got float64, want *big.Rat) float64 {
	near, _ := want.Float64()
	if near == 0 {
		if got == 0 {
			return 0
		}
		return math.Inf(1)
	}
	if !finite(got) {
		return math.Inf(1)
	}
	ulp := math.Nextafter(math.Abs(near), math.Inf(1)) - math.Abs(near)
	diff := new(big.Rat).SetFloat64(got)
	diff.Sub(diff, want)
	off, _ := diff.Quo(diff, new(big.Rat).SetFloat64(ulp)).Float64()
	return math.Abs(off)
}

// unitTexts are the catalogue and what compounds and prefixes add to it.
func unitTexts() []string {
	out := []string{
		"km", "nm", "mg", "ms", "μs", "kN", "MPa", "GW", "keV", "mL", "qm", "Qm", "km/h", "m/s", "mi/h", "ft/s", "ft/min", "rev/min", "rad/s", "°/s",
		"N m", "ft lbf", "lbf inch", "kW h", "N/cm^2", "lbf/ft^2", "kg/m^3", "g/cm^3", "lb/ft^3", "slug/ft^3", "J/(kg K)", "cal/(g °C)", "Btu/(lb °F)",
		"N/m", "lbf/inch", "m^2", "cm^2", "m^3", "gal/min", "L/s", "m/s^2", "ft/s^2", "1/s", "1/min", "Hz", "kHz", "m^(1/2)", "cm^(1/2)", "1/cm", "rad^2",
	}
	for i := range catalogue {
		out = append(out, catalogue[i].text())
	}
	return out
}

// families groups the units that convert into each other.
func families(t testing.TB) map[Dim][]*Unit {
	out := map[Dim][]*Unit{}
	for _, text := range unitTexts() {
		u := mustUnit(t, text)
		out[u.Dim()] = append(out[u.Dim()], u)
	}
	return out
}

// TestConvertAllPairs converts written numbers between every two units of one
// dimension, to one unit in the last place of exact arithmetic.
func TestConvertAllPairs(t *testing.T) {
	numbers := []string{"1", "0.1", "36.6", "-40", "257", "3.2e5", "6.02214076e23", "1.602176634e-19", "299792458", "0.333333333333333333333333", "98765432109876543210.123456789", "0"}
	var decimals []Decimal
	for _, n := range numbers {
		decimals = append(decimals, mustDecimal(t, n))
	}
	pairs := 0
	for _, family := range families(t) {
		for _, from := range family {
			for _, to := range family {
				pairs++
				for i, d := range decimals {
					if pairs%4 != i%4 && i > 2 {
						continue
					}
					want := exactConversion(d, from, to)
					if off := ulps(from.Convert(d, to), want); off > 1 {
						t.Errorf("%s %s in %s is %v, off by %.1f ulp", d.Text, from.Text(), to.Text(), from.Convert(d, to), off)
					}
				}
			}
		}
	}
	if pairs < 4000 {
		t.Errorf("only %d pairs", pairs)
	}
}

// TestConvertProperty draws the number too.
func TestConvertProperty(t *testing.T) {
	var groups [][]*Unit
	for _, family := range families(t) {
		if len(family) > 1 {
			groups = append(groups, family)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`-?[0-9]{1,12}(\.[0-9]{1,20})?(e-?[0-9]{1,2})?`).Draw(t, "number")
		d, ok := ParseDecimal(text)
		if !ok {
			t.Skip()
		}
		family := groups[rapid.IntRange(0, len(groups)-1).Draw(t, "dimension")]
		from := family[rapid.IntRange(0, len(family)-1).Draw(t, "from")]
		to := family[rapid.IntRange(0, len(family)-1).Draw(t, "to")]
		if off := ulps(from.Convert(d, to), exactConversion(d, from, to)); off > 1 {
			t.Fatalf("%s %s in %s is off by %v ulp", text, from.Text(), to.Text(), off)
		}
		si := BaseUnits(from.Dim())
		if off := ulps(from.ToSI(d), exactConversion(d, from, si)); off > 1 {
			t.Fatalf("%s %s in SI units is off by %v ulp", text, from.Text(), off)
		}
	})
}

// TestTemperatures: a temperature is converted from the decimal as written.
func TestTemperatures(t *testing.T) {
	c, f, k, r := mustUnit(t, "°C"), mustUnit(t, "°F"), mustUnit(t, "K"), mustUnit(t, "°R")
	for _, x := range []struct {
		number   string
		from, to *Unit
		want     float64
	}{
		{"0", c, f, 32}, {"100", c, f, 212}, {"-40", c, f, -40}, {"37", c, f, 98.6}, {"32", f, c, 0}, {"212", f, c, 100}, {"98.6", f, c, 37},
		{"-459.67", f, k, 0}, {"-273.15", c, k, 0}, {"0", k, c, -273.15}, {"0", c, k, 273.15}, {"25", c, k, 298.15}, {"491.67", r, c, 0},
		{"0", k, f, -459.67}, {"20", c, c, 20}, {"-459.67", f, r, 0}, {"0.1", c, k, 273.25},
	} {
		if got := x.from.Convert(mustDecimal(t, x.number), x.to); got != x.want {
			t.Errorf("%s %s is %v %s, want %v", x.number, x.from.Text(), got, x.to.Text(), x.want)
		}
	}
}

// TestTemperatureComesBack: a temperature that went through kelvins shows as
// it was written, and to the same number of kelvins again.
func TestTemperatureComesBack(t *testing.T) {
	for _, text := range []string{"°C", "°F"} {
		u := mustUnit(t, text)
		for i := -400; i < 1500; i++ {
			d := mustDecimal(t, fmt.Sprintf("%.1f", float64(i)/4))
			if got := u.FromSI(u.ToSI(d)); got != d.Float() {
				t.Errorf("%s %s comes back as %v", d.Text, text, got)
			}
		}
		if got := u.FromSIDifference(9); text == "°F" && got != 16.2 || text == "°C" && got != 9 {
			t.Errorf("a difference of 9 K is %v %s", got, text)
		}
	}
	if !mustUnit(t, "°C").Affine() || mustUnit(t, "J/(g °C)").Affine() || mustUnit(t, "Δ°C").Affine() || mustUnit(t, "°C^2").Affine() {
		t.Error("only a scale standing alone has a zero of its own")
	}
	if !mustUnit(t, "Δ°F").Difference() || mustUnit(t, "K").Difference() {
		t.Error("Δ°F is a difference, K need not be")
	}
}

// TestPublishedConversions holds conversions against testdata/conversions.csv.
func TestPublishedConversions(t *testing.T) {
	renamed := map[string]string{"gr": "grain", "ozt": "troy ounce", "tsp": "teaspoon", "ft/s2": "ft/s^2", "rd_dose": "", "ph": "phot", "fc": "footcandle", "mpg": "mi/gal", "U_enz": "", "cSt": "cSt"}
	done := 0
	for _, row := range readRows(t, "conversions.csv") {
		from, to := row["from"], row["to"]
		if n, ok := renamed[from]; ok {
			from = n
		}
		if n, ok := renamed[to]; ok {
			to = n
		}
		if from == "" || to == "" {
			continue // 1 rd, 1 U: no unit of ours
		}
		want, power := expression(t, row["expected"])
		π, _ := new(big.Rat).SetString(pi60)
		want.Mul(want, ratPower(π, power))
		got := mustUnit(t, from).Convert(mustDecimal(t, row["number"]), mustUnit(t, to))
		if off := ulps(got, want); off > 1 {
			t.Errorf("%s %s is %v %s, want %s (%s)", row["number"], from, got, to, row["expected"], row["source"])
		}
		done++
	}
	if done < 50 {
		t.Errorf("only %d rows", done)
	}
}
