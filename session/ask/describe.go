package ask

import (
	"slices"
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// Describe tells what a name is, what it comes from and where it is used.
func Describe(p *eval.Page, e *entry.Entry, cmd *syntax.Command) {
	word := strings.TrimSpace(cmd.Arg)
	if word == "" {
		e.Findings = append(e.Findings, finding.New(finding.Unreadable, cmd.WordAt, "describe needs a name.", "Write, for example, describe k."))
		return
	}
	name, after, numbered := strings.Cut(word, "@")
	line, err := strconv.ParseUint("0"+after, 10, 31)
	if numbered && (err != nil || line == 0) {
		e.Findings = append(e.Findings, finding.New(finding.Unreadable, cmd.ArgAt, "What is after @ isn't the number of a line.", "Write, for example, describe "+name+"@2."))
		return
	}
	n := &syntax.Name{Name: syntax.Canonical(name), Line: int(line)}
	d, ok := p.Planner.Find(n)
	if !ok {
		if f, ok := p.Formula(word); ok {
			e.Outcome = entry.Rows(describeFormula(f, 0)...)
			return
		}
		if told := tellChains(p, n.Name); told != nil && n.Line == 0 {
			e.Outcome = entry.Rows(told...)
			return
		}
		n.At = cmd.ArgAt
		e.Findings = append(e.Findings, p.Planner.Unknown(n, e.Text)...)
		return
	}
	switch {
	case d.Failed():
		e.Outcome = entry.Rows(d.Name + " (line " + strconv.Itoa(d.Line) + ") could not be worked out.")
	case d.Kind == plan.Function:
		e.Outcome = withUses(p, []string{d.Name + "(" + strings.Join(d.Func.Params, ", ") + "): a function of this worksheet, line " + strconv.Itoa(d.Line)}, d)
	case d.Kind == plan.Formula:
		e.Outcome = withUses(p, describeFormula(d.Formula, d.Line), d)
	default:
		e.Outcome = withUses(p, describeQuantity(p, d), d)
	}
}

// describeFormula tells an equation and its symbols.
func describeFormula(f *syntax.FormulaDef, line int) []string {
	head := f.Name + ": " + syntax.PrintExpr(f.Left) + " = " + syntax.PrintExpr(f.Right)
	if line > 0 {
		head += ", a formula of this worksheet, line " + strconv.Itoa(line)
	}
	out := []string{head}
	for _, s := range f.Symbols {
		out = append(out, "  "+s.String())
	}
	return out
}

// describeQuantity tells the value, dimension and names of a quantity.
func describeQuantity(p *eval.Page, d *plan.Def) []string {
	st := p.Planner.Static(d.Slot)
	head := d.Name
	if d.Line > 0 {
		head += " (line " + strconv.Itoa(d.Line) + ")"
	}
	is := plan.Words(st)
	switch st.Shape {
	case run.Vector:
		is = "a vector with the unit of " + is
	case run.Vectors:
		is = "vectors with the unit of " + is
	}
	switch v := p.Shown(d, units.Screen); {
	case st.Absent:
		head += ": " + is + ", no value yet"
	case v != "":
		head += " = " + v + ", " + is
	default:
		head += ": " + is
	}
	out := []string{head}
	if st.Open != 0 {
		return append(out, "  0 without a unit: its first use sets its unit")
	}
	out = append(out, "  dimension "+st.Dim.String()+"; in base units "+baseUnits(st))
	if words := uncertainty(p, d); words != "" {
		out = append(out, "  "+words)
	} else if words := supported(p, d); words != "" && !st.Absent {
		out = append(out, "  "+words)
	}
	if k, ok := units.KindOf(st.Dim, st.Tag); ok && len(k.Others()) > 0 {
		out = append(out, "  also the dimension of: "+strings.Join(k.Others(), ", "))
	}
	return out
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

// withUses adds what a definition means in words, what it comes from and where it is
// used.
func withUses(p *eval.Page, out []string, d *plan.Def) entry.Lines {
	if words := entry.NewMeanings(p.Entries).Of(d.Name, p.EntryAt(d.Line)); words != "" {
		out = slices.Insert(out, 1, "  "+words)
	}
	if e := p.EntryAt(d.Line); e != nil && len(e.Uses) > 0 {
		out = append(out, "  worked out from "+entry.LinesNamed(e.Uses, p.EntryAt))
	}
	var users []int
	for _, e := range p.Entries {
		for _, u := range e.Uses {
			if u == d.Line {
				users = append(users, e.Line)
			}
		}
	}
	if len(users) == 0 {
		return entry.Rows(append(out, "  not used in any line so far")...)
	}
	return entry.Rows(append(out, "  used in "+entry.LinesNamed(users, p.EntryAt))...)
}
