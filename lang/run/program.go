package run

import (
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

// moved is an instruction whose operands are elsewhere; the arguments of a call
// go from one list to the end of another.
func (in Instr) moved(from []Slot, to *[]Slot, place func(Slot) Slot) Instr {
	switch in.Op {
	case ops.Call, ops.Slope, ops.Area, ops.Solve:
		first := Slot(len(*to))
		for _, s := range from[in.B : in.B+in.C] {
			*to = append(*to, place(s))
		}
		in.B = first
	case ops.Select:
		in.A, in.B, in.C = place(in.A), place(in.B), place(in.C)
	default:
		if in.Op.Operands() > 0 {
			in.A = place(in.A)
		}
		if in.Op.Operands() == 2 {
			in.B = place(in.B)
		}
	}
	return in
}

// Code is a flat program in single assignment: instruction i gives slot i.
// Beside each instruction stand the span that it comes from and what is known
// of its slot before anything runs.
type Code struct {
	Instrs  []Instr
	At      []syntax.Span
	Statics []Static
	Args    []Slot // the arguments of calls, in runs
}

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

// Program is the main code of a session with the functions it calls. It only
// grows, and is cut back by undo.
type Program struct {
	Main  Code
	Funcs []*Func
	// Solves are what the ops.Solve instructions of the main code do.
	Solves []*Solve
}

// Heat says what a slot with the dimension of temperature stands for.
type Heat uint8

// The kinds of temperature.
const (
	Plain      Heat = iota // a value in K that is neither
	Point                  // a temperature, written in °C or °F
	Difference             // a difference of two temperatures
)

// Static is what is known of a slot before any number is: decided once, when
// the line is planned.
type Static struct {
	Dim units.Dim
	// Tag tells an angle or a count of cycles from other pure numbers.
	Tag units.Tag
	// Heat tells a temperature from a difference.
	Heat Heat
	// Open is the number of the undetermined dimension of a bare zero, or 0:
	// the slot's dimension is then Dim times that unknown to the power Exp.
	Open int32
	Exp  units.Exp
	// Absent marks a slot that depends on a symbol with a unit but no value.
	Absent bool
	// Width is the number of elements: 1, or a list's length.
	Width int32
}
