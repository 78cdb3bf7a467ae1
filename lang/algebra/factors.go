package algebra

import (
	"strconv"

	"steelyard/lang/syntax"
	"steelyard/units"
	"steelyard/units/writing"
)

// Factor is a power of something in a product.
type Factor struct {
	X   syntax.Expr
	Exp units.Exp
}

// Factors lists the powers that an expression is a product of, numbers left
// out, in the order in which they stand in it. It returns false if the
// expression is a sum.
func Factors(x syntax.Expr) ([]Factor, bool) {
	if c, ok := unbracket(x).(*syntax.Call); ok && c.Func == "sqrt" && len(c.Args) == 1 {
		x = &syntax.Root{X: c.Args[0].X}
	}
	s, ok := normalizer{}.sum(x)
	if !ok || len(s) != 1 {
		return nil, false
	}
	var out []Factor
	for _, f := range s[0].factors {
		out = append(out, Factor{f.base, f.exp})
	}
	return out, true
}

// Raised writes a text to a whole power, as on paper.
func Raised(text string, n int) string { return text + writing.Raised(strconv.Itoa(n)) }
