package view

import (
	"bytes"
	"context"
	"testing"

	"steelyard/session"
	"steelyard/session/draw"
	"steelyard/session/entry"
)

// BenchmarkGraphText draws three curves, from the statement to terminal text and
// to SVG.
func BenchmarkGraphText(b *testing.B) {
	p := session.New()
	for _, line := range []string{"k = 257 N/m", "A = 6.0 cm", "U(x) = 1/2*k*x^2 in J", "E0 = U(A)", "K(x) = E0 - U(x) in J"} {
		p.Enter(context.Background(), line)
	}
	const line = "graph U(x), K(x), E0 against x from -A to A in J"
	b.Run("text", func(b *testing.B) {
		for b.Loop() {
			var out bytes.Buffer
			Text(&out, p.Enter(context.Background(), line), Options{Width: 80})
			p.Undo()
		}
	})
	b.Run("svg", func(b *testing.B) {
		var page []byte // which has room, as most pages have
		for b.Loop() {
			g, _ := p.Enter(context.Background(), line).Outcome.(*entry.Graph)
			page = draw.Graph(g).SVG(page[:0], "g")
			p.Undo()
		}
	})
}
