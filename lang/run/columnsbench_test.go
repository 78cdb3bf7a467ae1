package run_test

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"steelyard/lang/run"
)

// benchLanes is the number of points of a curve in these benchmarks.
const benchLanes = 1024

// benchCase is columns beside the loop that one would write for it.
type benchCase struct {
	name string
	run  *run.Columns
	loop func(dst, col, val []float64)
	val  []float64
	in   [][]float64
	out  [][]float64
}

// ratio runs plan and loop in turns and returns the quotient of their fastest
// times: what else the machine does can only slow one down.
func (c *benchCase) ratio(turns int) (ratio, nsPerLane float64) {
	const inner = 8
	dst := make([]float64, benchLanes)
	cols, loop := time.Duration(math.MaxInt64), time.Duration(math.MaxInt64)
	for range turns {
		start := time.Now()
		for range inner {
			c.run.Run(c.in, c.out)
		}
		mid := time.Now()
		for range inner {
			c.loop(dst, c.in[0], c.val)
		}
		cols, loop = min(cols, mid.Sub(start)), min(loop, time.Since(mid))
	}
	return float64(cols) / float64(loop), float64(cols) / inner / benchLanes
}

// benchLibrary are relations of the formula library, each swept in its first
// name.
func benchLibrary(t testing.TB) []benchCase {
	var out []benchCase
	for _, r := range []struct {
		name, equation, names string
		loop                  func(dst, col, val []float64)
	}{
		{"spring-energy", "k*x^2/2", "x k", loopSpringEnergy},
		{"kinetic-energy", "m*v^2/2", "v m", loopSpringEnergy},
		{"gravitational-energy", "m*g*h", "h m g", loopGravity},
		{"spring-period", "2*pi*sqrt(m/k)", "m k", loopPeriod},
		{"pendulum-period", "2*pi*sqrt(L/g)", "L g", loopPeriod},
		{"oscillation", "A*cos(omega*t + phi)", "t A omega phi", loopOscillation},
		{"spring-force", "-k*x", "x k", loopSpringForce},
		{"power", "W/t", "t W", loopPower},
		{"total-energy", "k*x^2/2 + m*v^2/2", "x k m v", loopTotalEnergy},
		{"greatest-acceleration", "omega^2*A", "omega A", loopAcceleration},
		{"speed-from-distance", "sqrt(v0^2 + 2*a*(x - x0))", "x v0 a x0", loopSpeed},
		{"range", "v0^2*sin(2*theta)/g", "theta v0 g", loopRange},
	} {
		names := strings.Fields(r.names)
		vals := []float64{0.3, 1.3, 0.7, 0.2}[:len(names)]
		p, slot := program(t, r.equation, names)
		f, _ := p.Columns(ran(p, vals), []run.Slot{slot}, []run.Slot{1})
		out = append(out, benchOf(r.name, f, r.loop, vals[1:]))
	}
	return out
}

func benchOf(name string, f *run.Columns, loop func(dst, col, val []float64), vals []float64) benchCase {
	return benchCase{name, f, loop, vals, [][]float64{runtimeSweep(benchLanes, 0.5, 1.5)}, [][]float64{make([]float64, benchLanes)}}
}

func benchFifty(t testing.TB) []benchCase {
	var out []benchCase
	for _, r := range runtimeRelations(t) {
		f, _, _ := r.plan(t)
		out = append(out, benchOf(r.id, f, runtimeLoops[r.id], r.values))
	}
	return out
}

// BenchmarkColumnsLibrary times each of those; x-loop is how many times the loop's
// time it takes.
func BenchmarkColumnsLibrary(b *testing.B) {
	for _, c := range benchLibrary(b) {
		b.Run(c.name, func(b *testing.B) { c.bench(b) })
	}
}

func (c *benchCase) bench(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		c.run.Run(c.in, c.out)
	}
	ratio, ns := c.ratio(400)
	b.ReportMetric(ratio, "x-loop")
	b.ReportMetric(ns, "ns/lane")
}

// BenchmarkColumnsLibrarySummary reports the geometric mean and the greatest ratio of
// those relations.
func BenchmarkColumnsLibrarySummary(b *testing.B) { benchSummary(b, benchLibrary(b)) }

// BenchmarkColumnsRelationsSummary does so for the fifty of testdata, with their
// median.
func BenchmarkColumnsRelationsSummary(b *testing.B) { benchSummary(b, benchFifty(b)) }

func benchSummary(b *testing.B, cases []benchCase) {
	logs := 0.0
	var all []float64
	for range b.N {
		all, logs = all[:0], 0
		for i := range cases {
			r, _ := cases[i].ratio(200)
			all = append(all, r)
			logs += math.Log(r)
		}
	}
	slices.Sort(all)
	b.ReportMetric(math.Exp(logs/float64(len(all))), "x-loop")
	b.ReportMetric(all[len(all)/2], "median-x-loop")
	b.ReportMetric(all[len(all)-1], "max-x-loop")
}

// BenchmarkColumnsRelations times each of the fifty.
func BenchmarkColumnsRelations(b *testing.B) {
	for _, c := range benchFifty(b) {
		b.Run(c.name, func(b *testing.B) { c.bench(b) })
	}
}

// BenchmarkColumnsFailing is a curve that has no value anywhere, one that has
// none on one side, and one that passes through 0; x-loop compares with the
// loop of its formula.
func BenchmarkColumnsFailing(b *testing.B) {
	for _, c := range []struct {
		name   string
		lo, hi float64
		which  int
	}{{"nowhere", -3, -2, 10}, {"one-side", -3, 1, 10}, {"zero-divisor", 0, 0, 7}, {"through-0", -1, 1, 2}, {"cosine-through-0", -1, 1, 5}} {
		b.Run(c.name, func(b *testing.B) {
			of := benchLibrary(b)[c.which]
			of.in = [][]float64{runtimeSweep(benchLanes, c.lo, c.hi)}
			of.bench(b)
		})
	}
}

// BenchmarkColumnsSamples is total energy with every given varying, as when it is
// sampled.
func BenchmarkColumnsSamples(b *testing.B) {
	p, out := program(b, "k*x^2/2 + m*v^2/2", strings.Fields("x k m v"))
	f, _ := p.Columns(ran(p, []float64{1, 2, 3, 4}), []run.Slot{out}, []run.Slot{1, 2, 3, 4})
	x := runtimeSweep(benchLanes, 0.5, 1.5)
	in, outs := [][]float64{x, x, x, x}, [][]float64{make([]float64, benchLanes)}
	b.ReportAllocs()
	for b.Loop() {
		f.Run(in, outs)
	}
}

// BenchmarkColumnsPlan is planning them.
func BenchmarkColumnsPlan(b *testing.B) {
	p, out := program(b, "k*x^2/2 + m*v^2/2", strings.Fields("x k m v"))
	st := ran(p, []float64{1, 2, 3, 4})
	b.ReportAllocs()
	for b.Loop() {
		p.Columns(st, []run.Slot{out}, []run.Slot{1})
	}
}
