package rounding

import (
	"math"
	"math/rand/v2"
	"strconv"
	"testing"
)

// TestWhole holds the quick way against the digits, at halves and beside them.
func TestWhole(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 200_000 {
		half := math.Floor(math.Pow(10, 15*r.Float64())) / 2
		v := half * (1 + float64(r.IntN(60)-30)*0x1p-53)
		for _, even := range []bool{false, true} {
			x := ToPlace(v, 0, even)
			want, _ := strconv.ParseFloat(string(x.D[:x.N])+"e"+strconv.Itoa(x.Exp-x.N+1), 64)
			if got := Whole(v, even); got != want && v < mostWhole {
				t.Fatalf("%v, even %t: %v, want %v", v, even, got, want)
			}
			if got := Whole(-v, even); got != -Whole(v, even) {
				t.Fatalf("%v is rounded to %v", -v, got)
			}
		}
	}
}

// TestToPlace rounds to a place left of the first digit, too.
func TestToPlace(t *testing.T) {
	for _, c := range []struct {
		v     float64
		place int
		even  bool
		want  string
	}{
		{0.5, 0, false, "1"}, {0.5, 0, true, "0"}, {0.51, 0, true, "1"}, {0.49, 0, false, "0"}, {0.04, 0, false, "0"},
		{9.96, -1, false, "100"}, {257, 1, false, "26"}, {2.5, 0, true, "2"}, {0.285, -2, false, "29"}, {0, -2, false, "0"},
	} {
		x := ToPlace(c.v, c.place, c.even)
		if got := string(x.D[:x.N]); got != c.want || x.Exp-x.N+1 != c.place {
			t.Errorf("%v to 10^%d is %s·10^%d, want %s", c.v, c.place, got, x.Exp-x.N+1, c.want)
		}
	}
}
