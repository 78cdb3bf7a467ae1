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

// layout lays out expressions. It appends the boxes of an expression to the row
// that they are part of, so that a long sum or product is one row.
type layout struct {
	inline bool // in an exponent or a label, where fractions would not fit
}

// Expr lays out an expression; none is empty.
func Expr(x syntax.Expr) Box {
	if x == nil {
		return Box{}
	}
	return layout{}.whole(x)
}

// Line lays out an expression for a single line of text: a quotient has a stroke.
func Line(x syntax.Expr) Box { return layout{inline: true}.whole(x) }

// rank returns the rank of a bare expression.
func (l layout) rank(x syntax.Expr) int {
	switch x := x.(type) {
	case *syntax.Number:
		return numberRank(x.Value.Text)
	case *syntax.Quantity, *syntax.Mixed, *syntax.Measured, *syntax.Unary:
		return productRank
	case *syntax.With, *syntax.SlopeOf, *syntax.AreaUnder:
		return anyRank
	case *syntax.Uncertain:
		if x.Unit.Present() {
			return productRank
		}
		return sumRank
	case *syntax.List:
		if x.Unit.Present() {
			return productRank
		}
	case *syntax.Binary:
		switch x.Op {
		case syntax.Add, syntax.Sub:
			return sumRank
		case syntax.Div:
			if !l.inline {
				return fractionRank
			}
			return quotientRank
		case syntax.Pow:
			return powerRank
		}
		return productRank
	}
	return atomRank
}

func numberRank(text string) int {
	for i := range len(text) {
		if text[i] == '-' || text[i] == 'e' {
			return productRank
		}
	}
	return atomRank
}

// signed tells whether what is set of an expression begins with a sign.
func (l layout) signed(x syntax.Expr) bool {
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
			if t.Op == syntax.Pow || t.Op == syntax.Div && !l.inline {
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
func (l layout) operand(to []Box, x syntax.Expr, least int, first bool) []Box {
	x = bare(x)
	if l.rank(x) < least || !first && l.signed(x) {
		return append(to, round(l.row(x)))
	}
	return l.expr(to, x)
}

// whole lays out an expression as one box.
func (l layout) whole(x syntax.Expr) Box {
	if n, ok := bare(x).(*syntax.Name); ok {
		return named(n.Name, Box{})
	}
	return one(l.row(x))
}

// row lays out an expression as a row of its own, with room for the parts of most.
func (l layout) row(x syntax.Expr) []Box { return l.expr(make([]Box, 0, 4), x) }

// exponent lays out what stands raised.
func (l layout) exponent(x syntax.Expr) Box { return layout{inline: true}.whole(x) }

// expr lays out an expression as part of a row.
func (l layout) expr(to []Box, x syntax.Expr) []Box {
	switch x := bare(x).(type) {
	case *syntax.Number:
		return number(to, x.Value.Text)
	case *syntax.Quantity:
		return quantity(to, x)
	case *syntax.Mixed:
		return mixed(to, x)
	case *syntax.Measured:
		return unitAfter(l.operand(to, x.X, productRank, true), x.Unit.Text)
	case *syntax.Pi:
		return append(to, Box{kind: symbol, text: "π"})
	case *syntax.That:
		return append(to, Box{kind: word, text: "that"})
	case *syntax.Name:
		return append(to, named(x.Name, Box{}))
	case *syntax.Unary:
		sign := minus
		if x.Op == syntax.Add {
			sign.text = "+"
		}
		return l.operand(append(to, sign), x.X, signRank, false)
	case *syntax.Root:
		return append(to, Root(l.whole(x.X)))
	case *syntax.Binary:
		return l.binary(to, x)
	case *syntax.Call:
		return l.call(to, x)
	case *syntax.With:
		return l.with(to, x)
	case *syntax.SlopeOf:
		return l.slope(to, x)
	case *syntax.AreaUnder:
		return l.area(to, x)
	case *syntax.List:
		return l.list(to, x)
	case *syntax.Uncertain:
		return l.uncertain(to, x)
	}
	return to
}

func (l layout) binary(to []Box, x *syntax.Binary) []Box {
	switch x.Op {
	case syntax.Add:
		to = append(l.operand(to, x.X, sumRank, true), Box{kind: infix, text: "+"})
		return l.operand(to, x.Y, sumRank, false)
	case syntax.Sub:
		to = append(l.operand(to, x.X, sumRank, true), Box{kind: infix, text: "−"})
		return l.operand(to, x.Y, signRank, false)
	case syntax.Mul:
		return l.product(to, x)
	case syntax.Div:
		return l.quotient(to, x)
	}
	return l.power(to, x)
}

// quotient is a fraction, or a stroke where a fraction would be too small.
func (l layout) quotient(to []Box, x *syntax.Binary) []Box {
	if l.inline {
		to = append(l.operand(to, x.X, productRank, true), Box{kind: close, text: "/"})
		return l.operand(to, x.Y, powerRank, false)
	}
	return append(to, holding(fraction, "", l.whole(x.X), l.whole(x.Y)))
}

// power lays out a power. The exponent of a name stands above its subscript, that
// of a sine between the function and its bracket.
func (l layout) power(to []Box, x *syntax.Binary) []Box {
	base, exponent := bare(x.X), l.exponent(x.Y)
	switch b := base.(type) {
	case *syntax.Name:
		if !isChange(b.Name) {
			return append(to, named(b.Name, exponent))
		}
	case *syntax.Call:
		if powerInside(b, x.Y) {
			return l.arguments(append(to, scripted(functionName(b.Func), Box{}, exponent)), b)
		}
	}
	if l.bracketedBase(base) {
		return append(to, scripted(round(l.row(base)), Box{}, exponent))
	}
	return append(to, scripted(l.whole(base), Box{}, exponent))
}

// bracketedBase tells whether a bare expression stands in brackets when an
// exponent follows it.
func (l layout) bracketedBase(x syntax.Expr) bool {
	switch t := x.(type) {
	case *syntax.Name:
		return isChange(t.Name)
	case *syntax.Call:
		return operatorName(t)
	}
	return l.rank(x) < atomRank
}

func (l layout) list(to []Box, x *syntax.List) []Box {
	var items []Box
	for i, item := range x.Items {
		if i > 0 {
			items = append(items, Comma())
		}
		items = l.expr(items, item)
	}
	return unitAfter(append(to, holding(fence, "[]", items...)), x.Unit.Text)
}

func (l layout) uncertain(to []Box, x *syntax.Uncertain) []Box {
	if x.Unit.Present() {
		return unitAfter(append(to, round(l.within(nil, x))), x.Unit.Text)
	}
	return l.within(to, x)
}

// within is a value, ± and how far off it may be.
func (l layout) within(to []Box, x *syntax.Uncertain) []Box {
	to = append(l.operand(to, x.X, signRank, true), Box{kind: infix, text: "±"})
	return l.operand(to, x.By, signRank, false)
}
