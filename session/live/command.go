package live

import (
	"cmp"
	"context"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/session/entry"
	"steelyard/session/record"
	"steelyard/units/writing"
)

// Answer is what became of a command about the page as a whole.
type Answer struct {
	// Change is what has changed, and Done that it is not only what would be.
	Change Change
	Done   bool
	// Lines are those to be shown.
	Lines []*entry.Entry
	// Draft is the text of a line that is to be edited, before or in the place of
	// the one with its number.
	Draft *Draft
	// Offers are lines that one which failed may have been meant for, to be entered in
	// its place.
	Offers []string
}

// Draft is a line that is being changed, or put in before another.
type Draft struct {
	Line   int
	Insert bool
	Text   string
}

// command is how a line is put where a draft is.
func (d *Draft) command() string {
	if d.Insert {
		return fmt.Sprintf("insert before %d ", d.Line)
	}
	return fmt.Sprintf("change %d to ", d.Line)
}

// After is where the next line goes once lines have been changed: behind the one that was
// changed or put in here, or before the same line as until then.
func (d *Draft) After(ed session.Edit) *Draft {
	next := *d
	if _, changed := ed.Texts[d.Line]; changed && !d.Insert {
		next = Draft{Line: d.Line + 1, Insert: true}
	}
	if ed.At > 0 && ed.At <= d.Line {
		next.Line += len(ed.Put) - min(ed.Drop, d.Line-ed.At)
	}
	return &next
}

// command is a command that is being answered.
type command struct {
	*Page
	ctx context.Context
	e   *entry.Entry
	cmd *syntax.Command
	got Answer
}

// answer answers the commands of a page, into the entry.
func (p *Page) answer(ctx context.Context, e *entry.Entry, cmd *syntax.Command) Answer {
	c := &command{Page: p, ctx: ctx, e: e, cmd: cmd}
	switch cmd.Word {
	case "change":
		c.change()
	case "insert":
		c.insert()
	case "remove":
		c.remove()
	case "rename":
		c.rename()
	case "with":
		c.with()
	case "page":
		c.page()
	case "undo":
		c.back(p.Undo, "There is nothing to undo.", "undone: ")
	case "redo":
		c.back(p.Redo, "There is nothing to redo.", "redone: ")
	}
	return c.got
}

// refuse finds why the command can't be carried out.
func (c *command) refuse(message, hint string, readings ...string) {
	at := c.cmd.ArgAt
	if at.From == at.To {
		at = c.cmd.WordAt
	}
	f := finding.New(finding.Unreadable, at, message, hint)
	for _, r := range readings {
		f.Lines = append(f.Lines, c.cmd.Word+" "+r)
	}
	c.e.Findings = append(c.e.Findings, f)
}

func (c *command) say(format string, args ...any) {
	c.e.Outcome = entry.Rows(fmt.Sprintf(format, args...))
}

// line reads the number of a line of the page.
func (c *command) line(text string) (int, bool) {
	n, err := strconv.Atoi(strings.TrimSuffix(strings.TrimPrefix(text, "line "), ":"))
	last := len(c.Entries())
	switch {
	case err != nil:
		message, hint, offer := c.lineOf()
		c.refuse(message, hint, offer...)
	case last == 0:
		c.refuse("There is no line yet.", "Type one first, such as m = 80 g.")
	case n < 1 || n > last:
		c.refuse(fmt.Sprintf("There is no line %d; the last is line %d.", n, last), "`page` shows them all.")
	default:
		return n, true
	}
	return 0, false
}

// lines reads the numbers of some lines, 3 or 3 to 8; 3-8 can mean nothing else.
func (c *command) lines() (from, to int, ok bool) {
	m := someLines().FindStringSubmatch(c.cmd.Arg)
	if m != nil && m[2] == "" && m[3] != "" {
		c.refuse("Two lines have `to` between them.", "", m[1]+" to "+m[3])
		return 0, 0, false
	}
	first, last := c.cmd.Arg, c.cmd.Arg
	if m != nil {
		first, last = m[1], cmp.Or(m[3], m[1])
	}
	if from, ok = c.line(first); !ok {
		return 0, 0, false
	}
	to, ok = c.line(last)
	if ok && to < from {
		from, to = to, from
	}
	return from, to, ok
}

