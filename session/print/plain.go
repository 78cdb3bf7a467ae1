package print

import (
	"slices"
	"strconv"
	"strings"

	"github.com/mattn/go-runewidth"

	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/session/rows"
	"steelyard/units/each"
)

// Columns that Plain can work with.
const (
	leastColumns = 24
	mostColumns  = 200
	usualColumns = 76
)

// Plain writes a document as text for a terminal or a mail, at most so many
// columns wide; 0 stands for the usual width. A formula takes one line, as it is typed but
// for the signs of print.
func Plain(d *Document, columns int) []byte {
	if columns <= 0 {
		columns = usualColumns
	}
	t := plainText{columns: max(leastColumns, min(columns, mostColumns)), set: d.set}
	t.b.Grow(usual)
	write(d, &t)
	return []byte(strings.TrimRight(t.b.String(), "\n") + "\n")
}

// plainText is a document on its way to plain text.
//
// All widths are counted in cells, of which a Chinese character takes two and an accent none.
type plainText struct {
	b       strings.Builder
	columns int
	set     *setter
}

// prose is a text with its mathematics on the line.
func (t *plainText) prose(text string) string { return t.say(entry.Written(text)) }

// say sets what the program says.
func (t *plainText) say(said entry.Said) string { return plainPieces(t.set.say(said)) }

func plainPieces(all []piece) string {
	var b strings.Builder
	for _, p := range all {
		b.WriteString(p.words + p.set.Page())
		b.WriteString(framed("`", p.code, "`"))
	}
	return oneLine(b.String())
}

func (t *plainText) begin(d *Document) {
	t.heading(t.prose(d.title()), "=")
	t.wrapped("", "", d.edition())
	t.gap()
	if d.Edition == Handout {
		who := max(8, t.columns-30)
		t.wrapped("", "", "Name "+strings.Repeat("_", who)+"  Date "+strings.Repeat("_", 14))
		t.gap()
	}
}

func (t *plainText) end(d *Document) {
	if caution := oneLine(d.Caution); caution != "" {
		t.out(strings.Repeat("-", t.columns))
		t.wrapped("", "", caution)
	}
}

func (t *plainText) out(line string) {
	t.b.WriteString(strings.TrimRight(line, " "))
	t.b.WriteByte('\n')
}

// gap writes an empty line.
func (t *plainText) gap() { t.b.WriteByte('\n') }

// wrapped writes a text, its first row after one indent and the others after
// another.
//
// Rows after the first are indented, so that one sees where the next thing begins.
func (t *plainText) wrapped(first, next, text string) {
	indent := max(rows.Width(first), rows.Width(next))
	for i, row := range fold(text, t.columns-indent) {
		if i == 0 {
			t.out(first + row)
		} else {
			t.out(next + row)
		}
	}
}

// leastRow is the least width of a row, in whatever little room.
const leastRow = 8

// fold breaks a text into rows of some width.
func fold(text string, width int) []string { return rows.Fit(text, max(width, leastRow)) }

func (t *plainText) heading(text, under string) {
	most := 0
	for _, row := range fold(text, t.columns) {
		t.out(row)
		most = max(most, rows.Width(row))
	}
	t.out(strings.Repeat(under, most))
}

func (t *plainText) part(part *part, number int) {
	label, question := part.head(number)
	heading := strings.TrimSpace(label + " " + t.prose(question))
	t.heading(heading+framed(" [", points(part.Points), "]"), "-")
}

func (t *plainText) endPart() {}

func (t *plainText) note(lines []string) {
	t.lines(lines)
	t.gap()
}

func (t *plainText) told(lines []entry.Said) {
	for _, line := range lines {
		t.wrapped("  ", "  ", t.say(line))
	}
	t.gap()
}

func (t *plainText) drawing(d drawn) {
	for line := range strings.SplitSeq(strings.TrimRight(d.Text(t.columns, 22, false), "\n"), "\n") {
		t.out(line)
	}
	first, next := "", ""
	if d.Listed {
		first, next = "- ", "  "
	}
	for _, s := range d.Below {
		t.wrapped(first, next, t.say(s))
	}
	t.gap()
}

func (t *plainText) room(r *room) {
	for range r.Lines {
		t.gap()
		t.out(strings.Repeat("_", t.columns))
	}
	for _, x := range r.Answers {
		t.gap()
		t.wrapped("", "  ", plainSide(x)+" = "+strings.Repeat("_", min(30, t.columns/2)))
	}
	t.gap()
}

// lines writes lines of text, each with the blanks that it begins with.
func (t *plainText) lines(lines []string) {
	for _, line := range lines {
		line = clean(line)
		rest := strings.TrimLeft(line, " \t")
		deep := strings.Repeat(" ", min(len(line)-len(rest), 12))
		t.wrapped(deep, deep, t.prose(rest))
	}
}

func (t *plainText) givens(all []given) {
	t.out("Given")
	most := 0
	for _, g := range all {
		most = max(most, min(rows.Width(plainSide(g.Name)), t.columns/3))
	}
	for _, g := range all {
		name := plainSide(g.Name)
		shown := g.Shown.text() + framed(", ", t.prose(g.Meaning), "")
		if rows.Width(name) > most {
			t.wrapped("  ", "    ", name+" = "+shown)
			continue
		}
		t.wrapped("  "+runewidth.FillRight(name, most)+" = ", "      ", shown)
	}
	t.gap()
}

