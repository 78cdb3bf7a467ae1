package syntax

import "testing"

// Every line of the language's tables of quantities, names and expressions, and
// how it is read. See dump for the notation.
var treeTests = []struct{ text, want string }{
	// vectors
	{"(3.0, 4.0) m/s", "(3.0, 4.0)|m/s"},
	{"(3.0,4.0) m/s", "(3.0, 4.0)|m/s"},
	{"(1,2,3) m", "(1, 2, 3)|m"},
	{"(2.0 N, -1.5 N, 0 N)", "(2.0|N, -1.5|N, 0|N)|"},
	{"(v_x, v_y)", "(v_x, v_y)|"},
	{"2*(3, 4) m", "(* 2 (3, 4)|m)"},
	{"12 m/s at 37°", "(at 12|m/s 37|° )"},
	{"2*v at -30° + u", "(+ (at (* 2 v) -30|° ) u)"},
	{"u + 2*v at θ", "(+ u (at (* 2 v) θ ))"},
	{"40 m at 30° north of east", "(at 40|m 30|° north of east)"},
	{"40 m at 0.5 rad west of south - d", "(- (at 40|m 0.5|rad west of south) d)"},
	{"25 N at 20° below +x", "(at 25|N 20|° below +x)"},
	{"(25 N at (θ + 5°) above -x)*2", "(* [(at 25|N [(+ θ 5|°)] above -x)] 2)"},
	{"F along 30°", "along<F; 30|°>"},
	{"2*F across -θ + u", "(+ across<(* 2 F); (- θ)> u)"},
	{"12 N at 20° along 30°", "along<(at 12|N 20|° ); 30|°>"},
	{"along*across", "(* along across)"},
	{"|v|", "abs<v>"},
	{"2|v|*t", "(* (· 2 abs<v>) t)"},
	{"||a| - |b||", "abs<(- abs<a> abs<b>)>"},
	{"v⃗ + F⃗_1", "(+ v F1)"},
	// quantities
	{"0.080 kg", "0.080|kg"},
	{"0.080kg", "0.080|kg"},
	{"12 N m", "12|N m"},
	{"12 N·m", "12|N·m"},
	{"12 N⋅m", "12|N·m"},
	{"9.8 m/s²", "9.8|m/s²"},
	{"0.842 ± 0.002 m", "0.842 ± 0.002|m"},
	{"0.842(2) m", "0.842 ± 0.002|m"},
	{"12.842(12) m", "12.842 ± 0.012|m"},
	{"1.5(12) m", "1.5 ± 1.2|m"},
	{"(0.842 ± 0.002) m", "0.842 ± 0.002|m"},
	{"0.842 m ± 0.002 m", "0.842 ± 0.002|m"},
	{"0.842 m ± 2 %", "0.842 ± 0.01684|m"},
	{"30 % ± 2 %", "30 ± 2|%"},
	{"0.842 +/- 0.002 m", "0.842 ± 0.002|m"},
	{"0.842 +- 0.002 m", "0.842 ± 0.002|m"},
	{"0.84±0.05 m uniform", "0.84 ± 0.05|muniform"},
	{"0.84 m ± 0.05 m triangular", "0.84 ± 0.05|mtriangular"},
	{"-5.0 ± 0.2 °C", "-5.0 ± 0.2|°C"},
	{"0.30 ± 0.02", "0.30 ± 0.02|1"},
	{"4.63e6 ± 0.12e6 J", "4.63e6 ± 0.12e6|J"},
	{"2*3.0 ± 0.1 m", "(* 2 3.0 ± 0.1|m)"},
	{"9.8 m s^-2", "9.8|m s^-2"},
	{"9.8 m·s⁻²", "9.8|m·s⁻²"},
	{"3 m^(1/2)", "3|m^(1/2)"},
	{"12\u00a0N\u202fm", "12|N m"},
	{"12  N  m", "12|N m"},
	{"25 µm", "25|μm"},
	{"1.6e-19 C", "1.6e-19|C"},
	{"1.6E-19 C", "1.6e-19|C"},
	{"1.6×10^-19 C", "1.6e-19|C"},
	{"1.6 × 10⁻¹⁹ C", "1.6e-19|C"},
	{"1.6×10^−19 C", "1.6e-19|C"},
	{"2x10^8", "2e8"},
	{"3.0 x 10^8 m/s", "3.0e8|m/s"},
	{"10^3x10^2", "(* (^ 10 3) (^ 10 2))"},
	{"1.6X10⁻¹⁹ C", "1.6e-19|C"},
	{"0.05 1/m", "0.05|1/m"},
	{"12 N.m", "12|N.m"},
	{"4 J/kg°C", "4|J/kg°C"},
	{"1 kcal/(kg*°C)", "1|kcal/(kg*°C)"},
	{"1.0s-4.0 s", "(- 1.0|s 4.0|s)"},
	{"∆x", "Δx"},
	{"sin 30°", "sin<30|°>"},
	{"a*cos θ - 2", "(- (* a cos<θ>) 2)"},
	{"2 sin θ cos θ", "(· (· 2 sin<θ>) cos<θ>)"},
	{"sin²θ", "(^ sin<θ> 2)"},
	{"sin²θ/g", "(/ (^ sin<θ> 2) g)"},
	{"3 m s-1", "3|m s^-1"},
	{"4186 J kg-1 K−1", "4186|J kg^-1 K^-1"},
	{"1.2e-5 /°C", "1.2e-5|1/°C"},
	{"ln x", "ln<x>"},
	{"10^5 m", "1e5|m"},
	{"10⁵ m", "1e5|m"},
	{"10 ^ 3 kg", "1e3|kg"},
	{"1.6 × 10 ^ -19 C", "1.6e-19|C"},
	{"10^-3 kg", "1e-3|kg"},
	{"10^5", "(^ 10 5)"},
	{"10^5*m", "(* (^ 10 5) m)"},
	{"3.2×10^5", "3.2e5"},
	{"3.2·10^5 m", "3.2e5|m"},
	{"3×10^n", "(* 3 (^ 10 n))"},
	{"2*10^8 m", "(* 2 1e8|m)"},
	{".5 m", "0.5|m"},
	{"(1/2) kg", "[(/ 1 2)]|kg"},
	{"((1/2)) kg", "[[(/ 1 2)]]|kg"},
	{"½ kg", "[(/ 1 2)]|kg"},
	{"½*m*v^2", "(* (* [(/ 1 2)] m) (^ v 2))"},
	{"x^(1/2)*m", "(* (^ x [(/ 1 2)]) m)"},
	{"13 h 4 min 58 s", "{13|h 4|min 58|s}"},
	{"-13 h 4 min 58 s", "-{13|h 4|min 58|s}"},
	{"30° 15′", "{30|° 15|′}"},
	{"30°15′20.5″", "{30|° 15|′ 20.5|″}"},
	{"5 ft 4 inch", "{5|ft 4|inch}"},
	{"8 lb 3.5 oz", "{8|lb 3.5|oz}"},
	{"30°", "30|°"},
	{"30º", "30|°"},
	{"30 deg", "30|deg"},
	{"0.52 rad", "0.52|rad"},
	{"0.25 rev", "0.25|rev"},
	{"5.00π rad", "[(· 5.00 π)]|rad"},
	{"2π rad/s", "[(· 2 π)]|rad/s"},
	{"π rad", "[π]|rad"},
	{"(π/3) rad", "[(/ π 3)]|rad"},
	{"25 °C", "25|°C"},
	{"491.67 °R", "491.67|°R"},
	{"25°C", "25|°C"},
	{"25 degC", "25|degC"},
	{"-5 °C", "-5|°C"},
	{"3 Δ°C", "3|Δ°C"},
	{"4.18 J/(g °C)", "4.18|J/(g °C)"},

	// units by position
	{"2 m", "2|m"},
	{"2*m", "(* 2 m)"},
	{"9.8 m/s^2*t", "(* 9.8|m/s^2 t)"},
	{"6 m/2 s", "(/ 6|m 2|s)"},
	{"2 m^2/3 s", "(/ 2|m^2 3|s)"},
	{"5 m / s", "(/ 5|m s)"},
	{"5 N*3 m", "(* 5|N 3|m)"},
	{"30°*r", "(* 30|° r)"},
	{"45°/s", "45|°/s"},
	{"5 %", "5|%"},
	{"5 m-x", "(- 5|m x)"},
	{"v^2/2g", "(/ (^ v 2) 2|g)"},
	{"0.5 m g h", "0.5|m g h"},
	{"2 m figures", "nil"},
	// texts that the table of units puts right
	{"2 J/kg/K", "2|J/kg/K"},
	{"2 J/kg K", "2|J/kg K"},
	{"12 Nm", "12|Nm"},
	{"12 kgm/s", "12|kgm/s"},
	{"3 ft-lb", "3|ft-lb"},
	{"9.8 m/s2", "9.8|m/s2"},
	{"3.4 ms^-1", "3.4|ms^-1"},
	{"2ax", "2|ax"},

	// signs and products
	{"-x^2", "(- (^ x 2))"},
	{"-2^2", "(- (^ 2 2))"},
	{"2^-x^2", "(^ 2 (- (^ x 2)))"},
	{"2^3^2", "(^ 2 (^ 3 2))"},
	{"2^-5", "(^ 2 -5)"},
	{"x⁻¹", "(^ x -1)"},
	{"xⁿ", "(^ x n)"},
	{"a - 5 °C", "(- a 5|°C)"},
	{"a − b – c", "(- (- a b) c)"},
	{"a*-b", "(* a (- b))"},
	{"--5 °C", "(- -5|°C)"},
	{"2--3", "(- 2 -3)"},
	{"-5", "-5"},
	{"+5", "(+ 5)"},
	{"a/b/c", "(/ (/ a b) c)"},
	{"a-b+c", "(+ (- a b) c)"},
	{"a·b×c÷d", "(/ (* (* a b) c) d)"},
	{"2π√(m/k)", "(· (· 2 π) (√ [(/ m k)]))"},
	{"2πr", "(· (· 2 π) r)"},
	{"2 pi r", "(· (· 2 π) r)"},
	{"2 sin(θ)", "(· 2 sin<θ>)"},
	{"2 sin (θ)", "(· 2 sin<θ>)"},
	{"2sin(θ)cos(θ)", "(· (· 2 sin<θ>) cos<θ>)"},
	{"(a+b)(a-b)", "(· [(+ a b)] [(- a b)])"},
	{"2πr^2", "(· (· 2 π) (^ r 2))"},
	{"ω/2π", "(/ ω (· 2 π))"},
	{"v/2πr", "(/ v (· (· 2 π) r))"},
	{"4π²m/T²", "(/ (· (· 4 (^ π 2)) m) (^ T 2))"},
	{"x²(a+b)", "(· (^ x 2) [(+ a b)])"},
	{"(1/2)π√(k/m)", "(· (· [(/ 1 2)] π) (√ [(/ k m)]))"},
	{"2(3)", "(· 2 [3])"},
	{"√2", "(√ 2)"},
	{"√√16", "(√ (√ 16))"},
	{"√2 sin(x)", "(· (√ 2) sin<x>)"},
	{"2√3", "(· 2 (√ 3))"},
	{"1/2*m*v^2", "(* (* (/ 1 2) m) (^ v 2))"},
	{"2π/(0.40 s)", "(/ (· 2 π) [0.40|s])"},
	{"3*2 kg", "(* 3 2|kg)"},

	// names
	{"omega*t", "(* ω t)"},
	{"mu_k*N", "(* μ_k N)"},
	{"v₀ + v_0 + v0", "(+ (+ v0 v0) v0)"},
	{"Delta_x/Δx", "(/ Δx Δx)"},
	{"beta", "β"},
	{"x' + x′", "(+ x' x')"},
	{"vₓ", "v_x"},
	{"min + table", "(+ min table)"},
	{"that*2", "(* that 2)"},
	{"v@12 + 2", "(+ v@12 2)"},
	{"mgh", "mgh"},
	{"e^x", "(^ e x)"},

	// calls
	{"atan2(3 m, -4 m)", "atan2<3|m; -4|m>"},
	{"max(1,2)", "max<1; 2>"},
	{"spring_energy(k = 257 N/m, x = 6 cm)", "spring_energy<k:257|N/m; x:6|cm>"},
	{"m(g+a)", "m<(+ g a)>"},
	{"round(2.6)", "round<2.6>"},
	{"f'(x)", "f'<x>"},
}

