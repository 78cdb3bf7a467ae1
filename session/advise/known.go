package advise

import (
	"math"
	"slices"
	"strings"
	"sync"

	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/session/eval"
	"steelyard/units"
	"steelyard/units/each"
)

// knownFactors are formulas whose constant factor is often left out: the units are right without
// it. Names are the symbols of the value, and each letter of the formula
// has the letters that it may be on a page, with their unit. They are common practice; those of
// mechanics are in the library of formulas, with their sources.
//
// The letters are part of each: √(g*λ) is no speed of a fall, and m*c^2 no kinetic energy. What
// is a formula of its own with another factor is left out: the work of a battery is C*U^2, and
// the inertia of a hoop m*r^2.
var knownFactors = [...]struct{ what, names, formula, letters string }{
	{"A kinetic energy", "K KE E_k E_K Ek E_kin KE1 KE2 E", "1/2*m*v^2", "m M:kg, v u:m/s"},
	{"A kinetic energy", "K KE E_k E_K Ek E_kin KE1 KE2 E", "p^2/(2*m)", "p:kg m/s, m M:kg"},
	{"An energy of rotation", "K KE E_k E_K Ek E_kin E_rot E", "1/2*I*ω^2", "I J:kg m^2, ω:1/s"},
	{"The energy of a spring", "U E PE E_s E_p E_e EPE W", "1/2*k*x^2", "k K D:N/m, x A s d y:m"},
	{"The energy of a capacitor", "E U", "1/2*C*U^2", "C:F, U V:V"},
	{"The energy of a coil", "E W", "1/2*L*I^2", "L:H, I i:A"},
	{"A distance from rest", "s x d h y H", "1/2*a*t^2", "a g:m/s^2, t:s"},
	{"A distance to or from rest", "s x d h y H", "v^2/(2*a)", "v u:m/s, a g:m/s^2"},
	{"A speed from rest", "v u", "√(2*a*s)", "a:m/s^2, s d x:m"}, // √(g*h) is that of a wave, too
	{"", "", "√(2*a*s)", "a g:m/s^2, s h d x y H:m"},             // in a sum alone
	{"A time from rest", "t", "√(2*s/a)", "s h d x y H:m, a g:m/s^2"},
	{"The speed round a circle", "v u", "2*π*r/T", "r:m, T:s"},
	{"With the period T of a pendulum, g", "g", "4*π^2*L/T^2", "L l:m, T:s"},
	{"With the period T of an oscillation, k", "k D", "4*π^2*m/T^2", "m M:kg, T:s"},
	{"The area of a circle", "A S", "π*r^2", "r R:m"},
	{"The volume of a ball", "V", "4/3*π*r^3", "r R:m"},
}

// known is one of them, taken apart.
type known struct {
	what, names string
	powers      [3]int // of its factors
	formula     syntax.Expr
	factors     factors
	under       factors // of what is under its root
	letters     map[string]letter
}

// letter is what a letter of a formula may be on a page.
type letter struct {
	names string
	dim   units.Dim
}

var knownFormulas = sync.OnceValue(func() (all []known) {
	for _, row := range knownFactors {
		k := known{what: row.what, names: row.names, letters: map[string]letter{}}
		k.formula, _ = syntax.ParseExpr(row.formula)
		k.factors, _ = apart(k.formula)
		k.powers, k.under = k.factors.powers(), k.factors.underRoot()
		for of := range strings.SplitSeq(row.letters, ", ") {
			names, unit, _ := strings.Cut(of, ":")
			own, _, _ := strings.Cut(names, " ")
			k.letters[own] = letter{names, units.Of(unit).Dim()}
		}
		all = append(all, k)
	}
	return all
})

// underRoot are the factors of what is under the root of a product.
func (f *factors) underRoot() (under factors) {
	if f.root != nil {
		under, _ = apart(f.root)
	}
	return under
}

// powers are how many names a product has, their powers together, and the squares of these: most
// products are told apart by them.
func (f *factors) powers() (sum [3]int) {
	for _, p := range f.names[:f.n] {
		sum[0], sum[1], sum[2] = sum[0]+1, sum[1]+p.exp, sum[2]+p.exp*p.exp
	}
	return sum
}

// factorLeftOut finds K = m*v^2: a known formula without its factor.
//
// Without its half the value is twice as great, and its unit is right. The name and all letters
// must be those of the formula.
func factorLeftOut(l *eval.Line, name string, f *factors) slip {
	all, powers := knownFormulas(), f.powers()
	for i := range all {
		k := &all[i]
		if powers != k.powers || !is(name, k.names) {
			continue
		}
		under := f.underRoot()
		if right := k.instead(l, f, &under); right != "" {
			return slip{k.what + " is " + right + k.missing(f, &under) + ".", "Write", right}
		}
	}
	return slip{}
}

