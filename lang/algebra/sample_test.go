package algebra

import (
	"hash/fnv"
	"math"

	"steelyard/lang/ops"
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
	names := map[string]float64{}
	syntax.Walk(x, func(x syntax.Expr) bool {
		if n, ok := x.(*syntax.Name); ok {
			h := fnv.New32a()
			h.Write([]byte(n.Name))
			h.Write([]byte{byte(seed), '#', byte(n.Line)})
			names[n.Name] = math.Exp((float64(h.Sum32())/math.MaxUint32 - 0.5) * 4 / float64(1+seed/6))
		}
		return true
	})
	return worked(x, names)
}

// worked works an expression out with numbers for names, functions by the table
// of operations.
func worked(x syntax.Expr, names map[string]float64) float64 {
	of := func(x syntax.Expr) float64 { return worked(x, names) }
	switch x := x.(type) {
	case *syntax.Number:
		return x.Value.Float()
	case *syntax.Quantity:
		return x.Value.Float()
	case *syntax.Pi:
		return math.Pi
	case *syntax.Name:
		return names[x.Name]
	case *syntax.Paren:
		return of(x.X)
	case *syntax.Unary:
		if x.Op == syntax.Sub {
			return -of(x.X)
		}
		return of(x.X)
	case *syntax.Root:
		return math.Sqrt(of(x.X))
	case *syntax.Binary:
		op := map[syntax.Op]ops.Op{syntax.Add: ops.Add, syntax.Sub: ops.Sub, syntax.Mul: ops.Mul, syntax.Div: ops.Div, syntax.Pow: ops.PowVar}[x.Op]
		return op.Value(of(x.X), of(x.Y), 0)
	case *syntax.Call:
		f, ok := ops.Named(x.Func)
		switch {
		case ok && f.Name == "root":
			return f.Op.Value(of(x.Args[0].X), 0, of(x.Args[1].X))
		case ok && len(x.Args) == 1:
			return f.Op.Value(of(x.Args[0].X), 0, 0)
		case ok && len(x.Args) == 2:
			return f.Op.Value(of(x.Args[0].X), of(x.Args[1].X), 0)
		}
	}
	return math.NaN()
}
