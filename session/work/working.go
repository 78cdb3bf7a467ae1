// Package work shows the way to a result as typed lines: its equation, the
// rearrangement, the values put in with their units, and the result. It works
// nothing out anew.
package work

import (
	"steelyard/lang/algebra"
	"steelyard/lang/ops"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units/each"
)

// Of returns the worked lines of a result: the equation, its rearrangement, the
// substitution with units and the value; of several values only that of one name,
// unless the name is empty.
func Of(p *eval.Page, e *entry.Entry, name string) []entry.WorkLine {
	switch by := e.By.(type) {
	case *eval.Solved:
		return solved(p, e, by, name)
	case *eval.ByComponents:
		return byComponents(p, e, by)
	}
	if !e.Records() {
		if s, defined := e.Stmt.(*syntax.Define); defined && e.Result() == nil && !e.Failed() && !syntax.IsWritten(s.X) {
			return []entry.WorkLine{{Left: &syntax.Name{Name: s.Name}, Right: s.X}}
		}
		return nil
	}
	switch s := e.Stmt.(type) {
	case *syntax.Define:
		return result(p, s.Name, s.X, e)
	case *syntax.Value:
		if _, again := s.X.(*syntax.With); !again {
			return result(p, "", s.X, e)
		}
	}
	return nil
}

// result is the working of a result by what gives it.
func result(p *eval.Page, name string, x syntax.Expr, e *entry.Entry) []entry.WorkLine {
	switch x := x.(type) {
	case *syntax.SlopeOf:
		return slopeLines(p, name, x, e)
	case *syntax.AreaUnder:
		return areaLines(p, name, x, e)
	case *syntax.With:
		return []entry.WorkLine{{Left: &syntax.Name{Name: name}, Right: x}, {Shown: &e.Values()[0]}}
	}
	return lines(p, make([]entry.WorkLine, 0, 3), name, x, e, 0)
}

// slopeLines are the lines of a slope: the derivative, where a rule gives it, and
// its value at the place.
func slopeLines(p *eval.Page, name string, s *syntax.SlopeOf, e *entry.Entry) []entry.WorkLine {
	out := []entry.WorkLine{{Left: named(name), Words: entry.Say("slope of … at … = …",
		entry.Math(s.X), entry.Name(s.Var.Name), entry.Math(withValues(p, s.Place, e.Line)))}}
	if d, at, ok := p.Calculus(s, e.Line); ok {
		out = append(out, entry.WorkLine{Right: d, Reason: entry.Words("differentiate")})
		out = putLine(p, out, at, d, e)
	}
	return append(out, entry.WorkLine{Shown: &e.Values()[0]})
}

// areaLines are the lines of an area: the antiderivative at both ends, where a
// rule gives it.
func areaLines(p *eval.Page, result string, s *syntax.AreaUnder, e *entry.Entry) []entry.WorkLine {
	name := s.Var.Name
	out := []entry.WorkLine{{Left: named(result), Words: entry.Say("area under … from … to …",
		entry.Maths(s.X, withValues(p, s.From, e.Line), withValues(p, s.To, e.Line))...)}}
	if s.All {
		out[0].Words = entry.Say("area under … against …", entry.Math(s.X), entry.Name(name))
	}
	if f, at, ok := p.Calculus(s, e.Line); ok {
		out = append(out, entry.WorkLine{Right: at, Reason: entry.Say("integrate: …", entry.Math(f))})
		out = putLine(p, out, at, at, e)
	}
	return append(out, entry.WorkLine{Shown: &e.Values()[0]})
}

// named is a name as the left side of a line; nil for none.
func named(name string) syntax.Expr {
	if name == "" {
		return nil
	}
	return &syntax.Name{Name: name}
}

// putLine adds an expression with its values put in, if that is another than the
// line above.
func putLine(p *eval.Page, out []entry.WorkLine, x, above syntax.Expr, e *entry.Entry) []entry.WorkLine {
	put := withValues(p, x, e.Line)
	if typeset.Text(put) == typeset.Text(above) {
		return out
	}
	return append(out, entry.WorkLine{Right: put})
}

// stepLine makes a line of a rearrangement.
func stepLine(s algebra.Step) entry.WorkLine {
	return entry.WorkLine{Left: s.Left, Right: s.Right, Reason: entry.Say(string(s.Reason), entry.Maths(s.By...)...)}
}

func stepLines(steps []algebra.Step) []entry.WorkLine { return each.Of(steps, stepLine) }

// lines adds an expression in symbols, with its values put in, and its result.
func lines(p *eval.Page, out []entry.WorkLine, name string, x syntax.Expr, e *entry.Entry, value int) []entry.WorkLine {
	first := entry.WorkLine{Left: named(name), Right: x}
	if own := e.Values()[value]; own.Name == name {
		first.Left = own.Letter()
	}
	if f, ok := formulaOf(p, x, e.Line); ok {
		lead := entry.WorkLine{Formula: f.Name, Left: f.Left, Right: f.Right}
		x = algebra.Substitute(f.Right, eval.Arguments(x.(*syntax.Call), f))
		first.Right = x
		out = append(out, lead)
		if left, ok := f.Left.(*syntax.Name); !ok || left.Name != name || typeset.Text(x) != typeset.Text(f.Right) {
			out = append(out, first)
		}
	} else {
		out = append(out, first)
	}
	if put := withValues(p, x, e.Line); put != x && !isShown(put, e.Values()[value]) {
		out = append(out, entry.WorkLine{Right: put})
	}
	return append(out, entry.WorkLine{Shown: &e.Values()[value], Units: cancelled(p, x, e, value)})
}

// isShown tells whether an expression says what a value is shown as; nothing that is still to
// be worked out does.
func isShown(x syntax.Expr, v entry.Value) bool {
	switch syntax.Unbracket(x).(type) {
	case *syntax.Binary, *syntax.Root, *syntax.Call:
		return false
	}
	return typeset.Text(x) == typeset.Text(shownExpr(v))
}

// formulaOf is the formula that an expression calls in a line, if it is one call.
func formulaOf(p *eval.Page, x syntax.Expr, line int) (*syntax.FormulaDef, bool) {
	c, ok := x.(*syntax.Call)
	if !ok || ops.IsFunction(c.Func) {
		return nil, false
	}
	return p.FormulaAbove(c.Func, line)
}
