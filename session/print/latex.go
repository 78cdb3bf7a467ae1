package print

import (
	"bytes"
	_ "embed"
	"strconv"
	"strings"

	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/units/each"
)

//go:embed preamble.tex
var preamble string

// LaTeX writes a document as a whole article in plain ASCII, which compiles with
// pdflatex and the packages geometry, inputenc, amsmath and graphicx. Graphs are
// drawn in picture environments, which need no package.
func LaTeX(d *Document) []byte {
	p := paper{set: d.set}
	p.b.Grow(usual)
	write(d, &p)
	return p.b.Bytes()
}

// paper is a document on its way to LaTeX.
//
// How things look is in preamble.tex; here is what depends on the document.
type paper struct {
	b       bytes.Buffer
	set     *setter
	handout bool
	last    int // of the parts, which has the foot below it
}

// prose sets a line of text with the mathematics in it.
func (p *paper) prose(text string) string { return p.say(entry.Written(text)) }

// say sets what the program says.
func (p *paper) say(all entry.Said) string { return texPieces(p.set.say(all)) }

func texPieces(all []piece) string {
	var b strings.Builder
	for _, one := range all {
		b.WriteString(typeset.TeXText(one.words))
		if set := one.set.LaTeX(); strings.Contains(set, `\frac`) { // which would be small in a text
			b.WriteString(`$\displaystyle ` + set + "$")
		} else {
			b.WriteString(framed("$", set, "$"))
		}
		b.WriteString(framed(`\texttt{`, typeset.TeXCode(one.code), "}"))
	}
	return b.String()
}

func (p *paper) begin(d *Document) {
	p.text(preamble, "\\markright{", escapeTeX(d.title()), "}\n\\begin{document}\n\\thispagestyle{plain}\\raggedright\\close\n")
	p.text(`{\small `, escapeTeX(d.edition()), "}\\par\n{\\LARGE\\bfseries ", p.prose(d.title()), "\\par}\n")
	p.last = len(d.Parts)
	if p.handout = d.Edition == Handout; p.handout {
		p.text("\\bigskip Name \\hrulefill\\quad Date \\rule{35mm}{0.4pt}\\par\\medskip\n")
	}
	p.text("\\addvspace{4pt}\\hrule\\addvspace{8pt}\n")
}

func (p *paper) end(d *Document) {
	if caution := oneLine(d.Caution); caution != "" {
		p.text("\\par\\nopagebreak\\addvspace{18pt}\\nopagebreak\\hrule\\nopagebreak\\addvspace{4pt}{\\footnotesize ", escapeTeX(caution), "\\par}\n")
	}
	p.text("\\end{document}\n")
}

func (p *paper) text(all ...string) {
	for _, s := range all {
		p.b.WriteString(s)
	}
}

// inline sets a formula in the text, no wider than the line.
//
// LaTeX does not break a formula of one box, and prints over the margin; \fit makes it smaller
// then.
func inline(set typeset.Box, width string) string { return mathIn(set.LaTeX(), width) }

// mathIn is inline for LaTeX of math mode.
func mathIn(set, width string) string {
	if set == "" {
		return ""
	}
	if len(set) > 60 {
		return `\fit{` + width + `}{$\displaystyle ` + set + `$}`
	}
	return `$\displaystyle ` + set + `$`
}

func (p *paper) part(part *part, number int) {
	label, question := part.head(number)
	if p.handout {
		foot := "0mm"
		if number == p.last {
			foot = "12mm"
		}
		p.text("\n\\begin{wholepart}{", foot, "}")
	}
	p.text("\n\\partline{", escapeTeX(label), "}{", p.prose(question), "}{", points(part.Points), "}\n")
}

func (p *paper) endPart() {
	if p.handout {
		p.text("\\end{wholepart}\n")
	}
}

func (p *paper) room(r *room) {
	p.text(strings.Repeat("\\writingline\n", r.Lines), "\\par\n")
	for _, x := range r.Answers {
		p.text(`\answerline{`, inline(typeset.Relation(typeset.Expr(x), "=", typeset.Box{}), "90mm"), "}\n")
	}
}

