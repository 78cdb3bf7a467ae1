package syntax

import (
	"iter"
	"steelyard/lang/limit"
)

// Walk calls f for an expression and, as long as f answers true, for the parts
// of it, from left to right.
//
// A node comes before its parts. Where f answers false the parts are left out, and
// what is beside the node comes all the same. Nil is no node.
func Walk(x Expr, f func(Expr) bool) {
	for x != nil && f(x) {
		switch n := x.(type) { // most nodes are of these kinds, and others are asked part by part
		case *Name, *Number, *Quantity:
			return
		case *Binary:
			Walk(n.X, f)
			x = n.Y
			continue
		}
		for i := 0; ; i++ {
			part := x.part(i)
			if part == nil {
				return
			}
			Walk(part, f)
		}
	}
}

// Nodes are an expression and all its parts, from left to right.
func Nodes(x Expr) iter.Seq[Expr] {
	return func(yield func(Expr) bool) {
		going := true
		Walk(x, func(x Expr) bool {
			going = going && yield(x)
			return going
		})
	}
}

// Each are the parts of one kind in some expressions, from left to right, each expression
// itself among its own: Each[*Name](x) are the names that are written in x.
//
// Who looks for one kind of node asks here, so that no one walks a tree by himself. What a part
// means in its place, as a name that a slope binds, is not asked: Holds knows that.
func Each[T Expr](of ...Expr) iter.Seq[T] {
	return func(yield func(T) bool) {
		for _, x := range of {
			for x := range Nodes(x) {
				if x, ok := x.(T); ok && !yield(x) {
					return
				}
			}
		}
	}
}

// Has tells whether a part of one kind is in an expression, or is all of it.
func Has[T Expr](x Expr) bool {
	return Any(x, func(x Expr) bool { _, is := x.(T); return is })
}

// Any tells whether an expression or a part of it is as a test says.
//
// It ends at the first that is, where Walk would still come to the nodes beside
// it.
func Any(x Expr, is func(Expr) bool) bool {
	if x == nil || is(x) {
		return x != nil
	}
	if b, ok := x.(*Binary); ok {
		return Any(b.X, is) || Any(b.Y, is)
	}
	for i := 0; ; i++ {
		part := x.part(i)
		if part == nil || Any(part, is) {
			return part != nil
		}
	}
}

// ExprsOf are the expressions of a statement. Of a line of one it makes no list, as Exprs does.
func ExprsOf(stmt Stmt) iter.Seq[Expr] {
	return func(yield func(Expr) bool) {
		if _, x, _ := AsResult(stmt); x != nil {
			yield(x)
			return
		}
		for _, x := range stmt.Exprs() {
			if !yield(x) {
				return
			}
		}
	}
}

// IsWritten tells whether an expression holds no name, no call, and nothing else
// that has to be worked out first.
//
// 1/2, 3 m + 2 m and √2 are written; 2*m with the name m is not.
func IsWritten(x Expr) bool {
	return !Any(x, func(x Expr) bool {
		switch x.(type) {
		case *Name, *Call, *That, Derived:
			return true
		}
		return false
	})
}

// Spend takes steps from a budget for each node of an expression; false if that has
// ended. An expression that others were put into may have more nodes than anyone
// could count.
func Spend(b *limit.Budget, each int64, x Expr) bool {
	for range Nodes(x) {
		if !b.Spend(each) {
			return false
		}
	}
	return true
}

// Holds tells whether a name stands in an expression and means there what it means
// outside: the name that a slope or an area is taken against is none.
//
// In slope of x(t) at t = t0, the t is bound by the slope, and t0 is held.
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
