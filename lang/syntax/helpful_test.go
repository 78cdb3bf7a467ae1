package syntax

import (
	"slices"
	"strings"
	"testing"

	"steelyard/lang/finding"
)

// What must get a helpful answer, each in three variants: the identifier, the
// text under the caret, and every reading offered.
var helpfulTests = []struct {
	text     string
	id       finding.ID
	at       string
	readings []string
}{
	{"1/2 kg", finding.TwoReadings, "1/2 kg", []string{"(1/2) kg", "1/(2 kg)"}},
	{"f = 1/0.40 s", finding.TwoReadings, "1/0.40 s", []string{"(1/0.40) s", "1/(0.40 s)"}},
	{"2π/0.40 s", finding.TwoReadings, "2π/0.40 s", []string{"(2π/0.40) s", "2π/(0.40 s)"}},
	{"z = x + √9/2 m", finding.TwoReadings, "√9/2 m", []string{"(√9/2) m", "(√9)/(2 m)"}},
	{"z = sin(30°)/2 m", finding.TwoReadings, "sin(30°)/2 m", []string{"(sin(30°)/2) m", "sin(30°)/(2 m)"}},
	{"x = a*(3/4 m/s)", finding.TwoReadings, "3/4 m/s", []string{"(3/4) m/s", "3/(4 m/s)"}},
	{"U = 1/2 k x^2", finding.TwoReadings, "1/2 k x^2", []string{"(1/2) k x^2", "1/(2 k x^2)"}},
	{"π/3 rad", finding.TwoReadings, "π/3 rad", []string{"(π/3) rad", "π/(3 rad)"}},

	{"√x^2", finding.TwoReadings, "√x^2", []string{"(√x)^2", "√(x^2)"}},
	{"c = √v₀²", finding.TwoReadings, "√v₀²", []string{"(√v₀)²", "√(v₀²)"}},
	{"√(k/m)^3", finding.TwoReadings, "√(k/m)^3", []string{"(√(k/m))^3", "√((k/m)^3)"}},
	{"5 m ^2", finding.TwoReadings, "5 m ^2", []string{"(5 m)^2", "5 m^2"}},
	{"x = 3 s^n", finding.TwoReadings, "3 s^n", []string{"(3 s)^n"}},

	{"12 in", finding.NotWritten, "12 in", []string{"12 inch"}},
	{"w = 5 ft 4 in", finding.NotWritten, "4 in", []string{"4 inch"}},
	{"A = 3 in*2 m", finding.NotWritten, "3 in", []string{"3 inch"}},
	{"check 12 in = 1 ft", finding.NotWritten, "12 in", []string{"12 inch"}},

	{"1,280 N", finding.BadNumber, "1,280", []string{"1280", "1.280"}},
	{"m = 1,280,000 kg", finding.BadNumber, "1,280,000", []string{"1280000"}},
	{"x = 12,500.5 m", finding.BadNumber, "12,500.5", []string{"12500.5"}},
	{"0,5 m", finding.BadNumber, "0,5", []string{"0.5"}},
	{"v = 3,4 m/s", finding.BadNumber, "3,4", []string{"3.4"}},
	{"k = 2*0,125 N/m", finding.BadNumber, "0,125", []string{"0.125"}},
	{"1 280 N", finding.BadNumber, "1 280", []string{"1280"}},
	{"m = 2 000 000 kg", finding.BadNumber, "2 000 000", []string{"2000000"}},
	{"x = 12\u202f500 m", finding.BadNumber, "12\u202f500", []string{"12500"}},
	{"2 3", finding.BadNumber, "2 3", []string{"2*3"}},
	{"1 e3", finding.BadNumber, "1 e3", []string{"1*e3", "1e3"}},
	{"x = 2.5 e-3 m", finding.BadNumber, "2.5 e-3", []string{"2.5e-3"}},
	{"m = 6 E+24 kg", finding.BadNumber, "6 E+24", []string{"6e24"}},
	{"5. m", finding.BadNumber, "5.", []string{"5.0", "5"}},
	{"2½ m", finding.BadNumber, "2½", []string{"(2+1/2)"}},
	{"1.2.3", finding.BadNumber, "1.2.3", nil},

	{"tan 2θ + 1", finding.NotWritten, "tan 2θ", []string{"tan(2*θ)"}},
	{"sin 2πt", finding.NotWritten, "sin 2πt", []string{"sin(2πt)"}},
	{"y = tan²φ/2", finding.NotWritten, "tan²φ/2", []string{"tan(φ)^2/2", "tan(φ/2)^2"}},
	{"sin⁻¹(0.5)", finding.NotWritten, "sin⁻¹(0.5)", []string{"asin(0.5)", "1/sin(0.5)"}},
	{"log(x)", finding.NotWritten, "log(x)", []string{"log10(x)", "ln(x)"}},
	{"y = 2 log(a/b)", finding.NotWritten, "log(a/b)", []string{"log10(a/b)", "ln(a/b)"}},
	{"y = log(100)*3", finding.NotWritten, "log(100)", []string{"log10(100)", "ln(100)"}},
	{"|x", finding.Unreadable, "|", nil},
	{"3.0 i + 4.0 j", finding.NotWritten, "3.0 i + 4.0 j", []string{"(3.0, 4.0)"}},
	{"F = (2 N i - 3 N k)", finding.NotWritten, "2 N i - 3 N k", []string{"(2, 0, -3) N"}},
	{"v = (3.0 i - 4.0 j) m/s", finding.NotWritten, "(3.0 i - 4.0 j)", []string{"(3.0, -4.0)"}},
	{"(3,5) m", finding.BadNumber, "(3,5)", []string{"(3, 5)", "(3.5)"}},
	{"(3,5, 2,5) m", finding.BadNumber, "(3,5, 2,5)", []string{"(3.5, 2.5)"}},
	{"(1, 2, 3, 4) m", finding.NotWritten, "(1, 2, 3, 4)", nil},
	{"12 m/s at 30° north of up", finding.Unreadable, "up", nil},
	{"5'", finding.NotWritten, "5'", []string{"5 ft", "5′"}},
	{"h = 6’", finding.NotWritten, "6’", []string{"6 ft", "6′"}},
	{"w = 11\"", finding.NotWritten, "11\"", []string{"11 inch", "11″"}},
	{"3 % of m", finding.NotWritten, "3 % of m", []string{"3 %*m"}},
	{"E = 45 % of (U + K)", finding.NotWritten, "45 % of (U + K)", []string{"45 %*(U + K)"}},
	{"0.5 % of 3 kg", finding.NotWritten, "0.5 % of 3 kg", []string{"0.5 %*3 kg"}},
	{"3 m per s", finding.NotWritten, "3 m per s", []string{"3 m/s"}},

	{"x² m", finding.NamesTogether, "x² m", []string{"x²*m", "x² in m"}},
	{"1/2*x^2 kg", finding.NamesTogether, "x^2 kg", []string{"x^2*kg", "x^2 in kg"}},
	{"A = r³ cm", finding.NamesTogether, "r³ cm", []string{"r³*cm", "r³ in cm"}},
	{"m g", finding.NamesTogether, "m g", []string{"m*g", "m in g"}},
	{"W = F s", finding.NamesTogether, "F s", []string{"F*s", "F in s"}},
	{"m (g+a)", finding.NamesTogether, "m (g+a)", []string{"m*(g+a)", "m(g+a)"}},
	{"2 m(g+a)", finding.NamesTogether, "2 m(g+a)", []string{"2*m(g+a)", "2*m*(g+a)"}},
	{"(a+b) c", finding.NamesTogether, "(a+b) c", []string{"(a+b)*c"}},
	{"5 N (3 m)", finding.NamesTogether, "5 N (3 m)", []string{"5 N*(3 m)"}},
	{"F = G m1 m2/r^2", finding.NamesTogether, "G m1 m2", []string{"G*m1*m2"}},
	{"U = m g h", finding.NamesTogether, "m g h", []string{"m*g*h", "m in g h"}},
	{"W is negative", finding.NotWritten, "W is negative", []string{"check W is negative"}},
	{"results to three figures", finding.Unreadable, "three figures", nil},
	{"constants G c", finding.NotWritten, "constants G c", []string{"constants G, c"}},
	{"2 that", finding.NamesTogether, "2 that", []string{"2*that"}},

	{"a**b", finding.NotWritten, "**", []string{"^"}},
	{"a == b", finding.NotWritten, "==", []string{"="}},
	{"x := 3 m", finding.NotWritten, ":=", []string{"="}},
	{"check a != b", finding.NotWritten, "!=", nil},
	{"check a =< b", finding.NotWritten, "=<", []string{"<="}},
	{"5!", finding.NotWritten, "!", nil},

	{"(a + b", finding.Incomplete, "(", nil},
	{"f(a, (b)", finding.Incomplete, "(", nil},
	{"a + b)", finding.Unreadable, ")", nil},
	{"2*()", finding.Unreadable, "()", nil},
	{"f()", finding.WrongCall, "()", nil},
	{"a +", finding.Incomplete, "", nil},
	{"x =", finding.Incomplete, "", nil},
	{"f(t) =", finding.Incomplete, "", nil},
	{"* 3", finding.Unreadable, "*", nil},
	{"a */ b", finding.Unreadable, "/", nil},
	{"a = b = c", finding.Unreadable, "=", nil},
	{"m*a = F", finding.Unreadable, "m*a = F", nil},
	{"a < b", finding.Unreadable, "<", nil},
	{"x = 3 m # ball", finding.NotWritten, "x = 3 m # ball", []string{"x = 3 m, ball"}},
	{"3 m + 4 m # b", finding.NotWritten, "3 m + 4 m # b", []string{"3 m + 4 m"}},
	{"m = 36 g, M = 2 kg", finding.NotWritten, "m = 36 g, M = 2 kg", []string{"m = 36 g\nM = 2 kg"}},
	{"let k in N/m, b in kg/s", finding.NotWritten, "let k in N/m, b in kg/s", []string{"let k in N/m\nlet b in kg/s"}},
	{"p = 3, kPa", finding.NotWritten, "p = 3, kPa", []string{"p = 3 kPa"}},
	{"p = 3 Pa, in kPa", finding.NotWritten, ",", []string{""}},
	{"a = F/m, in m/s^2", finding.NotWritten, ",", []string{""}},
	{"m = 36 g,mass of the frog", finding.NotWritten, ",", []string{", "}},
	{"v = 3, m/s", finding.NotWritten, "v = 3, m/s", []string{"v = 3 m/s"}},
	{"m = 36 g, M", finding.Unreadable, ",", nil},
	{"1/2*m*v^2 in J, energy of the ball", finding.NotWritten, ", energy of the ball", []string{""}},
	{"[1, 2", finding.Incomplete, "[", nil},
	{"5 m 3 cm", finding.Unreadable, "5 m 3 cm", []string{"5.03 m", "5 m + 3 cm"}},
	{"4 min 2 h", finding.Unreadable, "4 min 2 h", []string{"4 min + 2 h"}},
	{"1.5 h 4 min", finding.Unreadable, "1.5 h 4 min", []string{"1.5 h + 4 min"}},
	{"x in", finding.Unreadable, "in", nil},
	{"a + x²^3", finding.Unreadable, "^", nil},

	{"in = 3", finding.NameKind, "in", nil},
	{"pi = 3", finding.NameKind, "pi", nil},
	{"that = 3 m", finding.NameKind, "that", nil},
	{"for = 3 m", finding.NameKind, "for", nil},
	{"pi_2 = 3", finding.NameKind, "pi_2", nil},
	{"sin(x) = 3*x", finding.NameKind, "sin", nil},
	{"f(x, x) = 3*x", finding.NameKind, "x", nil},
	{"f(2) = 3*x", finding.NameKind, "2", nil},
	{"let in in m", finding.NameKind, "in", nil},

	{"= 3 J", finding.StrayRecord, "= 3 J", nil},
	{"m = 3 kg\n  = 3 kg", finding.StrayRecord, "= 3 kg", nil},
	{"m = 3 kg\n  x = 2", finding.Unreadable, "x = 2", nil},
	{"results to 0 figures", finding.BadNumber, "0", nil},
	{"m = \xff", finding.BadText, "\xff", nil},
	{"m = \x00", finding.BadText, "\x00", nil},
	{"m = 3\u202e kg", finding.BadText, "\u202e", nil},
	{"m\u200b = 3 kg", finding.BadText, "\u200b", nil},
	{"3e400 m", finding.OutOfRange, "3e400", nil},
	{"3e-400 m", finding.OutOfRange, "3e-400", nil},
}

