package typeset

import "steelyard/lang/syntax"

// operators are the functions whose names LaTeX has, with what print calls them.
// A raised whole number may stand between those of angles and their bracket.
var operators = map[string]struct {
	text, latex string
	angle       bool
}{
	"sin": {"sin", `\sin`, true}, "cos": {"cos", `\cos`, true}, "tan": {"tan", `\tan`, true},
	"sinh": {"sinh", `\sinh`, true}, "cosh": {"cosh", `\cosh`, true}, "tanh": {"tanh", `\tanh`, true},
	"asin": {"arcsin", `\arcsin`, false}, "acos": {"arccos", `\arccos`, false}, "atan": {"arctan", `\arctan`, false},
	"arcsin": {"arcsin", `\arcsin`, false}, "arccos": {"arccos", `\arccos`, false}, "arctan": {"arctan", `\arctan`, false},
	"exp": {"exp", `\exp`, false}, "ln": {"ln", `\ln`, false}, "log10": {"log", `\log`, false},
	"min": {"min", `\min`, false}, "max": {"max", `\max`, false},
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

var three = mustNumber("3")

func (w *writer) call(c *syntax.Call) {
	switch shape(c) {
	case asRoot:
		w.root(c.Args[0].X, nil)
	case asCube:
		w.root(c.Args[0].X, three)
	case asNth:
		w.root(c.Args[0].X, c.Args[1].X)
	case asStroke:
		w.both("<mrow><mo>|</mo>", `\left|`)
		w.expr(c.Args[0].X)
		w.both("<mo>|</mo></mrow>", `\right|`)
	default:
		w.functionName(c.Func, nil)
		w.arguments(c)
	}
}

// functionName sets the name of a function, with an exponent unless that is nil.
func (w *writer) functionName(name string, exponent syntax.Expr) {
	op, known := operators[name]
	if exponent != nil {
		w.both("<msup>", "")
	}
	switch {
	case name == "log10":
		w.both("<msub><mi>log</mi><mn>10</mn></msub>", `\log_{10}`)
	case known:
		w.both("<mi>"+op.text+"</mi>", op.latex)
	case !long(name):
		w.name(name, nil)
	case w.form == MathML:
		w.element("mi", proper(name))
	default:
		w.tex(`\operatorname{`)
		if plainWord(name) {
			w.tex(name)
		} else {
			w.texText(roman, proper(name))
		}
		w.tex("}")
	}
	if exponent != nil {
		w.both("", "^{")
		w.exponent(exponent)
		w.both("</msup>", "}")
	}
}

// arguments sets the bracket of a call.
func (w *writer) arguments(c *syntax.Call) {
	w.both("<mo>\u2061</mo>", "")
	w.bracket(true)
	for i := range c.Args {
		if i > 0 {
			w.comma()
		}
		if a := &c.Args[i]; a.Name != "" {
			w.name(a.Name, nil)
			w.both("<mo>=</mo>", " = ")
		}
		w.expr(c.Args[i].X)
	}
	w.bracket(false)
}
