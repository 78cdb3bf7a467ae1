package units

import (
	"testing"

	gonum "gonum.org/v1/gonum/unit"
	"pgregory.net/rapid"
)

var gonumBases = [bases]gonum.Dimension{
	gonum.MassDim, gonum.LengthDim, gonum.TimeDim, gonum.CurrentDim, gonum.TemperatureDim, gonum.MoleDim, gonum.LuminousIntensityDim,
}

// drawDim draws a dimension of small whole exponents and the same for gonum.
func drawDim(t *rapid.T, name string) (Dim, gonum.Dimensions) {
	var d Dim
	g := gonum.Dimensions{}
	for i := range d.num {
		n := rapid.IntRange(-6, 6).Draw(t, name)
		d.num[i] = int16(n)
		if n != 0 {
			g[gonumBases[i]] = n
		}
	}
	return d, g
}

func sameDim(d Dim, g gonum.Dimensions) bool {
	for i := range d.num {
		if !d.Exp(i).IsInt() || d.Exp(i).Num() != g[gonumBases[i]] {
			return false
		}
	}
	return true
}

// TestDimAgainstReference holds products, quotients and powers of dimensions
// against those of another implementation.
func TestDimAgainstReference(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, ga := drawDim(t, "a")
		b, gb := drawDim(t, "b")
		product := a.Mul(b)
		if want := gonum.New(1, ga).Mul(gonum.New(1, gb)).Dimensions(); !sameDim(product, want) {
			t.Fatalf("%v × %v is %v, want %v", a, b, product, want)
		}
		quotient := a.Div(b)
		if want := gonum.New(1, ga).Div(gonum.New(1, gb)).Dimensions(); !sameDim(quotient, want) {
			t.Fatalf("%v / %v is %v, want %v", a, b, quotient, want)
		}
		if (a == b) != gonum.DimensionsMatch(gonum.New(1, ga), gonum.New(1, gb)) {
			t.Fatalf("%v and %v: equal is %t", a, b, a == b)
		}
		n := rapid.IntRange(1, 5).Draw(t, "n")
		power := a.Pow(whole(int8(n)))
		want := gonum.New(1, ga)
		for range n - 1 {
			want = want.Mul(gonum.New(1, ga))
		}
		if !sameDim(power, want.Dimensions()) {
			t.Fatalf("%v to the %d is %v", a, n, power)
		}
		if back := power.Pow(NewExp(1, n)); back != a {
			t.Fatalf("root %d of %v is %v, want %v", n, power, back, a)
		}
	})
}

// TestUnitsAgainstReference holds the dimensions of named SI units against
// those of another implementation.
func TestUnitsAgainstReference(t *testing.T) {
	for text, u := range map[string]gonum.Uniter{
		"N": gonum.Force(1), "Pa": gonum.Pressure(1), "J": gonum.Energy(1), "W": gonum.Power(1), "C": gonum.Charge(1), "V": gonum.Voltage(1),
		"F": gonum.Capacitance(1), "Ω": gonum.Resistance(1), "S": gonum.Conductance(1), "Wb": gonum.MagneticFlux(1), "T": gonum.MagneticFluxDensity(1),
		"H": gonum.Inductance(1), "Hz": gonum.Frequency(1), "Gy": gonum.AbsorbedRadioactiveDose(1), "m/s": gonum.Velocity(1), "m/s^2": gonum.Acceleration(1),
		"m^2": gonum.Area(1), "m^3": gonum.Volume(1), "N m": gonum.Torque(1), "Bq": gonum.Radioactivity(1), "K": gonum.Temperature(1),
		"mol": gonum.Mole(1), "cd": gonum.LuminousIntensity(1), "kg": gonum.Mass(1), "A": gonum.Current(1),
	} {
		if d := mustUnit(t, text).Dim(); !sameDim(d, u.Unit().Dimensions()) {
			t.Errorf("%s has dimension %v, want %v", text, d, u.Unit().Dimensions())
		}
	}
}

