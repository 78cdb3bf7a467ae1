package solve

import (
	"slices"
	"strconv"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/syntax"
)

// part is a component of an expression that is a vector.
//
// Each kind of node knows its component: of a sum the sum of components, of a product with a
// number that number times the component, of 5 N at 30° the cosine or the sine. What has none
// in symbols, as a function of the page by intervals has not, is refused with what to write.
//
// The brackets follow print: (-3 m/s) keeps them within a product, and + (-W) becomes - W, so
// that the working reads as if someone had written it.
func (v *vectors) part(x syntax.Expr, k int) syntax.Expr {
	switch x := x.(type) {
	case *syntax.Paren:
		return &syntax.Paren{At: x.At, X: v.part(x.X, k)}
	case *syntax.Unary:
		return &syntax.Unary{At: x.At, Op: x.Op, X: v.part(x.X, k)}
	case *syntax.Number:
		if x.Value.Hi == 0 {
			return x
		}
	case *syntax.Name:
		return v.namedPart(x, k)
	case *syntax.List:
		if x.Vector && len(x.Elems) == v.width {
			if one := v.number(x.Measured(k)); !needsBrackets(one) {
				return one
			} else {
				return &syntax.Paren{At: one.Span(), X: one}
			}
		}
	case *syntax.Polar:
		if v.width == 2 {
			return v.polarPart(x, k)
		}
	case *syntax.Call:
		if together(x) {
			out := &syntax.Call{At: x.At, Func: x.Func}
			for _, a := range x.Args {
				out.Args = append(out.Args, syntax.Arg{X: syntax.Unbracket(v.part(a.X, k))})
			}
			return out
		}
		switch f, _ := ops.Named(x.Func); {
		case f.Takes == ops.VectorToUnit:
			return &syntax.Binary{At: x.At, Op: syntax.Div, X: bracketed(v.part(x.Args[0].X, k)), Y: v.size(x.Args[0].X, x.At)}
		case f.Takes == ops.VectorsToCross && v.width == 3:
			return v.cross(x.Args[0].X, x.Args[1].X, k, x.At)
		}
	case *syntax.Binary:
		out := *x
		switch {
		case x.Op == syntax.Add || x.Op == syntax.Sub:
			switch out.X, out.Y = v.part(x.X, k), v.part(x.Y, k); {
			case syntax.IsZero(out.Y):
				return out.X
			case syntax.IsZero(out.X) && x.Op == syntax.Add:
				return out.Y
			}
			if less := negated(out.Y); less != nil { // + (-W) is - W
				out.Y, out.Op = less, syntax.Sub
				if x.Op == syntax.Sub {
					out.Op = syntax.Add
				}
			}
			return &out
		case x.Op == syntax.Div:
			out.X, out.Y = v.part(x.X, k), v.number(x.Y)
			return &out
		case x.Op == syntax.Mul && x.By == syntax.Cross && v.width == 3 && v.isVector(x.X) && v.isVector(x.Y):
			return v.cross(x.X, x.Y, k, x.At)
		case x.Op == syntax.Mul && v.isVector(x.X) && !v.isVector(x.Y):
			out.X, out.Y = v.part(x.X, k), v.number(x.Y)
			return &out
		case x.Op == syntax.Mul && v.isVector(x.Y) && !v.isVector(x.X):
			out.X, out.Y = v.number(x.X), v.part(x.Y, k)
			return &out
		}
	}
	v.refuse(finding.VectorOrNumber, x.Span(), "`"+syntax.PrintExpr(x)+"` can't be used as a vector here.", "Give it a name in a line above, or write the components out.")
	return x
}

// negated is what a term that begins with a minus takes away, as W of (-W); nil for any
// other.
//
// It looks through brackets and into the first factor of a product: of (-2)*W it is 2*W. A sum
// with a minus before it, -(a + b), is left as it is, since without its minus it would lose its
// brackets too.
func negated(x syntax.Expr) syntax.Expr {
	switch x := x.(type) {
	case *syntax.Paren:
		return negated(x.X)
	case *syntax.Unary:
		if sum, ok := x.X.(*syntax.Binary); x.Op == syntax.Sub && (!ok || sum.Op != syntax.Add && sum.Op != syntax.Sub) {
			return x.X
		}
	case *syntax.Binary:
		if first := negated(x.X); first != nil && (x.Op == syntax.Mul || x.Op == syntax.Div) {
			out := *x
			out.X = first
			return &out
		}
	}
	return nil
}

