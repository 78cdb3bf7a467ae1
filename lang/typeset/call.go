package typeset

import (
	"steelyard/lang/ops"
	"steelyard/lang/syntax"
)

// howSet is how the name of a function is set, and whether it has a form of its own.
func howSet(name string) (ops.Print, bool) {
	f, _ := ops.Named(name)
	return f.Print, f.Print.Text != ""
}

// uprightName tells whether a function's name is set upright, as words are.
func uprightName(name string) bool {
	_, ok := howSet(name)
	return ok || long(name)
}

// operatorName tells whether a call needs brackets round it before an exponent:
// ln(x)² could be read as the logarithm of x².
func operatorName(c *syntax.Call) bool {
	_, ok := howSet(c.Func)
	return ok && shape(c) == byName
}

// powerInside tells whether an exponent goes between a function's name and its
// bracket: sin²(x). A raised -1 would mean the inverse function there.
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
)

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
	case f.Op == ops.Abs:
		return asStroke
	}
	return byName
}

var three = Box{kind: digits, text: "3"}

func (l layout) call(to []Box, c *syntax.Call) []Box {
	switch shape(c) {
	case asRoot:
		return append(to, Root(l.whole(c.Args[0].X)))
	case asCube:
		return append(to, holding(root, "", l.whole(c.Args[0].X), three))
	case asNth:
		return append(to, holding(root, "", l.whole(c.Args[0].X), l.exponent(c.Args[1].X)))
	case asStroke:
		return append(to, holding(fence, "||", l.row(c.Args[0].X)...))
	}
	return l.arguments(append(to, functionName(c.Func)), c)
}

func functionName(name string) Box {
	how, known := howSet(name)
	b := Box{kind: operator, text: how.Text}
	switch {
	case name == "log10":
		return scripted(b, Box{kind: digits, text: "10"}, Box{})
	case known:
		return b
	case long(name):
		return Box{kind: function, text: name}
	}
	return named(name, Box{})
}

// arguments is the bracket of a call.
func (l layout) arguments(to []Box, c *syntax.Call) []Box {
	inside := make([]Box, 0, 4)
	for i := range c.Args {
		if i > 0 {
			inside = append(inside, Comma())
		}
		if a := &c.Args[i]; a.Name != "" {
			inside = append(inside, named(a.Name, Box{}), Box{kind: relation, text: "="})
		}
		inside = l.expr(inside, c.Args[i].X)
	}
	return append(to, Box{kind: apply}, round(inside))
}
