package plan

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// A vector is a slot with a column for each component. What is done component by
// component, as a sum, is one instruction for all of them; what mixes components, as a dot
// product, is planned of the single ones as if they had been typed:
//
//	a·b    ax*bx + ay*by [+ az*bz]
//	a×b    in space (ay*bz - az*by, az*bx - ax*bz, ax*by - ay*bx), in the plane ax*by - ay*bx
//	|a|    hypot(ax, ay[, az])
//
// So figures, uncertainties and slopes of vectors are those of numbers. The components of a
// list of vectors are lists, and what is planned of them goes for each vector.

// isVector tells whether a slot holds a vector, or a list of them.
func (c *coder) isVector(s run.Slot) bool { return c.code.Statics[s].IsVector() }

// component is a component of a vector, counted from 0. One of a vector that an earlier line
// gave is picked from it: what replaces the vector, as in `R with v = 20 m/s at 52°`, replaces
// its components, and not what they were put together from.
//
// A vector that is put together in this very line is not picked from: its component is the slot
// it was made of, which costs no instruction and keeps the figures of that.
func (c *coder) component(s run.Slot, i int, at syntax.Span) run.Slot {
	if in := c.code.Instrs[s]; in.Op == ops.Join && s >= c.start {
		return c.code.Args[int(in.B)+i]
	}
	return c.emit(run.Instr{Op: ops.Pick, A: s, K: float64(i)}, at, c.static(s).Component())
}

// components are those of a vector, in the order of the axes.
func (c *coder) components(s run.Slot, at syntax.Span) []run.Slot {
	out := make([]run.Slot, c.code.Statics[s].Components())
	for i := range out {
		out[i] = c.component(s, i, at)
	}
	return out
}

// operation is an instruction on numbers with what is known of its result.
//
// A product along z, of two vectors in the plane, is a number that stays along z in sums and
// products; its size and its angle are not along anything.
func (c *coder) operation(op ops.Op, a, b run.Slot, at syntax.Span, st run.Static) run.Slot {
	along := st.Along
	if st = st.Number(); op != ops.Hypot && op != ops.Atan2 {
		st.Along = along
	}
	return c.emit(run.Instr{Op: op, A: a, B: b}, at, st)
}

// size plans the magnitude of a vector, or the size of a number without its sign.
//
// hypot is taken two by two: of three components √(√(x² + y²)² + z²), without overflow on the
// way. The magnitude of a temperature is none, so the point of its scale is dropped.
func (c *coder) size(s run.Slot, at syntax.Span) run.Slot {
	st := c.static(s)
	if st.Heat == run.Point {
		st.Heat = run.Plain
	}
	if st.Along = false; !st.IsVector() {
		return c.emit(run.Instr{Op: ops.Abs, A: s}, at, st)
	}
	all := c.components(s, at)
	acc := all[0]
	for _, next := range all[1:] {
		acc = c.operation(ops.Hypot, acc, next, at, st)
	}
	return acc
}

// productStatic is what is known of a component of a product of two vectors; false, which
// is found, where its dimension can't be told.
//
// Both products have the dimension and the tag of a product of numbers; what is known of a bare
// 0 goes on into the product as with those.
func (c *coder) productStatic(a, b run.Slot, at syntax.Span) (run.Static, bool) {
	sa, sb := c.static(a), c.static(b)
	st := run.Static{Absent: sa.Absent || sb.Absent, Dim: sa.Dim.Mul(sb.Dim), Tag: units.ProductTag(sa.Dim, sa.Tag, sb.Dim, sb.Tag, false)}
	if st.Dim.Lost() {
		c.dimensionRange(at)
		return st, false
	}
	if st.Open, st.Exp = productZero(ops.Mul, sa, sb); st.Exp.Lost() {
		st = c.p.newZero()
	}
	return st, true
}

