package draw

import (
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"
)

func wellFormed(t *testing.T, svg string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(svg))
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

// textBoxes draws the figure and gives the boxes of its texts.
func (f *Figure) textBoxes() (boxes []box, h float64) {
	s := newSVGFigure(f)
	s.draw("g")
	return s.boxes, s.height
}

func TestSVGGoldens(t *testing.T) {
	for name, make := range figures {
		svg := make().SVG()
		golden(t, name+".svg", svg)
		wellFormed(t, svg)
		boxes, h := make().textBoxes()
		apart(t, boxes, svgWidth, h)
	}
}
