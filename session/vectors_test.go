package session_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"steelyard/session"
	"steelyard/session/entry"
)

// vectorPage is a page on which vectors are worked out.
type vectorPage struct {
	t *testing.T
	p *session.Pad
}

// value enters a line, and returns its value.
func (v vectorPage) value(format string, args ...any) entry.Value {
	text := fmt.Sprintf(format, args...)
	e := v.p.Enter(context.Background(), text)
	if len(e.Values()) != 1 {
		v.t.Fatalf("%s: %v", text, e.Findings)
	}
	return e.Values()[0]
}

// near compares a value with what it should be, to a part of a size.
func (v vectorPage) near(got entry.Value, size float64, want ...float64) {
	v.t.Helper()
	for i, one := range got.Elements() {
		if math.Abs(one.SI-want[i]) > 1e-12*size {
			v.t.Fatalf("component %d is %v, want %v", i, one.SI, want[i])
		}
	}
}

// drawn checks a hundred pages of numbers that are drawn, of which some are 0 or 1.
//
// The numbers come from a seed: the library that draws them elsewhere makes tables as it
// begins, which the benchmarks here would pay for.
func drawn(t *testing.T, check func(v vectorPage, number func() float64)) {
	r := rand.New(rand.NewPCG(13, 1))
	number := func() float64 {
		if r.IntN(8) == 0 {
			return float64(r.IntN(3) - 1)
		}
		return float64(r.IntN(100_001)-50_000) / 1000
	}
	for range 100 {
		check(vectorPage{t, session.New()}, number)
	}
}

// TestVectorsInThePlane holds vectors of random components against gonum's, and against the
// rules of plane geometry.
func TestVectorsInThePlane(t *testing.T) {
	drawn(t, func(v vectorPage, number func() float64) {
		a, b := r2.Vec{X: number(), Y: number()}, r2.Vec{X: number(), Y: number()}
		big := 1 + r2.Norm(a) + r2.Norm(b)
		v.value("a = (%.17g, %.17g) m", a.X, a.Y)
		v.value("b = (%.17g, %.17g) m", b.X, b.Y)
		sum := r2.Add(a, b)
		v.near(v.value("a + b"), big, sum.X, sum.Y)
		v.near(v.value("2*a - b/4"), big, 2*a.X-b.X/4, 2*a.Y-b.Y/4)
		v.near(v.value("a·b"), big*big, r2.Dot(a, b))
		v.near(v.value("a×b"), big*big, r2.Cross(a, b))
		v.near(v.value("b×a"), big*big, -r2.Cross(a, b))
		v.near(v.value("|a|"), big, r2.Norm(a))
		if r2.Norm(a) > 1e-3 && r2.Norm(b) > 1e-3 {
			// By half the angle, from a rhombus of unit vectors: near 0° and 180° that loses nothing,
			// as a cosine does.
			one, other := r2.Unit(a), r2.Unit(b)
			v.near(v.value("angle(a, b)"), 1e2, 2*math.Atan2(r2.Norm(r2.Sub(one, other)), r2.Norm(r2.Add(one, other))))
			v.near(v.value("|a + b|^2"), big*big, r2.Norm2(a)+r2.Norm2(b)+2*r2.Norm(a)*r2.Norm(b)*r2.Cos(a, b)) // the law of cosines
			v.near(v.value("|a| at direction(a)"), big, a.X, a.Y)
			turned := r2.Rotate(a, 0.5, r2.Vec{})
			v.near(v.value("|a| at (direction(a) + 0.5 rad)"), big, turned.X, turned.Y)
		}
		if got := v.value("|a + b|").SI; got > r2.Norm(a)+r2.Norm(b)+1e-12*big {
			t.Fatalf("|a + b| is %v, above |a| + |b|", got)
		}
	})
}

// TestVectorsInSpace is the same in space.
func TestVectorsInSpace(t *testing.T) {
	drawn(t, func(v vectorPage, number func() float64) {
		draw := func() r3.Vec { return r3.Vec{X: number(), Y: number(), Z: number()} }
		a, b, c := draw(), draw(), draw()
		big := 1 + r3.Norm(a) + r3.Norm(b) + r3.Norm(c)
		for _, one := range []struct {
			name string
			r3.Vec
		}{{"a", a}, {"b", b}, {"c", c}} {
			v.value("%s = (%.17g, %.17g, %.17g) m", one.name, one.X, one.Y, one.Z)
		}
		n := r3.Cross(a, b)
		v.near(v.value("a×b"), big*big, n.X, n.Y, n.Z)
		v.near(v.value("a·b"), big*big, r3.Dot(a, b))
		v.near(v.value("|a - c|"), big, r3.Norm(r3.Sub(a, c)))
		v.near(v.value("(a×b)·a"), big*big*big, 0)
		v.near(v.value("a·(b×c) - c·(a×b)"), big*big*big, 0)
		v.near(v.value("a×(b×c) - b*(a·c) + c*(a·b)"), big*big*big, 0, 0, 0)
		v.near(v.value("(a×b)·(a×b) + (a·b)^2 - (a·a)*(b·b)"), big*big*big*big, 0)
		if r3.Norm(a) > 1e-3 {
			v.near(v.value("|unit(a)|"), 1, 1)
			v.near(v.value("angle(a, 3*a)"), 1e4, 0)
		}
	})
}

// TestVectorsInLists holds what is done to a list of vectors against the same done to each.
func TestVectorsInLists(t *testing.T) {
	axes := 2
	drawn(t, func(v vectorPage, number func() float64) {
		axes = 5 - axes
		vector := func() string {
			parts := make([]string, axes)
			for k := range parts {
				parts[k] = fmt.Sprintf("%.17g", number())
			}
			return "(" + strings.Join(parts, ", ") + ")"
		}
		names := []string{"a", "b", "c"}
		var list []string
		for _, name := range names {
			text := vector()
			list = append(list, text)
			v.value("%s = %s m", name, text)
		}
		v.value("F = [%s] m", strings.Join(list, ", "))
		v.value("d = %s m", vector())
		v.value("w = [1.5, -2, 0.25]")
		for _, of := range []string{"2*F - F/4", "F + d", "d - F", "F·d", "F×d", "d×F", "|F|", "F·F", "-F", "F*w", "w*d", "F + w*d", "F_x"} {
			got := v.value("%s", of)
			var want []float64
			for i, name := range names {
				scale := []string{"1.5", "(-2)", "0.25"}[i]
				one := strings.NewReplacer("F", name, "w", scale).Replace(of)
				want = append(want, elementsOf(v.value("%s", one))...)
			}
			v.near(got, 1e4, want...)
		}
		v.near(v.value("sum(F)"), 1e3, elementsOf(v.value("a + b + c"))...)
		v.near(v.value("mean(F)"), 1e3, elementsOf(v.value("(a + b + c)/3"))...)
		v.near(v.value("differences(F)"), 1e3, append(elementsOf(v.value("b - a")), elementsOf(v.value("c - b"))...)...)
		v.near(v.value("sum([a, b, c])"), 1e3, elementsOf(v.value("a + b + c"))...)
	})
}

// elementsOf are the numbers of a value in SI units.
func elementsOf(v entry.Value) []float64 {
	var out []float64
	for _, one := range v.Elements() {
		out = append(out, one.SI)
	}
	return out
}
