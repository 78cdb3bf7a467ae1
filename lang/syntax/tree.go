package syntax

import (
	"slices"

	"steelyard/lang/finding"
	"steelyard/units"
)

// Span is a half-open range of bytes in the text of a statement, as typed.
type Span = finding.Span

// Expr is a node of an expression. The set of nodes is closed, and each answers for
// itself what can be asked of all of them.
//
// For instance 1/2*m*v^2 is a Binary of a Binary and a power, as products go from
// the left: ((1/2)*m)*(v^2), without any Paren.
type Expr interface {
	Span() Span
	// Visit hands the node to the method of its kind.
	Visit(Visitor)
	// part returns the parts of the node one by one, from left to right, and behind
	// the last one nil.
	part(i int) Expr
	// copied returns a node with parts and places of its own.
	copied(c *copier) Expr
}

// Derived is an expression that runs others again: with values replaced, or for the
// points of a curve.
//
// They are with, slope of and area under. A result that is one of these is a task
// of its own.
type Derived interface {
	Expr
	derived()
}

// Visitor answers for each kind of node; one that lacks an answer does not compile.
type Visitor interface {
	Number(*Number)
	Quantity(*Quantity)
	Mixed(*Mixed)
	Measured(*Measured)
	Pi(*Pi)
	That(*That)
	Name(*Name)
	Paren(*Paren)
	Unary(*Unary)
	Binary(*Binary)
	Root(*Root)
	Call(*Call)
	List(*List)
	Polar(*Polar)
	With(*With)
	SlopeOf(*SlopeOf)
	AreaUnder(*AreaUnder)
}

// UnitText is the text of a unit as it stands in a statement. What it means is
// looked up when the statement is planned, since a worksheet may have units of
// its own.
//
// A list or a number with no unit has an empty one. The unit 1 is that of a pure
// number: in 1.
type UnitText struct {
	Text string
	At   Span
}

// Present tells whether a unit was written.
func (u UnitText) Present() bool { return u.Text != "" }

// Celsius tells whether it is °C, as it is typed on any keyboard too; Degrees the ° of an angle.
func (u UnitText) Celsius() bool { return u.Text == "°C" || u.Text == "degC" }
func (u UnitText) Degrees() bool { return u.Text == "°" || u.Text == "deg" }

// The nodes. Each has its place At, in bytes of the text; a node that was made by
// the program has the place of what it was made from, or none.
type (
	// Number is a written number without a unit.
	//
	// It is a pure number: 3, 1e5. The digits are kept, since 0.500 has three figures.
	Number struct {
		At    Span
		Value units.Decimal
	}
	// Quantity is a written number with a unit. A minus that belongs to it is
	// part of Value.
	//
	// 3.0 m, -3 m, 30°, 0.842 ± 0.002 m. So -3 m is one node, and -(3 m) is a Unary.
	Quantity struct {
		At    Span
		Value units.Decimal
		Unit  UnitText
	}
	// Mixed is a sum of quantities of one family written together, such as
	// 13 h 4 min 58 s. Neg applies to the whole.
	Mixed struct {
		At    Span
		Neg   bool
		Parts []*Quantity
	}
	// Measured is a bracket of written numbers with a unit: (1/2) kg.
	Measured struct {
		At   Span
		X    *Paren
		Unit UnitText
	}
	// Pi is the number π.
	Pi struct{ At Span }
	// That is the value of the nearest line above that has one.
	That struct{ At Span }
	// Name is a name in canonical form: Greek letters and digits folded.
	//
	// The v of v@12 is the one of line 12, whatever has become of the name since.
	Name struct {
		At     Span
		Name   string
		Line   int  // v@12, or 0
		Vector bool // it is found to be that of a vector
	}
	// Paren is an expression in round brackets.
	Paren struct {
		At Span
		X  Expr
	}
	// Unary is a sign before an operand.
	//
	// A minus before a written number is a part of that instead, but for -3^2, which
	// is -(3^2).
	Unary struct {
		At Span
		Op Op // Add or Sub
		X  Expr
	}
	// Binary is two operands and an operator between them. Implied marks a
	// product that is written without a sign.
	//
	// Implied matters: by the rules 1/2πr is 1/(2πr), and 1/2*π*r has the π above the
	// bar. OpFrom is where its sign begins. By is the sign of a product as it was typed:
	// between two vectors the raised dot and the cross are products of their own, and nowhere
	// else.
	Binary struct {
		At      Span
		OpFrom  int
		Op      Op
		Implied bool
		By      Times
		Vectors bool // it is found to be a product of two vectors
		X, Y    Expr
	}
	// Root is √ before an operand.
	//
	// It is of the operand alone: √2*π is (√2)*π.
	Root struct {
		At Span
		X  Expr
	}
	// Call is a built-in function, a function of the worksheet or a formula
	// with its arguments.
	Call struct {
		At     Span
		Func   string
		Name   Span // of the function's name
		Args   []Arg
		Signed bool // it has a form of its own: abs is |v|, along is F along 30°
	}
)

// Arg is one argument of a call; Name is empty for one given by its place.
//
// Formulas take arguments by name too, spring_energy(k, x = 2 cm); functions take
// theirs by place.
type Arg struct {
	Name   string
	NameAt Span
	X      Expr
	// Figures is set where it counts them, as in round(x, 3 figures).
	Figures int
}

// Op is an operator.
type Op uint8

// The operators.
const (
	Add Op = iota
	Sub
	Mul
	Div
	Pow
)

// Times is the sign of a product.
type Times uint8

// The signs that products are written with.
const (
	Star  Times = iota // or none
	Dot                // ·
	Cross              // ×
)

// IsNumber tells whether an expression is one written number, with a sign or without.
func IsNumber(x Expr) bool {
	switch x := Unbracket(x).(type) {
	case *Number:
		return true
	case *Unary:
		return IsNumber(x.X)
	}
	return false
}

// IsPlain tells whether a written expression is one quantity, without an
// operator.
//
// Signs and brackets round it don't matter: -3 m and (3 m) are plain. A list is,
// if all of its elements are. A name is not, nor is 1/2, which is worked out.
func IsPlain(x Expr) bool {
	switch x := x.(type) {
	case *Number, *Quantity, *Mixed, *Pi:
		return true
	case *Unary:
		return IsPlain(x.X)
	case *Paren:
		return IsPlain(x.X)
	case *List:
		return !slices.ContainsFunc(x.Elems, func(e Expr) bool { return !IsPlain(e) })
	case *Polar:
		return IsPlain(x.X) && IsPlain(x.Angle)
	}
	return false
}

// IsZero tells whether an expression is a written zero, with a unit or without: it adds
// nothing, and has no sign, so that -0 is the number 0.
func IsZero(x Expr) bool {
	q, ok := x.(*Quantity)
	return ok && q.Value.Hi == 0 || IsBareZero(x)
}

// IsBareZero tells whether an expression is the number 0, which fits any unit.
func IsBareZero(x Expr) bool {
	n, ok := x.(*Number)
	return ok && n.Value.Hi == 0
}
