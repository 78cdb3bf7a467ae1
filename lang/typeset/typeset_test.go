package typeset

import (
	"flag"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"steelyard/lang/syntax"
	"steelyard/units"
)

var update = flag.Bool("update", false, "write the golden files anew")

// typed are expressions as they stand on a line.
var typed = []string{
	// numbers and quantities
	"257", "0.080 kg", "-5", "-5 °C", "1.6e-19 C", "1e5 m", "-3.2e5", "3.2×10^5", "9.8 m/s^2", "9.8 m·s⁻²", "12 N m",
	"30°", "30° 15′ 20.5″", "13 h 4 min 58 s", "-13 h 4 min 58 s", "5 %", "25 µm", "4.18 J/(g °C)", "3 Δ°C", "3 m^(1/2)",
	"(1/2) kg", "½ kg", "(1 + 2) kg", "2π rad/s", "π rad", "that*2", "v@12 + 2",
	// names
	"v_0 + v", "mu_k*N", "omega0*t", "Δx/Δt", "Δx^2", "Delta_theta", "K_max", "v_0^2", "v_x0^2", "x' + x''", "x'^2", "x'_0^2", "spring_force/k",
	"F_net_x", "KE_max", "mgh", "mass*height", "2*ms", "speed2", "é", "сила*ж", "π*r^2",
	// products
	"1/2*k*x^2", "½*k*x²", "2πr", "2*3", "2(3)", "2(3 m)", "3×10^n", "5 N*3 m", "6 m/2 s", "9.8 m/s^2*t", "t*9.8 m/s^2", "0.5*(3 m/s)^2",
	"1*k", "1*1*k*x", "3*1/2", "3/4*(a/(2*b))", "1/2*(a/b)", "2*(1/2)", "(1/2)*(3/4)", "1/2*((3 m)/(2 s))", "((3 m)/t)*k", "2*(k/m)", "a*-b", "a*(-b)", "(a+b)*c", "(a+b)(a-b)", "m*(g+a)", "a*(b*c)", "k*2^n", "x*√2", "2√3*x",
	"2 sin(θ) cos(θ)", "a*f(x)*b", "a*spring_energy(x)",
	// quotients
	"a/b/c", "a/(b/c)", "(a+b)/(c-d)", "v^2/2πr", "4π²m/T²", "(m/k)^2", "-a/b", "m*v^2/r",
	// sums and signs
	"a-b+c", "a-(b+c)", "a+(b-c)", "a+ -b", "2--3", "--x", "-(a+b)", "+5", "-x^2", "(-x)^2", "(-2)^2", "a - 5 °C", "((a))",
	// powers and roots
	"2^3^2", "(2^3)^2", "x^-1", "x^(1/2)", "x^(-1/2)", "x^((a+b)/(2c))", "x^(a/b*c)", "x^(a/(b*c))", "(3 m)^2", "(2e3)^2", "e^(-t/τ)",
	"√2", "√(m/k)", "(√x)^2", "√√16", "2π√(m/k)", "sqrt(2*9.8 m/s^2*5 m)", "cbrt(27 m^3)", "root(16, 4)", "root(x, n+1)",
	// calls
	"sin(x)", "sin(x)^2", "sin(x)^-1", "sin(x)^n", "ln(x)^2", "exp(-x)", "log10(x)", "asin(0.5)", "atan2(3 m, -4 m)", "abs(x)", "abs(x)^2", "abs(-3 m)",
	"3 m/s at -90°", "F along -θ", "F across 30°",
	"max(1, 2)", "f(x)", "f(x)^2", "f'(x)", "x_0(t)", "spring_energy(k = 257 N/m, x = 6 cm)", "sqrt(x = 2)", "u(T)", "hypot(3 m, 4 m)",
}

// built are trees that no line of this version makes.
var built = []struct {
	text string
	x    syntax.Expr
}{
	{"a without brackets: (a + b)^2", &syntax.Binary{Op: syntax.Pow, X: &syntax.Binary{X: name("a"), Y: name("b")}, Y: num("2")}},
	{"a name that is markup", name(`<b>&\{}$_%#^~"`)},
	{"nothing", nil},
}

func num(text string) *syntax.Number {
	d, _ := units.ParseDecimal(text)
	return &syntax.Number{Value: d}
}

func unitOf(text string) syntax.UnitText  { return syntax.UnitText{Text: text} }
func name(text string) *syntax.Name       { return &syntax.Name{Name: text} }
func mul(x, y syntax.Expr) *syntax.Binary { return &syntax.Binary{Op: syntax.Mul, X: x, Y: y} }

func mustRead(t testing.TB, text string) syntax.Expr {
	x, bad := syntax.ParseExpr(text)
	if len(bad) > 0 {
		t.Fatalf("%s: %v", text, bad)
	}
	return x
}

// names, quantities and unitTexts are what the other functions are given.
var names = []string{
	"v", "v0", "v_0", "μ_k", "ω0", "Δx", "Δ", "Δ_", "Δ0", "Δθ_max", "K_max", "x'", "x''", "x'''", "x0'", "x'0", "v_x", "v_x0", "x_ω", "spring_force", "mgh", "KE_max", "KE0", "F_net_x",
	"k_", "_", "'", "é", "ë_0", "x\u0304", "ж", "сила", "ñandú", "straße", "Å", "Ω", "A_Ω", "ϑ", "Α", "a&b", "a<b", "x_é", "",
}

