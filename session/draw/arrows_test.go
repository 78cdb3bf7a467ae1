package draw

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/graph"
	"steelyard/units"
)

// arrowsOf are arrows by the components of each, one after the other or from one point.
func arrowsOf(chained bool, parts ...[2]float64) *entry.Arrows {
	a := &entry.Arrows{Unit: units.Of("N"), Chained: chained}
	at := graph.Point{}
	for i, p := range parts {
		one := entry.Arrow{Of: &syntax.Name{Name: "F" + strconv.Itoa(i+1), Vector: true}, From: at}
		one.Value = entry.Value{Unit: a.Unit, List: &entry.List{SI: p[:], InUnit: p[:], Vector: true}}
		one.To = graph.Point{X: at.X + p[0], Y: at.Y + p[1]}
		if chained {
			at = one.To
		}
		a.Arrows = append(a.Arrows, one)
	}
	return a
}

// TestArrowsToScale holds the lengths and directions of what is drawn against the vectors.
func TestArrowsToScale(t *testing.T) {
	parts := [][2]float64{{3, 4}, {-5, 12}, {8, -15}, {0, -7}}
	for _, chained := range []bool{false, true} {
		for _, boxed := range []bool{false, !chained} {
			for _, w := range []float64{wide, medium, narrow} {
				a := arrowsOf(chained, parts...)
				a.Boxed = boxed
				s := newArrowsFigure(a, plotHeight, clean).layout(w)
				if len(s.shafts) != len(parts) {
					t.Fatalf("%d arrows of %d", len(s.shafts), len(parts))
				}
				for i, one := range s.shafts {
					dx, dy := (one.to.X-one.from.X)/s.scale, (one.from.Y-one.to.Y)/s.scale
					if math.Hypot(dx-parts[i][0], dy-parts[i][1]) > 1e-9 {
						t.Errorf("arrow %d is drawn as (%v, %v), not %v", i+1, dx, dy, parts[i])
					}
					if !chained && !boxed && one.from != s.origin || chained && i > 0 && one.from.off(s.shafts[i-1].to) > 1e-9 {
						t.Errorf("chained %v: arrow %d begins at %v", chained, i+1, one.from)
					}
				}
				length, _ := strconv.ParseFloat(strings.Fields(s.names[len(s.names)-1].text)[0], 64)
				if got := s.scaleArrow.from.off(s.scaleArrow.to); math.Abs(got-length*s.scale) > 1e-9 {
					t.Errorf("the scale arrow of %v N is %v long, not %v", length, got, length*s.scale)
				}
			}
		}
	}
}

// TestNamesOfArrows draws arrows at random, many of them along each other: every name finds
// a place within the drawing, on no arrow and on no other name.
func TestNamesOfArrows(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 11))
	for trial := range 120 {
		var parts [][2]float64
		for range 1 + random.IntN(12) {
			size, turn := math.Exp(3*random.Float64()), float64(random.IntN(16))*math.Pi/8
			if trial%2 == 0 {
				turn = random.Float64() * 2 * math.Pi
			}
			parts = append(parts, [2]float64{size * math.Cos(turn), size * math.Sin(turn)})
		}
		a := arrowsOf(trial%3 == 0, parts...)
		a.Boxed, a.Angles, a.Components = trial%3 == 1, trial%5 == 0 && len(parts) < 5, trial%7 == 0 && len(parts) < 4
		a.Arrows[len(parts)-1].Sum = trial%4 == 0
		for _, w := range []float64{wide, medium, narrow} {
			s := newArrowsFigure(a, plotHeight, clean).layout(w)
			if len(s.names) != len(s.wanted)+1 {
				t.Errorf("trial %d, %v wide: %d names of %d have a place", trial, w, len(s.names)-1, len(s.wanted))
			}
			boxes := boxesOf(s)
			for i, b := range boxes {
				if b.left < 0 || b.right > s.width || b.top < 0 || b.bottom > s.height {
					t.Errorf("trial %d, %v wide: a text leaves the drawing: %v", trial, w, b)
				}
				for _, c := range boxes[:i] {
					if b.meets(c) {
						t.Errorf("trial %d, %v wide: texts meet: %v, %v", trial, w, b, c)
					}
				}
				for _, one := range s.shafts {
					if _, _, on := b.segment(one.from, one.to); on {
						t.Errorf("trial %d, %v wide: a text is on an arrow: %v, %v", trial, w, b, one)
					}
				}
			}
		}
		for _, columns := range []int{5, 20, 40, 80, 100} {
			for _, ascii := range []bool{false, true} {
				text := Arrows(a).Text(columns, 22, ascii)
				checkText(t, text, columns, ascii)
				for i := range parts {
					if name := "F" + strconv.Itoa(i+1); columns >= 40 && !strings.Contains(text, name) && long(a, i) {
						t.Errorf("trial %d, %d columns: %s is missing in\n%s", trial, columns, name, text)
					}
				}
			}
		}
	}
}

// long tells whether an arrow is at least a twentieth of the longest.
func long(a *entry.Arrows, i int) bool {
	most := 0.0
	for _, one := range a.Arrows {
		most = math.Max(most, one.Value.Magnitude().InUnit)
	}
	return a.Arrows[i].Value.Magnitude().InUnit > most/20
}

// TestWildArrows draws what is very long, very short or nothing.
func TestWildArrows(t *testing.T) {
	for _, parts := range [][][2]float64{
		{{1e300, -1e300}, {1, 1}}, {{1e-300, 0}}, {{5e-324, 5e-324}}, {{0, 0}, {1, 0}}, {{0, 1}, {0, 1}, {0, 1}, {0, -1}}, {{1, 0}, {-1, 0}, {1, 0}, {-1, 0}},
	} {
		for _, chained := range []bool{false, true} {
			a := arrowsOf(chained, parts...)
			a.Angles, a.Components, a.Boxed = true, true, !chained
			svg := string(Arrows(a).SVG(nil, "a"))
			wellFormed(t, svg)
			for _, wild := range []string{"NaN", "Inf", "e+", "e-0", "e-1"} {
				if strings.Contains(coordinates(svg), wild) {
					t.Errorf("%s among the coordinates of %v", wild, parts)
				}
			}
			if _, ok := Arrows(a).TeX(); !ok {
				t.Errorf("no picture of %v", parts)
			}
			checkText(t, Arrows(a).Text(80, 22, true), 80, true)
		}
	}
}
