package session

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// NameKind is what a name of the worksheet stands for.
type NameKind uint8

// The kinds of names.
const (
	Given NameKind = iota
	Result
	Function
	OwnUnit
	Formula
	Symbol
	Constant
	Failed // its last line could not be worked out
)

var nameKindWords = [...]string{"given", "result", "function", "unit", "formula", "symbol, no value yet", "constant", "not worked out"}

// String returns the kind in words.
func (k NameKind) String() string { return nameKindWords[k] }

// Name is a name of the worksheet with what it means after the last line.
type Name struct {
	Name  string
	Kind  NameKind
	Line  int
	Value *entry.Value // nil if it has none
	Unit  string
}

// Names lists what the names of the worksheet mean after the last line, in the
// order of their lines.
func (p *Pad) Names() []Name {
	var out []Name
	for _, d := range p.planner.Names.All() {
		if now, _ := p.planner.Names.Lookup(d.Name); now != d {
			continue
		}
		if d.Failed() {
			out = append(out, Name{Name: d.Name, Line: d.Line, Kind: Failed})
			continue
		}
		n := Name{Name: d.Name, Line: d.Line, Kind: p.nameKind(d)}
		if d.Unit != nil {
			n.Unit = d.Unit.Text()
		}
		if e := p.entryAt(d.Line); e != nil {
			for i, v := range e.Values() {
				if v.Name == d.Name {
					n.Value = &e.Values()[i]
				}
			}
		}
		out = append(out, n)
	}
	for i, e := range p.entries {
		if unit := p.marks[i].unit; unit != "" {
			out = append(out, Name{Name: unit, Kind: OwnUnit, Line: e.Line})
		}
	}
	return out
}

// nameKind says what a definition stands for.
func (p *Pad) nameKind(d *plan.Def) NameKind {
	switch d.Kind {
	case plan.Function:
		return Function
	case plan.Formula:
		return Formula
	case plan.Symbol:
		return Symbol
	}
	if e := p.entryAt(d.Line); e != nil {
		if _, ok := e.Stmt.(*syntax.Constants); ok {
			return Constant
		}
	}
	if d.Given {
		return Given
	}
	return Result
}