var quantities = [][2]string{
	{"257", ""}, {"4.63e6", " N m"}, {"-3.2e-5", " m/s^2"}, {"30", "°"}, {"25", " °C"}, {"5", " %"}, {"5", " s^-1"},
	{"12", " J/(g °C)"}, {"1e5", ""}, {"3", " ft-lb"}, {"no value", ""}, {"", ""}, {"5", " m^"}, {"5", " ("},
}

var unitTexts = []string{
	"N m", "m/s^2", "m/s²", "kg m^2/s^3", "kg·m²·s⁻³", "kg m²/s³", "J/(g °C)", "J/(kg K)^2", "°", "°C", "Δ°C", "′", "″", "%", "µm", "μm", "Ω", "kΩ", "m^(1/2)", "m^-2", "m^−2", "ft-lb", "Å",
	"m^2^3", "°^2", "^2", "m^", "m^x", "²", "m²³^4", "(", ")", "a_b", "тонна", "m*s", "J/kg/K", "\n\n", `\end{document}`, "</mrow>", "$", "\x00\xff",
}

// sections lists every piece that the golden file has, with both forms.
func sections(t testing.TB) (all []piece) {
	both := func(head string, b Box) { all = append(all, piece{head, mathML(b), b.LaTeX()}) }
	for _, s := range typed {
		x := mustRead(t, s)
		both(s, Expr(x))
	}
	for _, b := range built {
		both("tree: "+b.text, Expr(b.x))
	}
	for _, s := range names {
		both("name: "+s, nameAlone(s))
	}
	for _, s := range quantities {
		both("quantity: "+s[0]+s[1], Value(s[0], strings.TrimLeft(s[1], " ")))
	}
	for _, s := range unitTexts {
		both("unit: "+strings.Trim(strconv.Quote(s), `"`), Unit(s))
	}
	both("T = 2π√(m/k) = 0.38 s", Relation(Relation(Expr(name("T")), "=", Expr(mustRead(t, "2π√(m/k)"))), "=", Expr(mustRead(t, "0.38 s"))))
	for _, sign := range []string{"=", "<", ">", "≤", "≥", "≠", "≈", "∝", "⇒", "→", ":=", "&", "so that"} {
		both("relation: "+sign, Relation(nameAlone("k"), sign, Value("257", "N/m")))
	}
	return all
}

type piece struct{ head, mathml, latex string }

func TestGolden(t *testing.T) {
	var b strings.Builder
	for _, p := range sections(t) {
		for _, s := range [...]string{p.head, "\n  ", p.mathml, "\n  ", p.latex, "\n"} {
			b.WriteString(strings.ReplaceAll(strings.ReplaceAll(s, "\u2062", "&#x2062;"), "\u2061", "&#x2061;"))
		}
	}
	path := filepath.Join("testdata", "set.golden")
	if *update {
		if err := os.WriteFile(path, []byte(b.String()), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	got, old := strings.Split(b.String(), "\n"), strings.Split(string(want), "\n")
	for i := range max(len(got), len(old)) {
		if i >= len(got) || i >= len(old) || got[i] != old[i] {
			t.Fatalf("line %d of %s differs:\n got %s\nwant %s", i+1, path, strings.Join(got[i:min(i+3, len(got))], "\n"), strings.Join(old[min(i, len(old)):min(i+3, len(old))], "\n"))
		}
	}
}

func TestEveryPieceIsSound(t *testing.T) {
	for _, p := range sections(t) {
		if err := soundMathML(p.mathml); err != nil {
			t.Errorf("%s: %v\n%s", p.head, err, p.mathml)
		}
		if err := soundLaTeX(p.latex); err != nil {
			t.Errorf("%s: %v\n%s", p.head, err, p.latex)
		}
	}
}

// nameAlone lays out a name without an exponent.
func nameAlone(text string) Box { return new(layout).named(name(text), Box{}) }

// TestFixedNames sets the fixed name of a function where LaTeX has a command of it
// and where it has none: a command that does not exist stops LaTeX.
func TestFixedNames(t *testing.T) {
	for name, want := range map[string]string{"arctan": `\arctan`, "arsinh": `\operatorname{arsinh}`} {
		if got := (Box{kind: operator, text: name}).LaTeX(); got != want {
			t.Errorf("%s is set as %s, want %s", name, got, want)
		}
	}
}

// TestCases sets values by intervals behind a brace.
func TestCases(t *testing.T) {
	x, _ := syntax.ParseExpr("a*t")
	when := Relation(Expr(&syntax.Name{Name: "t"}), "≤", Value("4", "s"))
	set := Cases([]Case{{Expr(x), when}, {Value("8", "m/s"), Box{}}})
	for got, want := range map[string]string{
		set.LaTeX(): `\begin{cases}\displaystyle a t & \text{for }t \le 4\,\mathrm{s} \\ \displaystyle 8\,\mathrm{m}/\mathrm{s} & \text{for }\end{cases}`,
		set.Text():  "a·t for t ≤ 4 s; 8 m/s for ",
	} {
		if got != want {
			t.Errorf("got  %s\nwant %s", got, want)
		}
	}
	if !strings.Contains(mathML(set), "<mo>{</mo><mtable") {
		t.Errorf("no brace: %s", mathML(set))
	}
}

func mathML(b Box) string { return string(b.MathML(nil)) }
