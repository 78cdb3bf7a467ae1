package units

import (
	"strings"
	"testing"
)

// dropped are the rows of testdata/units.csv that the catalogue leaves out,
// and why.
var dropped = map[string]string{
	"Np": "a level is not linear", "B": "a level is not linear", "dB": "a level is not linear",
	"a0": "its symbol ends in a digit; the constant a0 has it", "deg2": "its symbol ends in a digit; square degree is read as deg^2",
	"ft/s2": "its symbol ends in a digit; ft/s^2 is read", "slug/ft3": "ends in a digit; slug/ft^3 is read", "lb/ft3": "ends in a digit; lb/ft^3 is read",
	"yr365": "its symbol ends in a digit; 365 d is read", "mo30": "its symbol ends in a digit; 30 d is read",
	"rd_dose": "its name, rad, is the radian's", "point": "the word ends a unit in a report statement",
	"c": "the constant c has it", "g_n": "g is standard gravity in every worksheet",
	"Gal": "its name, gal, is the symbol of the gallon", "cal_15": "its name can't be told from the calorie's", "Btu_59": "its name can't be told from the Btu's",
	"cupM": "its name can't be told from the cup's", "qrUS": "the name quarter stands for two units", "qrUK": "the name quarter stands for two units",
	"acft": "acre foot is read as acre ft, with the international foot",
}

// asProduct are rows that are read as a product or quotient of other words.
var asProduct = map[string]string{
	"ft/min": "ft/min", "rps": "rev/s", "sqyd": "square yard", "sqmi": "square mile", "sqrd": "square rod", "cuyd": "cubic yard",
	"cumi": "cubic mile", "inlbf": "pound force inch", "ftpdl": "foot poundal", "Latm": "litre atmosphere", "ksi": "kip per square inch",
	"psf": "pound force per square foot", "Btu_h": "British thermal unit per hour", "mpg": "mile per US gallon", "gpm": "US gallon per minute",
	"cfm": "cubic foot per minute", "km/h": "kilometre per hour", "ft/s": "foot per second",
}

// calledOtherwise gives the English name of rows whose name in testdata is
// shared or has a remark in the middle.
var calledOtherwise = map[string]string{
	"galUK": "imperial gallon", "qtUK": "imperial quart", "ptUK": "imperial pint", "cupUK": "imperial cup", "giUK": "imperial gill",
	"flozUK": "imperial fluid ounce", "fldrUK": "imperial fluid dram", "pkUK": "imperial peck", "buUK": "imperial bushel",
	"galDry": "US dry gallon", "qtDry": "US dry quart", "ptDry": "US dry pint", "tbspM": "metric tablespoon", "tspM": "metric teaspoon",
	"tbspAU": "Australian tablespoon", "cal_IT": "International Table calorie", "Btu_th": "thermochemical British thermal unit",
	"hpM": "metric horsepower", "hpE": "electric horsepower", "hpS": "boiler horsepower", "tonUK": "long ton", "cwt": "short hundredweight",
	"cwtUK": "long hundredweight", "ozt": "troy ounce", "lbt": "troy pound", "thermUS": "US therm", "thermEC": "EC therm",
	"yrGreg": "Gregorian year", "yrTrop": "tropical year", "yrSid": "sidereal year", "dSid": "sidereal day", "milA": "angular mil",
	"Δ°F": "Fahrenheit degree", "Δ°C": "Celsius degree", "ftUS": "US survey foot", "miUS": "US survey mile", "rdUS": "US survey rod",
	"chUS": "US survey chain", "furUS": "US survey furlong", "ftmUS": "US survey fathom", "acUS": "US survey acre",
	"lbf": "pound force", "ozf": "ounce force", "gf": "gram force", "kgf": "kilogram force", "tonf": "ton force",
	"psi": "pound force per square inch", "ftlbf": "foot pound force", "TR": "ton of refrigeration",
}

func isPrefixRow(row map[string]string) bool { return strings.HasSuffix(row["symbol"], "-") }

