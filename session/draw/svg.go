package draw

import (
	"html"
	"math"
	"strconv"
	"strings"
	"unicode"
)

// svgWriter is a drawing on its way to SVG.
type svgWriter struct {
	out    []byte
	prefix string // of the ids
	class  string // of a page's drawing; none for one in a file of its own
	told   bool   // what the drawing is in words
}

// put writes source as it is.
func (w *svgWriter) put(parts ...string) {
	for _, s := range parts {
		w.out = append(w.out, s...)
	}
}

// attribute writes one whose value is a number.
func (w *svgWriter) attribute(name string, v float64) {
	w.put(" ", name, `="`)
	w.out = append(appendNum(w.out, v), '"')
}

// move writes a command of a path with the place that it leads to.
func (w *svgWriter) move(command byte, p point) {
	w.out = append(appendNum(append(w.out, command), p.X), ' ')
	w.out = appendNum(w.out, p.Y)
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
	v = math.Round(v * 100)
	if math.Abs(v) > 1e15 {
		return strconv.AppendFloat(to, v/100, 'f', -1, 64)
	}
	n := int64(v)
	if n < 0 {
		to, n = append(to, '-'), -n
	}
	to = strconv.AppendInt(to, n/100, 10)
	if n %= 100; n > 0 {
		to = append(to, '.', '0'+byte(n/10))
	}
	if n %= 10; n > 0 {
		to = append(to, '0'+byte(n))
	}
	return to
}

func (w *svgWriter) begin(width, height float64, spoken, description string, fills int) {
	w.put(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 `, num(width), " ", num(height), `"`)
	w.attribute("width", width)
	w.attribute("height", height)
	if w.class != "" {
		w.put(` class="`, w.class, `"`)
	}
	w.put(` role="img" aria-labelledby="`, w.prefix, `-title `, w.prefix, `-desc" font-family="system-ui, 'Liberation Sans', Arial, Helvetica, sans-serif" font-size="`, num(fontSize), `" fill="currentColor">`, "\n")
	if !w.told { // the drawings of one thing share what is told of it
		w.put(`<title id="`, w.prefix, `-title">`, escape(clean(spoken)), "</title>\n")
		w.put(`<desc id="`, w.prefix, `-desc">`, escape(clean(description)), "</desc>\n")
		w.told = true
	}
	if w.class == "" { // whoever shows the file has paper of any colour
		w.put(`<rect width="100%" height="100%" fill="#fff"/>`, "\n")
	}
	if fills == 0 {
		return
	}
	w.put("<defs>")
	for i, fill := range svgFills[:fills] {
		if fill != "" {
			w.put(`<pattern id="`, w.fill(i), `" width="6" height="6" patternUnits="userSpaceOnUse">`, fill, "</pattern>")
		}
	}
	w.put("</defs>\n")
}

func (w *svgWriter) end() { w.put("</svg>\n") }

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

func (w *svgWriter) fill(i int) string { return w.prefix + w.class + "-fill" + strconv.Itoa(i) }

func (w *svgWriter) bar(b box, fill int, dashed bool) {
	filled, dash := "none", ""
	if dashed {
		dash = ` stroke-dasharray="5 3"`
	} else if svgFills[fill] != "" {
		filled = "url(#" + w.fill(fill) + ")"
	}
	w.put("<rect")
	w.attribute("x", b.left)
	w.attribute("y", b.top)
	w.attribute("width", b.right-b.left)
	w.attribute("height", b.bottom-b.top)
	w.put(` fill="`, filled, `" stroke="currentColor" stroke-width="1.4"`, dash, "/>\n")
}

// looks writes how a line is drawn, and ends its path.
func (w *svgWriter) looks(k ink) {
	w.put(`" fill="none" stroke="currentColor"`)
	if k.drawn {
		w.put(` class="curve"`)
	}
	if k.faint {
		w.put(` stroke-opacity="0.25"`)
	}
	switch {
	case k.dash != nil:
		w.put(` stroke-linejoin="round" stroke-linecap="butt" stroke-dasharray="`)
		for i, n := range k.dash {
			if i > 0 {
				w.put(" ")
			}
			w.out = appendNum(w.out, n)
		}
		w.put(`"`)
	case k.curve:
		w.put(` stroke-linejoin="round" stroke-linecap="round"`)
	}
	w.attribute("stroke-width", k.width)
	w.put("/>\n")
}

func (w *svgWriter) curves(k ink, lines [][]point) {
	if len(lines) == 0 {
		return
	}
	w.put(`<path d="`)
	for _, line := range lines {
		w.move('M', line[0])
		for _, p := range line[1:] {
			w.move('L', p)
		}
		if len(line) == 1 {
			w.put("h0.01") // a dot: round caps make it visible
		}
	}
	w.looks(k)
}

func (w *svgWriter) arrow(k ink, from, to point) {
	w.curves(k, [][]point{{from, to}})
	k.dash = nil
	w.curves(k, [][]point{barbs(from, to)})
}

func (w *svgWriter) dot(at point, open bool) {
	w.put("<circle")
	w.attribute("cx", at.X)
	w.attribute("cy", at.Y)
	w.attribute("r", dotRadius)
	if open {
		w.put(` fill="none" stroke="currentColor" stroke-width="1.4"`)
	}
	w.put("/>\n")
}

// rules writes a path whose short steps are told by their length, so that ticks are alike.
func (w *svgWriter) rules(k ink, lines [][]point) {
	if len(lines) == 0 {
		return
	}
	w.put(`<path d="`)
	for _, line := range lines {
		w.move('M', line[0])
		for i, to := range line[1:] {
			if from := line[i]; from.X == to.X {
				w.step('v', 'V', from.Y, to.Y)
			} else {
				w.step('h', 'H', from.X, to.X)
			}
		}
	}
	w.looks(k)
}

// step writes a level or upright step: a short one by its length, such as that of
// a tick, which is then the same for all.
func (w *svgWriter) step(by, to byte, a, b float64) {
	if d := b - a; math.Abs(d) < 2*tickLength {
		w.out = appendNum(append(w.out, by), d)
	} else {
		w.out = appendNum(append(w.out, to), b)
	}
}

func (w *svgWriter) line(t textLine) {
	w.put("<text")
	w.attribute("x", t.x)
	w.attribute("y", t.y)
	switch t.anchor {
	case middle:
		w.put(` text-anchor="middle"`)
	case end:
		w.put(` text-anchor="end"`)
	}
	if t.names {
		w.put(` class="name"`)
	}
	w.put(">")
	if t.math.IsEmpty() {
		w.put(escape(t.text))
	} else {
		w.out = t.math.SVG(w.out)
	}
	w.put("</text>\n")
}

func escape(text string) string {
	if !strings.ContainsAny(text, "&<>\"'") {
		return text
	}
	return html.EscapeString(text)
}
