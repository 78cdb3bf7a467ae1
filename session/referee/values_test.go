package referee

import (
	"math"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
)

// sides are the expressions of a statement that gives a value or compares.
func (h *hearing) sides() (left, right syntax.Expr) {
	switch s := h.last.Stmt.(type) {
	case *syntax.Define:
		return s.X, nil
	case *syntax.Value:
		return s.X, nil
	case *syntax.Report:
		return s.X, nil
	case *syntax.CheckStmt:
		return s.Left, s.Right
	}
	return nil, nil
}

// judgeValue hears what a result is said to be. That an expression has no value is
// a claim too.
func judgeValue(h *hearing) ruling {
	x, _ := h.sides()
	if x == nil {
		return silent
	}
	meant, ok := h.meant.value(x)
	rough, safe := h.rough.value(x)
	if len(h.last.Values()) == 0 {
		for _, id := range []finding.ID{finding.NoRealValue, finding.DivisionByZero, finding.OutOfRange} {
			if h.found(id) == nil {
				continue
			}
			if ok && safe && !meant.beyond() {
				return wrong("false: the value is %s", meant.text())
			}
			return solved
		}
		return silent
	}
	if !ok {
		return wrong("there is no value")
	}
	if v := h.last.Values()[0].SI; meant.beyond() && meant.size() < 1 {
		return ruling{solved: v == 0}
	}
	if !safe {
		rough = meant.loosened(1e-6)
	}
	return h.fits(h.last.Values()[0], meant, rough)
}

// judgeSign hears which sign a value is said to have.
func judgeSign(h *hearing) ruling {
	x, _ := h.sides()
	if x == nil {
		return silent
	}
	rows, ok := h.last.Outcome.(entry.Lines)
	said := entry.Texts(rows)
	meant, ok1 := h.meant.value(x)
	rough, ok2 := h.rough.value(x)
	switch {
	case !ok || len(said) == 0:
		return ruling{solved: !ok1 || meant.beyond()}
	case !ok1 || !ok2:
		return wrong("there is no value")
	}
	word := map[int]string{1: "positive", -1: "negative", 0: "zero"}[meant.sign()]
	switch got := strings.Fields(said[0])[0]; {
	case strings.Contains(said[0], word):
		return solved
	case got == "zero" && rough.loosened(1).holdsZero():
		return solved // too small beside its terms to be told from 0
	default:
		return wrong("it is %s, %s", word, meant.text())
	}
}

// nearPart is how close two sides of a check agree where nothing else is asked
// (the worksheet language, section 5).
const nearPart = 1e-9

// judgeCheck hears a verdict. A written side is met if the other rounds to it; else
// sides agree within 1e-9 of the larger side or, against 0, of the largest term, and
// within what their numbers may be off. Where it is close the verdict is free.
func judgeCheck(h *hearing) ruling {
	left, right := h.sides()
	s, ok := h.last.Stmt.(*syntax.CheckStmt)
	if !ok {
		return silent
	}
	a, ok1 := h.meant.value(left)
	roughA, ok2 := h.rough.value(left)
	b, roughB := whole(0), whole(0)
	if right != nil {
		var ok3, ok4 bool
		b, ok3 = h.meant.value(right)
		roughB, ok4 = h.rough.value(right)
		ok1, ok2 = ok1 && ok3, ok2 && ok4
	}
	v, judged := h.last.Outcome.(*entry.Verdict)
	switch {
	case !judged:
		return ruling{solved: !ok1}
	case !ok1 || !ok2:
		return wrong("a side has no value")
	}
	off := a.sub(b)
	room := nearPart * max(a.size(), b.size())
	if b.isZero() || a.isZero() {
		room = nearPart * max(h.meant.largest(left), h.meant.largest(right))
	}
	if half, written := h.meant.lastPlace(right); written && s.Op == syntax.Equal && !b.isZero() {
		room = half
	}
	want, sure := verdict(s, off, room, roughA.width()+roughB.width())
	if sure && want != v.Holds {
		return wrong("the sides differ by %s", off.text())
	}
	// A check that fails shows its sides.
	if r := h.fits(v.Left, a, roughA); r.wrong != "" && !v.Holds {
		return wrong("left side: %s", r.wrong)
	}
	if r := h.fits(v.Right, b, roughB); r.wrong != "" && !v.Holds {
		return wrong("right side: %s", r.wrong)
	}
	return solved
}

// verdict says whether a check holds, and whether that is sure: sides that differ by
// about the room that they have may be judged either way.
func verdict(s *syntax.CheckStmt, off between, room, rough float64) (holds, sure bool) {
	great, _ := off.abs().hi.Float64()
	small, _ := off.abs().lo.Float64()
	near, far := great <= 0.999*room || off.isZero(), small > 1.001*room+rough
	sign := off.sign()
	if off.isZero() {
		sign = 0
	}
	op := s.Op
	switch s.Sign {
	case syntax.Positive:
		op = syntax.Greater
	case syntax.Negative:
		op = syntax.Less
	}
	switch op {
	case syntax.Greater:
		return sign > 0, sign <= 0 || far
	case syntax.Less:
		return sign < 0, sign >= 0 || far
	case syntax.AtLeast:
		return sign >= 0 || near, sign >= 0 || near || far
	case syntax.AtMost:
		return sign <= 0 || near, sign <= 0 || near || far
	}
	return near, near || far || off.isZero()
}

// largest is the greatest term of the sum that a side is.
func (r *reading) largest(x syntax.Expr) float64 {
	switch x := x.(type) {
	case *syntax.Paren:
		return r.largest(x.X)
	case *syntax.Unary:
		return r.largest(x.X)
	case *syntax.Binary:
		if x.Op == syntax.Add || x.Op == syntax.Sub {
			return max(r.largest(x.X), r.largest(x.Y))
		}
	case nil:
		return 0
	}
	v, ok := r.value(x)
	if !ok {
		return 0
	}
	return v.size()
}

// lastPlace is half a unit of the last digit of a written side.
func (r *reading) lastPlace(x syntax.Expr) (float64, bool) {
	switch x := x.(type) {
	case *syntax.Number:
		return math.Pow(10, float64(x.Value.LastPlace)) / 2, true
	case *syntax.Quantity:
		u, ok := r.unit(x.Unit.Text)
		return math.Pow(10, float64(x.Value.LastPlace)) / 2 * orZero(u).size(), ok
	case *syntax.Unary:
		return r.lastPlace(x.X)
	}
	return 0, false
}