// needsBrackets tells whether a component stands in brackets where it takes the place of a
// vector.
//
// A name or a call stands by itself; a sum, a product or a number with its minus would run into
// what is beside it.
func needsBrackets(x syntax.Expr) bool {
	switch x := x.(type) {
	case *syntax.Binary, *syntax.Unary:
		return true
	case *syntax.Quantity:
		return x.Value.Float() < 0
	case *syntax.Number:
		return x.Value.Float() < 0
	}
	return false
}

// namedPart is a component of a vector with a name: that of the unknown, or of a line above.
//
// A vector of a line above may have been given anew since, or one of its components may: v@3,
// or a v_x of its own. Then the numbers that the vector had are put in, as no name means them
// any more.
func (v *vectors) namedPart(n *syntax.Name, k int) syntax.Expr {
	part := &syntax.Name{At: n.At, Name: axis(n.Name, k)}
	if name, ok := v.asks(n); ok {
		if !v.unknown[name] {
			v.refuse(finding.VectorOrNumber, n.At, name+" is a number in one place and a vector in another.", "Use it as one of the two.")
		}
		return part
	}
	d := vectorNamed(v.Line, n)
	if d == nil || int(v.Planner.Static(d.Slot).Components()) != v.width {
		v.refuse(finding.VectorOrNumber, n.At, n.Name+" isn't a vector with "+strconv.Itoa(v.width)+" components.", "Either all terms of an equation are vectors, or no term is.")
		return n
	}
	if now, ok := v.Planner.Names.Lookup(part.Name); ok && now.Vector == d && n.Line == 0 {
		return part
	}
	if q, ok := v.AsQuantity(d); ok { // v@3, or one whose component has a value of its own
		if list, ok := q.(*syntax.List); ok {
			return list.Measured(k)
		}
	}
	return n
}

// polarPart is a component of a vector by its magnitude and direction.
//
// The word behind the angle says which component has the cosine and which are negative: 30°
// north of east has it along x, 30° west of north along y, where x is negative.
func (v *vectors) polarPart(x *syntax.Polar, k int) syntax.Expr {
	cosine, signs := x.Bearing.Turn()
	name := "sin"
	if k == cosine {
		name = "cos"
	}
	size := v.number(x.X)
	if b, ok := size.(*syntax.Binary); ok && (b.Op == syntax.Add || b.Op == syntax.Sub) {
		size = &syntax.Paren{At: size.Span(), X: size}
	}
	var out syntax.Expr = &syntax.Binary{At: x.At, Op: syntax.Mul, X: size,
		Y: &syntax.Call{At: x.At, Func: name, Args: []syntax.Arg{{X: syntax.Unbracket(v.number(x.Angle))}}}}
	if signs[k] < 0 {
		out = &syntax.Paren{At: x.At, X: &syntax.Unary{At: x.At, Op: syntax.Sub, X: out}}
	}
	return out
}

// number is an expression that is a number with the vectors in it by components: |v| is
// hypot(v_x, v_y).
//
// A square of a vector is its dot product with itself, as in 1/2*m*v^2; the angle of a vector
// is atan2 of its components, the other way round than they are listed.
func (v *vectors) number(x syntax.Expr) syntax.Expr {
	return syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) {
		switch x := x.(type) {
		case *syntax.Call:
			f, _ := ops.Named(x.Func)
			switch {
			case f.Takes == ops.VectorToSize || f.Op == ops.Abs && f.Takes == ops.AnyToSame:
				if v.isVector(x.Args[0].X) {
					return v.size(x.Args[0].X, x.At), true
				}
			case f.Takes == ops.VectorsToDot:
				return v.dot(x.Args[0].X, x.Args[1].X, x.At), true
			case f.Takes == ops.VectorsToCross && v.width == 2:
				return v.cross(x.Args[0].X, x.Args[1].X, 2, x.At), true
			case f.Takes == ops.VectorToAngle && v.width == 2:
				all := v.arguments(x.Args[0].X)
				slices.Reverse(all)
				return &syntax.Call{At: x.At, Func: "atan2", Args: all}, true
			case f.Takes == ops.VectorsToAngle:
				return v.between(x.Args[0].X, x.Args[1].X, x.At), true
			case (f.Takes == ops.VectorAlong || f.Takes == ops.VectorAcross) && v.width == 2:
				return v.resolved(x, f.Takes == ops.VectorAcross), true
			}
		case *syntax.Binary:
			vectors := v.isVector(x.X) && (x.Op == syntax.Pow || v.isVector(x.Y))
			switch {
			case vectors && x.Op == syntax.Pow:
				return v.dot(x.X, x.X, x.At), true
			case vectors && x.Op == syntax.Mul && x.By == syntax.Dot:
				return v.dot(x.X, x.Y, x.At), true
			case vectors && x.Op == syntax.Mul && x.By == syntax.Cross && v.width == 2:
				return v.cross(x.X, x.Y, 2, x.At), true
			}
		case *syntax.Name:
			if v.unknown[x.Name] && x.Line == 0 {
				v.refuse(finding.VectorOrNumber, x.At, x.Name+" is a vector, and here a number is needed.", "Use |"+x.Name+"| or a component.")
			}
		}
		return nil, false
	})
}

