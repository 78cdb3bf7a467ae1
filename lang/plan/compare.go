package plan

import (
	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
)

// Meet says what keeps two sides of a comparison from being compared: they must
// have one dimension. What one says of a bare zero in the other is settled.
//
// No instruction comes of it: the two values are compared by who asks, with their
// tolerance.
func (p *Planner) Meet(l, r syntax.Expr, left, right *Compiled, text string) []finding.Finding {
	c := p.coder(text)
	defer c.leave()
	a, b := c.static(left.Slot), c.static(right.Slot)
	whole := l.Span().Join(r.Span())
	if c.zeroOfScale(l, r, a, b) {
		return c.findings
	}
	if _, ok := p.agree(a, b); !ok {
		c.unlike(whole, l, r, left.Slot, right.Slot, "compared")
	} else if a.IsVector() != b.IsVector() && c.code.Statics[left.Slot].Open == 0 && c.code.Statics[right.Slot].Open == 0 {
		c.refuse(finding.VectorOrNumber, whole, "`"+c.shown(l)+"` is "+ShapeName(a)+", `"+c.shown(r)+"` is "+ShapeName(b)+": they can't be compared.", "Compare the vector's magnitude, or a component.",
			magnitude(a, c.shown(l))+c.source(syntax.Span{From: l.Span().To, To: r.Span().From})+magnitude(b, c.shown(r)))
	} else if a.IsVector() && b.IsVector() && a.Components() != b.Components() {
		c.sameAxes(left.Slot, right.Slot, whole)
	} else if (a.Shape == run.List || a.Shape == run.Vectors) && a.Shape == b.Shape && a.Width != b.Width {
		c.unequal(whole, c.shown(l), a, c.shown(r), b)
	} else if a.Tag.Clashes(b.Tag) {
		c.clash(whole)
	}
	left.Static, right.Static = c.static(left.Slot), c.static(right.Slot)
	return c.findings
}

// magnitude is the text of a value that is a number: of a vector, its magnitude.
func magnitude(st run.Static, text string) string {
	if st.IsVector() {
		return "|" + text + "|"
	}
	return text
}