// dot plans the dot product of two vectors.
func (c *coder) dot(a, b run.Slot, at syntax.Span) run.Slot {
	st, ok := c.productStatic(a, b, at)
	if !ok || !c.sameAxes(a, b, at) {
		return run.NoSlot
	}
	x, y := c.components(a, at), c.components(b, at)
	acc := c.operation(ops.Mul, x[0], y[0], at, st)
	for i := range x[1:] {
		acc = c.operation(ops.Add, acc, c.operation(ops.Mul, x[i+1], y[i+1], at, st), at, st)
	}
	return acc
}

// cross plans the cross product of two vectors; in the plane its component along z, which
// is a number.
//
// Of two vectors in the plane only the component along z is not 0, so that it is kept as a
// number: r×F is a torque in N m, and its component τ_z can be asked for by name.
func (c *coder) cross(a, b run.Slot, at syntax.Span) run.Slot {
	st, ok := c.productStatic(a, b, at)
	if !ok || !c.sameAxes(a, b, at) {
		return run.NoSlot
	}
	if st.Dim.IsEnergy() && st.Tag == units.None {
		st.Tag = units.PerAngle // r×F is a torque
	}
	x, y := c.components(a, at), c.components(b, at)
	minor := func(i, j int) run.Slot {
		return c.operation(ops.Sub, c.operation(ops.Mul, x[i], y[j], at, st), c.operation(ops.Mul, x[j], y[i], at, st), at, st)
	}
	if len(x) == 2 {
		st.Along = true
		return minor(0, 1)
	}
	return c.vectorOf([]run.Slot{minor(1, 2), minor(2, 0), minor(0, 1)}, at, st)
}

// sameAxes tells whether two vectors have as many components, and says so where not.
func (c *coder) sameAxes(a, b run.Slot, at syntax.Span) bool {
	sa, sb := c.static(a), c.static(b)
	if sa.Components() == sb.Components() {
		return true
	}
	c.refuse(finding.VectorOrNumber, at, c.listName(a)+" has "+itoa(int(sa.Components()))+" components, "+c.listName(b)+" has "+itoa(int(sb.Components()))+".",
		"Add a third component, 0, to the one in the plane.")
	return false
}

// callVector plans a function of vectors.
//
// The direction of (-1, 0) is 180° and no -180°, whatever sign rounding has left on the 0.
func (c *coder) callVector(x *syntax.Call, b ops.Function, slots []run.Slot) run.Slot {
	turned := b.Takes == ops.VectorAlong || b.Takes == ops.VectorAcross
	for i, s := range slots {
		if turned && i > 0 {
			return c.resolved(x, b, slots[0], s)
		}
		if b.Takes != ops.VectorToSize && !c.isVector(s) {
			return c.refuse(finding.VectorOrNumber, x.Args[i].X.Span(), b.Name+" takes a vector; "+c.shown(x.Args[i].X)+" is "+c.shapeWords(s)+".",
				"Write a vector like (3.0, 4.0) m or 5.0 m at 30°.")
		}
	}
	a, st := slots[0], c.static(slots[0])
	angle := run.Static{Tag: units.Angle, Absent: st.Absent}
	switch b.Takes {
	case ops.VectorToAngle:
		if st.Components() > 2 {
			return c.refuse(finding.VectorOrNumber, x.At, NoOneAngle, "Use the angle to another vector: angle(v, w).")
		}
		// With 0 added, a minus zero is zero, and the direction of (-1, -0) is 180°.
		y := c.operation(ops.Add, c.component(a, 1, x.At), c.constant(0, x.At, st.Number()), x.At, st)
		return c.operation(ops.Atan2, y, c.component(a, 0, x.At), x.At, angle)
	case ops.VectorToUnit:
		return c.emit(run.Instr{Op: ops.Div, A: a, B: c.size(a, x.At)}, x.At, run.Static{Absent: st.Absent})
	case ops.VectorsToDot:
		return c.dot(a, slots[1], x.At)
	case ops.VectorsToCross:
		return c.cross(a, slots[1], x.At)
	case ops.VectorsToAngle: // by both products: the cosine alone is blind near 0° and 180°
		along, aside := c.dot(a, slots[1], x.At), run.NoSlot
		if along != run.NoSlot {
			aside = c.cross(a, slots[1], x.At)
		}
		if aside == run.NoSlot {
			return run.NoSlot
		}
		angle.Absent = c.static(along).Absent
		return c.operation(ops.Atan2, c.size(aside, x.At), along, x.At, angle)
	}
	return c.size(a, x.At)
}

