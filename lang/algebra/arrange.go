package algebra

import "steelyard/lang/syntax"

// arrange puts the factors of the products of an expression into the order in
// which their names first stand in others, numbers first: what was written as
// ½·k·x² stays so when it is printed after a rearrangement.
//
// The normal form sorts nothing, and a rearrangement gathers factors in the order in
// which it meets them: k·½·x² would be right, and nobody's formula. A reader finds the
// line again only if it looks as it was written.
func arrange(x syntax.Expr, like ...syntax.Expr) syntax.Expr { return orderOf(like...).arrange(x) }

// order is the order in which names were written.
//
// It is learned from all the expressions that a step came from, the left side first,
// so that one order serves for every line of a working. That is when the first product is put
// in order.
type order struct {
	like  []syntax.Expr // what it is learned from
	first map[string]int
	// pairs tells of two names that stood in one product which came first.
	pairs map[[2]string]bool
}

func orderOf(like ...syntax.Expr) *order { return &order{like: like} }

func (o *order) learn() {
	if o.first != nil {
		return
	}
	o.first, o.pairs = map[string]int{}, map[[2]string]bool{}
	for _, l := range o.like {
		syntax.Walk(l, o.see)
	}
}

func (o *order) see(x syntax.Expr) bool {
	switch x := x.(type) {
	case *syntax.Name:
		if _, seen := o.first[x.Name]; !seen {
			o.first[x.Name] = len(o.first)
		}
	case *syntax.Binary:
		if x.Op != syntax.Mul {
			break
		}
		var names []string
		for _, f := range factorsOf(x) {
			if n := nameOf(f); n != "" {
				for _, before := range names {
					if !o.pairs[[2]string{n, before}] {
						o.pairs[[2]string{before, n}] = true
					}
				}
				names = append(names, n)
			}
		}
	}
	return true
}

// nameOf is the name that a factor is a power of, or nothing.
//
// A power belongs where its base does, so that v² is sorted as v is.
func nameOf(x syntax.Expr) string {
	switch x := x.(type) {
	case *syntax.Name:
		return x.Name
	case *syntax.Unary:
		return nameOf(x.X)
	case *syntax.Binary:
		if x.Op == syntax.Pow {
			return nameOf(x.X)
		}
	}
	return ""
}

// sort puts factors in order.
//
// By insertion: `before` is no order in the strict sense, since what is known of pairs
// may go round in a circle, and a library's sort may do anything with such a one.
// There are a handful of factors.
func (o *order) sort(fs []syntax.Expr) {
	for i := 1; i < len(fs); i++ {
		for k := i; k > 0 && o.before(fs[k], fs[k-1]); k-- {
			fs[k], fs[k-1] = fs[k-1], fs[k]
		}
	}
}

// Two names that once stood in one product keep that order, whatever else was written:
// the equation of a gas has n R T even where R is met first elsewhere.
func (o *order) before(a, b syntax.Expr) bool {
	n, m := nameOf(a), nameOf(b)
	switch {
	case n != "" && m != "" && o.pairs[[2]string{n, m}]:
		return true
	case n != "" && m != "" && o.pairs[[2]string{m, n}]:
		return false
	}
	return placeOf(a, o.first) < placeOf(b, o.first)
}

func (o *order) arrange(x syntax.Expr) syntax.Expr {
	switch x.(type) {
	case *syntax.Name, *syntax.Number, *syntax.Quantity: // as most factors are
		return x
	}
	return syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
		b, ok := x.(*syntax.Binary)
		if !ok || b.Op != syntax.Mul {
			return nil, false
		}
		fs := factorsOf(b)
		for i := range fs {
			fs[i] = o.arrange(fs[i])
		}
		o.learn()
		o.sort(fs)
		var out syntax.Expr
		for _, f := range fs {
			out = times(out, f)
		}
		if out.(*syntax.Binary).Op == syntax.Mul && implied(b) {
			return keepImplied(out), true
		}
		return out, true
	})
}

// implied tells whether a product, and every one within it, was written without
// signs.
//
// Then the product that comes of arranging it has none either: 2 π r does not become
// 2*π*r.
func implied(x syntax.Expr) bool {
	b, ok := x.(*syntax.Binary)
	return !ok || b.Op != syntax.Mul || b.Implied && implied(b.X)
}

func keepImplied(x syntax.Expr) syntax.Expr {
	b, ok := x.(*syntax.Binary)
	if !ok || b.Op != syntax.Mul {
		return x
	}
	return &syntax.Binary{Op: syntax.Mul, Implied: true, X: keepImplied(b.X), Y: b.Y}
}

// factorsOf lists the factors of a product in their order.
func factorsOf(x syntax.Expr) []syntax.Expr {
	if b, ok := x.(*syntax.Binary); ok && b.Op == syntax.Mul {
		return append(factorsOf(b.X), b.Y)
	}
	return append(make([]syntax.Expr, 0, 4), x)
}

// placeOf is where a factor belongs: numbers first, then π and quantities, then
// names in their order, then roots and calls.
//
// It is the order of printed formulas: ½ m v², 4 π r², and the root or the function
// last, where no bracket is needed to tell what it takes.
func placeOf(x syntax.Expr, order map[string]int) int {
	switch x := x.(type) {
	case *syntax.Number:
		return -3
	case *syntax.Pi:
		return -2
	case *syntax.Quantity:
		return -1
	case *syntax.Name:
		if at, ok := order[x.Name]; ok {
			return at
		}
	case *syntax.Binary:
		if x.Op == syntax.Div {
			return -3 // 1/2
		}
		if x.Op == syntax.Pow {
			return placeOf(x.X, order)
		}
	case *syntax.Unary:
		return placeOf(x.X, order)
	case *syntax.Paren:
		if !syntax.Rational(x.X).Lost() {
			return -3 // (1/3), (-1)
		}
		if q, ok := x.X.(*syntax.Quantity); ok {
			return placeOf(q, order)
		}
		return len(order) + 1
	}
	return len(order) + 2
}
