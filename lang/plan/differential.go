package plan

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// differentials refuses dv/dt, where neither is a name: v*d/(d*t), which it comes to
// letter by letter, is no slope.
func (c *coder) differentials(x *syntax.Binary) bool {
	of, ok := c.differential(x.Y)
	if x.Op != syntax.Div || !ok {
		return false
	}
	top := x.X
	if b, product := top.(*syntax.Binary); product && b.Op == syntax.Mul {
		top = b.Y
	}
	y, ok := c.differential(top)
	if !ok {
		return false
	}
	c.refuse(finding.NotSolved, top.Span().Join(x.Y.Span()), "d"+y+"/d"+of+" is the slope of "+y+" against "+of+".",
		"Give "+y+" as a function, "+y+"("+of+") = …, and write `slope of "+y+"("+of+") at "+of+" = "+usual(of)+"`.")
	return true
}

// differential is what a name without a value is the differential of: v of dv.
func (c *coder) differential(x syntax.Expr) (string, bool) {
	n, ok := x.(*syntax.Name)
	if !ok || n.Line != 0 || !strings.HasPrefix(n.Name, "d") || c.known(n.Name) {
		return "", false
	}
	of := n.Name[1:]
	return of, units.Speaks(of)
}
