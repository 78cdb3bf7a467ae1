package draw

import (
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"steelyard/session/entry"
)

func wellFormed(t *testing.T, svg string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader("<figure>" + svg + "</figure>"))
	roots, depth := 0, 0
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("not well formed: %v\n%s", err, svg)
		}
		switch token.(type) {
		case xml.StartElement:
			if depth == 0 {
				roots++
			}
			depth++
		case xml.EndElement:
			depth--
		}
	}
	if roots != 1 {
		t.Fatalf("%d root elements", roots)
	}
}

// boxed is a drawing that keeps the boxes of its texts.
type boxed struct {
	svgWriter
	boxes []box
}

func (w *boxed) line(t textLine) { w.boxes = append(w.boxes, textBox(t.x, t.y, t.anchor, t.text)) }

// boxesOf are the boxes of the texts of a layout.
func boxesOf(s laidOut) []box {
	w := &boxed{svgWriter: svgWriter{prefix: "a"}}
	s.draw(w)
	return w.boxes
}

// apart checks the boxes of all texts: none overlaps another or the edge.
func apart(t *testing.T, boxes []box, w, h float64) {
	t.Helper()
	for i, b := range boxes {
		if b.left < 0 || b.top < 0 || b.right > w || b.bottom > h {
			t.Errorf("text %d is cut: %v in %v × %v", i, b, w, h)
		}
		for j := range i {
			if b.meets(boxes[j]) {
				t.Errorf("texts %d and %d overlap: %v %v", j, i, boxes[j], b)
			}
		}
	}
}

// widths are those that drawings are laid out for.
var widths = []float64{wide, medium, narrow}

// textsApart checks the texts of a figure at all widths.
func textsApart(t *testing.T, f *entry.Graph) {
	t.Helper()
	for _, w := range widths {
		s := newFigure(f).layout(w)
		apart(t, boxesOf(s), w, s.height)
	}
}

func TestSVGGoldens(t *testing.T) {
	for name, make := range figures {
		svg := string(Graph(make()).SVG(nil, "g"))
		golden(t, name+".svg", svg)
		wellFormed(t, svg)
		textsApart(t, make())
	}
}

// A picture of TeX has the same texts as SVG, and all of it lies in its frame.
func TestTeXPictures(t *testing.T) {
	for name, make := range figures {
		f := make()
		picture, ok := Graph(f).TeX()
		if !ok || strings.Count(picture, `\begin{picture}`) != 1 || !strings.HasSuffix(picture, "\\end{picture}}") {
			t.Errorf("%s: %v\n%s", name, ok, picture)
		}
		layout := newFigure(f).layout(wide)
		texts := []string{axisLabel(f.X, layout.xTicks.power).math.LaTeX()}
		for _, text := range layout.xTicks.texts {
			if text == "" || strings.Contains(text, "10") && f.X.Log {
				continue // a tick between two powers of ten, and one
			}
			texts = append(texts, strings.Replace(text, "−", "-", 1))
		}
		for _, text := range texts {
			if !strings.Contains(picture, "$"+text+"$") {
				t.Errorf("%s: no %s in\n%s", name, text, picture)
			}
		}
		if f.Blank == strings.Contains(picture, "qbezier") {
			t.Errorf("%s: curves only where there is something to see", name)
		}
	}
	for name, f := range hostileFigures() {
		if picture, _ := Graph(f).TeX(); strings.Contains(picture, "NaN") || strings.Contains(picture, "Inf") || strings.Contains(picture, "e+") {
			t.Errorf("%s: a coordinate that is none", name)
		}
	}
}

// An axis has ticks enough to tell its scale, however narrow the drawing.
func TestEnoughTicks(t *testing.T) {
	for _, to := range []float64{0.33, 6.3, 9, 15, 21, 40} {
		for _, from := range []float64{0, -to} {
			g := &entry.Graph{X: entry.Axis{From: from, To: to}, Y: entry.Axis{To: 1}, Blank: true}
			if s := newFigure(g).layout(narrow); len(s.xTicks.at) < leastTicks {
				t.Errorf("from %v to %v: ticks at %v", from, to, s.xTicks.at)
			}
		}
	}
}
