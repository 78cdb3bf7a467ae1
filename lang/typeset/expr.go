package typeset

import "steelyard/lang/syntax"

// The ranks of expressions: how closely what is set holds together. An operand
// of a lower rank than its place asks for gets brackets.
const (
	anyRank      = iota
	sumRank      // a + b
	signRank     // -a, where it is not the first thing
	quotientRank // a/b with a solidus
	productRank  // a b, 5 m, 3×10⁵
	fractionRank // a over b
	powerRank    // a with an exponent
	atomRank     // what an exponent may follow
)

// bare takes off what print does not show: brackets, which are written again
// where they are needed, and a factor of one.
//
// Brackets of the text are no part of the meaning: (a*b)/c is set as a fraction without any,
// and a*(b + c) gets its own by rank. 1*m, which a rearrangement may leave, is m.
func bare(x syntax.Expr) syntax.Expr {
	for {
		switch t := x.(type) {
		case *syntax.Paren:
			x = t.X
		case *syntax.Binary:
			if t.Op != syntax.Mul || !isOne(t.X) {
				return x
			}
			x = t.Y
		default:
			return x
		}
	}
}

func isOne(x syntax.Expr) bool {
	n, ok := x.(*syntax.Number)
	return ok && n.Value.Text == "1"
}

// rank returns the rank of a bare expression.
//
// Of a node it depends on how it is set too: a quotient with a stroke binds looser than one
// with a bar, which needs no brackets as a factor.
func (l *layout) rank(x syntax.Expr) int {
	x.Visit(&l.looks)
	return l.looks.rank
}

// -5 and 3×10⁵ are signs and products to an exponent behind them: (-5)², (3×10⁵)².
func numberRank(text string) int {
	for i := range len(text) {
		if text[i] == '-' || text[i] == 'e' {
			return productRank
		}
	}
	return atomRank
}

// signed tells whether what is set of an expression begins with a sign.
//
// a·(-b) needs brackets, as two signs in a row are read as a slip; so does a + (-b). A fraction
// keeps its sign above the bar, where it meets none.
func (l *layout) signed(x syntax.Expr) bool {
	for {
		x = bare(x)
		switch t := x.(type) {
		case *syntax.Number:
			return minusFirst(t.Value.Text)
		case *syntax.Quantity:
			return minusFirst(t.Value.Text)
		case *syntax.Mixed:
			return t.Neg
		case *syntax.Unary:
			return true
		case *syntax.Measured:
			if l.rank(bare(t.X)) < productRank {
				return false // it has brackets
			}
			x = t.X
		case *syntax.Binary:
			if t.Op == syntax.Pow || t.Op == syntax.Div && !l.looks.inline {
				return false
			}
			if t.Op >= syntax.Mul && l.rank(bare(t.X)) < productRank {
				return false // it has brackets
			}
			x = t.X
		default:
			return false
		}
	}
}

func minusFirst(text string) bool { return text != "" && text[0] == '-' }

// operand lays out part of a row, in brackets if its rank is below what the place
// asks for, or if a sign would stand after another.
//
// Every bracket on a page is decided here, for operators and functions alike: by the rank of
// what is set and the least rank that its place allows.
func (l *layout) operand(x syntax.Expr, least int, first bool) {
	x = bare(x)
	if l.rank(x) < least || !first && l.signed(x) {
		l.put(l.fenced("()", x))
	} else {
		l.expr(x)
	}
}

// expr lays out an expression as part of a row.
func (l *layout) expr(x syntax.Expr) { bare(x).Visit(l) }

func (l *layout) Number(x *syntax.Number) { l.number(x.Value.Text) }
func (l *layout) Pi(*syntax.Pi)           { l.put(Box{kind: symbol, text: "π"}) }
func (l *layout) That(*syntax.That)       { l.put(Box{kind: word, text: "that"}) }
func (l *layout) Name(x *syntax.Name)     { l.put(l.named(x, Box{})) }
func (l *layout) Paren(x *syntax.Paren)   { l.expr(x.X) }
func (l *layout) Root(x *syntax.Root)     { l.put(l.holding(root, "", l.whole(x.X), Box{})) }

func (l *layout) Unary(x *syntax.Unary) {
	sign := minus
	if x.Op == syntax.Add {
		sign.text = "+"
	}
	l.put(sign)
	l.operand(x.X, signRank, false)
}

func (l *layout) Binary(x *syntax.Binary) {
	switch x.Op {
	case syntax.Add:
		l.between(x.X, sumRank, "+", x.Y, sumRank)
	case syntax.Sub:
		l.between(x.X, sumRank, "−", x.Y, signRank)
	case syntax.Mul:
		if x.Vectors {
			l.vectors(x.X, x.By, x.Y)
			return
		}
		l.product(x)
	case syntax.Div:
		l.quotient(x)
	case syntax.Pow:
		l.power(x)
	}
}

// between lays out two operands of at least these ranks with a sign between them.
//
// The right side of a difference needs a higher rank than the left one: a - (b - c).
func (l *layout) between(x syntax.Expr, left int, sign string, y syntax.Expr, right int) {
	l.operand(x, left, true)
	l.put(Box{kind: infix, text: sign})
	l.operand(y, right, false)
}

// quotient is a fraction, or a stroke where a fraction would be too small.
//
// With a stroke the divisor must be a power or closer, since a/b·c would have the c above. With
// a bar neither side needs brackets.
func (l *layout) quotient(x *syntax.Binary) {
	if l.looks.inline {
		l.operand(x.X, productRank, true)
		l.put(Box{kind: close, text: "/"})
		l.operand(x.Y, powerRank, false)
		return
	}
	l.put(l.holding(fraction, "", l.whole(x.X), l.whole(x.Y)))
}

// power lays out a power. The exponent of a name stands above its subscript, that
// of a sine between the function and its bracket.
//
// v₀² has both on one letter, sin²(x) has the power at the name as print does, and (Δx)² has
// brackets, as Δx² could be a change of x².
func (l *layout) power(x *syntax.Binary) {
	base, exponent := bare(x.X), l.raised(x.Y)
	switch b := base.(type) {
	case *syntax.Name:
		if !isChange(b.Name) {
			l.put(l.named(b, exponent))
			return
		}
	case *syntax.Call:
		if powerInside(b, x.Y) {
			l.put(l.scripted("", l.functionName(b.Func), Box{}, exponent))
			l.arguments(b)
			return
		}
	}
	if l.bracketedBase(base) {
		l.put(l.scripted("", l.fenced("()", base), Box{}, exponent))
		return
	}
	l.put(l.scripted("", l.whole(base), Box{}, exponent))
}

// bracketedBase tells whether a bare expression stands in brackets when an
// exponent follows it.
//
// The power of a fraction, of a product, of a quantity with its unit: each would be read as
// that of its last part.
func (l *layout) bracketedBase(x syntax.Expr) bool {
	switch t := x.(type) {
	case *syntax.Name:
		return isChange(t.Name)
	case *syntax.Call:
		return operatorName(t)
	}
	return l.rank(x) < atomRank
}
