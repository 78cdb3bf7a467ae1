package ops

import (
	"math"
	"strconv"
	"strings"
	"sync"
)

// form is a small expression over the operands a and b and the constant k of an
// operation: a slope of the table, read once. A form works over floats and over
// intervals by the rows of the operations that it holds.
//
// It has a reader of its own, since that of lines stands above this package and knows
// units, names and slips; the language of a slope is a page of it.
type form struct {
	op   Op // unless it is a leaf
	x, y *form
	k    float64
	leaf byte // 'a', 'b' or 'k'; 'n' for a number
	// fixed tells that no operand is in it: over intervals it stays one number.
	fixed bool
}

// value is the form for some operands.
func (f *form) value(a, b, k float64) float64 {
	switch f.leaf {
	case 'a':
		return a
	case 'b':
		return b
	case 'k':
		return k
	case 'n':
		return f.k
	}
	x, y := f.x.value(a, b, k), 0.0
	if f.y != nil {
		y = f.y.value(a, b, k)
	}
	return f.op.Value(x, y, y)
}

// over encloses the form over intervals of the operands.
func (f *form) over(a, b Interval, k float64) Interval {
	switch {
	case f.leaf == 'a':
		return a
	case f.leaf == 'b':
		return b
	case f.fixed:
		return Point(f.value(0, 0, k))
	}
	x, y := f.x.over(a, b, k), Interval{}
	if f.y != nil {
		y = f.y.over(a, b, k)
	}
	out, ext := f.op.Over(x, y, y.Lo)
	if ext == None {
		return Everything()
	}
	return out
}

// SlopeIn works out the slope of an operation by its first or second operand in
// numbers of any kind: of makes one of a plain number, apply runs an operation on
// them. It returns false where the operation has no slope by that operand.
//
// One text serves the plain slope, its enclosure and the slope of a slope: cos(a) of sin is
// worked out in whatever numbers the walker runs over.
func SlopeIn[N any](op Op, operand int, a, b N, k float64, of func(float64) N, apply func(op Op, x, y N, k float64) N) (N, bool) {
	f := slopes()[op][operand]
	if f == nil {
		return a, false
	}
	var in func(f *form) N
	in = func(f *form) N {
		switch {
		case f.leaf == 'a':
			return a
		case f.leaf == 'b':
			return b
		case f.fixed:
			return of(f.value(0, 0, k))
		}
		x, inner := in(f.x), 0.0
		y := x // of one operand, the second means nothing
		if f.y != nil {
			if y = in(f.y); f.y.fixed {
				inner = f.y.value(0, 0, k)
			}
		}
		return apply(f.op, x, y, inner)
	}
	return in(f), true
}

// formReader reads a form: sums, products, powers, signs, brackets, calls, and
// one comparison, as lines have them.
type formReader struct {
	text string
	bad  bool
}

// read reads a form; nil for a text that is none, or empty.
func read(text string) *form {
	r := formReader{text: strings.ReplaceAll(text, " ", "")}
	f := r.sum()
	if r.take("<") {
		f = r.of(Less, f, r.sum())
	}
	if r.bad || r.text != "" {
		return nil
	}
	return f
}

func (r *formReader) take(sign string) (ok bool) {
	r.text, ok = strings.CutPrefix(r.text, sign)
	return ok
}

// of is an operation on forms.
func (r *formReader) of(op Op, x, y *form) *form {
	if x == nil {
		r.bad = true
		return nil
	}
	return &form{op: op, x: x, y: y, fixed: x.fixed && (y == nil || y.fixed)}
}

// sum, product and signed are the levels of precedence: signs of sums, signs of
// products, then a minus in front and the power, which binds to the right.
func (r *formReader) sum() *form { return r.level(r.product, "+", Add, "-", Sub) }

func (r *formReader) product() *form { return r.level(r.signed, "*", Mul, "/", Div) }

// level reads operands with one of two signs between them.
func (r *formReader) level(operand func() *form, sign string, op Op, other string, otherOp Op) *form {
	f := operand()
	for {
		switch {
		case r.take(sign):
			f = r.of(op, f, operand())
		case r.take(other):
			f = r.of(otherOp, f, operand())
		default:
			return f
		}
	}
}

