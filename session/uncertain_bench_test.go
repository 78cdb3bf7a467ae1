package session

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
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

// samplingPage is a page with three sources and a line of ten operations.
func samplingPage() *Pad {
	p := New()
	for _, line := range []string{"m = 2.00 ± 0.02", "v = 3.00 ± 0.05", "k = 4.0 ± 0.1", "y = (m*v^2/k + m/k)*(v - k)/(m + v) + m*k"} {
		p.Enter(context.Background(), line)
	}
	return p
}

// sampled is its budget by sampling.
func sampled(tb testing.TB, p *Pad) *entry.Sampling {
	got, _ := p.Enter(context.Background(), "budget y by sampling").Outcome.(*entry.Budget)
	p.Undo()
	if got == nil || got.Sampled == nil {
		tb.Fatal("no draws")
	}
	return got.Sampled
}

// byHand are the values of that line by hand: the same numbers from the same generator, in the
// blocks in which they are drawn.
func byHand() []float64 {
	const block = 512
	var m, v, k [block]float64
	r := rand.New(rand.NewPCG(20080101, 101))
	all := make([]float64, 0, 1_000_000)
	for len(all) < cap(all) {
		n := min(block, cap(all)-len(all))
		for _, source := range []struct {
			of    *[block]float64
			at, u float64
		}{{&m, 2, 0.02}, {&v, 3, 0.05}, {&k, 4, 0.1}} {
			for i := range n {
				source.of[i] = source.at + source.u*r.NormFloat64()
			}
		}
		for i := range n {
			m, v, k := m[i], v[i], k[i]
			all = append(all, (m*v*v/k+m/k)*(v-k)/(m+v)+m*k)
		}
	}
	return all
}

// meanAndSD are the mean and the standard deviation of some values.
func meanAndSD(all []float64) (mean, sd float64) {
	for _, y := range all {
		mean += y
	}
	mean /= float64(len(all))
	for _, y := range all {
		sd += (y - mean) * (y - mean)
	}
	return mean, math.Sqrt(sd / float64(len(all)-1))
}

// TestSamplingByHand holds what sampling finds against the same draws by hand: the mean, the
// standard deviation, and the ends of the interval in the sorted values.
func TestSamplingByHand(t *testing.T) {
	all := byHand()
	mean, sd := meanAndSD(all)
	slices.Sort(all)
	got := sampled(t, samplingPage())
	for what, pair := range map[string][2]float64{"mean": {got.Mean, mean}, "standard deviation": {got.U, sd}, "lower end": {got.Lo, all[25_000]}, "upper end": {got.Hi, all[975_000]}} {
		if math.Abs(pair[0]/pair[1]-1) > 1e-12 {
			t.Errorf("%s %v, by hand %v", what, pair[0], pair[1])
		}
	}
}

// BenchmarkSampling draws the sources of a line of ten operations a million times; x-loop is
// how many times as long that takes as a loop by hand that draws the same numbers, and finds
// their mean and standard deviation alone.
func BenchmarkSampling(b *testing.B) {
	p := samplingPage()
	ours, loop := time.Hour, time.Hour
	for b.Loop() {
		start := time.Now()
		sampled(b, p)
		ours, start = min(ours, time.Since(start)), time.Now()
		meanAndSD(byHand())
		loop = min(loop, time.Since(start))
	}
	b.ReportMetric(float64(ours)/float64(loop), "x-loop")
}
