package units

import "strings"

// steps are the factors that have a plain name; one with a name that takes thought, such as
// a viscosity, would help nobody to see which.
var steps = [...]struct {
	exps exps
	name string
}{
	{exps{0, 1}, "length"},
	{exps{0, 2}, "area"},
	{exps{0, 3}, "volume"},
	{exps{1}, "mass"},
	{exps{0, 0, 1}, "time"},
	{exps{0, 0, 2}, "time squared"},
	{exps{0, 0, 0, 1}, "electric current"},
	{exps{0, 0, 0, 0, 1}, "temperature"},
	{exps{0, 0, 0, 0, 0, 1}, "amount of substance"},
	{exps{0, 0, 1, 1}, "electric charge"},
}

// Missing says what the unit of a wanted dimension lacks of that of another, or has too
// much: `"per length" is missing` for N/m against N. It is empty unless one of the two is
// written as the other and more: that a time is "time squared" times a frequency is true,
// and says nothing to who took one for the other.
func Missing(got, wanted Dim) string {
	e, ok := wanted.Div(got).exps()
	if !ok {
		return ""
	}
	inverse := e
	for i := range inverse {
		inverse[i] = -inverse[i]
	}
	has, wants := Preferred(got, None).Text(), Preferred(wanted, None).Text()
	for _, s := range steps {
		switch {
		case s.exps == e && strings.HasPrefix(has, wants):
			return `"per ` + s.name + `" is missing`
		case s.exps == inverse && strings.HasPrefix(wants, has):
			return `one "per ` + s.name + `" too many`
		}
	}
	return ""
}
