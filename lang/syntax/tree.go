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
	With(*With)
	SlopeOf(*SlopeOf)
	AreaUnder(*AreaUnder)
}

// UnitText is the text of a unit as it stands in a statement. What it means is
// looked up when the statement is planned, since a worksheet may have units of
// its own.
type UnitText struct {
	Text string
	At   Span
}

// Present tells whether a unit was written.
func (u UnitText) Present() bool { return u.Text != "" }

type (
	// Number is a written number without a unit.
	Number struct {
		At    Span
		Value units.Decimal
	}
	// Quantity is a written number with a unit. A minus that belongs to it is
	// part of Value.
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
	Name struct {
		At   Span
		Name string
		Line int // v@12, or 0
	}
	// Paren is an expression in round brackets.
	Paren struct {
		At Span
		X  Expr
	}
	// Unary is a sign before an operand.
	Unary struct {
		At Span
		Op Op // Add or Sub
		X  Expr
	}
	// Binary is two operands and an operator between them. Implied marks a
	// product that is written without a sign.
	Binary struct {
		At      Span
		OpAt    Span
		Op      Op
		Implied bool
		X, Y    Expr
	}
	// Root is √ before an operand.
	Root struct {
		At Span
		X  Expr
	}
	// Call is a built-in function, a function of the worksheet or a formula
	// with its arguments.
	Call struct {
		At   Span
		Func string
		Name Span // of the function's name
		Args []Arg
	}
)

// Arg is one argument of a call; Name is empty for one given by its place.
type Arg struct {
	Name   string
	NameAt Span
	X      Expr
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

// IsPlain tells whether a written expression is one quantity, without an
// operator.
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
	}
	return false
}
