package referee

import (
	"fmt"
	"math/big"
)

// vanishing are equations whose coefficients are givens, of which some are 0: then any
// number may be a solution, or a factor adds none.
func vanishing(d dice) scene {
	given := func(name string) (line string, x decimal) {
		if d.IntN(2) == 0 {
			return name + " = " + pick(d, "0", "0.3 - 3*0.1", "1.1 - 1 - 0.1"), dec(0, 1)
		}
		x = d.few()
		return name + " = " + x.String(), x
	}
	nameA, a := given("a")
	nameB, b := given("b")
	before := []string{nameA, nameB}
	p := d.few()
	// root is where a·x + b is 0 beside another factor, which is 0 at others.
	with := func(others ...between) roots {
		switch {
		case a.Sign() == 0 && b.Sign() == 0:
			return roots{every: true}
		case a.Sign() == 0:
			return are(others...)
		}
		root := exactly(new(big.Rat).Neg(new(big.Rat).Quo(b.Rat, a.Rat)))
		for _, o := range others {
			if root.sub(o).isZero() {
				return are(others...)
			}
		}
		return are(ordered(append(others, root)...)...)
	}
	switch d.IntN(5) {
	case 0:
		return asked(d, before, "a*x + b = 0", "x", "", with())
	case 1:
		return asked(d, before, "x*(a*x + b) = 0", "x", "", with(dec(0, 1).between()))
	case 2:
		return asked(d, before, fmt.Sprintf("(x - %s)*(a*x + b) = 0", p), "x", "", with(p.between()))
	case 3:
		return asked(d, before, "a*x^2 + b*x = 0", "x", "", with(dec(0, 1).between()))
	}
	return asked(d, before, "a*x^3 = -b*x^2", "x", "", with(dec(0, 1).between()))
}
