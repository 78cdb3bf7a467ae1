package syntax

import "math"

// Comparison is the sign of a check or of an interval's bound.
type Comparison uint8

// The comparisons.
const (
	Equal Comparison = iota
	Less
	Greater
	AtMost
	AtLeast
)

// String is the sign that is shown for it.
func (c Comparison) String() string { return [...]string{"=", "<", ">", "≤", "≥"}[c] }

// Holds tells whether two numbers compare so: what differs by off is equal, and so is what
// differs by the margin where they may be equal.
func (c Comparison) Holds(l, r, margin, off float64) bool {
	margin = math.Max(margin, off)
	switch c {
	case Less:
		return l < r-off
	case Greater:
		return l > r+off
	case AtMost:
		return l <= r+margin
	case AtLeast:
		return l >= r-margin
	}
	return math.Abs(l-r) <= margin
}

// compares is what a token compares, if it is the sign of a comparison.
//
// ≤ and <= are the same sign, as are ≥ and >=.
func (t *token) compares() (Comparison, bool) {
	switch t.text {
	case "=":
		return Equal, true
	case "<":
		return Less, true
	case ">":
		return Greater, true
	case "<=", "≤":
		return AtMost, true
	case ">=", "≥":
		return AtLeast, true
	}
	return Equal, false
}

// chain is A < B, or A < B < C: two comparisons of neighbours.
//
// There is one sign less than sides: of 0 s ≤ t < 2 s the sides are 0 s, t and 2
// s.
type chain struct {
	sides []Expr
	signs []Comparison
}

// comparisons reads a chain. It has no =: values are equal in a check alone.
//
// One sign at least must be there, and two at most are read.
func (p *exprParser) comparisons() chain {
	c := chain{sides: []Expr{p.sum()}}
	for {
		op, ok := p.tok.compares()
		if ok = ok && op != Equal && len(c.signs) < 2; !ok && len(c.signs) > 0 {
			return c
		} else if !ok {
			p.refuse()
		}
		p.take()
		c.signs, c.sides = append(c.signs, op), append(c.sides, p.sum())
	}
}