// someLines are the numbers of lines, and what is between two of them.
var someLines = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^(?:lines? )?(\d+)(?:(\s*(?:to\b|-|–)\s*)?[\s,]*(\d+))?$`)
})

// lineOf says that the number of a line is missing, and offers the command with that of the
// last line which gives the name it begins with: change m to 3 kg, change m = 3 kg,
// remove m. In change 1 m = 3 kg it is the to that is missing.
func (c *command) lineOf() (message, hint string, offer []string) {
	word, value := c.cmd.Arg, ""
	if i := strings.IndexAny(word, " =,:"); i > 0 {
		word, value = word[:i], strings.TrimSpace(strings.TrimPrefix(strings.TrimLeft(word[i:], " =,:"), "to "))
	}
	if strings.HasPrefix(value, "from ") { // from 2 kg to 3 kg
		value = value[strings.LastIndex(value, " to ")+1:]
		value = strings.TrimPrefix(strings.TrimPrefix(value, "to "), "from ")
	}
	change := c.cmd.Word == "change" && value != "" && value != "to"
	_, err := strconv.Atoi(word)
	switch {
	case err == nil && value == "to":
		return "The new line is missing behind `to`.", "Write, for example, `change " + word + " to " + valueFor(c.Entries(), "") + "`.", nil
	case err == nil && change:
		return "The new line comes after `to`.", "", []string{word + " to " + value}
	}
	message, hint = "The number of a line is missing.", "Write, for example, `"+c.cmd.Word+c.example()+"`."
	for i, e := range slices.Backward(c.Entries()) {
		if e.Stmt == nil || !slices.ContainsFunc(e.Stmt.Defines(), func(d syntax.Ident) bool { return d.Name == syntax.Canonical(word) }) {
			continue
		}
		switch line := strconv.Itoa(i + 1); {
		case change:
			return message, "", []string{line + " to " + word + " = " + value}
		case value == "":
			return message, "", []string{line}
		}
		break
	}
	return message, hint, nil
}

func (c *command) example() string {
	if c.cmd.Word == "insert" {
		return " before 3"
	}
	return " 3"
}

// change is change 3 [to STATEMENT].
func (c *command) change() {
	number, text, to := strings.Cut(c.cmd.Arg, " to ")
	line, ok := c.line(strings.TrimSpace(number))
	switch {
	case !ok:
	case !to:
		c.got.Draft = &Draft{Line: line, Text: c.Entries()[line-1].Text}
	default:
		at := &Draft{Line: line}
		c.put(at, text, at.command())
	}
}

// put gives a line another text, or puts one in before it. Where the line that is
// written then has no value, what is wrong with it is found, and the page stays as it was.
// What is offered begins with the place if that was typed; else the place waits for
// another line.
func (c *command) put(at *Draft, text, place string) {
	text = strings.TrimSpace(text)
	bare, _ := record.Cut(text)
	stmt, _ := syntax.Parse(bare)
	if isCommand(stmt) {
		c.refuse("`"+FirstRow(text)+"` is a command, so it can't be a line of the page.", "")
		return
	}
	if !at.Insert {
		if message, values := ownUnit(c.Entries()[at.Line-1], stmt); len(values) > 0 {
			for _, v := range values {
				c.got.Offers = append(c.got.Offers, place+v)
			}
			c.refuse(message, "Choose one of them. The page stays as it was.")
			c.e.Findings[len(c.e.Findings)-1].Lines = c.got.Offers
			return
		}
	}
	ed := session.Edit{Texts: map[int]string{at.Line: text}}
	if at.Insert {
		ed = session.Edit{At: at.Line, Put: []string{text}}
		ed.Texts = c.renumbered(ed)
	}
	undone := c.undone
	if !c.carry(ed) {
		return
	}
	now := c.Entries()[at.Line-1]
	if !now.Failed() {
		return
	}
	c.Undo(c.ctx)
	c.undone, c.got = undone, Answer{Offers: offers(now)}
	if at.Insert {
		c.fails(at.Line-1, text)
	}
	for i, text := range c.got.Offers {
		parts := syntax.StatementsOf(text)
		for k := range parts {
			parts[k] = place + parts[k]
			if k > 0 && place != "" {
				parts[k] = fmt.Sprintf("insert before %d %s", at.Line+k, strings.TrimPrefix(parts[k], place))
			}
		}
		c.got.Offers[i] = strings.Join(parts, "\n")
	}
	from := max(strings.LastIndex(c.e.Text, now.Text), 0)
	for i, f := range now.Findings {
		if i == 0 {
			f.Hint = strings.TrimSpace(f.Hint + " The page stays as it was.")
		}
		f.At.From, f.At.To = f.At.From+from, f.At.To+from
		c.e.Findings = append(c.e.Findings, f)
	}
}

// offers are the whole lines that a line which failed may have been meant for.
func offers(e *entry.Entry) []string {
	var out []string
	for i := range e.Findings {
		f := &e.Findings[i]
		lines := f.Lines
		if f.At.From == 0 && f.At.To == len(e.Text) {
			lines = f.Offers() // each stands for the whole line
		}
		for _, line := range lines {
			if !slices.Contains(out, line) {
				out = append(out, line)
			}
		}
	}
	return out
}

func isCommand(s syntax.Stmt) bool {
	_, is := s.(*syntax.Command)
	return is
}

// insert is insert before 3 [STATEMENT].
func (c *command) insert() {
	if behind, ok := strings.CutPrefix(c.cmd.Arg, "after "); ok {
		c.insertAfter(behind)
		return
	}
	rest, _ := strings.CutPrefix(c.cmd.Arg, "before ")
	number, text, _ := strings.Cut(strings.TrimSpace(rest), " ")
	line, ok := c.line(number)
	if !ok {
		return
	}
	at := &Draft{Line: line, Insert: true}
	if text = strings.TrimSpace(text); text == "" {
		c.got.Draft = at
		return
	}
	c.put(at, text, at.command())
}

// insertAfter offers insert before 4 for insert after 3.
func (c *command) insertAfter(rest string) {
	number, text, _ := strings.Cut(rest, " ")
	line, ok := c.line(number)
	switch {
	case !ok:
	case line == len(c.Entries()):
		c.refuse(fmt.Sprintf("Line %d is the last line.", line), "Type the new line at the prompt, without `insert`.")
	default:
		c.refuse("New lines go in before a line.", "", strings.TrimSpace(fmt.Sprintf("before %d %s", line+1, text)))
	}
}

// remove is remove 3 and remove 3 to 8.
func (c *command) remove() {
	from, to, ok := c.lines()
	if !ok {
		return
	}
	ed := session.Edit{At: from, Drop: to - from + 1}
	ed.Texts = c.renumbered(ed)
	out := FirstRow(c.Entries()[from-1].Text)
	if ed.Drop > 1 {
		out = writing.Count(ed.Drop, "line")
	}
	if c.carry(ed) {
		c.say("removed: %s", out)
	}
}

// carry changes lines, unless the work is stopped.
func (c *command) carry(ed session.Edit) bool {
	change, ok := c.Change(c.ctx, ed)
	if !ok {
		c.e.Findings = append(c.e.Findings, finding.New(finding.Stopped, c.cmd.WordAt, "Stopped; the page is as it was.", ""))
		return false
	}
	c.got.Change, c.got.Done = change, true
	return true
}

// back takes a change back, or does it again.
func (c *command) back(take func(context.Context) (Change, bool), nothing, did string) {
	change, ok := take(c.ctx)
	if !ok {
		c.say("%s", nothing)
		return
	}
	c.got.Change, c.got.Done = change, true
	c.say("%s%s", did, change.What)
}

// page is page, page 3 to 8 and page b.
func (c *command) page() {
	all := c.Entries()
	from, to := 1, len(all)
	switch first, _ := utf8.DecodeRuneInString(strings.TrimPrefix(strings.TrimPrefix(c.cmd.Arg, "lines "), "line ")); {
	case c.cmd.Arg == "":
	case unicode.IsDigit(first):
		var ok bool
		if from, to, ok = c.lines(); !ok {
			return
		}
	default:
		if from, to = c.part(strings.TrimPrefix(c.cmd.Arg, "part ")); from == 0 {
			return
		}
	}
	if len(all) == 0 {
		c.say("There is no line yet.")
		return
	}
	if c.Title() != "" && c.cmd.Arg == "" {
		c.say("%s", c.Title())
	}
	c.got.Lines = all[min(from-1, to):to]
}

// part finds the lines of a part of the question.
func (c *command) part(name string) (from, to int) {
	for i, e := range c.Entries() {
		p, ok := e.Stmt.(*syntax.Part)
		switch {
		case ok && from > 0:
			return from, i
		case ok && strings.EqualFold(p.Label, strings.TrimSuffix(name, ":")):
			from = i + 1
		}
	}
	if from == 0 {
		c.refuse("There is no part "+name+" on this page.", "`page` shows all lines, `page b` a part, `page 3 to 8` some lines.")
	}
	return from, len(c.Entries())
}

// FirstRow is the first line of a statement, cut if it is long.
func FirstRow(text string) string {
	line, _, _ := strings.Cut(text, "\n")
	if rs := []rune(line); len(rs) > 50 {
		line = string(rs[:50]) + "…"
	}
	return line
}