// resolved plans the component of a vector in the direction of an angle θ, or at right angles
// to it, 90° further on:
//
//	v along θ     v_x*cos(θ) + v_y*sin(θ)
//	v across θ    v_y*cos(θ) - v_x*sin(θ)
//
// across is along, 90° further on: so F along 30° and F across 30° are the components along a
// slope and at right angles to it, counter-clockwise.
func (c *coder) resolved(x *syntax.Call, b ops.Function, v, turn run.Slot) run.Slot {
	st, pure := c.static(v), run.Static{Absent: c.static(turn).Absent}
	switch {
	case c.isVector(turn):
		part := c.shown(x.Args[0].X) + "·unit(" + c.shown(x.Args[1].X) + ")"
		return c.refuse(finding.VectorOrNumber, x.At, b.Name+" takes an angle; `"+c.shown(x.Args[1].X)+"` is a vector.",
			"For the component along a vector, use a dot product.", part)
	case !c.single(x.Args[1].X, turn), !c.isAngle(x.Args[1].X, turn, "F "+b.Name+" 30°"):
		return run.NoSlot
	case st.Components() > 2:
		return c.refuse(finding.VectorOrNumber, x.At, "`"+c.shown(x.Args[0].X)+"` has three components; one angle can't say where it points.",
			"Write the direction as a vector e, and then `v·unit(e)`.")
	}
	st.Absent = st.Absent || pure.Absent
	first, second, sign := c.component(v, 0, x.At), c.component(v, 1, x.At), ops.Add
	if b.Takes == ops.VectorAcross {
		first, second, sign = second, first, ops.Sub
	}
	part := func(s run.Slot, of ops.Op) run.Slot {
		return c.operation(ops.Mul, s, c.operation(of, turn, 0, x.At, pure), x.At, st)
	}
	return c.operation(sign, part(first, ops.Cos), part(second, ops.Sin), x.At, st)
}

// shapeWords says what a slot holds that is no vector.
//
// What was found is named, so that the hint beside it can say how a vector is written.
func (c *coder) shapeWords(s run.Slot) string {
	if c.code.Statics[s].Shape == run.List {
		return "a list"
	}
	return "a number"
}

// polar plans a vector by its magnitude and direction. A written angle is exact, as one in a
// sine is.
//
// Figures follow the magnitude: 12 m/s at 37° is known to two, for how well a direction is
// known is hardly ever said by how it is written.
func (c *coder) polar(x *syntax.Polar) run.Slot {
	size, from := c.expr(x.X), c.next()
	turn := c.expr(x.Angle)
	if size == run.NoSlot || turn == run.NoSlot || c.isVector(size) && !c.single(x.X, size) || c.isVector(turn) && !c.single(x.Angle, turn) || !c.isAngle(x.Angle, turn, "12 m/s at 37°") {
		return run.NoSlot
	}
	c.exact(from, func(st run.Static) bool { return st.Tag == units.Angle })
	st, pure := c.static(size), run.Static{Absent: c.static(turn).Absent}
	if st.Absent = st.Absent || pure.Absent; st.Heat == run.Point {
		st.Heat = run.Plain
	}
	cosine, signs := x.Bearing.Turn()
	parts := make([]run.Slot, 2)
	for i := range parts {
		op := ops.Sin
		if i == cosine {
			op = ops.Cos
		}
		parts[i] = c.operation(ops.Mul, size, c.operation(op, turn, 0, x.At, pure), x.At, st)
		if signs[i] < 0 {
			parts[i] = c.operation(ops.Neg, parts[i], 0, x.At, st)
		}
	}
	return c.vectorOf(parts, x.At, st)
}

