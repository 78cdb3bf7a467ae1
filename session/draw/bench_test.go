package draw

import "testing"

func BenchmarkText(b *testing.B) {
	f := plunger()
	for b.Loop() {
		GraphText(f, 80, 24, false)
	}
}

func BenchmarkSVG(b *testing.B) {
	f := plunger()
	for b.Loop() {
		GraphSVG(f, "g")
	}
}

func BenchmarkSVGMagnets(b *testing.B) {
	f := magnets()
	for b.Loop() {
		GraphSVG(f, "g")
	}
}

func BenchmarkBarsSVG(b *testing.B) {
	c := scale()
	for b.Loop() {
		BarsSVG(c, "g")
	}
}
