package plan

import (
	"math"

	"steelyard/lang/ops"
)

//go:generate go run kernelgen.go

// kernel is one pass over a block of lanes.
type kernel func(*kernelArgs)

// kernelArgs are the columns and constants of a pass. Columns are as long as
// dst. Every product is rounded before it is added, so that no processor fuses
// the two.
type kernelArgs struct {
	dst, x, y, z []float64
	c            *[5]float64
	op           ops.Op
	k            float64
}

// kernelShape is a sum of one to three powers of one column, (c1·x^e1 + c2·x^e2)
// + c3·x^e3, times c4 if it is scaled. The first two exponents are in rising
// order, -1 and -2 excepted, which stand first anyway.
type kernelShape struct {
	e      [3]int8
	scaled bool
}

// kernelNoTerm is an exponent that isn't there.
const kernelNoTerm = 5

func (s kernelShape) code() int {
	c := int(s.e[0]+2)<<6 | int(s.e[1]+2)<<3 | int(s.e[2]+2)
	if s.scaled {
		c |= 1 << 9
	}
	return c
}

// kernelExp is the exponential function without the silent zero of a great
// negative argument.
func kernelExp(v float64) float64 {
	if e := math.Exp(v); e != 0 {
		return e
	}
	return math.NaN()
}

// kernelApply is apply without zeros that only rounding has made.
func kernelApply(op ops.Op, a, b, k float64) float64 {
	v := op.Value(a, b, k)
	if v == 0 && op.Fault(a, b, k, v) != ops.NoFault {
		return math.NaN()
	}
	return v
}

func kernelCopy(a *kernelArgs) { copy(a.dst, a.x) }

func kernelFill(a *kernelArgs) {
	c := a.c[0]
	for i := range a.dst {
		a.dst[i] = c
	}
}

// kernelAny runs any operation, with operands that vary or don't: a column of
// one number serves every lane.
func kernelAny(a *kernelArgs) {
	d := a.dst
	switch {
	case a.y == nil:
		x := a.x[:len(d)]
		for i := range d {
			d[i] = kernelApply(a.op, x[i], 0, a.k)
		}
	default:
		mx, my := kernelMask(a.x), kernelMask(a.y)
		for i := range d {
			d[i] = kernelApply(a.op, a.x[i&mx], a.y[i&my], a.k)
		}
	}
}

func kernelSelect(a *kernelArgs) {
	mx, my, mz := kernelMask(a.x), kernelMask(a.y), kernelMask(a.z)
	for i := range a.dst {
		v := a.z[i&mz]
		if a.x[i&mx] == 1 {
			v = a.y[i&my]
		}
		a.dst[i] = v
	}
}

// kernelGuard keeps x where y is finite.
func kernelGuard(a *kernelArgs) {
	mx, my := kernelMask(a.x), kernelMask(a.y)
	for i := range a.dst {
		y := a.y[i&my]
		a.dst[i] = a.x[i&mx] + (y - y)
	}
}

// kernelMask turns an index into 0 for a column of one number.
func kernelMask(x []float64) int {
	if len(x) == 1 {
		return 0
	}
	return -1
}
