package ops

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"
)

// constants are the written constants that an operation is tried with.
func constants(op Op) []float64 {
	switch op {
	case Pow:
		return []float64{-3, -2, -1, -0.5, 0, 0.5, 1, 1.5, 2, 3, 4, 5, 7, 0.3, 2.7, -1.7, 31}
	case Root:
		return []float64{2, 3, 4, 5, 6, 7}
	}
	return []float64{0}
}

// arithmetic runs a test for every operation and constant.
func arithmetic(t *testing.T, test func(t *testing.T, r *rand.Rand, op Op, k float64)) {
	r := rand.New(rand.NewPCG(11, 12))
	for op := range Op(Count) {
		if table[op].over == nil {
			continue
		}
		for _, k := range constants(op) {
			test(t, r, op, k)
		}
	}
}

// some is a number of either sign over many powers of ten, or near a place where
// operations have corners, poles and ends.
func some(r *rand.Rand) float64 {
	switch r.IntN(8) {
	case 0:
		return math.Pow(10, 600*r.Float64()-300) * float64(1-2*r.IntN(2))
	case 1:
		return math.Pow(2, float64(r.IntN(600)-300))
	case 2:
		return []float64{0, 1, -1, 2, 0.5, math.Pi, -math.Pi / 2, 1e-9, 10}[r.IntN(9)]
	case 3:
		return 1 + 1e-9*r.NormFloat64()
	case 4:
		return 20 * r.NormFloat64()
	}
	return 2 * r.NormFloat64()
}

// around is an interval and a number in it.
func around(r *rand.Rand) (Interval, float64) {
	a := some(r)
	if r.IntN(4) == 0 {
		return Point(a), a
	}
	by := math.Abs(some(r))
	if r.IntN(2) == 0 {
		by = math.Abs(a) * math.Pow(10, -16*r.Float64())
	}
	x := Interval{a - by*r.Float64(), a + by*r.Float64()}
	switch r.IntN(6) {
	case 0:
		return x, x.Lo
	case 1:
		return x, x.Hi
	}
	return x, a
}

// TestShown holds what rows say of operands without a value, and of finite ones,
// against values.
func TestShown(t *testing.T) {
	arithmetic(t, func(t *testing.T, r *rand.Rand, op Op, k float64) {
		row := &table[op]
		// told is a value that a kernel looks at again.
		told := func(v float64) bool { return v-v != 0 || v == 0 && row.vanishes != nil }
		for range 2_000 {
			a, b := some(r), some(r)
			x, y := math.Ldexp(a, r.IntN(900)), math.Ldexp(b, r.IntN(900))
			if v := op.Value(x, y, k); row.tame && x-x == 0 && y-y == 0 && v-v != 0 {
				t.Fatalf("%s of %v and %v is %v", op, x, y, v)
			}
			if op == Pow && k == 0 {
				continue // 1, whatever the operand is
			}
			for _, none := range []float64{inf, -inf, math.NaN()} {
				if v := op.Value(none, b, k); row.shows >= infinite && !told(v) {
					t.Fatalf("%s of %v and %v is %v", op, none, b, v)
				}
				if v := op.Value(a, none, k); row.shows >= infinite && op.Operands() == 2 && !told(v) {
					t.Fatalf("%s of %v and %v is %v", op, a, none, v)
				}
			}
			if v := op.Value(0, b, k); row.shows == infiniteOrLost && v != 0 && v-v == 0 {
				t.Fatalf("%s of 0 and %v is %v", op, b, v)
			}
			if v := op.Value(a, 0, k); row.shows == infiniteOrLost && op.Operands() == 2 && v != 0 && v-v == 0 {
				t.Fatalf("%s of %v and 0 is %v", op, a, v)
			}
		}
	})
}

