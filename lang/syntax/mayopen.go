package syntax

import (
	"cmp"
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/lang/ops"
	"steelyard/units/writing"
)

// MayBeOpen tells whether print leaves something open in a statement that has been
// read. It is quick, and now and then says so of one that has one reading. Measured
// tells whether the statement holds a quantity with its unit, or may.
//
// It is asked of every line that is typed, most of which have one reading. It walks the tree
// that was read and looks names up, and never makes tokens. To say yes of a line with one
// reading costs time alone; to say no of one with two would read it wrong in silence.
func MayBeOpen(stmt Stmt, in Scope) (open bool, holds Holding) {
	m := mayOpen{in: within(stmt, in)}
	for x := range ExprsOf(stmt) {
		if m.look(x) {
			return true, HoldingOf(stmt)
		}
	}
	return false, m.Holding
}

// Holding is what a statement holds, or may: a quantity with its unit, a call, a name of more than
// a letter.
type Holding struct{ Units, Calls, Words bool }

// HoldingOf is what a statement holds.
func HoldingOf(stmt Stmt) (h Holding) {
	for x := range ExprsOf(stmt) {
		Walk(x, h.note)
	}
	return h
}

// note notes what a node is.
func (h *Holding) note(x Expr) bool {
	switch x := x.(type) {
	case *Quantity, *Measured:
		h.Units = true
	case *List:
		h.Units = h.Units || x.Unit.Present()
	case *Call:
		h.Calls = true
	case *Name:
		h.Words = h.Words || len(x.Name) > 1
	}
	return true
}

// look tells whether something in an expression is open.
func (m *mayOpen) look(x Expr) bool {
	m.turning = false
	return Any(x, m.at) || m.turning && Any(x, func(x Expr) bool {
		n, ok := x.(*Name)
		return ok && m.in.Turns(n.Name)
	})
}

// mayOpen is what has been seen of an expression so far.
//
// Turning is noted and not answered at once: π or 60 is open only where a name of
// the same expression is in turns, which may come before it or behind it.
type mayOpen struct {
	Holding
	in      inner
	turning bool // π or 60
}

// at tells whether a node is open by itself.
//
// What is open, and by which node it is seen: letters behind a number, a root
// without brackets, a product under a bar, a plain number in a sine or beside an
// angle, and a name that has no value and may be several.
func (m *mayOpen) at(x Expr) bool {
	m.note(x)
	switch x := x.(type) {
	case *Quantity, *Measured:
		unit, _ := ownUnit(x)
		return m.letters(unit.Text) || strings.HasPrefix(unit.Text, "e^") // 3e^(-2)
	case *List:
		return m.letters(x.Unit.Text)
	case *Pi:
		m.turning = true
	case *Number:
		m.turning = m.turning || x.Value.Hi == 60 || HalfTurns(x.Value.Hi) > 0
		return m.tens(x)
	case *Root:
		return bareRoot(x)
	case *Binary:
		return m.operator(x)
	case *Call:
		return m.call(x)
	case *Name:
		if x.Line != 0 {
			return false
		}
		if angleLetter(x.Name) && m.in.Known(x.Name) {
			v, ok := m.in.Number(x.Name)
			return ok && math.Abs(v) > 2*math.Pi
		}
		if _, letters := spelledGreek(x.Name, m.in.Known); letters && m.in.Scope.Known(x.Name) {
			return true
		}
		return x.Name == "e" && !m.in.Known("e") || len(x.Name) > 1 && !m.in.Known(x.Name) && m.together(x.Name)
	}
	return false
}

// spelledGreek is the word for a name that is one Greek letter, and whether each letter of it is known
// for itself: mu, where m and u have values, is μ or m*u.
func spelledGreek(name string, known func(name string) bool) (word string, letters bool) {
	r, size := utf8.DecodeRuneInString(name)
	if r <= unicode.MaxASCII || size != len(name) {
		return "", false
	}
	word = writing.GreekName(r)
	for i := range len(word) {
		if !known(word[i : i+1]) {
			return word, false
		}
	}
	return word, word != ""
}

// together tells whether names and a function may run together in a word: it begins
// with one. A letter of another alphabet may have been spelled out, mu for μ.
//
// It looks at the beginning alone. Whether the rest is names too is found by
// OpenIn.
func (m *mayOpen) together(word string) bool {
	if afterPi(word) != "" {
		return true
	}
	for end, r := range word {
		if r > unicode.MaxASCII || end > 0 && (m.in.Known(word[:end]) || bareFunction(word[:end])) {
			return true
		}
	}
	return false
}

