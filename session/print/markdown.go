package print

import (
	"bytes"
	"strconv"
	"strings"

	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/units/each"
)

// Markdown writes a document as CommonMark with tables, formulas as LaTeX between
// dollar signs, and graphs as fenced text.
func Markdown(d *Document) []byte {
	m := marked{set: d.set}
	m.b.Grow(usual)
	write(d, &m)
	return append(bytes.TrimRight(m.b.Bytes(), "\n"), '\n')
}

// marked is a document on its way to Markdown.
//
// Formulas are LaTeX between dollar signs, which GitHub, GitLab, pandoc and most notebooks show.
type marked struct {
	b   bytes.Buffer
	set *setter
}

// prose sets a line of text with the mathematics in it.
func (m *marked) prose(text string) string { return m.say(entry.Written(text)) }

// say sets what the program says, which may be in a cell.
func (m *marked) say(all entry.Said) string { return markedPieces(m.set.say(all)) }

func markedPieces(all []piece) string {
	var b strings.Builder
	for i, one := range all {
		b.WriteString(markedText(strings.ReplaceAll(one.words, "\u00a0", " "), i == 0))
		b.WriteString(inCell(one.set))
		b.WriteString(codeSpan(one.code))
	}
	return b.String()
}

func (m *marked) begin(d *Document) {
	m.paragraph("# " + m.prose(d.title()))
	m.paragraph("*" + d.edition() + "*")
	if d.Edition == Handout {
		m.paragraph("Name: " + strings.Repeat(".", 40) + " Date: " + strings.Repeat(".", 16))
	}
}

func (m *marked) end(d *Document) {
	m.paragraph(framed("---\n\n*", escapeMarkdown(d.Caution), "*"))
}

// paragraph writes something that stands apart from what is around it.
//
// Blocks of CommonMark need an empty line between them in nearly all cases; one for all is never
// wrong.
func (m *marked) paragraph(pieces ...string) {
	from := m.b.Len()
	for _, text := range pieces {
		m.b.WriteString(text)
	}
	if m.b.Len() > from {
		m.b.WriteString("\n\n")
	}
}

// Inside dollar signs, what Markdown would take for its own before a reader of
// formulas sees it.
var mathEscapes = strings.NewReplacer(`\$`, `\char36 `, "`", `\char96 `, "](", "]{}(", "\n", " ")

// dollars sets a formula in the text.
//
// A reader of Markdown looks for code and links before it looks for formulas, so that their signs
// are written by number.
func dollars(set string) string {
	set = strings.TrimSpace(set)
	if strings.ContainsAny(set, "$`]\n") { // most have none of them
		set = mathEscapes.Replace(set)
	}
	return framed("$", set, "$")
}

// inCell is dollars without the strokes that part the cells of a table.
//
// A stroke ends a cell even between dollar signs, and \vert looks the same.
func inCell(set typeset.Box) string {
	return strings.ReplaceAll(dollars(set.LaTeX()), "|", `\vert `)
}

func (m *marked) part(part *part, number int) {
	label, question := part.head(number)
	heading := strings.TrimSpace(framed("", escapeMarkdown(label), ") ") + m.prose(question))
	m.paragraph("## " + heading + framed(" (", points(part.Points), ")"))
}

func (m *marked) endPart() {}

func (m *marked) note(all []string)     { lines(m, all, m.prose, "", nextRow) }
func (m *marked) told(all []entry.Said) { lines(m, all, m.say, "", nextRow) }

// Pictures would be files of their own, and one file can be sent and kept.
func (m *marked) drawing(d drawn) {
	text := strings.TrimRight(d.Text(76, 22, false), "\n")
	fence := strings.Repeat("`", max(3, longestRun(text, '`')+1))
	m.paragraph(fence, "text\n", text, "\n", fence)
	mark := ""
	if d.Listed {
		mark = "- "
	}
	lines(m, d.Below, m.say, mark, "\n")
}

func (m *marked) room(r *room) {
	for range r.Lines {
		m.paragraph(strings.Repeat(".", 76))
	}
	for _, x := range r.Answers {
		m.paragraph(dollars(typeset.Relation(typeset.Expr(x), "=", typeset.Box{}).LaTeX()) + " " + strings.Repeat(".", 30))
	}
}

// lines writes items as lines of one paragraph, with a mark before each and something
// between them; those that set to nothing are left out.
func lines[T any](m *marked, items []T, set func(T) string, mark, between string) {
	var out []string
	for _, item := range items {
		if s := set(item); s != "" {
			out = append(out, mark+s)
		}
	}
	m.paragraph(strings.Join(out, between))
}

// nextRow keeps lines apart that would else be joined in a paragraph.
const nextRow = "\\\n"

func (m *marked) givens(rows []given) {
	m.paragraph("**Given**")
	heads, rule := "| Quantity | Value |", "| :-- | :-- |"
	words := haveMeanings(rows)
	if words {
		heads, rule = heads+" Meaning |", rule+" :-- |"
	}
	m.b.WriteString(heads + "\n" + rule + "\n")
	for _, g := range rows {
		m.b.WriteString("| " + inCell(typeset.Expr(g.Name)) + " | " + markedValue(g.Shown) + " |")
		if words {
			m.b.WriteString(" " + m.prose(g.Meaning) + " |")
		}
		m.b.WriteString("\n")
	}
	m.b.WriteString("\n")
}