// TestEnclosures holds every enclosure against the values and slopes of numbers
// within, over a million of them.
func TestEnclosures(t *testing.T) {
	points := 25_000
	if testing.Short() {
		points = 2_000
	}
	arithmetic(t, func(t *testing.T, r *rand.Rand, op Op, k float64) {
		for range points {
			x, a := around(r)
			y, b := around(r)
			if op == Both { // of truths alone
				x, a, y, b = Interval{0, 1}, truth(a > 0), Point(truth(b > 0)), truth(b > 0)
			}
			over, extent := op.Over(x, y, k)
			v := op.Value(a, b, k)
			fault := NoFault
			if Suspect(v) {
				fault = op.Fault(a, b, k, v)
			}
			switch {
			case fault == OutOfRange, fault == Grown: // the true value is finite, and beyond what a run holds
			case fault != NoFault && extent == Whole:
				t.Fatalf("%s over %v, %v with %v has a value at %v, %v, it says", op, x, y, k, a, b)
			case fault == NoFault && (extent == None || !(v >= over.Lo && v <= over.Hi)):
				t.Fatalf("%s over %v, %v with %v: %v does not hold %v, the value at %v, %v", op, x, y, k, over, v, a, b)
			}
			if lower, upper, ok := op.Apart(x, y, k); ok && fault == NoFault && v > lower.Hi && v < upper.Lo {
				t.Fatalf("%s over %v, %v with %v: the value at %v, %v, %v, lies between %v and %v", op, x, y, k, a, b, v, lower, upper)
			}
			if fault != NoFault || op.Bends(a, b) {
				continue
			}
			da, db := op.Slopes(a, b, k)
			overA, overB := op.SlopesOver(x, y, k)
			if da-da == 0 && (da < overA.Lo || da > overA.Hi) {
				t.Fatalf("%s over %v, %v with %v: %v does not hold %v, the slope at %v, %v", op, x, y, k, overA, da, a, b)
			}
			if op.Operands() == 2 && db-db == 0 && (db < overB.Lo || db > overB.Hi) {
				t.Fatalf("%s over %v, %v with %v: %v does not hold %v, the second slope at %v, %v", op, x, y, k, overB, db, a, b)
			}
		}
	})
}

// TestInverses goes round: each value of a that an inverse names has the value
// y, the first of them or another is the a that y came from, and no value lies
// outside the bounds.
func TestInverses(t *testing.T) {
	arithmetic(t, func(t *testing.T, r *rand.Rand, op Op, k float64) {
		inv, ok := op.Inverse()
		if !ok {
			return
		}
		var by []*form
		for _, text := range inv.By {
			f := read(strings.ReplaceAll(text, "y", "a"))
			if f == nil {
				t.Fatalf("%s: %s can't be read", op, text)
			}
			by = append(by, f)
		}
		for range 3000 {
			a, b := 3*r.NormFloat64(), r.NormFloat64()
			y := op.Value(a, b, k)
			if y-y != 0 {
				continue
			}
			came := false
			for i, f := range by {
				x := f.value(y, b, k)
				if back := op.Value(x, b, k); !(math.Abs(back-y) <= 1e-6*max(1, math.Abs(y))) {
					t.Fatalf("%s of %v is %v; undone by %s that is %v, which has %v", op, a, y, inv.By[i], x, back)
				}
				far := math.Abs(x - a)
				if inv.Turns {
					far = math.Abs(math.Remainder(x-a, 2*math.Pi))
				}
				came = came || far <= 1e-5*max(1, math.Abs(a))
			}
			if !came {
				t.Fatalf("%s of %v is %v, and no inverse leads back", op, a, y)
			}
		}
	})
}

// TestForms reads expressions, and nothing else.
func TestForms(t *testing.T) {
	for text, want := range map[string]float64{
		"a": 2, "-a^2": -4, "2*a - b/4": 3, "(a + b)^k": 216, "root(a*4, 3)": 2, "pi": math.Pi, "a < b": 1, "-1/sqrt((1 + b)*5)": -0.2, "a^-k": 0.125,
	} {
		if f := read(text); f == nil || f.value(2, 4, 3) != want {
			t.Errorf("%s is not %v", text, want)
		}
	}
	for _, text := range []string{"", "a +", "(a", "f(a)", "sin a", "a b", "c", "*a", "sin(", "sin()"} {
		if read(text) != nil {
			t.Errorf("%q is read", text)
		}
	}
}