// joined takes back the place for a page to end: what comes next belongs to what is above.
//
// A page that begins with an answer in a box has it far from its working.
func (p *paper) joined() {
	if bytes.HasSuffix(p.b.Bytes(), []byte(between)) {
		p.b.Truncate(p.b.Len() - len(between))
	}
}

func (p *paper) told(lines []entry.Said) {
	p.joined()
	p.text("{\\leftskip=1.5em\n")
	p.rows(each.Of(lines, p.say))
	p.text("}\n")
}

// texValue sets a value, or the words in its place.
func texValue(s shown, width string) string {
	return inline(s.box(), width) + escapeTeX(s.Words)
}

func (p *paper) note(lines []string) { p.rows(each.Of(lines, p.prose)) }

// rows writes lines one under the other, as one paragraph.
func (p *paper) rows(lines []string) {
	for i, line := range lines {
		if i > 0 {
			p.text("\\newline\n")
		}
		p.text(`\mbox{}`, line)
	}
	p.text("\\par\n")
}

// mostRows is how many rows a table has before it is parted, since it can't be
// broken between pages otherwise.
const mostRows = 32

// Each part of a long table has its head again, as a page that begins with bare rows can't be
// read.
func (p *paper) givens(rows []given) {
	for len(rows) > 0 {
		n := min(len(rows), mostRows)
		columns, head, named, most := "", "", "50mm", "100mm"
		words := haveMeanings(rows[:n])
		if words {
			columns, head, named, most = `@{\qquad}l`, ` & {\small Meaning}`, "45mm", "45mm"
		}
		p.text("\\blockhead{Given}\\par\\nopagebreak\n\\begin{tabular}{@{}l@{\\qquad}l", columns, "@{}}\n{\\small Quantity} & {\\small Value}", head, " \\\\ \\hline\n")
		for _, g := range rows[:n] {
			p.text(inline(typeset.Expr(g.Name), named), " & ", texValue(g.Shown, most))
			p.text(framed(` & \parbox[t]{60mm}{\raggedright\strut `, p.prose(g.Meaning), `\strut}`), " \\\\\n")
		}
		p.text("\\hline\n\\end{tabular}\\par\\vspace{6pt}\n")
		rows = rows[n:]
	}
}

func (p *paper) working(w *working, of []syntax.Expr) {
	p.text("\\blockhead{Working")
	if len(of) > 0 {
		p.text(" for ", p.say(listed(of)))
	}
	p.text("}")
	for _, columns := range entry.SideBySide(w.Lines) {
		if len(columns) == 1 {
			p.lines(columns[0])
		} else {
			p.beside(columns)
		}
	}
}

// beside sets columns of a working side by side, smaller if they have no room else.
//
// The two components of a vector are worked out in step, and are read across.
func (p *paper) beside(columns [][]entry.WorkLine) {
	p.text("%\n\\[\\fit{159mm}{$")
	for k, column := range columns {
		if k > 0 {
			p.text("\\qquad\n")
		}
		var all []string
		for i := range column {
			all = append(all, p.columnRows(&column[i])...)
		}
		p.text("\\begin{aligned}[t]\n", strings.Join(all, " \\\\[3pt]\n"), "\n\\end{aligned}")
	}
	p.text("$}\\]\\par\\loose", between)
}

// columnRows are the rows of an alignment for a line in a column, with its reason below.
func (p *paper) columnRows(l *entry.WorkLine) []string {
	out := aligned(l.LeftBox().LaTeX(), right(l).tex())
	if reason := oneLine(l.Reason.String()); reason != "" {
		out = append(out, `& \quad `+texReason(reason, p.say(l.Reason)))
	}
	return out
}

// aligned are the rows of an alignment for both sides of a line.
func aligned(left string, right []string) []string {
	var rows []string
	if len(right) == 0 && left != "" {
		rows = append(rows, left+" &")
	}
	for i, row := range right {
		if i == 0 {
			rows = append(rows, left+" &= "+row)
		} else {
			rows = append(rows, `& \quad `+row)
		}
	}
	return rows
}

