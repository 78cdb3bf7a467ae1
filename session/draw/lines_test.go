package draw

import (
	"math"
	"slices"
	"testing"
)

// Every point left out lies within the tolerance of the chord in its place.
func TestSimplify(t *testing.T) {
	line := sampled(0, 600, 1000, func(x float64) float64 { return 150 + 140*math.Sin(x/40) })
	kept := simplify(slices.Clone(line), 0.2)
	if len(kept) > 200 || kept[0] != line[0] || kept[len(kept)-1] != line[999] {
		t.Errorf("%d points kept, from %v to %v", len(kept), kept[0], kept[len(kept)-1])
	}
	k := 0
	for _, p := range line {
		for p.X > kept[k+1].X {
			k++
		}
		a, b := kept[k], kept[k+1]
		off := math.Abs((b.X-a.X)*(p.Y-a.Y)-(b.Y-a.Y)*(p.X-a.X)) / math.Hypot(b.X-a.X, b.Y-a.Y)
		if off > 0.2001 {
			t.Fatalf("%v is %v off", p, off)
		}
	}
}

func TestClip(t *testing.T) {
	b := box{0, 0, 10, 10}
	got := b.clip([]point{{-5, 5}, {5, 5}, {5, 25}, {8, 25}, {8, 5}, {9, 5}}, nil)
	want := [][]point{{{0, 5}, {5, 5}, {5, 10}}, {{8, 10}, {8, 5}, {9, 5}}}
	if len(got) != len(want) {
		t.Fatalf("got %v", got)
	}
	for i := range want {
		for j := range want[i] {
			if got[i][j] != want[i][j] {
				t.Errorf("piece %d: got %v, want %v", i, got[i], want[i])
			}
		}
	}
}

// Across a gap, be it between runs or at a point that isn't finite, is no line.
func TestGaps(t *testing.T) {
	nan := math.NaN()
	p := place{span{to: 10}, span{to: 10}, box{0, 0, 100, 100}}
	got := p.visible(stretches(p.x, p.y, sampledRuns([][]point{{{0, 0}, {1, 1}, {nan, 2}, {3, 3}, {4, math.Inf(1)}, {5, 5}, {6, 6}}, {{8, 8}, {9, 9}}})), 1, 0, new([]point))
	if len(got) != 4 || len(got[0]) != 2 || len(got[1]) != 1 || len(got[2]) != 2 || len(got[3]) != 2 {
		t.Errorf("got %v", got)
	}
}

func TestBackward(t *testing.T) {
	got := backward([]point{{0, 0}, {10, 0}, {10, 30}}, 4)
	for i, want := range []point{{10, 30}, {10, 20}, {10, 10}, {10, 0}} {
		if got[i] != want {
			t.Errorf("got %v", got)
		}
	}
}
