package session

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"steelyard/lang/finding"
)

// built is an equation built around a value of the unknown: text and function
// of one operation after the other.
type built struct {
	text string
	at   float64
	of   func(float64) float64
}

// operations wrap an expression into a further one. Each is undone in one way
// or another where the solver knows how.
var operations = []func(b built, c float64) built{
	func(b built, c float64) built {
		return built{fmt.Sprintf("(%s + %g)", b.text, c), 0, func(u float64) float64 { return b.of(u) + c }}
	},
	func(b built, c float64) built {
		return built{fmt.Sprintf("(%g - %s)", c, b.text), 0, func(u float64) float64 { return c - b.of(u) }}
	},
	func(b built, c float64) built {
		return built{fmt.Sprintf("%g*%s", c, b.text), 0, func(u float64) float64 { return c * b.of(u) }}
	},
	func(b built, c float64) built {
		return built{fmt.Sprintf("(%s/%g)", b.text, c), 0, func(u float64) float64 { return b.of(u) / c }}
	},
	func(b built, c float64) built {
		return built{fmt.Sprintf("(%g/(%s))", c, b.text), 0, func(u float64) float64 { return c / b.of(u) }}
	},
	func(b built, _ float64) built {
		return built{fmt.Sprintf("(%s)^2", b.text), 0, func(u float64) float64 { return b.of(u) * b.of(u) }}
	},
	func(b built, _ float64) built {
		return built{fmt.Sprintf("√(%s)", b.text), 0, func(u float64) float64 { return math.Sqrt(b.of(u)) }}
	},
	func(b built, _ float64) built {
		return built{fmt.Sprintf("exp(%s)", b.text), 0, func(u float64) float64 { return math.Exp(b.of(u)) }}
	},
	func(b built, _ float64) built {
		return built{fmt.Sprintf("ln(%s)", b.text), 0, func(u float64) float64 { return math.Log(b.of(u)) }}
	},
	func(b built, _ float64) built {
		return built{fmt.Sprintf("sin(%s)", b.text), 0, func(u float64) float64 {
			if x := b.of(u); math.Abs(x) <= math.Pi/2 {
				return math.Sin(x)
			}
			return math.NaN() // the principal value is another one
		}}
	},
	func(b built, c float64) built { // the unknown a second time
		return built{fmt.Sprintf("(%s + %g*u)", b.text, c), 0, func(u float64) float64 { return b.of(u) + c*u }}
	},
}

// randomEquation builds an equation whose sides are moderate numbers.
func randomEquation(r *rand.Rand, kinds int) built {
	for {
		u := 0.2 + 2*r.Float64()
		b := built{"u", u, func(u float64) float64 { return u }}
		for range 1 + r.IntN(4) {
			c := math.Round((0.5+4*r.Float64())*100) / 100
			b = operations[r.IntN(kinds)](b, c)
		}
		b.at = u
		// Where the function hardly changes, the value of the unknown is lost in
		// the rounding of the right side.
		if v, w := b.of(u), b.of(u*(1+1e-6)); math.Abs(v) > 1e-3 && math.Abs(v) < 1e3 && math.Abs(w-v) > 1e-8*math.Abs(v) && math.Abs(w-v) < 1e-3*math.Abs(v) {
			return b
		}
	}
}

// solveRandom solves an equation near the value it was built around. It returns
// whether it was solved, and whether what was found is right.
func solveRandom(b built) (line string, solved, right bool) {
	line = fmt.Sprintf("solve %s = %.17g for u where u > %.9g and u < %.9g", b.text, b.of(b.at), b.at*0.9999, b.at*1.0001)
	e := New().Enter(context.Background(), line)
	if len(e.Values()) != 1 {
		for _, f := range e.Findings {
			switch f.ID {
			case finding.NotSolved, finding.NoSolution, finding.WhichRoot:
				return line, false, true
			}
		}
		return line, false, false
	}
	got := e.Values()[0].SI
	want := b.of(b.at)
	return line, true, math.Abs(b.of(got)-want) <= 1e-6*math.Abs(want)
}

// TestSolveRandom solves equations built around a known value: what is found
// must satisfy the equation as worked out by other means, and most of those
// whose unknown occurs once must be found.
func TestSolveRandom(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for _, tt := range []struct {
		name  string
		kinds int
		least float64
	}{{"the unknown once", len(operations) - 1, 0.97}, {"the unknown perhaps again", len(operations), 0.8}} {
		const n = 2000
		solved := 0
		for range n {
			line, ok, right := solveRandom(randomEquation(r, tt.kinds))
			if !right {
				t.Errorf("%s: a wrong answer, or a finding of another kind", line)
			}
			if ok {
				solved++
			}
		}
		t.Logf("%s: %d of %d solved", tt.name, solved, n)
		if share := float64(solved) / n; share < tt.least {
			t.Errorf("%s: only %.1f %% solved", tt.name, 100*share)
		}
	}
}

// BenchmarkSolveRandom solves such equations, and tells the share solved.
func BenchmarkSolveRandom(b *testing.B) {
	r := rand.New(rand.NewPCG(3, 4))
	solved := 0
	for b.Loop() {
		line, ok, right := solveRandom(randomEquation(r, len(operations)))
		if !right {
			b.Fatalf("%s: a wrong answer", line)
		}
		if ok {
			solved++
		}
	}
	b.ReportMetric(100*float64(solved)/float64(b.N), "%solved")
}