// What a newcomer types, and what must be offered for it.
var newcomerTests = []struct {
	text     string
	id       finding.ID
	at       string
	readings []string
}{
	{"E = v^2 J", finding.NamesTogether, "v^2 J", []string{"v^2*J", "v^2 in J"}},
	{"E = (3*v) J", finding.NamesTogether, "(3*v) J", []string{"(3*v)*J", "(3*v) in J"}},
	{"v = h/t m/s", finding.NamesTogether, "t m/s", []string{"t*m/s", "t in m/s"}},
	{"L = m*v*r kg m^2/s", finding.NamesTogether, "r kg m^2/s", []string{"r*kg*m^2/s", "r in kg m^2/s"}},
	{"1/2m", finding.TwoReadings, "1/2m", []string{"(1/2) m", "1/(2m)"}},
	{"3 1/2 m", finding.BadNumber, "3 1/2", []string{"3.5"}},
	{"x = 2 3/4 kg", finding.BadNumber, "2 3/4", []string{"2.75"}},
	{"1 1/3 h", finding.BadNumber, "1 1/3", []string{"(1+1/3)"}},
	{"3 m 20 cm", finding.Unreadable, "3 m 20 cm", []string{"3.2 m", "3 m + 20 cm"}},
	{"3 N 2 m", finding.Unreadable, "3 N 2 m", []string{"3 N*2 m"}},
	{"3 x 4 m", finding.BadNumber, "3 x 4 m", []string{"3*4 m", "3*x*4 m"}},
	{"A = 3 m x 4 m", finding.BadNumber, "3 m x 4 m", []string{"3 m*4 m", "3 m*x*4 m"}},
	{"2 x 3", finding.BadNumber, "2 x 3", []string{"2*3", "2*x*3"}},
	{"20 °c", finding.UnitText, "20 °c", []string{"20 °C"}},
	{"T = 20° C", finding.UnitText, "20° C", []string{"20 °C"}},
	{"T in ° F", finding.UnitText, "° F", []string{"°F"}},
	{"300 °K", finding.UnitText, "300 °K", []string{"300 K"}},
	{"2.10^8 m/s", finding.BadNumber, "2.10^8", []string{"2×10^8", "2e8"}},
	{"q = 6.10^-19 C", finding.BadNumber, "6.10^-19", []string{"6×10^-19", "6e-19"}},
	{"2e 8", finding.BadNumber, "2e 8", []string{"2e8"}},
	{"x = 1.5E -3 m", finding.BadNumber, "1.5E -3", []string{"1.5e-3"}},
	{"1'000 m", finding.BadNumber, "1'000", []string{"1000"}},
	{"x = 2’500’000.5 m", finding.BadNumber, "2’500’000.5", []string{"2500000.5"}},
	{"k = 3 m-1", finding.UnitText, "m-1", []string{"m^-1"}},
	{"a = 3 m s-2*x", finding.UnitText, "m s-2", []string{"m s^-2"}},
	{"3 ms-1", finding.UnitText, "ms-1", []string{"m s^-1", "millisecond^-1"}},
}

