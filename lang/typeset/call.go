package typeset

import (
	"steelyard/lang/ops"
	"steelyard/lang/syntax"
)

// howSet is how the name of a function is set, and whether it has a form of its own.
//
// The table of operations has the words and signs of print for each function (ops.Print), so
// that a function that is added is set right without a line here.
func howSet(name string) (ops.Print, bool) {
	f, _ := ops.Named(name)
	return f.Print, f.Print.Text != ""
}

// uprightName tells whether a function's name is set upright, as words are.
//
// Functions with a fixed name are upright, sin and ln, and those of the page with one letter
// slope as quantities do (ISO 80000-2).
func uprightName(name string) bool {
	_, ok := howSet(name)
	return ok || long(name)
}

// operatorName tells whether a call needs brackets round it before an exponent:
// ln(x)² could be read as the logarithm of x².
//
// A function of the page with one letter, v(t)², has its exponent at the bracket without a
// doubt.
func operatorName(c *syntax.Call) bool {
	_, ok := howSet(c.Func)
	return ok && shape(c) == byName
}

// powerInside tells whether an exponent goes between a function's name and its
// bracket: sin²(x). A raised -1 would mean the inverse function there.
//
// Only functions whose squares print has so (Raised in the table): no book writes √²x.
func powerInside(c *syntax.Call, exponent syntax.Expr) bool {
	n, ok := bare(exponent).(*syntax.Number)
	how, _ := howSet(c.Func)
	return ok && how.Raised && n.Value.Text != "1" && allDigits(n.Value.Text)
}

// callShape is how a call is set.
type callShape uint8

const (
	byName   callShape = iota // f(x, y)
	asRoot                    // √x
	asCube                    // ³√x
	asNth                     // ⁿ√x
	asStroke                  // |x|
	asSize                    // |v|, as it is typed
	asDot                     // v·w
	asCross                   // v×w
	asSides                   // √(x² + y²), the hypotenuse
	asWord                    // F along 30°
)

// Arguments by name, spring_energy(k = 2 N/m), and a call with too few or too many keep their
// name and brackets: a sign has no place for them.
//
// The order matters: a name or a wrong number of arguments comes first, as no sign could show
// it.
func shape(c *syntax.Call) callShape {
	for i := range c.Args {
		if c.Args[i].Name != "" {
			return byName
		}
	}
	f, _ := ops.Named(c.Func)
	switch {
	case f.Least > len(c.Args) || f.Most < len(c.Args):
		return byName
	case f.Op == ops.Sqrt:
		return asRoot
	case f.Op == ops.Cbrt:
		return asCube
	case f.Op == ops.Root:
		return asNth
	case f.Takes == ops.VectorAlong, f.Takes == ops.VectorAcross:
		return asWord
	case c.Signed, f.Takes == ops.VectorToSize:
		return asSize
	case f.Takes == ops.VectorsToDot:
		return asDot
	case f.Takes == ops.VectorsToCross:
		return asCross
	case f.Op == ops.Abs:
		return asStroke
	case f.Op == ops.Hypot:
		return asSides
	}
	return byName
}

// Call is a function with its arguments, or what it has instead.
//
// hypot(x, y) is typed as a function and read as a root of squares; the box keeps the first for
// the screen.
func (l *layout) Call(c *syntax.Call) {
	radical := func(degree Box) { l.put(l.holding(root, c.Func, l.whole(c.Args[0].X), degree)) }
	switch shape(c) {
	case asRoot:
		radical(Box{})
	case asCube:
		radical(Box{kind: digits, text: "3"})
	case asNth:
		radical(l.raised(c.Args[1].X))
	case asStroke:
		l.put(l.fenced("||", c.Args[0].X))
	case asSize:
		l.magnitude(c.Args[0].X)
	case asDot:
		l.vectors(c.Args[0].X, syntax.Dot, c.Args[1].X)
	case asCross:
		l.vectors(c.Args[0].X, syntax.Cross, c.Args[1].X)
	case asSides:
		outer := l.begin()
		l.byName(c)
		typed := l.one(outer).Text()
		l.put(l.holding(group, typed, l.holding(root, "sqrt", l.whole(squares(c)), Box{})))
	case asWord:
		l.directed(c.Args[0].X, c.Func, c.Args[1].X, "")
	default:
		l.byName(c)
	}
}

// squares is the sum of the squares of a call's arguments.
//
// It is an expression, so that powers and units in it are set as anywhere.
func squares(c *syntax.Call) syntax.Expr {
	two, _ := syntax.ParseExpr("2")
	var sum syntax.Expr
	for i := range c.Args {
		var x syntax.Expr = &syntax.Binary{Op: syntax.Pow, X: c.Args[i].X, Y: two}
		if sum != nil {
			x = &syntax.Binary{Op: syntax.Add, X: sum, Y: x}
		}
		sum = x
	}
	return sum
}

func (l *layout) byName(c *syntax.Call) {
	l.put(l.functionName(c.Func))
	l.arguments(c)
}

// log10 has its base below, as log alone is ambiguous in print.
func (l *layout) functionName(name string) Box {
	how, known := howSet(name)
	b := Box{kind: operator, text: how.Text}
	switch {
	case name == "log10":
		b = l.scripted("", b, Box{kind: digits, text: "10"}, Box{})
	case known:
	case long(name):
		return Box{kind: function, text: name}
	default:
		return l.named(&syntax.Name{Name: name}, Box{})
	}
	if b.text != name {
		return l.holding(group, name, b)
	}
	return b
}

// arguments is the bracket of a call.
//
// The sign that a function is applied is seen by no one; a screen reader says it, and MathML
// sets the room by it.
func (l *layout) arguments(c *syntax.Call) {
	l.put(Box{kind: apply})
	outer := l.begin()
	for i := range c.Args {
		if i > 0 {
			l.put(Comma())
		}
		if a := &c.Args[i]; a.Name != "" {
			l.put(l.named(&syntax.Name{Name: a.Name}, Box{}))
			l.put(Sign("="))
		}
		l.expr(c.Args[i].X)
		if counted := c.Args[i].Counted(); counted != "" {
			l.put(Box{kind: thin})
			l.put(Box{kind: word, text: counted})
		}
	}
	l.put(holding(fence, "()", l.end(outer)))
}
