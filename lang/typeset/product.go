package typeset

import "steelyard/lang/syntax"

// edge is what stands at the left or the right end of a factor. It decides
// whether two factors may stand side by side without a sign.
//
// Print leaves the sign of a product out where nobody can go wrong: 2πr, ½kx². It must not
// where two numbers would become one (2·3), a unit would swallow a name (5 m·g), a long name
// would end who knows where (speed·t), or a sign would follow (a·(-b)).
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
//
// The sign as it was typed stays with the box: on a screen a product that was typed with a sign
// has one, so that the line can be entered again.
func (l *layout) product(x *syntax.Binary) {
	l.operand(x.X, productRank, true)
	typed := "⋅"
	if x.Implied {
		typed = ""
	}
	before, after := l.edge(x.X, right), l.edge(x.Y, left)
	if dotted(before, after) {
		l.put(Box{kind: dot, text: typed})
	} else {
		l.put(Box{kind: times, text: typed})
		if after == functionEdge {
			l.put(Box{kind: hair})
		}
	}
	l.operand(x.Y, productRank, false)
}

// Two halves side by side, ½ ⅓, would read as one fraction of more numbers.
func dotted(before, after edge) bool {
	switch {
	case before == unitEdge, after == unitEdge, after == digitEdge:
		return true
	case before == longEdge, after == longEdge, after == signEdge:
		return true
	case after == halfEdge:
		return before == digitEdge || before == halfEdge
	}
	return false
}

// side is an end of a factor.
type side uint8

const (
	left side = iota
	right
)

// edge returns what a factor begins or ends with.
//
// The end of a product is that of its last factor, and its beginning that of the first; of a
// power it is the base, unless an exponent stands between.
//
// Two factors side by side are told apart by what meets where they touch: a letter after a
// digit needs no sign, a digit after a letter or a unit does. So the edge is followed down to
// the atom that is seen there.
func (l *layout) edge(x syntax.Expr, at side) edge {
	if at == left && l.signed(x) {
		return signEdge
	}
	for {
		x = bare(x)
		if l.rank(x) < productRank {
			return bracketEdge
		}
		switch t := x.(type) {
		case *syntax.Binary:
			switch {
			case t.Op == syntax.Div && !l.looks.inline:
				return fractionEdge(t)
			case t.Op == syntax.Pow:
				e, whole := l.baseEdge(bare(t.X))
				if at == left && whole || e == unitEdge || e == longEdge {
					return e
				}
				if at == right {
					return symbolEdge // an exponent is nothing that a letter could run into
				}
			case at == right && l.signed(t.Y):
				return bracketEdge
			}
			if x = t.X; at == right {
				x = t.Y
			}
		case *syntax.Unary:
			if at == left {
				return symbolEdge
			}
			x = t.X
		default:
			return l.atomEdge(x)
		}
	}
}

// fractionEdge is the edge of a fraction, by what either of its parts begins with: ½ before
// 3 m over 2 s, or before ℓ over 2 m, would read as one number.
func fractionEdge(x *syntax.Binary) edge {
	if e := firstEdge(x.X); e != bracketEdge {
		return e
	}
	if firstEdge(x.Y) != bracketEdge {
		return halfEdge
	}
	return bracketEdge
}

// firstEdge is what a part of a fraction begins with. It looks a few factors far, so that
// a long chain of quotients costs no more than its length.
//
// A few factors are enough to see a number or a unit, which come first where they come at all.
func firstEdge(x syntax.Expr) edge {
	for range 4 {
		switch t := bare(x).(type) {
		case *syntax.Number:
			return halfEdge
		case *syntax.Quantity, *syntax.Mixed, *syntax.Measured:
			return unitEdge
		case *syntax.Binary:
			x = t.X
		default:
			return bracketEdge
		}
	}
	return bracketEdge
}

// baseEdge returns the edge of the base of a power, if that is decided by the
// base as a whole.
//
// A base in brackets ends in a bracket, and a name with an exponent is as long as its letters.
func (l *layout) baseEdge(x syntax.Expr) (edge, bool) {
	switch x.(type) {
	case *syntax.Number, *syntax.Name, *syntax.Quantity, *syntax.Measured, *syntax.Mixed:
		return l.atomEdge(x), true
	}
	return bracketEdge, l.bracketedBase(x)
}

func (l *layout) atomEdge(x syntax.Expr) edge {
	x.Visit(&l.looks)
	return l.looks.edge
}