// arguments are the components of a vector as the arguments of a call.
//
// An argument has brackets of its own, so that those round a component go.
func (v *vectors) arguments(x syntax.Expr) []syntax.Arg {
	out := make([]syntax.Arg, v.width)
	for k := range out {
		out[k].X = syntax.Unbracket(v.part(x, k))
	}
	return out
}

// size is the magnitude of a vector by components.
//
// hypot has the components of a plane or of space as its arguments, and never overflows on the
// way.
func (v *vectors) size(x syntax.Expr, at syntax.Span) syntax.Expr {
	return &syntax.Call{At: at, Func: "hypot", Args: v.arguments(x)}
}

// cross is a component of the cross product of two vectors, of those of the plane the one along z.
//
// The components come round in the order x y z x y: the one along z is a_x*b_y - a_y*b_x.
func (v *vectors) cross(a, b syntax.Expr, k int, at syntax.Span) syntax.Expr {
	i, j := (k+1)%3, (k+2)%3
	times := func(i, j int) syntax.Expr {
		return &syntax.Binary{At: at, Op: syntax.Mul, X: bracketed(v.part(a, i)), Y: bracketed(v.part(b, j))}
	}
	return &syntax.Paren{At: at, X: &syntax.Binary{At: at, Op: syntax.Sub, X: times(i, j), Y: times(j, i)}}
}

// between is the angle between two vectors, of the size of their cross product and of their dot
// product, as the planner has it.
//
// The arc cosine of the dot product alone would lose half the digits of a small angle (the
// cosine is flat at 0); atan2 of both keeps them.
func (v *vectors) between(a, b syntax.Expr, at syntax.Span) syntax.Expr {
	aside := &syntax.Call{At: at, Func: "hypot"}
	if v.width == 2 { // along z alone
		aside = &syntax.Call{At: at, Func: "abs", Args: []syntax.Arg{{X: syntax.Unbracket(v.cross(a, b, 2, at))}}}
	}
	for k := 0; k < 3 && v.width == 3; k++ {
		aside.Args = append(aside.Args, syntax.Arg{X: syntax.Unbracket(v.cross(a, b, k, at))})
	}
	return &syntax.Call{At: at, Func: "atan2", Args: []syntax.Arg{{X: aside}, {X: syntax.Unbracket(v.dot(a, b, at))}}}
}

// dot is the dot product of two vectors by components.
//
// Its sum is in brackets, since it takes the place of one factor.
func (v *vectors) dot(a, b syntax.Expr, at syntax.Span) syntax.Expr {
	var sum syntax.Expr
	for k := range v.width {
		x, y := v.part(a, k), v.part(b, k)
		var term syntax.Expr = &syntax.Binary{At: at, Op: syntax.Mul, X: bracketed(x), Y: bracketed(y)}
		if sum != nil {
			term = &syntax.Binary{At: at, Op: syntax.Add, X: sum, Y: term}
		}
		sum = term
	}
	return &syntax.Paren{At: at, X: sum}
}

// resolved is the component of a vector along an angle, or across it, as the planner has it.
func (v *vectors) resolved(x *syntax.Call, across bool) syntax.Expr {
	parts, sign := v.arguments(x.Args[0].X), syntax.Add
	if across {
		slices.Reverse(parts)
		sign = syntax.Sub
	}
	angle := syntax.Unbracket(v.number(x.Args[1].X))
	of := func(part syntax.Arg, name string) syntax.Expr {
		return &syntax.Binary{At: x.At, Op: syntax.Mul, X: bracketed(part.X), Y: &syntax.Call{At: x.At, Func: name, Args: []syntax.Arg{{X: angle}}}}
	}
	return &syntax.Paren{At: x.At, X: &syntax.Binary{At: x.At, Op: sign, X: of(parts[0], "cos"), Y: of(parts[1], "sin")}}
}

// bracketed puts a sum in brackets, which it needs in the text of the working as a numerator or
// a factor.
func bracketed(x syntax.Expr) syntax.Expr {
	if needsBrackets(x) {
		return &syntax.Paren{At: x.Span(), X: x}
	}
	return x
}
