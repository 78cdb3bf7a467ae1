package solve

import (
	"steelyard/lang/syntax"
	"steelyard/session/eval"
)

// Parts are the components of a vector of the plane as expressions, with functions of the
// page written out: of (v*t, h - 1/2*g*t^2) both numbers, of r0 + v*t each sum. It is false
// for what is no such vector, or can't be taken apart. The name that a path goes along is
// bound.
func Parts(l *eval.Line, x syntax.Expr, bound string) (parts [2]syntax.Expr, ok bool) {
	v := &vectors{Line: l, s: &syntax.Solve{}, unknown: map[string]bool{}}
	x = l.Opened(x, l.Entry.Line, bound)
	if !v.isVector(x) || v.width != len(parts) {
		return parts, false
	}
	for k := range parts {
		parts[k] = syntax.Unbracket(v.part(x, k))
	}
	return parts, v.bad == nil
}
