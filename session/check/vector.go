package check

import (
	"math"

	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// signs are those that vectors have no use for.
var signs = map[syntax.Comparison]string{syntax.Less: "<", syntax.Greater: ">", syntax.AtMost: "≤", syntax.AtLeast: "≥"}

// ordered tells whether two sides can be compared as a check says, and says so where they
// are vectors, which have no order and no sign.
func ordered(l *eval.Line, s *syntax.CheckStmt, both sides) bool {
	vector := both.left.Static.Shape == run.Vector || both.right.Static.Shape == run.Vector
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
		"Compare their magnitudes.", "|"+left+"| "+signs[s.Op]+" |"+right+"|"))
	return false
}

// vectors settles a check of two vectors: the size of their difference is compared with the
// size of the greater, or with the margin that is given. With an uncertainty, each component
// may be off by as much as it is unsure.
func vectors(l *eval.Line, s *syntax.CheckStmt, right syntax.Expr, both sides, within eval.Got, out *entry.Verdict) {
	doubt, width := doubtful(l, s, both), max(both.left.Static.Width, both.right.Static.Width)
	apart, sizes := 0.0, [2]float64{}
	for i := range width {
		a, b := at(l, both.left.Slot, i), at(l, both.right.Slot, i)
		sizes[0], sizes[1] = math.Hypot(sizes[0], a), math.Hypot(sizes[1], b)
		apart = math.Hypot(apart, math.Max(0, math.Abs(a-b)-doubt(i)-off(l, &both, i)))
	}
	margin := near * math.Max(sizes[0], sizes[1])
	switch {
	case s.Within != nil && l.Planner.Static(within.Slot).Dim.IsOne() && (!both.left.Static.Dim.IsOne() || isPercentage(s.Within)):
		margin = math.Abs(within.Value) * sizes[1]
	case s.Within != nil:
		margin = math.Abs(within.Value)
	case sizes[0] == 0 || sizes[1] == 0:
		for i := range width {
			margin = math.Max(margin, near*math.Max(largestTerm(l, both.left, i), largestTerm(l, both.right, i)))
		}
	}
	rounded := s.Within == nil
	for i := int32(0); i < width && rounded; i++ {
		a, b := at(l, both.left.Slot, i), at(l, both.right.Slot, i)
		rounded = math.Abs(a-b) <= margin || componentRounds(l, right, a, i) || componentRounds(l, s.Left, b, i)
	}
	if out.Holds = apart <= margin || rounded; !out.Holds {
		vectorsDiffer(l, s, right, both, out)
	}
}

// componentRounds tells whether a side is a written vector to whose component a value rounds.
func componentRounds(l *eval.Line, written syntax.Expr, si float64, i int32) bool {
	x, ok := syntax.Unbracket(written).(*syntax.List)
	return ok && x.Vector && int(i) < len(x.Elems) && !eval.IsZero(x.Elems[i]) && roundsTo(l, si, x.Measured(int(i)))
}

// vectorsDiffer says how far apart two vectors are.
func vectorsDiffer(l *eval.Line, s *syntax.CheckStmt, right syntax.Expr, both sides, out *entry.Verdict) {
	left, other := out.Left.Shown(units.Screen), out.Right.Shown(units.Screen)
	if s.Sign != syntax.NoSign {
		l.Find(finding.New(finding.CheckFailed, s.Left.Span(), "The check does not hold: the value is "+left+", which is not zero.", ""))
		return
	}
	diff := 0.0
	for i := range max(both.left.Static.Width, both.right.Static.Width) {
		diff = math.Hypot(diff, at(l, both.left.Slot, i)-at(l, both.right.Slot, i))
	}
	l.Find(finding.New(finding.CheckFailed, s.Left.Span().Join(right.Span()),
		"The check does not hold: the left side is "+left+", the right side "+other+"; their difference has the magnitude "+l.ShownIn(diff, out.Left.Unit)+".", ""))
}
