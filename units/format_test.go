package units

import (
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

func TestFormatNumber(t *testing.T) {
	for _, x := range []struct {
		v      float64
		f      Figures
		r      Rounding
		file   string
		screen string
	}{
		{256.8888888888889, Figures{}, HalfAway, "256.889", "256.889"},
		{0.4624, Figures{}, HalfAway, "0.4624", "0.4624"},
		{4.63e6, Figures{}, HalfAway, "4.63e6", "4.63×10⁶"},
		{-1.5e-7, Figures{}, HalfAway, "-1.5e-7", "-1.5×10⁻⁷"},
		{1e23, Figures{}, HalfAway, "1e23", "1×10²³"},
		{0.001, Figures{}, HalfAway, "0.001", "0.001"},
		{0.00099999951, Figures{}, HalfAway, "0.001", "0.001"},
		{0.00099999949, Figures{}, HalfAway, "9.99999e-4", "9.99999×10⁻⁴"},
		{999999.4, Figures{}, HalfAway, "999999", "999999"},
		{999999.5, Figures{}, HalfAway, "1e6", "1×10⁶"},
		{100000, Figures{}, HalfAway, "100000", "100000"},
		{math.Copysign(0, -1), Figures{}, HalfAway, "0", "0"},
		{0, Figures{N: 3, Keep: true}, HalfAway, "0", "0"},
		{100, Figures{N: 3, Keep: true}, HalfAway, "100", "100"},
		{100, Figures{N: 2, Keep: true}, HalfAway, "1.0e2", "1.0×10²"},
		{257, Figures{N: 2}, HalfAway, "260", "260"},
		{0.08, Figures{N: 2, Keep: true}, HalfAway, "0.080", "0.080"},
		{9.995, Figures{N: 3, Keep: true}, HalfAway, "10.0", "10.0"},
		{0.1 + 0.2, Figures{}, HalfAway, "0.3", "0.3"},
		{1.005, Figures{N: 3, Keep: true}, HalfAway, "1.01", "1.01"}, // 1.00499999999999989… in binary
		{2.675, Figures{N: 3, Keep: true}, HalfAway, "2.68", "2.68"},
		{2.665, Figures{N: 3, Keep: true}, HalfEven, "2.66", "2.66"},
		{2.6650001, Figures{N: 3, Keep: true}, HalfEven, "2.67", "2.67"},
		{123456789, Figures{N: 15, Keep: true}, HalfAway, "1.23456789000000e8", "1.23456789000000×10⁸"},
		{1.0 / 3, Figures{N: 40}, HalfAway, "0.333333333333333", "0.333333333333333"},
		{math.MaxFloat64, Figures{}, HalfAway, "1.79769e308", "1.79769×10³⁰⁸"},
		{5e-324, Figures{}, HalfAway, "4.94066e-324", "4.94066×10⁻³²⁴"},
		{math.Inf(1), Figures{}, HalfAway, "infinite", "infinite"},
		{math.NaN(), Figures{}, HalfAway, "not a number", "not a number"},
	} {
		if got := FormatNumber(x.v, x.f, x.r, File); got != x.file {
			t.Errorf("%v in a file is %q, want %q", x.v, got, x.file)
		}
		if got := FormatNumber(x.v, x.f, x.r, Screen); got != x.screen {
			t.Errorf("%v on a screen is %q, want %q", x.v, got, x.screen)
		}
	}
}

// TestPublishedRounding holds rounding against testdata/rounding.csv.
func TestPublishedRounding(t *testing.T) {
	differ := 0
	for _, row := range readRows(t, "rounding.csv") {
		v, _ := strconv.ParseFloat(row["value"], 64)
		n, _ := strconv.Atoi(row["figures"])
		away, even := FormatNumber(v, Figures{N: n, Keep: true}, HalfAway, File), FormatNumber(v, Figures{N: n, Keep: true}, HalfEven, File)
		if away != row["away"] || even != row["even"] {
			t.Errorf("%s to %d figures is %s, by the other rule %s; want %s and %s (%s)", row["value"], n, away, even, row["away"], row["even"], row["source"])
		}
		if away != even {
			differ++
		}
	}
	if differ < 3 {
		t.Error("the two rules are not told apart")
	}
}

// TestFormatReadsBack: what is written in a file is a number, and the nearest
// of its figures to the value.
func TestFormatReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64().Draw(t, "value")
		n := rapid.IntRange(1, 15).Draw(t, "figures")
		keep := rapid.Bool().Draw(t, "keep")
		text := FormatNumber(v, Figures{N: n, Keep: keep}, HalfAway, File)
		d, ok := ParseDecimal(text)
		if !ok {
			if math.Abs(v) < 1e-300 || math.Abs(v) > 1e300 {
				return // rounded beyond what can be held
			}
			t.Fatalf("%v is written %q", v, text)
		}
		// Half a unit of the last figure, and half of one of the fifteenth, to
		// which a value is written first.
		if math.Abs(d.Float()-v) > 0.500001*math.Abs(v)*(math.Pow(10, float64(1-n))+1e-14)+1e-320 {
			t.Fatalf("%v to %d figures is %s", v, n, text)
		}
		if keep && v != 0 && int(d.Figures) != n {
			t.Fatalf("%v to %d figures is %s, which has %d", v, n, text, d.Figures)
		}
	})
}

