package main

import (
	"context"
	"fmt"
	"io"
	"testing"

	"steelyard/session/live"
)

// BenchmarkKey is what a key costs beside its drawing, on a page of 1,000 lines: the line
// is read for its italics and worked out on trial for the preview.
func BenchmarkKey(b *testing.B) {
	s := &scratchpad{w: &world{stdout: io.Discard}, pad: live.New()}
	for i := range 1000 {
		s.pad.Enter(context.Background(), fmt.Sprintf("W_%d = %d/2*(0.080 kg)*(3.4 m/s)^2", i, i+1))
	}
	for _, line := range []string{"F = W_3/(2 m) + 3 N", "solve W_4 = 1/2*m*v^2 for v", "graph 3*x^2 against x from 0 m to 3 m", "K = W_3 + 2 s", "U = W_3 v_7"} {
		b.Run(line, func(b *testing.B) {
			for b.Loop() {
				s.Names(line)
				s.Preview(line)
			}
		})
	}
}
