package syntax

import "steelyard/lang/limit"

// Walk calls f for an expression and, as long as f answers true, for the parts
// of it, from left to right.
func Walk(x Expr, f func(Expr) bool) {
	if x == nil || !f(x) {
		return
	}
	for i := 0; ; i++ {
		part := x.part(i)
		if part == nil {
			return
		}
		Walk(part, f)
	}
}

// Spend takes steps from a budget for each node of an expression; false if that has
// ended. An expression that others were put into may have more nodes than anyone
// could count.
func Spend(b *limit.Budget, each int64, x Expr) bool {
	good := true
	Walk(x, func(Expr) bool {
		good = good && b.Spend(each)
		return good
	})
	return good
}

// Holds tells whether a name stands in an expression and means there what it means
// outside: the name that a slope or an area is taken against is none.
func Holds(x Expr, name string) bool {
	found := false
	Walk(x, func(x Expr) bool {
		switch x := x.(type) {
		case *Name:
			found = found || x.Name == name && x.Line == 0
		case *SlopeOf:
			if x.Var.Name == name {
				found = found || Holds(x.Place, name)
				return false
			}
		case *AreaUnder:
			if x.Var.Name == name {
				found = found || Holds(x.From, name) || Holds(x.To, name)
				return false
			}
		}
		return !found
	})
	return found
}

// Unbracket returns what is within any round brackets.
func Unbracket(x Expr) Expr {
	for {
		p, ok := x.(*Paren)
		if !ok {
			return x
		}
		x = p.X
	}
}
