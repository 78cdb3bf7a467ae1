package view_test

import (
	"context"
	"io"
	"testing"
	"time"

	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/session/view"
)

// BenchmarkLine reads, plans, runs and prints one line, and tells what share of
// the time each step takes: of planning and running together by difference.
func BenchmarkLine(b *testing.B) {
	const line = "k = 2*W/x^2 in N/m"
	ctx := context.Background()
	p := session.New()
	p.Enter(ctx, "W = 0.4624 J")
	p.Enter(ctx, "x = 6.0 cm")
	var read, enter, show time.Duration
	b.ReportAllocs()
	for b.Loop() {
		start := time.Now()
		syntax.Parse(line)
		parsed := time.Now()
		e := p.Enter(ctx, line)
		entered := time.Now()
		view.Text(io.Discard, e, view.Options{Statement: true})
		read += parsed.Sub(start)
		enter += entered.Sub(parsed)
		show += time.Since(entered)
		p.Undo()
	}
	n := float64(b.N)
	whole := float64(enter + show)
	b.ReportMetric(whole/n, "ns/line")
	b.ReportMetric(100*float64(read)/whole, "%read")
	b.ReportMetric(100*float64(enter-read)/whole, "%plan+run")
	b.ReportMetric(100*float64(show)/whole, "%print")
}
