// Package each makes something of each of many.
package each

// Of is what a function makes of each, in their order.
//
// It is for a function that has a name, as the text of an expression or the value of a slot
// has; what is said of each at one place alone is said in a loop there.
func Of[T, S any](all []T, makes func(T) S) []S {
	out := make([]S, len(all))
	for i, one := range all {
		out[i] = makes(one)
	}
	return out
}
