package graph

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
)

// of makes a batch function of a plain one; what is not a number has no value.
func of(f func(float64) float64) Function {
	return func(x, y []float64, ok []bool) {
		for i := range x {
			y[i] = f(x[i])
			ok[i] = y[i]-y[i] == 0
		}
	}
}

// TestRecognise draws known shapes at random, a hundred times each, and
// compares their numbers.
func TestRecognise(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	draw := func() float64 { return math.Pow(10, 3*r.Float64()-1.5) * float64(1-2*r.IntN(2)) }
	tests := []struct {
		name     string
		make     func(a, b, c float64) func(float64) float64
		want     func(a, b, c float64) Shape
		from, to float64
	}{
		{"constant", func(a, _, _ float64) func(float64) float64 { return func(float64) float64 { return a } },
			func(a, _, _ float64) Shape { return Shape{Kind: Constant, C: a} }, -1, 2},
		{"line", func(a, b, _ float64) func(float64) float64 { return func(x float64) float64 { return a*x + b } },
			func(a, b, _ float64) Shape { return Shape{Kind: Line, B: a, C: b} }, -1, 2},
		{"line through the origin", func(a, _, _ float64) func(float64) float64 { return func(x float64) float64 { return a * x } },
			func(a, _, _ float64) Shape { return Shape{Kind: Line, B: a} }, 0, 5},
		{"parabola", func(a, b, c float64) func(float64) float64 { return func(x float64) float64 { return a*x*x + b*x + c } },
			func(a, b, c float64) Shape { return Shape{Kind: Parabola, A: a, B: b, C: c} }, -2, 3},
		{"inverse", func(a, _, _ float64) func(float64) float64 { return func(x float64) float64 { return a / x } },
			func(a, _, _ float64) Shape { return Shape{Kind: Power, A: a, E: -1, Of: 1} }, 0.5, 4},
		{"inverse square", func(a, _, _ float64) func(float64) float64 { return func(x float64) float64 { return a / (x * x) } },
			func(a, _, _ float64) Shape { return Shape{Kind: Power, A: a, E: -2, Of: 1} }, 0.5, 4},
		{"square root", func(a, _, _ float64) func(float64) float64 {
			return func(x float64) float64 { return a * math.Sqrt(x) }
		},
			func(a, _, _ float64) Shape { return Shape{Kind: Power, A: a, E: 1, Of: 2} }, 0, 4},
		{"cube", func(a, _, _ float64) func(float64) float64 { return func(x float64) float64 { return a * x * x * x } },
			func(a, _, _ float64) Shape { return Shape{Kind: Power, A: a, E: 3, Of: 1} }, -1, 2},
		{"exponential", func(a, b, c float64) func(float64) float64 {
			return func(x float64) float64 { return a * math.Exp(math.Mod(b, 3)*x) }
		}, func(a, b, _ float64) Shape { return Shape{Kind: Exponential, A: a, B: math.Mod(b, 3)} }, 0, 2},
		{"wave", func(a, b, c float64) func(float64) float64 {
			return func(x float64) float64 { return a * math.Sin((2+math.Abs(math.Mod(b, 9)))*x+c) }
		}, func(a, b, _ float64) Shape {
			return Shape{Kind: Wave, A: math.Abs(a), B: 2 + math.Abs(math.Mod(b, 9))}
		}, 0, 3},
	}
	for _, tt := range tests {
		for range 100 {
			a, b, c := draw(), draw(), draw()
			got, _, _ := Recognise(of(tt.make(a, b, c)), tt.from, tt.to)
			want := tt.want(a, b, c)
			got.From = 0
			size := math.Max(math.Max(math.Abs(want.A), math.Abs(want.B)), math.Abs(want.C))
			if got.Kind != want.Kind || got.E != want.E || got.Of != want.Of ||
				math.Abs(got.A-want.A) > 1e-6*size || math.Abs(got.B-want.B) > 1e-6*size || math.Abs(got.C-want.C) > 1e-6*size {
				t.Errorf("%s with %g, %g, %g: %+v, want %+v", tt.name, a, b, c, got, want)
			}
		}
	}
}

