package run

import (
	"slices"

	"steelyard/lang/ops"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// Slot is the place of one value. Each instruction of a code defines the slot
// of its own index, once.
type Slot int32

// NoSlot is the slot of nothing.
const NoSlot Slot = -1

// Instr is one instruction.
type Instr struct {
	Op      ops.Op
	A, B, C Slot
	K       float64
}

// Code is a flat program in single assignment: instruction i gives slot i.
// Beside each instruction stand the span that it comes from and what is known
// of its slot before anything runs.
type Code struct {
	Instrs  []Instr
	Statics []Static
	texts   []textAt
	Args    []Slot       // the arguments of calls, in runs
	named   []NamedPower // in the order of their slots

	layout
	several Slot // the first slot that has several columns
}

// layout says which columns slots have.
type layout struct {
	// firsts is the first column of each slot, then the end of the last; nil
	// while each slot has one column, which is then the slot itself.
	firsts []int32
}

// column is the first column of a slot, which is how many those below it have.
func (l *layout) column(s Slot) int {
	if l.firsts == nil {
		return int(s)
	}
	return int(l.firsts[s])
}

// span is the columns of a slot.
func (l *layout) span(s Slot) span {
	if l.firsts == nil {
		return span{int32(s), 1}
	}
	return span{l.firsts[s], l.firsts[s+1] - l.firsts[s]}
}

// textAt is a syntax.Span in half the room: a long page has one for each instruction.
type textAt struct{ from, to int32 }

// Span is the text that a slot comes from.
func (c *Code) Span(s Slot) syntax.Span {
	return syntax.Span{From: int(c.texts[s].from), To: int(c.texts[s].to)}
}

// Add adds an instruction, and gives its slot as many columns as its static is
// wide.
func (c *Code) Add(in Instr, at syntax.Span, st Static) Slot {
	st.Width = max(st.Width, 1)
	s := Slot(len(c.Instrs))
	if (st.Width > 1 || st.Shape != Scalar) && c.firsts == nil {
		c.firsts, c.several = make([]int32, s+1), s
		for i := range c.firsts {
			c.firsts[i] = int32(i)
		}
	}
	if c.firsts != nil {
		c.firsts = append(c.firsts, c.firsts[s]+st.Width)
	}
	if len(c.Instrs) == min(cap(c.Instrs), cap(c.Statics), cap(c.texts)) {
		// A long program doubles: append would copy it several times over.
		c.grow(max(len(c.Instrs), 8))
	}
	c.Instrs, c.Statics = append(c.Instrs, in), append(c.Statics, st)
	c.texts = append(c.texts, textAt{int32(at.From), int32(at.To)})
	return s
}

// grow makes room for more instructions.
func (c *Code) grow(n int) {
	c.Instrs, c.texts, c.Statics = slices.Grow(c.Instrs, n), slices.Grow(c.texts, n), slices.Grow(c.Statics, n)
}

// Cut drops the instructions from n on, and the arguments from the given one
// on.
func (c *Code) Cut(n Slot, args int) {
	c.Instrs, c.texts, c.Statics, c.Args = c.Instrs[:n], c.texts[:n], c.Statics[:n], c.Args[:args]
	for len(c.named) > 0 && c.named[len(c.named)-1].slot >= n {
		c.named = c.named[:len(c.named)-1]
	}
	switch {
	case c.firsts == nil:
	case n <= c.several:
		c.firsts, c.several = nil, 0
	default:
		c.firsts = c.firsts[:n+1]
	}
}

// Wide tells that some slot holds a list.
func (c *Code) Wide() bool { return c.firsts != nil }

// span is the columns of a slot: one for each of its elements.
type span struct{ first, width int32 }

// at is the column of element i; the last one serves for those beyond, a single
// one for all.
func (s span) at(i int32) int32 { return s.first + min(i, s.width-1) }

// Func is a function planned for arguments of certain dimensions. Its code is
// called, not pasted in.
type Func struct {
	Name   string
	Code   Code
	Params int
	Result Slot
	// Cost is the number of instructions that one call runs, the calls within
	// it included.
	Cost int64
	// Depth is how deep functions call each other in it, itself counted.
	Depth int
}

// holds tells whether an instruction of some kind is in a function or in those that it calls.
//
// How many there are in all is bounded by the steps that a line may take.
func (f *Func) holds(p *Program, kind func(c *Code, in *Instr) bool) bool {
	return slices.ContainsFunc(f.Code.Instrs, func(in Instr) bool {
		return kind(&f.Code, &in) || in.Op == ops.Call && p.Funcs[in.A].holds(p, kind)
	})
}

// Program is the main code of a session with the functions it calls. It only
// grows, and is cut back by undo.
type Program struct {
	Main  Code
	Funcs []*Func
	// Data are the lists that ops.Data takes, each element an ops.Const.
	Data [][]Instr
	// Solves are what the ops.Solve instructions of the main code do.
	Solves []*Solve
	// Fits are what the ops.Fit instructions of the main code do.
	Fits []*Fit
}

// Heat says what a slot with the dimension of temperature stands for.
type Heat uint8

// The kinds of temperature.
const (
	Plain      Heat = iota // a value in K that is neither
	Point                  // a temperature, written in °C or °F
	Difference             // a difference of two temperatures
)

// Shape tells a list from a vector, which may both have several elements.
type Shape uint8

// The shapes.
const (
	Scalar  Shape = iota // one number
	List                 // numbers of one kind
	Vector               // components along two or three axes
	Vectors              // a list of vectors: of all the component along x, then along y
)

// Static is what is known of a slot before any number is: decided once, when
// the line is planned.
type Static struct {
	Dim units.Dim
	// Exp is the power of the undetermined dimension, see Open.
	Exp units.Exp
	// Tag tells an angle or a count of cycles from other pure numbers.
	Tag units.Tag
	// Heat tells a temperature from a difference.
	Heat Heat
	// Absent marks a slot that depends on a symbol with a unit but no value.
	Absent bool
	// Along marks a number that is the component along z of a product of vectors in the
	// plane.
	Along bool
	// Shape tells what the elements are.
	Shape Shape
	// Axes is how many components each vector of a list has.
	Axes uint8
	// Open is the number of the undetermined dimension of a bare zero, or 0:
	// the slot's dimension is then Dim times that unknown to the power Exp.
	Open int32
	// Width is the number of elements: 1, or a list's length times a vector's
	// components. Each has a column of its own.
	Width int32
}

// IsVector tells whether a slot holds a vector, or a list of them.
func (st Static) IsVector() bool { return st.Shape >= Vector }

// Components is how many components a vector has, or each vector of a list.
func (st Static) Components() int32 {
	if st.Shape == Vectors {
		return int32(st.Axes)
	}
	return st.Width
}

// Len is how many values a list has; 1 for what is no list.
func (st Static) Len() int {
	if st.Shape == List {
		return int(st.Width)
	}
	return int(st.Component().Width)
}

// Component is a static for one component of a vector; of a list of vectors that is a list.
func (st Static) Component() Static {
	if st.Shape != Vectors {
		return st.Number()
	}
	st.Shape, st.Width, st.Axes = List, st.Width/int32(st.Axes), 0
	return st
}

// WithAxes is a static for a vector of so many components of the same kind; for a number if
// there are none.
func (st Static) WithAxes(n int) Static {
	if n > 0 {
		st.Shape, st.Width = Vector, int32(n)
	}
	return st
}

// Number is a static for one number of the same kind.
func (st Static) Number() Static {
	st.Shape, st.Width, st.Axes, st.Along = Scalar, 1, 0, false
	return st
}
