package typeset

import "steelyard/lang/syntax"

// Polar is a vector by its magnitude and direction: 12 m/s at 37°.
func (l *layout) Polar(x *syntax.Polar) {
	outer := l.begin()
	l.operand(x.X, productRank, true)
	l.spoken("at")
	least := fractionRank // the angle is one operand
	if _, ok := bare(x.Angle).(*syntax.Quantity); ok {
		least = productRank
	}
	l.operand(x.Angle, least, true)
	if words := x.Bearing.String(); words != "" {
		l.put(Box{kind: gap})
		l.put(Box{kind: word, text: words})
	}
	l.put(holding(group, "", l.end(outer)))
}

// vectors is the dot or the cross product of two vectors.
func (l *layout) vectors(x syntax.Expr, by syntax.Times, y syntax.Expr) {
	sign := "⋅"
	if by == syntax.Cross {
		sign = "×"
	}
	l.between(x, productRank, sign, y, productRank)
}

// magnitude is an expression between strokes.
func (l *layout) magnitude(x syntax.Expr) {
	outer := l.begin()
	l.put(Box{kind: loose, text: "|"})
	l.expr(x)
	l.put(Box{kind: loose, text: "|"})
	l.put(holding(group, "", l.end(outer)))
}
