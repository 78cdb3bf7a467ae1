package draw

import (
	"html"
	"math"
	"strconv"
	"strings"
	"unicode"

	"steelyard/session/entry"
)

// GraphSVG draws a graph as one svg element, for a page or a file of its own. The
// element's ids begin with a prefix, which must differ between the drawings of
// one page. The element has a size of its own; a page for narrow screens lets it
// shrink by its style sheet.
func GraphSVG(g *entry.Graph, prefix string) string {
	w := svgWriter{prefix: identifier(prefix)}
	newFigureLayout(g).draw(&w)
	return w.String()
}

// BarsSVG draws a chart as one svg element; the prefix is that of a graph.
func BarsSVG(b *entry.Bars, prefix string) string {
	w := svgWriter{prefix: identifier(prefix)}
	newBarsLayout(b).draw(&w)
	return w.String()
}

// svgWriter is a drawing on its way to SVG.
type svgWriter struct {
	strings.Builder
	prefix string // of the ids
}

// identifier keeps what may stand in an id without being quoted anywhere.
func identifier(prefix string) string {
	var b strings.Builder
	for _, r := range prefix {
		if r < 128 && (unicode.IsLetter(r) || unicode.IsDigit(r) || r == '-' || r == '_') {
			b.WriteRune(r)
		}
	}
	if b.Len() == 0 || !unicode.IsLetter(rune(b.String()[0])) {
		return "g" + b.String()
	}
	return b.String()
}

// num writes a coordinate with at most two decimals.
func num(v float64) string { return string(appendNum(nil, v)) }

func appendNum(to []byte, v float64) []byte {
	v = math.Round(v*100) / 100
	if v == 0 {
		return append(to, '0') // never -0
	}
	return strconv.AppendFloat(to, v, 'f', -1, 64)
}

func (w *svgWriter) begin(width, height float64, spoken, description string, fills int) {
	w.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ` + num(width) + " " + num(height) + `" width="` + num(width) + `" height="` + num(height) +
		`" role="img" aria-labelledby="` + w.prefix + `-title ` + w.prefix + `-desc" font-family="system-ui, 'Liberation Sans', Arial, Helvetica, sans-serif" font-size="14" fill="currentColor">` + "\n")
	w.WriteString(`<title id="` + w.prefix + `-title">` + escape(clean(spoken)) + "</title>\n")
	w.WriteString(`<desc id="` + w.prefix + `-desc">` + escape(clean(description)) + "</desc>\n")
	if fills == 0 {
		return
	}
	w.WriteString("<defs>")
	for i, fill := range svgFills[:fills] {
		if fill != "" {
			w.WriteString(`<pattern id="` + w.fill(i) + `" width="6" height="6" patternUnits="userSpaceOnUse">` + fill + "</pattern>")
		}
	}
	w.WriteString("</defs>\n")
}

func (w *svgWriter) end() { w.WriteString("</svg>\n") }

// Fills of the bars by what they stand for, in turn; the first two of most
// charts are as unlike as can be. An empty one is an outline alone.
var svgFills = [fillKinds]string{
	`<path d="M0 6L6 0M-1 1L1 -1M5 7L7 5" stroke="currentColor" stroke-width="1"/>`,
	``,
	`<circle cx="3" cy="3" r="1.1"/>`,
	`<path d="M0 3H6" stroke="currentColor" stroke-width="1"/>`,
	`<path d="M0 0L6 6M0 6L6 0" stroke="currentColor" stroke-width="0.8"/>`,
	`<path d="M3 0V6" stroke="currentColor" stroke-width="1.6"/>`,
	`<path d="M0 3H6M3 0V6" stroke="currentColor" stroke-width="0.8"/>`,
}

func (w *svgWriter) fill(i int) string { return w.prefix + "-fill" + strconv.Itoa(i) }

func (w *svgWriter) bar(b box, fill int, dashed bool) {
	filled, dash := "none", ""
	if dashed {
		dash = ` stroke-dasharray="5 3"`
	} else if svgFills[fill] != "" {
		filled = "url(#" + w.fill(fill) + ")"
	}
	w.WriteString(`<rect x="` + num(b.left) + `" y="` + num(b.top) + `" width="` + num(b.right-b.left) + `" height="` + num(b.bottom-b.top) +
		`" fill="` + filled + `" stroke="currentColor" stroke-width="1.4"` + dash + "/>\n")
}

// attributes are those of a line.
func (k ink) attributes() string {
	s := ` fill="none" stroke="currentColor"`
	if k.faint {
		s += ` stroke-opacity="0.25"`
	}
	switch {
	case k.dash != nil:
		var lengths []string
		for _, n := range k.dash {
			lengths = append(lengths, num(n))
		}
		s += ` stroke-linejoin="round" stroke-linecap="butt" stroke-dasharray="` + strings.Join(lengths, " ") + `"`
	case k.curve:
		s += ` stroke-linejoin="round" stroke-linecap="round"`
	}
	return s + ` stroke-width="` + num(k.width) + `"`
}

func (w *svgWriter) path(k ink, d string) {
	if d != "" {
		w.WriteString(`<path d="` + d + `"` + k.attributes() + "/>\n")
	}
}

func (w *svgWriter) curves(k ink, lines [][]point) {
	var d []byte
	for _, line := range lines {
		for i, p := range line {
			command := byte('L')
			if i == 0 {
				command = 'M'
			}
			d = append(d, command)
			d = append(appendNum(d, p.X), ' ')
			d = appendNum(d, p.Y)
		}
		if len(line) == 1 {
			d = append(d, "h0.01"...) // a dot: round caps make it visible
		}
	}
	w.path(k, string(d))
}

func (w *svgWriter) rules(k ink, lines [][]point) {
	var d strings.Builder
	for _, line := range lines {
		d.WriteString("M" + num(line[0].X) + " " + num(line[0].Y))
		for i, to := range line[1:] {
			from := line[i]
			if from.X == to.X {
				d.WriteString(step("v", "V", from.Y, to.Y))
			} else {
				d.WriteString(step("h", "H", from.X, to.X))
			}
		}
	}
	w.path(k, d.String())
}

// step writes a level or upright step: a short one by its length, such as that of
// a tick, which is then the same for all.
func step(by, to string, a, b float64) string {
	if d := b - a; math.Abs(d) < 2*tickLength {
		return by + num(d)
	}
	return to + num(b)
}

func (w *svgWriter) line(t textLine) {
	w.WriteString(`<text x="` + num(t.x) + `" y="` + num(t.y) + `"`)
	switch t.anchor {
	case middle:
		w.WriteString(` text-anchor="middle"`)
	case end:
		w.WriteString(` text-anchor="end"`)
	}
	w.WriteByte('>')
	if t.math.IsEmpty() {
		w.WriteString(escape(t.text))
	} else {
		w.WriteString(t.math.SVG())
	}
	w.WriteString("</text>\n")
}

func escape(text string) string {
	if !strings.ContainsAny(text, "&<>\"'") {
		return text
	}
	return html.EscapeString(text)
}
