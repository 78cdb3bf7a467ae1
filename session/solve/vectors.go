package solve

import (
	"slices"
	"strconv"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units/writing"
)

// An equation of vectors is one for each component, and an unknown vector an unknown for
// each. So vectors are solved for by the systems of numbers that there are: m1*v1 + m2*v2 =
// (m1 + m2)*u has the component m1*v1_x + m2*v2_x = (m1 + m2)*u_x along x, and 5 N at θ has
// 5 N*cos(θ).

// vectors turns the equations of a solve into those of their components.
//
// The planner works vectors out as several columns, but an equation of vectors can't be
// rearranged so: which component of an unknown goes where depends on all of its equations. So
// the trees are written by components before they are planned, and what comes out is put
// together to vectors again.
type vectors struct {
	*eval.Line
	s *syntax.Solve
	// width is how many components there are, 0 as long as no vector has been met.
	width int
	// unknown tells which of the unknowns are vectors.
	unknown map[string]bool
	// axes are those of the equations of the components, counted from 1; 0 for one of numbers.
	axes []int8
	bad  *finding.Finding
}

// ofVectors solves a statement that has an equation of vectors; false if it has none.
//
// What is found for the components is told of the line, with its names: a reader who wrote u
// does not know u_x. Where they fail, each unknown fails by its own name, so that lines below
// that need it name this one.
func ofVectors(l *eval.Line, s *syntax.Solve) bool {
	if !hasVectors(l, s) || slices.ContainsFunc(s.Exprs(), miscalled) {
		return false
	}
	v := &vectors{Line: l, s: s, unknown: map[string]bool{}}
	for _, u := range s.Unknowns { // let F in N as a vector
		if d := vectorNamed(l, &syntax.Name{Name: u.Name}); d != nil && d.Kind == plan.Symbol {
			v.unknown[u.Name] = true
			v.wide(int(l.Planner.Static(d.Slot).Components()))
		}
	}
	parts, ok := v.components()
	var got []*plan.Def
	if ok {
		got, ok = v.solved(parts)
	}
	if v.bad != nil {
		l.Find(*v.bad)
	}
	if !ok {
		for _, u := range s.Unknowns {
			l.Fail(&plan.Def{Name: u.Name, Kind: plan.Quantity, Slot: run.NoSlot}, nil)
		}
		return true
	}
	for _, u := range s.Unknowns {
		got = got[v.give(u, got):]
	}
	return true
}

// miscalled tells whether a function has too few or too many arguments, which is told as it is
// planned: along(30°).
//
// Written by components it would have other arguments, and the finding would be about those.
func miscalled(x syntax.Expr) bool {
	return syntax.Any(x, func(x syntax.Expr) bool {
		c, ok := x.(*syntax.Call)
		if !ok {
			return false
		}
		f, ok := ops.Named(c.Func)
		return ok && f.Takes.OfVectors() && (len(c.Args) < f.Least || len(c.Args) > f.Most)
	})
}

// hasVectors tells whether a vector is in an equation or a condition of a solve. A page
// without any is not looked through for them.
//
// It is asked of every solve, so it looks in the order of what that costs: whether the page has
// anything with several columns, whether the form of an expression says it, and last what the
// functions of the page stand for. A formula that is solved by its name counts with its own
// sides.
func hasVectors(l *eval.Line, s *syntax.Solve) bool {
	all := s.Exprs()
	for _, e := range s.Equations {
		if n, ok := e.Left.(*syntax.Name); ok && e.Right == nil {
			if f, ok := l.Formula(n.Name); ok {
				all = append(all, f.Left, f.Right)
			}
		}
	}
	for _, x := range all {
		if !l.Planner.Program.Main.Wide() && !syntax.Any(x, func(x syntax.Expr) bool {
			call, called := x.(*syntax.Call)
			return writtenVector(x) || called && !ops.IsFunction(call.Func) || partOfUnknown(l, s, x) != ""
		}) {
			continue
		}
		if syntax.Any(l.Opened(x, l.Entry.Line), func(x syntax.Expr) bool {
			n, named := x.(*syntax.Name)
			return writtenVector(x) || named && vectorNamed(l, n) != nil || partOfUnknown(l, s, x) != ""
		}) {
			return true
		}
	}
	return false
}

