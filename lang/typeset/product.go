package typeset

import "steelyard/lang/syntax"

// edge is what stands at the left or the right end of a factor. It decides
// whether two factors may stand side by side without a sign.
type edge uint8

const (
	symbolEdge   edge = iota // a letter, a root, an upright function's bracket
	bracketEdge              // a bracket
	signEdge                 // a bracket with a sign first
	digitEdge                // a number
	unitEdge                 // a quantity, or a bracket with one
	longEdge                 // a name of several letters
	functionEdge             // the name of a function that is set upright
	halfEdge                 // a fraction that begins with a number
)

// product lays out two factors: side by side as in ½ k x², with a dot where they
// would run into each other.
func (l layout) product(to []Box, x *syntax.Binary) []Box {
	to = l.operand(to, x.X, productRank, true)
	left, right := l.rightEdge(x.X), l.leftEdge(x.Y)
	switch {
	case dotted(left, right):
		to = append(to, Box{kind: infix, text: "⋅"})
	case right == functionEdge:
		to = append(to, Box{kind: times}, Box{kind: hair})
	default:
		to = append(to, Box{kind: times})
	}
	return l.operand(to, x.Y, productRank, false)
}

func dotted(left, right edge) bool {
	switch {
	case left == unitEdge, right == unitEdge, right == digitEdge:
		return true
	case left == longEdge, right == longEdge, right == signEdge:
		return true
	case right == halfEdge:
		return left == digitEdge || left == halfEdge
	}
	return false
}

// leftEdge returns what a factor begins with.
func (l layout) leftEdge(x syntax.Expr) edge {
	x = bare(x)
	if l.signed(x) {
		return signEdge
	}
	if l.rank(x) < productRank {
		return bracketEdge
	}
	for {
		x = bare(x)
		switch t := x.(type) {
		case *syntax.Binary:
			if t.Op == syntax.Pow {
				if e, ok := l.baseEdge(bare(t.X)); ok {
					return e
				}
			}
			if t.Op == syntax.Div && !l.inline {
				if numberFirst(t.X) {
					return halfEdge
				}
				return bracketEdge
			}
			if l.rank(bare(t.X)) < productRank {
				return bracketEdge
			}
			x = t.X
		case *syntax.Measured:
			return unitEdge
		default:
			return l.atomEdge(x)
		}
	}
}

// numberFirst tells whether an expression begins with a number. It looks a few
// factors far, so that a long chain of quotients costs no more than its length.
func numberFirst(x syntax.Expr) bool {
	for range 4 {
		switch t := bare(x).(type) {
		case *syntax.Number:
			return true
		case *syntax.Binary:
			x = t.X
		default:
			return false
		}
	}
	return false
}

// rightEdge returns what a factor ends with. An exponent ends nothing that a
// letter could run into.
func (l layout) rightEdge(x syntax.Expr) edge {
	for {
		x = bare(x)
		if l.rank(x) < productRank {
			return bracketEdge
		}
		switch t := x.(type) {
		case *syntax.Binary:
			if t.Op == syntax.Div && !l.inline {
				return l.leftEdge(t)
			}
			if t.Op == syntax.Pow {
				e, _ := l.baseEdge(bare(t.X))
				if e == unitEdge || e == longEdge {
					return e
				}
				return symbolEdge
			}
			if l.signed(t.Y) {
				return bracketEdge
			}
			x = t.Y
		case *syntax.Unary:
			x = t.X
		case *syntax.Call:
			return symbolEdge
		default:
			return l.atomEdge(x)
		}
	}
}

// baseEdge returns the edge of the base of a power, if that is decided by the
// base as a whole.
func (l layout) baseEdge(x syntax.Expr) (edge, bool) {
	switch x.(type) {
	case *syntax.Number, *syntax.Name, *syntax.Quantity, *syntax.Measured, *syntax.Mixed:
		return l.atomEdge(x), true
	}
	return bracketEdge, l.bracketedBase(x)
}

func (l layout) atomEdge(x syntax.Expr) edge {
	switch x := x.(type) {
	case *syntax.Number:
		return digitEdge
	case *syntax.Quantity, *syntax.Mixed, *syntax.Measured:
		return unitEdge
	case *syntax.Uncertain, *syntax.List:
		return unitEdge
	case *syntax.That:
		return longEdge
	case *syntax.Name:
		if long(x.Name) {
			return longEdge
		}
	case *syntax.Call:
		if shape(x) == byName && uprightName(x.Func) {
			return functionEdge
		}
	}
	return symbolEdge
}
