// Package check works out the statements that judge and report: checks of two
// quantities or of a sign, and answers in the unit and figures asked for.
package check

import (
	"math"
	"slices"
	"strconv"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// near is how close two sides of a check must be where nothing else is asked,
// as a part of the larger.
const near = 1e-9

// Check compares two quantities, or asks for a sign.
func Check(l *eval.Line, s *syntax.CheckStmt) {
	right := s.Right
	if s.Sign != syntax.NoSign {
		sign := [...]string{"", "<", ">", "="}[s.Sign]
		if signOfTemperature(l, s.Left, "check "+syntax.PrintExpr(s.Left)+" "+sign+" ", "") {
			return
		}
		right = &syntax.Number{At: s.Left.Span()}
	}
	both, ok := planned(l, s.Left, right)
	var within eval.Got
	if s.Within != nil {
		within = l.Eval(s.Within, eval.Want{})
		if !within.OK || ok && !withinFits(l, s, both, within) {
			return
		}
	}
	if !ok || !ordered(l, s, both) {
		return
	}
	if both.run(l, "The check", s.Left) {
		compare(l, s, right, both, within)
	}
}

// signOfTemperature asks which 0 is meant where the sign of a temperature in °C is asked for; the
// line is the text before that 0 and behind it.
func signOfTemperature(l *eval.Line, x syntax.Expr, before, behind string) bool {
	if l.Try(x).Static.Heat != run.Point {
		return false
	}
	l.Find(finding.New(finding.TwoReadings, syntax.Span{To: len(l.Entry.Text)}, "A temperature in °C is above or below 0 °C, or 0 K.", "Write which 0 is meant.",
		before+"0 °C"+behind, before+"0 K"+behind))
	return true
}

// planned plans two sides, which must be of one kind; false, which is found, where they
// are not.
func planned(l *eval.Line, left, right syntax.Expr) (sides, bool) {
	both := sides{left: l.Plan(left, eval.Want{}), right: l.Plan(right, eval.Want{})}
	if both.left.Slot == run.NoSlot || both.right.Slot == run.NoSlot {
		return both, false
	}
	fs := l.Planner.Meet(left, right, &both.left, &both.right, l.Entry.Text)
	l.Find(fs...)
	return both, len(fs) == 0 && !openTurns(l, left, right, both)
}

// run works both sides out, each a value of its own, 0 where it is 0 but for rounding.
func (both *sides) run(l *eval.Line, what string, left syntax.Expr) bool {
	for _, side := range []plan.Compiled{both.right, both.left} {
		if got := l.Run(nil, eval.Want{Lists: true}, side); !got.OK {
			return false
		}
	}
	if both.left.Static.Absent || both.right.Static.Absent {
		l.NoValueYet(what, left, both.left)
		return false
	}
	return true
}

// openTurns tells whether one side counts turns, and the other may count radians.
func openTurns(l *eval.Line, left, right syntax.Expr, of sides) bool {
	angles := of.left.Static.Tag == units.Angle && of.right.Static.Tag == units.Angle
	return !angles && !syntax.IsBareZero(right) && l.OpenSides(left, right, nil, append(slices.Clone(of.left.Uses), of.right.Uses...))
}

// sides are the two sides of a check, planned.
type sides struct {
	left, right plan.Compiled
	// off is how far the elements of each may be off for rounding; nil until that is
	// asked.
	off [2][]float64
}

// withinFits tells whether the margin of a check is a part, or a quantity of
// the dimension of the sides.
func withinFits(l *eval.Line, s *syntax.CheckStmt, both sides, within eval.Got) bool {
	margin, side := l.Planner.Static(within.Slot), both.left.Static
	if n, bare := s.Within.(*syntax.Number); bare && side.Open == 0 && !side.Dim.IsOne() {
		unit := units.Preferred(side.Dim, side.Tag).Text()
		l.Find(finding.New(finding.TwoReadings, n.At, "The margin "+n.Value.Text+" has no unit: it may be a part of the value, or a quantity.",
			"Write % or a unit.", n.Value.Text+" %", n.Value.Text+" "+unit))
		return false
	}
	if within.Value < 0 {
		l.Find(finding.New(finding.NotWritten, s.Within.Span(), "A margin has no minus: it goes both ways.", "Leave the minus out, or compare with < and >."))
		return false
	}
	if margin.Dim.IsOne() || margin.Dim == side.Dim || margin.Open != 0 || side.Open != 0 {
		return true
	}
	l.Find(finding.New(finding.UnlikeDimensions, s.Within.Span(),
		"The sides are "+plan.Words(side)+"; the margin is "+plan.Words(margin)+".",
		"Write the margin in %, or in the unit of the sides."))
	return false
}

// compare settles a check whose sides have values.
func compare(l *eval.Line, s *syntax.CheckStmt, right syntax.Expr, both sides, within eval.Got) {
	unit := checkUnit(l, s.Left, right, both)
	left, ok1 := l.NewValue("", s.Left, both.left.Slot, unit)
	other, ok2 := l.NewValue("", right, both.right.Slot, unit)
	if !ok1 || !ok2 {
		return
	}
	out := &entry.Verdict{Left: left, Right: other, OfSign: s.Sign != syntax.NoSign}
	_, _, leftWritten := writtenQuantity(l, s.Left)
	_, _, rightWritten := writtenQuantity(l, right)
	doubt := doubtful(l, s, both)
	oneWritten := s.Op == syntax.Equal && s.Within == nil && leftWritten != rightWritten
	out.Holds = true
	l.Entry.Outcome = out
	if both.left.Static.IsVector() || both.right.Static.IsVector() {
		vectors(l, s, right, both, within, out)
		return
	}
	for i := range max(both.left.Static.Width, both.right.Static.Width) {
		left, other := element(left, i), element(other, i)
		holds, doubt := false, doubt(i)
		oneWritten := oneWritten && doubt == 0
		switch {
		case s.Sign != syntax.NoSign:
			holds = signs[s.Sign].Holds(left.SI, 0, near*largestTerm(l, both.left, i), off(l, &both, i))
		case oneWritten && rightWritten && !syntax.IsBareZero(right):
			holds = roundsTo(l, left.SI, right)
		case oneWritten && leftWritten && !syntax.IsBareZero(s.Left):
			holds = roundsTo(l, other.SI, s.Left)
		default:
			holds = s.Op.Holds(left.SI, other.SI, margin(l, s, both, within, i)+doubt, off(l, &both, i))
		}
		if !holds {
			out.Holds = false
			checkFailed(l, s, left, other, out, int(i)+1)
			return
		}
	}
	switch {
	case s.Sign != syntax.NoSign:
	case s.Op == syntax.Equal:
		toOnePlace(&out.Left, &out.Right)
	default:
		tellApart(&out.Left, &out.Right)
	}
}

// tellApart shows two values that differ with as many figures as that takes: 5.49 kg is
// less than 5.50 kg, which 5.5 kg on both sides would not show.
func tellApart(a, b *entry.Value) {
	if a.List != nil || b.List != nil || a.U > 0 || b.U > 0 || math.Abs(a.SI-b.SI) <= near*max(math.Abs(a.SI), math.Abs(b.SI)) {
		return
	}
	for n := 2; n < 12 && a.Shown(units.Screen) == b.Shown(units.Screen); n++ {
		a.Figures, b.Figures = units.Figures{N: n, Keep: true}, units.Figures{N: n, Keep: true}
	}
}

// toOnePlace shows two values, of which one has the figures that its givens support, to the
// finer of their last places: 1.7×10² and 2×10², if they are equal, would look unequal, and
// 3.2 beside 3.18 hides how far apart they are.
func toOnePlace(a, b *entry.Value) {
	for _, v := range [...]*entry.Value{a, b} {
		if !a.Figures.Givens && !b.Figures.Givens || v.List != nil || v.U > 0 || v.InUnit == 0 {
			return
		}
	}
	place := min(a.Figures.LastPlace(a.InUnit, a.Rounding), b.Figures.LastPlace(b.InUnit, b.Rounding))
	for _, v := range [...]*entry.Value{a, b} {
		v.Figures = v.Figures.ToPlace(v.InUnit, place)
	}
}

// doubtful finds how far apart elements i of the sides of a check may be for their
// uncertainties, where no margin is given: what both depend on is in their difference but
// once.
func doubtful(l *eval.Line, s *syntax.CheckStmt, both sides) func(i int32) float64 {
	if s.Within != nil || !l.Planner.Unsure {
		return func(int32) float64 { return 0 }
	}
	left, right := l.Depends(both.left.Slot), l.Depends(both.right.Slot)
	return func(i int32) float64 { return eval.SureBy * l.Off(eval.At(left, i).Minus(eval.At(right, i))) }
}

// element is element i of a side; one value serves for all.
func element(v entry.Value, i int32) entry.Value {
	if v.List == nil {
		return v
	}
	return v.Element(int(i))
}

// at is element i of a slot, in SI units; one value serves for all.
func at(l *eval.Line, s run.Slot, i int32) float64 {
	all := l.State.Elements(s)
	return all[min(int(i), len(all)-1)]
}

// margin is how far apart elements i of the sides may be, in SI units.
func margin(l *eval.Line, s *syntax.CheckStmt, both sides, within eval.Got, i int32) float64 {
	left, right := at(l, both.left.Slot, i), at(l, both.right.Slot, i)
	if s.Within != nil {
		by := math.Abs(within.Value)
		if l.Planner.Static(within.Slot).Dim.IsOne() && (!both.left.Static.Dim.IsOne() || isPercentage(s.Within)) {
			return by * math.Abs(right)
		}
		return by
	}
	switch {
	case right == 0:
		return near * largestTerm(l, both.left, i)
	case left == 0:
		return near * largestTerm(l, both.right, i)
	}
	return near * math.Max(math.Abs(left), math.Abs(right))
}

// off is how far apart elements i of the sides may be for rounding alone; 0 where
// they are farther apart than rounding ever moves what keeps its first figures.
func off(l *eval.Line, both *sides, i int32) float64 {
	left, right := at(l, both.left.Slot, i), at(l, both.right.Slot, i)
	if math.Abs(left-right) > 1e-6*math.Max(math.Abs(left), math.Abs(right)) {
		return 0
	}
	if both.off[0] == nil {
		p := &l.Planner.Program
		both.off = [2][]float64{p.Off(&l.State, both.left.Slot), p.Off(&l.State, both.right.Slot)}
	}
	a, b := both.off[0], both.off[1]
	return a[min(int(i), len(a)-1)] + b[min(int(i), len(b)-1)]
}

// largestTerm is the greatest term of the sum that a side is.
func largestTerm(l *eval.Line, c plan.Compiled, i int32) float64 {
	most := 0.0
	for _, t := range l.Planner.Terms(c) {
		most = math.Max(most, math.Abs(at(l, t, i)))
	}
	return most
}

// signs are how a number of a sign compares with 0.
var signs = map[syntax.SignWord]syntax.Comparison{syntax.Negative: syntax.Less, syntax.Positive: syntax.Greater, syntax.Zero: syntax.Equal}

// checkUnit is the unit in which both sides of a check are shown.
func checkUnit(l *eval.Line, left, right syntax.Expr, both sides) *units.Unit {
	for _, x := range []syntax.Expr{right, left} {
		if u := l.WrittenUnit(x); u != nil && u.Dim() == both.left.Static.Dim {
			return u
		}
	}
	for _, x := range []syntax.Expr{left, right} {
		if u := l.RememberedUnit(x); u != nil && u.Dim() == both.left.Static.Dim && !u.Affine() {
			return u
		}
	}
	if dim := both.left.Static.Dim; l.IsMoment(left, dim) || l.IsMoment(right, dim) {
		return units.Of("N m")
	}
	return units.Preferred(both.left.Static.Dim, both.left.Static.Tag)
}

// checkFailed says how far apart the sides of a check are; of lists, those elements of
// which it is the first not to hold.
func checkFailed(l *eval.Line, s *syntax.CheckStmt, a, b entry.Value, out *entry.Verdict, nth int) {
	where := ""
	if out.Left.List != nil || out.Right.List != nil {
		where = " for value " + strconv.Itoa(nth)
	}
	toOnePlace(&a, &b)
	tellApart(&a, &b)
	left := a.Shown(units.Screen)
	at := s.Left.Span()
	if s.Sign != syntax.NoSign {
		word := [...]string{"", "negative", "positive", "zero"}[s.Sign]
		l.Find(finding.New(finding.CheckFailed, at, "The check does not hold"+where+": the value is "+left+", which is not "+word+".", ""))
		return
	}
	at = at.Join(s.Right.Span())
	right := b.Shown(units.Screen)
	hint := ""
	msg := "The check does not hold" + where + ": the left side is " + left + ", the right side " + right
	if left == right && math.Abs(a.SI-b.SI) <= near*math.Abs(b.SI) {
		msg = "The check does not hold" + where + ": both sides are " + left
	} else if part, held := percent(a.SI-b.SI, b.SI); held && a.SI != b.SI {
		word := "more"
		if part < 0 {
			word, part = "less", -part
		}
		msg += "; the left is " + units.FormatNumber(part, units.Figures{N: 3}, units.HalfAway, units.Screen) + " % " + word
		if part < 1 && s.Within == nil && s.Op == syntax.Equal {
			hint = "If a value above is rounded, allow for it: `" + l.Entry.Text + " within 1 %`."
		}
	}
	l.Find(finding.New(finding.CheckFailed, at, msg+".", hint))
}
