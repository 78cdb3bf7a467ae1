package entry

import (
	"math"

	"steelyard/lang/syntax"
	"steelyard/units"
)

// IsVector tells whether a value is a vector, whose components are the elements of its list.
func (v Value) IsVector() bool { return v.List != nil && v.List.Vector }

// Vectors are the vectors of a list, each as a value without a name, or a vector itself; none of
// any other value.
func (v Value) Vectors() []Value {
	if v.IsVector() {
		return []Value{v}
	}
	if v.List == nil || v.List.Axes == 0 {
		return nil
	}
	out, all, n := make([]Value, v.List.Len()), *v.List, v.List.Axes
	for i := range out {
		one := List{SI: all.SI[i*n : i*n+n], InUnit: all.InUnit[i*n : i*n+n], Vector: true}
		if all.Figures != nil {
			one.Figures = all.Figures[i*n : i*n+n]
		}
		if all.U != nil {
			one.U = all.U[i*n : i*n+n]
		}
		v.Name, v.SI, v.InUnit, v.List = "", one.SI[0], one.InUnit[0], &one
		out[i] = v
	}
	return out
}

// Component is a component of a vector as a value, counted from 0; of a list of vectors, a list.
func (v Value) Component(axis int) Value {
	if v.List.Axes == 0 {
		return v.Element(axis)
	}
	all, one := v.List, &List{}
	for i := axis; i < len(all.SI); i += all.Axes {
		one.SI, one.InUnit = append(one.SI, all.SI[i]), append(one.InUnit, all.InUnit[i])
		if all.Figures != nil {
			one.Figures = append(one.Figures, all.Figures[i])
		}
		if all.U != nil {
			one.U = append(one.U, all.U[i])
		}
	}
	if all.U != nil {
		one.MeanU = all.MeanU[axis : axis+1]
	}
	v.SI, v.InUnit, v.List = one.SI[0], one.InUnit[0], one
	return v
}

// Letter is the name of a value as it is set: that of a vector with its arrow. It is nil for
// a value without a name.
func (v *Value) Letter() syntax.Expr {
	if v.Name == "" {
		return nil
	}
	return &syntax.Name{Name: v.Name, Vector: len(v.Vectors()) > 0}
}

// brackets are those round the elements of a list or the components of a vector.
func (l *List) brackets() string { return (&syntax.List{Vector: l.Vector}).Brackets() }

// Magnitude is the magnitude of a vector as a value: to as many figures as the component
// that has most of them.
func (v Value) Magnitude() Value {
	si, shown := 0.0, 0.0
	for i := range v.List.SI {
		si, shown = math.Hypot(si, v.List.SI[i]), math.Hypot(shown, v.List.InUnit[i])
	}
	if v.Figures = v.List.most(v.Figures); v.List.Polar[0].N > 0 {
		v.Figures = v.List.Polar[0]
	}
	v.SI, v.InUnit, v.U, v.List = si, shown, 0, nil
	return v
}

// most are the wishes for printing of the component that is shown to most figures.
func (l *List) most(all units.Figures) units.Figures {
	most := l.figures(0, all)
	for i := range l.SI {
		if f := l.figures(i, all); most.N > 0 && (f.N == 0 || f.N > most.N) { // 0 is as many as usual
			most = f
		}
	}
	return most
}

// leastTurn is to how many figures a direction is shown at least: 53.1° and not 5×10¹°.
const leastTurn = 3

// turnFigures are the wishes for printing a direction, of those for a vector.
func turnFigures(figures units.Figures) units.Figures {
	if figures.N > 0 && figures.N < leastTurn {
		return units.Figures{N: leastTurn, Keep: figures.Keep}
	}
	return figures
}

// HasPolar has a vector shown by its magnitude and direction.
func (v *Value) HasPolar(parts [2]Value) {
	parts[1].Figures = turnFigures(parts[1].Figures)
	v.Parts = &parts
}

// Direction is the angle of a vector in the plane, counter-clockwise from +x, in degrees;
// false for one in space and for the zero vector.
func (v Value) Direction() (Value, bool) {
	if len(v.List.SI) != 2 || v.List.SI[0] == 0 && v.List.SI[1] == 0 {
		return Value{}, false
	}
	degrees, figures := units.Of("°"), turnFigures(v.List.most(v.Figures))
	angle := math.Atan2(v.List.SI[1]+0, v.List.SI[0]) // minus zero is zero
	if v.List.SI[0] == 0 || v.List.SI[1] == 0 {
		figures = units.Figures{} // along an axis, the direction is exact
	}
	if v.List.Polar[1].N > 0 {
		figures = v.List.Polar[1]
	}
	return Value{SI: angle, Dim: degrees.Dim(), Tag: degrees.Tag(), Unit: degrees, InUnit: degrees.FromSI(angle), Figures: figures, Rounding: v.Rounding}, true
}

// Polar says the magnitude of a vector and, in the plane, its direction: 5 m/s at 53.1301°.
func (v Value) Polar() Said {
	if v.Parts != nil {
		return v.Parts[0].Said().And(" at …", v.Parts[1].Said())
	}
	size := v.Magnitude().Said()
	if turn, ok := v.Direction(); ok {
		return size.And(" at …", turn.Said())
	}
	return size
}
