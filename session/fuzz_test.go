package session

import (
	"context"
	"math"
	"os"
	"strings"
	"testing"

	"steelyard/units"
)

// FuzzEnter enters any text as a few lines. Nothing panics, every span lies
// within its statement, every value is a number that can be printed, and taking
// all back leaves nothing.
func FuzzEnter(f *testing.F) {
	for _, path := range findingsFiles {
		data, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		for _, block := range strings.Split(string(data), "\n## ") {
			f.Add(block)
		}
	}
	f.Add("U(x) = 1/2*k*x^2 in J\nU(3)\nlet k in N/m\n1 lap = 400 m\nundo")
	f.Add("k = 2 N/m\nU(x) = 1/2*k*x^2 in J\ngraph U(x), 1 J against x from 0 to 3 m in J blank\ntable U(x) against x from 0 to 1 m by 0.1 m\nslope of U(x) at x = 2 m\nW = area under k*x against x from 0 to 1 m\nbars at \"a\": W | at 'b': 3 J with work 2 J within 1 %\nsteps W\nW with k = 3 N/m")
	f.Add("solve x + y = 3 m and x*exp(y/(2 m)) = 4 m for x, y where x > y\nsteps all\nsolve tan(w) = 2*w for w where w > 1\nscaling w against w")
	f.Add("v = 0\nv + 1 m\nv^2/0\nx = v@1\nreport sign of v")
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 4000 {
			return
		}
		p := New()
		for _, line := range strings.Split(text, "\n") {
			e := p.Enter(context.Background(), line)
			for _, found := range e.Findings {
				if found.At.From < 0 || found.At.From > found.At.To || found.At.To > len(e.Text) {
					t.Fatalf("%q: the span %v of %s lies outside", e.Text, found.At, found.ID)
				}
				if found.Message == "" || found.ID.Sentence() == "" {
					t.Fatalf("%q: a finding %q without words", e.Text, found.ID)
				}
			}
			for _, v := range e.Values() {
				if math.IsNaN(v.SI) || math.IsInf(v.SI, 0) || v.Shown(units.Screen) == "" || v.Shown(units.File) == "" {
					t.Fatalf("%q: the value %v", e.Text, v.SI)
				}
			}
		}
		p.Names()
		for range p.Entries() {
			p.Undo()
		}
		if _, more := p.Undo(); more || len(p.Names()) != 0 {
			t.Fatal("something is left after all is taken back")
		}
	})
}
