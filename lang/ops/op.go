package ops

import "math"

// Op is what an instruction does to plain float64 numbers in coherent SI
// units. Dimensions are settled before any instruction runs.
type Op uint8

// The operations. A, B, C and K are the fields of an instruction; A, B and C
// are slots unless said otherwise.
const (
	Const      Op = iota // K
	Data                 // the elements of the program's list of data number A
	Join                 // the elements Args[B : B+C] of the code, one after the other
	Param                // the function's parameter number A
	Copy                 // A itself
	Load                 // slot A of the session's main code, from within a function
	Neg                  // -A
	Add                  // A + B
	Sub                  // A - B
	Mul                  // A × B
	Div                  // A / B
	Pow                  // A to the written power K
	PowVar               // A to the power B, both pure numbers
	Sqrt                 // √A
	Cbrt                 // the cube root of A
	Root                 // the root of A of degree K, a whole number
	Abs                  // |A|
	Sgn                  // -1, 0 or 1
	Sin                  // A in radians
	Cos                  //
	Tan                  //
	Asin                 // in radians
	Acos                 //
	Atan                 //
	Atan2                // of A over B
	Sinh                 //
	Cosh                 //
	Tanh                 //
	Exp                  //
	Ln                   //
	Log10                //
	Hypot                // √(A² + B²)
	Min                  // the smaller of A and B
	Max                  // the greater of A and B
	Round                // A to a whole multiple of B; K is how
	LastFigure           // what one in the last of K figures of A is worth
	Call                 // function number A, arguments Args[B : B+C] of the code
	Less                 // 1 if A < B, else 0
	AtMost               // 1 if A ≤ B, else 0
	Both                 // 1 if A and B are 1, else 0
	Tally                // how many elements A has; this and what follows puts elements together
	Pick                 // the element of A number K, counted from 0
	Sum                  // of the elements of A
	Mean                 //
	Scatter              // 0, as uncertain as the mean of the elements of A is for how they scatter
	SD                   // the standard deviation of the elements of A, of n - 1 degrees of freedom
	Median               //
	Lowest               // the least element of A
	Highest              // the greatest element of A
	Sort                 // the elements of A in rising order
	Steps                // by how much each element of A is more than the one before it
	Select               // B if A is 1, else C; the other one may fail unseen
	Nothing              // no value: outside every interval of a function
	Slope                // the slope of function number A at Args[B], by that argument
	Area                 // the area under function number A from Args[B] to Args[B+1]
	Solve                // a root by number A of the program's solves; its candidates or bounds are Args[B : B+C]
	Fit                  // parameter number K of number A of the program's fits; its readings are Args[B : B+C]
	Pieces               // of straight pieces between readings Args[B] at Args[B+1]: the area from Args[B+2] to Args[B+3], or if K is 1 the slope at Args[B+2]
	Spread               // the standard uncertainty of the slot Args[B] of the main code; if K is 1, of what adds up

	// Count is how many operations there are.
	Count = int(iota)
)

// Fault says why an operation has no value.
type Fault uint8

// The faults.
const (
	NoFault        Fault = iota // there is a value
	NoReal                      // √ of a negative, ln of 0, asin of 2
	DivZero                     // something divided by zero
	OutOfRange                  // too large, or too small without being zero, for a float64
	Grown                       // too large, as an exponential: see Settles
	NoInterval                  // outside every interval of a function
	Stopped                     // the computation was stopped
	Absent                      // a symbol that has no value yet
	NoRoot                      // nothing satisfies the equation
	ManyRoots                   // several values do, and none is the only positive one
	NoSlope                     // a curve has a value there and no slope
	NotSettled                  // an area that is not known closely enough
	Unbounded                   // an area that does not come to an end
	NoFit                       // no parameters were found that fit readings best
	Sure                        // nothing uncertain is in it
	BackAndForth                // the places of readings don't go one way
	LostAngle                   // the sine of an angle that is not known to a thousandth of a turn
	BeyondReadings              // a place before the first of some readings, or behind the last
)

// String returns the name of an operation, for tests and for whoever reads a
// program.
func (op Op) String() string { return table[op].name }

// Operands is the number of slots that an operation reads by A, B and C.
func (op Op) Operands() int { return int(table[op].operands) }