func (p *paper) definitions(lines []entry.WorkLine) {
	if lines[0].Words == nil {
		p.text("\\par\\vspace{-\\baselineskip}\\mbox{}") // which the display follows, with no empty line
	}
	p.lines(lines)
}

func (p *paper) cases(c *cases) {
	p.text("\\[", `\fit{150mm}{$\displaystyle `, c.box().LaTeX(), "$}\\]\n")
}

// between ends a working, a check or an answer: a page may be broken there, unless an answer is next.
const between = "\\between\n"

// The last two equations stay on one page, each row stays with those that go on from it, and
// elsewhere a page may end.
func (p *paper) lines(lines []entry.WorkLine) {
	// The display goes on in the same paragraph: an empty one would take a line.
	if lead := lines[0].Words; lead != nil {
		p.text("{\\small\\quad ", p.say(lead), "}")
	}
	var all []string
	var follows []bool              // the rows that stay with the one above
	end, kept := lastTwo(lines), -1 // the rows from kept on stay on one page
	flush := func() {
		for i, row := range all {
			if i > 0 {
				p.text(map[bool]string{false: " \\\\[3pt]\n", true: " \\\\*[3pt]\n"}[follows[i]])
			}
			switch {
			case i == 0 && kept == 0:
				p.text("%\n\\whole\\begin{alignat*}{2}\n")
			case i == 0:
				p.text("%\n\\begin{alignat*}{2}\n")
			case i == kept:
				p.text("\\noalign{\\whole}\n")
			case i == 1: // the rows are set twice, to be measured first
				p.text("\\noalign{\\loose}\n")
			}
			p.text(row)
		}
		if len(all) > 0 {
			p.text("\n\\end{alignat*}")
		}
		p.text("\\par\\loose", between)
		all, follows = nil, nil
	}
	for i := range lines {
		if i == end {
			kept = len(all)
		}
		rows, lead, led := p.texLine(&lines[i]), p.say(lines[i].Words), false
		switch {
		case i == 0 || lead == "":
		case len(rows) == 0:
			flush()
			p.text("{\\small ", lead, "\\par}\n")
		default:
			all, follows, led = append(all, `& \rlap{\small `+lead+`}`), append(follows, false), true
		}
		for k, row := range rows {
			all, follows = append(all, row), append(follows, led || k > 0)
		}
	}
	flush()
}

// mostBeside is how wide a right side may be with a reason beside it.
const mostBeside = 34

// texLine gives the rows of an alignment for one line of a working.
//
// A long formula or reason takes no room of its column (\rlap), since one such line would move the
// equals signs or the reasons of all others.
func (p *paper) texLine(l *entry.WorkLine) []string {
	var rows []string
	set := right(l)
	left, right := inLine(l.LeftBox().LaTeX(), "45mm"), set.tex()
	if set.reach > mostBeside { // it takes no room of its column: the reasons of the others stay where they are
		for i, row := range right {
			right[i] = lapped(row, "112mm")
		}
	}
	if one := whole(l, set); !one.IsEmpty() {
		rows, left, right = append(rows, `& \quad `+lapped(one.LaTeX(), "120mm")), "", nil
	} else if set.left > wide {
		rows, left = append(rows, `& \quad `+lapped(l.LeftBox().LaTeX(), "120mm")), ""
	}
	rows = append(rows, aligned(left, right)...)
	if reason := oneLine(l.Reason.String()); reason != "" && len(rows) > 0 {
		why := texReason(reason, p.say(l.Reason))
		if (len(right) == 1 || left != "") && set.reach <= mostBeside && len(reason) <= 110 {
			rows[len(rows)-1] += ` & \qquad & ` + why
		} else {
			rows = append(rows, `& \qquad \rlap{`+why+`}`)
		}
	}
	if len(l.Units) > 0 {
		rows = append(rows, `& \qquad \rlap{\small units: `+inline(setUnits(l.Units), "90mm")+`}`)
	}
	return rows
}

