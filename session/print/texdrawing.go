package print

import (
	"strings"
	"unicode/utf8"

	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/draw"
)

// texTexts sets the texts of a drawing.
type texTexts struct{}

func (texTexts) Words(text string) string { return escapeTeX(text) }
func (texTexts) Head(text string) string  { return texHead(text) }

func (texTexts) Value(text string) string {
	if text = oneLine(text); isValue(text) {
		return "$" + setShown(text).LaTeX() + "$"
	}
	return escapeTeX(text)
}

func (p *paper) graph(f *draw.Figure, shapes []string) {
	picture, ok := f.TeX(texTexts{})
	p.drawing(picture, ok, func() string { return f.Text(78, 24, true) }, shapes)
}

func (p *paper) bars(b *draw.Bars, books string) {
	picture, ok := b.TeX(texTexts{})
	p.drawing(picture, ok, func() string { return b.Text(78, true) }, []string{books})
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
			p.text(`{\small `, escapeTeX(line), "\\par}\n")
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

// The labels of a drawing come as text, and are read again to be set.

// texHead sets a label: a quantity over its unit, a name, or words.
func texHead(text string) string {
	if set := readHead(oneLine(text)); !set.IsEmpty() {
		return "$" + set.LaTeX() + "$"
	}
	return escapeTeX(text)
}

// readHead lays out a label, or nothing for words.
func readHead(text string) typeset.Box {
	quantities, unit, _ := strings.Cut(text, " / ")
	if quantities == "" || utf8.RuneCountInString(quantities) > 80 {
		return typeset.Box{}
	}
	var of []typeset.Box
	for i, name := range strings.Split(quantities, ", ") {
		x, findings := syntax.ParseExpr(name)
		if x == nil || len(findings) > 0 || strings.Contains(name, " ") || utf8.RuneCountInString(name) > 24 {
			return typeset.Box{}
		}
		if i > 0 {
			of = append(of, typeset.Comma())
		}
		of = append(of, typeset.Expr(x))
	}
	return over(of, unit)
}

// setShown sets the text of a value.
func setShown(text string) typeset.Box { return typeset.Quantity(oneLine(text)) }

// isValue tells whether a label is a number, with or without a unit.
func isValue(text string) bool {
	text = strings.TrimLeft(text, "-−+(")
	return text != "" && text[0] >= '0' && text[0] <= '9'
}
