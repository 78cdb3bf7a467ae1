package syntax

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
func Terms(x Expr) []Link   { return links(nil, Link{X: x}, Add, Sub) }
func Factors(x Expr) []Link { return links(nil, Link{X: x}, Mul, Div) }

func links(all []Link, l Link, plus, minus Op) []Link {
	b, ok := Unbracket(l.X).(*Binary)
	if !ok || b.Op != plus && b.Op != minus {
		return append(all, l)
	}
	turned := b.Op == minus
	all = links(all, Link{b.X, l.Minus, l.Below}, plus, minus)
	return links(all, Link{b.Y, l.Minus != turned, l.Below || turned}, plus, minus)
}
