package session

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"steelyard/session/entry"
)

// tenSources is a page of ten givens with their uncertainties, or of the same without, and
// the product of all.
func tenSources(off string) (*Pad, string) {
	p, names := New(), []string(nil)
	for i := range 10 {
		name := fmt.Sprintf("q_%c", 'a'+i)
		names = append(names, name)
		p.Enter(context.Background(), fmt.Sprintf("%s = %d.5%s", name, i+1, off))
	}
	return p, "y = " + strings.Join(names, "*")
}

// BenchmarkBudget works a line of ten sources out; x-exact is how many times as long that
// takes, and its budget, as the same line of exact givens.
func BenchmarkBudget(b *testing.B) {
	timed := func(p *Pad, lines ...string) time.Duration {
		start := time.Now()
		for range 200 {
			for _, line := range lines {
				p.Enter(context.Background(), line)
				p.Undo()
			}
		}
		return time.Since(start)
	}
	exact, line := tenSources("")
	unsure, _ := tenSources(" ± 0.1")
	asked, _ := tenSources(" ± 0.1")
	asked.Enter(context.Background(), line)
	var plain, line2, budget time.Duration
	for b.Loop() {
		plain += timed(exact, line)
		line2 += timed(unsure, line)
		budget += timed(asked, "budget y")
	}
	b.ReportMetric(float64(line2)/float64(plain), "x-exact-line")
	b.ReportMetric(float64(budget)/float64(plain), "x-exact-budget")
}

// BenchmarkSampling draws the sources of a line of ten operations a million times; x-loop is
// how many times as long that takes as a loop by hand with the same generator.
func BenchmarkSampling(b *testing.B) {
	p := New()
	for _, line := range []string{"m = 2.00 ± 0.02", "v = 3.00 ± 0.05", "k = 4.0 ± 0.1", "y = (m*v^2/k + m/k)*(v - k)/(m + v) + m*k"} {
		p.Enter(context.Background(), line)
	}
	var ours, loop time.Duration
	for b.Loop() {
		start := time.Now()
		got, _ := p.Enter(context.Background(), "budget y by sampling").Outcome.(*entry.Budget)
		ours += time.Since(start)
		p.Undo()
		if got == nil || got.Sampled == nil || got.Sampled.Draws != 1_000_000 {
			b.Fatal("no draws")
		}
		start = time.Now()
		mean, sd := byHand()
		loop += time.Since(start)
		if math.Abs(mean/got.Sampled.Mean-1) > 0.01 || math.Abs(sd/got.Sampled.U-1) > 0.01 {
			b.Fatal(mean, sd, got.Sampled)
		}
	}
	b.ReportMetric(float64(ours)/float64(loop), "x-loop")
}

// byHand is the same by hand: draws, their mean and standard deviation, without the ends of
// an interval.
func byHand() (mean, sd float64) {
	r := rand.New(rand.NewPCG(20080101, 101))
	all := make([]float64, 0, 1_000_000)
	for range 1_000_000 {
		m, v, k := 2+0.02*r.NormFloat64(), 3+0.05*r.NormFloat64(), 4+0.1*r.NormFloat64()
		y := (m*v*v/k+m/k)*(v-k)/(m+v) + m*k
		all = append(all, y)
		mean += y
	}
	mean /= 1e6
	for _, y := range all {
		sd += (y - mean) * (y - mean)
	}
	return mean, math.Sqrt(sd / 1e6)
}
