package typeset

import (
	"slices"

	"steelyard/lang/syntax"
)

// Rows lays out an expression that is too wide for a line as rows, each no wider than
// that if it can be broken so far: at the signs of sums and products, in brackets too. A
// wide numerator becomes a factor behind one over its denominator. The widths are in
// letters, as breadth estimates them; widest is that of the widest row.
//
// A line is broken before a sign, which the next one begins with, as sums are broken in print.
// A factor that is a sum is broken within its brackets only if it fits in no row.
func Rows(x syntax.Expr, width int, breadth func(syntax.Expr) int) (rows []Box, widest int) {
	if x == nil {
		return nil, 0
	}
	if wide := breadth(x); wide <= width {
		return []Box{Expr(x)}, wide
	}
	b := breaker{width: width, breadth: breadth}
	b.parts(x, Box{})
	return b.rows()
}

// breaker takes an expression apart into what stays together.
type breaker struct {
	width   int
	breadth func(syntax.Expr) int
	all     []unbroken
}

// unbroken is what no line is broken in, with the sign that it begins with.
type unbroken struct {
	boxes []Box
	wide  int
}

// parts takes an expression apart that follows a sign, or nothing.
//
// A numerator that is too wide becomes 1 over the denominator times itself, so that it can be
// broken: a fraction can't.
func (b *breaker) parts(x syntax.Expr, sign Box) {
	x = bare(x)
	t, ok := x.(*syntax.Binary)
	if !ok || b.breadth(x) <= b.width/2 {
		b.whole(x, sign)
		return
	}
	switch t.Op {
	case syntax.Add, syntax.Sub:
		for _, t := range terms(x) {
			if t.sign != "" {
				sign = Box{kind: continued, text: t.sign}
			}
			// a − (b + c) keeps its brackets when broken, and a + (b + c) needs none.
			least := sumRank
			if t.sign == "−" {
				least = signRank
			}
			b.operand(t.x, least, sign)
		}
	case syntax.Mul:
		b.operand(t.X, productRank, sign)
		b.operand(t.Y, productRank, Box{kind: continued, text: "⋅"})
	case syntax.Div:
		over := bare(t.X)
		// A denominator that is itself too wide, or wider than what is over it, gains nothing
		// by this.
		if b.breadth(t.Y) > b.width || b.breadth(over) <= b.breadth(t.Y) {
			b.whole(x, sign)
			return
		}
		one := holding(fraction, "", []Box{{kind: digits, text: "1"}, Expr(t.Y)})
		b.put(b.breadth(t.Y)+1, sign, one)
		b.operand(over, productRank, Box{kind: continued, text: "⋅"})
	default:
		b.whole(x, sign)
	}
}

// operand takes an operand apart, with brackets round it if its rank asks for them.
//
// A bracket may end in a later row than it begins in, so it is two signs that don't grow.
func (b *breaker) operand(x syntax.Expr, least int, sign Box) {
	x = bare(x)
	var l layout
	if l.rank(x) >= least && (sign.kind == nothing || !l.signed(x)) {
		b.parts(x, sign)
		return
	}
	if wide := b.breadth(x); wide <= 3*b.width/4 {
		b.put(wide+2, sign, l.fenced("()", x))
		return
	}
	at := len(b.all)
	b.parts(x, Box{})
	first, last := &b.all[at], &b.all[len(b.all)-1]
	first.boxes = append([]Box{sign, {kind: loose, text: "("}}, first.boxes...)
	last.boxes = append(last.boxes, Box{kind: loose, text: ")"})
	first.wide += 2
	last.wide++
}

// whole puts an expression that is not broken.
func (b *breaker) whole(x syntax.Expr, sign Box) { b.put(b.breadth(x), sign, Expr(x)) }

// put notes boxes that are kept together, with how wide they are.
func (b *breaker) put(wide int, boxes ...Box) {
	b.all = append(b.all, unbroken{boxes, wide + 3})
}

// rows fills rows one after the other.
func (b *breaker) rows() (out []Box, widest int) {
	var row []Box
	used := 0
	for _, u := range b.all {
		if used > 0 && used+u.wide > b.width {
			out = append(out, Row(row...))
			row, used = nil, 0
		}
		for _, box := range u.boxes {
			if box.kind != nothing {
				row = append(row, box)
			}
		}
		used += u.wide
		widest = max(widest, used)
	}
	return append(out, Row(row...)), widest
}

// Lines breaks a row into lines that each fit: before the signs of its sum, or where that
// is not enough, of its products too. There are no lines where one does not fit.
//
// It breaks a row that has been laid out, by a measure that only the page knows, where Rows
// breaks an expression before it is.
func (b Box) Lines(fits func(Box) bool) []Box {
	if b.kind != row || b.text != "" {
		return nil
	}
	if lines := b.lines(fits, infix); lines != nil {
		return lines
	}
	return b.lines(fits, infix, dot, times)
}

// lines breaks a row before such signs.
//
// Each line takes as much as fits; where one piece fits nowhere there are no lines, and the
// writer makes the formula smaller.
func (b *Box) lines(fits func(Box) bool, before ...kind) (out []Box) {
	from, last, sign := 0, 0, Box{} // a line begins with the sign, for the part at from
	line := func(to int) Box {
		if sign.kind == nothing {
			return Row(b.parts[from:to]...)
		}
		return Row(append([]Box{sign}, b.parts[from+1:to]...)...)
	}
	for i := 1; i <= len(b.parts); i++ {
		if i < len(b.parts) && !slices.Contains(before, b.parts[i].kind) {
			continue
		}
		if last > from && !fits(line(i)) {
			out = append(out, line(last))
			from, sign = last, b.parts[last].beginning()
		}
		if !fits(line(i)) {
			return nil
		}
		last = i
	}
	return append(out, line(len(b.parts)))
}

// beginning is a sign as a line begins with it: a product has its dot there.
func (b *Box) beginning() Box {
	if b.kind == infix {
		return Box{kind: continued, text: b.text}
	}
	return Box{kind: continued, text: "⋅"}
}

// term is one term of a sum with the sign before it, empty for the first.
type term struct {
	sign string // "+" or "−"
	x    syntax.Expr
}

// terms takes a sum apart. What is no sum is one term.
//
// It goes down the left side of the tree, where sums grow, and turns the order round at the
// end.
func terms(x syntax.Expr) []term {
	var out []term
	for {
		sum, ok := x.(*syntax.Binary)
		if !ok || sum.Op != syntax.Add && sum.Op != syntax.Sub {
			break
		}
		sign := "+"
		if sum.Op == syntax.Sub {
			sign = "−"
		}
		out = append(out, term{sign, sum.Y})
		x = sum.X
	}
	out = append(out, term{"", x})
	slices.Reverse(out)
	return out
}
