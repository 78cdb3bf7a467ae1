package algebra

import (
	"steelyard/lang/syntax"
	"steelyard/units"
)

// Reason is why a line of a rearrangement follows from the line above it. A …
// in it is for what the step speaks of.
//
// They are in the words of a blackboard, and go into workings as they are.
type Reason string

// The reasons that speak of no function.
const (
	swapSides      Reason = "swap the sides"
	changeSigns    Reason = "change the signs on both sides"
	addBoth        Reason = "add … to both sides"
	subtractBoth   Reason = "subtract … from both sides"
	multiplyBoth   Reason = "multiply both sides by …"
	turnOver       Reason = "multiply both sides by …, divide them by …"
	divideBoth     Reason = "divide both sides by …"
	bringOver      Reason = "bring all terms with … to one side"
	openBrackets   Reason = "multiply the brackets out"
	leaveRoot      Reason = "leave the root alone on one side"
	inStandardForm Reason = "write it in standard form"
	quadraticRule  Reason = "the quadratic formula"
	doubleRoot     Reason = "the quadratic formula, with a discriminant of 0"
	withoutSquare  Reason = "the square has the factor 0"
	oneWave        Reason = "a sine and a cosine of one angle are one cosine"
	oneTangent     Reason = "a sine over a cosine is a tangent"
	oneAngle       Reason = "a multiple of an angle by the angle itself"
	unitCircle     Reason = "sin² + cos² = 1"
	addedTurns     Reason = "quarter turns added to an angle swap sine and cosine, or their signs"
	rightAngle     Reason = "the angles with this sine and this cosine make 90°"
	unitHyperbola  Reason = "cosh² - sinh² = 1"
	oneExponential Reason = "write it in powers of one exponential"
	takeLogarithm  Reason = "take the logarithm of both sides"
	factorZero     Reason = "a product is 0 if one of its factors is"
	powerZero      Reason = "a power is 0 only if its base is 0"
	powerOne       Reason = "a power is 1 only if its base is 1 or -1, or its exponent is 0"
	oneArgument    Reason = "one of the values in its brackets is that one"
	takeFactorOut  Reason = "take a factor out"
	otherAngle     Reason = "the angle that is asked for"
	putOthersIn    Reason = "put the others in"
	putBackIn      Reason = "put back"
	gatherTerms    Reason = "gather"
	simplify       Reason = "simplify"
)

// powerReason says which power both sides are raised to.
//
// Those that have a name are said by it, others as numbers.
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
//
// Steps are data, and not text: the working is set as a formula on paper, as a line on
// the screen, and with values put in.
type Step struct {
	Left, Right syntax.Expr
	Reason      Reason
	By          []syntax.Expr // what the reason speaks of, one for each …
	says        [2]string     // the sides as text, which the next step is compared with; empty before
}

// note adds a step, unless it says again what the last one said.
//
// What turns both sides round is said as such, whatever rule led to it.
func (s *isolator) note(left, right syntax.Expr, reason Reason, by ...syntax.Expr) {
	left, right = syntax.Unbracket(left), syntax.Unbracket(right)
	last := &s.steps[len(s.steps)-1]
	if last.says[0] == "" { // it is the equation
		last.says = [2]string{syntax.PrintExpr(syntax.Unbracket(last.Left)), syntax.PrintExpr(syntax.Unbracket(last.Right))}
	}
	was, says := last.says, [2]string{syntax.PrintExpr(left), syntax.PrintExpr(right)}
	switch {
	case was == says:
		return
	case was[0] == says[1] && was[1] == says[0]:
		reason, by = swapSides, nil
	}
	s.steps = append(s.steps, Step{Left: left, Right: right, Reason: reason, By: by, says: says})
}
