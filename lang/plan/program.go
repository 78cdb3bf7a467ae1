package plan

import (
	"steelyard/lang/syntax"
	"steelyard/units"
)

// Slot is the place of one value. Each instruction of a code defines the slot
// of its own index, once.
type Slot int32

// NoSlot is the slot of nothing.
const NoSlot Slot = -1

// Op is what an instruction does to plain float64 numbers in coherent SI
// units. Dimensions are settled before any instruction runs.
type Op uint8

// The operations. A, B and C are slots unless said otherwise.
const (
	OpConst   Op = iota // K
	OpParam             // the function's parameter number A
	OpCopy              // A itself
	OpLoad              // slot A of the session's main code, from within a function
	OpNeg               // -A
	OpAdd               // A + B
	OpSub               // A - B
	OpMul               // A × B
	OpDiv               // A / B
	OpPow               // A to the written power K
	OpPowVar            // A to the power B, both pure numbers
	OpSqrt              // √A
	OpCbrt              // the cube root of A
	OpRoot              // the root of A of degree K, a whole number
	OpAbs               // |A|
	OpSgn               // -1, 0 or 1
	OpSin               // A in radians
	OpCos               //
	OpTan               //
	OpAsin              // in radians
	OpAcos              //
	OpAtan              //
	OpAtan2             // of A over B
	OpSinh              //
	OpCosh              //
	OpTanh              //
	OpExp               //
	OpLn                //
	OpLog10             //
	OpHypot             // √(A² + B²)
	OpMin               // the smaller of A and B
	OpMax               // the greater of A and B
	OpRound             // A to a whole multiple of B, halves away from zero
	OpCall              // function number A, arguments Args[B : B+C] of the code
	OpLess              // 1 if A < B, else 0
	OpAtMost            // 1 if A ≤ B, else 0
	OpBoth              // 1 if A and B are 1, else 0
	OpSelect            // B if A is 1, else C; the other one may fail unseen
	OpNothing           // no value: outside every interval of a function
	OpSlope             // the slope of function number A at Args[B]
	OpArea              // the area under function number A from Args[B] to Args[B+1]
	OpSolve             // a root by number A of the program's solves; its candidates or bounds are Args[B : B+C]
)

// Instr is one instruction.
type Instr struct {
	Op      Op
	A, B, C Slot
	K       float64
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
}

// Program is the main code of a session with the functions it calls. It only
// grows, and is cut back by undo.
type Program struct {
	Main  Code
	Funcs []*Func
	// Solves are what the OpSolve instructions of the main code do.
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
