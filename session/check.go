package session

import (
	"math"
	"math/big"
	"strconv"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// near is how close two sides of a check must be where nothing else is asked,
// as a part of the larger.
const near = 1e-9

// check compares two quantities, or asks for a sign.
func (w *work) check(s *syntax.CheckStmt) {
	right := s.Right
	if s.Sign != syntax.NoSign {
		right = &syntax.Number{At: s.Left.Span()}
	}
	both := w.planner.CompileBoth(s.Left, right, w.e.Text)
	w.find(both.Findings...)
	w.uses(both.Left.Uses, s.Left.Span())
	w.uses(both.Right.Uses, right.Span())
	var within Got
	if s.Within != nil {
		within = w.Eval(s.Within, Want{})
		if !within.OK || both.OK && !w.withinFits(s, both, within) {
			return
		}
	}
	if !both.OK {
		return
	}
	if w.CatchUp(); !w.HasValue(both.Right.Slot) || !w.HasValue(both.Left.Slot) {
		return
	}
	if both.Left.Static.Absent || both.Right.Static.Absent {
		w.noValueYet("The check", s.Left, both.Left)
		return
	}
	w.compare(s, right, both, within)
}

// withinFits tells whether the margin of a check is a part, or a quantity of
// the dimension of the sides.
func (w *work) withinFits(s *syntax.CheckStmt, both plan.Compared, within Got) bool {
	margin, side := w.planner.Static(within.Slot), both.Left.Static
	if n, bare := s.Within.(*syntax.Number); bare && side.Open == 0 && !side.Dim.IsOne() {
		unit := units.Preferred(side.Dim, side.Tag).Text()
		w.find(finding.New(finding.TwoReadings, n.At, "A margin of "+n.Value.Text+" can be read in two ways: as a part of the value, or as a quantity.",
			"Write its unit.", n.Value.Text+" %", n.Value.Text+" "+unit))
		return false
	}
	if margin.Dim.IsOne() || margin.Dim == side.Dim || margin.Open != 0 || side.Open != 0 {
		return true
	}
	w.find(finding.New(finding.UnlikeDimensions, s.Within.Span(),
		"The sides are "+plan.Words(side)+"; the margin is "+plan.Words(margin)+".",
		"Give the margin as a percentage, or in the unit of the sides."))
	return false
}

// compare settles a check whose sides have values.
func (w *work) compare(s *syntax.CheckStmt, right syntax.Expr, both plan.Compared, within Got) {
	unit := w.checkUnit(s, right, both)
	l, ok1 := w.newValue("", s.Left, both.Left, unit)
	r, ok2 := w.newValue("", right, both.Right, unit)
	if !ok1 || !ok2 {
		return
	}
	out := &entry.Verdict{Left: l}
	if s.Sign == syntax.NoSign {
		out.Right = &r
	}
	margin := w.margin(s, both, within)
	switch {
	case s.Sign != syntax.NoSign:
		out.Holds = signHolds(s.Sign, l.SI, near*w.largestTerm(both.Left))
	case s.Op == syntax.Equal && s.Within == nil && isQuantity(right) && !isZero(right) && !isQuantity(s.Left):
		out.Holds = w.roundsTo(l.SI, right)
	case s.Op == syntax.Equal && s.Within == nil && isQuantity(s.Left) && !isZero(s.Left) && !isQuantity(right):
		out.Holds = w.roundsTo(r.SI, s.Left)
	default:
		out.Holds = compareHolds(s.Op, l.SI, r.SI, margin)
	}
	w.e.Outcome = out
	if !out.Holds {
		w.checkFailed(s, out)
	}
}

// margin is how far apart the sides may be, in SI units.
func (w *work) margin(s *syntax.CheckStmt, both plan.Compared, within Got) float64 {
	l, r := w.state.Vals[both.Left.Slot], w.state.Vals[both.Right.Slot]
	if s.Within != nil {
		by := math.Abs(within.Value)
		if w.planner.Static(within.Slot).Dim.IsOne() && (!both.Left.Static.Dim.IsOne() || isPercentage(s.Within)) {
			return by * math.Abs(r)
		}
		return by
	}
	switch {
	case r == 0:
		return near * w.largestTerm(both.Left)
	case l == 0:
		return near * w.largestTerm(both.Right)
	}
	return near * math.Max(math.Abs(l), math.Abs(r))
}

// largestTerm is the greatest term of the sum that a side is.
func (w *work) largestTerm(c plan.Compiled) float64 {
	most := 0.0
	for _, t := range c.Terms {
		most = math.Max(most, math.Abs(w.state.Vals[t]))
	}
	return most
}

func compareHolds(op syntax.Comparison, l, r, margin float64) bool {
	switch op {
	case syntax.Less:
		return l < r
	case syntax.Greater:
		return l > r
	case syntax.AtMost:
		return l <= r+margin
	case syntax.AtLeast:
		return l >= r-margin
	}
	return math.Abs(l-r) <= margin
}

func signHolds(sign syntax.SignWord, v, margin float64) bool {
	switch sign {
	case syntax.Negative:
		return v < -margin || v < 0 && margin == 0
	case syntax.Positive:
		return v > margin || v > 0 && margin == 0
	}
	return math.Abs(v) <= margin
}

// isQuantity tells whether a side of a check is one written quantity.
func isQuantity(x syntax.Expr) bool {
	switch x := x.(type) {
	case *syntax.Quantity, *syntax.Number:
		return true
	case *syntax.Unary:
		return isQuantity(x.X)
	case *syntax.Paren:
		return isQuantity(x.X)
	}
	return false
}

func isZero(x syntax.Expr) bool {
	n, ok := x.(*syntax.Number)
	return ok && n.Value.Hi == 0
}

// isPercentage tells whether a margin is written with % or ppm.
func isPercentage(x syntax.Expr) bool {
	q, ok := x.(*syntax.Quantity)
	return ok && (q.Unit.Text == "%" || q.Unit.Text == "ppm" || q.Unit.Text == "percent")
}

// writtenQuantity returns the number and the unit of a written side.
func (w *work) writtenQuantity(x syntax.Expr) (units.Decimal, *units.Unit, bool) {
	switch x := x.(type) {
	case *syntax.Number:
		return x.Value, units.One, true
	case *syntax.Quantity:
		u, bad := w.planner.Unit(x.Unit, units.AfterNumber)
		return x.Value, u, bad == nil
	case *syntax.Paren:
		return w.writtenQuantity(x.X)
	case *syntax.Unary:
		d, u, ok := w.writtenQuantity(x.X)
		if x.Op == syntax.Sub {
			d = d.Neg()
		}
		return d, u, ok
	}
	return units.Decimal{}, nil, false
}

// roundsTo tells whether a value, rounded at the last digit that is written,
// is the quantity as written, zeros included.
func (w *work) roundsTo(si float64, written syntax.Expr) bool {
	d, u, ok := w.writtenQuantity(written)
	if !ok {
		return false
	}
	fifteen, ok := new(big.Rat).SetString(strconv.FormatFloat(u.FromSI(si), 'e', 14, 64))
	if !ok {
		return false
	}
	step := tenTo(d.LastPlace)
	steps := roundRat(fifteen.Quo(fifteen, step), w.set.rounding)
	want := new(big.Rat).Quo(d.Rat(), step)
	return want.Cmp(new(big.Rat).SetInt(steps)) == 0
}

func tenTo(n int) *big.Rat {
	p := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(max(n, -n))), nil)
	if n < 0 {
		return new(big.Rat).SetFrac(big.NewInt(1), p)
	}
	return new(big.Rat).SetInt(p)
}

