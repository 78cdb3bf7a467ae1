package ops

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"
)

// digits are numbers of some seventy digits, with the functions of a first course by
// their series: all of these are in any book of analysis (from memory).
type digits = *big.Float

const digitsBits = 240

func num(v float64) digits { return new(big.Float).SetPrec(digitsBits).SetFloat64(v) }

func add(a, b digits) digits { return num(0).Add(a, b) }
func sub(a, b digits) digits { return num(0).Sub(a, b) }
func mul(a, b digits) digits { return num(0).Mul(a, b) }
func quo(a, b digits) digits { return num(0).Quo(a, b) }

func digitsSqrt(a digits) digits { return num(0).Sqrt(a) }

// digitsExp is the series of exp for a part of the number, squared as often.
func digitsExp(a digits) digits {
	const halved = 40
	x := num(0).SetMantExp(a, -halved)
	sum, term := num(1), num(1)
	for n := 1.0; n < 24; n++ {
		term = quo(mul(term, x), num(n))
		sum = add(sum, term)
	}
	for range halved {
		sum = mul(sum, sum)
	}
	return sum
}

// digitsLn finds it by Newton's method, which doubles the figures with each step.
func digitsLn(a digits) digits {
	v, _ := a.Float64()
	x := num(math.Log(v))
	for range 4 {
		x = add(x, sub(quo(a, digitsExp(x)), num(1)))
	}
	return x
}

// digitsSinCos are the series for a part of the angle, doubled as often.
func digitsSinCos(a digits) (sin, cos digits) {
	const halved = 30
	x := num(0).SetMantExp(a, -halved)
	term := num(1)
	sin, cos = num(0), num(1)
	for n := 1; n < 28; n++ {
		if term = quo(mul(term, x), num(float64(n))); n%2 == 1 {
			sin = add(sin, term)
			term = num(0).Neg(term)
		} else {
			cos = add(cos, term)
		}
	}
	for range halved {
		sin, cos = mul(num(2), mul(sin, cos)), sub(mul(cos, cos), mul(sin, sin))
	}
	return sin, cos
}

// digitsAtan finds it by Newton's method on the tangent.
func digitsAtan(a digits) digits {
	v, _ := a.Float64()
	x := num(math.Atan(v))
	for range 4 {
		sin, cos := digitsSinCos(x)
		x = sub(x, mul(cos, sub(sin, mul(a, cos))))
	}
	return x
}

func digitsPower(a, b digits) digits {
	if n, acc := b.Int64(); acc == big.Exact && n >= 0 {
		out := num(1)
		for range n {
			out = mul(out, a)
		}
		return out
	}
	if a.Sign() < 0 { // a whole number, below 0
		return quo(num(1), digitsPower(a, num(0).Neg(b)))
	}
	return digitsExp(mul(b, digitsLn(a)))
}

// digitsRoot is odd for odd n.
func digitsRoot(a digits, n float64) digits {
	if a.Sign() < 0 {
		return num(0).Neg(digitsRoot(num(0).Neg(a), n))
	}
	return digitsExp(quo(digitsLn(a), num(n)))
}

// inDigits is the value of an operation in digits; nil for one that jumps, whose value
// is one of few.
func inDigits(op Op, a, b digits, k float64) digits {
	one, two := num(1), num(2)
	var sin, cos, up, down digits
	switch op {
	case Sin, Cos, Tan:
		sin, cos = digitsSinCos(a)
	case Sinh, Cosh, Tanh:
		up = digitsExp(a)
		down = quo(one, up)
	}
	switch op {
	case Copy:
		return a
	case Neg:
		return num(0).Neg(a)
	case Add:
		return add(a, b)
	case Sub:
		return sub(a, b)
	case Mul:
		return mul(a, b)
	case Div:
		return quo(a, b)
	case Pow:
		return digitsPower(a, num(k))
	case PowVar:
		return digitsPower(a, b)
	case Sqrt:
		return digitsSqrt(a)
	case Cbrt:
		return digitsRoot(a, 3)
	case Root:
		return digitsRoot(a, k)
	case Abs:
		return num(0).Abs(a)
	case Sin:
		return sin
	case Cos:
		return cos
	case Tan:
		return quo(sin, cos)
	case Asin:
		return digitsAtan(quo(a, digitsSqrt(sub(one, mul(a, a)))))
	case Acos:
		return mul(two, digitsAtan(quo(digitsSqrt(sub(one, a)), digitsSqrt(add(one, a)))))
	case Atan:
		return digitsAtan(a)
	case Atan2: // by the half of the angle
		return mul(two, digitsAtan(quo(a, add(b, digitsSqrt(add(mul(a, a), mul(b, b)))))))
	case Sinh:
		return quo(sub(up, down), two)
	case Cosh:
		return quo(add(up, down), two)
	case Tanh:
		return quo(sub(up, down), add(up, down))
	case Exp:
		return digitsExp(a)
	case Ln:
		return digitsLn(a)
	case Log10:
		return quo(digitsLn(a), digitsLn(num(10)))
	case Hypot:
		return digitsSqrt(add(mul(a, a), mul(b, b)))
	case Min:
		if a.Cmp(b) < 0 {
			return a
		}
		return b
	case Max:
		if a.Cmp(b) < 0 {
			return b
		}
		return a
	}
	return nil
}

// TestInDigits holds the value of every operation against sixty digits, to as many
// roundings as its row says, and its slopes against differences of those, to a few
// more.
func TestInDigits(t *testing.T) {
	const h = 0x1p-70 // differences are off by its square, and by what is cancelled
	step := num(h)
	arithmetic(t, func(t *testing.T, r *rand.Rand, op Op, k float64) {
		if op == Sgn || op == Round || op == LastFigure || op == Less || op == AtMost || op == Both {
			return // these jump, and are level elsewhere
		}
		tried := 0
		for range 80 {
			a, b := 1.5*r.NormFloat64(), 1.5*r.NormFloat64()
			if op == PowVar && a < 0 {
				a = -a
			}
			v := op.Value(a, b, k)
			if v-v != 0 {
				continue
			}
			x, y := num(a), num(b)
			want := inDigits(op, x, y, k)
			if want == nil {
				t.Fatalf("%s is not worked out in digits", op)
			}
			tried++
			off, _ := sub(num(v), want).Float64()
			most := op.Off(b, k, v)
			if op == Sin || op == Cos || op == Tan { // of an angle that was rounded
				most += angleOff * math.Abs(a) * (1 + v*v)
			}
			if math.Abs(off) > most {
				t.Fatalf("%s of %v and %v with %v is %v, off by %v of %v", op, a, b, k, v, off, most)
			}
			da, db := op.Slopes(a, b, k)
			byA, _ := quo(sub(inDigits(op, add(x, step), y, k), inDigits(op, sub(x, step), y, k)), num(2*h)).Float64()
			if far := math.Abs(da - byA); !(far <= 1e-13*max(math.Abs(da), math.Abs(v/a), 1)) {
				t.Fatalf("%s with %v at %v, %v: slope %v, by differences %v", op, k, a, b, da, byA)
			}
			if op.Operands() == 2 {
				byB, _ := quo(sub(inDigits(op, x, add(y, step), k), inDigits(op, x, sub(y, step), k)), num(2*h)).Float64()
				if far := math.Abs(db - byB); !(far <= 1e-13*max(math.Abs(db), math.Abs(v/b), 1)) {
					t.Fatalf("%s at %v, %v: second slope %v, by differences %v", op, a, b, db, byB)
				}
			}
		}
		if tried < 20 {
			t.Errorf("%s with %v was tried at %d places only", op, k, tried)
		}
	})
}