// entryAt returns the stored entry of a line.
func (p *Pad) entryAt(line int) *entry.Entry {
	lo, hi := 0, len(p.entries)
	for lo < hi {
		mid := (lo + hi) / 2
		if p.entries[mid].Line < line {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	if lo < len(p.entries) && p.entries[lo].Line == line {
		return p.entries[lo]
	}
	return nil
}

// ask answers a command that is no line of the worksheet.
func (p *Pad) ask(e *entry.Entry, cmd *syntax.Command) {
	switch cmd.Word {
	case "names":
		if strings.TrimSpace(cmd.Arg) != "" {
			e.Findings = append(e.Findings, finding.New(finding.Unreadable, cmd.ArgAt, "names stands alone: it lists all names.", "For one name, write describe "+strings.TrimSpace(cmd.Arg)+"."))
			return
		}
		e.Outcome = p.tellNames()
	case "describe":
		p.describe(e, cmd)
	case "worksheet":
		p.entitle(e, cmd)
	}
}

// tellNames lists the names, one a line.
func (p *Pad) tellNames() entry.Lines {
	names := p.Names()
	if len(names) == 0 {
		return entry.Lines{"No names yet."}
	}
	width := 0
	values := make([]string, len(names))
	wide := 0
	for i, n := range names {
		width = max(width, len([]rune(n.Name)))
		if n.Value != nil {
			values[i] = p.asGiven(n)
		}
		wide = max(wide, len([]rune(values[i])))
	}
	out := make(entry.Lines, len(names))
	for i, n := range names {
		out[i] = pad(n.Name, width) + "   " + pad(values[i], wide) + "   " + n.Kind.String() + ", line " + itoa(n.Line)
	}
	return out
}

// asGiven shows a plain given as it was written, and any other value as its
// line shows it.
func (p *Pad) asGiven(n Name) string {
	e := p.entryAt(n.Line)
	if d, ok := e.Stmt.(*syntax.Define); ok && !e.Result().Shows {
		at := d.X.Span()
		return e.Text[at.From:at.To]
	}
	return n.Value.Shown(units.Screen)
}

func pad(s string, width int) string {
	return s + strings.Repeat(" ", max(0, width-len([]rune(s))))
}

// describe tells what a name is, what it comes from and where it is used.
func (p *Pad) describe(e *entry.Entry, cmd *syntax.Command) {
	word := strings.TrimSpace(cmd.Arg)
	if word == "" {
		e.Findings = append(e.Findings, finding.New(finding.Unreadable, cmd.WordAt, "describe needs a name.", "Write, for example, describe k."))
		return
	}
	name, line := word, 0
	if before, after, ok := strings.Cut(word, "@"); ok {
		name = before
		for _, r := range after {
			if r < '0' || r > '9' || line > 1<<20 {
				line = -1
				break
			}
			line = line*10 + int(r-'0')
		}
	}
	n := &syntax.Name{Name: syntax.Canonical(name), Line: line}
	d, ok := p.planner.Find(n)
	if !ok {
		if f, ok := p.Formula(word); ok {
			e.Outcome = entry.Lines(p.describeFormula(f, 0))
			return
		}
		if told := p.tellChains(n.Name); told != nil && n.Line == 0 {
			e.Outcome = entry.Lines(told)
			return
		}
		n.At = cmd.ArgAt
		e.Findings = append(e.Findings, p.planner.Unknown(n, e.Text)...)
		return
	}
	switch {
	case d.Failed():
		e.Outcome = entry.Lines{d.Name + " (line " + itoa(d.Line) + ") could not be worked out."}
	case d.Kind == plan.Function:
		e.Outcome = p.withUses(entry.Lines{d.Name + "(" + strings.Join(d.Func.Params, ", ") + "): a function of this worksheet, line " + itoa(d.Line)}, d)
	case d.Kind == plan.Formula:
		e.Outcome = p.withUses(p.describeFormula(d.Formula, d.Line), d)
	default:
		e.Outcome = p.withUses(p.describeQuantity(d), d)
	}
}

// describeFormula tells an equation and its symbols.
func (p *Pad) describeFormula(f *syntax.FormulaDef, line int) []string {
	head := f.Name + ": " + syntax.PrintExpr(f.Left) + " = " + syntax.PrintExpr(f.Right)
	if line > 0 {
		head += ", a formula of this worksheet, line " + itoa(line)
	}
	out := []string{head}
	for _, s := range f.Symbols {
		text := "  " + s.Name
		if s.Unit.Text != "1" {
			text += " in " + s.Unit.Text
		}
		if s.Meaning != "" {
			text += ", " + s.Meaning
		}
		out = append(out, text)
	}
	return out
}

// describeQuantity tells the value, dimension and names of a quantity.
func (p *Pad) describeQuantity(d *plan.Def) []string {
	st := p.planner.Static(d.Slot)
	head := d.Name
	if d.Line > 0 {
		head += " (line " + itoa(d.Line) + ")"
	}
	unit := d.Unit
	if unit == nil {
		unit = units.Preferred(st.Dim, st.Tag)
	}
	head += ": " + plan.Words(st)
	if !st.Absent {
		if v := p.shownValue(d, unit); v != "" {
			head = d.Name + strings.TrimPrefix(head[:strings.Index(head, ": ")], d.Name) + " = " + v + ", " + plan.Words(st)
		}
	} else {
		head += ", no value yet"
	}
	out := []string{head}
	if st.Open != 0 {
		return append(out, "  a bare 0: its first use settles its unit")
	}
	out = append(out, "  dimension "+st.Dim.String()+"; in base units "+baseUnits(st))
	if k, ok := units.KindOf(st.Dim, st.Tag); ok && len(k.Others) > 0 {
		out = append(out, "  also the dimension of: "+strings.Join(k.Others, ", "))
	}
	return out
}

// shownValue is a definition's value as its own line shows it.
func (p *Pad) shownValue(d *plan.Def, unit *units.Unit) string {
	if e := p.entryAt(d.Line); e != nil && d.Line > 0 {
		for _, v := range e.Values() {
			if v.Name == d.Name {
				return v.Shown(units.Screen)
			}
		}
	}
	if int(d.Slot) >= len(p.state.Vals) {
		return ""
	}
	return units.FormatQuantity(unit.FromSI(p.state.Vals[d.Slot]), unit, units.Figures{}, p.set.rounding, units.Screen)
}

// baseUnits writes a dimension in base units.
func baseUnits(st run.Static) string {
	if st.Dim.IsOne() {
		return "1"
	}
	u, bad := units.NewTable().Parse(st.Dim.String(), units.AloneInPlace)
	if bad != nil {
		return st.Dim.String()
	}
	return u.Screen()
}

// withUses adds what a definition comes from and where it is used.
func (p *Pad) withUses(out entry.Lines, d *plan.Def) entry.Lines {
	if e := p.entryAt(d.Line); e != nil && len(e.Uses) > 0 {
		out = append(out, "  worked out from "+p.namedLines(e.Uses))
	}
	var users []int
	for _, e := range p.entries {
		for _, u := range e.Uses {
			if u == d.Line {
				users = append(users, e.Line)
			}
		}
	}
	if len(users) == 0 {
		return append(out, "  not used in any line so far")
	}
	return append(out, "  used in "+p.namedLines(users))
}

// namedLines lists lines with the names they define: W (line 4).
func (p *Pad) namedLines(lines []int) string {
	words := make([]string, 0, len(lines))
	for _, n := range lines {
		word := "line " + itoa(n)
		if e := p.entryAt(n); e != nil {
			if names := e.Gives(); len(names) == 1 {
				word = names[0] + " (line " + itoa(n) + ")"
			}
		}
		words = append(words, word)
	}
	if len(words) > 12 {
		words = append(words[:12], "…")
	}
	return strings.Join(words, ", ")
}
