package units

import (
	"math/big"
	"slices"
	"strings"
	"testing"
)

func TestOwnUnits(t *testing.T) {
	tab := NewTable()
	if _, bad := tab.Parse("lap", AfterNumber); bad == nil {
		t.Fatal("lap is known before it is defined")
	}
	lap, ok := tab.Define("lap", mustUnit(t, "m"), 400)
	if !ok || lap.Text() != "lap" || lap.Dim() != BaseDim(Metre) {
		t.Fatalf("lap is %+v, %t", lap, ok)
	}
	for _, text := range []string{"lap", "laps", "laps/min", "lap^2", "kg lap/s"} {
		if _, bad := tab.Parse(text, AfterNumber); bad != nil {
			t.Errorf("%q: %s", text, bad.Message)
		}
	}
	u, _ := tab.Parse("laps/min", AfterNumber)
	if u.Text() != "lap/min" || u.Factor().Cmp(big.NewRat(20, 3)) != 0 {
		t.Errorf("laps/min is %s, %v", u.Text(), u.Factor())
	}
	if got := lap.Convert(mustDecimal(t, "2.5"), mustUnit(t, "km")); got != 1 {
		t.Errorf("2.5 laps are %v km", got)
	}
	if _, bad := tab.Parse("klap", AfterNumber); bad == nil {
		t.Error("an own unit takes no prefix")
	}
	for _, name := range []string{"m", "lap", "metres", "kN", "", "metre"} {
		if _, ok := tab.Define(name, lap, 1); ok {
			t.Errorf("%q can be defined again", name)
		}
	}
	if !tab.Has("laps") || !slices.Contains(tab.Complete("la"), "lap") || !slices.Contains(tab.Suggest("lapz"), "lap") {
		t.Error("an own unit is found like the others")
	}
	tab.Remove("lap")
	if tab.Has("lap") {
		t.Error("lap is known after it was taken back")
	}
	if _, bad := tab.Parse("laps/min", AfterNumber); bad == nil {
		t.Error("laps/min is remembered after lap was taken back")
	}
	if turn, ok := tab.Define("twirl", mustUnit(t, "rev"), 6.283185307179586); !ok || turn.Tag() != Angle {
		t.Error("an own unit has the tag of the unit that it is made from")
	}
}

func TestSuggest(t *testing.T) {
	for word, want := range map[string]string{"metrs": "metres", "Kg": "kg", "KM": "km", "secconds": "seconds", "pascls": "pascals", "kelvn": "kelvin", "khz": "kHz"} {
		got := NewTable().Suggest(word)
		if len(got) == 0 || got[0] != want || len(got) > 3 {
			t.Errorf("%s suggests %q, want %s first", word, got, want)
		}
	}
	for _, word := range []string{"", "blorks", strings.Repeat("x", 100000)} {
		if got := NewTable().Suggest(word); len(got) > 0 {
			t.Errorf("%.20s suggests %q", word, got)
		}
	}
}

func TestComplete(t *testing.T) {
	tab := NewTable()
	for prefix, want := range map[string][]string{"kN": {"kN"}, "met": {"meter", "meters", "metre", "metres"}, "kilonew": {"kilonewton", "kilonewtons"}, "zz": nil} {
		got := tab.Complete(prefix)
		for _, w := range want {
			if !slices.Contains(got, w) {
				t.Errorf("%q completes to %q, without %s", prefix, got, w)
			}
		}
		if want == nil && len(got) > 0 || !slices.IsSorted(got) {
			t.Errorf("%q completes to %q", prefix, got)
		}
	}
	for _, w := range tab.Complete("m") {
		if _, bad := tab.Parse(w, AfterNumber); bad != nil {
			t.Errorf("%q is offered but can't be read", w)
		}
	}
	if n := len(tab.Complete("")); n < 400 {
		t.Errorf("%d words in all", n)
	}
}
