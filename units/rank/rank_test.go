package rank

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// TestValue holds the value of a rank against sorted values, with many that are equal and in
// lists that are long enough to be polled, and looks at what is put before and behind it.
func TestValue(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for _, n := range []int{1, 2, 3, 17, 193, 16*pollOf - 1, 16 * pollOf, 20_000} {
		for _, different := range []int{1, 3, 1000, 1 << 30} {
			all := make([]float64, n)
			for i := range all {
				all[i] = float64(r.IntN(different)) - float64(different)/2
			}
			sorted := slices.Sorted(slices.Values(all))
			for _, at := range []int{0, n / 40, n / 2, n - 1 - n/40, n - 1, r.IntN(n)} {
				got := Value(all, at)
				if got != sorted[at] {
					t.Fatalf("%d of %d values, %d of them different: %v, and not %v", at, n, different, got, sorted[at])
				}
				if all[at] != got || slices.Max(all[:at+1]) != got || slices.Min(all[at:]) != got {
					t.Fatalf("%d of %d values: not those below before it", at, n)
				}
				if !slices.Equal(slices.Sorted(slices.Values(all)), sorted) {
					t.Fatalf("%d of %d values: they are no more the same", at, n)
				}
			}
		}
	}
}