// plainSide writes an expression on one line.
func plainSide(x syntax.Expr) string {
	if x == nil {
		return ""
	}
	return oneLine(typeset.Expr(x).Page())
}

// Columns side by side need 32 cells each; in a narrower window they follow one another.
func (t *plainText) working(w *working, of []syntax.Expr) {
	heading := "Working"
	if len(of) > 0 {
		heading += " for " + t.say(listed(of))
	}
	t.wrapped("", "  ", heading)
	for _, columns := range entry.SideBySide(w.Lines) {
		width := t.columns/len(columns) - 2
		if len(columns) == 1 || width < leastColumn {
			t.definitions(slices.Concat(columns...))
			continue
		}
		set := each.Of(columns, func(column []entry.WorkLine) []string {
			inner := &plainText{columns: width, set: t.set}
			inner.definitions(column)
			return strings.Split(strings.TrimRight(inner.b.String(), "\n"), "\n")
		})
		for _, row := range rows.Beside(set, width+2) {
			t.out(row)
		}
		t.gap()
	}
}

// leastColumn is how wide a column of a working is at least.
const leastColumn = 32

func (t *plainText) definitions(lines []entry.WorkLine) {
	most := 0
	for i := range lines {
		if n := rows.Width(plainSide(lines[i].Left)); n <= t.columns/3 {
			most = max(most, n)
		}
	}
	for i := range lines {
		t.line(&lines[i], most)
	}
	t.gap()
}

// cases writes a function by intervals as a worksheet has it.
func (t *plainText) cases(c *cases) {
	t.wrapped("  ", "    ", plainSide(c.Of)+" =")
	for i := range c.Rows {
		t.wrapped("    ", "      ", plainSide(c.Rows[i].X)+" for "+oneLine(when(&c.Rows[i]).Page()))
	}
	t.gap()
}

// line writes a line of a working with its equals sign where the others have it,
// and its reason beside it if there is room.
func (t *plainText) line(l *entry.WorkLine, most int) {
	if lead := t.say(l.Words); lead != "" {
		if l.Left != nil || l.Right != nil || l.Shown != nil {
			lead += ":"
		}
		t.wrapped("  ", "  ", lead)
	}
	left, right := plainSide(l.Left), shown{Value: l.Shown}.text()
	if right == "" {
		right = plainSide(l.Right)
	}
	indent := strings.Repeat(" ", most+5)
	if left != "" || right != "" {
		row := "  " + strings.Repeat(" ", max(0, most-rows.Width(left))) + left
		if right != "" {
			row += " = "
		}
		reason := t.say(l.Reason)
		beside := rows.Width(row+right) + 4
		if reason != "" && beside+rows.Width(reason)+2 <= t.columns {
			t.out(row + right + "    (" + reason + ")")
		} else {
			t.long(row, indent, right)
			if reason != "" {
				t.wrapped(indent, indent, "("+reason+")")
			}
		}
	}
	if len(l.Units) > 0 {
		t.wrapped(indent, indent, "units: "+oneLine(entry.Cancelled(l.Units)))
	}
}

// long writes a right side in as many rows as it needs.
//
// It is broken before a sign where that can be, as a book does, and goes on below the equals sign.
func (t *plainText) long(row, indent, right string) {
	switch {
	case right == "":
		t.wrapped("  ", "    ", strings.TrimSpace(row))
	case rows.Width(row) > t.columns/2:
		t.wrapped("  ", "    ", strings.TrimSpace(row)+" "+right)
	default:
		for _, part := range rows.Formula(right, max(t.columns-runewidth.StringWidth(row), leastRow)) {
			t.out(row + part)
			row = indent
		}
	}
}

// plainAnswer is what an answer says.
func plainAnswer(a *answer) string {
	return oneLine(plainSide(a.X) + " " + a.joint() + " " + a.Shown.text())
}

// answers writes those of all parts, a line each.
func (t *plainText) answers(all []solved) {
	t.heading("Answers", "-")
	for _, s := range all {
		t.wrapped("  "+runewidth.FillRight(s.label, 3), "     ", strings.Join(each.Of(s.answers, plainAnswer), ", "))
	}
	t.gap()
}

// A box has no meaning where it is broken, so that a long answer has an arrow before it.
func (t *plainText) answer(a *answer) {
	s := plainAnswer(a) + framed("   [", points(a.Points), "]")
	if n := rows.Width(s); n+4 <= t.columns {
		edge := "+" + strings.Repeat("-", n+2) + "+"
		t.out(edge)
		t.out("| " + s + " |")
		t.out(edge)
	} else {
		t.wrapped("==> ", "    ", s)
	}
	t.gap()
}

func (t *plainText) check(c *check) {
	s := plainSide(c.Left)
	if c.Sign == "" && c.Right != nil {
		s += " " + c.Relation + " " + plainSide(c.Right)
	}
	t.wrapped("", "", strings.TrimSpace("Check: "+s+" "+c.tail())+" holds"+framed(": ", t.say(c.Says), ""))
	t.gap()
}

func (t *plainText) flaw(f *flaw) {
	mark := "|  "
	if f.Severity.Fails() {
		mark = "!! "
	}
	t.wrapped(mark, mark, f.heading()+" in line "+strconv.Itoa(f.Line))
	t.wrapped(mark+"    ", mark+"    ", oneLine(f.Source))
	for _, says := range f.Says {
		t.wrapped(mark, mark, plainPieces(says))
	}
	t.gap()
}
