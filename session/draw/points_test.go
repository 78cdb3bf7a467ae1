package draw

import (
	"math"
	"strings"
	"testing"

	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/graph"
	"steelyard/units"
)

// readingsOf is a graph of points with error bars along a line.
func readingsOf(n int) *entry.Graph {
	head := func(name string) entry.Head {
		return entry.Head{Of: []syntax.Expr{&syntax.Name{Name: name}}, Unit: units.One}
	}
	g := &entry.Graph{X: entry.Axis{Label: head("x"), To: 10}, Y: entry.Axis{Label: head("y"), From: -2, To: 12}}
	g.Curves = []entry.Curve{{Of: &syntax.Name{Name: "y"}, Runs: [][]graph.Point{{{X: 0, Y: 0}, {X: 10, Y: 10}}}}}
	for i := range n {
		x := 10 * float64(i) / float64(n-1)
		g.Points = append(g.Points, entry.Reading{Point: graph.Point{X: x, Y: x}, UX: 0.5, UY: 1})
	}
	return g
}

// TestReadings draws each point as a dot and each error bar with its ends, in every form.
func TestReadings(t *testing.T) {
	g := readingsOf(5)
	svg := Graph(g).File()
	if dots := strings.Count(svg, "<circle"); dots != 5 {
		t.Errorf("%d dots", dots)
	}
	tex, ok := Graph(g).TeX()
	if !ok || strings.Count(tex, `\circle*{6.4}`) != 5 {
		t.Error(tex)
	}
	for ascii, want := range map[bool]string{true: "@|-", false: "●│─"} {
		text := Graph(g).Text(70, 22, ascii)
		for _, sign := range want {
			if !strings.ContainsRune(text, sign) {
				t.Errorf("no %c in\n%s", sign, text)
			}
		}
	}
}

// TestManyReadings draws no more dots than there are places, and takes points that lie
// outside or are none.
func TestManyReadings(t *testing.T) {
	g := readingsOf(100_000)
	g.Points = append(g.Points, entry.Reading{Point: graph.Point{X: math.NaN(), Y: 1}}, entry.Reading{Point: graph.Point{X: 1e300, Y: -1e300}, UY: math.Inf(1)})
	if dots := strings.Count(Graph(g).File(), "<circle"); dots > 2000 {
		t.Errorf("%d dots", dots)
	}
	Graph(g).Text(80, 24, false)
}