// isAngle tells whether what stands for a direction is one, as in the example, and says so
// where not. A written number without a unit is refused: 37 is meant in degrees as often as
// it is read in radians.
//
// A 0 needs no unit, as it is one direction in all of them.
func (c *coder) isAngle(x syntax.Expr, turn run.Slot, example string) bool {
	st := c.settledTo(turn, units.Dim{})
	if n, bare := syntax.Unbracket(x).(*syntax.Number); bare && n.Value.Hi != 0 {
		c.refuse(finding.TwoReadings, x.Span(), "The unit of the angle is missing: "+n.Value.Text+" may be in degrees or in radians.", "",
			n.Value.Text+"°", n.Value.Text+" rad")
		return false
	}
	switch {
	case !st.Dim.IsOne():
		c.refuse(finding.ArgumentDimension, x.Span(), "A direction is an angle; "+c.shown(x)+" is "+phrase(st)+".", "Write it like `"+example+"`.")
	case st.Tag == units.Cycle:
		c.refuse(finding.AngleOrCycle, x.Span(), "A direction is an angle; "+c.shown(x)+" counts cycles.", "Multiply it by 2π.")
	case st.Tag == units.None && c.isShare(x):
		c.refuse(finding.ArgumentDimension, x.Span(), "A direction is an angle; "+c.shown(x)+" isn't.", "For a part of a value, write * in place of `at`. A direction is written like `"+example+"`.")
	default:
		return true
	}
	return false
}

// isShare tells whether a pure number is written with a unit, as 80 % is, or is a name given so.
//
// at 80 % of something is meant as a factor far more often than 0.8 rad as a direction.
func (c *coder) isShare(x syntax.Expr) bool {
	switch x := syntax.Unbracket(x).(type) {
	case *syntax.Quantity:
		return x.Unit.Text != "1"
	case *syntax.Name:
		d, ok := c.lookup(x)
		return ok && d.Unit != nil && d.Unit != units.One
	}
	return false
}

// joined settles the result of an operation on vectors by its rule: which of its operands are
// vectors says whether that is one, and where there can be none, which is found.
//
// The rule of each operation stands in its row (ops.Vectors): a sum goes by components, a
// product needs one number, and a root takes no vector at all.
func (c *coder) joined(in *run.Instr, at syntax.Span, st *run.Static) bool {
	a, b := in.A, in.B
	// The first operand of a choice is its condition, which is a number whatever is chosen.
	if in.Op == ops.Select {
		a, b = in.B, in.C
	}
	if in.Op.Operands() < 2 {
		b = a
	}
	left, right := c.code.Statics[a], c.code.Statics[b]
	vector := left
	if !left.IsVector() {
		vector = right
	}
	if in.Op.OfVectors() == ops.Picked {
		part := left.Component()
		st.Shape, st.Width, st.Axes = part.Shape, part.Width, 0
		return true
	}
	*st = ofVector(*st)
	st.Shape, st.Width, st.Axes = vector.Shape, vector.Width, vector.Axes
	switch in.Op.OfVectors() {
	case ops.EachComponent:
		return true
	case ops.ByComponents:
		switch {
		case left.IsVector() && right.IsVector():
			if left.Width != right.Width && left.Components() == right.Components() {
				c.unequal(at, c.listName(a), left, c.listName(b), right)
				return false
			}
			return c.sameAxes(a, b, at)
		case left.Shape == run.Scalar && left.Open != 0, right.Shape == run.Scalar && right.Open != 0:
			return true // a bare 0 is the zero vector
		}
		c.refuse(finding.VectorOrNumber, at, c.listName(a)+" is "+ShapeName(left)+", "+c.listName(b)+" is "+ShapeName(right)+": they can't be put together.",
			"Use the magnitude of the vector, or its components.")
		return false
	case ops.Scaled:
		if left.Shape == run.Scalar && in.Op != ops.Div || right.Shape == run.Scalar {
			return true
		}
	}
	s := a
	if !left.IsVector() {
		s = b
	}
	c.refuse(finding.VectorOrNumber, at, c.listName(s)+" is a vector; here a number is needed.", "Use its magnitude or one of its components.")
	return false
}

