package print

import (
	"strings"

	"steelyard/lang/typeset"
	"steelyard/session/draw"
	"steelyard/session/entry"
)

func (p *paper) graph(g *entry.Graph, shapes []entry.Said) {
	picture, ok := draw.GraphTeX(g)
	p.drawing(picture, ok, func() string { return draw.GraphText(g, 78, 24, true) }, shapes)
}

func (p *paper) bars(b *entry.Bars) {
	picture, ok := draw.BarsTeX(b)
	p.drawing(picture, ok, func() string { return draw.BarsText(b, 78, true) }, []entry.Said{b.Told()})
}

// drawing writes a picture, or the drawing as text where a picture would be too
// much, with lines of text below it.
func (p *paper) drawing(picture string, ok bool, text func() string, below []entry.Said) {
	p.text("\\par\\addvspace{8pt}\\begin{minipage}{\\linewidth}\\raggedright\n")
	if ok {
		p.text("\\fit{\\linewidth}{", picture, "}\\par\n")
	} else {
		p.typewriter(text())
	}
	for _, line := range below {
		if line != nil {
			p.text(`{\small `, p.say(line), "\\par}\n")
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
