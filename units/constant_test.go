package units

import (
	"math/big"
	"strings"
	"testing"
)

// untyped are the rows of testdata/constants.csv whose symbols can't be names,
// or that are units or given in a unit that is another constant's.
var untyped = map[string]string{
	"b'": "ends in a prime", "1/alpha": "holds a solidus", "m_p/m_e": "holds a solidus", "e/m_e": "holds a solidus",
	"K_J-90": "holds a hyphen", "R_K-90": "holds a hyphen", "k_eV": "k in another unit", "h_eV": "h in another unit", "hbarc": "a product of two constants",
	"Ry_eV": "Ry in another unit", "m_uc2_MeV": "an energy of m_u", "m_ec2_MeV": "an energy of m_e", "m_pc2_MeV": "an energy of m_p",
	"m_nc2_MeV": "an energy of m_n", "eV": "a unit", "pc": "a unit", "I_0": "a reference level", "p_0": "a reference level",
	"rho_Hg": "a convention of mmHg", "rho_H2O": "a convention of mmH2O", "S_sun_N": "a nominal value", "GM_earth_N": "a nominal value",
	"R_eE_N": "a nominal value", "K_cd": "its unit holds the steradian",
}

// TestConstants holds the table against testdata/constants.csv.
func TestConstants(t *testing.T) {
	seen := 0
	for _, row := range readRows(t, "constants.csv") {
		symbol := row["symbol"]
		c, ok := LookupConstant(symbol)
		if untyped[symbol] != "" {
			if ok {
				t.Errorf("%s is there although it %s", symbol, untyped[symbol])
			}
			continue
		}
		if !ok {
			t.Errorf("no constant %s", symbol)
			continue
		}
		seen++
		compareConstant(t, c, row)
	}
	if seen != len(Constants()) {
		t.Errorf("%d rows for %d constants", seen, len(Constants()))
	}
}

func compareConstant(t *testing.T, c Constant, row map[string]string) {
	t.Helper()
	u, bad := NewTable().Parse(c.Unit, AloneInPlace)
	if bad != nil {
		t.Errorf("%s has the unit %q: %s", c.Symbol, c.Unit, bad.Message)
		return
	}
	want := mustUnit(t, strings.TrimSpace(strings.Replace(row["si_unit_expression"], "sr", "", 1)))
	if u.Dim() != want.Dim() || u.Factor().Cmp(big.NewRat(1, 1)) != 0 {
		t.Errorf("%s is in %s, want %s", c.Symbol, c.Unit, row["si_unit_expression"])
	}
	if c.Exact != (row["exact"] == "yes") || c.Name != row["name"] || c.Source == "" {
		t.Errorf("%s: %+v", c.Symbol, c)
	}
	digits, more, dots := strings.Cut(row["value_2022"], "...")
	published, ok := ParseDecimal(digits + more)
	if !ok || c.Value().Text == "" {
		t.Errorf("%s: value %q, published %q", c.Symbol, c.Value().Text, row["value_2022"])
		return
	}
	off := new(big.Rat).Sub(c.Value().Rat(), published.Rat())
	last := ratPower(big.NewRat(10, 1), int(published.LastPlace))
	switch {
	case !dots && off.Sign() != 0:
		t.Errorf("%s is %s, published %s (%s)", c.Symbol, c.Value().Text, row["value_2022"], row["source"])
	case dots && off.Abs(off).Cmp(last) >= 0:
		t.Errorf("%s is %s, published %s", c.Symbol, c.Value().Text, row["value_2022"])
	}
}

// TestDerivedConstants works the exact constants out from those that define
// the SI, to twenty figures or to the end.
func TestDerivedConstants(t *testing.T) {
	value := func(s string) *big.Rat {
		c, ok := LookupConstant(s)
		if !ok {
			t.Fatalf("no constant %s", s)
		}
		return c.Value().Rat()
	}
	times := func(xs ...*big.Rat) *big.Rat {
		out := big.NewRat(1, 1)
		for _, x := range xs {
			out.Mul(out, x)
		}
		return out
	}
	over := func(a, b *big.Rat) *big.Rat { return new(big.Rat).Quo(a, b) }
	π, _ := new(big.Rat).SetString(pi60)
	two, sixty := big.NewRat(2, 1), big.NewRat(60, 1)
	h, e, k, c, n := value("h"), value("e"), value("k"), value("c"), value("N_A")
	hbar := over(h, times(two, π))
	for symbol, want := range map[string]*big.Rat{
		"hbar": hbar, "R": times(n, k), "F": times(e, n), "Phi_0": over(h, times(two, e)), "G_0": over(times(two, e, e), h),
		"K_J": over(times(two, e), h), "R_K": over(h, times(e, e)), "c_1": times(two, π, h, c, c), "c_2": over(times(h, c), k), "N_Ah": times(n, h),
		"sigma": over(times(π, π, k, k, k, k), times(sixty, hbar, hbar, hbar, c, c)),
		"V_m":   over(times(n, k, ratOf("273.15")), ratOf("101325")), "V_m100": over(times(n, k, ratOf("273.15")), ratOf("100000")),
		"n_0": over(ratOf("101325"), times(k, ratOf("273.15"))),
	} {
		got := value(symbol)
		off := over(new(big.Rat).Sub(got, want), want)
		if x, _ := off.Float64(); x > 1e-19 || x < -1e-19 {
			t.Errorf("%s is off by %v", symbol, x)
		}
	}
}

func TestConstantSpellings(t *testing.T) {
	for typed, want := range map[string]string{
		"epsilon_0": "ε0", "ε_0": "ε0", "ε0": "ε0", "ε₀": "ε0", "mu_0": "μ0", "mu0": "μ0", "μ₀": "μ0", "sigma": "σ", "alpha": "α",
		"m_e": "m_e", "ħ": "hbar", "hbar": "hbar", "R_inf": "R_inf", "a_0": "a0", "a0": "a0", "N_A": "N_A", "c": "c", "G": "G",
	} {
		if c, ok := LookupConstant(typed); !ok || c.Symbol != want {
			t.Errorf("%s finds %q, want %q", typed, c.Symbol, want)
		}
	}
	for _, typed := range []string{"", "zeta", "m", strings.Repeat("e", 1000)} {
		if c, ok := LookupConstant(typed); ok {
			t.Errorf("%q finds %s", typed, c.Symbol)
		}
	}
}
