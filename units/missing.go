package units

import "strings"

// step is a factor that has a plain name. Two dimensions that differ by one are a formula
// with a factor left out; a factor with a name that takes thought, such as a viscosity,
// would help nobody to see which.
type step struct {
	exps exps
	name string
	per  bool // "per length" is said of its inverse
}

var steps = [...]step{
	{exps{0, 1}, "length", true},
	{exps{0, 2}, "area", true},
	{exps{0, 3}, "volume", true},
	{exps{1}, "mass", true},
	{exps{0, 0, 1}, "time", true},
	{exps{0, 0, 2}, "time squared", true},
	{exps{2}, "mass squared", true},
	{exps{0, 0, 0, 1}, "electric current", true},
	{exps{0, 0, 0, 0, 1}, "temperature", true},
	{exps{0, 0, 0, 0, 0, 1}, "amount of substance", true},
	{exps{0, 0, 1, 1}, "electric charge", true},
	{exps{0, 1, -2}, "acceleration", false},
}

// Missing says in words what stands between two dimensions, where got is
// wanted times that factor: `"per length" is missing` for N/m against N. It is
// empty where the factor has no plain name.
//
// Both ways of saying it are true; the one that has the words of the dimension's own name is
// chosen, so that of a force per length a "per length" is missing.
func Missing(got, wanted Dim) string {
	factor := got.Div(wanted)
	if factor.IsOne() {
		return ""
	}
	e, ok := factor.exps()
	if !ok {
		return ""
	}
	inverse := e
	for i := range inverse {
		inverse[i] = -inverse[i]
	}
	for _, s := range steps {
		switch {
		case s.exps == e && s.per && (isPer(wanted, s.exps) || saysPer(wanted, s.name)):
			return `one "per ` + s.name + `" too many`
		case s.exps == e:
			return `a factor "` + s.name + `" is missing`
		case s.exps == inverse && s.per:
			return `"per ` + s.name + `" is missing`
		case s.exps == inverse:
			return `one factor "` + s.name + `" too many`
		}
	}
	return ""
}

// saysPer tells whether the name of a dimension says that it is per something:
// a force per length.
func saysPer(d Dim, what string) bool {
	k, ok := KindOf(d, None)
	return ok && strings.HasSuffix(k.Name, " per "+what)
}

// isPer tells whether a dimension has the powers of a factor in it upside down, as m/s
// has those of a time. Then a time too many is one "per time" too few, which is how a
// reader sees it.
func isPer(d Dim, e exps) bool {
	for i, n := range e {
		have := d.e[i]
		if !have.IsInt() || n > 0 && -have.Num() < int(n) {
			return false
		}
	}
	return true
}
