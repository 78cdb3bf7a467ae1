package units

import (
	"testing"
)

// FuzzUnitText: no text brings the reader down; what is read prints as a text
// that reads back as the same unit, and what is refused says why.
func FuzzUnitText(f *testing.F) {
	for _, s := range []string{
		"N m", "m/s^2", "J/(g °C)", "kg^-1 m^-2", "ms^-1", "1/ms", "J/kg/K", "m^(1/2)", "square metres per second squared", "Δ°C", "(kg m)/s^-1", "% °", "° m", "1/s^-1",
		"nautical miles", "ft-lb", "m2", "'", "\"", "m^1000000000", "((((", "μm·µm", "m s-1", "N.m", "imperial pints^-2", "kgm/s", "m\x00", "\xff", "1", "", "per", "kibibytes/s",
		"metre per second per second", "rad^-1 Hz", "°/s", "cm^(1/2)", "Qm^9", "millisecond^-3 m", "ms^-2 kg", "1/(ms s)", "ppm %",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, place := range []Place{AfterNumber, AloneInPlace} {
			u, bad := NewTable().Parse(text, place)
			if (u == nil) == (bad == nil) {
				t.Fatalf("%q: %v, %v", text, u, bad)
			}
			if bad != nil {
				checkProblem(t, text, place, bad)
				continue
			}
			sameUnit(t, u, u.Text(), AloneInPlace)
			sameUnit(t, u, u.Screen(), AloneInPlace)
			if u.Behind(File) != "" {
				sameUnit(t, u, u.Behind(File), AfterNumber)
			}
		}
	})
}

func sameUnit(t *testing.T, u *Unit, text string, place Place) {
	t.Helper()
	again, bad := NewTable().Parse(text, place)
	if bad != nil {
		if bad.Kind == ProblemText && place == AloneInPlace && len(text) > maxText {
			return
		}
		t.Fatalf("%q, printed for a unit, can't be read: %s %s", text, bad.Message, bad.Hint)
	}
	if !again.SameAs(u) || again.Dim() != u.Dim() || again.Tag() != u.Tag() || again.Affine() != u.Affine() || ulps(again.size.hi, ratOfPair(u.size)) > 1 {
		t.Fatalf("%q, printed for %q, reads as %q", text, u.Text(), again.Text())
	}
}

// FuzzQuantityRoundTrip: a quantity written for a file is read back as the
// same unit and the same rounded number.
func FuzzQuantityRoundTrip(f *testing.F) {
	f.Add(0.4624, "J", 0, false)
	f.Add(-8.25, "m/s^2", 2, true)
	f.Add(11250.0, "rev/min", 3, true)
	f.Add(5.0, "1/s", 15, false)
	f.Add(1e-9, "1/ms", 6, true)
	f.Add(30.0, "°", 2, true)
	f.Add(0.0, "%", 2, true)
	f.Fuzz(func(t *testing.T, v float64, text string, figures int, keep bool) {
		u, bad := NewTable().Parse(text, AloneInPlace)
		if bad != nil || !finite(v) {
			return
		}
		written := FormatQuantity(v, u, Figures{N: figures, Keep: keep}, HalfAway, File)
		n := 0
		for n < len(written) && (written[n] == '-' || written[n] == '.' || written[n] == 'e' && u != nil && n+1 < len(written) && (written[n+1] == '-' || written[n+1] >= '0' && written[n+1] <= '9') || written[n] >= '0' && written[n] <= '9') {
			n++
		}
		d, ok := ParseDecimal(written[:n])
		if !ok {
			if v != 0 && (v > 1e300 || v < -1e300 || v < 1e-300 && v > -1e-300) {
				return
			}
			t.Fatalf("%q does not begin with a number", written)
		}
		if again := FormatNumber(d.Float(), Figures{N: figures, Keep: keep}, HalfAway, File); again != written[:n] {
			t.Fatalf("%q prints again as %q", written[:n], again)
		}
		rest := written[n:]
		if rest == "" {
			if u.Text() != "1" {
				t.Fatalf("%q has lost its unit %q", written, u.Text())
			}
			return
		}
		if rest[0] == ' ' {
			rest = rest[1:]
		}
		sameUnit(t, u, rest, AfterNumber)
	})
}
