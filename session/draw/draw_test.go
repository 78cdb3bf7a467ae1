package draw

import (
	"flag"
	"math"
	"os"
	"path/filepath"
	"testing"
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

func sampled(from, to float64, n int, f func(float64) float64) []Point {
	points := make([]Point, 0, n)
	for i := range n {
		x := from + (to-from)*float64(i)/float64(n-1)
		points = append(points, Point{x, f(x)})
	}
	return points
}

// The plunger of a pinball table: a spring of 185 N/m pulled back 10 cm.
func plunger() *Figure {
	u := func(x float64) float64 { return 0.5 * 185 * x * x * 1e-4 }
	return &Figure{
		Description: "U(x) rises as a parabola, K(x) falls as one, E is level.",
		X:           Axis{"x / cm", 0, 10}, Y: Axis{"E / J", 0, 1},
		Curves: []Curve{
			{"K(x)", [][]Point{sampled(0, 10, 500, func(x float64) float64 { return u(10) - u(x) })}},
			{"U(x)", [][]Point{sampled(0, 10, 500, u)}},
			{"E", [][]Point{sampled(0, 10, 500, func(float64) float64 { return u(10) })}},
		},
	}
}

// A porch swing's displacement and speed: both signs of both axes.
func swing() *Figure {
	return &Figure{
		Description: "Two damped oscillations a quarter of a period apart.",
		X:           Axis{"t / s", -2, 8}, Y: Axis{"s / m", -0.8, 0.8},
		Curves: []Curve{
			{"s(t)", [][]Point{sampled(-2, 8, 500, func(t float64) float64 { return 0.6 * math.Exp(-t/9) * math.Cos(2.2*t) })}},
			{"v(t)", [][]Point{sampled(-2, 8, 500, func(t float64) float64 { return -0.5 * math.Exp(-t/9) * math.Sin(2.2*t) })}},
		},
	}
}

// The distance of a lens's image has a pole at the focal length.
func lens() *Figure {
	image := func(g float64) float64 { return 1 / (1/12e-6 - 1/g) }
	return &Figure{
		Description: "A pole at 12 micrometres.",
		X:           Axis{"g / m", 0, 60e-6}, Y: Axis{"b / m", -60e-6, 60e-6},
		Curves: []Curve{{"b(g)", [][]Point{sampled(1e-6, 11.99e-6, 200, image), sampled(12.01e-6, 60e-6, 200, image)}}},
	}
}

// A force that depends on the distance between two magnets of a toy train in
// three ways: all curves leave the plot at its top, two close together.
func magnets() *Figure {
	f := &Figure{
		Description: "Three curves fall steeply and end at 4 cm.",
		X:           Axis{"d / cm", 0, 10}, Y: Axis{"F / N", 0, 5},
	}
	for i, name := range []string{"F_1(d)", "F_2(d)", "measured"} {
		k := float64(i + 1)
		f.Curves = append(f.Curves, Curve{name, [][]Point{sampled(4, 0.1, 500, func(d float64) float64 { return k * 2 / (d * d) })}})
	}
	return f
}

// Six curves that end in nearly the same point.
func bundle() *Figure {
	f := &Figure{Description: "Six curves end close together.", X: Axis{"t / s", 0, 4}, Y: Axis{"v / (m/s)", 0, 2}}
	for i := range 6 {
		k := float64(i)
		f.Curves = append(f.Curves, Curve{"v_" + string(rune('1'+i)), [][]Point{sampled(0, 4, 300, func(t float64) float64 { return 1.5 - (0.2+0.2*k)*math.Exp(-t) })}})
	}
	return f
}

var figures = map[string]func() *Figure{
	"plunger": plunger, "swing": swing, "lens": lens, "magnets": magnets, "bundle": bundle,
	"blank": func() *Figure { f := swing(); f.Blank = true; return f },
}

func TestTextGoldens(t *testing.T) {
	for name, make := range figures {
		golden(t, name+".txt", make().Text(60, 20, false))
		golden(t, name+".ascii.txt", make().Text(60, 20, true))
		golden(t, name+".narrow.txt", make().Text(30, 14, false))
	}
}
