package plan

import "math"

// apply is what an operation on one or two numbers means. The faithful runner,
// the folding of constants and the scalar parts of a fast plan all come here,
// so that a value can't depend on the road it took. Operations that need more
// than numbers (calls, loads, selections) are the runner's.
//
// The result may be infinite, not a number, or a zero that came from rounding
// away something that isn't: runKind tells.
func apply(op Op, a, b, k float64) float64 {
	switch op {
	case OpConst:
		return k
	case OpCopy:
		return a
	case OpNeg:
		return -a
	case OpAdd:
		return a + b
	case OpSub:
		return a - b
	case OpMul:
		return a * b
	case OpDiv:
		return a / b
	case OpPow:
		return runPower(a, k)
	case OpPowVar:
		return runPower(a, b)
	case OpSqrt:
		return math.Sqrt(a)
	case OpCbrt:
		return math.Cbrt(a)
	case OpRoot:
		return runRoot(a, k)
	case OpAbs:
		return math.Abs(a)
	case OpSgn:
		return runSign(a)
	case OpRound:
		return runRound(a, b)
	case OpLess:
		return runTruth(a < b)
	case OpAtMost:
		return runTruth(a <= b)
	case OpBoth:
		return a * b
	case OpMin:
		return math.Min(a, b)
	case OpMax:
		return math.Max(a, b)
	}
	return applyFunction(op, a, b)
}

// applyFunction is the part of apply that calls the library of functions.
func applyFunction(op Op, a, b float64) float64 {
	switch op {
	case OpSin:
		return math.Sin(a)
	case OpCos:
		return math.Cos(a)
	case OpTan:
		return math.Tan(a)
	case OpAsin:
		return math.Asin(a)
	case OpAcos:
		return math.Acos(a)
	case OpAtan:
		return math.Atan(a)
	case OpAtan2:
		return math.Atan2(a+0, b+0) // -0 is 0: there is one angle on the negative axis
	case OpSinh:
		return math.Sinh(a)
	case OpCosh:
		return math.Cosh(a)
	case OpTanh:
		return math.Tanh(a)
	case OpExp:
		return math.Exp(a)
	case OpLn:
		return math.Log(a)
	case OpLog10:
		return math.Log10(a)
	case OpHypot:
		return math.Hypot(a, b)
	}
	return math.NaN()
}

// runPower raises a to the power k. Small whole powers are multiplications, so
// that x^2 is x·x to the last bit.
func runPower(a, k float64) float64 {
	switch k {
	case 0:
		return 1
	case 1:
		return a
	case 2:
		return a * a
	case 3:
		return float64(a*a) * a
	case 4:
		s := a * a
		return s * s
	case -1:
		return 1 / a
	case -2:
		return 1 / float64(a*a)
	case 0.5:
		return math.Sqrt(a)
	case -0.5:
		return 1 / math.Sqrt(a)
	case 1.5:
		return a * math.Sqrt(a)
	}
	return math.Pow(a, k)
}

// runRoot is the root of a of degree n, a whole number from 2 on. An odd root
// of a negative number is negative; an even one is not a number.
func runRoot(a, n float64) float64 {
	switch n {
	case 2:
		return math.Sqrt(a)
	case 3:
		return math.Cbrt(a)
	}
	if a < 0 {
		if math.Mod(n, 2) == 0 {
			return math.NaN()
		}
		return -runRoot(-a, n)
	}
	r := math.Pow(a, 1/n)
	// 1/n is rounded; a root that is a whole number should still come out whole.
	if w := math.Round(r); w != r && math.Pow(w, n) == a {
		return w
	}
	return r
}

// runRound rounds a to a whole multiple of step, halves away from zero. A
// quotient that is a half but for its last bits counts as one: 0.285 in steps
// of 0.01 is written as a tie, though neither number is exact in binary.
func runRound(a, step float64) float64 {
	q := a / step
	if math.Abs(q) >= 1<<52 {
		return a
	}
	w := math.Round(q + float64(q*0x1p-51))
	if inv := math.Round(1 / step); inv != 0 && float64(inv*step) == 1 {
		return w / inv
	}
	return w * step
}

func runSign(a float64) float64 {
	switch {
	case a > 0:
		return 1
	case a < 0:
		return -1
	}
	return a
}

func runTruth(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

// runSuspect tells whether a result needs a second look: it isn't finite, or it
// is a zero that may hide a value too small to hold.
func runSuspect(v float64) bool { return v-v != 0 || v == 0 }

// runKind says why a suspect result v of finite operands is no value, or
// FailNone if it is one.
func runKind(op Op, a, b, k, v float64) FailureKind {
	if v == 0 {
		return runZeroKind(op, a, b)
	}
	if v-v == 0 {
		return FailNone
	}
	switch op {
	case OpDiv, OpRound:
		if b == 0 {
			return FailDivZero
		}
	case OpPow, OpPowVar:
		if op == OpPowVar {
			k = b
		}
		if a == 0 && k < 0 {
			return FailDivZero
		}
		if a < 0 && k != math.Trunc(k) {
			return FailNoReal
		}
	case OpSqrt, OpRoot, OpLn, OpLog10, OpAsin, OpAcos:
		return FailNoReal
	}
	return FailRange
}

// runZeroKind finds zeros that only rounding has made.
func runZeroKind(op Op, a, b float64) FailureKind {
	lost := false
	switch op {
	case OpMul:
		lost = a != 0 && b != 0
	case OpDiv, OpPow, OpPowVar:
		lost = a != 0
	case OpExp:
		lost = true
	}
	if lost {
		return FailRange
	}
	return FailNone
}
