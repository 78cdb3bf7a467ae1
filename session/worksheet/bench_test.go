package worksheet

import (
	"context"
	"fmt"
	"strings"
	"testing"
)

// long is a worksheet of a number of lines as a course would fill it: givens,
// results with their records, checks and parts.
func long(lines int) string {
	var b strings.Builder
	b.WriteString("worksheet 1  Long\n\n")
	n := 2
	for part := 1; n < lines; part++ {
		fmt.Fprintf(&b, "part p%d: Spring %d\n", part, part)
		fmt.Fprintf(&b, "m = %d.5 kg\nv = 3.%d m/s\nx = %d cm\n", part%90+1, part%9+1, part%50+4)
		b.WriteString("W = 1/2*m*v^2\nk = 2*W/x^2 in N/m\na = k*x/m\ncheck 1/2*k*x^2 = W\n\n")
		n += 12
	}
	s, _ := Parse("", b.String())
	return Replay(context.Background(), s, Options{}).recorded(s)
}

func benchmarkReplay(b *testing.B, lines int) {
	text := long(lines)
	b.ReportAllocs()
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		s, problem := Parse("long.worked", text)
		if problem != nil {
			b.Fatal(problem)
		}
		if r := Replay(context.Background(), s, Options{}); r.Status() != 0 {
			b.Fatal("the long sheet does not replay")
		}
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(lines), "ns/line")
}

func BenchmarkReplay10k(b *testing.B)  { benchmarkReplay(b, 10_000) }
func BenchmarkReplay100k(b *testing.B) { benchmarkReplay(b, 100_000) }

func BenchmarkSplit100k(b *testing.B) {
	text := long(100_000)
	b.ReportAllocs()
	for b.Loop() {
		if _, problem := Parse("long.worked", text); problem != nil {
			b.Fatal(problem)
		}
	}
}
