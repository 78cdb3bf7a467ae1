package units

import "testing"

func BenchmarkFirstUnit(b *testing.B) {
	for b.Loop() {
		if _, bad := NewTable().Parse("m", AfterNumber); bad != nil {
			b.Fatal(bad.Message)
		}
	}
}

func BenchmarkParseUncached(b *testing.B) {
	t := NewTable()
	for b.Loop() {
		if _, bad := t.parse("kg m^2/s^2", AfterNumber); bad != nil {
			b.Fatal(bad.Message)
		}
	}
}

func BenchmarkParseCached(b *testing.B) {
	t := NewTable()
	for b.Loop() {
		if _, bad := t.Parse("kg m^2/s^2", AfterNumber); bad != nil {
			b.Fatal(bad.Message)
		}
	}
}

func BenchmarkParseDecimal(b *testing.B) {
	for b.Loop() {
		if _, ok := ParseDecimal("0.080"); !ok {
			b.Fatal("no number")
		}
	}
}

func BenchmarkFormatNumber(b *testing.B) {
	for b.Loop() {
		FormatNumber(256.8888888888889, Figures{}, HalfAway, File)
	}
}

func BenchmarkFormatQuantity(b *testing.B) {
	u := mustUnit(b, "N/m")
	for b.Loop() {
		FormatQuantity(256.8888888888889, u, Figures{}, HalfAway, Screen)
	}
}

func BenchmarkConvert(b *testing.B) {
	inch, cm, d := mustUnit(b, "inch"), mustUnit(b, "cm"), mustDecimal(b, "12.5")
	for b.Loop() {
		inch.Convert(d, cm)
	}
}

func BenchmarkConvertTemperature(b *testing.B) {
	c, f, d := mustUnit(b, "°C"), mustUnit(b, "°F"), mustDecimal(b, "36.6")
	for b.Loop() {
		c.Convert(d, f)
	}
}

func BenchmarkPreferred(b *testing.B) {
	d := mustUnit(b, "J/(kg K)").Dim()
	for b.Loop() {
		Preferred(d, None)
	}
}

func BenchmarkHas(b *testing.B) {
	t := NewTable()
	for b.Loop() {
		t.Has("velocity")
	}
}

func BenchmarkUnknown(b *testing.B) {
	t := NewTable()
	for b.Loop() {
		t.parse("metrs", AfterNumber)
	}
}