// inSum finds the same in a term of a sum, or of one under a root: x0 + v0*t + a*t^2, and
// √(v0^2 + a*s). What the sum is called says nothing there.
func inSum(l *eval.Line, x syntax.Expr) slip {
	sum := x
	if of := eval.UnderRoot(x); of != nil {
		sum = syntax.Unbracket(of)
	}
	terms := each.Of(syntax.Terms(sum), func(t syntax.Link) syntax.Expr { return t.X })
	if len(terms) < 2 {
		return slip{}
	}
	speed := false // one is the square of a speed
	for _, t := range terms {
		f, ok := apart(t)
		speed = speed || ok && f.number == 1 && f.n == 1 && f.names[0].exp == 2 && is(f.names[0].name, "v u")
	}
	if b, ok := sum.(*syntax.Binary); ok && b.Op == syntax.Sub && len(terms) == 2 && energies(l, terms) {
		return slip{} // k*x^2 - m*v^2 is 0 with the halves, too
	}
	for _, t := range terms {
		f, ok := apart(t)
		if !ok || f.number != 1 || f.n != 2 || f.root != nil {
			continue
		}
		for i := range knownFormulas() {
			k := &knownFormulas()[i]
			right := ""
			switch {
			case k.factors.root == nil && k.factors.number == 0.5 && k.factors.names[0].exp+k.factors.names[1].exp == 3:
				right = k.instead(l, &f, &factors{})
			case k.factors.root != nil && speed && k.under.names[0].exp == k.under.names[1].exp: // v^2 = v0^2 + 2*a*s
				right = k.instead(l, &factors{root: t, number: 1}, &f)
				right = strings.TrimSuffix(strings.TrimPrefix(right, "√("), ")")
			}
			if right == "" {
				continue
			}
			whole, ok := eval.Instead(x, func(part syntax.Expr) bool { return part == t }, right)
			if !ok {
				return slip{}
			}
			return slip{"The term `" + syntax.PrintExpr(t) + "` mostly has a factor: " + right + ".", "If it has, write", syntax.PrintExpr(whole)}
		}
	}
	return slip{}
}

// energies tells whether all of some terms are energies without their half.
func energies(l *eval.Line, terms []syntax.Expr) bool {
	return !slices.ContainsFunc(terms, func(t syntax.Expr) bool {
		f, ok := apart(t)
		return !ok || factorLeftOut(l, "E", &f).message == ""
	})
}

// instead is the formula with the names of a product that is the same but for its factor.
func (k *known) instead(l *eval.Line, f, under *factors) string {
	by := map[string]string{}
	if f.over != k.factors.over || (f.root == nil) != (k.factors.root == nil) || !k.wrong(f.number, under.number) ||
		!k.same(&k.factors, f, by) || !k.same(&k.under, under, by) {
		return ""
	}
	for own, name := range by {
		d, ok := l.Planner.Find(&syntax.Name{Name: name})
		if !ok || d.Failed() || d.Kind != plan.Quantity || l.Planner.Static(d.Slot).Dim != k.letters[own].dim {
			return ""
		}
	}
	return syntax.PrintExpr(syntax.Unplaced(syntax.Rewrite(k.formula, func(x syntax.Expr) (syntax.Expr, bool) {
		n, ok := x.(*syntax.Name)
		if !ok {
			return nil, false
		}
		return &syntax.Name{Name: by[n.Name]}, true
	})))
}

// wrong tells whether a factor is left out, or one with π is upside down or has it below the bar. A
// ball may lack the 3 alone. A 2 for a 1/2 is often right: four bodies, or 1/2*k*(2*s)^2.
func (k *known) wrong(number, under float64) bool {
	right := k.factors.number
	if k.factors.root != nil {
		if number != 1 {
			return false
		}
		number, right = under, k.under.number
	}
	return number == 1 || !simple(right) && (within1Percent(number*right, 1) || within1Percent(number*math.Pi*math.Pi, right)) || math.Abs(right-4*math.Pi/3) < 1e-9 && within1Percent(number, 4*math.Pi)
}

// same tells whether two products have the same powers of letters, and notes which name is which.
func (k *known) same(of, f *factors, by map[string]string) bool {
	if of.n != f.n {
		return false
	}
	for _, p := range of.names[:of.n] {
		found := false
		for _, q := range f.names[:f.n] {
			if p.exp == q.exp && is(q.name, k.letters[p.name].names) {
				by[p.name], found = q.name, true
			}
		}
		if !found {
			return false
		}
	}
	return true
}

// missing says which factor is left out.
func (k *known) missing(f, under *factors) string {
	number, right := f.number, k.factors.number
	if k.factors.root != nil {
		number, right = under.number, k.under.number
	}
	if number != 1 {
		return ""
	}
	for _, c := range [...]struct {
		value float64
		text  string
	}{{0.5, "1/2"}, {2, "2"}, {math.Pi, "π"}, {2 * math.Pi, "2π"}, {4 * math.Pi * math.Pi, "4π²"}, {4 * math.Pi / 3, "4/3*π"}} {
		if within1Percent(right, c.value) {
			return "; the " + c.text + " is missing"
		}
	}
	return ""
}
