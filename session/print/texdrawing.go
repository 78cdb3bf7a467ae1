package print

import (
	"strings"

	"steelyard/lang/typeset"
)

// drawing writes a picture, or the drawing as text where a picture would be too
// much, with lines of text below it.
func (p *paper) drawing(d drawn) {
	p.text("\\par\\addvspace{8pt}\\begin{minipage}{\\linewidth}\\raggedright\n")
	if picture, ok := d.TeX(); ok {
		p.text("\\fit{\\linewidth}{", picture, "}\\par\n")
	} else {
		p.typewriter(d.Text(78, 24, true))
	}
	for _, line := range d.Below {
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