// NoOneAngle says why a direction in space can't be told as an angle.
const NoOneAngle = "A vector with three components has no single angle as its direction."

// ShapeName says what values a static is of.
func ShapeName(st run.Static) string {
	switch st.Shape {
	case run.Vector:
		return "a vector"
	case run.Vectors:
		return "a list of vectors"
	case run.Scalar:
		return "a number"
	}
	return "a list"
}

// vectorSum refuses a vector that a number is added to.
//
// |v| + 3 m/s and v + (3, 0) m/s are two meanings of v + 3 m/s, and a silent choice would be a
// wrong one half of the time.
func (c *coder) vectorSum(x *syntax.Binary, a, b run.Slot) bool {
	sa, sb := c.code.Statics[a], c.code.Statics[b]
	if sa.IsVector() == sb.IsVector() || sa.Open != 0 || sb.Open != 0 {
		return false
	}
	vector, left, right := x.X, c.shown(x.X), c.shown(x.Y)
	if sb.IsVector() {
		vector = x.Y
	}
	f := finding.New(finding.VectorOrNumber, x.At, "`"+left+"` is "+ShapeName(sa)+", `"+right+"` is "+ShapeName(sb)+": they can't be "+verb(x.Op)+".",
		"Use the magnitude |"+c.shown(vector)+"|, or write both as vectors.")
	if text := c.source(vector.Span()); text != "" {
		f.Readings = []string{c.source(syntax.Span{From: x.At.From, To: vector.Span().From}) + "|" + text + "|" + c.source(syntax.Span{From: vector.Span().To, To: x.At.To})}
	}
	c.says(f)
	return true
}

// vectorProduct plans a product of which both factors are vectors, or refuses it: the sign
// says which of their two products is meant, and * does not.
func (c *coder) vectorProduct(x *syntax.Binary, a, b run.Slot) run.Slot {
	left, right := c.shown(x.X), c.shown(x.Y)
	if x.Op == syntax.Div {
		return c.refuse(finding.VectorOrNumber, x.At, "`"+right+"` is a vector, and nothing can be divided by a vector.", "Divide by its magnitude, |"+right+"|.")
	}
	c.marks(&x.Vectors, true)
	switch {
	case x.By == syntax.Dot:
		return c.dot(a, b, x.At)
	case x.By == syntax.Cross:
		return c.cross(a, b, x.At)
	}
	if _, bracket := x.Y.(*syntax.Paren); !bracket && strings.ContainsAny(right, "+-") {
		right = "(" + right + ")"
	}
	return c.refuse(finding.VectorOrNumber, x.At, "`"+left+"` and `"+right+"` are both vectors, and vectors have two products.",
		"Use the dot product · for a work, the cross product × for a torque.", left+"·"+right, left+"×"+right)
}

// threeVectors refuses a·b·c and a×b×c without brackets, whose meaning depends on them.
//
// (a×b)×c and a×(b×c) are different vectors, and a·b·c is a number times a vector in one of two
// ways.
func (c *coder) threeVectors(x *syntax.Binary) bool {
	inner, ok := x.X.(*syntax.Binary)
	if !ok || !inner.Vectors || x.Op != syntax.Mul {
		return false
	}
	first, second, third := c.shown(inner.X), c.shown(inner.Y), c.shown(x.Y)
	signs := [...]string{syntax.Star: "*", syntax.Dot: "·", syntax.Cross: "×"}
	c.refuse(finding.TwoReadings, x.At, "A product of three vectors depends on which two are multiplied first.", "Use brackets.",
		"("+first+signs[inner.By]+second+")"+signs[x.By]+third, first+signs[inner.By]+"("+second+signs[x.By]+third+")")
	return true
}

// marks notes in the tree of a line what is a vector, for whoever prints it. The trees of
// functions and formulas are shared, and are planned for other arguments too.
func (c *coder) marks(mark *bool, vector bool) {
	if c.fn == nil && *mark != vector {
		*mark = vector
	}
}
