package worksheet

import (
	"context"
	"fmt"
	"io"
	"strings"
	"testing"

	"steelyard/session/view"
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

// shapes are worksheets of 100,000 lines of one kind each, the ones that have grown
// faster than their lines before: line i of each, below its first.
var shapes = []struct {
	name, first string
	line        func(i int) string
	with        []string
}{
	{"broken", "", func(i int) string { return fmt.Sprintf("v%d = 2 +* %d", i, i) }, nil},
	{"chain", "v0 = 1 m", func(i int) string { return fmt.Sprintf("v%d = v%d + 1 mm", i+1, i) }, nil},
	{"functions", "", func(i int) string { return fmt.Sprintf("f%d(x) = x*%d", i, i%9+1) }, nil},
	{"givens", "", func(i int) string { return fmt.Sprintf("m%d = %d kg", i, i%9+1) }, nil},
	{"lists", "L = [1, 2] m", func(i int) string { return fmt.Sprintf("v%d = %d*L", i, i%97+1) }, nil},
	{"misspelt", "length = 1 m", func(i int) string { return fmt.Sprintf("y%d = lenght%d*2", i, i%7) }, nil},
	{"parts", "", func(i int) string { return fmt.Sprintf("part p%d: How long?\nx = %d m", i, i%9+1) }, nil},
	{"results", "a = 1 m", func(i int) string { return fmt.Sprintf("v%d = a*%d + 3 m", i, i%97+1) }, nil},
	{"same", "", func(int) string { return "x = 1 m" }, nil},
	{"unknown", "", func(i int) string { return fmt.Sprintf("y%d = foo%d*2", i, i) }, nil},
	{"unit", "", func(i int) string { return fmt.Sprintf("v%d = %d*s", i, i) }, nil},
	{"with", "a = 1 m", func(i int) string { return fmt.Sprintf("v%d = a*%d\n  = %d m", i, i%97+1, i%97+1) }, []string{"a=2m"}},
}

// BenchmarkShapes replays them and prints what the command does: 20 µs a line at most.
func BenchmarkShapes(b *testing.B) {
	const n = 100_000
	for _, of := range shapes {
		b.Run(of.name, func(b *testing.B) {
			var text strings.Builder
			text.WriteString("worksheet 1  Long\n\n" + of.first + "\n")
			for i := range n {
				text.WriteString(of.line(i) + "\n")
			}
			for b.Loop() {
				s, problem := Parse("long.worked", text.String())
				if problem != nil {
					b.Fatal(problem)
				}
				_ = Replay(b.Context(), s, Options{With: of.with}).Text(io.Discard, view.Options{})
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/n, "ns/line")
		})
	}
}