// TestUnitRows reads every row of testdata/units.csv by symbol and by name and
// holds its exact size, dimension and offset against it.
func TestUnitRows(t *testing.T) {
	used := map[string]bool{}
	for _, row := range readRows(t, "units.csv") {
		symbol := row["symbol"]
		if isPrefixRow(row) {
			continue
		}
		if why, ok := dropped[symbol]; ok {
			used[symbol] = true
			if row["core"] == "yes" {
				t.Errorf("%s is a core unit, and left out because %s", symbol, why)
			}
			continue
		}
		var words []string
		if row["core"] == "yes" {
			words = append(words, symbol)
		}
		words = append(words, englishNames(row)...)
		for _, w := range words {
			u, bad := NewTable().Parse(w, AloneInPlace)
			if bad != nil {
				t.Errorf("%s: Parse(%q): %s %s", symbol, w, bad.Message, bad.Hint)
				continue
			}
			compareRow(t, u, w, row)
		}
		if asProduct[symbol] == "" {
			compareInfo(t, words[len(words)-1], row)
		}
	}
	for symbol := range dropped {
		if !used[symbol] {
			t.Errorf("%s is listed as left out but is no row", symbol)
		}
	}
}

// englishNames returns the singular and the plural of a row's name, in both
// spellings.
func englishNames(row map[string]string) []string {
	name, _, _ := strings.Cut(row["name"], " (")
	if other, ok := calledOtherwise[row["symbol"]]; ok {
		name = other
	} else if other, ok := asProduct[row["symbol"]]; ok {
		name = other
	}
	out := []string{name}
	plural := map[string]string{
		"foot": "feet", "inch": "inches", "henry": "henries", "lux": "lux", "hertz": "hertz", "siemens": "siemens",
		"gauss": "gauss", "stokes": "stokes", "percent": "percent", "molar": "molar", "horsepower": "horsepower", "tex": "tex",
		"US survey foot": "US survey feet", "thou": "thou", "square foot": "square feet", "cubic foot": "cubic feet", "square inch": "square inches",
		"cubic inch": "cubic inches", "microinch": "microinches", "metric horsepower": "metric horsepower", "boiler horsepower": "boiler horsepower",
		"electric horsepower": "electric horsepower",
	}
	switch {
	case plural[name] != "":
		out = append(out, plural[name])
	case strings.ContainsAny(name, "/"), strings.HasPrefix(name, "pound force per"), strings.HasSuffix(name, "inch"), strings.HasSuffix(name, "foot"):
	case strings.Contains(name, " force"):
		out = append(out, strings.Replace(name, " force", "s force", 1))
	case strings.Contains(name, " of "):
		first, rest, _ := strings.Cut(name, " of ")
		if p := plural[first]; p != "" {
			first = strings.TrimSuffix(p, "s")
		}
		if first != "feet" {
			first += "s"
		}
		out = append(out, first+" of "+rest)
	case strings.HasPrefix(name, "degree "):
		out = append(out, strings.Replace(name, "degree", "degrees", 1))
	case strings.Contains(name, " per "):
		out = append(out, strings.Replace(strings.Replace(name, " per ", "s per ", 1), "foots", "feet", 1))
	default:
		out = append(out, name+"s")
	}
	for _, n := range out {
		if strings.Contains(n, "metre") || strings.Contains(n, "litre") {
			out = append(out, strings.NewReplacer("metre", "meter", "litre", "liter").Replace(n))
		}
	}
	return out
}

func compareRow(t *testing.T, u *Unit, w string, row map[string]string) {
	t.Helper()
	want, power := expression(t, row["factor_exact"])
	if u.Factor().Cmp(want) != 0 || u.PiPower() != power {
		t.Errorf("%s: size %v π^%d, want %v π^%d (%s)", w, u.Factor(), u.PiPower(), want, power, row["source"])
	}
	dim := strings.NewReplacer("rad", "", "sr", "", "bit", "").Replace(row["si_unit_expression"])
	if d := mustUnit(t, strings.TrimSpace(dim)).Dim(); u.Dim() != d {
		t.Errorf("%s: dimension %v, want %v", w, u.Dim(), d)
	}
	offset := row["offset"]
	if offset == "0" {
		offset = ""
	}
	if u.Affine() != (offset != "") {
		t.Errorf("%s: Affine %t, offset %q", w, u.Affine(), offset)
	}
	if offset != "" {
		x, _ := expression(t, offset)
		if got := ratOf(u.scale.offset); got.Cmp(x) != 0 {
			t.Errorf("%s: offset %v, want %v", w, got, x)
		}
	}
}

