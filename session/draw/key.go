package draw

import "math"

// key tells below a drawing what stands for what: a sample each, with its name behind it.
//
// A graph has one for lines and a chart of bars one for fills. As many entries stand side by side
// as the longest name leaves room for; where that is one alone, a name may take several rows.
type key struct {
	names  []label
	sample float64 // the width of a sample
	gap    float64 // between a sample and its name
	apart  float64 // between a name and the next sample, at least
	most   int     // columns at most
	width  float64 // of the drawing
}

func (k *key) columns() int {
	widest := 1.0
	for _, name := range k.names {
		widest = math.Max(widest, k.sample+k.gap+textWidth(name.text)+k.apart)
	}
	return max(1, min(int((k.width-2*edge+k.apart)/widest), k.most))
}

// rows are those of a name in the room that one column has.
func (k *key) rows(name label) []label { return name.rows(k.width - 2*edge - k.sample - k.gap) }

// lines is how many rows of text the key is high.
func (k *key) lines() (n int) {
	if columns := k.columns(); columns > 1 {
		return (len(k.names) + columns - 1) / columns
	}
	for _, name := range k.names {
		n += len(k.rows(name))
	}
	return n
}

// write puts the key on a sheet, from y downward. Sample draws that of an entry, whose row of
// text begins at x and y.
func (k *key) write(s *sheet, y float64, sample func(i int, x, y float64)) {
	columns := k.columns()
	across := (k.width - 2*edge) / float64(columns)
	for i, name := range k.names {
		x := edge + across*float64(i%columns)
		sample(i, x, y)
		below := s.block(x+k.sample+k.gap, y, k.rows(name))
		if (i+1)%columns == 0 {
			y = below
		}
	}
}
