package ops

import "math"

// ofVectors are the functions of vectors, which are worked out of the operations on their
// components.
var ofVectors = [...]Function{
	{Name: "magnitude", Least: 1, Most: 1, Takes: VectorToSize, Args: "magnitude(v)",
		Summary: "The magnitude of a vector, also written |v|.", Example: "magnitude((3.0, 4.0) m)"},
	{Name: "direction", Least: 1, Most: 1, Takes: VectorToAngle, Args: "direction(v)", Unit: "°",
		Summary: "The angle of a vector in the plane, counter-clockwise from +x.", Example: "direction((3.0, 4.0) m)"},
	{Name: "unit", Least: 1, Most: 1, Takes: VectorToUnit, Args: "unit(v)",
		Summary: "The vector of length 1 with the same direction.", Example: "unit((3.0, 4.0) m)"},
	{Name: "dot", Least: 2, Most: 2, Takes: VectorsToDot, Args: "dot(v, w)",
		Summary: "The dot product of two vectors, also written v·w.", Example: "dot((3.0, 4.0) N, (2.0, 0) m)"},
	{Name: "cross", Least: 2, Most: 2, Takes: VectorsToCross, Args: "cross(v, w)",
		Summary: "The cross product of two vectors, also written v×w; in the plane, its component along z.", Example: "cross((2.0, 0) m, (3.0, 4.0) N)"},
	{Name: "angle", Least: 2, Most: 2, Takes: VectorsToAngle, Args: "angle(v, w)", Unit: "°",
		Summary: "The angle between two vectors, from 0° to 180°.", Example: "angle((3.0, 4.0) m, (2.0, 0) m)"},
	{Name: "along", Least: 2, Most: 2, Takes: VectorAlong, Args: "v along θ",
		Summary: "The component of a vector in the direction of an angle.", Example: "((0, -20) N) along 30°"},
	{Name: "across", Least: 2, Most: 2, Takes: VectorAcross, Args: "v across θ",
		Summary: "The component at right angles to that, in the direction of θ + 90°.", Example: "((0, -20) N) across 30°"},
}

// functions are those of the table in its order, then those of vectors; byWord finds each
// by its name and its aliases. Neither changes once it is made.
var (
	functions = gather()
	byWord    = index()
)

func gather() []Function {
	out := make([]Function, 0, len(table)+len(ofVectors))
	for op := range table {
		if c := table[op].call; c != nil {
			f := *c
			f.Op = Op(op)
			out = append(out, f)
		}
	}
	return append(out, ofVectors[:]...)
}

func index() map[string]*Function {
	out := make(map[string]*Function)
	for i := range functions {
		f := &functions[i]
		out[f.Name] = f
		for _, word := range f.Aliases {
			out[word] = f
		}
	}
	return out
}

// Functions lists the functions that every worksheet has.
func Functions() []Function { return append([]Function(nil), functions...) }

// Named returns the function that a word calls, and false if there is none of
// that name in every worksheet.
func Named(word string) (Function, bool) {
	if f := byWord[word]; f != nil {
		return *f, true
	}
	return Function{}, false
}

// IsFunction tells whether every worksheet has a function of this name.
func IsFunction(word string) bool { return byWord[word] != nil }

// OfVectors tells that a function takes vectors.
func (s Shape) OfVectors() bool { return s >= VectorToSize && s <= VectorAcross }

// Together tells that a call with so many arguments puts the elements of a list
// together.
func (f Function) Together(args int) bool {
	return f.Takes >= ListToSame || args == 1 && (f.Op == Min || f.Op == Max)
}

// Keeps tells that a function makes of quantities of one kind a quantity of that kind.
func (f Function) Keeps() bool {
	switch f.Takes {
	case AnyToSame, SameToSame, RoundTo, AnyToSpan, ListToSame, ListToSpan, ListToSum:
		return true
	}
	return false
}

// Derivative is the slope of an operation by its first operand, as an
// expression in a; empty where it has none.
func (op Op) Derivative() string { return table[op].da }

// Undoes tells whether an operation of one operand gives back that of another: the
// arc sine is all that undoes a sine, where the angle is a principal one.
//
// asin(sin(x)) may be written as x only for angles from -90° to 90°: who rewrites must know the
// range (Principal).
func (op Op) Undoes(other Op) bool {
	inv := table[other].inverse
	return inv != nil && op.Operands() == 1 && inv.By[0] == table[op].name+"(y)"
}

// Principal is the range of the values of an operation that rises or falls throughout:
// those between its values at the ends of all numbers, or at the nearest to these that
// it takes.
func (op Op) Principal() Interval {
	end := func(at ...float64) (v float64) {
		for _, a := range at {
			if v = op.Value(a, 0, 0); !math.IsNaN(v) {
				break
			}
		}
		return v
	}
	a, b := end(-inf, -1, 0), end(inf, 1)
	return Between(min(a, b), max(a, b))
}

// Inverse says what undoes an operation, and false if nothing in the language
// does.
func (op Op) Inverse() (Inverse, bool) {
	if inv := table[op].inverse; inv != nil {
		return *inv, true
	}
	return Inverse{}, false
}
