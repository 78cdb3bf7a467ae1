package algebra

import (
	"math/big"

	"steelyard/lang/syntax"
)

// quarterTurns writes functions of an angle and some quarter turns as ones of the angle
// alone, if that leaves fewer of them.
func (s *isolator) quarterTurns(eq sum, kinds []factor, depth int) ([]root, bool) {
	out, ok := eq, len(kinds) > 1
	for _, f := range kinds {
		c, called := f.base.(*syntax.Call)
		if !called || len(c.Args) != 1 {
			continue
		}
		if by, turns := s.turned(c, s.sum(c.Args[0].X)); turns && ok {
			out, ok = out.replaced(f.key, expOne, by)
		}
	}
	if !ok || len(s.kinds(out)) >= len(kinds) {
		return nil, false
	}
	return s.onward(out, depth, addedTurns)
}

// turned is the sine, the cosine or the tangent of an angle and some quarter turns as
// one of the angle alone: sin(π - x) is sin(x), cos(90° + x) is -sin(x). It is false
// where no quarter turns are added.
func (n normalizer) turned(x *syntax.Call, angle sum) (sum, bool) {
	quarters, rest := int64(0), sum{}
	for _, t := range angle {
		if by, ok := t.quarters(); ok {
			quarters += by
		} else {
			rest = append(rest, t)
		}
	}
	if len(rest) == 0 || len(rest) == len(angle) {
		return nil, false
	}
	back := rest[0].coef.Sign() < 0
	if back {
		rest = rest.neg()
	}
	name, minus := x.Func, back
	switch x.Func {
	case "cos":
		quarters++ // cos(u) = sin(u + 90°)
		fallthrough
	case "sin": // of whole turns and 0, 1, 2, 3 quarters more: sin, cos, -sin, -cos
		if name = "sin"; quarters&1 == 1 {
			name, minus = "cos", false
		}
		minus = minus != (quarters&2 != 0)
	case "tan":
		if quarters&1 == 1 {
			return nil, false
		}
	default:
		return nil, false
	}
	out := n.call(call(name, sumExpr(rest)))
	if minus {
		out = out.neg()
	}
	return out, true
}

// quarters is how many quarter turns a term is, if it is so many and nothing else.
func (t term) quarters() (int64, bool) {
	if len(t.factors) != 1 || t.factors[0].exp != expOne {
		return 0, false
	}
	by := new(big.Rat).Set(t.coef)
	switch x := t.factors[0].base.(type) {
	case *syntax.Pi:
		by.Mul(by, big.NewRat(2, 1))
	case *syntax.Quantity:
		if x.Unit.Text != "°" {
			return 0, false
		}
		by.Mul(by, x.Value.Rat()).Quo(by, big.NewRat(90, 1))
	default:
		return 0, false
	}
	return by.Num().Int64(), by.IsInt() && by.Num().IsInt64()
}
