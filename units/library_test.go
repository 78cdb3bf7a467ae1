package units

import (
	"go/constant"
	"go/importer"
	gotoken "go/token"
	"go/types"
	"math"
	"math/big"
	"strconv"
	"strings"
	"testing"
	"unicode"
)

// libraryNames maps constants of the library to the text of our unit, where
// it is not just the name with blanks.
var libraryNames = map[string]string{
	"AvoirdupoisDram": "dram", "AvoirdupoisOunce": "ounce", "AvoirdupoisPound": "pound", "TroyGrain": "grain", "UkStone": "stone", "UsStone": "stone",
	"ShortHundredweight": "short hundredweight", "CentalHundredweight": "short hundredweight", "LongHundredweight": "long hundredweight",
	"ImperialHundredweight": "long hundredweight", "MetricTableSpoon": "metric tablespoon", "MetricTeaSpoon": "metric teaspoon",
	"AustralianTableSpoon": "Australian tablespoon", "USTableSpoon": "tablespoon", "USTeaSpoon": "teaspoon", "USFluidDram": "fluid dram",
	"USFluidOunce": "fluid ounce", "USLiquidGallon": "gallon", "USLiquidQuart": "quart", "USLiquidPint": "pint", "USCup": "cup", "USGill": "gill",
	"USBushel": "bushel", "USPeck": "peck", "USDryGallon": "US dry gallon", "USDryQuart": "US dry quart", "USDryPint": "US dry pint",
	"TechAtmosphere": "technical atmosphere", "Pferdestarke": "metric horsepower", "Cable": "cable length", "FeetPerSecond": "ft/s",
	"FootPerSecondSquared": "ft/s^2", "MetersPerSecond": "m/s", "MeterPerSecondSquared": "m/s^2", "MilesPerHour": "mph", "KilometersPerHour": "km/h",
	"PoundsPerSquareInch": "psi", "SquarePerch": "square rod", "JulianYear": "Julian year", "CubicFurlong": "cubic furlong", "Zepoliter": "zeptolitre",
	"Gal": "cm/s^2", "LightYear": "light year", "NauticalMile": "nautical mile", "AstronomicalUnit": "au", "BitPerSecond": "bit/s", "BytePerSecond": "byte/s",
}

// libraryOnly are sizes of constants that no unit of ours has, from their
// definitions.
var libraryOnly = map[string]string{
	"Centiare": "1", "Kilotonne": "1e6", "Megatonne": "1e9", "Gigatonne": "1e12", "Teratonne": "1e15", "Petatonne": "1e18", "Exatonne": "1e21",
	"TWPing": "400/121", "TWFen": "117360/121", "TWJia": "1173600/121", "TWGongQing": "10000", "UsQuarter": "11.33980925", "UkQuarter": "12.70058636",
	"USLegalCup": "0.00024", "ImperialTableSpoon": "0.000015", "ImperialTeaSpoon": "0.000005", "LunarDistance": "384400000",
	"ScandinavianMile": "10000", "SpeedOfLight": "299792458", "StandardGravity": "9.80665", "ThirtyDayMonth": "2592000",
}

// libraryConstants returns every constant of the unit library.
func libraryConstants(t *testing.T) map[string]float64 {
	p, err := importer.ForCompiler(gotoken.NewFileSet(), "source", nil).Import("github.com/martinlindhe/unit")
	if err != nil {
		t.Skip("the library's source is not at hand: ", err)
	}
	out := map[string]float64{}
	for _, name := range p.Scope().Names() {
		if c, ok := p.Scope().Lookup(name).(*types.Const); ok {
			out[name], _ = constant.Float64Val(c.Val())
		}
	}
	return out
}

// spaced writes SquareKilometer as square kilometer.
func spaced(name string) string {
	var b strings.Builder
	for i, r := range name {
		if unicode.IsUpper(r) && i > 0 {
			b.WriteByte(' ')
		}
		b.WriteRune(unicode.ToLower(r))
	}
	return strings.NewReplacer("per second", "per second", "gramcalorie", "calorie").Replace(b.String())
}

