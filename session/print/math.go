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

// text writes what is shown as a terminal does.
func (s shown) text() string {
	switch {
	case s.Value != nil:
		return oneLine(s.Value.Shown(units.Screen))
	case s.X != nil:
		return oneLine(typeset.Text(s.X))
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

// breadth estimates how wide an expression is when set, in letters. A fraction is
// as wide as its wider part.
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
			return left + (right+1)/2
		case syntax.Add, syntax.Sub:
			return left + right + 3
		}
		return left + right + 1
	case *syntax.Paren:
		return breadth(x.X) + 2
	case *syntax.Unary:
		return breadth(x.X) + 1
	case *syntax.Root:
		return breadth(x.X) + 2
	case *syntax.Name:
		return utf8.RuneCountInString(x.Name)
	case *syntax.Number:
		return len(x.Value.Text)
	}
	return utf8.RuneCountInString(syntax.PrintExpr(x))
}

// reach is the breadth of what stands at the right of a line, or of the widest of
// its rows.
func reach(l *entry.WorkLine) int {
	if l.Shown != nil || l.Right == nil {
		return utf8.RuneCountInString(shown{Value: l.Shown}.text())
	}
	broken := sumRows(l.Right)
	if broken == nil {
		return breadth(l.Right)
	}
	most := 0
	for _, row := range broken {
		n := 0
		for _, p := range row {
			n += breadth(p.X) + 3
		}
		most = max(most, n)
	}
	return most
}

// right sets what stands at the right of a line.
func right(l *entry.WorkLine) typeset.Box {
	if l.Shown != nil {
		return shown{Value: l.Shown}.box()
	}
	return typeset.Expr(l.Right)
}

// longest is how many letters wide a formula may be before it is broken.
const longest = 52

// sumRows groups the terms of a long expression into rows of some width each. It is
// nil for an expression that needs no break or can't have one.
func sumRows(x syntax.Expr) [][]typeset.Term {
	if x == nil || breadth(x) <= longest {
		return nil
	}
	all := typeset.Terms(x)
	if len(all) < 2 {
		return nil
	}
	var out [][]typeset.Term
	var row []typeset.Term
	used := 0
	for _, p := range all {
		n := breadth(p.X) + 3
		if len(row) > 0 && used+n > longest {
			out, row, used = append(out, row), nil, 0
		}
		row = append(row, p)
		used += n
	}
	return append(out, row)
}

// setUnits lays out how units cancel.
func setUnits(sides []entry.UnitSide) typeset.Box {
	var set typeset.Box
	for i, side := range sides {
		one := typeset.Unit(oneLine(side.Product))
		if side.Root {
			one = typeset.Root(one)
		}
		if i == 0 {
			set = one
		} else {
			set = typeset.Relation(set, "=", one)
		}
	}
	return set
}
