package lab

import "testing"

// TestTouchingBars finds the one line that touches the ends of bars, whose decimals are
// rounded.
func TestTouchingBars(t *testing.T) {
	for slope, b := range map[float64]bars{
		2:   {y: []float64{2.1, 3.9, 6.2, 7.8, 10.1}, x: []float64{1, 2, 3, 4, 5}, uy: []float64{0.1, 0.1, 0.2, 0.2, 0.3}, ux: make([]float64, 5)},
		0.9: {y: []float64{1.0, 2.1, 2.8}, x: []float64{1, 2, 3}, uy: []float64{0.1, 0.1, 0.1}, ux: make([]float64, 3)},
	} {
		least, most, ok := b.slopes(false)
		if near := func(v float64) bool { return v > slope-1e-9 && v < slope+1e-9 }; !ok || !near(least) || !near(most) {
			t.Errorf("slopes from %v to %v (%v), want %v alone", least, most, ok, slope)
		}
	}
	apart := bars{y: []float64{1.0, 2.5, 2.8}, x: []float64{1, 2, 3}, uy: []float64{0.1, 0.1, 0.1}, ux: make([]float64, 3)}
	if least, most, ok := apart.slopes(false); ok {
		t.Errorf("a line of slope %v to %v through bars that have none", least, most)
	}
}
