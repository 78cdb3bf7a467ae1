package advise

import (
	"math"

	"steelyard/lang/syntax"
	"steelyard/session/eval"
)

// factors is a product taken apart: a number, powers of names, and one root.
type factors struct {
	number float64
	names  [4]power
	n      int         // how many names there are
	root   syntax.Expr // what is under it, or nil
	over   bool        // the root is below the fraction bar
}

type power struct {
	name string
	exp  int
}

// apart takes a product of numbers, up to four names and one root apart. It is false
// for anything else.
//
// The slips here are told by their form: m*v^2 has the number 1 and the powers m^1 and v^2,
// however it is written. √(k/m)/(2π) has the number 1/(2π) and a root; 3*(a + b) is no product.
func apart(x syntax.Expr) (factors, bool) {
	f := factors{number: 1}
	ok := f.take(x, 1)
	return f, ok
}

// take collects the factors of a product, to the power e.
//
// Below a bar the power is negative, within a power it is multiplied: of x/(y*z)^2 the y and the
// z have the power -2.
func (f *factors) take(x syntax.Expr, e int) bool {
	switch x := x.(type) {
	case *syntax.Paren:
		return f.take(x.X, e)
	case *syntax.Number:
		f.times(x.Value.Float(), e)
		return true
	case *syntax.Pi:
		f.times(math.Pi, e)
		return true
	case *syntax.Name:
		return f.name(x.Name, e)
	case *syntax.Root, *syntax.Call:
		of := eval.UnderRoot(x)
		return of != nil && f.under(of, e)
	case *syntax.Binary:
		switch x.Op {
		case syntax.Mul:
			return f.take(x.X, e) && f.take(x.Y, e)
		case syntax.Div:
			return f.take(x.X, e) && f.take(x.Y, -e)
		case syntax.Pow:
			if n, ok := x.Y.(*syntax.Number); ok && n.Value.Float() == 2 {
				return f.take(x.X, 2*e) // by far the commonest, without a rational number
			}
			n := syntax.Rational(x.Y)
			switch {
			case n.IsInt() && n.Num() > -9 && n.Num() < 9:
				return f.take(x.X, e*n.Num())
			case n.Num() == 1 && n.Den() == 2:
				return f.under(x.X, e)
			}
		}
	}
	return false
}

func (f *factors) times(v float64, e int) {
	switch e {
	case 1:
		f.number *= v
	case -1:
		f.number /= v
	default:
		f.number *= math.Pow(v, float64(e))
	}
}

// name notes a power of a name.
func (f *factors) name(name string, e int) bool {
	for i := range f.n {
		if f.names[i].name == name {
			f.names[i].exp += e
			return true
		}
	}
	if f.n == len(f.names) {
		return false
	}
	f.names[f.n] = power{name, e}
	f.n++
	return true
}

// under notes the one root of a product.
//
// Two roots in one line, or a root to a power, are none of the formulas that are looked for.
func (f *factors) under(x syntax.Expr, e int) bool {
	if f.root != nil || e != 1 && e != -1 {
		return false
	}
	f.root, f.over = syntax.Unbracket(x), e < 0
	return true
}

// sole is the one name of a product and its power.
//
// It is ω of 2π/ω, with the power -1; a product of two names has none.
func (f *factors) sole() (string, int) {
	if f.n == 1 && f.root == nil {
		return f.names[0].name, f.names[0].exp
	}
	return "", 0
}
