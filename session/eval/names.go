package eval

import (
	"slices"
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/units/each"
)

// Unnamed is the definition of a result without a name, as yet without a value.
func Unnamed() *plan.Def { return &plan.Def{Kind: plan.Quantity, Slot: run.NoSlot} }

// Fail records that a definition has no value; root is what it would need, or
// nil if the fault lies in this line.
//
// A line below needs the cause and not the last link of a chain: W needs k, which needs m, and
// m is what is told.
func (l *Line) Fail(d *plan.Def, root *plan.Def) {
	if root == nil {
		root = d
	}
	d.Slot, d.Root = run.NoSlot, root
	l.Settle(d)
}

// KeepsComponents cautions where a line gives a vector of which an earlier line has given
// the name of a component another value: v_x is then none of v.
//
// A vector with a component of another value would be two things under one name.
func (l *Line) KeepsComponents(d *plan.Def, at syntax.Span) {
	if d.Name == "" || d.Slot == run.NoSlot || !l.Planner.Static(d.Slot).IsVector() || l.Planner.Static(d.Slot).Absent {
		return
	}
	all, axes := l.State.Elements(d.Slot), int(l.Planner.Static(d.Slot).Components())
	for k := range axes {
		name := d.Name + "_" + syntax.Axes[k:k+1]
		own, ok := l.Planner.Names.Lookup(name)
		if !ok || own.Failed() || own.Vector != nil || own.Slot == run.NoSlot {
			continue
		}
		n := len(all) / axes // (v_x, v_y) keeps both
		if has := l.State.Elements(own.Slot); !l.HasValue(own.Slot) || slices.Equal(has, all[k*n:k*n+n]) {
			continue
		}
		l.Find(finding.New(finding.GivenAgain, at, name+" keeps its value from line "+strconv.Itoa(own.Line)+"; it isn't a component of this "+d.Name+".",
			"Choose another name for one of them."))
	}
}

// Settle makes a definition known to the lines below.
func (l *Line) Settle(d *plan.Def) {
	if d.Name == "" {
		d.Line = l.Entry.Line
	} else {
		l.Planner.Define(d)
	}
	l.Planner.SetThat(d)
}

// MayDefine tells whether a name may be defined as a kind of thing here.
//
// A component belongs to its vector: v_x = 3 m/s below v = (3, 4) m/s could only repeat it or
// contradict it.
func (l *Line) MayDefine(name string, at syntax.Span, kind plan.DefKind) bool {
	if v, ok := l.Planner.VectorOf(name); ok {
		f := finding.New(finding.NameKind, at, name+" is a component of the vector "+v.Name+" (line "+strconv.Itoa(v.Line)+"), so it can't have a value of its own.",
			"Choose another name, such as "+name+"1.", name+"1")
		if s, ok := l.Entry.Stmt.(*syntax.Define); ok && !s.In.Present() {
			f.Hint = "To compare it with its value, write `check` in front. Or choose another name, such as " + name + "1."
			f.Lines = []string{"check " + l.Entry.Text}
		}
		l.Find(f)
		return false
	}
	d, ok := l.Planner.Names.Lookup(name)
	if !ok {
		return true
	}
	wasFunction := d.Kind == plan.Function || d.Kind == plan.Formula
	isFunction := kind == plan.Function || kind == plan.Formula
	if wasFunction == isFunction || d.Failed() {
		return true
	}
	is, too := "a quantity", "a function"
	if wasFunction {
		is, too = too, is
	}
	l.Find(finding.New(finding.NameKind, at, name+" is "+is+" already (line "+strconv.Itoa(d.Line)+"), so it can't be "+too+" too.",
		"Choose another name, such as "+l.unused(name)+".", l.unused(name)))
	return false
}

// unused is a name with the first number behind it that makes a new one.
//
// v is taken, v1 is offered.
func (l *Line) unused(name string) string {
	for n := 1; ; n++ {
		other := name + strconv.Itoa(n)
		if _, given := l.Planner.Names.Lookup(syntax.Canonical(other)); !given {
			return other
		}
	}
}

// GivenAgain cautions where a name is given a second time within a part. A later part may give
// names anew, but a value that a line finds, by a formula, a solve or a fit, tells nobody that it
// takes the place of a given.
//
// A name that failed, or had no value, is not given again: the line mends it.
func (l *Line) GivenAgain(name string, at syntax.Span, found bool) {
	d, ok := l.Planner.Names.Lookup(name)
	if !ok || d.Part != l.Planner.Part() && !(found && d.Given) || d.Line == 0 || d.Failed() || d.Kind == plan.Symbol {
		return
	}
	if d.Kind == plan.Quantity && l.Planner.Static(d.Slot).Absent {
		return // it had no value so far
	}
	if e := l.EntryAt(d.Line); e != nil {
		for _, f := range e.Findings {
			if f.Severity == finding.Mismatch {
				return // a slip that is being mended
			}
		}
	}
	was := " was given in line "
	if d.Kind == plan.Quantity && !d.Given {
		was = " was worked out in line "
	}
	choose := "choose another name; "
	if _, formula := l.Entry.Stmt.(*syntax.Define); formula && found && d.Given {
		choose = "choose another name, or begin with `check` or `solve`; "
	}
	means := " already; from here on it means this line."
	if s, ok := l.Entry.Stmt.(*syntax.Solve); ok && len(s.With) > 0 {
		means += " What follows `with` holds for this line alone."
	}
	l.Find(finding.New(finding.GivenAgain, at, name+was+strconv.Itoa(d.Line)+means,
		"If you didn't mean that, "+choose+name+"@"+strconv.Itoa(d.Line)+" is the earlier one."))
}

// Varied is the definition of a name that expressions were worked out from; nil
// where there is none, and false, which is a finding, where two lines gave it.
//
// with m = 2*m below two lines that both gave an m would replace one of them in silence.
func (l *Line) Varied(n *syntax.Name, of ...syntax.Expr) (*plan.Def, bool) {
	var found *plan.Def
	for _, x := range of {
		for _, d := range l.Planner.Varied(n, x) {
			if found != nil && found != d {
				l.Find(finding.New(finding.TwoReadings, n.At, n.Name+" has a value in line "+strconv.Itoa(found.Line)+" and another in line "+strconv.Itoa(d.Line)+"; both are in "+strings.Join(each.Of(of, typeset.Text), ", ")+".",
					"Give one of them another name."))
				return found, false
			}
			found = d
		}
	}
	l.CatchUp() // a constant or a component may not have been asked for before
	return found, found != nil
}
