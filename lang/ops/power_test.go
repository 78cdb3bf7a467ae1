package ops

import (
	"math"
	"testing"
)

func TestRoots(t *testing.T) {
	for _, c := range [][3]float64{{32, 5, 2}, {-32, 5, -2}, {81, 4, 3}, {1e10, 10, 10}, {-128, 7, -2}, {0, 5, 0}, {2, 2, math.Sqrt2}} {
		if got := Root.Value(c[0], 0, c[1]); got != c[2] {
			t.Errorf("root of degree %v of %v is %v, want %v", c[1], c[0], got, c[2])
		}
	}
	if got := Root.Value(-16, 0, 4); got == got {
		t.Errorf("the fourth root of -16 is %v", got)
	}
}

func TestRounds(t *testing.T) {
	for _, c := range [][3]float64{
		{2.5, 1, 3}, {-2.5, 1, -3}, {2.4999, 1, 2}, {0.285, 0.01, 0.29}, {7, 5, 5}, {7.5, 5, 10},
		{0.3, 0.1, 0.3}, {1e300, 1, 1e300}, {0.0123, 0.005, 0.01}, {0.2, 1, 0},
	} {
		if got := Round.Value(c[0], c[1], 0); got != c[2] {
			t.Errorf("%v to multiples of %v is %v, want %v", c[0], c[1], got, c[2])
		}
	}
}
