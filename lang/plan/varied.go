package plan

import (
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/units/writing"
)

// A name may be given twice, as in part a and part b of a question. What was worked
// out from the first is not moved by the second: U = 1/2*k*x^2 of part a holds the
// k of part a. So that `U with k = 3 N/m` and `scaling U against k` vary the k that
// U was worked out from, whatever the name means by now; where U was worked out from
// both, the line must say which, and where the new value uses the name too.

// Varied are the definitions of a name, the last line's last, that an expression
// was worked out from; where it was from none, the one that the name has now.
//
// The program has the answer: what a value was worked out from is what its
// instructions read, and what those read. No list of it has to be kept as lines are
// added.
func (p *Planner) Varied(n *syntax.Name, x syntax.Expr) []*Def { return p.coder("").varied(n, x) }

func (c *coder) varied(n *syntax.Name, x syntax.Expr) []*Def {
	now, ok := c.lookup(n)
	switch {
	case !ok:
		return nil
	case n.Line != 0 || now.above == nil && c.p.Names.last[n.Name] == now:
		return []*Def{now}
	}
	if out := c.workedOutFrom(n.Name, x); out != nil {
		return out
	}
	return []*Def{now}
}

// WorkedOutFrom are the definitions of a name, the last line's last, that the value of an
// expression depends on.
func (p *Planner) WorkedOutFrom(name string, x syntax.Expr) []*Def {
	return p.coder("").workedOutFrom(name, x)
}

func (c *coder) workedOutFrom(name string, x syntax.Expr) []*Def {
	on := c.behind(x)
	var out []*Def
	for _, d := range c.p.Names.each(name) {
		if d.seq < c.seen && d.Kind != Function && d.Kind != Formula && on.hold(d) {
			out = append(out, d)
		}
	}
	return out
}

// GoesBackTo tells whether the value of an expression depends on what a definition gave.
func (p *Planner) GoesBackTo(d *Def, x syntax.Expr) bool { return p.coder("").behind(x).hold(d) }

// sources are the slots of the main code that a value goes back to.
type sources []bool

// hold tells whether a definition is among them; a component is where its vector is.
func (on sources) hold(d *Def) bool {
	return d.Slot >= 0 && int(d.Slot) < len(on) && on[d.Slot] || d.Vector != nil && on.hold(d.Vector)
}

// behind goes back from the slots of the names in an expression, over all that their
// instructions read.
func (c *coder) behind(x syntax.Expr) sources {
	main := &c.p.Program.Main
	on := make(sources, len(main.Instrs))
	mark := func(s run.Slot) {
		if s >= 0 && int(s) < len(on) {
			on[s] = true
		}
	}
	c.from(x, nil, c.seen, 0, mark)
	reads := c.p.Program.Reads()
	for s := len(on) - 1; s >= 0; s-- {
		if on[s] {
			reads.Main(run.Slot(s), mark)
		}
	}
	return on
}

// CanVary tells whether values with a static can take the place of a definition that a curve
// was worked out from, and says why not, or that a result is varied by itself.
//
// A range in another unit is no reason to leave the curve flat: "F is constant" would be false.
func (p *Planner) CanVary(d *Def, curve syntax.Expr, st run.Static, at syntax.Span) ([]finding.Finding, bool) {
	of := p.Static(d.Slot)
	name, line := &syntax.Name{At: at, Name: d.Name}, ""
	if d.Line > 0 {
		line = " (line " + itoa(d.Line) + ")"
	}
	switch {
	case of.Shape != run.Scalar:
		return []finding.Finding{OneValue(name, of)}, false
	case d.Vector != nil:
		return []finding.Finding{ComponentAlone(d, at)}, false
	case of.Open == 0 && st.Open == 0 && of.Dim != st.Dim:
		return []finding.Finding{finding.New(finding.UnlikeDimensions, at,
			typeset.Text(curve)+" was worked out from "+d.Name+line+", "+Words(of)+"; here "+d.Name+" is "+Words(st)+".",
			"Use a unit of the same kind.")}, false
	case d.Given || d.Kind == Symbol:
		return nil, true
	}
	note := finding.New(finding.TwoReadings, at, d.Name+line+" is a result; here it is changed by itself.", "")
	note.Severity = finding.Note
	return []finding.Finding{note}, true
}

