package session

import (
	"context"
	"fmt"
	"testing"
)

// BenchmarkLine reads, plans and runs one line, again and again.
func BenchmarkLine(b *testing.B) {
	ctx := context.Background()
	for _, line := range []string{"k = 2*W/x^2 in N/m", "m = 0.080 kg", "f = √(k0/m)/(2π) in Hz", "check 1/2*k0*x^2 = 0.46 J within 1 %"} {
		b.Run(line, func(b *testing.B) {
			p := New()
			for _, given := range []string{"W = 0.4624 J", "x = 6.0 cm", "m = 0.08 kg", "k0 = 257 N/m"} {
				p.Enter(ctx, given)
			}
			b.ReportAllocs()
			for b.Loop() {
				p.Enter(ctx, line)
				p.Undo()
			}
		})
	}
}

// BenchmarkVectorLine does the same with lines of vectors: each is to take less than 15 µs.
func BenchmarkVectorLine(b *testing.B) {
	ctx := context.Background()
	for _, line := range []string{"p = m1*v1 + m2*v2", "v = (3.0, 4.0) m/s", "W = F·d", "F along 30°", "v1 + 12 m/s at 37°"} {
		b.Run(line, func(b *testing.B) {
			p := New()
			for _, given := range []string{"m1 = 2.0 kg", "m2 = 3.0 kg", "v1 = (3.0, 4.0) m/s", "v2 = (1.0, -2.0) m/s", "F = 12 N at 37°", "d = (2.0, 0) m"} {
				p.Enter(ctx, given)
			}
			b.ReportAllocs()
			for b.Loop() {
				p.Enter(ctx, line)
				p.Undo()
			}
		})
	}
}

// BenchmarkLines enters ten thousand and a hundred thousand lines, which must
// take time in proportion.
func BenchmarkLines(b *testing.B) {
	for _, n := range []int{10_000, 100_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			lines := make([]string, n)
			for i := range lines {
				switch i % 4 {
				case 0:
					lines[i] = fmt.Sprintf("m%d = 0.0%d kg", i, i+1)
				case 1:
					lines[i] = fmt.Sprintf("v%d = 3.%d m/s", i, i)
				case 2:
					lines[i] = fmt.Sprintf("W%d = 1/2*m%d*v%d^2", i, i-2, i-1)
				case 3:
					lines[i] = fmt.Sprintf("check W%d > 0", i-1)
				}
			}
			b.ReportAllocs()
			for b.Loop() {
				p := New()
				for i, line := range lines {
					p.EnterAt(context.Background(), i+1, line)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*n), "ns/line")
		})
	}
}

// BenchmarkUnknownNames enters lines of which every other uses a name that no
// line gives, and that is spelled nearly like many.
func BenchmarkUnknownNames(b *testing.B) {
	const n = 10_000
	b.ReportAllocs()
	for b.Loop() {
		p := New()
		for i := range n / 2 {
			p.Enter(context.Background(), fmt.Sprintf("mass%d = %d kg", i, i+1))
			p.Enter(context.Background(), fmt.Sprintf("mas%dq * 2", i))
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*n), "ns/line")
}
