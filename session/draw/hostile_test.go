package draw

import (
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"steelyard/session/entry"
)

// checkText checks what holds for every text: no line too wide, no colour.
func checkText(t *testing.T, text string, columns int, ascii bool) {
	t.Helper()
	for _, line := range strings.Split(text, "\n") {
		if n := width(line); n > max(2, columns) {
			t.Fatalf("a line of %d cells in %d columns: %q", n, columns, line)
		}
		if strings.ContainsRune(line, 0x1b) {
			t.Fatalf("an escape in %q", line)
		}
	}
	if !utf8.ValidString(text) {
		t.Fatalf("not UTF-8: %q", text)
	}
	for i := 0; ascii && i < len(text); i++ {
		if text[i] >= 128 {
			t.Fatalf("byte %d in ASCII text %q", text[i], text)
		}
	}
}

func checkFigure(t *testing.T, f *entry.Graph, columns, rows int) {
	t.Helper()
	checkText(t, Graph(f).Text(columns, rows, false), columns, false)
	checkText(t, Graph(f).Text(columns, rows, true), columns, true)
	svg := string(Graph(f).SVG(nil, "g"))
	wellFormed(t, svg)
	for _, wild := range []string{"NaN", "Inf", "e+", "e-0", "e-1"} {
		if strings.Contains(coordinates(svg), wild) {
			t.Fatalf("%s among the coordinates of %s", wild, svg)
		}
	}
	textsApart(t, f)
}

// coordinates gives the paths of a drawing.
func coordinates(svg string) string {
	var b strings.Builder
	for _, part := range strings.Split(svg, `<path d="`)[1:] {
		d, _, _ := strings.Cut(part, `"`)
		b.WriteString(d + "\n")
	}
	return b.String()
}

func hostileFigures() map[string]*entry.Graph {
	nan, inf := math.NaN(), math.Inf(1)
	noise := make([]point, 50_000)
	for i := range noise {
		noise[i] = point{math.Mod(float64(i)*0.6180339887, 1), math.Mod(float64(i)*0.7548776662, 1.4) - 0.2}
	}
	many := &entry.Graph{X: axis("x", 0, 1), Y: axis("y", 0, 1)}
	for i := range 40 {
		many.Curves = append(many.Curves, curve("f"+strings.Repeat("f", i), [][]point{{{0, 0}, {1, 0.5 + float64(i%3)*1e-3}}}))
	}
	middle := &entry.Graph{X: axis("x", 0, 1), Y: axis("y", 0, 1)}
	for i := range 12 {
		middle.Curves = append(middle.Curves, curve("curve "+strings.Repeat("i", i), [][]point{{{0, 0}, {0.5, 0.5}}}))
	}
	return map[string]*entry.Graph{
		"empty":     {},
		"no size":   {X: axis("x", 3, 3), Y: axis("y", -3, -3), Curves: []entry.Curve{curve("a", [][]point{{{3, -3}}})}},
		"not sizes": {X: axis("x", nan, inf), Y: axis("y", -inf, nan), Curves: []entry.Curve{curve("a", [][]point{{{nan, 1}, {1, inf}}, {}})}},
		"reversed":  {X: axis("x / m", 5, -5), Y: axis("y / m", 1, 0), Curves: []entry.Curve{curve("a", [][]point{{{-9, -9}, {9, 9}}})}},
		"largest":   {X: axis("x", -math.MaxFloat64, math.MaxFloat64), Y: axis("y", 0, 5e-324), Curves: []entry.Curve{curve("a", [][]point{{{-1e308, 1e308}, {1e308, -1e308}}})}},
		"crowded":   {X: axis("x", 1e9, 1e9+1e-7), Y: axis("y", 1e9, 1e9+3)},
		"hostile texts": {Shapes: entry.Rows("\"'<>&"), X: axis("<x> / \n"+strings.Repeat("m·", 200), 0, 1),
			Y: axis(strings.Repeat("long words ", 40), 0, 1), Curves: []entry.Curve{curve("\x1b<&>e\u0301", [][]point{{{0, 0}, {1, 1}}})}},
		"noise": {X: axis("x", 0, 1), Y: axis("y", 0, 1), Curves: []entry.Curve{curve("n", [][]point{noise})}},
		"spike": {X: axis("x", 0, 1), Y: axis("y", 0, 1), Curves: []entry.Curve{curve("n", [][]point{{{0, 0}, {0.5, 1e300}, {0.5, -1e300}, {1, 1}}})}},
		"many":  many, "middle": middle,
	}
}

func TestHostileFigures(t *testing.T) {
	for name, f := range hostileFigures() {
		t.Run(name, func(t *testing.T) {
			sizes := [][2]int{{60, 20}, {-1, -1}, {1, 1}, {2, 100}, {12, 3}, {20, 10}, {30, 8}, {1000, 1000}}
			if name == "noise" {
				sizes = sizes[:1]
			}
			for _, size := range sizes {
				checkFigure(t, f, size[0], size[1])
			}
			f.Blank = true
			checkFigure(t, f, 60, 20)
		})
	}
}