func (r *formReader) signed() *form {
	if r.take("-") {
		return r.of(Neg, r.signed(), nil)
	}
	f := r.atom()
	if r.take("^") {
		f = r.of(PowVar, f, r.signed())
	}
	return f
}

// atom reads a number, a letter, a bracket or a call.
func (r *formReader) atom() *form {
	if r.take("(") {
		f := r.sum()
		r.bad = r.bad || !r.take(")")
		return f
	}
	n := len(r.text) - len(strings.TrimLeft(r.text, "abcdefghijklmnopqrstuvwxyz0123456789."))
	word := r.text[:n]
	r.text = r.text[n:]
	if v, err := strconv.ParseFloat(word, 64); err == nil {
		return &form{leaf: 'n', k: v, fixed: true}
	}
	switch word {
	case "pi":
		return &form{leaf: 'n', k: math.Pi, fixed: true}
	case "a", "b", "k":
		return &form{leaf: word[0], fixed: word == "k"}
	}
	op, known := called(word)
	if !known || !r.take("(") {
		r.bad = true
		return nil
	}
	x, y := r.sum(), (*form)(nil)
	if r.take(",") {
		y = r.sum()
	}
	r.bad = r.bad || !r.take(")")
	return r.of(op, x, y)
}

// called finds the operation that a word calls. It looks through all rows: the index of
// words is made from forms that are read already.
func called(word string) (Op, bool) {
	for op := range table {
		if c := table[op].call; c != nil && c.Name == word {
			return Op(op), true
		}
	}
	return 0, false
}

// slopes are the forms of the table's slopes, by operand. They are read when a slope is
// first asked for, and never change.
var slopes = sync.OnceValue(func() *[Count][2]*form {
	var out [Count][2]*form
	for op := range table {
		out[op] = [2]*form{read(table[op].da), read(table[op].db)}
	}
	return &out
})

// Slopes are the slopes of an arithmetic operation by its operands; not a number
// where it has none.
func (op Op) Slopes(a, b, k float64) (da, db float64) {
	da, db = math.NaN(), math.NaN()
	if f := slopes()[op][0]; f != nil {
		da = f.value(a, b, k)
	}
	if f := slopes()[op][1]; f != nil {
		db = f.value(a, b, k)
	}
	return da, db
}

// SlopesOver encloses the slopes of an arithmetic operation over intervals of
// its operands, wherever it has them.
func (op Op) SlopesOver(a, b Interval, k float64) (da, db Interval) {
	da, db = Everything(), Everything()
	if f := slopes()[op][0]; f != nil {
		da = f.over(a, b, k)
	}
	if f := slopes()[op][1]; f != nil {
		db = f.over(a, b, k)
	}
	return da, db
}

// Bends tells whether the slope of an operation jumps at its operands.
func (op Op) Bends(a, b float64) bool {
	bend := table[op].bend
	return bend != nil && bend(a, b)
}

// Sharp tells whether there are operands for which an operation has no value or no slope.
func (op Op) Sharp() bool {
	row := &table[op]
	return row.bend != nil || row.apart != nil || row.edge != nil || row.fault == NoReal
}

// Edge is the nearest number to a that an operation takes, for an a that it does
// not take; false if it has none.
func (op Op) Edge(a float64) (float64, bool) {
	if edge := table[op].edge; edge != nil {
		return edge(a), true
	}
	return a, false
}

// Cancels tells whether the value of an operation may be far smaller than its
// operands, so that what those are off by may be all that is left of it.
//
// a - b near a = b, sin near π and ln near 1: the result is small because the operands are near
// something, and keeps their error whole.
func (op Op) Cancels() bool { return table[op].cancels }

// Off is by how much a value v may be off for rounding alone.
func (op Op) Off(b, k, v float64) float64 {
	off := table[op].off
	if by := table[op].offBy; by != nil {
		off = by(b, k)
	}
	return off * unit * math.Abs(v)
}
