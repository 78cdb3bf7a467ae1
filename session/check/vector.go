package check

import (
	"math"
	"strconv"

	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// ordered tells whether two sides can be compared as a check says, and says so where they
// are vectors, which have no order and no sign.
func ordered(l *eval.Line, s *syntax.CheckStmt, both sides) bool {
	vector := both.left.Static.IsVector() || both.right.Static.IsVector()
	if !vector || s.Sign == syntax.Zero || s.Sign == syntax.NoSign && s.Op == syntax.Equal {
		return true
	}
	left := syntax.PrintExpr(s.Left)
	if s.Sign != syntax.NoSign {
		l.Find(finding.New(finding.VectorOrNumber, s.Left.Span(), "`"+left+"` is a vector, which has no sign.", "Ask for the sign of a component."))
		return false
	}
	right := syntax.PrintExpr(s.Right)
	l.Find(finding.New(finding.VectorOrNumber, s.Left.Span().Join(s.Right.Span()), "Vectors are not greater or less than each other.",
		"Compare their magnitudes.", "|"+left+"| "+s.Op.String()+" |"+right+"|"))
	return false
}

// vectors settles a check of vectors, of lists of them one by one: the size of the difference
// is compared with the size of the greater, or with the margin that is given. With an
// uncertainty, each component may be off by as much as it is unsure.
func vectors(l *eval.Line, s *syntax.CheckStmt, right syntax.Expr, both sides, within eval.Got, out *entry.Verdict) {
	v := vectorCheck{Line: l, s: s, sides: &both, doubt: doubtful(l, s, both), written: [2]syntax.Expr{s.Left, right}}
	out.Holds = true
	n := int32(1)
	for _, st := range [...]run.Static{both.left.Static, both.right.Static} {
		if v.axes = max(v.axes, st.Components()); st.Shape == run.Vectors {
			n = int32(st.Len())
		}
	}
	for v.nth = range n {
		if out.Holds = v.holds(within); !out.Holds {
			v.differ(out, n > 1)
			return
		}
	}
}

// vectorCheck is a check of vectors while those with one number are compared.
type vectorCheck struct {
	*eval.Line
	s *syntax.CheckStmt
	*sides
	written [2]syntax.Expr
	doubt   func(column int32) float64
	axes    int32
	nth     int32
}

// column is that of a component on a side.
func (v *vectorCheck) column(st run.Static, axis int32) int32 {
	if st.Shape == run.Vectors {
		return axis*int32(st.Len()) + v.nth
	}
	return axis
}

// pair are the components along an axis of both sides, in coherent SI units, and the column that
// has them.
func (v *vectorCheck) pair(axis int32) (a, b float64, column int32) {
	i, j := v.column(v.left.Static, axis), v.column(v.right.Static, axis)
	return at(v.Line, v.left.Slot, i), at(v.Line, v.right.Slot, j), max(i, j)
}

// holds tells whether the two vectors are equal, as the check says.
func (v *vectorCheck) holds(within eval.Got) bool {
	apart, sizes := 0.0, [2]float64{}
	for k := range v.axes {
		a, b, i := v.pair(k)
		sizes[0], sizes[1] = math.Hypot(sizes[0], a), math.Hypot(sizes[1], b)
		apart = math.Hypot(apart, math.Max(0, math.Abs(a-b)-v.doubt(i)-off(v.Line, v.sides, i)))
	}
	margin := near * math.Max(sizes[0], sizes[1])
	switch {
	case v.s.Within != nil && v.Planner.Static(within.Slot).Dim.IsOne() && (!v.left.Static.Dim.IsOne() || isPercentage(v.s.Within)):
		return apart <= math.Abs(within.Value)*sizes[1]
	case v.s.Within != nil:
		return apart <= math.Abs(within.Value)
	case sizes[0] == 0 || sizes[1] == 0:
		for k := range v.axes {
			_, _, i := v.pair(k)
			margin = math.Max(margin, near*math.Max(largestTerm(v.Line, v.left, i), largestTerm(v.Line, v.right, i)))
		}
	}
	return apart <= margin || v.round(margin)
}

// round tells whether one side is written, and the other rounds to it.
func (v *vectorCheck) round(margin float64) bool {
	for i, written := range v.written {
		if x, ok := v.writtenOne(written).(*syntax.Polar); ok && v.turnsTo(x, 1-i) {
			return true
		}
	}
	for k := range v.axes {
		a, b, _ := v.pair(k)
		if math.Abs(a-b) > margin && !v.componentRounds(v.written[1], a, k) && !v.componentRounds(v.written[0], b, k) {
			return false
		}
	}
	return true
}

// turnsTo tells whether a side rounds to a written magnitude and direction.
func (v *vectorCheck) turnsTo(x *syntax.Polar, side int) bool {
	if v.axes != 2 {
		return false
	}
	var of [2]float64
	for k := range of {
		a, b, _ := v.pair(int32(k))
		of[k] = [...]float64{a, b}[side]
	}
	cosine, signs := x.Bearing.Turn()
	turn := math.Atan2(of[1-cosine]*float64(signs[1-cosine]), of[cosine]*float64(signs[cosine]))
	if d, u, ok := writtenQuantity(v.Line, x.Angle); ok { // 233° and -127° are one direction
		turn += 2 * math.Pi * math.Round((u.ToSI(d)-turn)/(2*math.Pi))
	}
	return roundsTo(v.Line, math.Hypot(of[0], of[1]), x.X) && roundsTo(v.Line, turn, x.Angle)
}

// writtenOne is the vector with its number of a side that is a written list, or the side.
func (v *vectorCheck) writtenOne(side syntax.Expr) syntax.Expr {
	side = syntax.Unbracket(side)
	if x, ok := side.(*syntax.List); ok && !x.Vector && int(v.nth) < len(x.Elems) {
		return syntax.Unbracket(x.Measured(int(v.nth)))
	}
	return side
}

// componentRounds tells whether a side is a written vector to whose component a value rounds.
func (v *vectorCheck) componentRounds(written syntax.Expr, si float64, axis int32) bool {
	x, ok := v.writtenOne(written).(*syntax.List)
	return ok && x.Vector && int(axis) < len(x.Elems) && !syntax.IsBareZero(x.Elems[axis]) && roundsTo(v.Line, si, x.Measured(int(axis)))
}

// differ says how far apart two vectors are, and of lists which ones.
func (v *vectorCheck) differ(out *entry.Verdict, several bool) {
	where := ""
	sides := [...]entry.Value{out.Left, out.Right}
	if several {
		where = " for value " + strconv.Itoa(int(v.nth)+1)
		for i := range sides {
			if all := sides[i].Vectors(); len(all) > 1 {
				sides[i] = all[v.nth]
			}
		}
	}
	left, other := sides[0].Shown(units.Screen), sides[1].Shown(units.Screen)
	if v.s.Sign != syntax.NoSign {
		v.Find(finding.New(finding.CheckFailed, v.s.Left.Span(), "The check does not hold"+where+": the value is "+left+", which is not zero.", ""))
		return
	}
	diff := 0.0
	for k := range v.axes {
		a, b, _ := v.pair(k)
		diff = math.Hypot(diff, a-b)
	}
	v.Find(finding.New(finding.CheckFailed, v.s.Left.Span().Join(v.written[1].Span()),
		"The check does not hold"+where+": the left side is "+left+", the right side "+other+"; their difference has the magnitude "+v.ShownIn(diff, out.Left.Unit)+".", v.slip()))
}

// alike is what part of its size two vectors may differ by that are the same but for a slip.
const alike = 5e-3

// slip says what would make the two vectors one: the sign of a component, the other direction,
// or sine for cosine.
func (v *vectorCheck) slip() string {
	size, off, turned, signs, axis := 0.0, 0.0, 0.0, 0, ""
	var a, b [len(syntax.Axes)]float64
	for k := range v.axes {
		a[k], b[k], _ = v.pair(k)
		size = math.Hypot(size, a[k])
	}
	for k := range v.axes {
		d := math.Abs(a[k] - b[k])
		if other := math.Abs(a[k] + b[k]); d > alike*size {
			signs, axis, d = signs+1, syntax.Axes[k:k+1], other
		}
		off, turned = math.Max(off, d), math.Max(turned, math.Abs(a[k]+b[k]))
	}
	switch {
	case size == 0:
	case turned <= alike*size:
		return "They point in opposite directions."
	case off <= alike*size && signs == 1:
		return "They differ in the sign of the component along " + axis + "."
	case v.axes == 2 && math.Hypot(a[0]-b[1], a[1]-b[0]) <= alike*size:
		return "The components are swapped. Is a sine where a cosine should be, or the angle from the y axis?"
	}
	return ""
}
