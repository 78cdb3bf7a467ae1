package algebra

import (
	"math/big"
	"math/bits"
	"slices"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// sumExpr is the tree of a sum, the first term that is added in front.
//
// A line that starts with a minus is read less easily: -a + b is b - a. The other
// terms keep their order.
func sumExpr(s sum) syntax.Expr {
	if len(s) == 0 {
		return numberExpr(new(big.Rat))
	}
	first := max(0, slices.IndexFunc(s, func(t term) bool { return t.coef.Sign() > 0 }))
	x := termExpr(s[first])
	for i, t := range s {
		if i == first {
			continue
		}
		op := syntax.Add
		if t.coef.Sign() < 0 {
			op, t = syntax.Sub, t.neg()
		}
		x = &syntax.Binary{Op: op, X: x, Y: termExpr(t)}
	}
	return x
}

// termExpr is the tree of a product, as on paper: one fraction, numbers first,
// and what stands under a square root under one root.
//
// √k/√m is √(k/m), as every formula has it.
func termExpr(t term) syntax.Expr {
	abs := new(big.Rat).Abs(t.coef)
	top, bottom := aboveAndBelow(t.factors, abs)
	if top == nil && bottom == nil {
		top = numberExpr(abs)
	}
	x := overExpr(top, bottom)
	if t.coef.Sign() < 0 {
		return &syntax.Unary{Op: syntax.Sub, X: x}
	}
	return x
}

// aboveAndBelow builds the two sides of a fraction line; nil for a side that is 1.
//
// Factors under an even root go under one: (-8/c)^(1/4) has a value for a c below 0, and
// (-8)^(1/4)/c^(1/4) has none. Those under a root of half the degree stay apart, or √c
// would be (c²)^(1/4), which has a value for every c.
func aboveAndBelow(fs []factor, coef *big.Rat) (top, bottom syntax.Expr) {
	var up, down []factor
	rooted := map[int][]factor{} // by how often 2 divides the degree of the root
	var twos []int
	for _, f := range fs {
		switch n := bits.TrailingZeros(uint(f.exp.Den())); {
		case n > 0:
			if rooted[n] == nil {
				twos, rooted[n] = append(twos, n), make([]factor, 0, len(fs))
			}
			rooted[n] = append(rooted[n], f)
		case f.exp.Num() > 0:
			up = append(up, f)
		default:
			down = append(down, factor{f.key, f.base, f.exp.Neg()})
		}
	}
	var roots []syntax.Expr
	for _, n := range twos {
		switch all := rooted[n]; {
		case len(all) > 1 || all[0].exp.Den() == 2:
			roots = append(roots, underOne(all))
		case all[0].exp.Num() > 0:
			up = append(up, all[0])
		default:
			down = append(down, factor{all[0].key, all[0].base, all[0].exp.Neg()})
		}
	}
	one := big.NewInt(1)
	var numbers [2]syntax.Expr
	if asFraction(coef) {
		if coef.Num().Cmp(one) != 0 {
			numbers[0] = numberExpr(new(big.Rat).SetInt(coef.Num()))
		}
		if coef.Denom().Cmp(one) != 0 {
			numbers[1] = numberExpr(new(big.Rat).SetInt(coef.Denom()))
		}
	} else {
		numbers[0] = numberExpr(coef)
	}
	top, bottom = productExpr(numbers[0], up), productExpr(numbers[1], down)
	for _, x := range roots {
		top = times(top, x)
	}
	return top, bottom
}

// underOne puts factors under one root: a^(3/4)*b^(3/4) is (a*b)^(3/4).
func underOne(fs []factor) syntax.Expr {
	var e units.Exp
	for _, f := range fs {
		e = e.Common(f.exp)
	}
	if e.Den() == 2 {
		e = expHalf // √(a^3)
	}
	var up, down []factor
	for _, f := range fs {
		if f.exp = f.exp.Mul(e.Inv()); f.exp.Num() > 0 {
			up = append(up, f)
		} else {
			down = append(down, factor{f.key, f.base, f.exp.Neg()})
		}
	}
	return powerExpr(factor{"", overExpr(productExpr(nil, up), productExpr(nil, down)), e})
}

// overExpr is a fraction of two sides, of which nil is 1.
func overExpr(top, bottom syntax.Expr) syntax.Expr {
	if top == nil {
		top = numberExpr(big.NewRat(1, 1))
	}
	if bottom == nil {
		return top
	}
	return &syntax.Binary{Op: syntax.Div, X: top, Y: group(bottom)}
}

// squareRoot is √ of an expression, in brackets unless it is a single thing.
func squareRoot(x syntax.Expr) syntax.Expr {
	switch x.(type) {
	case *syntax.Name, *syntax.Number, *syntax.Pi, *syntax.Call, *syntax.Paren:
		return &syntax.Root{X: x}
	}
	return &syntax.Root{X: &syntax.Paren{X: x}}
}

// productExpr is a product of a number, if any, and factors.
//
// In their order: who wants another one arranges the tree afterwards.
func productExpr(n syntax.Expr, fs []factor) syntax.Expr {
	x := n
	for _, f := range fs {
		x = times(x, powerExpr(f))
	}
	return x
}

func times(a, b syntax.Expr) syntax.Expr {
	if a == nil {
		return b
	}
	return &syntax.Binary{Op: syntax.Mul, X: a, Y: b}
}

// powerExpr is a factor with its exponent.
//
// An exponent that is a fraction needs brackets, or x^1/2 would be half of x.
func powerExpr(f factor) syntax.Expr {
	base := f.base
	if f.exp == expHalf {
		return squareRoot(base)
	}
	if f.exp == expOne {
		return closedExpr(base, false)
	}
	var e syntax.Expr = numberExpr(big.NewRat(int64(f.exp.Num()), 1))
	if f.exp.Den() != 1 {
		e = &syntax.Paren{X: &syntax.Binary{Op: syntax.Div, X: e, Y: numberExpr(big.NewRat(int64(f.exp.Den()), 1))}}
	}
	return &syntax.Binary{Op: syntax.Pow, X: closedExpr(base, true), Y: e}
}

// closedExpr puts brackets round what needs them as a factor, or as the base of
// a power.
//
// The tree has no rule of precedence: what is not in a bracket is printed without one,
// and read otherwise.
func closedExpr(x syntax.Expr, base bool) syntax.Expr {
	switch t := x.(type) {
	case *syntax.Name, *syntax.Number, *syntax.Pi, *syntax.Paren, *syntax.Call, *syntax.That:
		return x
	case *syntax.Binary:
		if t.Op == syntax.Pow && !base {
			return x
		}
	case *syntax.Root:
		if !base {
			return x
		}
	}
	return &syntax.Paren{X: x}
}

// group puts brackets round a divisor that has an operator.
func group(x syntax.Expr) syntax.Expr {
	if b, ok := x.(*syntax.Binary); ok && b.Op != syntax.Pow {
		return &syntax.Paren{X: x}
	}
	return x
}

// binary is an operator between two expressions in brackets.
//
// With brackets round both, whatever they are: the normal form takes them out again,
// and nothing can bind otherwise than it is meant.
func binary(op syntax.Op, x, y syntax.Expr) syntax.Expr {
	return &syntax.Binary{Op: op, X: &syntax.Paren{X: x}, Y: &syntax.Paren{X: y}}
}

// call is a function of one number.
func call(name string, args ...syntax.Expr) *syntax.Call {
	out := &syntax.Call{Func: name}
	for _, x := range args {
		out.Args = append(out.Args, syntax.Arg{X: x})
	}
	return out
}
