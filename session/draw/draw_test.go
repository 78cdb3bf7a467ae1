package draw

import (
	"flag"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/graph"
	"steelyard/units"
)

var update = flag.Bool("update", false, "write the golden files anew")

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs; got:\n%s", name, got)
	}
}

// expr reads an expression; what is none is a name.
func expr(text string) syntax.Expr {
	if x, findings := syntax.ParseExpr(text); x != nil && len(findings) == 0 {
		return x
	}
	return &syntax.Name{Name: text}
}

// axis reads a label "x / cm"; what is none is words.
func axis(label string, from, to float64) entry.Axis {
	a := entry.Axis{Label: entry.Head{Words: label}, From: from, To: to}
	symbol, unit, _ := strings.Cut(label, " / ")
	if u, bad := units.NewTable().Parse(strings.Trim(unit, "()"), units.AloneInPlace); bad == nil {
		a.Label = entry.Head{Of: []syntax.Expr{expr(symbol)}, Unit: u}
	}
	return a
}

func curve(name string, runs [][]point) entry.Curve {
	return entry.Curve{Of: expr(name), Runs: sampledRuns(runs)}
}

func sampledRuns(runs [][]point) [][]graph.Point {
	out := make([][]graph.Point, len(runs))
	for i, run := range runs {
		for _, p := range run {
			out[i] = append(out[i], graph.Point(p))
		}
	}
	return out
}

func sampled(from, to float64, n int, f func(float64) float64) []point {
	points := make([]point, 0, n)
	for i := range n {
		x := from + (to-from)*float64(i)/float64(n-1)
		points = append(points, point{x, f(x)})
	}
	return points
}

// The plunger of a pinball table: a spring of 185 N/m pulled back 10 cm.
func plunger() *entry.Graph {
	u := func(x float64) float64 { return 0.5 * 185 * x * x * 1e-4 }
	return &entry.Graph{
		Shapes: entry.Rows("U(x) rises as a parabola, K(x) falls as one, E is level."),
		X:      axis("x / cm", 0, 10), Y: axis("E / J", 0, 1),
		Curves: []entry.Curve{
			curve("K(x)", [][]point{sampled(0, 10, 500, func(x float64) float64 { return u(10) - u(x) })}),
			curve("U(x)", [][]point{sampled(0, 10, 500, u)}),
			curve("E", [][]point{sampled(0, 10, 500, func(float64) float64 { return u(10) })}),
		},
	}
}

// A porch swing's displacement and speed: both signs of both axes.
func swing() *entry.Graph {
	return &entry.Graph{
		Shapes: entry.Rows("Two damped oscillations a quarter of a period apart."),
		X:      axis("t / s", -2, 8), Y: axis("s / m", -0.8, 0.8),
		Curves: []entry.Curve{
			curve("s(t)", [][]point{sampled(-2, 8, 500, func(t float64) float64 { return 0.6 * math.Exp(-t/9) * math.Cos(2.2*t) })}),
			curve("v(t)", [][]point{sampled(-2, 8, 500, func(t float64) float64 { return -0.5 * math.Exp(-t/9) * math.Sin(2.2*t) })}),
		},
	}
}

// The distance of a lens's image has a pole at the focal length.
func lens() *entry.Graph {
	image := func(g float64) float64 { return 1 / (1/12e-6 - 1/g) }
	return &entry.Graph{
		Shapes: entry.Rows("A pole at 12 micrometres."),
		X:      axis("g / m", 0, 60e-6), Y: axis("b / m", -60e-6, 60e-6),
		Curves: []entry.Curve{curve("b(g)", [][]point{sampled(1e-6, 11.99e-6, 200, image), sampled(12.01e-6, 60e-6, 200, image)})},
	}
}

// A force that depends on the distance between two magnets of a toy train in
// three ways: all curves leave the plot at its top, two close together.
func magnets() *entry.Graph {
	f := &entry.Graph{
		Shapes: entry.Rows("Three curves fall steeply and end at 4 cm."),
		X:      axis("d / cm", 0, 10), Y: axis("F / N", 0, 5),
	}
	for i, name := range []string{"F_1(d)", "F_2(d)", "measured"} {
		k := float64(i + 1)
		f.Curves = append(f.Curves, curve(name, [][]point{sampled(4, 0.1, 500, func(d float64) float64 { return k * 2 / (d * d) })}))
	}
	return f
}

