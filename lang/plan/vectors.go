package plan

import (
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// A list of vectors has a list for each component: of all vectors that along x, then along y. So
// an operation on a component goes for each vector of the list.

// vectorOf puts components of one kind together; of lists, a list of vectors, with a number
// the same in each.
//
// A number among lists stands in each of the vectors: (x, 0 m) of a list x are points on one
// axis.
func (c *coder) vectorOf(slots []run.Slot, at syntax.Span, st run.Static) run.Slot {
	list := run.Static{}
	for _, s := range slots {
		if s == run.NoSlot {
			return s // a finding has said why
		}
		if is := c.code.Statics[s]; is.Shape == run.List {
			list = is
		}
	}
	if st.Axes = 0; list.Shape != run.List {
		return c.together(slots, at, st, run.Vector, 0)
	}
	for k, s := range slots {
		if c.code.Statics[s].Shape == run.Scalar {
			slots[k] = c.together(slices.Repeat([]run.Slot{s}, list.Len()), at, c.static(s), run.List, 0)
		}
	}
	st.Axes = uint8(len(slots))
	return c.together(slots, at, st, run.Vectors, 0)
}

// byAxes plans an operation on lists of vectors, or on vectors and a list of numbers, by
// components: which number goes with which is then as for lists.
//
// m*v of a list of masses and one vector is a list of vectors. Element by element the columns
// do not match, so each axis is planned by itself and put together.
func (c *coder) byAxes(in run.Instr, at syntax.Span, st run.Static) run.Slot {
	operands := [...]run.Slot{in.A, in.B, in.C}
	var parts []run.Slot
	for _, s := range operands[:in.Op.Operands()] {
		if c.isVector(s) {
			parts = make([]run.Slot, c.code.Statics[s].Components())
		}
	}
	for k := range parts {
		one := in
		for i, to := range [...]*run.Slot{&one.A, &one.B, &one.C} {
			if i < in.Op.Operands() && c.isVector(*to) {
				*to = c.component(*to, k, at)
			}
		}
		parts[k] = c.emit(one, at, st.Number())
	}
	return c.vectorOf(parts, at, ofVector(st))
}

// goesByAxes tells whether an operation on vectors is planned by components, as its operands
// have not the same number of elements.
func (c *coder) goesByAxes(in *run.Instr) bool {
	var of [3]run.Static
	n, vectors := in.Op.Operands(), false
	for i, s := range [...]run.Slot{in.A, in.B, in.C} {
		if i >= n {
			break
		}
		if s == run.NoSlot {
			return false
		}
		of[i] = c.code.Statics[s]
		vectors = vectors || of[i].IsVector()
	}
	if !vectors || n < 2 {
		return false
	}
	switch in.Op.OfVectors() {
	case ops.Scaled:
		return of[0].Shape == run.List && in.Op != ops.Div || of[1].Shape == run.List
	case ops.ByComponents:
		a, b := of[n-2], of[n-1]
		return of[0].Shape == run.List && n == 3 || a.IsVector() && b.IsVector() && a.Shape != b.Shape && a.Components() == b.Components()
	}
	return false
}

// ofVector is what is known of a vector, of what is known of its components: an energy has no
// direction.
func ofVector(st run.Static) run.Static {
	if st.Dim.IsEnergy() && st.Tag == units.None {
		st.Tag = units.PerAngle
	}
	return st
}

// fits tells whether element i may stand in a list with the first one, vectors with as many
// components each; or in a vector with those before it, numbers, or lists of one length.
func (c *coder) fits(at syntax.Span, slots []run.Slot, i int, shape run.Shape) bool {
	first, one := c.code.Statics[slots[0]], c.code.Statics[slots[i]]
	switch {
	case shape == run.Vector:
		for _, s := range slots[:i] {
			if before := c.code.Statics[s]; before.Shape == run.List && one.Shape == run.List && before.Width != one.Width {
				c.unequal(at, c.listName(s), before, c.listName(slots[i]), one)
				return false
			}
		}
	case first.IsVector() != one.IsVector():
		c.refuse(finding.VectorOrNumber, at, "Value 1 of this list is "+ShapeName(first)+", value "+itoa(i+1)+" is "+ShapeName(one)+".", "A list has only vectors, or only numbers.")
		return false
	case first.Shape == run.Vector && one.Shape == run.Vector:
		return c.sameAxes(slots[0], slots[i], at)
	}
	return true
}

// listed puts vectors together as a list, whose components are lists.
//
// Written as [(3, 4), (1, 2)] N vector by vector, it is kept as x and y, so that an operation
// runs over all x at once.
func (c *coder) listed(slots []run.Slot, at syntax.Span, st run.Static, written run.Slot) run.Slot {
	parts := make([]run.Slot, st.Components())
	for k := range parts {
		of := make([]run.Slot, len(slots))
		for i, s := range slots {
			of[i] = c.component(s, k, at)
		}
		parts[k] = c.together(of, at, st.Number(), run.List, written)
	}
	return c.vectorOf(parts, at, st)
}

// vectorsTogether plans what puts vectors together: their sum, their mean and their differences
// are those of the components. They have no order, so no median.
//
// A mean of vectors has an uncertainty for each component.
func (c *coder) vectorsTogether(x *syntax.Call, b ops.Function, list run.Slot) run.Slot {
	st := c.static(list)
	switch {
	case b.Op == ops.Tally:
		return c.emit(run.Instr{Op: b.Op, A: c.component(list, 0, x.At)}, x.At, run.Static{})
	case b.Op != ops.Sum && b.Op != ops.Mean && b.Op != ops.Steps:
		text := c.shown(x.Args[0].X)
		if len(x.Args) > 1 {
			return c.refuse(finding.VectorOrNumber, x.At, b.Name+" takes numbers; "+text+" is a vector.", "Use its magnitude, or one of its components.")
		}
		return c.refuse(finding.VectorOrNumber, x.At, b.Name+" takes numbers; "+text+" is "+values(st)+".", "Use their magnitudes, or one of their components.", b.Name+"(|"+text+"|)")
	case b.Op == ops.Steps && st.Len() < 2:
		return c.refuse(finding.WrongCall, x.At, b.Name+" needs two values or more; "+c.shown(x.Args[0].X)+" has one.", "Put more values into the list.")
	}
	parts := c.components(list, x.At)
	for k, s := range parts {
		if b.Op == ops.Mean {
			parts[k] = c.mean(s, x.At, st.Number())
		} else {
			parts[k] = c.emit(run.Instr{Op: b.Op, A: s}, x.At, st.Number())
		}
	}
	return c.vectorOf(parts, x.At, st)
}
