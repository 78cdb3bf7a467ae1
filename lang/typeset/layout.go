package typeset

import (
	"sync"

	"steelyard/lang/syntax"
)

// layout lays out expressions. The boxes of a row gather on a stack, so that a
// long sum or product is one row whatever its tree looks like; a row that is
// finished is moved to where it stays.
//
// It is a visitor of the nodes of an expression, each of which puts its boxes on the row. Three
// questions decide what a node puts: whether it needs brackets in its place (rank), whether its
// factors may touch (edge), and whether there is room for fractions (inline).
//
// A page of results lays out some thousands of expressions, most of them short: the stack and
// the room go from one to the next, and an expression of one name needs neither.
type layout struct {
	stack []Box
	from  int   // where the row begins that is being made
	stay  []Box // room for the parts of boxes, taken in large pieces
	looks looks // of the expression that was asked about last, and whether fractions fit
}

// Expr lays out an expression; none is empty.
//
// It is where pages lay out fractions with a bar; labels take Line.
func Expr(x syntax.Expr) Box {
	if x == nil {
		return Box{}
	}
	return laidOut(func(l *layout) Box { return l.whole(x) })
}

// Line lays out an expression for a single line of text: a quotient has a stroke.
//
// Labels of axes and entries of tables are lines: a fraction in them would be too small to
// read.
func Line(x syntax.Expr) Box {
	return laidOut(func(l *layout) Box {
		l.looks.inline = true
		return l.whole(x)
	})
}

// layouts are those that have laid out something and can lay out more.
var layouts = sync.Pool{New: func() any { return &layout{stack: make([]Box, 0, 32)} }}

// longStack is how many boxes a stack may have had room for to be used again.
const longStack = 1 << 10

func laidOut(of func(*layout) Box) Box {
	l := layouts.Get().(*layout)
	l.looks = looks{}
	b := of(l)
	if cap(l.stack) <= longStack {
		layouts.Put(l)
	}
	return b
}

// put adds a box to the row.
func (l *layout) put(b Box) { l.stack = append(l.stack, b) }

// begin begins a row within the row; end takes it off the stack.
//
// The stack holds all rows that are open; from is where the innermost begins. Who begins a row
// ends it with what begin has returned.
func (l *layout) begin() (outer int) {
	outer, l.from = l.from, len(l.stack)
	return outer
}

func (l *layout) end(outer int) []Box {
	parts := l.kept(l.stack[l.from:])
	l.stack, l.from = l.stack[:l.from], outer
	return parts
}

// kept copies boxes to where they stay.
//
// A box keeps its parts for as long as it is shown, and the stack is used again at once.
func (l *layout) kept(parts []Box) []Box {
	if at := len(l.stay); at+len(parts) > cap(l.stay) {
		l.stay = make([]Box, 0, max(len(parts), min(2*cap(l.stay), 64)))
	}
	at := len(l.stay)
	l.stay = append(l.stay, parts...)
	return l.stay[at:len(l.stay):len(l.stay)]
}

// holding makes a box of others.
func (l *layout) holding(k kind, text string, parts ...Box) Box {
	return holding(k, text, l.kept(parts))
}

// whole lays out an expression as one box.
//
// A name alone, as most labels are, needs no row.
func (l *layout) whole(x syntax.Expr) Box {
	if n, ok := bare(x).(*syntax.Name); ok {
		return l.named(n, Box{})
	}
	outer := l.begin()
	l.expr(x)
	return l.one(outer)
}

// one ends a row as a single box; what has one part is that part.
//
// A row of one box would be a second layer of the same thing to every writer. A group by itself
// is a row: there is nothing that it could belong to.
func (l *layout) one(outer int) Box {
	if len(l.stack) == l.from+1 {
		b := l.stack[l.from]
		l.stack, l.from = l.stack[:l.from], outer
		if b.kind == group && len(b.parts) > 1 {
			b.kind = row // it stands in no other
		}
		return b
	}
	return holding(row, "", l.end(outer))
}

// fenced lays out an expression between brackets.
//
// The bracket is a box of its own with what is in it, so that it can grow with that.
func (l *layout) fenced(brackets string, x syntax.Expr) Box {
	outer := l.begin()
	l.expr(x)
	return holding(fence, brackets, l.end(outer))
}

// raised lays out what stands in an exponent.
//
// In an exponent everything is small, so that a fraction has a stroke there.
func (l *layout) raised(x syntax.Expr) Box {
	was := l.looks.inline
	l.looks.inline = true
	b := l.whole(x)
	l.looks.inline = was
	return b
}

// scripted puts something below and above a box.
//
// An index and an exponent on one letter stand above each other in print, so they are one box
// and not two.
func (l *layout) scripted(text string, base, below, above Box) Box {
	switch {
	case above.IsEmpty():
		return l.holding(withBelow, text, base, below)
	case below.IsEmpty():
		return l.holding(withAbove, text, base, above)
	}
	return l.holding(withBoth, text, base, below, above)
}
