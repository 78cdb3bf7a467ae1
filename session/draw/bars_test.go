package draw

import (
	"strings"
	"testing"
)

// A market's spring scale let go with a melon on it, then held still by hand.
func scale() *Bars {
	return &Bars{
		Description: "K grows from nothing; U of the weight falls below zero.", Unit: "J",
		Stages: []Stage{
			{`at "let go"`, []Bar{{"K", 0, "0 J"}, {"U_s", 0, "0 J"}, {"U_g", 0, "0 J"}}, "E = 0 J"},
			{`at "midway"`, []Bar{{"K", 0.4624, "0.462 J"}, {"U_s", 0.4624, "0.462 J"}, {"U_g", -0.925, "−0.925 J"}}, "E = 0 J"},
			{`at "held"`, []Bar{{"K", 0, "0 J"}, {"U_s", 0.4624, "0.462 J"}, {"U_g", -0.925, "−0.925 J"}}, "E = −0.462 J"},
		},
		Work: &Bar{"W", -0.4624, "−0.462 J"},
	}
}

func shot() *Bars {
	return &Bars{
		Description: "U turns into K.", Unit: "J",
		Stages: []Stage{
			{`at "pulled back"`, []Bar{{"K", 0, "0 J"}, {"U", 0.925, "0.925 J"}}, "total 0.925 J"},
			{`at "released"`, []Bar{{"K", 0.88, "0.880 J"}, {"U", 0.004, "0.004 J"}}, "total 0.884 J"},
		},
	}
}

var charts = map[string]func() *Bars{"scale": scale, "shot": shot}

func TestBarsGoldens(t *testing.T) {
	for name, make := range charts {
		golden(t, name+".txt", make().Text(60, false))
		golden(t, name+".ascii.txt", make().Text(60, true))
		golden(t, name+".narrow.txt", make().Text(30, false))
		svg := make().SVG("b")
		golden(t, name+".svg", svg)
		wellFormed(t, svg)
		s := newBarsLayout(make())
		s.draw(&svgWriter{})
		apart(t, s.boxes, s.width, s.height)
	}
}

func TestBarsToScale(t *testing.T) {
	b := &Bars{Stages: []Stage{{"", []Bar{{"A", 4, "4 J"}, {"B", 2, "2 J"}, {"C", 0, "0 J"}, {"D", 1e-9, "1 nJ"}}, ""}}}
	lines := strings.Split(b.Text(60, true), "\n")
	var n []int
	for _, line := range lines[:4] {
		n = append(n, strings.Count(line, "#"))
	}
	if n[0] == 0 || n[1] != (n[0]+1)/2 || n[2] != 0 || n[3] != 1 {
		t.Errorf("lengths %v in\n%s", n, strings.Join(lines, "\n"))
	}
}
