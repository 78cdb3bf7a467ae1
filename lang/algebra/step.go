package algebra

import (
	"steelyard/lang/syntax"
	"steelyard/units"
)

// Reason is why a line of a rearrangement follows from the line above it. A …
// in it is for what the step speaks of.
type Reason string

// The reasons that speak of no function.
const (
	SwapSides     Reason = "swap the sides"
	ChangeSigns   Reason = "change the signs on both sides"
	AddBoth       Reason = "add … to both sides"
	SubtractBoth  Reason = "subtract … from both sides"
	MultiplyBoth  Reason = "multiply both sides by …"
	DivideBoth    Reason = "divide both sides by …"
	BringOver     Reason = "bring what holds … to one side"
	OpenBrackets  Reason = "multiply the brackets out"
	LeaveRoot     Reason = "leave the root alone on one side"
	StandardForm  Reason = "set it in standard form"
	QuadraticRule Reason = "the quadratic formula"
	DoubleRoot    Reason = "the quadratic formula, with a discriminant of 0"
	TakeLogarithm Reason = "take the logarithm of both sides"
	FactorZero    Reason = "a product is 0 where one of its factors is"
	OtherAngle    Reason = "the angle that is asked for"
	PutOthersIn   Reason = "put the others in"
	PutBack       Reason = "put back"
	Gather        Reason = "gather"
	Simplify      Reason = "simplify"
)

// powerReason says which power both sides are raised to.
func powerReason(e units.Exp) Reason {
	switch e {
	case expHalf:
		return "take the square root of both sides"
	case expThird:
		return "take the cube root of both sides"
	case expTwo:
		return "square both sides"
	case expMinus:
		return "turn both sides upside down"
	}
	if e.IsInt() {
		return Reason("raise both sides to the power " + e.String())
	}
	return Reason("raise both sides to the power (" + e.String() + ")")
}

// Step is one rewriting of an equation: what is on both sides after it, and why.
// The first step of a solution is the equation as it was given and has no
// reason.
type Step struct {
	Left, Right syntax.Expr
	Reason      Reason
	// By is what the reason speaks of ("divide both sides by …"), or nil.
	By syntax.Expr
}

// note adds a step, unless it says again what the last one said.
func (s *isolator) note(left, right syntax.Expr, reason Reason, by syntax.Expr) {
	left, right = unbracket(left), unbracket(right)
	last := s.steps[len(s.steps)-1]
	l, r := syntax.PrintExpr(left), syntax.PrintExpr(right)
	wasLeft, wasRight := syntax.PrintExpr(unbracket(last.Left)), syntax.PrintExpr(unbracket(last.Right))
	switch {
	case wasLeft == l && wasRight == r:
		return
	case wasLeft == r && wasRight == l:
		reason, by = SwapSides, nil
	}
	s.steps = append(s.steps, Step{Left: left, Right: right, Reason: reason, By: by})
}
