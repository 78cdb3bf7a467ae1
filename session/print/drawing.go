package print

import "steelyard/session/draw"

// Drawing is one of the drawings of a document as a file of SVG, counted from the top
// from 1 on; empty where there are fewer. It tells how many there are.
func (d *Document) Drawing(n int) (svg string, of int) {
	all := d.Blocks
	for _, p := range d.Parts {
		all = append(all[:len(all):len(all)], p.Blocks...)
	}
	for _, b := range all {
		switch b := b.(type) {
		case figure:
			if of++; of == n {
				svg = draw.GraphFile(b.Graph)
			}
		case energyBars:
			if of++; of == n {
				svg = draw.BarsFile(b.Bars)
			}
		}
	}
	return svg, of
}
