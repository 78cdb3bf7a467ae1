package typeset

import (
	"slices"

	"steelyard/lang/syntax"
)

// Term is one term of a sum with the sign before it, empty for the first.
type Term struct {
	Sign string // "+" or "−"
	X    syntax.Expr
}

// Terms takes a sum apart where a line may be broken. What is no sum is one term.
func Terms(x syntax.Expr) []Term {
	var out []Term
	for {
		sum, ok := x.(*syntax.Binary)
		if !ok || sum.Op != syntax.Add && sum.Op != syntax.Sub {
			break
		}
		sign := "+"
		if sum.Op == syntax.Sub {
			sign = "−"
		}
		out = append(out, Term{sign, sum.Y})
		x = sum.X
	}
	out = append(out, Term{"", x})
	slices.Reverse(out)
	return out
}

// Sum lays out terms that follow one another, which may be some of a longer sum: a
// row of it where that is broken. A term has the brackets that it needs behind its
// sign.
func Sum(terms []Term) Box {
	var l layout
	for _, t := range terms {
		if t.Sign == "" {
			l.put(l.whole(t.X))
			continue
		}
		least := sumRank
		if t.Sign == "−" {
			least = signRank
		}
		l.put(Box{kind: continued, text: t.Sign})
		outer := l.begin()
		l.operand(t.X, least, false)
		l.put(l.one(outer))
	}
	return Row(l.stack...)
}
