package print

import (
	"strings"

	"steelyard/lang/typeset"
)

// texTexts sets the texts of a drawing.
type texTexts struct{}

func (texTexts) Words(text string) string { return escapeTeX(oneLine(text)) }
func (texTexts) Head(text string) string  { return texHead(text) }

func (texTexts) Value(text string) string {
	if text = oneLine(text); isValue(text) {
		return "$" + setShown(text).LaTeX() + "$"
	}
	return escapeTeX(text)
}

func (p *paper) graph(g *Graph) {
	if g.Figure == nil {
		return
	}
	var below []string
	if !g.Figure.Blank {
		below = g.Shapes
	}
	picture, ok := g.Figure.TeX(texTexts{})
	p.drawing(picture, ok, func() string { return g.Figure.Text(78, 24, true) }, below)
}

func (p *paper) bars(b *EnergyBars) {
	if b.Bars == nil {
		return
	}
	picture, ok := b.Bars.TeX(texTexts{})
	p.drawing(picture, ok, func() string { return b.Bars.Text(78, true) }, []string{b.Books})
}

// drawing writes a picture, or the drawing as text where a picture would be too
// much, with lines of text below it.
func (p *paper) drawing(picture string, ok bool, text func() string, below []string) {
	p.text("\\par\\addvspace{8pt}\\begin{minipage}{\\linewidth}\\raggedright\n")
	if ok {
		p.text("\\fit{\\linewidth}{", picture, "}\\par\n")
	} else {
		p.typewriter(text())
	}
	for _, line := range below {
		if line != "" {
			p.text(`{\small `, escapeTeX(oneLine(line)), "\\par}\n")
		}
	}
	p.text("\\end{minipage}\\par\\addvspace{8pt}\n")
}

// typewriter writes a drawing made of characters.
func (p *paper) typewriter(drawing string) {
	p.text("{\\footnotesize\\parskip=0pt\n")
	for line := range strings.SplitSeq(strings.TrimRight(drawing, "\n"), "\n") {
		p.text(`\mbox{\texttt{`, typeset.TeXRow(line), "}}\\par\n")
	}
	p.text("}\n")
}

func escapeTeX(text string) string { return typeset.TeXText(text) }
