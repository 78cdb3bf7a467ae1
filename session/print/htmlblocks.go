package print

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
)

// phone is how many digits wide a box may be to fit a phone.
const phone = 40

// region opens a box of some width in digits. One that is too wide for a phone scrolls
// sideways there, for keyboards too.
//
// WCAG 2.1.1 asks that whatever scrolls can be scrolled without a mouse, so it takes the focus,
// and has a name that says what one has come to.
func (p *page) region(class, what string, wide int) {
	if wide <= phone {
		p.text(`<div class="`, class, "\">\n")
		return
	}
	p.text(`<div class="scroll `, class, `" role="region" tabindex="0" aria-label="`, p.name(what), "\">\n")
}

// name makes the name of a region differ from all others.
//
// Two landmarks of one name can't be told apart in the list that a screen reader makes of them.
func (p *page) name(what string) string {
	if p.where != "" {
		what += ", " + p.where
	}
	p.regions[what]++
	if n := p.regions[what]; n > 1 {
		what += ", no. " + strconv.Itoa(n)
	}
	return what
}

func (p *page) givens(rows []given) {
	wide := 0
	for i := range rows {
		wide = max(wide, breadth(rows[i].Name)+utf8.RuneCountInString(rows[i].Shown.text()))
	}
	p.region("given", "Given", wide)
	p.text("<table>\n<caption>Given</caption>\n", `<thead><tr><th scope="col">Quantity</th><th scope="col">Value</th>`)
	words := haveMeanings(rows)
	if words {
		p.text(`<th scope="col">Meaning</th>`)
	}
	p.text("</tr></thead>\n<tbody>\n")
	for _, g := range rows {
		p.text(`<tr><th scope="row">`)
		p.label(plainSide(g.Name), typeset.Expr(g.Name))
		p.text("</th><td>")
		p.value(g.Shown)
		if words {
			p.text("</td><td>")
			p.prose(g.Meaning)
		}
		p.text("</td></tr>\n")
	}
	p.text("</tbody>\n</table>\n</div>\n")
}

// value writes a value, or the words in its place.
func (p *page) value(s shown) {
	p.formula(s.box())
	p.text(escapeHTML(s.Words))
}

// working writes the lines of a result so that their equals signs stand one under
// the other.
func (p *page) working(w *working, of []syntax.Expr) {
	level := "h3"
	if p.parts == 0 {
		level = "h2"
	}
	p.text("<", level, ` class="working-head">Working`)
	if len(of) > 0 {
		p.text(" for ")
		p.say(listed(of))
	}
	p.text("</", level, ">\n")
	p.worked(w.Lines)
}

func (p *page) definitions(lines []entry.WorkLine) { p.lines("Formulas", lines) }

// worked writes a working, with columns side by side on a page that has room for them.
func (p *page) worked(lines []entry.WorkLine) {
	for _, columns := range entry.SideBySide(lines) {
		if len(columns) == 1 {
			p.lines("Working", columns[0])
			continue
		}
		p.text("<div class=\"beside\">\n")
		for _, column := range columns {
			p.lines("Working", column)
		}
		p.text("</div>\n")
	}
}

// An ordered list tells how many steps there are and which one is read. How wide the box is
// follows from its widest line, so that only wide ones scroll.
func (p *page) lines(what string, lines []entry.WorkLine) {
	left, most := 0, 0
	set := make([]rightSide, len(lines))
	for i := range lines {
		l := &lines[i]
		set[i] = right(l)
		if n := set[i].left; n <= wide {
			left = max(left, n)
		} else {
			most = max(most, n)
		}
		most = max(most, left+3+set[i].reach)
		for _, u := range l.Units {
			most = max(most, left+utf8.RuneCountInString(u.Product)) // in smaller letters
		}
	}
	p.region("working", what, most)
	p.text("<ol>\n")
	end := lastTwo(lines)
	for i := range lines {
		if i <= end {
			p.text("<li>")
		}
		p.line(&lines[i], set[i])
		if i < end || i == len(lines)-1 {
			p.text("</li>\n")
		}
	}
	p.text("</ol>\n</div>\n")
}