func compareInfo(t *testing.T, w string, row map[string]string) {
	t.Helper()
	info, ok := Lookup(w)
	if !ok {
		return // a product of words
	}
	if info.Core != (row["core"] == "yes") || info.Exact == "" || info.Source == "" {
		t.Errorf("Lookup(%q) = %+v", w, info)
	}
	// A prefix on °C would be one of a difference only, which has Δ°C.
	if want := row["prefixable"] == "yes" && row["symbol"] != "°C"; info.Prefixable != want && info.Symbol == row["symbol"] {
		t.Errorf("%s takes prefixes: %t, want %t", w, info.Prefixable, want)
	}
}

// TestPrefixes reads each SI prefix before the metre, by symbol and by name,
// and each binary one, which has a name only, before the byte.
func TestPrefixes(t *testing.T) {
	si, binary := 0, 0
	for _, row := range readRows(t, "units.csv") {
		if !isPrefixRow(row) {
			continue
		}
		want, _ := expression(t, row["factor_exact"])
		texts := []string{strings.TrimSuffix(row["symbol"], "-") + "m", row["name"] + "metre", row["name"] + "meters"}
		if row["core"] == "no" {
			binary++
			texts = []string{row["name"] + "bits"}
		} else {
			si++
		}
		for _, text := range texts {
			if u := mustUnit(t, text); u.Factor().Cmp(want) != 0 {
				t.Errorf("%s has size %v, want %v", text, u.Factor(), want)
			}
		}
	}
	if si != 24 || binary != 8 {
		t.Errorf("%d SI and %d binary prefixes", si, binary)
	}
	for _, text := range []string{"kkg", "kmin", "kh", "mft", "k°C", "kd", "Mt", "mha", "kau", "k", "da", "µ", "kibimetres"} {
		if NewTable().Has(text) {
			t.Errorf("%s is read as a unit", text)
		}
	}
}

// TestWholeSymbolWins: a symbol is itself before it is a prefix and a unit.
func TestWholeSymbolWins(t *testing.T) {
	for text, want := range map[string]string{
		"min": "minute", "cd": "candela", "Pa": "pascal", "ha": "hectare", "pt": "pint", "ft": "foot", "dpt": "dioptre",
		"mol": "mole", "kat": "katal", "Gy": "gray", "Torr": "torr", "cal": "calorie", "kn": "knot", "u": "unified atomic mass unit",
		"pc": "parsec", "nmi": "nautical mile", "kg": "kilogram", "atm": "standard atmosphere", "mbar": "millibar",
	} {
		info, ok := Lookup(text)
		if !ok || info.Name != want {
			t.Errorf("%s is the %s, want the %s", text, info.Name, want)
		}
	}
}

// TestExact shows what help says of a unit's size.
func TestExact(t *testing.T) {
	for text, want := range map[string]string{
		"ft": "0.3048 m", "°": "π/180 rad", "°C": "273.15 K + 1 K each", "km": "1000 m", "N": "1 kg m/s^2", "rpm": "π/30 rad/s",
		"rev": "2 π rad", "eV": "1.602176634e-19 J", "psi": "8896443230521/1290320000 Pa", "Hz": "1 s^-1", "%": "0.01",
		"pc": "96939420213600000/π m", "mi": "1609.344 m", "Ω": "1 kg m^2/(s^3 A^2)", "μm": "1e-6 m",
	} {
		if info, _ := Lookup(text); info.Exact != want {
			t.Errorf("%s is %q, want %q", text, info.Exact, want)
		}
	}
}
