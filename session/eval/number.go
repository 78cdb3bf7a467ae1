package eval

import (
	"cmp"
	"math"
	"slices"

	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// maxNumberLines bounds how many lines are gone through for where a number came from.
const maxNumberLines = 16

// PlainNumber is the value of a name that comes from numbers without a unit alone, by way of
// other such names too: θ = 36.87, θ = 360/n below n = 8; or that is a number of degrees. Of a list
// it is the element that is largest in size. False where a unit, an angle, π or a function says
// what it is.
func (p *Page) PlainNumber(d *plan.Def) (float64, bool) {
	if d.Failed() || d.Kind != plan.Quantity || d.Line == 0 || d.Slot == run.NoSlot {
		return 0, false
	}
	if st := p.Planner.Static(d.Slot); st.Tag != units.None || !st.Dim.IsOne() || st.Absent {
		return 0, false
	}
	largest := func() float64 {
		return slices.MaxFunc(p.State.Elements(d.Slot), func(a, b float64) int { return cmp.Compare(math.Abs(a), math.Abs(b)) })
	}
	if e := p.EntryAt(d.Line); e != nil {
		if s, ok := e.Stmt.(*syntax.Define); ok && !s.In.Present() && countsDegrees(s.X) {
			return largest(), true
		}
	}
	from := []*plan.Def{d}
	for i := 0; i < len(from); i++ {
		plain, ok := p.bare(from[i])
		if !ok {
			return 0, false
		}
		for n := range syntax.Each[*syntax.Name](plain) {
			of := p.standsFor(n, from[i].Line)
			switch {
			case of == nil || of.Failed() || of.Line == 0 || len(from) == maxNumberLines:
				return 0, false
			case !slices.Contains(from, of):
				from = append(from, of)
			}
		}
	}
	return largest(), true
}

// countsDegrees tells whether a number comes out as one of degrees: atan(y/x)*180/π, 360*t/T.
func countsDegrees(x syntax.Expr) bool {
	turn, pi, others := false, 0, false
	for _, f := range syntax.Factors(x) {
		switch x := syntax.Unbracket(f.X).(type) {
		case *syntax.Number:
			turn = turn || !f.Minus && syntax.TurnOfDegrees(x.Value.Text)
		case *syntax.Pi:
			if pi++; !f.Minus {
				return false
			}
		default:
			others = true
		}
	}
	return turn && others && pi <= 1
}

// GivenNumber tells whether a name is given by a written plain number, or by several: 2*10^-6.
func (p *Page) GivenNumber(d *plan.Def) bool {
	_, ok := p.PlainNumber(d)
	if !ok || d.Given {
		return ok
	}
	x, _ := p.bare(d)
	return x != nil && syntax.OfNumbers(x)
}

// bare is the expression of a line that gives a name, if it is made of numbers and names; nil
// for a column of numbers.
func (p *Page) bare(d *plan.Def) (syntax.Expr, bool) {
	e := p.EntryAt(d.Line)
	if e == nil || d.Vector != nil {
		return nil, false
	}
	switch s := e.Stmt.(type) {
	case *syntax.Define:
		return s.X, !s.In.Present() && !syntax.Any(s.X, speaks)
	case *syntax.Data:
		k := slices.IndexFunc(s.Heads, func(h syntax.Column) bool { return h.Name == d.Name })
		return nil, k >= 0 && !s.Heads[k].Unit.Present()
	}
	return nil, false
}

// speaks tells whether a part of an expression says what its number is.
func speaks(x syntax.Expr) bool {
	switch x := x.(type) {
	case *syntax.Number, *syntax.Name, *syntax.Paren, *syntax.Unary, *syntax.Binary, *syntax.Root:
		return false
	case *syntax.List:
		return x.Unit.Present()
	case *syntax.Quantity:
		return x.Unit.Text != "1" // 30 ± 1
	case *syntax.Call:
		return !keepsKind(x)
	}
	return true
}

// keepsKind tells whether a function gives the kind of what it is given: mean, round, abs, max.
func keepsKind(x *syntax.Call) bool {
	f, ok := ops.Named(x.Func)
	switch f.Takes {
	case ops.SameToSame, ops.AnyToSame, ops.RootOf, ops.RoundTo, ops.ListToSame:
		return ok
	}
	return false
}
