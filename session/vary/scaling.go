package vary

import (
	"math"
	"slices"

	"steelyard/lang/algebra"
	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/lang/typeset"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// Scaling says how one quantity grows with another.
func Scaling(l *eval.Line, s *syntax.Scaling) {
	of, ok1 := scaledExpr(l, s.X)
	_, ok2 := scaled(l, s.Against.Name, s.Against.NameAt)
	if !ok1 || !ok2 {
		return
	}
	by, ok := l.Varied(&syntax.Name{At: s.Against.NameAt, Name: s.Against.Name}, s.X)
	if !ok {
		return
	}
	if st := l.Planner.Static(by.Slot); st.Shape != run.Scalar {
		l.Find(plan.OneValue(&syntax.Name{At: s.Against.NameAt, Name: s.Against.Name}, st))
		return
	}
	if by.Vector != nil {
		l.Find(plan.ComponentAlone(by, s.Against.NameAt))
		return
	}
	if l.Planner.FixesUnit(by, of) {
		l.Find(plan.FixedExponent(s.Against.NameAt, by.Name))
		return
	}
	l.Uses([]*plan.Def{by}, s.Against.NameAt)
	known := algebraic(s.X)
	if x, ok := l.WrittenOut(s.X, l.Entry.Line, by); ok {
		closed := hides(l, x, by)
		known = known && algebraic(x) && !closed
		if e := algebra.Exponent(x, s.Against.Name); !e.Lost() && !closed && agrees(l, s.X, of, by, e) {
			rows := entry.Lines{power(l, s, x, e)}
			if e.IsZero() {
				rows = append(rows, along(l, s.X, by)...)
			}
			l.Entry.Outcome = append(rows, free(by)...)
			return
		}
	}
	if l.Planner.Static(of).Absent || l.Planner.Static(by.Slot).Absent {
		is := typeset.Text(s.X) + " is not a power of " + s.Against.Name + "; how it"
		if !known {
			is = "How " + typeset.Text(s.X)
		}
		l.Find(finding.New(finding.NotWorkedOut, s.X.Span(), is+" grows depends on values that are not given yet.",
			"Give the symbols values in lines above."))
		return
	}
	if rows := append(localScaling(l, s, of, by, known), free(by)...); len(rows) > 0 {
		l.Entry.Outcome = rows
	}
}

// power tells an exact power.
func power(l *eval.Line, s *syntax.Scaling, x syntax.Expr, e units.Exp) entry.Said {
	of, against := entry.Math(s.X), entry.Name(s.Against.Name)
	if e.IsZero() {
		return entry.Say("… does not depend on ….", of, against)
	}
	return entry.Say("……: doubling … multiplies … by ….", goesAs(s, e), fixed(x, s.Against.Name), against, of, times(l, math.Pow(2, e.Float())))
}

// scaledExpr finds the slot of what is to grow.
func scaledExpr(l *eval.Line, x syntax.Expr) (run.Slot, bool) {
	if n, ok := x.(*syntax.Name); ok && n.Line == 0 {
		if d, ok := scaled(l, n.Name, n.At); ok {
			l.Uses([]*plan.Def{d}, n.At)
			if st := l.Planner.Static(d.Slot); st.Shape != run.Scalar {
				l.Find(plan.OneValue(n, st))
				return run.NoSlot, false
			}
			return d.Slot, true
		}
		return run.NoSlot, false
	}
	c := l.Eval(x, eval.Want{})
	return c.Slot, c.OK
}

// scaled finds a quantity with a value.
func scaled(l *eval.Line, name string, at syntax.Span) (*plan.Def, bool) {
	n := &syntax.Name{At: at, Name: name}
	d, ok := l.Planner.Find(n)
	if !ok || d.Kind != plan.Quantity && d.Kind != plan.Symbol {
		l.Find(l.Planner.Unknown(n, l.Entry.Text)...)
		return nil, false
	}
	if d.Failed() {
		l.Find(plan.Needs(d, at))
		return nil, false
	}
	return d, true
}

// goesAs names a power: T goes as √L.
func goesAs(s *syntax.Scaling, e units.Exp) entry.Said {
	if e.Num() < 0 {
		return entry.Say("… goes as 1/…", entry.Maths(s.X, algebra.Power(s.Against.Name, e.Neg()))...)
	}
	return entry.Say("… goes as …", entry.Maths(s.X, algebra.Power(s.Against.Name, e))...)
}

// fixed lists what is held fixed.
func fixed(x syntax.Expr, against string) entry.Said {
	var names []string
	for n := range syntax.Each[*syntax.Name](x) {
		if n.Name != against && !slices.Contains(names, n.Name) {
			names = append(names, n.Name)
		}
	}
	if len(names) == 0 {
		return nil
	}
	return entry.Say(" (… fixed)", entry.Joined(entry.Names(names), ", "))
}

// algebraic tells whether algebra knows how an expression grows: it does not where
// there is a slope, an area or a value worked out again.
func algebraic(x syntax.Expr) bool {
	return !syntax.Any(x, func(x syntax.Expr) bool {
		_, derived := x.(syntax.Derived)
		return derived
	})
}

// stepRounding is by how much rounding may change a power that is found by steps.
const stepRounding = 1e-10

// powerRounding is by how much rounding may change the factor of a power found by steps.
const powerRounding = 1e-9

// atMultiples works a quantity out with multiples of another one.
func atMultiples(l *eval.Line, of run.Slot, by *plan.Def, times ...float64) []float64 {
	x, y := make([]float64, len(times)), make([]float64, len(times))
	for i, k := range times {
		x[i] = k * l.State.At(by.Slot)
	}
	if columns, ok := l.Planner.Program.Columns(&l.State, []run.Slot{of}, []run.Slot{by.Slot}); ok {
		columns.Run([][]float64{x}, [][]float64{y})
	}
	return y
}

// hides tells that an expression that was written out depends on a quantity in what is closed
// to algebra, too: a function by intervals, or a root that was searched for.
func hides(l *eval.Line, x syntax.Expr, by *plan.Def) bool {
	rest := algebra.Substitute(x, map[string]syntax.Expr{by.Name: &syntax.Pi{}})
	return slices.Contains(l.Planner.WorkedOutFrom(by.Name, rest), by)
}

// agrees tells whether the values that are worked out anew grow with the power that algebra
// found, as far as there are such values that come from the very definition.
func agrees(l *eval.Line, x syntax.Expr, of run.Slot, by *plan.Def, e units.Exp) bool {
	if l.Planner.Static(of).Absent || l.Planner.Static(by.Slot).Absent || !slices.Contains(l.Planner.WorkedOutFrom(by.Name, x), by) {
		return true
	}
	y := atMultiples(l, of, by, 1, 2)
	return !(math.Abs(y[1]/y[0]/math.Pow(2, e.Float())-1) > powerRounding)
}

// localScaling finds the power with which one quantity grows with another near
// the given values; it says nothing where there is no power, which is a finding.
// Known tells that algebra found no power that holds everywhere.
func localScaling(l *eval.Line, s *syntax.Scaling, of run.Slot, by *plan.Def, known bool) entry.Lines {
	l.Doing("working "+typeset.Text(s.X)+" out with other values of "+s.Against.Name, s.X.Span())
	const step = 1e-4
	name := typeset.Text(s.X)
	x0, y0 := l.State.At(by.Slot), l.State.At(of)
	y := atMultiples(l, of, by, 1+step, 1-step, 2)
	up, down, twice := y[0], y[1], y[2]
	if x0 == 0 || y0 == 0 || !(up/down > 0) {
		l.Find(finding.New(finding.NoRealValue, s.X.Span(), "There is no power at these values: "+name+" or "+s.Against.Name+" is 0, or has no value nearby.", "Use other values."))
		return nil
	}
	power := (math.Log(math.Abs(up)) - math.Log(math.Abs(down))) / (math.Log1p(step) - math.Log1p(-step))
	if math.Abs(power) < stepRounding {
		power = 0
		known = known && math.Abs(twice/y0-1) > stepRounding // it may not depend on it at all
	}
	if math.Abs(twice/y0/math.Pow(2, power)-1) < powerRounding {
		known = false // doubling agrees, so that it may be a power that algebra didn't find
	}
	grown, against := entry.Math(s.X), entry.Name(s.Against.Name)
	line := entry.Say("… is not a power of …; near these values it", grown, against)
	if !known {
		line = entry.Say("Near these values …", grown) // it may be a power or not
	}
	to := entry.Value{InUnit: power, Unit: units.One, Figures: units.Figures{N: 4}, Rounding: l.Set.Rounding}
	line = line.And(" goes as … to the power …", against, to.Said())
	if twice-twice == 0 {
		line = line.And("; doubling … multiplies … by …", against, grown, times(l, twice/y0, of))
	}
	return entry.Lines{line.And(".")}
}
