package draw

import "testing"

func BenchmarkText(b *testing.B) {
	f := plunger()
	for b.Loop() {
		Graph(f).Text(80, 24, false)
	}
}

// page has room for a drawing, as most pages have.
var page []byte

func BenchmarkSVG(b *testing.B) {
	f := plunger()
	for b.Loop() {
		page = Graph(f).SVG(page[:0], "g")
	}
}

func BenchmarkSVGMagnets(b *testing.B) {
	f := magnets()
	for b.Loop() {
		page = Graph(f).SVG(page[:0], "g")
	}
}

func BenchmarkBarsSVG(b *testing.B) {
	c := scale()
	for b.Loop() {
		page = Bars(c).SVG(page[:0], "g")
	}
}
