package syntax

import "math"

// EdgeNumbers are the plain numbers that a product begins and ends with, but for
// those that formulas have: 1, 2, 1/2 and 0.5; and 3 or 4 with several names, as in
// 3*m*h.
//
// Such a number often lacks its unit: in 9.8*m it is 9.8. Of 2*m*7 it is the 7, of
// 5*m/3 the 5; 1/2*m*v^2 and 3*m*h have none, nor has what is no product.
func EdgeNumbers(x Expr) (out []*Number) {
	factors := Factors(x)
	last := len(factors) - 1
	if last == 0 {
		return nil
	}
	names := 0
	for range Each[*Name](x) {
		names++
	}
	add := func(x Expr) {
		n, ok := x.(*Number)
		if !ok {
			return
		}
		switch v := math.Abs(n.Value.Float()); v {
		case 0, 1, 2, 0.5:
		default:
			if names < 2 || v != 3 && v != 4 {
				out = append(out, n)
			}
		}
	}
	if !factors[last].Minus {
		add(factors[last].X)
	}
	if _, over := factors[1].X.(*Number); !over || !factors[1].Minus {
		add(factors[0].X)
	}
	return out
}