func TestHelpful(t *testing.T) {
	for _, c := range slices.Concat(helpfulTests, newcomerTests) {
		s, bad := Parse(c.text)
		if s != nil || len(bad) != 1 {
			t.Errorf("%s: read as %s %v", c.text, dumpStmt(s), bad)
			continue
		}
		f := bad[0]
		if f.ID != c.id || c.text[f.At.From:f.At.To] != c.at || !slices.Equal(f.Readings, c.readings) {
			t.Errorf("%s: %s under %q with %q: %s\nwant %s under %q with %q", c.text, f.ID, c.text[f.At.From:f.At.To], f.Readings, f.Message, c.id, c.at, c.readings)
		}
		if f.Message == "" || strings.Contains(f.Message, "token") || f.Hint == "" && c.id != finding.NotWritten {
			t.Errorf("%s: %q %q", c.text, f.Message, f.Hint)
		}
	}
}

// A reading can be entered as it is, in the place of what it stands for.
func TestReadingsCanBeEntered(t *testing.T) {
	for _, c := range slices.Concat(helpfulTests, newcomerTests) {
		_, bad := Parse(c.text)
		for _, f := range bad {
			for _, reading := range f.Readings {
				text := c.text[:f.At.From] + reading + c.text[f.At.To:]
				if s, bad := Parse(text); s == nil && bad[0].At.From <= f.At.From && !strings.Contains(reading, "=") {
					t.Errorf("%s: the reading %q gives %v", c.text, text, bad)
				}
			}
		}
	}
}