// lastTwo is where the last two equations of a working begin, which with what follows
// them stay on one page.
//
// A result alone on the top of the next page has lost what it comes from.
func lastTwo(lines []entry.WorkLine) int {
	n, at := 0, len(lines)
	for ; at > 0 && n < 2; at-- {
		if l := &lines[at-1]; l.Left != nil || l.Right != nil || l.Shown != nil {
			n++
		}
	}
	return at
}

// wide is how many letters a left side may have before it takes a row of its own.
const wide = 18

func (p *page) line(l *entry.WorkLine, right rightSide) {
	if l.Words != nil {
		p.text(`<span class="lead">`)
		p.say(l.Words)
		p.text("</span>")
	}
	if l.Left != nil || l.Right != nil || l.Shown != nil {
		p.sides(l, right)
	}
	if l.Reason != nil {
		p.text(` <span class="reason">`)
		p.say(l.Reason)
		p.text("</span>")
	}
	if len(l.Units) > 0 {
		p.text(` <span class="units">units: `)
		p.formula(setUnits(l.Units))
		p.text("</span>")
	}
}

// sides writes both sides of a line.
//
// A very long left side would push all equals signs to the right edge, so that it has a row of its
// own.
func (p *page) sides(l *entry.WorkLine, right rightSide) {
	class := "left"
	if one := whole(l, right); !one.IsEmpty() {
		p.text(`<span class="left wide whole">`)
		p.formula(one)
		p.text("</span>")
		return
	} else if right.left > wide {
		class = "left wide"
	}
	p.text(`<span class="`, class, `">`)
	p.formula(l.LeftBox())
	p.text(`</span> <span class="right`)
	if wide := right.reach; wide > mostBeside {
		p.text(" long", fitting(wide))
	}
	p.text(`">`)
	p.rightSide(right.rows)
	p.text("</span>")
}

// fitting gives the class of a formula that must be set smaller to fit on paper,
// by how wide it is.
//
// A page on a screen scrolls; paper doesn't, and cuts off what is too wide.
func fitting(letters int) string {
	switch {
	case letters <= longest:
		return ""
	case letters <= 78:
		return " fit1"
	}
	return " fit2"
}

// rightSide writes the equals sign and what follows. A long one is several
// formulas, one under the other.
func (p *page) rightSide(rows []typeset.Box) {
	for i, row := range rows {
		if i == 0 {
			p.formula(equals(row))
			continue
		}
		p.text("\n")
		p.text(`<span class="on">`)
		p.formula(row)
		p.text("</span>")
	}
}

// equals puts an equals sign before a right side.
func equals(right typeset.Box) typeset.Box {
	if right.IsEmpty() {
		return right
	}
	return typeset.Relation(typeset.Box{}, "=", right)
}

func (p *page) answer(a *answer) {
	p.text(`<div class="answer"><span class="word">Answer</span> <span class="result">`)
	p.result(a)
	p.text("</span>")
	p.text(framed(` <span class="points">`, points(a.Points), "</span>"), "</div>\n")
}

// answers writes those of all parts, a line each.
func (p *page) answers(all []solved) {
	p.where = ""
	p.text("<section class=\"answers\" aria-labelledby=\"answers\">\n<h2 id=\"answers\">Answers</h2>\n")
	for _, s := range all {
		p.text(`<p><span class="label">`, escapeHTML(s.label), "</span> ")
		for i, a := range s.answers {
			if i > 0 {
				p.text(`<span class="and">, </span>`)
			}
			p.result(a)
		}
		p.text("</p>\n")
	}
	p.text("</section>\n")
}

// result writes what an answer says.
//
// The sign belongs to the formula before it, so that no line of the page begins with it.
func (p *page) result(a *answer) {
	left, joint := typeset.Expr(a.X), a.joint()
	if joint == "=" {
		left, joint = typeset.Relation(left, joint, typeset.Box{}), ""
	}
	p.roomy(left, breadth(a.X))
	p.text(framed(" ", joint, " "))
	if !a.Shown.none() {
		p.text("<strong>")
		p.value(a.Shown)
		p.text("</strong>")
	}
}

// narrow is how many letters a formula may have to fit a phone.
const narrow = 32

