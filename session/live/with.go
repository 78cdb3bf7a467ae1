package live

import (
	"slices"
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/session/entry"
	"steelyard/units"
	"steelyard/units/each"
)

// with is with k = 260 N/m alone: what would move on the page if givens had other values.
func (c *command) with() {
	w := Wording{Word: "`with`", Open: "`with ", Close: "`"}
	changed, refused := Replaced(c.Pad, []string{c.cmd.Arg}, w)
	if refused != nil {
		c.refuse(refused.Message, refused.Hint)
		return
	}
	c.got.Change = c.Try(c.ctx, session.Edit{Texts: changed})
	moved := c.got.Change.Moved
	for i := range moved {
		moved[i].New = false
	}
	c.say("The page stays as it is. This would change:")
	if len(moved) <= len(changed) {
		c.say("Nothing else would change.")
	}
}

// Wording is how replacing a given is written: its word, and what stands before and
// behind NAME = VALUE.
type Wording struct{ Word, Open, Close string }

func (w Wording) of(text string) string { return w.Open + text + w.Close }

// Refused says why a given can't be replaced.
type Refused struct{ Message, Hint string }

// replacements are the givens in some texts, each NAME = VALUE; what holds no = is a part of
// the one before it, words for its name or elements of a list.
func replacements(with []string) []string {
	var out []string
	for _, text := range with {
		for i, part := range strings.Split(strings.ReplaceAll(text, ";", ","), ",") {
			if i > 0 && !strings.Contains(part, "=") {
				out[len(out)-1] += "," + part
			} else {
				out = append(out, strings.TrimSpace(part))
			}
		}
	}
	return out
}

// Replaced finds the lines of the givens of a page that are to be replaced, each written as
// NAME = VALUE or NAME@LINE = VALUE, with the text that stands there instead. The words
// of a given stay unless there are others, and so does its kind of quantity: the lines below
// are written for it.
func Replaced(pad *session.Pad, with []string, w Wording) (map[int]string, *Refused) {
	out, entries := map[int]string{}, pad.Entries()
	for _, text := range replacements(with) {
		left, value, ok := strings.Cut(text, "=")
		said, at, placed := strings.Cut(strings.TrimSpace(left), "@")
		said = strings.TrimSpace(said)
		name := syntax.Canonical(said)
		if !ok || name == "" || strings.TrimSpace(value) == "" {
			word, _, _ := strings.Cut(said, " ")
			return nil, refused("The new value is missing behind "+w.Word+".", "Write, for example, "+w.of(valueFor(entries, syntax.Canonical(word)))+".")
		}
		lines := givenLines(entries, name)
		line := 0
		switch {
		case placed:
			for _, l := range lines {
				if strconv.Itoa(l) == strings.TrimSpace(at) {
					line = l
				}
			}
			if strings.TrimSpace(at) == "" {
				return nil, refused(w.of(text)+" names no line after @.", isGivenIn(said, lines))
			}
			if line == 0 {
				return nil, refused("line "+strings.TrimSpace(at)+" doesn't define "+said+".", isGivenIn(said, lines))
			}
		case len(lines) == 1:
			line = lines[0]
		case len(lines) > 1:
			return nil, refused(said+" is given in several lines.", "Say which one: "+w.of(said+"@"+strconv.Itoa(lines[0])+" = …")+".")
		default:
			if v, _, part := plan.AxisOf(name); part && len(givenLines(entries, v)) > 0 {
				return nil, refused(said+" is a component of "+v+", and has no value of its own.", "Replace the vector, "+w.of(v+" = (…, …)")+".")
			}
			return nil, noGiven(entries, said, name, w)
		}
		stmt, fs := syntax.Parse(name + " = " + strings.TrimSpace(value))
		d, ok := stmt.(*syntax.Define)
		if !ok || !written(d) {
			hint := "Write a number with its unit."
			if len(fs) > 0 {
				hint = fs[0].Message + " " + fs[0].Hint
			}
			return nil, refused("In "+w.of(text)+", "+said+" has no number.", hint)
		}
		if hint := lacksUnit(entries, line, said, d, w); hint != "" {
			return nil, refused(w.of(text)+" sets "+said+" without a unit.", hint)
		}
		if message, values := ownUnit(entryAt(entries, line), d); len(values) > 0 {
			return nil, refused(message, "Write "+w.of(values[0])+" or "+w.of(values[1])+".")
		}
		if f := otherKind(pad, name+"@"+strconv.Itoa(line), d); f != nil {
			return nil, refused(f.Message, f.Hint)
		}
		if _, twice := out[line]; twice {
			return nil, refused(said+" of line "+strconv.Itoa(line)+" is replaced twice.", "Use "+w.Word+" once for each given value.")
		}
		out[line] = otherwise(entryAt(entries, line), d, said+" = "+strings.TrimSpace(value))
	}
	return out, nil
}

