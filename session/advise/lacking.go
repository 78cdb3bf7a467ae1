package advise

import (
	"slices"
	"strconv"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// lackingUnit cautions where a value is none of the quantities that its symbol is
// used for, and a plain number explains it: v = 30 in K = 1/2*m*v^2. A number
// under one of the commonest symbols is worth a look by itself, where the other
// names of the line have units.
func lackingUnit(l *eval.Line, name string, x syntax.Expr, v *entry.Value) {
	if l.Entry.Failed() || v.Named || v.Dim.IsOne() {
		return
	}
	others, numbers := givens(l, x)
	edges := syntax.EdgeNumbers(x)
	if len(numbers) == 0 && len(edges) == 0 {
		return
	}
	odd := units.Speaks(name) && !units.Customary(name, v.Dim)
	f := factors{number: 1, names: map[string]int{}}
	product := odd && f.takeApart(x, 1) && f.root == nil
	for _, d := range numbers {
		unit := ""
		if e := f.names[d.Name]; product && e != 0 {
			unit = explains(d.Name, name, v.Dim, e)
		}
		if unit == "" && others && slices.Contains(measured[:], units.Symbol(d.Name)) {
			unit = units.Usual(d.Name)
		}
		if unit == "" {
			continue
		}
		given := d.Name + " = " + strconv.FormatFloat(d.Exponent.Float(), 'g', -1, 64) + " " + unit
		say(l, d.Name+" (line "+strconv.Itoa(d.Line)+") has no unit.", "Should it be "+given+"?", x,
			func(x syntax.Expr) (syntax.Span, string) {
				if n, ok := x.(*syntax.Name); ok && n.Name == d.Name {
					return n.At, "(" + d.Name + "*(1 " + unit + "))"
				}
				return syntax.Span{}, ""
			})
		return
	}
	if !odd {
		return
	}
	for _, n := range edges {
		if unit := explains("", name, v.Dim, 1); unit != "" {
			say(l, n.Value.Text+" has no unit.", "Should it be "+n.Value.Text+" "+unit+"?", x,
				func(x syntax.Expr) (syntax.Span, string) {
					if x == syntax.Expr(n) {
						return n.At, "(" + n.Value.Text + " " + unit + ")"
					}
					return syntax.Span{}, ""
				})
			return
		}
	}
}

// measured are the symbols of which a plain number is worth a look.
var measured = [...]string{"m", "v", "t", "d", "h", "F", "r", "s", "L", "M"}

// plainUnits are those that a written number is tried with.
var plainUnits = [...]string{"m", "s", "kg", "m/s", "m/s^2", "N"}

// givens tells whether a name of an expression has a unit, and which are given as
// plain numbers.
func givens(l *eval.Line, x syntax.Expr) (units bool, numbers []*plan.Def) {
	syntax.Walk(x, func(x syntax.Expr) bool {
		if b, ok := x.(*syntax.Binary); ok && b.Op == syntax.Pow {
			base, more := givens(l, b.X) // an exponent has no unit
			units, numbers = units || base, append(numbers, more...)
			return false
		}
		n, ok := x.(*syntax.Name)
		if !ok {
			return true
		}
		d, ok := l.Planner.Find(n)
		switch {
		case !ok || d.Failed() || d.Kind != plan.Quantity:
		case !l.Planner.Static(d.Slot).Dim.IsOne():
			units = true
		case d.Exponent != nil && d.Line > 0 && !slices.Contains(numbers, d):
			numbers = append(numbers, d)
		}
		return true
	})
	return units, numbers
}

// explains is the unit that a factor lacks, to the power e in a product of some
// dimension, if with it the product is the quantity that a symbol is used for
// first; "" if a plain unit, or one that suits the factor's own symbol, is none.
func explains(factor, symbol string, have units.Dim, e int) string {
	table := units.NewTable()
	whole, bad := table.Parse(units.Usual(symbol), units.AloneInPlace)
	if bad != nil {
		return ""
	}
	try := plainUnits[:]
	if factor != "" {
		try = []string{units.Usual(factor)}
	}
	power, ok := units.NewExp(e, 1)
	for _, text := range try {
		u, bad := table.Parse(text, units.AloneInPlace)
		if bad != nil || !ok {
			continue
		}
		if d, ok := u.Dim().Pow(power); ok {
			if got, ok := have.Mul(d); ok && got == whole.Dim() {
				return text
			}
		}
	}
	return ""
}

// say cautions with the line as it would be with the unit.
func say(l *eval.Line, message, hint string, x syntax.Expr, put func(syntax.Expr) (syntax.Span, string)) {
	text, from := "", 0
	syntax.Walk(x, func(x syntax.Expr) bool {
		if at, with := put(x); with != "" {
			text += l.Entry.Text[from:at.From] + with
			from = at.To
		}
		return true
	})
	f := finding.New(finding.LackingUnit, syntax.Span{To: len(l.Entry.Text)}, message, hint, text+l.Entry.Text[from:])
	l.Find(f)
}
