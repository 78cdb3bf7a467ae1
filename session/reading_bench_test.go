package session

import (
	"context"
	"strings"
	"testing"
	"time"
)

// BenchmarkReadings enters lines that print leaves open, with one to 64 readings,
// beside the lines with one reading that they may mean; x-plain is the ratio.
func BenchmarkReadings(b *testing.B) {
	ctx := context.Background()
	for _, c := range []struct{ name, page, line, plain string }{
		{"1 without a place", "W = 0.46 J; x = 6 cm", "k = 2*W/x^2 in N/m", "k = 2*W/x^2 in N/m"},
		{"2, a given", "s = 3 m", "t = 2 s", "q = 2 kg"},
		{"2, refused", "s = 3 m; t = 2 s", "v = 2s/t", "v = 2*s/t"},
		{"4, refused", "m = 2 kg; v = 3 m/s; r = 2 m", "F = m*v^2/2 r", "F = m*v^2/(2*r)"},
		{"7 letters", "m = 1 kg; s = 2 m; g = 9.8 m/s^2; h = 3 m; t = 4 s; d = 5 m; A = 2 m^2", "2m + 3s + 4g + 5h + 6t + 7d + 8A", "2*m + 3*s + 4*g + 5*h + 6*t + 7*d + 8*A"},
		{"6 letters", "m = 1 kg; s = 2 m; g = 9.8 m/s^2; h = 3 m; t = 4 s; d = 5 m", "2m*3s*4g*5h*6t*7d", "2*m*3*s*4*g*5*h*6*t*7*d"},
	} {
		b.Run(c.name, func(b *testing.B) {
			p := New()
			for line := range strings.SplitSeq(c.page, "; ") {
				p.Enter(ctx, line)
			}
			enter := func(line string) {
				p.Enter(ctx, line)
				p.Undo()
			}
			b.ReportAllocs()
			var open, plain time.Duration
			for b.Loop() {
				start := time.Now()
				enter(c.line)
				between := time.Now()
				enter(c.plain)
				open, plain = open+between.Sub(start), plain+time.Since(between)
			}
			b.ReportMetric(float64(open)/float64(b.N), "ns/line")
			b.ReportMetric(float64(open)/float64(plain), "x-plain")
		})
	}
}
