package print

import (
	"strings"
	"unicode/utf8"

	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/units"
)

// box lays out what is shown; words have no box.
func (s shown) box() typeset.Box {
	switch {
	case s.Value != nil:
		return s.Value.Box()
	case s.X != nil:
		return typeset.Expr(s.X)
	}
	return typeset.Box{}
}

// none tells whether nothing is shown.
func (s shown) none() bool { return s == shown{} }

// text writes what is shown on one line.
func (s shown) text() string {
	switch {
	case s.Value != nil:
		return oneLine(s.Value.Shown(units.Drawn))
	case s.X != nil:
		return oneLine(typeset.Expr(s.X).Page())
	}
	return oneLine(s.Words)
}

// plainNumber is the number of a cell as text, if it holds only digits, a point
// and a sign, which need no formula round them.
func plainNumber(c entry.Cell) (string, bool) {
	if c.Value == nil {
		return "", false
	}
	text := c.Value.Number(units.Drawn)
	return text, strings.Trim(text, "0123456789.−") == ""
}

// breadth estimates how wide an expression is when set, in digits. A fraction is
// as wide as its wider part.
//
// It need not be right to a letter. It decides where a formula is broken, which must not depend on
// a font.
func breadth(x syntax.Expr) int {
	switch x := x.(type) {
	case nil:
		return 0
	case *syntax.Binary:
		left, right := breadth(x.X), breadth(x.Y)
		switch x.Op {
		case syntax.Div:
			return max(left, right) + 1
		case syntax.Pow:
			if _, bracket := x.X.(*syntax.Paren); bracket {
				left += 2
			}
			return left + (right+1)/2
		case syntax.Add, syntax.Sub:
			return left + right + 3
		}
		if lettersFollow(x.Y) {
			return left + right
		}
		return left + right + 1
	case *syntax.Paren:
		switch x.X.(type) {
		case *syntax.Quantity, *syntax.Number, *syntax.Name, *syntax.Paren:
			return breadth(x.X) // they are set without the brackets
		}
		return breadth(x.X) + 2
	case *syntax.Unary:
		return breadth(x.X) + 1
	case *syntax.Root:
		return breadth(x.X) + 2
	case *syntax.Call:
		wide := utf8.RuneCountInString(x.Func) + 1
		for _, a := range x.Args {
			wide += breadth(a.X) + utf8.RuneCountInString(a.Name) + 1
		}
		if x.Func == "sqrt" || x.Func == "abs" {
			wide -= len(x.Func)
		}
		return wide
	case *syntax.Name:
		letter, index, _ := strings.Cut(x.Name, "_")
		return utf8.RuneCountInString(letter) + (2*utf8.RuneCountInString(index)+2)/3
	case *syntax.Number:
		return len(x.Value.Text)
	case *syntax.Quantity:
		return len(x.Value.Text) + utf8.RuneCountInString(x.Unit.Text)
	}
	return utf8.RuneCountInString(syntax.PrintExpr(x))
}

// lettersFollow tells whether a factor begins with letters, before which a product has no
// sign.
func lettersFollow(x syntax.Expr) bool {
	if p, ok := x.(*syntax.Binary); ok && p.Op == syntax.Pow {
		x = p.X
	}
	switch x.(type) {
	case *syntax.Name, *syntax.Call:
		return true
	}
	return false
}

// longest is how many letters wide a formula may be before it is broken, and longestBeside
// how many in a column beside another.
const longest, longestBeside = 66, 25

// rightSide is what stands at the right of a line of a working, set.
//
// All formats break a long right side at the same places, as typeset finds them.
type rightSide struct {
	rows  []typeset.Box // as many as it needs
	reach int           // the breadth of the widest
	left  int           // that of the left side
}

// right sets what stands at the right of a line.
//
// A value is never broken: a number and its unit are one.
func right(l *entry.WorkLine) rightSide {
	out := rightSide{left: breadth(l.Left)}
	if l.Shown != nil || l.Right == nil {
		s := shown{Value: l.Shown}
		out.reach = utf8.RuneCountInString(s.text())
		if l.Shown != nil {
			out.rows = []typeset.Box{s.box()}
		}
		return out
	}
	most := longest
	if l.Column > 0 {
		most = longestBeside
	}
	if out.reach = breadth(l.Right); out.reach <= most {
		out.rows = []typeset.Box{l.RightBox()}
	} else {
		out.rows, out.reach = typeset.Rows(l.Right, most, breadth)
	}
	return out
}

// tex gives the rows of a right side.
func (r rightSide) tex() []string {
	var out []string
	for i, row := range r.rows {
		set := strings.TrimSpace(row.LaTeX())
		if i > 0 {
			set = "{}" + set
		}
		if set != "" {
			out = append(out, set)
		}
	}
	return out
}

// whole sets a line whose left side has a row of its own as one relation there, where all of
// it is short enough for a phone; else it is empty.
//
// So a long name with a short value takes one row and not two.
func whole(l *entry.WorkLine, right rightSide) typeset.Box {
	if n := right.left; n <= wide || n+3+right.reach > phone || len(right.rows) != 1 {
		return typeset.Box{}
	}
	return typeset.Relation(l.LeftBox(), "=", right.rows[0])
}

// setUnits lays out how units cancel.
func setUnits(sides []entry.UnitSide) typeset.Box {
	var set typeset.Box
	for i, side := range sides {
		one := typeset.Unit(oneLine(side.Product))
		if side.Root != 0 {
			one = typeset.Root(one, side.Root)
		}
		if i == 0 {
			set = one
		} else {
			set = typeset.Relation(set, "=", one)
		}
	}
	return set
}
