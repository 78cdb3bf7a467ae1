package ops

import "math/big"

// row is all that is known of one operation.
type row struct {
	name     string
	operands uint8 // slots read by A, B and C
	list     bool  // slots read are Args[B : B+C]
	elements elements
	vectors  Vectors
	// value is the number that the operation makes of its operands and its
	// constant; the kernels for many points at once are made from its text.
	value func(a, b, k float64) float64
	// many is value to many digits, of operands that are; nil where no value is, or where
	// only the nearest number tells, as in round.
	many func(a, b *big.Float, k float64) *big.Float
	// shows says what the value tells of an operand that is none.
	shows shown
	// tame tells that the value of finite operands is finite.
	tame bool
	// fault is why a value is not finite, NoFault where it can only be too large.
	// divides tells that b divides, so that it may be DivZero too; faultBy says
	// why where it depends on the operands in another way.
	fault   Fault
	divides bool
	faultBy func(a, b, k float64) Fault
	// vanishes tells that a value of 0 is one too small to hold.
	vanishes func(a, b float64) bool
	// da and db are the slopes by the operands, as expressions in a, b and k.
	da, db string
	// bend tells that there is a corner, where the slope jumps; nil for none.
	bend func(a, b float64) bool
	// over encloses the values over intervals of the operands.
	over func(a, b Interval, k float64) (Interval, Extent)
	// apart encloses them as two intervals, where there is a jump or a pole between;
	// nil for an operation without any.
	apart func(a, b Interval, k float64) (lower, upper Interval, ok bool)
	// off is by how many roundings a value may be off, each half a unit of the
	// last place; offBy says so where it depends on the exponent.
	off   float64
	offBy func(b, k float64) float64
	// cancels tells that the value may be far smaller than the operands, so that
	// what those are off by may be all that is left of it.
	cancels bool
	// edge is the nearest number to one for which there is no value that has one;
	// nil where there is no such.
	edge func(a float64) float64
	// call is how a line calls it; nil for what has a sign or no name at all.
	call *Function
	// inverse undoes it; nil where nothing in the language does.
	inverse *Inverse
}

// elements says how many elements an operation makes of those of its operand.
type elements uint8

const (
	byElements elements = iota // each by itself
	toOne                      // one of all
	toAll                      // as many, but none by itself
	toFewer                    // one less
)

// Vectors says what an operation makes of vectors.
type Vectors uint8

// What an operation makes of vectors.
const (
	NoVector      Vectors = iota // nothing: it takes numbers alone
	EachComponent                // of one: another, component by component
	ByComponents                 // of two: another, component by component
	Scaled                       // of one and a number: another
	Picked                       // of one: a component
)

// shown says what a value tells of an operand that is none, by being 0 or not
// finite itself. Of what it does not tell, kernels look at the operand.
type shown uint8

const (
	nothing        shown = iota
	infinite             // an operand that isn't finite
	infiniteOrLost       // a 0 too, which may be a number too small to hold
)

// Function is an operation as lines call it: a function that every worksheet
// has.
type Function struct {
	Name    string
	Aliases []string
	// Least and Most are how many arguments it takes.
	Least, Most int
	Takes       Shape
	// Args, Summary and Example tell people: the arguments as they are written,
	// what it is in one sentence, and a line that can be entered as it is.
	Args, Summary, Example string
	Print                  Print
	// Unit is the one that its values are shown in of their own accord, or empty.
	Unit string
	Op   Op
}

// Shape says which dimensions the arguments and the result of a function have.
type Shape uint8

// The shapes.
const (
	PureToPure     Shape = iota // exp, ln: a pure number
	AngleToPure                 // sin: an angle or a pure number
	PureToAngle                 // asin
	SameToAngle                 // atan2: two of one dimension
	SameToSame                  // min, hypot: all of one dimension
	AnyToSame                   // abs
	AnyToPure                   // sgn
	RootOf                      // sqrt: a power of the dimension
	RoundTo                     // round: a pure number, or two of one dimension
	AnyToSpan                   // u: anything to a difference of its kind
	VectorToSize                // magnitude: a vector to one of its kind
	VectorToAngle               // direction
	VectorToUnit                // unit: a vector to one of pure numbers
	VectorsToDot                // dot: two vectors to a number
	VectorsToCross              // cross: to a vector, or in the plane to a number
	VectorsToAngle              // angle
	VectorAlong                 // along: a vector and an angle to its component there
	VectorAcross                // across: to the one at right angles
	ListToSame                  // mean: a list to one value of its kind, or to another list
	ListToSpan                  // sd, differences: a list to differences of its kind
	ListToSum                   // sum: a list to a sum
	ListToCount                 // count
)

// Print is how the name of a function is set: upright, as ISO 80000-2 has it.
// The zero Print is a function whose name
// has no form of its own.
type Print struct {
	Text string
	// Raised allows a whole exponent between the name and its bracket: sin²(x).
	Raised bool
}

// Inverse says for which a an operation has the value y: f(a) = y.
type Inverse struct {
	// By lists the values of a, as expressions in y and in what else the
	// operation has (b, k); the principal one first. They are different
	// solutions, unless they are the same number by chance.
	By []string
	// Turns tells that whole turns, 2π, may be added to each.
	Turns bool
	// Reason says in a worked step what is done to both sides.
	Reason string
}
