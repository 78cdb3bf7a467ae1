package draw

import (
	"html"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

const (
	fontSize   = 14.0
	emPart     = 0.6 // the width of a character in font sizes, estimated high
	lineHeight = 18.0
	ascent     = 11.0 // of capitals and most of all else above the baseline
	descent    = 4.0
)

// svgOut writes SVG and remembers the boxes of the texts it has written.
type svgOut struct {
	strings.Builder
	boxes []box
}

func escape(text string) string {
	if !strings.ContainsAny(text, "&<>\"'") {
		return text
	}
	return html.EscapeString(text)
}

// num writes a coordinate with at most two decimals.
func num(v float64) string {
	v = math.Round(v*100) / 100
	if v == 0 {
		return "0"
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// textWidth estimates the width of a text in drawing units.
func textWidth(text string) float64 { return float64(width(text)) * emPart * fontSize }

// textBox gives the box of a text at its anchor ("start", "middle" or "end").
func textBox(x, y float64, anchor, text string) box {
	w := textWidth(text)
	switch anchor {
	case "middle":
		x -= w / 2
	case "end":
		x -= w
	}
	return box{x, y - ascent, x + w, y + descent}
}

// open begins the drawing: its size, and what it is in words.
func (o *svgOut) open(prefix, title, description string, w, h float64) {
	prefix = identifier(prefix)
	o.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ` + num(w) + " " + num(h) + `" width="` + num(w) + `" height="` + num(h) +
		`" role="img" aria-labelledby="` + prefix + `-title ` + prefix + `-desc" font-family="system-ui, 'Liberation Sans', Arial, Helvetica, sans-serif" font-size="14" fill="currentColor">` + "\n")
	o.WriteString(`<title id="` + prefix + `-title">` + escape(clean(title)) + "</title>\n")
	o.WriteString(`<desc id="` + prefix + `-desc">` + escape(clean(description)) + "</desc>\n")
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

// text writes one line of text. inner is its markup where it is more than the
// escaped text.
func (o *svgOut) text(x, y float64, anchor, attributes, text, inner string) {
	if strings.TrimSpace(text) == "" {
		return
	}
	o.boxes = append(o.boxes, textBox(x, y, anchor, text))
	o.WriteString(`<text x="` + num(x) + `" y="` + num(y) + `"`)
	if anchor != "start" {
		o.WriteString(` text-anchor="` + anchor + `"`)
	}
	o.WriteString(attributes + ">" + inner + "</text>\n")
}

func (o *svgOut) plain(x, y float64, anchor, text string) {
	o.text(x, y, anchor, "", text, escape(text))
}

// lines writes a block of text from y downward, wrapped to w; it gives the y
// below it.
func (o *svgOut) lines(x, y, w float64, attributes string, texts ...string) float64 {
	for _, text := range texts {
		for _, line := range wrap(text, charactersIn(w)) {
			o.text(x, y+ascent+2, "start", attributes, line, escape(line))
			y += lineHeight
		}
	}
	return y
}

func charactersIn(w float64) int { return max(1, int(w/(emPart*fontSize))) }

// countLines gives how many lines such a block takes.
func countLines(w float64, texts ...string) int {
	n := 0
	for _, text := range texts {
		n += len(wrap(text, charactersIn(w)))
	}
	return n
}

// path writes lines as one path.
func (o *svgOut) path(attributes string, lines [][]Point) {
	var d []byte
	for _, line := range lines {
		for i, p := range line {
			command := byte('L')
			if i == 0 {
				command = 'M'
			}
			d = append(d, command)
			d = append(d, num(p.X)...)
			d = append(d, ' ')
			d = append(d, num(p.Y)...)
		}
		if len(line) == 1 {
			d = append(d, "h0.01"...) // a dot: round caps make it visible
		}
	}
	if len(d) > 0 {
		o.WriteString(`<path d="` + string(d) + `"` + attributes + "/>\n")
	}
}

// symbol marks up a quantity's symbol: its letters in italics, what follows an
// underscore lowered and upright, digits and parentheses upright.
func symbol(text string) string {
	var b strings.Builder
	move := "" // back from an index to the line
	for text != "" {
		kind, n := piece(text)
		part := text[:n]
		text = text[n:]
		switch {
		case kind == index:
			b.WriteString(`<tspan dy="3" font-size="11">` + escape(part[1:]) + "</tspan>")
			move = ` dy="-3"`
			continue
		case kind == italic:
			b.WriteString("<tspan" + move + ` font-style="italic">` + escape(part) + "</tspan>")
		case move != "":
			b.WriteString("<tspan" + move + ">" + escape(part) + "</tspan>")
		default:
			b.WriteString(escape(part))
		}
		move = ""
	}
	return b.String()
}

type pieceKind int

const (
	upright pieceKind = iota
	italic
	index
)

// piece gives the kind and the length in bytes of what a symbol begins with.
func piece(text string) (pieceKind, int) {
	if text[0] == '_' {
		for i, r := range text[1:] {
			if !unicode.IsLetter(r) && !unicode.IsDigit(r) && !noWidth(r) {
				if i > 0 {
					return index, i + 1
				}
				return upright, 1
			}
		}
		if len(text) > 1 {
			return index, len(text)
		}
		return upright, 1
	}
	first, size := utf8.DecodeRuneInString(text)
	letters := unicode.IsLetter(first)
	for i, r := range text[size:] {
		if !noWidth(r) && (unicode.IsLetter(r) != letters || r == '_') {
			return kindOf(letters), size + i
		}
	}
	return kindOf(letters), len(text)
}

func kindOf(letters bool) pieceKind {
	if letters {
		return italic
	}
	return upright
}

// isSymbol says whether a name is a symbol such as "U(x)" rather than words.
func isSymbol(text string) bool {
	letters := 0
	for _, r := range text {
		switch {
		case r == '_':
			return letters > 0
		case unicode.IsLetter(r):
			if letters++; letters > 1 {
				return false
			}
		case unicode.IsSpace(r):
			return false
		default:
			if !noWidth(r) {
				letters = 0
			}
		}
	}
	return true
}

// nameMarkup marks up the name of a curve or bar.
func nameMarkup(name string) string {
	if isSymbol(name) {
		return symbol(name)
	}
	return escape(name)
}

// labelMarkup marks up an axis label "symbol / unit"; words stay upright.
func labelMarkup(text string) string {
	before, unit, ok := strings.Cut(text, " / ")
	if !ok {
		return nameMarkup(text)
	}
	var parts []string
	for _, name := range strings.Split(before, ", ") {
		if strings.Contains(name, " ") {
			parts = append(parts, escape(name))
		} else {
			parts = append(parts, symbol(name))
		}
	}
	return strings.Join(parts, ", ") + escape(" / "+unit)
}

// spoken is the title that a screen reader says.
func (f *Figure) spoken() string {
	switch {
	case f.Title != "":
		return f.Title
	case f.Blank:
		return "Axes to draw on: " + f.Y.Label + " against " + f.X.Label
	}
	return "Graph of " + f.Y.Label + " against " + f.X.Label
}

// spoken is the title that a screen reader says.
func (b *Bars) spoken() string {
	if b.Title != "" {
		return b.Title
	}
	var names []string
	for _, s := range b.Stages {
		names = append(names, s.Name)
	}
	return "Energy bars: " + strings.Join(names, ", ")
}