// TestNearMisses are not given the name of what they look like.
func TestNearMisses(t *testing.T) {
	tests := []struct {
		name     string
		f        func(float64) float64
		from, to float64
		not      []Kind
	}{
		{"a cubic beside a line", func(x float64) float64 { return x + 1e-6*x*x*x }, -1, 1, []Kind{Line, Parabola, Wave}},
		{"a parabola beside a line", func(x float64) float64 { return x + 1e-6*x*x }, -1, 1, []Kind{Line}},
		{"1/x³ beside 1/x²", func(x float64) float64 { return 1 / (x * x * x) }, 1, 1.2, []Kind{Exponential, Parabola}},
		{"1/x to the 1.999", func(x float64) float64 { return math.Pow(x, -1.999) }, 1, 3, []Kind{Power}},
		{"a root of a shifted x", func(x float64) float64 { return math.Sqrt(x + 0.01) }, 0, 4, []Kind{Power}},
		{"1/(x + 0.001)", func(x float64) float64 { return 1 / (x + 0.001) }, 1, 2, []Kind{Power, Exponential}},
		{"a damped wave", func(x float64) float64 { return math.Exp(-1e-4*x) * math.Sin(5*x) }, 0, 6, []Kind{Wave}},
		{"a wave that gets faster", func(x float64) float64 { return math.Sin(5*x + 1e-4*x*x) }, 0, 6, []Kind{Wave}},
		{"two waves", func(x float64) float64 { return math.Sin(5*x) + 1e-4*math.Sin(10*x) }, 0, 6, []Kind{Wave}},
		{"a large swing", func(x float64) float64 { return math.Sin(0.3 * math.Sin(5*x)) }, 0, 6, []Kind{Wave}},
		{"sinh beside exp", func(x float64) float64 { return math.Sinh(x) }, 2, 4, []Kind{Exponential}},
		{"a sine beside a parabola", func(x float64) float64 { return math.Cos(x) }, -0.1, 0.1, []Kind{Parabola}},
		{"a quartic beside a parabola", func(x float64) float64 { return x*x + 1e-5*x*x*x*x }, -1, 1, []Kind{Parabola, Wave}},
		{"|x| beside a line", math.Abs, -1, 1, []Kind{Line, Parabola, Wave, Power}},
		{"a step", func(x float64) float64 { return math.Floor(x) }, -0.5, 1.5, []Kind{Line, Constant, Wave}},
		{"a line with a kink", func(x float64) float64 { return x + 1e-6*math.Max(0, x-0.5) }, 0, 1, []Kind{Line, Parabola}},
		{"nearly constant", func(x float64) float64 { return 1 + 1e-7*x }, 0, 1, []Kind{Constant}},
		{"√ beside x^0.4999", func(x float64) float64 { return math.Pow(x, 0.4999) }, 0.1, 4, []Kind{Power}},
		{"ln x", math.Log, 1, 3, []Kind{Power, Exponential, Parabola, Line}},
		{"a bell", func(x float64) float64 { return math.Exp(-x * x) }, -1, 1, []Kind{Wave, Parabola, Exponential}},
	}
	for _, tt := range tests {
		got, _, _ := Recognise(of(tt.f), tt.from, tt.to)
		for _, k := range tt.not {
			if got.Kind == k {
				t.Errorf("%s was taken for %+v", tt.name, got)
			}
		}
	}
}

// TestSampleGaps breaks curves where they have no value or jump, and only there.
func TestSampleGaps(t *testing.T) {
	nan := math.NaN()
	tests := []struct {
		name     string
		f        func(float64) float64
		from, to float64
		runs     int
		ends     []float64 // where pieces begin and end
		cut      bool
	}{
		{"a line", func(x float64) float64 { return x }, 0, 1, 1, []float64{0, 1}, false},
		{"1/x", func(x float64) float64 { return 1 / x }, -1, 1.1, 2, nil, true},
		{"1/x²", func(x float64) float64 { return 1 / (x * x) }, -1, 1.1, 2, nil, true},
		{"tan", math.Tan, -4, 4, 3, nil, true},
		{"a half circle", func(x float64) float64 { return math.Sqrt(1 - x*x) }, -1.37, 1.41, 1, []float64{-1, 1}, false},
		{"a step", func(x float64) float64 { return math.Floor(x) }, -0.5, 1.5, 3, nil, false},
		{"a steep rise", func(x float64) float64 { return math.Tanh(1e5 * (x - 0.3)) }, 0, 1, 1, []float64{0, 1}, false},
		{"nothing", func(float64) float64 { return nan }, 0, 1, 0, nil, false},
		{"a gap", func(x float64) float64 {
			if x > 0.25 && x < 0.5 {
				return nan
			}
			return x
		}, 0, 1, 2, []float64{0, 0.25, 0.5, 1}, false},
		{"|x|", math.Abs, -1, 1, 1, []float64{-1, 1}, false},
		{"a narrow peak", func(x float64) float64 { return 1 / (1 + 1e4*x*x) }, -1, 1.1, 1, []float64{-1, 1.1}, false},
	}
	for _, tt := range tests {
		c := Sample(of(tt.f), tt.from, tt.to)
		if len(c.Runs) != tt.runs || c.Cut != tt.cut {
			t.Errorf("%s: %d pieces, cut %v", tt.name, len(c.Runs), c.Cut)
			continue
		}
		var ends []float64
		for _, run := range c.Runs {
			ends = append(ends, run[0].X, run[len(run)-1].X)
		}
		for i, want := range tt.ends {
			if math.Abs(ends[i]-want) > 1e-9 {
				t.Errorf("%s: ends %v, want %v", tt.name, ends, tt.ends)
			}
		}
	}
}