// A million points in order thin to what can be seen of them.
func TestManyPoints(t *testing.T) {
	f := &entry.Graph{X: axis("x", 0, 1), Y: axis("y", -1, 1), Curves: []entry.Curve{curve("w", [][]point{sampled(0, 1, 1_000_000, func(x float64) float64 { return 2 * math.Sin(1e5*x) })})}}
	checkFigure(t, f, 80, 24)
	if n := len(string(Graph(f).SVG(nil, "g"))); n > 300_000 {
		t.Errorf("%d bytes", n)
	}
	f.Curves[0].Runs = sampledRuns([][]point{sampled(0, 1, 1000, func(x float64) float64 { return math.Sin(9 * x) })})
	if n := len(coordinates(string(Graph(f).SVG(nil, "g")))); n > 4500 {
		t.Errorf("%d bytes of paths for a smooth curve at three widths", n)
	}
}

func checkBars(t *testing.T, b *entry.Bars, columns int) {
	t.Helper()
	checkText(t, Bars(b).Text(columns, 0, false), columns, false)
	checkText(t, Bars(b).Text(columns, 0, true), columns, true)
	svg := string(Bars(b).SVG(nil, "g"))
	wellFormed(t, svg)
	barsApart(t, b)
}

func TestHostileBars(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	long := strings.Repeat("long", 40)
	for _, b := range []*entry.Bars{
		{Unit: unit("J")},
		{Unit: unit("J"), Stages: []entry.Stage{{Work: pointer(energy("W", 1)), Sum: joules(0)}}},
		{Unit: unit("J"), Stages: []entry.Stage{{Sum: joules(0)}, {Name: "", Bars: nil, Sum: joules(0)}, {Name: "a", Bars: []entry.Bar{energy("", 0)}, Sum: joules(0)}}},
		{Unit: unit("J"), Stages: []entry.Stage{{Name: "a", Bars: []entry.Bar{energy("K", nan), energy("U", inf), energy("V", -inf), energy("V", 1e308), energy("W", -1e308)}, Sum: joules(0)}}},
		{Unit: unit("kg m^2/s^2"), Stages: []entry.Stage{{Name: long, Work: pointer(energy(long, -3)), Bars: []entry.Bar{energy(long, 1), energy("<&>\x00", -5e-324)}, Sum: joules(0)}}},
		{Unit: unit("nJ"), Stages: []entry.Stage{{Name: "a", Bars: []entry.Bar{energy("K", 2e-9)}, Sum: joules(0)}}},
	} {
		for _, columns := range []int{-1, 1, 2, 5, 12, 20, 30, 60, 1000} {
			checkBars(t, b, columns)
		}
	}
}

func FuzzFigure(f *testing.F) {
	f.Add("x / cm", "K(x)", 0.0, 1.0, 0.0, 1.0, 0.3, -0.5, 60, 20)
	f.Add("x", "a<b", -1e300, 1e300, 1e-320, 1e-300, math.Inf(1), math.NaN(), 1, 1)
	f.Add("0_ / _", "1__2_", 0.0, 1.0, 0.0, 1.0, 0.3, -0.5, 40, 2)
	f.Add("ψ / 10 m", "é\u0301", 5.0, 5.0, 3.0, -3.0, 4.0, 2.0, 30, 8)
	f.Fuzz(func(t *testing.T, label, name string, x0, x1, y0, y1, a, b float64, columns, rows int) {
		fig := &entry.Graph{
			Shapes: entry.Rows(label), X: axis(label, x0, x1), Y: axis(name, y0, y1),
			Curves: []entry.Curve{curve(name, [][]point{{{x0, y0}, {a, b}, {x1, y1}}}), curve(label, [][]point{{{x1, a}, {x0, b}}, {{b, a}}})},
		}
		checkFigure(t, fig, columns, rows)
		bars := &entry.Bars{Unit: unit("J"), Stages: []entry.Stage{{Name: label, Bars: []entry.Bar{energy(name, x0), energy(label, a)}, Sum: joules(0)}, {Name: name, Work: pointer(energy(name, b)), Bars: []entry.Bar{energy(label, y1)}, Sum: joules(0)}}}
		checkBars(t, bars, columns)
		if ticks := newSpan(x0, x1).ticks(columns); len(ticks.at) != len(ticks.texts) || len(ticks.at) > 250 {
			t.Errorf("%d ticks, %d texts", len(ticks.at), len(ticks.texts))
		}
		lo, hi := NiceRange(y0, y1)
		if !(lo < hi) || !isFinite(lo) || !isFinite(hi) {
			t.Errorf("NiceRange(%v, %v) = %v, %v", y0, y1, lo, hi)
		}
	})
}