// otherKind is why a line of the page could not have the given with that value: it is another
// kind of quantity, or another number of values.
func otherKind(pad *session.Pad, given string, now *syntax.Define) *finding.Finding {
	e := pad.Preview(pad.Next(), given+" with "+given+" = "+syntax.PrintExpr(now.X))
	if e == nil {
		return nil
	}
	return e.Refusal()
}

// valueFor is a given with a value, for an example: of the page, if it has one.
func valueFor(entries []*entry.Entry, name string) string {
	text := "m = 0.10 kg"
	for _, e := range slices.Backward(entries) {
		if d, ok := e.Stmt.(*syntax.Define); ok && written(d) && !e.Failed() {
			if text = d.Name + " = " + syntax.PrintExpr(d.X); d.Name == name {
				break
			}
		}
	}
	return text
}

// noGiven says that no line gives a name a written value.
func noGiven(entries []*entry.Entry, said, name string, w Wording) *Refused {
	for _, e := range slices.Backward(entries) {
		if slices.Contains(e.Gives(), name) {
			return refused(said+" is worked out in line "+strconv.Itoa(e.Line)+", and not given.", w.Word+" replaces a given, as in "+w.of(valueFor(entries, ""))+".")
		}
	}
	return refused("No line defines "+said+".", w.Word+" replaces a given, as in "+w.of(valueFor(entries, ""))+".")
}

// otherwise is a given with another value, for whom it is printed and, unless there are
// others, what words say of it as they were.
func otherwise(e *entry.Entry, now *syntax.Define, text string) string {
	_, n := syntax.For(e.Text)
	text = e.Text[:n] + text
	if words := e.Meaning(); words != "" && now.Meaning == "" {
		text += ", " + words
	}
	return text
}

// lacksUnit says what to write where a given with a unit is replaced by a plain
// number; a bare 0 fits any unit.
func lacksUnit(entries []*entry.Entry, line int, name string, now *syntax.Define, w Wording) string {
	x := now.X
	minus := ""
	if u, ok := x.(*syntax.Unary); ok {
		x, minus = u.X, "-"
	}
	n, ok := x.(*syntax.Number)
	if !ok || n.Value.Hi == 0 {
		return ""
	}
	e := entryAt(entries, line)
	if len(e.Values()) != 1 || e.Values()[0].Dim.IsOne() {
		return ""
	}
	unit := e.Values()[0].Unit
	return "It is given in " + unit.Text() + " in line " + strconv.Itoa(line) + ". Write " + w.of(name+" = "+minus+n.Value.Text+" "+unit.Text()) + "."
}

// ownUnit finds m = 2m in the place of m = 3 kg, which may be twice what the line gave, and
// is two metres by the rules: what to say, and the line written in both ways.
func ownUnit(e *entry.Entry, now syntax.Stmt) (message string, lines []string) {
	d, ok := now.(*syntax.Define)
	was, given := e.Stmt.(*syntax.Define)
	if !ok || !given || was.Name != d.Name || !written(was) || len(e.Values()) != 1 {
		return "", nil
	}
	q, ok := d.X.(*syntax.Quantity)
	if !ok || q.Unit.Text != d.Name || q.Unit.At.From > q.At.From+len(q.Value.Text) || units.Of(d.Name).Dim() == e.Values()[0].Dim {
		return "", nil
	}
	number := q.Value.Text
	return "`" + number + d.Name + "` may be " + number + " times the old " + d.Name + ", or a number with a unit.",
		[]string{d.Name + " = " + number + "*" + syntax.PrintExpr(was.X), d.Name + " = " + number + " " + d.Name}
}

// entryAt is the entry of a line, which is there.
func entryAt(entries []*entry.Entry, line int) *entry.Entry {
	return entries[slices.IndexFunc(entries, func(e *entry.Entry) bool { return e.Line == line })]
}

func refused(message, hint string) *Refused { return &Refused{message, hint} }

func isGivenIn(name string, lines []int) string {
	if len(lines) == 0 {
		return name + " is not a given of this worksheet."
	}
	return name + " is defined in line " + strings.Join(each.Of(lines, strconv.Itoa), ", ") + "."
}

// written tells whether a definition is a given.
func written(d *syntax.Define) bool { return !d.In.Present() && syntax.IsWritten(d.X) }

// givenLines lists the lines that give a name by written numbers alone.
func givenLines(entries []*entry.Entry, name string) []int {
	var out []int
	for _, e := range entries {
		if d, ok := e.Stmt.(*syntax.Define); ok && d.Name == name && written(d) && !e.Failed() {
			out = append(out, e.Line)
		}
	}
	return out
}
