package referee

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"
)

// TestElementary holds the referee's functions against those of Go's library at
// random places, and against identities to nearly 200 bits.
func TestElementary(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 1))
	agree := func(name string, x, want float64, got between) {
		t.Helper()
		if math.Abs(got.mid()-want) > 4e-16*math.Max(math.Abs(want), 1e-3) {
			t.Errorf("%s(%g) is %g, here %s", name, x, want, got.text())
		}
	}
	tight := func(name string, x float64, got between) {
		t.Helper()
		if !got.holdsZero() || got.size() > 1e-50 {
			t.Errorf("%s at %g leaves %s", name, x, got.text())
		}
	}
	for range 200 {
		x := 20*r.Float64() - 10
		p := float(x)
		agree("sin", x, math.Sin(x), p.sin())
		agree("cos", x, math.Cos(x), p.cos())
		agree("atan", x, math.Atan(x), p.atan())
		agree("exp", x, math.Exp(x), p.exp())
		pos := p.abs()
		ln, _ := pos.ln()
		agree("ln", math.Abs(x), math.Log(math.Abs(x)), ln)
		back := ln.exp().sub(pos)
		tight("exp(ln x) - x", x, back)
		s, c := p.sin(), p.cos()
		tight("sin² + cos² - 1", x, s.mul(s).add(c.mul(c)).sub(whole(1)))
		asin, ok := s.asin()
		if !ok {
			t.Fatalf("asin(sin %g)", x)
		}
		tight("sin(asin(s)) - s", x, asin.sin().sub(s))
		cube, _ := pos.rational(big.NewRat(1, 3))
		third, _ := cube.power(3)
		tight("cbrt", x, third.sub(pos))
	}
	turn := piBetween().mul(whole(1000))
	tight("sin(1000π)", 1000, turn.sin())
	if wave := (between{float(1).lo, float(2).hi}).sin(); !wave.holds(big.NewFloat(1)) || wave.holds(big.NewFloat(0.8)) {
		t.Errorf("sin from 1 to 2 is from %s", wave.lo.Text('g', 6))
	}
}
