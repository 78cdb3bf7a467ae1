package draw

import (
	"math"
	"strings"
	"testing"

	"steelyard/session/entry"
)

// On blank axes every tick lies on a line of the grid and the grid is square.
func TestBlankSquares(t *testing.T) {
	for _, r := range [][2]float64{{0, 1}, {-2, 8}, {0, 0.37}, {13, 14}, {-5e-6, 7e-6}, {0, 99}} {
		s := newFigureLayout(&entry.Graph{X: axis("x / m", r[0], r[1]), Y: axis("y / m", r[0], r[1]), Blank: true})
		if s.x.from > r[0] || s.x.to < r[1] {
			t.Errorf("%v: shows only %v", r, s.x)
		}
		for i, v := range s.xTicks.at {
			n := (s.at(v, s.y.from).X - s.box.left) / square
			if math.Abs(n-math.Round(n)) > 1e-6 {
				t.Errorf("%v: tick %d is %v squares from the axis", r, i, n)
			}
		}
		if s.across < 20 || s.down < 12 {
			t.Errorf("%v: only %d × %d squares", r, s.across, s.down)
		}
	}
}

func TestBlankHasNoAnswers(t *testing.T) {
	f := lens()
	f.Blank = true
	for _, got := range []string{GraphSVG(f, "g"), GraphText(f, 60, 20, false)} {
		if strings.Contains(got, "b(g)") {
			t.Errorf("the answer is in\n%s", got)
		}
	}
}

// Names at one end stand in the order in which their curves arrive.
func TestNamesInOrder(t *testing.T) {
	f := &entry.Graph{X: axis("x", 0, 1), Y: axis("y", 0, 1), Curves: []entry.Curve{
		curve("low", [][]point{{{0, 0}, {1, 0.5}}}), curve("high", [][]point{{{0, 1}, {1, 0.5}}}),
	}}
	text := GraphText(f, 60, 20, false)
	if strings.Index(text, " high") > strings.Index(text, " low") {
		t.Errorf("low above high in\n%s", text)
	}
	s := newFigureLayout(f)
	if len(s.names) != 2 || s.names[0].text != "high" || s.names[0].y >= s.names[1].y {
		t.Errorf("names %+v", s.names)
	}
}