func TestExpressions(t *testing.T) {
	for _, c := range treeTests {
		x, bad := ParseExpr(c.text)
		got := dump(x)
		if len(bad) > 0 {
			got = "nil"
		}
		if got != c.want {
			t.Errorf("%s\n got %s\nwant %s %v", c.text, got, c.want, bad)
		}
	}
}

// A printed tree reads back as the same tree.
func TestPrintedExpressions(t *testing.T) {
	for _, c := range treeTests {
		x, bad := ParseExpr(c.text)
		if len(bad) > 0 {
			continue
		}
		text := PrintExpr(x)
		if y, bad := ParseExpr(text); len(bad) > 0 || dump(y) != dump(x) {
			t.Errorf("%s prints as %s, which reads %s %v", c.text, text, dump(y), bad)
		}
	}
}

func TestSpans(t *testing.T) {
	for _, c := range []struct{ text, from string }{
		{"a + 1.6×10⁻¹⁹ C*b", "1.6×10⁻¹⁹ C"},
		{"a + 12\u00a0N·m", "12\u00a0N·m"},
		{"a + (2 −µ)", "(2 −µ)"},
		{"a + v₀²", "v₀²"},
		{"a + -5 °C", "-5 °C"},
		{"a + √(x + y)", "√(x + y)"},
		{"a + f(x, y)", "f(x, y)"},
		{"a + v@12", "v@12"},
		{"a + 13 h 4 min", "13 h 4 min"},
	} {
		x, bad := ParseExpr(c.text)
		if len(bad) > 0 {
			t.Errorf("%s: %v", c.text, bad)
			continue
		}
		y := x.(*Binary).Y
		if b, ok := y.(*Binary); ok && b.Op == Mul {
			y = b.X
		}
		at := y.Span()
		if got := c.text[at.From:at.To]; got != c.from {
			t.Errorf("%s: the span covers %q, want %q", c.text, got, c.from)
		}
	}
}

