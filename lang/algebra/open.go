package algebra

import (
	"slices"

	"steelyard/lang/syntax"
)

// maxPower is the highest whole power of a bracket that is multiplied out.
const maxPower = 4

// opened multiplies out the brackets that hold the unknown, whole powers of them
// too; false if there are none, or they are too large.
//
// Only those: (m + M) in a line that is solved for v stays as it is, and a result that
// is written with the letters of its line is one that its reader knows.
func (n normalizer) opened(s sum) (sum, bool) {
	opens := func(t term) bool { return slices.ContainsFunc(t.factors, n.opens) }
	if !slices.ContainsFunc(s, opens) {
		return nil, false
	}
	var out sum
	changed := false
	for _, t := range s {
		one := n.open(t)
		changed = changed || len(one) > 1
		out = append(out, one...)
	}
	out = collect(out)
	return out, changed && !out.lost()
}

// open is opened for one term.
//
// A power below a stroke stays as it is: divisor has taken those away that matter.
func (n normalizer) open(t term) sum {
	out := sum{{coef: t.coef, lost: t.lost}}
	for _, f := range t.factors {
		if n.opens(f) {
			out = n.product(out, n.expanded(f))
		} else {
			out = n.product(out, sum{factorTerm(f)})
		}
	}
	return out
}

// opens tells whether a factor is a bracket that holds the unknown, or a whole power of it.
func (n normalizer) opens(f factor) bool {
	return f.exp.Num() > 0 && f.exp.IsInt() && !isName(f.base, n.unknown) && n.holds(f.base)
}

// expanded multiplies a whole power of a bracket out.
//
// Above maxPower the terms are too many for a working, and the equation of a degree
// that is searched anyway.
func (n normalizer) expanded(f factor) sum {
	if b, ok := f.base.(*syntax.Binary); !ok || b.Op == syntax.Pow || f.exp.Num() > maxPower {
		return sum{factorTerm(f)}
	}
	inner := n.sum(f.base)
	out := inner
	for range f.exp.Num() - 1 {
		out = n.product(out, inner)
	}
	return out
}