// letters tells whether a word of a unit may be names: N or m of N/m^2.
func (m *mayOpen) letters(unit string) bool {
	for word, rest := nextWord(unit); word != ""; word, rest = nextWord(rest) {
		if startsName(firstRune(word)) && m.word(word) {
			return true
		}
	}
	return false
}

// word tells whether a word may be a name, or names run together, which need not be
// letters: mAuA; or a function with its argument: sinθ.
func (m *mayOpen) word(word string) bool {
	if m.in.Known(Canonical(word)) {
		return true
	}
	if len(word) < 2 {
		return false
	}
	if _, function := functionIn(word); function > 0 {
		return true
	}
	rest := afterPi(word)
	_, ok := namesIn(cmp.Or(rest, word), m.in.Known)
	return ok || rest != "" && m.in.Known(rest)
}

// operator tells whether something goes on right of an operator: a product under
// a bar, a unit behind a sign.
//
// In 5 N / m the name behind the stroke makes a unit of a named quantity, N/m; in
// 4200 J/(kg*K) the product in the bracket may.
func (m *mayOpen) operator(x *Binary) bool {
	if x.Op == Add || x.Op == Sub {
		return m.degrees(x.X) || m.degrees(x.Y)
	}
	if x.Op == Pow {
		return false
	}
	if y, ok := x.Y.(*Number); ok && x.Implied && lostPower(y.Value.Text) {
		return true
	}
	if x.Op == Div {
		if y, ok := x.Y.(*Binary); ok && (y.Op == Mul || y.Op == Div) {
			return true
		}
	}
	left := x.X
	if b, ok := left.(*Binary); ok && (b.Op == Mul || b.Op == Div) {
		left = b.Y
	}
	if _, ok := left.(*Quantity); !ok {
		return false
	}
	y := x.Y
	if p, ok := y.(*Binary); ok && p.Op == Pow {
		y = p.X
	}
	switch y := y.(type) {
	case *Name:
		return m.in.Unit(y.Name)
	case *Paren:
		b, ok := y.X.(*Binary)
		return ok && b.Op == Mul && x.Op == Div
	}
	return false
}

// tens tells whether a number may be a factor and a name, as 2E1. The tree has no large E, and
// no e0.
func (m *mayOpen) tens(x *Number) bool {
	text := x.Value.Text
	i := strings.IndexByte(text, 'e')
	if i < 0 && x.At.To-x.At.From <= len(text) {
		return false
	}
	name := "e0"
	if i >= 0 {
		_, name = namedExponent(text)
	}
	return name != "" && (m.in.Known(name) || m.in.Known(otherCase(name)))
}

// degrees tells whether a term is a plain number that would be more than a turn: 90 - θ.
func (m *mayOpen) degrees(x Expr) bool {
	n, ok := x.(*Number)
	return ok && math.Abs(n.Value.Float()) > 2*math.Pi
}

// call tells whether letters may stand before a function, or a plain number be in
// degrees.
//
// For sine, cosine and tangent it is open where all of the argument is plain
// numbers and one of them is beyond 2π: sin(30), and not sin(0.5), sin(30°) or
// sin(2*π).
func (m *mayOpen) call(x *Call) bool {
	switch x.Func {
	case "sin", "cos", "tan":
		plain, named, beyond, turn, ratio := true, true, false, false, false
		Walk(x.Args[0].X, func(x Expr) bool {
			v := 0.0
			switch x := x.(type) {
			case *Quantity:
				named, plain = false, !angleUnit(&token{text: x.Unit.Text})
			case *Measured, *Pi, *That, *Call, *Mixed:
				plain = false
			case *Number:
				v = x.Value.Float()
				turn = turn || TurnOfDegrees(x.Value.Text)
			case *Name:
				var ok bool
				if v, ok = m.in.Number(x.Name); !ok {
					named, plain = false, !m.in.Angle(x.Name)
				}
			case *Binary:
				ratio = ratio || x.Op == Div
			}
			beyond = beyond || math.Abs(v) > 2*math.Pi
			return plain
		})
		return plain && (named && beyond || turn && ratio)
	case "asin", "acos", "atan":
		return m.in.Known("a")
	}
	if ops.IsFunction(x.Func) {
		return m.in.Known(x.Func)
	}
	return !m.in.Function(x.Func)
}