// texReason sets a reason, a long one in several lines.
func texReason(reason, set string) string {
	if len(reason) <= 42 {
		return `\reason{` + set + `}`
	}
	return `\reason{\parbox[t]{70mm}{\raggedright ` + set + `}}`
}

// inLine makes a long formula fit where mathematics is set.
func inLine(set, width string) string {
	if len(set) > 120 {
		return `\fit{` + width + `}{$\displaystyle ` + set + `$}`
	}
	return set
}

// lapped sets a formula that takes no room of its column.
func lapped(set, width string) string {
	return `\rlap{\fit{` + width + `}{$\displaystyle ` + set + `$}}`
}

func (p *paper) answer(a *answer) {
	p.joined()
	p.text("\\resultbox{", p.result(a), framed(`\quad{\small `, points(a.Points), "}"), "}\n", between)
}

// answers writes those of all parts, a line each.
func (p *paper) answers(all []solved) {
	p.text("\n\\need{", strconv.Itoa(min(30+6*len(all), 200)), "mm}\\partline{}{Answers}{}\n")
	for _, s := range all {
		p.text(`\partanswer{`, escapeTeX(s.label), "}{", strings.Join(each.Of(s.answers, p.result), ", "), "}\n")
	}
}

// result is what an answer says.
func (p *paper) result(a *answer) string {
	value := framed(`\boldsymbol{`, a.Shown.box().LaTeX(), "}") + framed(`\textbf{`, escapeTeX(a.Shown.Words), "}")
	return mathIn(a.tex(value), "115mm")
}

func (p *paper) check(c *check) {
	p.text(`\sideline{{\small Check}\quad `, inline(c.claim(), "110mm"), framed(" ", escapeTeX(c.tail()), ""),
		` \textbf{holds}`, framed(": ", p.say(c.Says), ""), "}\n", between)
}

func (p *paper) flaw(f *flaw) {
	p.text(map[bool]string{false: "\\sideline{", true: "\\flawbox{"}[f.Severity.Fails()], `\textbf{`, capital(f.Severity.String()), `} {\small in line `, strconv.Itoa(f.Line), "}")
	p.text(framed(`\newline\texttt{`, typeset.TeXCode(oneLine(f.Source)), "}"))
	for _, says := range f.Says {
		p.text(framed(`\newline `, texPieces(says), ""))
	}
	p.text("}\n", between)
}

// It is made smaller to fit the page, as all of its columns belong together.
func (p *paper) table(t *table) {
	tails := t.tails()
	for rows, first := t.Rows, true; first || len(rows) > 0; first = false {
		n := min(len(rows), mostRows)
		p.text("\\par\\addvspace{6pt}\\fit{\\linewidth}{\\begin{tabular}{@{}")
		for i := range t.Heads {
			p.text(map[bool]string{false: "l", true: "r"}[t.numbers(i)])
		}
		p.text("@{}}\n")
		texRow(p, t.Heads, func(_ int, h entry.Head) string { return texColumn(h) })
		p.text("\\hline\n")
		for _, row := range rows[:n] {
			texRow(p, row, func(i int, c entry.Cell) string { return p.cell(c, tails[i]) })
		}
		p.text("\\hline\n\\end{tabular}}\\par\\addvspace{6pt}\n")
		rows = rows[n:]
	}
}

func texRow[T any](p *paper, cells []T, set func(int, T) string) {
	for i, cell := range cells {
		if i > 0 {
			p.text(" & ")
		}
		p.text(set(i, cell))
	}
	p.text(" \\\\\n")
}

func texColumn(h entry.Head) string {
	if set := h.Box(typeset.Expr); !set.IsEmpty() {
		return "$" + set.LaTeX() + "$"
	}
	return escapeTeX(h.String())
}

func (p *paper) cell(c entry.Cell, longest tail) string {
	if c.Value != nil {
		return "$" + c.Box().LaTeX() + "$" + longest.less(c).tex()
	}
	return p.say(c.Words)
}