// ourSize returns our exact size of what a constant of the library stands for.
func ourSize(t *testing.T, name string) (*big.Rat, bool) {
	if s, ok := libraryOnly[name]; ok {
		return ratOf(s), true
	}
	text, ok := libraryNames[name]
	if !ok {
		text = spaced(name)
	}
	u, bad := NewTable().Parse(text, AloneInPlace)
	if bad != nil {
		if rest, ok := strings.CutSuffix(text, "foot"); ok && strings.HasPrefix(rest, "cubic") {
			t.Errorf("%s: %s", name, bad.Message)
		}
		return nil, false
	}
	π, _ := new(big.Rat).SetString(pi60)
	return new(big.Rat).Mul(u.Factor(), ratPower(π, u.PiPower())), true
}

// TestLibrary compares every constant of the unit library with ours, and holds
// the list of differences, testdata/library.csv, against what it finds.
func TestLibrary(t *testing.T) {
	listed := map[string]map[string]string{}
	for _, row := range readRows(t, "library.csv") {
		listed[row["constant"]] = row
	}
	consts := libraryConstants(t)
	for name, value := range consts {
		ours, ok := ourSize(t, name)
		if !ok {
			t.Errorf("%s (%s) is no unit of ours", name, spaced(name))
			continue
		}
		near, _ := ours.Float64()
		row, known := listed[name]
		if known != (near != value) {
			t.Errorf("%s: the library has %v, ours is %v; listed as a difference: %t", name, value, near, known)
			continue
		}
		if known {
			compareListed(t, row, value, ours)
		}
	}
	for name := range listed {
		if _, ok := consts[name]; !ok {
			t.Errorf("%s is listed but is no constant of the library", name)
		}
	}
	if len(consts) < 500 {
		t.Errorf("only %d constants", len(consts))
	}
}

func compareListed(t *testing.T, row map[string]string, value float64, ours *big.Rat) {
	t.Helper()
	if v, _ := strconv.ParseFloat(row["library"], 64); v != value {
		t.Errorf("%s: the library has %v, listed is %s", row["constant"], value, row["library"])
	}
	if truth, _ := expression(t, row["ours"]); truth.Cmp(ours) != 0 {
		t.Errorf("%s: ours is %v, listed is %s", row["constant"], ours, row["ours"])
	}
	diff := new(big.Rat).SetFloat64(value)
	diff.Sub(diff, ours)
	relative, _ := diff.Quo(diff, ours).Float64()
	want, _ := strconv.ParseFloat(row["relative_difference"], 64)
	if math.Abs(relative-want) > 0.01*math.Abs(want)+1e-18 {
		t.Errorf("%s: relative difference %.3g, listed is %s", row["constant"], relative, row["relative_difference"])
	}
	class := "le1e-15"
	switch {
	case math.Abs(relative) > 1e-5:
		class = "WRONG"
	case math.Abs(relative) > 1e-15:
		class = "rounded(1e-15..1e-5)"
	}
	if class != row["class"] {
		t.Errorf("%s is %s, listed as %s", row["constant"], class, row["class"])
	}
}

// TestLibraryIsTheSource: where the library is right to 1e-15 a row takes its
// factor from it; the rows that state their own for a unit the library has are
// those where it is not.
func TestLibraryIsTheSource(t *testing.T) {
	from := 0
	for i := range catalogue {
		r := &catalogue[i]
		if (r.lib == 0) == (r.factor == "") {
			t.Errorf("%s: a row has a constant of the library or a factor of its own", r.text())
		}
		if r.lib == 0 {
			continue
		}
		from++
		exact, near := ratOf(r.factorText()), new(big.Rat).SetFloat64(r.lib)
		near.Sub(near, exact)
		if off, _ := near.Quo(near, exact).Float64(); math.Abs(off) > 1e-15 {
			t.Errorf("%s: the library is off by %v", r.text(), off)
		}
	}
	if from < 80 {
		t.Errorf("only %d rows take their factor from the library", from)
	}
	ours := map[string]bool{}
	for _, row := range readRows(t, "library.csv") {
		if row["class"] == "le1e-15" || libraryOnly[row["constant"]] != "" {
			continue
		}
		text, ok := libraryNames[row["constant"]]
		if !ok {
			text = spaced(row["constant"])
		}
		ours[text] = true
	}
	for text := range ours {
		if a, ok := find(text); ok && a.tens == 0 && a.row.lib != 0 {
			t.Errorf("%s takes its factor from the library, which is off", text)
		}
	}
}
