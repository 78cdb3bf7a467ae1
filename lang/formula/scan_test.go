package formula

import "testing"

// BenchmarkReadAll is what the first formula of a run costs.
func BenchmarkReadAll(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		readAll()
	}
}
