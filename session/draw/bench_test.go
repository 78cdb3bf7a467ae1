package draw

import "testing"

func BenchmarkText(b *testing.B) {
	f := plunger()
	for b.Loop() {
		Graph(f).Text(80, 24, false)
	}
}

func BenchmarkSVG(b *testing.B) {
	f := plunger()
	for b.Loop() {
		Graph(f).SVG(nil, "g")
	}
}

func BenchmarkSVGMagnets(b *testing.B) {
	f := magnets()
	for b.Loop() {
		Graph(f).SVG(nil, "g")
	}
}

func BenchmarkBarsSVG(b *testing.B) {
	c := scale()
	for b.Loop() {
		Bars(c).SVG(nil, "g")
	}
}
