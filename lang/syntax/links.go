package syntax

import "iter"

// Link is a term of a sum, or a factor of a product, as it is written.
type Link struct {
	X Expr
	// Minus tells that a term is subtracted, or a factor divided by.
	Minus bool
	// Below tells that it stands behind a minus or a bar, whatever else does: in
	// a/(b/c) the c does, and is multiplied by.
	Below bool
}

// Terms lists the terms of a sum in their order, and Factors the factors of a
// product. An expression that is no sum, or no product, is its own only one.
//
// Brackets round what goes on in the same way are gone through. In a - (b - c) the c is
// added, and in a/(b/c) it is multiplied by: each inverse operation turns all that is
// within it round.
func Terms(x Expr) []Link   { return links(make([]Link, 0, 4), Link{X: x}, Add, Sub) }
func Factors(x Expr) []Link { return links(make([]Link, 0, 4), Link{X: x}, Mul, Div) }

// Products are the products in an expression, from left to right, each with its factors: none is
// a part of another, and what is in a factor comes behind it.
func Products(x Expr) iter.Seq2[Expr, []Link] {
	return func(yield func(Expr, []Link) bool) {
		going := true
		var look func(x Expr) bool
		look = func(x Expr) bool {
			if b, ok := Unbracket(x).(*Binary); !ok || b.Op != Mul && b.Op != Div {
				return going
			}
			all := Factors(x)
			going = going && yield(x, all)
			for _, f := range all {
				Walk(f.X, look)
			}
			return false
		}
		Walk(x, look)
	}
}

func links(all []Link, l Link, plus, minus Op) []Link {
	b, ok := Unbracket(l.X).(*Binary)
	if !ok || b.Op != plus && b.Op != minus {
		return append(all, l)
	}
	turned := b.Op == minus
	all = links(all, Link{b.X, l.Minus, l.Below}, plus, minus)
	return links(all, Link{b.Y, l.Minus != turned, l.Below || turned}, plus, minus)
}
