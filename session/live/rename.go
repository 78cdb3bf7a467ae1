package live

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session"
	"steelyard/session/entry"
	"steelyard/units/writing"
)

// rename is rename k to k_s, or rename k@3 to k_s: the name is changed in every line that
// means what that line gave.
func (c *command) rename() {
	left, right, ok := strings.Cut(c.cmd.Arg, " to ")
	left, place, placed := strings.Cut(strings.TrimSpace(left), "@")
	right = strings.TrimSpace(right)
	r := renaming{Page: c.Page, from: syntax.Canonical(left), to: syntax.Canonical(right), typed: left, written: right}
	if !ok || r.from == "" || r.to == "" {
		names := slices.DeleteFunc(strings.Fields(c.cmd.Arg), func(w string) bool { return w == "to" })
		switch before := strings.HasPrefix(c.cmd.Arg, "to "); {
		case len(names) >= 2:
			c.refuse("The names have `to` between them.", "", names[0]+" to "+names[len(names)-1])
		case len(names) == 1 && before:
			c.refuse("The name to be changed is missing.", "Write, for example, `rename k to "+names[0]+"`.")
		case len(names) == 1:
			c.refuse("The new name is missing.", "Write, for example, `rename "+names[0]+" to "+names[0]+"_1`.")
		default:
			c.refuse("The two names are missing.", "Write, for example, `rename k to k_s`.")
		}
		return
	}
	if placed {
		r.line, _ = strconv.Atoi(place)
	}
	r.names()
	if why, hint := r.refused(placed); why != "" {
		c.refuse(why, hint)
		return
	}
	old, undone := slices.Clone(c.Entries()), c.undone
	ed := session.Edit{Texts: r.texts()}
	if !c.carry(ed) {
		return
	}
	for i, e := range c.Entries() {
		if !r.alike(old[i], e) {
			c.Undo(c.ctx)
			c.undone, c.got = undone, Answer{}
			c.refuse(fmt.Sprintf("Then line %d would mean something else.", e.Line), "Choose another name, or change the lines one by one. The page stays as it was.")
			return
		}
	}
	c.got.Change.Moved = nil
	if title := r.inBraces(c.Title()); title != c.Title() && !placed {
		c.done[len(c.done)-1].title = &titles{was: c.Title(), now: title}
		c.SetTitle(title)
		c.got.Change.Title = &title
	}
	var lines []string
	for _, line := range slices.Sorted(maps.Keys(ed.Texts)) {
		lines = append(lines, strconv.Itoa(line))
	}
	word := "line"
	if len(lines) > 1 {
		word = "lines"
	}
	c.say("%s is %s in %s %s", left, right, word, writing.List(lines, "and"))
}

// renaming is a name that a line gave, and the one that it gets.
type renaming struct {
	*Page
	from, to string
	typed    string // the old name as it was typed
	written  string // the new one
	line     int    // that gives it
	// now are the old names with what is written in their place, and old the new names
	// with the old ones.
	now, old map[string]string
}

// names are the name and those of its components, F_x of F, which it has as a vector; but
// for those that a line gives itself.
func (r *renaming) names() {
	r.now, r.old = map[string]string{r.from: r.written}, map[string]string{r.to: r.from}
	for _, axis := range syntax.Axes {
		end := "_" + string(axis)
		if !slices.ContainsFunc(r.Entries(), func(e *entry.Entry) bool { return slices.Contains(e.Gives(), r.from+end) }) {
			r.now[r.from+end], r.old[r.to+end] = r.written+end, r.from+end
		}
	}
}

// refused says why the name can't be changed; placed tells that a line was named.
func (r *renaming) refused(placed bool) (why, hint string) {
	if entry.BeginsWith(r.to+" =") != r.to {
		return "`" + r.written + "` can't be a name.", "A name begins with a letter. Words such as in, for or to can't be names."
	}
	var lines []string
	for _, e := range r.Entries() {
		if e.Stmt == nil {
			continue
		}
		gives := slices.Contains(e.Gives(), r.from)
		if gives && (!placed || e.Line == r.line) {
			lines = append(lines, strconv.Itoa(e.Line))
			r.line = e.Line
		}
		for _, m := range syntax.Mentions(e.Stmt) {
			if r.old[m.Name] != "" {
				return fmt.Sprintf("%s is in line %d already.", m.Name, e.Line), "Choose another name."
			}
		}
		switch s := e.Stmt.(type) {
		case *syntax.UnitDef, *syntax.Constants:
			if gives {
				return fmt.Sprintf("Line %d fixes the name %s.", e.Line, r.from), "Units and constants keep their names."
			}
		case *syntax.Solve:
			if n, ok := s.Equations[0].Left.(*syntax.Name); ok && s.Equations[0].Right == nil && r.symbolOf(n.Name) {
				return fmt.Sprintf("Line %d solves %s by its name, and %s is a symbol of it.", e.Line, n.Name, r.from), "Write out the equation in that line first."
			}
		}
	}
	switch {
	case len(lines) == 0 && r.headed() != nil:
		e := r.headed()
		return "Line " + strconv.Itoa(e.Line) + " takes the name " + r.from + " from the file " + e.Stmt.(*syntax.Data).File + ".",
			"Change it in that file, or add a line: " + r.written + " = " + r.from + "."
	case len(lines) == 0 && placed:
		return fmt.Sprintf("Line %d doesn't define %s.", r.line, r.from), ""
	case len(lines) == 0:
		return "No line defines " + r.typed + ".", "`names` shows what has been given."
	case len(lines) > 1:
		return r.from + " is given in line " + strings.Join(lines, " and in line ") + ".", "Say which: `rename " + r.from + "@" + lines[0] + " to " + r.written + "`."
	}
	return "", ""
}

