package print

import (
	"steelyard/session/draw"
	"steelyard/session/entry"
)

// drawn is a drawing with what is said below it.
//
// What is said of a drawing is words for whoever can't see it, and a help to read it for others,
// so it is printed and not only attached.
type drawn struct {
	draw.Drawing
	Below  []entry.Said
	Listed bool // what is said is a list, and no sentence
}

// drawable is a block with a drawing.
type drawable interface{ drawn() drawn }

func (b figure) drawn() drawn {
	if b.Blank { // the shapes would give the curves away
		return drawn{draw.Graph(b.Graph), nil, true}
	}
	return drawn{draw.Graph(b.Graph), b.Shapes, true}
}

func (b energyBars) drawn() drawn {
	out := drawn{Drawing: draw.Bars(b.Bars)}
	if told := b.Told(); told != nil {
		out.Below = []entry.Said{told}
	}
	return out
}

func (b arrows) drawn() drawn { return drawn{draw.Arrows(b.Arrows), b.Told, true} }

// Drawing is one of the drawings of a document as a file of SVG, counted from the top
// from 1 on; empty where there are fewer. It tells how many there are.
func (d *Document) Drawing(n int) (svg string, of int) {
	all := d.Blocks
	for _, p := range d.Parts {
		all = append(all[:len(all):len(all)], p.Blocks...)
	}
	for _, b := range all {
		if b, ok := b.(drawable); ok {
			if of++; of == n {
				svg = b.drawn().File()
			}
		}
	}
	return svg, of
}
