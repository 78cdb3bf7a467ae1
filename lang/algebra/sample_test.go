package algebra

import (
	"hash/fnv"
	"math"

	"steelyard/lang/syntax"
)

// alike tells whether two expressions have the same value wherever both have
// one, judged at a few places: names are numbers that have nothing to do with
// each other.
func alike(a, b syntax.Expr) bool {
	met := 0
	for seed := range 24 {
		x, y := sample(a, seed), sample(b, seed)
		if x-x != 0 || y-y != 0 {
			continue
		}
		if math.Abs(x-y) > 1e-9*math.Max(math.Abs(x), math.Abs(y)) {
			return false
		}
		met++
	}
	return met >= 3
}

// sample works an expression out with made-up numbers for names, the larger the
// seed the closer to 1; not a number where that has no value.
func sample(x syntax.Expr, seed int) float64 {
	switch x := x.(type) {
	case *syntax.Number:
		return x.Value.Float()
	case *syntax.Quantity:
		return x.Value.Float()
	case *syntax.Pi:
		return math.Pi
	case *syntax.Name:
		h := fnv.New32a()
		h.Write([]byte(x.Name))
		h.Write([]byte{byte(seed), '#', byte(x.Line)})
		return math.Exp((float64(h.Sum32())/math.MaxUint32 - 0.5) * 4 / float64(1+seed/6))
	case *syntax.Paren:
		return sample(x.X, seed)
	case *syntax.Unary:
		if x.Op == syntax.Sub {
			return -sample(x.X, seed)
		}
		return sample(x.X, seed)
	case *syntax.Root:
		return math.Sqrt(sample(x.X, seed))
	case *syntax.Binary:
		a, b := sample(x.X, seed), sample(x.Y, seed)
		switch x.Op {
		case syntax.Add:
			return a + b
		case syntax.Sub:
			return a - b
		case syntax.Mul:
			return a * b
		case syntax.Div:
			return a / b
		}
		return math.Pow(a, b)
	case *syntax.Call:
		if f, ok := samples[x.Func]; ok && len(x.Args) == 1 {
			return f(sample(x.Args[0].X, seed))
		}
	}
	return math.NaN()
}

var samples = map[string]func(float64) float64{
	"sqrt": math.Sqrt, "sin": math.Sin, "cos": math.Cos, "tan": math.Tan, "asin": math.Asin, "acos": math.Acos, "atan": math.Atan,
	"exp": math.Exp, "ln": math.Log, "log10": math.Log10, "abs": math.Abs,
}