// markedValue sets a value in a cell, or the words in its place.
func markedValue(s shown) string {
	return inCell(s.box()) + escapeMarkdown(s.Words)
}

func (m *marked) working(w *working, of []syntax.Expr) {
	heading := "### Working"
	if len(of) > 0 {
		heading += " for " + m.say(listed(of))
	}
	m.paragraph(heading)
	for _, columns := range entry.SideBySide(w.Lines) {
		if len(columns) == 1 {
			m.definitions(columns[0])
			continue
		}
		set := each.Of(columns, func(column []entry.WorkLine) string {
			var all []string
			for i := range column {
				all = append(all, m.rows(&column[i])...)
			}
			return `\begin{aligned}[t] ` + strings.Join(all, ` \cr `) + ` \end{aligned}`
		})
		m.paragraph("$" + dollars(strings.Join(set, ` \qquad `)) + "$")
	}
}

// definitions writes lines with their equals signs one under the other, and their
// reasons in a column beside them.
//
// Words between equations end one alignment and begin the next: a display holds no prose that
// could be broken.
func (m *marked) definitions(all []entry.WorkLine) {
	var rows []string
	flush := func() {
		if len(rows) > 0 {
			// \cr and not two strokes, which Markdown takes for its own.
			m.paragraph("$", dollars(`\begin{aligned} `+strings.Join(rows, ` \cr `)+` \end{aligned}`), "$")
		}
		rows = nil
	}
	for i := range all {
		l := &all[i]
		if lead := m.say(l.Words); lead != "" {
			flush()
			m.paragraph(lead)
		}
		rows = append(rows, m.rows(l)...)
	}
	flush()
}

// rows are the rows of an alignment for one line of a working.
//
// A reason has a column of its own where there is one, and else the row below, with room before
// it.
func (m *marked) rows(l *entry.WorkLine) []string {
	rows := aligned(l.LeftBox().LaTeX(), right(l).tex())
	if l.Reason != nil && l.Column > 0 {
		rows = append(rows, `& \quad `+mathSaid(m.set.say(l.Reason)))
	} else if l.Reason != nil && len(rows) > 0 {
		rows[len(rows)-1] += ` && ` + mathSaid(m.set.say(l.Reason))
	}
	if len(l.Units) > 0 {
		rows = append(rows, `& \quad \text{units: } `+setUnits(l.Units).LaTeX())
	}
	return rows
}

// mathSaid writes prose within mathematics.
func mathSaid(pieces []piece) string {
	var b strings.Builder
	for _, said := range pieces {
		if said.words != "" {
			b.WriteString(`\text{` + typeset.TeXText(said.words) + `}`)
		}
		b.WriteString(said.set.LaTeX())
	}
	return b.String()
}

func (m *marked) cases(c *cases) { m.paragraph("$", dollars(c.box().LaTeX()), "$") }

// answers writes those of all parts, one line each.
func (m *marked) answers(all []solved) {
	m.paragraph("## Answers")
	lines(m, all, func(s solved) string {
		return framed("", escapeMarkdown(s.label), ") ") + strings.Join(each.Of(s.answers, func(a *answer) string { return dollars(markedAnswer(a)) }), ", ")
	}, "- ", "\n")
}

// markedAnswer is what an answer says, for mathematics.
func markedAnswer(a *answer) string {
	return a.tex(a.Shown.box().LaTeX() + framed(`\text{`, escapeTeX(a.Shown.Words), `}`))
}

func (m *marked) answer(a *answer) {
	m.paragraph("**Answer**" + framed(" (", points(a.Points), ")"))
	m.paragraph(framed("$", dollars(framed(`\boxed{`, markedAnswer(a), `}`)), "$"))
}

func (m *marked) check(c *check) {
	m.paragraph("**Check:** ", dollars(c.claim().LaTeX()), framed(" ", escapeMarkdown(c.tail()), ""), " **holds**", framed(": ", m.say(c.Says), ""))
}

func (m *marked) flaw(f *flaw) {
	s := "> **" + f.heading() + "** in line " + strconv.Itoa(f.Line) + framed(": ", codeSpan(f.Source), "")
	for _, says := range f.Says {
		s += framed(nextRow+"> ", markedPieces(says), "")
	}
	m.paragraph(s)
}

func (m *marked) table(t *table) {
	markedRow(m, t.Heads, markedHead)
	for i := range t.Heads {
		m.b.WriteString(map[bool]string{false: "| :-- ", true: "| --: "}[t.numbers(i)])
	}
	m.b.WriteString("|\n")
	for _, row := range t.Rows {
		markedRow(m, row, m.cell)
	}
	m.b.WriteString("\n")
}

func markedRow[T any](m *marked, cells []T, set func(T) string) {
	for _, cell := range cells {
		m.b.WriteString("| " + set(cell) + " ")
	}
	m.b.WriteString("|\n")
}

func markedHead(h entry.Head) string {
	if set := h.Box(typeset.Expr); !set.IsEmpty() {
		return inCell(set)
	}
	return escapeMarkdown(h.String())
}

func (m *marked) cell(c entry.Cell) string {
	number, plain := plainNumber(c)
	switch {
	case c.Value == nil:
		return m.say(c.Words)
	case plain:
		return number
	}
	return inCell(c.Box())
}
