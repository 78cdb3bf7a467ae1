package typeset

import "steelyard/lang/syntax"

// Polar is a vector by its magnitude and direction: 12 m/s at 37°.
func (l *layout) Polar(x *syntax.Polar) { l.directed(x.X, "at", x.Angle, x.Bearing.String()) }

// directed is an operand with an angle behind a word: F along 30°.
//
// The angle is one operand, so that a product in it has brackets; a quantity, 37°, is one as it
// is.
func (l *layout) directed(x syntax.Expr, by string, angle syntax.Expr, words string) {
	outer := l.begin()
	l.operand(x, productRank, true)
	l.spoken(by)
	least := fractionRank // the angle is one operand
	if _, ok := bare(angle).(*syntax.Quantity); ok {
		least = productRank
	}
	l.operand(angle, least, true)
	if words != "" {
		l.put(Box{kind: gap})
		l.put(Box{kind: word, text: words})
	}
	l.put(holding(group, "", l.end(outer)))
}

// vectors is the dot or the cross product of two vectors.
//
// Between vectors the sign is part of the meaning, and is never left out.
func (l *layout) vectors(x syntax.Expr, by syntax.Times, y syntax.Expr) {
	sign := "⋅"
	if by == syntax.Cross {
		sign = "×"
	}
	l.between(x, productRank, sign, y, productRank)
}

// magnitude is an expression between strokes.
//
// The strokes are of a fixed size and no fence: a magnitude is typed with strokes, and abs( )
// is not what was meant.
func (l *layout) magnitude(x syntax.Expr) {
	outer := l.begin()
	l.put(Box{kind: loose, text: "|"})
	l.expr(x)
	l.put(Box{kind: loose, text: "|"})
	l.put(holding(group, "", l.end(outer)))
}