// TestSampleFollows keeps the chords close to the curve.
func TestSampleFollows(t *testing.T) {
	for i, f := range []func(float64) float64{
		func(x float64) float64 { return x * x }, math.Sin, func(x float64) float64 { return math.Sin(20 * x) },
		func(x float64) float64 { return math.Exp(-5*x) * math.Cos(40*x) }, func(x float64) float64 { return 1 / (1 + 1e4*x*x) }, math.Sqrt,
	} {
		c := Sample(of(f), 0, 3)
		for _, run := range c.Runs {
			for k := 1; k < len(run); k++ {
				a, b := run[k-1], run[k]
				mid := (a.X + b.X) / 2
				if off := math.Abs(f(mid) - (a.Y+b.Y)/2); off > 0.004*(c.Hi-c.Lo) {
					t.Errorf("curve %d is %g off at %g", i, off/(c.Hi-c.Lo), mid)
				}
			}
		}
	}
}

func TestLook(t *testing.T) {
	f := of(func(x float64) float64 { return x*x*x*x - x*x })
	got := Look(f, Sample(f, -1.5, 1.5), -1.5, 1.5)
	if !got.Even || got.Odd || got.Rises || got.Falls || math.Abs(got.Least.Y+0.25) > 1e-12 || math.Abs(math.Abs(got.Least.X)-math.Sqrt2/2) > 1e-6 {
		t.Errorf("%+v", got)
	}
	if fmt.Sprintf("%.6f", got.Zeros) != "[-1.000000 0.000000 1.000000]" && fmt.Sprintf("%.6f", got.Zeros) != "[-1.000000 -0.000000 1.000000]" {
		t.Errorf("zeros %v", got.Zeros)
	}
}

func BenchmarkSample(b *testing.B) {
	f := of(func(x float64) float64 { return math.Exp(-x) * math.Sin(20*x) })
	for b.Loop() {
		Sample(f, 0, 3)
	}
}

func BenchmarkRecognise(b *testing.B) {
	f := of(func(x float64) float64 { return 3 * math.Sin(20*x+1) })
	for b.Loop() {
		Recognise(f, 0, 3)
	}
}

// TestEnds finds the dots of jumps and the places of poles.
func TestEnds(t *testing.T) {
	step := of(func(x float64) float64 {
		if x <= 2 {
			return 1
		}
		return 3
	})
	c := Sample(step, 0, 5)
	if len(c.Dots) != 2 || c.Dots[0].Open || !c.Dots[1].Open || c.Dots[0].X != 2 || c.Dots[0].Y != 1 || c.Dots[1].Y != 3 {
		t.Errorf("a step that has its value before: %+v", c.Dots)
	}
	before := of(func(x float64) float64 { return math.Floor(x / math.Sqrt2) })
	if c := Sample(before, 0, 2, math.Sqrt2); len(c.Dots) != 2 || !c.Dots[0].Open || c.Dots[1].Open || c.Dots[1].X != math.Sqrt2 {
		t.Errorf("a step at a place that is told: %+v", c.Dots)
	}
	sign := of(func(x float64) float64 { return x / math.Abs(x) })
	if c := Sample(sign, -1, 1); len(c.Dots) != 2 || !c.Dots[0].Open || !c.Dots[1].Open {
		t.Errorf("a step without a value: %+v", c.Dots)
	}
	for name, tt := range map[string]struct {
		f        func(float64) float64
		from, to float64
		poles    []float64
	}{
		"1/x":        {func(x float64) float64 { return 1 / x }, -2, 2, []float64{0}},
		"1/x²":       {func(x float64) float64 { return 1 / (x * x) }, -2, 2.1, []float64{0}},
		"tan":        {math.Tan, 0, 6, []float64{math.Pi / 2, 3 * math.Pi / 2}},
		"1/√(x - 1)": {func(x float64) float64 { return 1 / math.Sqrt(x-1) }, 0, 5, []float64{1}},
		// The last of the poles is so near the end that the value there is the greatest seen.
		"1/cos²":     {func(x float64) float64 { return 1 / (math.Cos(x) * math.Cos(x)) }, 0, 11, []float64{math.Pi / 2, 3 * math.Pi / 2, 5 * math.Pi / 2, 7 * math.Pi / 2}},
		"1/(x - 1)²": {func(x float64) float64 { return 1 / ((x - 1) * (x - 1)) }, 0.999, 3, []float64{1}},
		"exp":        {math.Exp, 0, 100, nil},
		"√(x² - 1)":  {func(x float64) float64 { return math.Sqrt(x*x - 1) }, -2, 2, nil},
		"sin":        {math.Sin, 0, 6, nil},
	} {
		c := Sample(of(tt.f), tt.from, tt.to)
		if len(c.Poles) != len(tt.poles) || len(c.Dots) > 0 {
			t.Errorf("%s: poles %v, dots %v", name, c.Poles, c.Dots)
			continue
		}
		for i, want := range tt.poles {
			if math.Abs(c.Poles[i]-want) > 1e-3*(tt.to-tt.from) {
				t.Errorf("%s: a pole at %v, want %v", name, c.Poles[i], want)
			}
		}
	}
}

