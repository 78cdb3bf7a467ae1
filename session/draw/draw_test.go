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
		Shapes: []string{"U(x) rises as a parabola, K(x) falls as one, E is level."},
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
		Shapes: []string{"Two damped oscillations a quarter of a period apart."},
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
		Shapes: []string{"A pole at 12 micrometres."},
		X:      axis("g / m", 0, 60e-6), Y: axis("b / m", -60e-6, 60e-6),
		Curves: []entry.Curve{curve("b(g)", [][]point{sampled(1e-6, 11.99e-6, 200, image), sampled(12.01e-6, 60e-6, 200, image)})},
	}
}

// A force that depends on the distance between two magnets of a toy train in
// three ways: all curves leave the plot at its top, two close together.
func magnets() *entry.Graph {
	f := &entry.Graph{
		Shapes: []string{"Three curves fall steeply and end at 4 cm."},
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
	f := &entry.Graph{Shapes: []string{"Six curves end close together."}, X: axis("t / s", 0, 4), Y: axis("v / (m/s)", 0, 2)}
	for i := range 6 {
		k := float64(i)
		f.Curves = append(f.Curves, curve("v_"+string(rune('1'+i)), [][]point{sampled(0, 4, 300, func(t float64) float64 { return 1.5 - (0.2+0.2*k)*math.Exp(-t) })}))
	}
	return f
}

var figures = map[string]func() *entry.Graph{
	"plunger": plunger, "swing": swing, "lens": lens, "magnets": magnets, "bundle": bundle,
	"blank": func() *entry.Graph { f := swing(); f.Blank = true; return f },
}

func TestTextGoldens(t *testing.T) {
	for name, make := range figures {
		golden(t, name+".txt", GraphText(make(), 60, 20, false))
		golden(t, name+".ascii.txt", GraphText(make(), 60, 20, true))
		golden(t, name+".narrow.txt", GraphText(make(), 30, 14, false))
	}
}