func TestCanonical(t *testing.T) {
	for _, c := range []struct{ name, want string }{
		{"m", "m"}, {"v0", "v0"}, {"v_0", "v0"}, {"v₀", "v0"}, {"omega", "ω"}, {"omega0", "ω0"}, {"omega_0", "ω0"},
		{"mu_k", "μ_k"}, {"µ_k", "μ_k"}, {"Delta_x", "Δx"}, {"Δx", "Δx"}, {"Δ_x", "Δx"}, {"Delta_theta", "Δθ"},
		{"beta", "β"}, {"betas", "betas"}, {"alphabet", "alphabet"}, {"x_omega", "x_ω"}, {"x1omega", "x1ω"},
		{"v_x", "v_x"}, {"vₓ", "v_x"}, {"vₓ₀", "v_x0"}, {"x''", "x''"}, {"x″", "x''"}, {"e\u0301", "é"},
		{"F_net", "F_net"}, {"a__b", "a_b"}, {"A__0", "A0"}, {"k_", "k_"}, {"pi", "π"}, {"Ω", "Ω"},
	} {
		if got := Canonical(c.name); got != c.want {
			t.Errorf("Canonical(%q) = %q, want %q", c.name, got, c.want)
		}
		if once := Canonical(c.name); Canonical(once) != once {
			t.Errorf("Canonical(%q) = %q is not canonical", c.name, once)
		}
	}
}