// List tells that an operation reads the slots Args[B : B+C] of its code.
func (op Op) List() bool { return table[op].list }

// Runs tells that an operation runs the function number A.
func (op Op) Runs() bool {
	return table[op].list && op != Solve && op != Join && op != Fit && op != Pieces && op != Spread
}

// HasK tells that K means something to an arithmetic operation.
func (op Op) HasK() bool { return op == Pow || op == Root || op == Round || op == LastFigure }

// Elements is how many elements an operation makes of n, and whether it works on all
// of them together; by elements it makes as many.
func (op Op) Elements(n int) (int, bool) {
	switch table[op].elements {
	case toOne:
		return 1, true
	case toAll:
		return n, true
	case toFewer:
		return n - 1, true
	}
	return n, false
}

// OneOfAll tells that an operation makes one element of all, and never a list.
func (op Op) OneOfAll() bool { return table[op].elements == toOne }

// OfVectors says what an operation makes of vectors.
func (op Op) OfVectors() Vectors { return table[op].vectors }

// Value is what an arithmetic operation makes of its operands a and b and its
// constant k: one that works on these alone, and so has a value, slopes and an
// enclosure. It may be infinite, not a number, or a zero that came from
// rounding away something that isn't: Fault tells.
func (op Op) Value(a, b, k float64) float64 { return table[op].value(a, b, k) }

// Least is the least size of a number; below it fewer and fewer figures are held.
const Least = 1e-308

// Held tells whether a number is held with its figures: it is 0, or neither infinite nor
// below Least.
func Held(v float64) bool { return v == 0 || v-v == 0 && math.Abs(v) >= Least }

// Ratio is a over b, and whether a number can hold it: b may be 0, or one of them so large beside
// the other that nothing can be said of it.
func Ratio(a, b float64) (float64, bool) {
	r := a / b
	return r, Held(r) && (r != 0 || a == 0)
}

// Suspect tells whether a value needs a second look: it isn't finite, or it is
// a zero that may hide a value too small to hold.
//
// It and Finite compare the bits, once: kernels ask for each group of lanes, and what they wait
// for is the processor's arithmetic.
func Suspect(v float64) bool { return math.Float64bits(v)<<1-1 >= allExponent-1 }

// Finite tells whether a value is a number, and not infinite.
func Finite(v float64) bool { return math.Float64bits(v)<<1 < allExponent }

// allExponent is the bits of what is infinite, without its sign.
const allExponent = 0x7ff << 53

// Settles tells whether v is the value of an operation of which an operand is
// infinite since it has Grown: an exponential beyond what can be held is as good as
// infinite, so that 1/(1 + exp(1000)) is 0.
func (op Op) Settles(a, v float64) bool {
	const most = 1e20 // over what is beyond 10³⁰⁸, this is too small to matter
	switch {
	case v-v != 0:
		return false
	case v != 0, op == Less, op == AtMost, op == Exp:
		return true
	}
	return op == Div && math.Abs(a) <= most
}

// Fault says why a value v of finite operands is none, or NoFault if it is one.
func (op Op) Fault(a, b, k, v float64) Fault {
	f := op.Faults()
	switch {
	case v-v != 0 && f.By != nil:
		return f.By(a, b, k)
	case v-v != 0 && f.Divides && b == 0:
		return DivZero
	case v-v != 0:
		return f.Always
	case v == 0 && f.Vanishes(a, b):
		return OutOfRange
	}
	return NoFault
}

// Faults says why values of an operation on finite operands are none, for whoever
// asks for many.
type Faults struct {
	// Always is why one is not finite, unless it Divides by 0. By says so where it
	// depends on the operands in another way, and is nil elsewhere.
	Always  Fault
	Divides bool
	By      func(a, b, k float64) Fault
	// Vanishes tells that a value of 0 is one too small to hold.
	Vanishes func(a, b float64) bool
}

// Faults returns why values of an operation are none.
func (op Op) Faults() Faults {
	f := Faults{OutOfRange, table[op].divides, table[op].faultBy, never}
	if table[op].fault != NoFault {
		f.Always = table[op].fault
	}
	if table[op].vanishes != nil {
		f.Vanishes = table[op].vanishes
	}
	return f
}
