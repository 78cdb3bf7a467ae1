package algebra

import "steelyard/lang/syntax"

// maxPower is the highest whole power of a bracket that is multiplied out.
const maxPower = 4

// opened multiplies out the brackets that hold the unknown, whole powers of them
// too; false if there are none.
//
// Only those: (m + M) in a line that is solved for v stays as it is, and a result that
// is written with the letters of its line is one that its reader knows.
func (n normalizer) opened(s sum) (sum, bool) {
	var out sum
	changed := false
	for _, t := range s {
		one, ok := n.open(t)
		if !ok {
			return nil, false
		}
		changed = changed || len(one) > 1
		out = append(out, one...)
	}
	return collect(out), changed
}

// open is opened for one term.
//
// A power below a stroke stays as it is: divisor has taken those away that matter.
func (n normalizer) open(t term) (sum, bool) {
	out := sum{{coef: t.coef}}
	for _, f := range t.factors {
		one, ok := sum{factorTerm(f)}, true
		if f.exp.Num() > 0 && f.exp.IsInt() && n.holds(f.base) && !isName(f.base, n.unknown) {
			one, ok = n.expanded(f)
		}
		if ok {
			out, ok = n.product(out, one)
		}
		if !ok {
			return nil, false
		}
	}
	return out, true
}

// expanded multiplies a whole power of a bracket out.
//
// Above maxPower the terms are too many for a working, and the equation of a degree
// that is searched anyway.
func (n normalizer) expanded(f factor) (sum, bool) {
	if b, ok := f.base.(*syntax.Binary); !ok || b.Op == syntax.Pow || f.exp.Num() > maxPower {
		return sum{factorTerm(f)}, true
	}
	inner, ok := n.sum(f.base)
	if !ok {
		return nil, false
	}
	out := inner
	for range f.exp.Num() - 1 {
		if out, ok = n.product(out, inner); !ok {
			return nil, false
		}
	}
	return out, true
}