// Six curves that end in nearly the same point.
func bundle() *entry.Graph {
	f := &entry.Graph{Shapes: entry.Rows("Six curves end close together."), X: axis("t / s", 0, 4), Y: axis("v / (m/s)", 0, 2)}
	for i := range 6 {
		k := float64(i)
		f.Curves = append(f.Curves, curve("v_"+string(rune('1'+i)), [][]point{sampled(0, 4, 300, func(t float64) float64 { return 1.5 - (0.2+0.2*k)*math.Exp(-t) })}))
	}
	return f
}

// The height of a lift's floor that jumps, with the value at the jump on its right.
func stairs() *entry.Graph {
	f := &entry.Graph{Shapes: entry.Rows("Two levels."), X: axis("t / s", 0, 6), Y: axis("h / m", 2, 5), Curves: []entry.Curve{curve("h", [][]point{{{0, 2}, {2, 2}}, {{2, 5}, {6, 5}}})}}
	f.Curves[0].Dots = []graph.Dot{{Point: graph.Point{X: 2, Y: 2}, Open: true}, {Point: graph.Point{X: 2, Y: 5}}}
	return f
}

// A filter's gain over six decades of the frequency, and its asymptote; both axes are
// logarithmic.
func filter() *entry.Graph {
	x, y := axis("f / Hz", 1, 1e6), axis("G", 1e-6, 1)
	x.Log, y.Log = true, true
	decades := func(f func(x float64) float64) []point {
		points := sampled(0, 6, 200, func(e float64) float64 { return f(math.Pow(10, e)) })
		for i := range points {
			points[i].X = math.Pow(10, points[i].X)
		}
		return points
	}
	return &entry.Graph{Shapes: entry.Rows("Level, then a fall."), X: x, Y: y, Curves: []entry.Curve{
		curve("G(f)", [][]point{decades(func(f float64) float64 { return 1 / (1 + f*f/1e6) })}),
		curve("G_0(f)", [][]point{decades(func(f float64) float64 { return 1e6 / (f * f) })}),
	}}
}

// The seat of a fairground wheel goes round once.
func wheel() *entry.Graph {
	points := sampled(0, 2*math.Pi, 200, func(a float64) float64 { return 3 * math.Sin(a) })
	for i := range points {
		points[i].X = 3 * math.Cos(points[i].X)
	}
	return &entry.Graph{Path: true, Shapes: entry.Rows("A circle."), X: axis("x / m", -3, 3), Y: axis("y / m", -3, 3), Curves: []entry.Curve{curve("y", [][]point{points})}}
}

var figures = map[string]func() *entry.Graph{
	"plunger": plunger, "swing": swing, "lens": lens, "magnets": magnets, "bundle": bundle, "stairs": stairs, "filter": filter, "wheel": wheel,
	"blank": func() *entry.Graph { f := swing(); f.Blank = true; return f },
}

func TestTextGoldens(t *testing.T) {
	for name, make := range figures {
		golden(t, name+".txt", Graph(make()).Text(60, 20, false))
		golden(t, name+".ascii.txt", Graph(make()).Text(60, 20, true))
		golden(t, name+".narrow.txt", Graph(make()).Text(30, 14, false))
	}
}

// A path in one unit has its true shape, curves keep head room, and the line that runs to
// an open dot ends at it.
func TestTrueToScale(t *testing.T) {
	for _, w := range widths {
		s := newFigure(wheel()).layout(w)
		a, b := s.at(1, 1), s.at(0, 0)
		if across, up := a.X-b.X, b.Y-a.Y; math.Abs(across-up) > 1e-9 {
			t.Errorf("at %v, a metre is %v across and %v up", w, across, up)
		}
		for name, make := range figures {
			s := newFigure(make()).layout(w)
			_, hi := make().Y.From, make().Y.To
			if room := s.at(s.x.from, hi).Y - s.box.top; hi > 0 && !s.Blank && room < 0.04*(s.box.bottom-s.box.top) {
				t.Errorf("%s at %v: only %v of room above %v", name, w, room, hi)
			}
		}
		open := newFigure(stairs()).layout(w)
		line := open.seen[0][0]
		if end := line[len(line)-1]; math.Abs(open.at(2, 2).X-end.X-dotRadius) > 1e-9 {
			t.Errorf("at %v, the line ends at %v", w, end)
		}
	}
}

// TestHeightOfLevel holds that a level line has a logarithmic axis if it is asked for.
func TestHeightOfLevel(t *testing.T) {
	lo, hi := Height(&entry.Graph{Y: entry.Axis{From: 3, To: 3, Log: true}})
	if !(lo > 0 && lo < 3 && hi > 3) {
		t.Errorf("from %v to %v", lo, hi)
	}
}
