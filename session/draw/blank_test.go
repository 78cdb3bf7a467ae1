package draw

import (
	"math"
	"slices"
	"strings"
	"testing"

	"steelyard/session/entry"
)

// On blank axes every tick lies on a line of the grid and the grid is square.
func TestBlankSquares(t *testing.T) {
	for _, r := range [][2]float64{{0, 1}, {-2, 8}, {0, 0.37}, {13, 14}, {-5e-6, 7e-6}, {0, 99}} {
		s := newFigure(&entry.Graph{X: axis("x / m", r[0], r[1]), Y: axis("y / m", r[0], r[1]), Blank: true}).layout(wide)
		if s.x.from > r[0] || s.x.to < r[1] {
			t.Errorf("%v: shows only %v", r, s.x)
		}
		for i, v := range s.xTicks.at {
			n := (s.at(v, s.y.from).X - s.box.left) / s.square
			if math.Abs(n-math.Round(n)) > 1e-6 {
				t.Errorf("%v: tick %d is %v squares from the axis", r, i, n)
			}
		}
		across, down := (s.box.right-s.box.left)/s.square, (s.box.bottom-s.box.top)/s.square
		if across < 20 || down < 12 || s.square < 8 {
			t.Errorf("%v: only %v × %v squares of %v", r, across, down, s.square)
		}
		if free := s.width - s.box.right; free > 40 {
			t.Errorf("%v: %v of the width are not used", r, free)
		}
	}
}

func TestBlankHasNoAnswers(t *testing.T) {
	f := lens()
	f.Blank = true
	for _, got := range []string{string(Graph(f).SVG(nil, "g")), Graph(f).Text(60, 20, false)} {
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
	text := Graph(f).Text(60, 20, false)
	if strings.Index(text, " high") > strings.Index(text, " low") {
		t.Errorf("low above high in\n%s", text)
	}
	s := newFigure(f).layout(wide)
	above := slices.IndexFunc(s.names, func(n name) bool { return n.text == "high" })
	if len(s.names) != 2 || above < 0 || s.names[above].y >= s.names[1-above].y {
		t.Errorf("names %+v", s.names)
	}
}