// ComponentAlone says that a component of a vector can't be varied without the vector.
func ComponentAlone(d *Def, at syntax.Span) finding.Finding {
	return finding.New(finding.VectorOrNumber, at, d.Name+" is a component of "+d.Vector.Name+", so it doesn't change by itself.",
		"Give each component its own line, and then "+d.Vector.Name+" = ("+d.Vector.Name+"_x, "+d.Vector.Name+"_y).")
}

// from marks the slots that the names in an expression have, where only the first
// definitions up to a limit are known; those in a function of the worksheet are
// those that it saw, and its parameters none.
func (c *coder) from(x syntax.Expr, params []string, limit int32, depth int, mark func(run.Slot)) {
	syntax.Walk(x, func(x syntax.Expr) bool {
		switch x := x.(type) {
		case *syntax.Name:
			if x.Line == 0 && slices.Contains(params, x.Name) {
				return true
			}
			d, ok := c.p.Names.before(x.Name, limit)
			if x.Line != 0 {
				d, ok = c.p.Names.at(x.Name, x.Line, limit)
			}
			if ok {
				mark(d.Slot)
			}
		case *syntax.Call:
			d, ok := c.p.Names.before(x.Func, limit)
			if !ok || d.Kind != Function || ops.IsFunction(x.Func) || depth > maxVaried {
				return true
			}
			for _, body := range bodies(d.Func) {
				c.from(body, d.Func.Params, d.seq, depth+1, mark)
			}
		}
		return true
	})
}

// maxVaried bounds how deep functions within functions are looked into.
const maxVaried = 16

// bodies are the expressions of a function.
//
// The ends of an interval are among them, since a value moves with them too.
//
// The bounds of intervals count: a given that moves an interval changes the function too.
func bodies(f *syntax.FuncDef) []syntax.Expr {
	if f.X != nil {
		return []syntax.Expr{f.X}
	}
	var out []syntax.Expr
	for _, p := range f.Pieces {
		out = append(out, p.X)
		for _, end := range []syntax.Expr{p.Lo, p.Hi} {
			if end != nil {
				out = append(out, end)
			}
		}
	}
	return out
}

// which finds the definition that binding i of an expression replaces. Where there
// are two, or where what replaces it uses the name, which now means another, the
// line must say which.
//
// To vary the wrong one of two givens is a wrong answer that looks like a right one.
// So where both are in the value, nothing is chosen.
func (c *coder) which(x *syntax.With, i int) (*Def, bool) {
	b := x.By[i]
	n := &syntax.Name{At: b.NameAt, Name: b.Name, Line: b.Line}
	now, ok := c.lookup(n)
	all := c.varied(n, x.X)
	if len(all) == 0 {
		return now, ok
	}
	if len(all) == 1 && (all[0] == now || !syntax.Holds(b.X, b.Name)) {
		return all[0], true
	}
	var lines, readings []string
	for _, d := range all {
		lines = append(lines, itoa(d.Line))
		readings = append(readings, withAt(x, i, d, d))
	}
	if len(all) == 1 { // k = 2*k, where k has been given anew since
		lines = append(lines, itoa(now.Line))
		readings = append(readings, withAt(x, i, all[0], now))
	}
	c.find(finding.TwoReadings, x.At, b.Name+" has one value in line "+writing.List(lines, "and another in line")+".",
		"Say which you mean, as in "+b.Name+"@"+lines[0]+".", readings...)
	return nil, false
}

// withAt writes an expression in which binding i says which line gave what it
// replaces, and which line gave the name within what replaces it.
//
// It is offered as a reading: the same line, with the line of each name said.
func withAt(x *syntax.With, i int, replaced, within *Def) string {
	out := &syntax.With{X: x.X, By: append([]syntax.Binding{}, x.By...)}
	b := &out.By[i]
	b.Line = replaced.Line
	b.X = syntax.Rewrite(b.X, func(x syntax.Expr) (syntax.Expr, bool) {
		n, ok := x.(*syntax.Name)
		if !ok || n.Name != b.Name || n.Line != 0 {
			return nil, false
		}
		return &syntax.Name{Name: n.Name, Line: within.Line}, true
	})
	return typeset.Text(out)
}