func TestFormatQuantity(t *testing.T) {
	for _, x := range []struct {
		v            float64
		unit         string
		file, screen string
	}{
		{256.8888888888889, "N/m", "256.889 N/m", "256.889 N/m"},
		{4.63e6, "N m", "4.63e6 N m", "4.63×10⁶ N·m"},
		{9.8, "m/s^2", "9.8 m/s^2", "9.8 m/s²"},
		{30, "°", "30°", "30°"}, {15, "′", "15′", "15′"}, {12, "%", "12 %", "12 %"}, {25, "°C", "25 °C", "25 °C"},
		{90, "°/s", "90 °/s", "90 °/s"},
		{0.5, "1", "0.5", "0.5"}, {5, "1/s", "5 s^-1", "5 s⁻¹"}, {5, "1/ms", "5 millisecond^-1", "5 ms⁻¹"},
		{2, "1/(kg m)", "2 kg^-1 m^-1", "2 kg⁻¹·m⁻¹"}, {4, "J/(g °C)", "4 J/(g °C)", "4 J/(g·°C)"},
		{3, "m^(1/2)", "3 m^(1/2)", "3 m^(1/2)"},
	} {
		u := mustUnit(t, x.unit)
		if got := FormatQuantity(x.v, u, Figures{}, HalfAway, File); got != x.file {
			t.Errorf("%q, want %q", got, x.file)
		}
		if got := FormatQuantity(x.v, u, Figures{}, HalfAway, Screen); got != x.screen {
			t.Errorf("%q, want %q", got, x.screen)
		}
	}
}

func TestParseDecimal(t *testing.T) {
	for _, x := range []struct {
		text, canonical  string
		value            float64
		figures, lastPlc int
	}{
		{"257", "257", 257, 3, 0}, {"0.080", "0.080", 0.08, 2, -3}, {"3.2e5", "3.2e5", 3.2e5, 2, 4}, {"-5", "-5", -5, 1, 0},
		{"1e5", "1e5", 1e5, 1, 5}, {"0.0009", "0.0009", 0.0009, 1, -4}, {"15450.0", "15450.0", 15450, 6, -1}, {"87.990", "87.990", 87.99, 5, -3},
		{"30.42", "30.42", 30.42, 4, -2}, {"007", "7", 7, 1, 0}, {"1E+05", "1e5", 1e5, 1, 5}, {"0", "0", 0, 1, 0}, {"0.00", "0.00", 0, 1, -2},
		{"100.", "100.", 100, 3, 0}, {"-0120.", "-0120.", -120, 3, 0}, {"1.50e0", "1.50", 1.5, 3, -2}, {"6.62607015e-34", "6.62607015e-34", 6.62607015e-34, 9, -42},
	} {
		d, ok := ParseDecimal(x.text)
		if !ok || d.Text != x.canonical || d.Float() != x.value || int(d.Figures) != x.figures || int(d.LastPlace) != x.lastPlc {
			t.Errorf("%q is %+v, %t", x.text, d, ok)
		}
	}
	for _, bad := range []string{"", "-", ".5", "5.", "1e", "1e+", "--1", "+1", "1,5", "0x1", "1e400", "1e-400", "1e99999999999", "1_000", "Inf", "NaN", " 1", "1 ", "1.2.3", "١", "0.", "12.", "10.e3"} {
		if d, ok := ParseDecimal(bad); ok {
			t.Errorf("%q is read as %+v", bad, d)
		}
	}
	long := func(n int) string {
		b := make([]byte, n)
		for i := range b {
			b[i] = '3'
		}
		return "0." + string(b[1:])
	}
	if _, ok := ParseDecimal(long(maxDigits)); !ok {
		t.Error("400 digits are read")
	}
	if _, ok := ParseDecimal(long(maxDigits + 1)); ok {
		t.Error("401 digits are too many")
	}
}

// TestDecimalPair: the double-double holds the decimal to thirty digits.
func TestDecimalPair(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`-?[0-9]{1,25}(\.[0-9]{1,25})?(e-?[0-9]{1,3})?`).Draw(t, "number")
		d, ok := ParseDecimal(text)
		if !ok || d.Hi == 0 || math.Abs(d.Hi) < 1e-250 {
			t.Skip()
		}
		if want, _ := strconv.ParseFloat(text, 64); d.Hi != want {
			t.Fatalf("%s: %v is not the nearest, %v", text, d.Hi, want)
		}
		off := ratOfPair(pair{d.Hi, d.Lo})
		off.Sub(off, d.Rat())
		if x, _ := off.Quo(off, d.Rat()).Float64(); math.Abs(x) > 1e-30 {
			t.Fatalf("%s is off by %v", text, x)
		}
		if n := d.Neg(); n.Rat().Cmp(off.Neg(d.Rat())) != 0 || n.Hi != -d.Hi || n.Neg() != d {
			t.Fatalf("the negative of %s is %+v", text, n)
		}
	})
}
