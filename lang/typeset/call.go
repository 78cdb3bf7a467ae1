package typeset

import "steelyard/lang/syntax"

// operators are the functions whose names LaTeX has, with what print calls them.
// A raised whole number may stand between those of angles and their bracket.
var operators = map[string]struct {
	text  string
	angle bool
}{
	"sin": {"sin", true}, "cos": {"cos", true}, "tan": {"tan", true},
	"sinh": {"sinh", true}, "cosh": {"cosh", true}, "tanh": {"tanh", true},
	"asin": {"arcsin", false}, "acos": {"arccos", false}, "atan": {"arctan", false},
	"arcsin": {"arcsin", false}, "arccos": {"arccos", false}, "arctan": {"arctan", false},
	"exp": {"exp", false}, "ln": {"ln", false}, "log10": {"log", false},
	"min": {"min", false}, "max": {"max", false},
}

// uprightName tells whether a function's name is set upright, as words are.
func uprightName(name string) bool {
	_, ok := operators[name]
	return ok || long(name)
}

// operatorName tells whether a call needs brackets round it before an exponent:
// ln(x)² could be read as the logarithm of x².
func operatorName(c *syntax.Call) bool {
	if shape(c) != byName {
		return false
	}
	_, ok := operators[c.Func]
	return ok
}

// powerInside tells whether an exponent goes between a function's name and its
// bracket: sin²(x). A raised -1 would mean the inverse function there.
func powerInside(c *syntax.Call, exponent syntax.Expr) bool {
	n, ok := bare(exponent).(*syntax.Number)
	if !ok || !operators[c.Func].angle || n.Value.Text == "1" {
		return false
	}
	for i := range len(n.Value.Text) {
		if !isDigit(n.Value.Text[i]) {
			return false
		}
	}
	return true
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
	switch {
	case len(c.Args) == 1 && c.Func == "sqrt":
		return asRoot
	case len(c.Args) == 1 && c.Func == "cbrt":
		return asCube
	case len(c.Args) == 2 && c.Func == "root":
		return asNth
	case len(c.Args) == 1 && c.Func == "abs":
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
		return append(to, holding(fence, "||", l.expr(nil, c.Args[0].X)...))
	}
	return l.arguments(append(to, functionName(c.Func)), c)
}

func functionName(name string) Box {
	print, known := operators[name]
	switch {
	case name == "log10":
		return scripted(Box{kind: operator, text: "log"}, Box{kind: digits, text: "10"}, Box{})
	case known:
		return Box{kind: operator, text: print.text}
	case long(name):
		return Box{kind: function, text: name}
	}
	return named(name, Box{})
}

// arguments is the bracket of a call.
func (l layout) arguments(to []Box, c *syntax.Call) []Box {
	var inside []Box
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