// roundRat rounds to a whole number by the rule in force.
func roundRat(r *big.Rat, rule units.Rounding) *big.Int {
	num, den := new(big.Int).Abs(r.Num()), r.Denom()
	q, rest := new(big.Int).QuoRem(num, den, new(big.Int))
	half := rest.Lsh(rest, 1).Cmp(den)
	if half > 0 || half == 0 && (rule == units.HalfAway || q.Bit(0) == 1) {
		q.Add(q, big.NewInt(1))
	}
	if r.Sign() < 0 {
		q.Neg(q)
	}
	return q
}

// checkUnit is the unit in which both sides of a check are shown.
func (w *work) checkUnit(s *syntax.CheckStmt, right syntax.Expr, both plan.Compared) *units.Unit {
	for _, x := range []syntax.Expr{right, s.Left} {
		if u := w.writtenUnit(x); u != nil && u.Dim() == both.Left.Static.Dim {
			return u
		}
	}
	for _, x := range []syntax.Expr{s.Left, right} {
		if u := w.rememberedUnit(x); u != nil && u.Dim() == both.Left.Static.Dim && !u.Affine() {
			return u
		}
	}
	return units.Preferred(both.Left.Static.Dim, both.Left.Static.Tag)
}

// checkFailed says how far apart the sides of a check are.
func (w *work) checkFailed(s *syntax.CheckStmt, out *entry.Verdict) {
	l := out.Left.Shown(units.Screen)
	at := s.Left.Span()
	if s.Sign != syntax.NoSign {
		word := [...]string{"", "negative", "positive", "zero"}[s.Sign]
		w.find(finding.New(finding.CheckFailed, at, "The check does not hold: the value is "+l+", which is not "+word+".", ""))
		return
	}
	at = at.Join(s.Right.Span())
	msg := "The check does not hold: the left side is " + l + ", the right side " + out.Right.Shown(units.Screen)
	if a, b := out.Left.SI, out.Right.SI; b != 0 && a != b {
		part := (a - b) / math.Abs(b) * 100
		word := "more"
		if part < 0 {
			word, part = "less", -part
		}
		msg += "; the left is " + units.FormatNumber(part, units.Figures{N: 3}, units.HalfAway, units.Screen) + " % " + word
	}
	w.find(finding.New(finding.CheckFailed, at, msg+".", ""))
}