func TestExp(t *testing.T) {
	for _, c := range [][3]Exp{
		{NewExp(3, 4), NewExp(-1, 2), NewExp(1, 4)}, {NewExp(-3, 2), NewExp(-3, 4), NewExp(3, 4)},
		{{}, NewExp(-2, 3), NewExp(2, 3)}, {NewExp(1, 97), NewExp(1, 89), NewExp(1, 8633)}, {NewExp(1, 397), NewExp(1, 389), LostExp()},
	} {
		if got := c[0].Common(c[1]); got != c[2] {
			t.Errorf("%v is the greatest that %v and %v are whole multiples of, not %v", c[2], c[0], c[1], got)
		}
	}
	half := NewExp(2, -4)
	if half.Lost() || half.Num() != -1 || half.Den() != 2 || half.String() != "-1/2" || half.Float() != -0.5 || half.IsInt() {
		t.Errorf("2/-4 is %v", half)
	}
	for _, x := range []struct {
		num, den int
		ok       bool
	}{{99, 1, true}, {100, 1, false}, {1, 30000, true}, {1, 30001, false}, {-99, 99, true}, {-100, 1, false}, {1, 0, false}, {200, 100, true}, {0, 7, true}, {1e9, 1e9, true}, {1e9, 1, false}, {5001, 1000, true}, {29999, 304, true}, {29999, 303, false}, {30001, 10000, false}} {
		if e := NewExp(x.num, x.den); e.Lost() == x.ok {
			t.Errorf("NewExp(%d, %d) is in range: %t", x.num, x.den, !e.Lost())
		}
	}
	most := NewExp(99, 1)
	if !most.Add(whole(1)).Lost() {
		t.Error("99 + 1 is out of range")
	}
	if !most.Mul(whole(2)).Lost() {
		t.Error("99 × 2 is out of range")
	}
	if sum := half.Add(half.Neg()); sum != (Exp{}) || !sum.IsZero() {
		t.Error("-1/2 + 1/2 is 0")
	}
	if inv := half.Inv(); inv != whole(-2) {
		t.Error("the inverse of -1/2 is -2")
	}
	none := Exp{}.Inv()
	if !none.Lost() || none.IsZero() || none.IsInt() {
		t.Error("0 has no inverse")
	}
	for _, e := range []Exp{none.Add(half), half.Add(none), none.Mul(whole(0)), whole(2).Mul(none), none.Neg(), none.Inv(), none.Add(none)} {
		if e != none {
			t.Errorf("what is worked out with a lost exponent is %v", e)
		}
	}
}

// TestLostDim works on with a dimension that has an exponent out of range.
func TestLostDim(t *testing.T) {
	most := BaseDim(Second).Pow(whole(99))
	lost := most.Mul(BaseDim(Second))
	if most.Lost() || !lost.Lost() || lost.IsOne() {
		t.Errorf("s^99 is %v, s^100 is %v", most, lost)
	}
	if d := BaseDim(Metre).Pow(NewExp(99*300, 300)).Mul(BaseDim(Second).Pow(NewExp(1, 300))); d.Lost() {
		t.Error("m^99 s^(1/300) is in range")
	}
	if d := BaseDim(Metre).Pow(NewExp(99, 1)).Mul(BaseDim(Second).Pow(NewExp(1, 304))); !d.Lost() {
		t.Errorf("m^99 s^(1/304) is %v: 99·304 is out of range", d)
	}
	m := BaseDim(Metre)
	for _, d := range []Dim{lost.Mul(m), m.Mul(lost), lost.Div(m), m.Div(lost), lost.Div(lost), lost.Pow(Exp{}), m.Pow(Exp{}.Inv()), Dim{}.Pow(Exp{}.Inv())} {
		if d != lost {
			t.Errorf("what is worked out with it is %v", d)
		}
	}
	if k, ok := KindOf(lost, None); ok {
		t.Errorf("it is named %s", k.Name)
	}
}

func TestDimText(t *testing.T) {
	root := BaseDim(Metre).Pow(NewExp(1, 2))
	for want, d := range map[string]Dim{
		"1": {}, "kg s^-2": dim(1, 0, -2), "m^(1/2)": root, "m^(501/100)": BaseDim(Metre).Pow(NewExp(501, 100)), "m^(100/167)": BaseDim(Metre).Pow(NewExp(100, 167)), "kg m^2 s^-3 A^-1 K mol cd": dim(1, 2, -3, -1, 1, 1, 1),
	} {
		if d.String() != want {
			t.Errorf("%q, want %q", d.String(), want)
		}
	}
}

// dim makes a dimension of whole exponents, in the order kg m s A K mol cd.
func dim(exps ...int8) Dim {
	var d Dim
	for i, n := range exps {
		d.num[i] = int16(n)
	}
	return d
}
