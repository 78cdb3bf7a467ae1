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

// rank returns the rank of a bare expression.
func (w *writer) rank(x syntax.Expr) int {
	switch x := x.(type) {
	case *syntax.Number:
		return numberRank(x.Value.Text)
	case *syntax.Quantity, *syntax.Mixed, *syntax.Measured, *syntax.Unary:
		return productRank
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
			if w.raised == 0 {
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
func (w *writer) signed(x syntax.Expr) bool {
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
			if w.rank(bare(t.X)) < productRank {
				return false // it has brackets
			}
			x = t.X
		case *syntax.Binary:
			if t.Op == syntax.Pow || t.Op == syntax.Div && w.raised == 0 {
				return false
			}
			if t.Op >= syntax.Mul && w.rank(bare(t.X)) < productRank {
				return false // it has brackets
			}
			x = t.X
		default:
			return false
		}
	}
}

func minusFirst(text string) bool { return text != "" && text[0] == '-' }

// operand sets an expression as part of a row, in brackets if its rank is below
// what the place asks for, or if a sign would stand after another.
func (w *writer) operand(x syntax.Expr, least int, first bool) {
	x = bare(x)
	if w.rank(x) < least || !first && w.signed(x) {
		w.bracket(true)
		w.expr(x)
		w.bracket(false)
		return
	}
	w.expr(x)
}

// whole sets an expression as one element.
func (w *writer) whole(x syntax.Expr) {
	x = bare(x)
	if w.form == LaTeX || w.oneElement(x) {
		w.expr(x)
		return
	}
	w.open()
	w.expr(x)
	w.close()
}

// part sets an expression as an argument of a fraction, a root or a power.
func (w *writer) part(x syntax.Expr) {
	w.both("", "{")
	w.whole(x)
	w.both("", "}")
}

// oneElement tells whether an expression makes one element of MathML.
func (w *writer) oneElement(x syntax.Expr) bool {
	switch x := x.(type) {
	case *syntax.Number:
		return numberRank(x.Value.Text) == atomRank
	case *syntax.Pi, *syntax.That, *syntax.Root, *syntax.Name:
		return true
	case *syntax.Call:
		return shape(x) != byName
	case *syntax.Binary:
		if x.Op != syntax.Pow {
			return x.Op == syntax.Div && w.raised == 0
		}
		c, call := bare(x.X).(*syntax.Call)
		return !call || !powerInside(c, x.Y)
	}
	return false
}

// expr sets a bare expression as part of a row.
func (w *writer) expr(x syntax.Expr) {
	switch x := bare(x).(type) {
	case *syntax.Number:
		w.number(x.Value.Text)
	case *syntax.Quantity:
		w.quantity(x)
	case *syntax.Mixed:
		w.mixed(x)
	case *syntax.Measured:
		w.operand(x.X, productRank, true)
		w.unitAfter(x.Unit.Text)
	case *syntax.Pi:
		w.both("<mi>π</mi>", `\pi`)
	case *syntax.That:
		w.upright("that")
	case *syntax.Name:
		w.name(x.Name, nil)
	case *syntax.Unary:
		w.unary(x)
	case *syntax.Root:
		w.root(x.X, nil)
	case *syntax.Binary:
		w.binary(x)
	case *syntax.Call:
		w.call(x)
	case *syntax.List:
		w.list(x)
	case *syntax.Uncertain:
		w.uncertain(x)
	}
}

func (w *writer) unary(x *syntax.Unary) {
	if x.Op == syntax.Sub {
		w.minus()
	} else {
		w.both(`<mo form="prefix">+</mo>`, "+")
	}
	w.operand(x.X, signRank, false)
}

func (w *writer) binary(x *syntax.Binary) {
	switch x.Op {
	case syntax.Add:
		w.operand(x.X, sumRank, true)
		w.both("<mo>+</mo>", " + ")
		w.operand(x.Y, sumRank, false)
	case syntax.Sub:
		w.operand(x.X, sumRank, true)
		w.both("<mo>−</mo>", " - ")
		w.operand(x.Y, signRank, false)
	case syntax.Mul:
		w.product(x)
	case syntax.Div:
		w.quotient(x)
	case syntax.Pow:
		w.power(x)
	}
}

// quotient sets a fraction, or a solidus where a fraction would be too small.
func (w *writer) quotient(x *syntax.Binary) {
	if w.raised > 0 {
		w.operand(x.X, productRank, true)
		w.solidus()
		w.operand(x.Y, powerRank, false)
		return
	}
	w.both("<mfrac>", `\frac`)
	w.part(x.X)
	w.part(x.Y)
	w.both("</mfrac>", "")
}

// root sets a root; n is nil for the square root.
func (w *writer) root(x, n syntax.Expr) {
	if n == nil {
		w.both("<msqrt>", `\sqrt`)
		w.part(x)
		w.both("</msqrt>", "")
		return
	}
	if w.form == LaTeX {
		w.tex(`\sqrt[{`)
		w.exponent(n)
		w.tex(`}]`)
		w.part(x)
		return
	}
	w.b.WriteString("<mroot>")
	w.part(x)
	w.exponent(n)
	w.b.WriteString("</mroot>")
}

// exponent sets what stands raised, as one element.
func (w *writer) exponent(x syntax.Expr) {
	w.raised++
	w.whole(x)
	w.raised--
}

// power sets a power. The exponent of a name stands above its subscript, that of
// a sine between the function and its bracket.
func (w *writer) power(x *syntax.Binary) {
	base := bare(x.X)
	switch b := base.(type) {
	case *syntax.Name:
		if !isChange(b.Name) {
			w.name(b.Name, x.Y)
			return
		}
	case *syntax.Call:
		if powerInside(b, x.Y) {
			w.functionName(b.Func, x.Y)
			w.arguments(b)
			return
		}
	}
	w.both("<msup>", "")
	w.powerBase(base)
	w.both("", "^{")
	w.exponent(x.Y)
	w.both("</msup>", "}")
}

func (w *writer) powerBase(x syntax.Expr) {
	if !w.bracketedBase(x) {
		if w.form == MathML {
			w.whole(x)
			return
		}
		if oneCharacter(x) {
			w.expr(x)
			return
		}
		w.tex("{")
		w.expr(x)
		w.tex("}")
		return
	}
	w.bracket(true)
	w.expr(x)
	w.bracket(false)
}

// oneCharacter tells whether LaTeX takes a base for one thing without braces. An
// exponent stands on the last digit of a number, which looks the same.
func oneCharacter(x syntax.Expr) bool {
	switch x.(type) {
	case *syntax.Number, *syntax.Pi, *syntax.That:
		return true
	}
	return false
}

// bracketedBase tells whether a bare expression stands in brackets when an
// exponent follows it.
func (w *writer) bracketedBase(x syntax.Expr) bool {
	switch t := x.(type) {
	case *syntax.Name:
		return isChange(t.Name)
	case *syntax.Call:
		return operatorName(t)
	}
	return w.rank(x) < atomRank
}

func (w *writer) list(x *syntax.List) {
	w.both("<mrow><mo>[</mo>", `\left[`)
	for i, item := range x.Items {
		if i > 0 {
			w.comma()
		}
		w.expr(item)
	}
	w.both("<mo>]</mo></mrow>", `\right]`)
	w.unitAfter(x.Unit.Text)
}

func (w *writer) uncertain(x *syntax.Uncertain) {
	unit := x.Unit.Present()
	if unit {
		w.bracket(true)
	}
	w.operand(x.X, signRank, true)
	w.both("<mo>±</mo>", ` \pm `)
	w.operand(x.By, signRank, false)
	if unit {
		w.bracket(false)
		w.unitAfter(x.Unit.Text)
	}
}
