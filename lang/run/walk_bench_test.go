package run_test

import (
	"testing"

	"steelyard/lang/ops"
)

// BenchmarkDomains runs one function by plain numbers, with slopes, and over an
// interval.
func BenchmarkDomains(b *testing.B) {
	p, st, fn := rootFunc(b, "2*u^2 + √(u + 3)*sin(u)/5", "0.2*u")
	b.Run("numbers", func(b *testing.B) {
		for b.Loop() {
			p.Single(st, fn)(1.5)
		}
	})
	b.Run("slopes", func(b *testing.B) {
		for b.Loop() {
			p.Slope(st, fn, 1.5)
		}
	})
	b.Run("intervals", func(b *testing.B) {
		for b.Loop() {
			p.Enclose(st, fn, ops.Between(1.5, 1.6))
		}
	})
}