// partOfUnknown is the unknown of which an expression is a component, v of v_x, unless v_x is
// asked for itself or has a value of its own; else "".
//
// So solve v_x = 3 m/s and |v| = 5 m/s for v asks for the whole vector by one of its
// components; with v_x among the unknowns itself, that is a number like any other.
func partOfUnknown(l *eval.Line, s *syntax.Solve, x syntax.Expr) string {
	n, ok := x.(*syntax.Name)
	if !ok || n.Line != 0 {
		return ""
	}
	base, _, part := plan.AxisOf(n.Name)
	if !part || !s.Asks(base) || s.Asks(n.Name) {
		return ""
	}
	if own, ok := l.Planner.Names.Lookup(n.Name); ok && own.Vector == nil && !own.Failed() {
		return ""
	}
	return base
}

// writtenVector tells whether an expression is a vector, or a function of vectors, by its form.
//
// The magnitude of something is left out: |x| is a number for vectors and numbers alike, and
// says of x nothing.
func writtenVector(x syntax.Expr) bool {
	switch x := x.(type) {
	case *syntax.List:
		return x.Vector
	case *syntax.Polar:
		return true
	case *syntax.Call:
		f, _ := ops.Named(x.Func)
		return f.Takes.OfVectors() && f.Takes != ops.VectorToSize
	}
	return false
}

// vectorNamed is the vector that a name stands for, or the list of them, or nil.
func vectorNamed(l *eval.Line, n *syntax.Name) *plan.Def {
	d, ok := l.Planner.Find(n)
	if !ok || d.Failed() || d.Slot == run.NoSlot || !l.Planner.Static(d.Slot).IsVector() {
		return nil
	}
	return d
}

// refuse keeps the first thing that is wrong.
//
// One is enough: what is wrong with one term makes others look wrong too.
func (v *vectors) refuse(id finding.ID, at syntax.Span, message, hint string) {
	if v.bad == nil {
		f := finding.New(id, at, message, hint)
		v.bad = &f
	}
}

// asks tells whether a name is an unknown.
//
// Only a name without a line is one: v@3 is what v was in line 3, whatever is asked now.
func (v *vectors) asks(x syntax.Expr) (string, bool) {
	n, ok := x.(*syntax.Name)
	if !ok || n.Line != 0 {
		return "", false
	}
	return n.Name, v.s.Asks(n.Name)
}

// holdsUnknown tells whether an unknown stands in an expression.
//
// Parts without an unknown are worked out as they are, and need no component in symbols.
func (v *vectors) holdsUnknown(x syntax.Expr) bool {
	return syntax.Any(x, func(x syntax.Expr) bool { _, ok := v.asks(x); return ok })
}