// TestSampleOn holds the points on logarithmic axes against the function.
func TestSampleOn(t *testing.T) {
	f := func(x float64) float64 { return 1 / (1 + x*x/1e6) }
	c := SampleOn(Axes{Across: true, Up: true}, of(f), 1, 1e6)
	if len(c.Runs) != 1 || c.Runs[0][0].X != 1 || c.Runs[0][len(c.Runs[0])-1].X != 1e6 {
		t.Fatalf("%d runs", len(c.Runs))
	}
	for _, p := range c.Runs[0] {
		if want := f(p.X); math.Abs(p.Y-want) > 1e-9*want {
			t.Errorf("at %v: %v, want %v", p.X, p.Y, want)
		}
	}
	if c := SampleOn(Axes{Up: true}, of(func(float64) float64 { return -1 }), 0, 1); !c.Empty() {
		t.Error("a value below 0 on a logarithmic axis")
	}
}

// TestSamplePath follows a circle, and a path of which one coordinate is only there later.
func TestSamplePath(t *testing.T) {
	p := SamplePath(of(math.Cos), of(math.Sin), 0, 2*math.Pi)
	if len(p.Runs) != 1 || len(p.Runs[0]) < 100 {
		t.Fatalf("%d runs", len(p.Runs))
	}
	for _, at := range p.Runs[0] {
		if off := math.Abs(math.Hypot(at.X, at.Y) - 1); off > 1e-12 {
			t.Errorf("%v is %v off the circle", at, off)
		}
	}
	p = SamplePath(of(func(x float64) float64 { return math.Sqrt(x - 1) }), of(func(x float64) float64 { return x }), 0, 3)
	if len(p.Runs) != 1 || math.Abs(p.Runs[0][0].X) > 1e-6 || math.Abs(p.Runs[0][0].Y-1) > 1e-6 {
		t.Errorf("begins at %v", p.Runs[0][0])
	}
}

// TestCoarse samples waves that are too quick for the points, whichever slow wave they
// look like there, and curves that only seem so: steps, peaks and poles.
func TestCoarse(t *testing.T) {
	wave := func(w float64) func(float64) float64 { return func(x float64) float64 { return math.Sin(w * x) } }
	tests := map[string]struct {
		f    func(float64) float64
		want bool
	}{
		"a slow wave":                 {wave(20), false},
		"a wave of 100 periods":       {wave(62.8), false},
		"a quick wave":                {wave(1e9), true},
		"one of an even step":         {wave(2 * math.Pi * 19.2 * 8), true},
		"its size":                    {func(x float64) float64 { return math.Abs(math.Sin(3e6 * x)) }, true},
		"one that grows":              {func(x float64) float64 { return x * math.Sin(2e4*x) }, true},
		"steps":                       {func(x float64) float64 { return math.Round(10 * x) }, false},
		"a tangent":                   {func(x float64) float64 { return math.Tan(3 * x) }, false},
		"a narrow pulse":              {func(x float64) float64 { return math.Exp(-1e8 * (x - 3) * (x - 3)) }, false},
		"a line":                      {func(x float64) float64 { return 3 * x }, false},
		"a wave on top of a parabola": {func(x float64) float64 { return x*x + 0.01*math.Sin(1e7*x) }, false},
	}
	for name, tt := range tests {
		if got := Sample(of(tt.f), 0, 10).Coarse; got != tt.want {
			t.Errorf("%s is coarse: %t", name, got)
		}
	}
}