// roomy writes a formula of some width in the text; a wide one scrolls on a
// narrow screen.
func (p *page) roomy(set typeset.Box, letters int) {
	if letters <= narrow {
		p.formula(set)
		return
	}
	p.text(`<span class="scroll" role="region" tabindex="0" aria-label="`, p.name("Formula"), `">`)
	p.formula(set)
	p.text("</span>")
}

func (p *page) check(c *check) {
	p.text(`<p class="check"><span class="word">Check</span> `)
	p.roomy(typeset.Expr(c.Left), breadth(c.Left))
	if c.Right != nil && c.Sign == "" {
		p.text("\u200b") // a line may be broken here
		p.roomy(typeset.Relation(typeset.Box{}, c.Relation, typeset.Expr(c.Right)), breadth(c.Right)+2)
	}
	p.text(framed(" ", escapeHTML(c.tail()), ""), ` <strong class="verdict">holds</strong>`)
	if c.Says != nil {
		p.text(` <span class="says">`)
		p.say(c.Says)
		p.text("</span>")
	}
	p.text("</p>\n")
}

// figureID gives an id that no other figure of the page has.
func (p *page) figureID() string {
	p.figures++
	return "figure-" + strconv.Itoa(p.figures)
}

func (p *page) drawing(d drawn) {
	p.text("<figure>\n")
	p.out = d.SVG(p.out, p.figureID())
	if len(d.Below) > 0 {
		open, shut, before, after := "<figcaption>", "</figcaption>\n", "", ""
		if d.Listed {
			open, shut, before, after = "<figcaption>\n<ul>\n", "</ul>\n</figcaption>\n", "<li>", "</li>\n"
		}
		p.text(open)
		for _, s := range d.Below {
			p.text(before)
			p.say(s)
			p.text(after)
		}
		p.text(shut)
	}
	p.text("</figure>\n")
}

// The name of its region is made of the heads, and cut where it would be read for too long.
func (p *page) table(t *table) {
	var names []string
	for _, h := range t.Heads {
		names = append(names, oneLine(h.String()))
	}
	what := "Table of " + strings.Join(names, ", ")
	if utf8.RuneCountInString(what) > 120 {
		what = string([]rune(what)[:119]) + "…"
	}
	across := 0
	for i := range t.Heads {
		widest := 0
		for _, row := range t.Cells() {
			if i < len(row) {
				widest = max(widest, utf8.RuneCountInString(row[i]))
			}
		}
		across += widest + 3
	}
	p.region("values", escapeHTML(what), across)
	p.text("<table>\n")
	p.text("<thead><tr>")
	tails := t.tails()
	for i, h := range t.Heads {
		p.text(`<th scope="col"`, align(t.numbers(i)), `>`)
		p.head(h)
		p.text("</th>")
	}
	p.text("</tr></thead>\n<tbody>\n")
	for _, row := range t.Rows {
		p.text("<tr>")
		for i, cell := range row {
			p.cell(cell, tails[i])
		}
		p.text("</tr>\n")
	}
	p.text("</tbody>\n</table>\n</div>\n")
}

// align gives the class of a column's head: that of the numbers below it.
func align(numbers bool) string {
	if numbers {
		return ` class="number"`
	}
	return ""
}

// head writes the head of a column: a quantity over its unit, or words.
func (p *page) head(h entry.Head) {
	if set := h.Box(typeset.Expr); !set.IsEmpty() {
		p.label(h.String(), set)
		return
	}
	p.text(escapeHTML(h.String()))
}

// label writes a formula that is the head of a row or column. What it says stands
// there as text too, unseen: not everything that reads tables aloud reads formulas
// in their heads.
func (p *page) label(text string, formula typeset.Box) {
	p.text(`<span class="unseen">`, escapeHTML(text), `</span>`)
	p.math(`<math aria-hidden="true">`, formula)
}

// cell writes a cell of a column, whose numbers have a tail of that length at most.
//
// A number alone is text, which can be copied into a spreadsheet; one with a power of ten is a
// formula.
func (p *page) cell(c entry.Cell, longest tail) {
	if c.Value == nil {
		p.text("<td>")
		p.say(c.Words)
		p.text("</td>")
		return
	}
	p.text(`<td class="number"`, longest.less(c).css(), ">")
	if number, plain := plainNumber(c); plain {
		p.text(number)
	} else {
		p.formula(c.Box())
	}
	p.text("</td>")
}