// isVector tells whether an expression is a vector whatever the unknowns are, but for those
// that are known to be vectors.
//
// It also notes how many components the vectors have, as it meets them. A product of two
// vectors is a number, but for the cross product in space; a quotient is a vector if what is
// above the bar is one.
func (v *vectors) isVector(x syntax.Expr) bool {
	switch x := x.(type) {
	case *syntax.Paren:
		return v.isVector(x.X)
	case *syntax.Unary:
		return v.isVector(x.X)
	case *syntax.Polar:
		v.wide(2)
		return true
	case *syntax.List:
		if x.Vector {
			v.wide(len(x.Elems))
		}
		return x.Vector
	case *syntax.Name:
		if name, ok := v.asks(x); ok {
			return v.unknown[name]
		}
		d := vectorNamed(v.Line, x)
		if d != nil {
			v.wide(int(v.Planner.Static(d.Slot).Components()))
		}
		return d != nil
	case *syntax.Binary:
		switch left, right := v.isVector(x.X), x.Op != syntax.Pow && v.isVector(x.Y); x.Op {
		case syntax.Add, syntax.Sub:
			return left || right
		case syntax.Mul:
			return left != right || left && right && x.By == syntax.Cross && v.width == 3
		case syntax.Div:
			return left
		}
	case *syntax.Call:
		f, _ := ops.Named(x.Func)
		vectors, kept := false, together(x) && f.Takes != ops.ListToCount
		for i := 0; i < len(x.Args) && (kept || f.Takes.OfVectors()); i++ { // how many components they have
			vectors = v.isVector(x.Args[i].X) || vectors
		}
		return kept && vectors || f.Takes == ops.VectorToUnit || f.Takes == ops.VectorsToCross && vectors && v.width == 3
	}
	return false
}

// wide notes a vector of n components: the widest of the statement says how many it is solved by.
func (v *vectors) wide(n int) { v.width = max(v.width, n) }

// mustBe notes which unknowns are vectors where an expression is one: the terms of a sum,
// and in a product the one factor that can be.
//
// In F1 + F2 + N = 0, where F1 is a vector, N must be one. Of a product such as m*a in which
// neither factor is known to be a vector it is the one that holds an unknown, as a is in m*a =
// F1.
func (v *vectors) mustBe(x syntax.Expr) {
	switch x := x.(type) {
	case *syntax.Paren:
		v.mustBe(x.X)
	case *syntax.Unary:
		v.mustBe(x.X)
	case *syntax.Name:
		if name, ok := v.asks(x); ok {
			v.unknown[name] = true
		}
	case *syntax.Binary:
		switch {
		case x.Op == syntax.Add, x.Op == syntax.Sub:
			v.mustBe(x.X)
			v.mustBe(x.Y)
		case x.Op == syntax.Div:
			v.mustBe(x.X)
		case x.Op != syntax.Mul || v.isVector(x.X) || v.isVector(x.Y):
		case v.holdsUnknown(x.Y):
			v.mustBe(x.Y)
		default:
			v.mustBe(x.X)
		}
	}
}

// product notes that in P·Q = 3 J, where the other side is a number, both factors are vectors,
// as they are in r×F = 3 N m of the plane.
//
// A component of a vector that is perpendicular is 0, so that P·Q = 0 says nothing of what the
// factors are: a bare 0 is left out here.
func (v *vectors) product(side, other syntax.Expr) {
	b, ok := syntax.Unbracket(side).(*syntax.Binary)
	if ok && b.Op == syntax.Mul && (b.By == syntax.Dot || b.By == syntax.Cross && v.width == 2) && v.isVector(b) &&
		!syntax.IsZero(other) && !v.holdsUnknown(other) && !v.isVector(other) {
		v.mustBe(b.X)
		v.mustBe(b.Y)
	}
}

// usedAsVectors notes which unknowns are vectors by how they are used: a component of theirs
// stands in an equation, or a function of vectors takes them. |w| may be of a number.
func (v *vectors) usedAsVectors(x syntax.Expr) {
	for x := range syntax.Nodes(x) {
		switch x := x.(type) {
		case *syntax.Name:
			if whole := partOfUnknown(v.Line, v.s, x); whole != "" {
				v.unknown[whole] = true
			}
		case *syntax.Call:
			f, _ := ops.Named(x.Func)
			if f.Takes.OfVectors() && f.Takes != ops.VectorToSize {
				v.mustBe(x.Args[0].X)
			}
			if f.Takes == ops.VectorsToAngle || f.Takes == ops.VectorsToDot || f.Takes == ops.VectorsToCross {
				v.mustBe(x.Args[1].X)
			}
		}
	}
}

