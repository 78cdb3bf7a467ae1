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
		{1<<52 - 1, 1, 1<<52 - 1}, {1<<47 + 0.5, 1, 1<<47 + 1}, {1<<46 + 0.4375, 1, 1 << 46},
	} {
		if got := Round.Value(c[0], c[1], 0); got != c[2] {
			t.Errorf("%v to multiples of %v is %v, want %v", c[0], c[1], got, c[2])
		}
	}
}

// TestRoundsToSmallSteps holds the enclosure where a step is worth a few of the
// last bits of what is rounded.
func TestRoundsToSmallSteps(t *testing.T) {
	for i := range 2000 {
		a, step := math.Pi, 0x1p-50*(1+float64(i)/1000)
		over, _ := Round.Over(Point(a), Between(step, 1.0001*step), 0)
		if v := Round.Value(a, step, 0); v < over.Lo || v > over.Hi {
			t.Fatalf("%v in steps of %v is %v, outside %v", a, step, v, over)
		}
	}
}