// headed is the line that reads the name from the head of a file, the last one if there are
// several; nil if there is none.
func (r *renaming) headed() *entry.Entry {
	for _, e := range slices.Backward(r.Entries()) {
		data, is := e.Stmt.(*syntax.Data)
		if is && data.File != "" && (r.line == 0 || r.line == e.Line) && slices.ContainsFunc(e.Values(), func(v entry.Value) bool { return v.Name == r.from }) {
			return e
		}
	}
	return nil
}

// symbolOf tells whether the name is a symbol of a formula.
func (r *renaming) symbolOf(formula string) bool {
	f, ok := r.Formula(formula)
	if !ok {
		return false
	}
	_, ok = f.Symbol(r.from)
	return ok
}

// texts are the lines with the name changed, by their numbers.
func (r *renaming) texts() map[int]string {
	texts := map[int]string{}
	now := 0 // the line that the name means
	for _, e := range r.Entries() {
		if e.Stmt == nil {
			continue
		}
		if slices.Contains(e.Gives(), r.from) {
			now = e.Line
		}
		text := e.Text
		for _, m := range slices.Backward(r.mentions(e, now)) {
			from, to := m.NameAt.From, m.NameAt.To
			if at := strings.IndexByte(e.Text[from:to], '@'); at >= 0 {
				to = from + at
			}
			text = text[:from] + r.now[m.Name] + text[to:]
		}
		switch e.Stmt.(type) {
		case *syntax.Note, *syntax.Part:
			if now == 0 {
				text = r.inBraces(text) // above the line that gives it
			}
		}
		if text != e.Text {
			texts[e.Line] = text
		}
	}
	return texts
}

// mentions are the places of a line where the name means that line's, in their order.
func (r *renaming) mentions(e *entry.Entry, now int) []syntax.Mention {
	all := slices.DeleteFunc(syntax.Mentions(e.Stmt), func(m syntax.Mention) bool {
		line := now
		if m.Line != 0 {
			line = m.Line
		}
		return r.now[m.Name] == "" || line != r.line
	})
	slices.SortFunc(all, func(a, b syntax.Mention) int { return a.NameAt.From - b.NameAt.From })
	return slices.CompactFunc(all, func(a, b syntax.Mention) bool { return a.NameAt == b.NameAt })
}

// inBraces changes the name where a text has it in braces.
func (r *renaming) inBraces(text string) string {
	return syntax.FillBraces(text, func(name string) (string, bool) { return "{" + r.now[name] + "}", r.now[name] != "" })
}

// alike tells whether a line still means the same: its expressions are built alike, and
// come to the same.
func (r *renaming) alike(was, now *entry.Entry) bool {
	if was.Shown() != now.Shown() || (was.Stmt == nil) != (now.Stmt == nil) {
		return false
	}
	// A caution that goes, that the name is given twice, is what a new name may be for.
	told := slices.DeleteFunc(slices.Clone(was.Findings), func(f finding.Finding) bool {
		return f.Severity == finding.Caution && !slices.ContainsFunc(now.Findings, func(n finding.Finding) bool { return n.ID == f.ID })
	})
	if !slices.EqualFunc(told, now.Findings, func(a, b finding.Finding) bool { return a.ID == b.ID }) {
		return false
	}
	return was.Stmt == nil || r.built(was.Stmt) == r.built(now.Stmt)
}

// built is how the expressions of a statement are built, with one name for the old and
// the new.
func (r *renaming) built(s syntax.Stmt) string {
	var b strings.Builder
	for _, x := range s.Exprs() {
		for x := range syntax.Nodes(x) {
			fmt.Fprintf(&b, "%T ", x)
			switch x := x.(type) {
			case *syntax.Name:
				b.WriteString(r.either(x.Name))
			case *syntax.Call:
				b.WriteString(r.either(x.Func))
			case *syntax.Quantity:
				b.WriteString(x.Value.Text + x.Unit.Text)
			case *syntax.Number:
				b.WriteString(x.Value.Text)
			}
		}
	}
	return b.String()
}

func (r *renaming) either(name string) string { return cmp.Or(r.old[name], name) }