// components are the statement with its equations and unknowns by components.
//
// What an unknown is can follow from another equation than the one it is met in, so they are
// gone through as often as there are unknowns. A chain of n unknowns needs n rounds and no
// more.
//
// The counts are compared here, by components, since m1*v1 + m2*v2 = (m1 + m2)*u is one
// equation with one unknown as it is written, and two with two as it is solved.
func (v *vectors) components() (*syntax.Solve, bool) {
	var bound []string
	for _, u := range v.s.Unknowns {
		bound = append(bound, u.Name)
	}
	opened := make([]syntax.Equation, len(v.s.Equations))
	for i, e := range v.s.Equations {
		sides, ok := (&solving{Line: v.Line, s: v.s}).sides(e)
		if !ok {
			return nil, false
		}
		opened[i] = syntax.Equation{Left: v.Opened(sides.Left, v.Entry.Line, bound...), Right: v.Opened(sides.Right, v.Entry.Line, bound...)}
	}
	for range 1 + len(v.s.Unknowns) { // what one equation says of an unknown, another may need
		for _, e := range opened {
			v.usedAsVectors(e.Left)
			v.usedAsVectors(e.Right)
			v.product(e.Left, e.Right)
			v.product(e.Right, e.Left)
			if v.isVector(e.Left) || v.isVector(e.Right) {
				v.mustBe(e.Left)
				v.mustBe(e.Right)
			}
		}
	}
	if v.width == 0 { // direction(q) = 30° says nothing of space
		v.width = 2
	}
	out := *v.s
	// What was equated as a number stays one equation; between vectors there is one for each
	// axis, in their order, so that the working can name the axis of each.
	out.Equations, out.Unknowns, out.Where, out.With = nil, nil, nil, nil
	for _, e := range opened {
		left, right := v.isVector(e.Left), v.isVector(e.Right)
		if !left && !right {
			out.Equations, v.axes = append(out.Equations, syntax.Equation{Left: v.number(e.Left), Right: v.number(e.Right)}), append(v.axes, 0)
			continue
		}
		for _, side := range [...]struct {
			x      syntax.Expr
			vector bool
		}{{e.Left, left}, {e.Right, right}} {
			if !side.vector && !syntax.IsZero(side.x) {
				v.refuse(finding.VectorOrNumber, side.x.Span(), "`"+syntax.PrintExpr(side.x)+"` is a number, and the other side of the equation is a vector.", "Write an equation for one component.")
			}
		}
		for k := range v.width {
			out.Equations, v.axes = append(out.Equations, syntax.Equation{Left: v.part(e.Left, k), Right: v.part(e.Right, k)}), append(v.axes, int8(k+1))
		}
	}
	for _, u := range v.s.Unknowns {
		if !v.unknown[u.Name] {
			if !u.In.Present() && v.turns(u.Name, opened) {
				u.In = syntax.UnitText{Text: "°", At: u.NameAt}
			}
			out.Unknowns = append(out.Unknowns, u)
			continue
		}
		if !v.MayDefine(u.Name, u.NameAt, plan.Quantity) {
			return nil, false
		}
		for k := range v.width {
			part := u
			part.Name = axis(u.Name, k)
			out.Unknowns = append(out.Unknowns, part)
		}
	}
	for _, c := range v.s.Where {
		c.Left, c.Right = v.number(c.Left), v.number(c.Right)
		out.Where = append(out.Where, c)
	}
	if v.bad != nil {
		return nil, false
	}
	if n, m := len(out.Equations), len(out.Unknowns); n != m {
		v.refuse(finding.NotSolved, v.s.Unknowns[0].NameAt, "In components, this makes "+writing.Count(n, "equation")+" for "+writing.Count(m, "unknown")+".",
			"A vector counts as "+strconv.Itoa(v.width)+" unknowns. Ask for as many as there are equations, or solve for one component.")
		return nil, false
	}
	return &out, true
}

