package plan

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
)

// gluedCall reads a word as a function with its argument behind it, without
// brackets: sin30, cosθ, ln2, cos2θ. A word of letters only is one where the rest is a
// name of the worksheet, names, or a Greek letter, which may have no value. The
// shortest function counts.
//
// Print sets sin 30° and ln 2 without brackets. Typed without the blank they are
// words, which no line defines; what they would be in print is offered, and never
// taken: lnk may be a name that somebody forgot to give a value. A bare number behind
// sin is offered in degrees, since hardly any angle in radians is a whole number.
func (c *coder) gluedCall(word string) (call string, lacking []string, ok bool) {
	const longest = 6 // of the names of functions: arcsin
	for end := 2; end < min(len(word), longest+1); end++ {
		f, ok := ops.Named(word[:end])
		if !ok || f.Name != word[:end] {
			continue
		}
		letters := strings.TrimLeft(word[end:], "0123456789")
		number := strings.TrimSuffix(word[end:], letters)
		if letters == "" {
			if f.Ready && f.Takes == ops.AngleToPure {
				number += "°"
			}
			return f.Name + "(" + number + ")", nil, f.Ready
		}
		name := syntax.Canonical(strings.TrimLeft(letters, "_"))
		letter := []rune(name + " ")[0]
		switch g, apart := c.letters(name); {
		case c.known(name):
		case apart:
			name, lacking = g.product(), g.lacking
		case letter >= 'α' && letter <= 'ω':
			lacking = []string{name}
		default:
			continue
		}
		if number != "" {
			number += "*"
		}
		return f.Name + "(" + number + name + ")", lacking, f.Ready
	}
	return "", nil, false
}

// notGlued records that an argument stands without its brackets.
func (c *coder) notGlued(at syntax.Span, call, reading string) run.Slot {
	name, _, _ := strings.Cut(call, "(")
	return c.refuse(finding.NotWritten, at, name+" needs brackets here.", "Write "+call+".", reading)
}

// differentials refuses dv/dt, where neither is a name: v*d/(d*t), which it comes to
// letter by letter, is no slope.
func (c *coder) differentials(x *syntax.Binary) bool {
	of, ok := c.differential(x.Y)
	if x.Op != syntax.Div || !ok {
		return false
	}
	top := x.X
	if b, product := top.(*syntax.Binary); product && b.Op == syntax.Mul {
		top = b.Y
	}
	y, ok := c.differential(top)
	if !ok {
		return false
	}
	c.refuse(finding.NotSolved, top.Span().Join(x.Y.Span()), "d"+y+"/d"+of+" is the slope of "+y+" against "+of+".",
		"Give "+y+" as a function, "+y+"("+of+") = …, and write `slope of "+y+"("+of+") at "+of+" = "+usual(of)+"`.")
	return true
}

// differential is what a name without a value is the differential of: v of dv.
func (c *coder) differential(x syntax.Expr) (string, bool) {
	n, ok := x.(*syntax.Name)
	if !ok || n.Line != 0 || !strings.HasPrefix(n.Name, "d") || c.known(n.Name) {
		return "", false
	}
	of := n.Name[1:]
	return of, isSymbol(of)
}
