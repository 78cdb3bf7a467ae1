package print

import (
	"slices"

	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
)

// What a part asks for, and where its answers stand.

// report is an answer that a line asks for, with its points.
//
// Points are added up on a handout too, where the answer itself is left out: the part says what it
// is worth.
func (b *builder) report(a answer) {
	if b.part != nil {
		b.part.Points += a.Points
	}
	if b.edition == Key {
		b.answer(a)
	}
}

// answer puts an answer at the end of its part. Drawings there come after it, if its
// working is above them: on paper it would else begin a page alone.
func (b *builder) answer(a answer) {
	b.add(a)
	if a.X == nil || b.part == nil {
		return
	}
	all := b.part.Blocks
	end := len(all) - 1
	at := end
	for at > 0 && drawing(all[at-1]) {
		at--
	}
	same := func(x syntax.Expr) bool { m, ok := x.(*syntax.Name); return ok && syntax.Holds(a.X, m.Name) }
	works := func(one block) bool { w, ok := one.(working); return ok && slices.ContainsFunc(w.Of, same) }
	if slices.ContainsFunc(all[:at], works) {
		copy(all[at+1:], all[at:end])
		all[at] = a
	}
}

// drawing tells whether a block is a graph or another drawing.
func drawing(one block) bool {
	_, ok := one.(drawable)
	return ok
}

// concluded is the last result of a part that reports none: its values are its answers.
//
// A part that ends in a result and reports none would else have a working and no answer. Both
// values of a line with two roots are answers.
func (b *builder) concluded() []answer {
	n := len(b.results)
	if n == 0 {
		return nil
	}
	var out []answer
	e := b.results[n-1]
	for _, last := range e.Values() {
		last.Figures.Guard = 0
		a := answer{X: last.Letter(), Shown: shown{Value: &last}}
		if s, ok := e.Stmt.(*syntax.Value); ok && !syntax.IsWritten(s.X) {
			a.X = s.X
		}
		out = append(out, a)
	}
	return out
}

// linesFor is what a report asks for, with a line to answer on for each: of a vector, v_x and
// v_y, or |v| and its direction, where the report says so.
func linesFor(s *syntax.Report, e *entry.Entry) []syntax.Expr {
	n, named := s.X.(*syntax.Name)
	switch {
	case s.Form == syntax.AsPolar:
		return []syntax.Expr{syntax.Calling("magnitude", s.X), syntax.Calling("direction", s.X)}
	case s.Form == syntax.AsComponents && named && len(e.Values()) > 0:
		out := make([]syntax.Expr, len(e.Values()[0].Elements()))
		for i := range out {
			out[i] = &syntax.Name{Name: n.Name + "_" + syntax.Axes[i:i+1]}
		}
		return out
	}
	return []syntax.Expr{s.X}
}

// joint is what joins what is asked for with its value: an equals sign, or "is" where one of
// them is said in words. After the slope of v(t) at t = 2 s, the sign would be read as a part
// of the words.
func (a *answer) joint() string {
	_, words := a.X.(syntax.Derived)
	switch {
	case a.X == nil || a.Shown.none():
		return ""
	case words || a.Shown.Words != "":
		return "is"
	}
	return "="
}

// tex is an answer for mathematics, with its value or the words in its place.
//
// Markdown and LaTeX set the value each in a way of their own, bold or in a box, and join it in
// this one.
func (a *answer) tex(value string) string {
	left := typeset.Expr(a.X).LaTeX()
	switch a.joint() {
	case "=":
		left += " = "
	case "is":
		left += `\ \text{is}\ `
	}
	return left + value
}