// turns tells whether an unknown is the direction of a vector, which is shown in degrees.
//
// An angle that was not asked in a unit would be shown in radians; a direction is read off a
// protractor.
func (v *vectors) turns(name string, in []syntax.Equation) bool {
	return slices.ContainsFunc(in, func(e syntax.Equation) bool {
		return slices.ContainsFunc([]syntax.Expr{e.Left, e.Right}, func(x syntax.Expr) bool {
			return syntax.Any(x, func(x syntax.Expr) bool {
				switch x := x.(type) {
				case *syntax.Polar:
					return syntax.Holds(x.Angle, name)
				case *syntax.Call:
					f, _ := ops.Named(x.Func)
					return (f.Takes == ops.VectorAlong || f.Takes == ops.VectorAcross) && syntax.Holds(x.Args[1].X, name)
				}
				return false
			})
		})
	})
}

// axis is the name of a component.
//
// v_x, v_y and v_z, as the lines of the page call the components of v.
func axis(name string, k int) string { return name + "_" + syntax.Axes[k:k+1] }

// solved solves the equations of the components, and returns the definitions of those, in
// the order of the unknowns.
//
// The name of an unknown vector must mean nothing meanwhile: F may have had a value above, and
// its component F_x would be found there.
func (v *vectors) solved(parts *syntax.Solve) ([]*plan.Def, bool) {
	m := v.Planner.Mark()
	for name := range v.unknown { // what it was before says nothing of its components
		v.Planner.Define(&plan.Def{Name: name, Kind: plan.Symbol, Slot: run.NoSlot})
	}
	e := &entry.Entry{Line: v.Entry.Line, Text: v.Entry.Text, Stmt: parts, By: v.Entry.By}
	got := ofNumbers(&eval.Line{Page: v.Page, Entry: e, Start: v.Planner.Size()}, parts, len(v.unknown) > 0)
	v.Planner.Lift(m, 0, 0)
	v.Entry.Uses = e.Uses
	failed := len(got) == 0 || slices.ContainsFunc(got, func(d *plan.Def) bool { return d.Slot == run.NoSlot })
	v.Find(e.Findings...)
	v.Entry.By = &eval.ByComponents{Worker: v.Entry.By, Of: e, Axes: v.axes}
	if rows, symbols := e.Outcome.(entry.Lines); symbols {
		v.Entry.Outcome = rows
	}
	return got, !failed
}

// give makes a definition of an unknown, of the definitions of its components or its own,
// and tells how many those are.
//
// The dimension of a vector is that of its components. One that came out as a bare 0 has none
// of its own, and takes that of the others.
func (v *vectors) give(u syntax.Unknown, got []*plan.Def) int {
	d, n := &plan.Def{Name: u.Name, Kind: plan.Quantity, Slot: got[0].Slot, Unit: got[0].Unit}, 1
	if v.unknown[u.Name] {
		n = v.width
		slots := make([]run.Slot, n)
		for k := range slots {
			slots[k] = got[k].Slot
			if v.Planner.Static(d.Slot).Open != 0 { // a bare 0 leaves unit and dimension to the others
				d.Slot, d.Unit = got[k].Slot, got[k].Unit
			}
		}
		v.Planner.SettleTo(slots[0], v.Planner.Static(d.Slot).Dim)
		d.Slot = v.Planner.Vector(slots)
	}
	v.CatchUp()
	if v.Planner.Static(d.Slot).Absent {
		v.Settle(d)
		return n
	}
	value, ok := v.NewValue(u.Name, &syntax.Name{Name: u.Name}, d.Slot, d.Unit)
	if !ok {
		v.Fail(d, nil)
		return n
	}
	r := v.Entry.Give(value)
	r.Shows, r.Records = true, true
	v.GivenAgain(u.Name, u.NameAt, true)
	v.Settle(d)
	v.KeepsComponents(d, u.NameAt)
	return n
}
