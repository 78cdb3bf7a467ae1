package syntax

import "testing"

var benchLines = []struct{ name, text string }{
	{"given", "m = 0.080 kg"},
	{"result", "k = 2*W/x^2 in N/m"},
	{"long", "y = y0 + v0*sin(θ)*t - 1/2*g*t^2 + √(2*g*h)*(t - t0) - 2π*r/(3.5 s)*t in m"},
}

func BenchmarkLex(b *testing.B) {
	for _, l := range benchLines {
		b.Run(l.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, bad := scan(l.text, 0, len(l.text), ""); bad != nil {
					b.Fatal(bad)
				}
			}
		})
	}
}

func BenchmarkParse(b *testing.B) {
	for _, l := range benchLines {
		b.Run(l.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if s, _ := Parse(l.text); s == nil {
					b.Fatal("not read")
				}
			}
		})
	}
}

func BenchmarkPrint(b *testing.B) {
	for _, l := range benchLines {
		s, _ := Parse(l.text)
		x := s.Exprs()[0]
		b.Run(l.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				PrintExpr(x)
			}
		})
	}
}

func BenchmarkRecord(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, bad := ParseRecord("  = 256.889 N/m"); bad != nil {
			b.Fatal(bad)
		}
	}
}

// BenchmarkBuild is what the first statement of a run pays for its grammar.
func BenchmarkBuild(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		build(&Fit{})
	}
}
