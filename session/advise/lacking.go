package advise

import (
	"slices"
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/limit"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
	"steelyard/units/each"
	"steelyard/units/writing"
)

// lackingUnit cautions where a value is none of the quantities that its symbol is
// used for, and a plain number explains it: v = 30 in K = 1/2*m*v^2. A number
// under one of the commonest symbols is worth a look by itself, where the other
// names of the line have units.
//
// With v = 30 the energy ½*m*v^2 comes out in kg. The page has no mismatch, since a plain number
// goes with everything; that an energy is never in kg is what gives it away. The unit that is
// offered is the one with which the line becomes what its symbol stands for.
func lackingUnit(l *eval.Line, name string, x syntax.Expr, in syntax.UnitText, v *entry.Value) {
	b := bare{line: l}
	syntax.Walk(x, b.look)
	if l.Entry.Failed() || v.Named || constantBare(l, name, x, v, b.numbers) || b.knownBare(name, x) {
		return
	}
	worked, lack := !in.Present() && !syntax.IsPlain(x), len(b.names)+len(b.numbers) > 0
	if !worked && !lack {
		return
	}
	bySlip := worked && is(name, "F W K U E v a T k h t ω P p I N")
	turned := worked && !bySlip && units.Customary(name, units.Dim{}.Div(v.Dim)) // Rp = 1/R1 + 1/R2
	odd := l.Entry.Line <= limit.Advised && units.Speaks(name) && !units.Customary(name, v.Dim)
	if !lack && !odd {
		return
	}
	if v.Dim.IsOne() {
		odd = odd && (worked && slices.Contains(neverPlain[:], units.Symbol(name)) && b.measured(x) || b.oneLacks())
		if !odd {
			b.nothingMeasured(name, x, worked)
			return
		}
	}
	if b.nameLacks(name, x, v, odd) || !odd || kelvinsBare(l, name, x) || b.numberLacks(name, x, b.numbers) || b.allLack(name, x, v) {
		return
	}
	switch {
	case is(name, "a") && v.Dim == units.Of("rad/s^2").Dim(): // many write an angular acceleration so
	case bySlip && oddKind(l, name, x, v, units.Of(units.Usual(name))):
	case turned && oddKind(l, name, x, v, units.Preferred(units.Dim{}.Div(v.Dim), units.None)):
	case worked && !v.Dim.IsOne() && !slices.ContainsFunc(l.Entry.Findings, func(f finding.Finding) bool { return f.Severity <= finding.Caution }):
		b.oddFormula(name, x, v)
	}
}

// nameLacks cautions about a given of the line without a unit, with which the value would be what
// its symbol is used for, or whose letter is that of something measured.
func (b *bare) nameLacks(name string, x syntax.Expr, v *entry.Value, odd bool) bool {
	// With a unit it would not be what its symbol stands for first: the order m of y = m*λ*L/d.
	fits := units.Speaks(name) && v.Dim == units.Customs(name)[0]
	measures := b.others && !fits && !slices.ContainsFunc(b.names, func(d *plan.Def) bool {
		return !isMeasured(d.Name) && !units.Customary(d.Name, units.Dim{}) // a fit, a series: y = b*x + d*x^2
	})
	for _, d := range b.names {
		is := func(x syntax.Expr) bool {
			n, ok := x.(*syntax.Name)
			return ok && n.Name == d.Name
		}
		unit := ""
		switch {
		case odd:
			unit = b.explains(d, units.Customs(name), x, is)
		case units.Speaks(name) && v.Dim != units.Customs(name)[0] && !hasLetter(x, units.Symbol(name)):
			if unit = b.explains(d, units.Customs(name)[:1], x, is); unit != units.Usual(d.Name) {
				unit = ""
			}
		}
		if unit == "" && measures && isMeasured(d.Name) {
			unit = units.Usual(d.Name)
		}
		if unit != "" {
			say(b.line, d.Name+" (line "+strconv.Itoa(d.Line)+") has no unit.", meantIn(b.line, d, unit), x, is, "("+d.Name+"*(1 "+unit+"))")
			return true
		}
	}
	return false
}

// allLack cautions about several numbers or names without a unit, of which no single one explains
// the value: Q = m*4186*15.
func (b *bare) allLack(name string, x syntax.Expr, v *entry.Value) bool {
	var of []string
	hint := "Write their units."
	if n := len(b.numbers); n > 1 && n <= mostBare && !syntax.OfNumbers(x) {
		of = each.Of(b.numbers, func(n *syntax.Number) string { return n.Value.Text })
	} else if n := len(b.names); n > 1 && n <= mostBare {
		of, hint = each.Of(b.names, func(d *plan.Def) string { return d.Name }), "Give them units in their lines."
	}
	if of != nil {
		b.line.Find(finding.New(finding.LackingUnit, x.Span(), unusual(name, v), writing.List(of, "and")+" have no unit. "+hint))
	}
	return of != nil
}

// oddFormula cautions about a value that no quantity without its unit explains, by what may be
// wrong in the formula.
func (b *bare) oddFormula(name string, x syntax.Expr, v *entry.Value) {
	l := b.line
	for _, dim := range units.Customs(name) {
		if comesOut(l, name, x, v, l.FormulaSlip(x, units.Preferred(dim, units.None))) {
			return
		}
	}
	f, product := apart(x)
	n, ok := syntax.Factors(x)[0].X.(*syntax.Number)
	if ok && product && f.root == nil && f.number == 2 && b.numberLacks(name, x, []*syntax.Number{n}) { // U = 2*g*h
		return
	}
	_, named := units.KindOf(v.Dim, units.None)
	rooted := func(x syntax.Expr) bool { return eval.UnderRoot(x) != nil }
	switch {
	case v.Dim.HasHalves() && units.Speaks(name) && syntax.Any(x, rooted):
		comesOut(l, name, x, v, eval.Slip{Hint: "No quantity has half powers of units. Look at what is under the root."})
	case !named && is(name, "F W U E v a T t h ω P p I N f g d s r V Q Y"): // K is Kepler's constant, too
		comesOut(l, name, x, v, eval.Slip{Hint: "Check the formula."})
	}
}

// nothingMeasured cautions once about a page on which no line has a unit, at the first formula
// for what no pure number is: F = m*a.
func (b *bare) nothingMeasured(name string, x syntax.Expr, worked bool) {
	k := slices.IndexFunc(b.names, func(d *plan.Def) bool { return isMeasured(d.Name) })
	anyLetters := func(x syntax.Expr) bool { // a - M of statistics: letters of two quantities are added
		sum, ok := x.(*syntax.Binary)
		if !ok || sum.Op != syntax.Add && sum.Op != syntax.Sub {
			return false
		}
		v, w := twoNames(sum, sum.Op)
		return units.Symbol(v) != units.Symbol(w)
	}
	if !worked || k < 0 || !units.Speaks(name) || units.Customary(name, units.Dim{}) || b.measured(x) || syntax.Any(x, anyLetters) {
		return
	}
	b.noUnits(x, meantIn(b.line, b.names[k], units.Usual(b.names[k].Name)))
}

func (b *bare) noUnits(x syntax.Expr, hint string) {
	const says = "No line above has a unit, so the units of this page aren't checked."
	if b.line.Set.Note(says) {
		b.line.Find(finding.New(finding.LackingUnit, x.Span(), says, "Write them with the givens. "+hint))
	}
}

// knownBare cautions about a known formula in which a name is a plain number and the others have
// their units: G = 6.67e-11 in g = G*M/r^2.
func (b *bare) knownBare(name string, x syntax.Expr) bool {
	if len(b.names) == 0 || b.line.Entry.Line > limit.Advised {
		return false
	}
	for _, m := range matches(b.line, name, x) {
		if len(m.bare) == 0 || !within(m.ratio[0], 1) || !within(m.ratio[1], 1) {
			continue
		}
		lacks, unit := m.names[m.bare[0]], m.letters[m.bare[0]].unit
		d, _ := b.line.Planner.Find(&syntax.Name{Name: lacks})
		if !b.measured(x) {
			b.noUnits(x, meantIn(b.line, d, unit))
			return true
		}
		say(b.line, lacks+" (line "+strconv.Itoa(d.Line)+") has no unit.", meantIn(b.line, d, unit), x, func(x syntax.Expr) bool {
			n, ok := x.(*syntax.Name)
			return ok && n.Name == lacks
		}, "("+lacks+"*(1 "+unit+"))")
		return true
	}
	return false
}

// oneLacks tells whether the names of the line but one are what their letters are used for,
// with a unit or without one: f = μ*N where N is a plain number.
func (b *bare) oneLacks() bool {
	lack := slices.DeleteFunc(slices.Clone(b.names), func(d *plan.Def) bool { return strings.HasPrefix(units.Usual(d.Name), "1") })
	return len(lack) == 1 && (b.others || len(b.names) > 1)
}

// hasLetter tells whether a name of an expression has a letter: W = W0*x.
func hasLetter(x syntax.Expr, letter string) bool {
	return syntax.Any(x, func(x syntax.Expr) bool {
		n, ok := x.(*syntax.Name)
		return ok && units.Symbol(n.Name) == letter
	})
}

// numberLacks cautions about a written number with which the value is what its symbol is used
// for, if it has a unit: a plain one, or, where no other number may lack one, that of a quantity
// that has a letter. It is false where none has.
func (b *bare) numberLacks(name string, x syntax.Expr, numbers []*syntax.Number) bool {
	for _, named := range [...]bool{false, true} {
		if named && is(name, "x y z") { // of any kind
			break
		}
		for _, n := range numbers {
			is := func(x syntax.Expr) bool { return x == syntax.Expr(n) }
			ofFormula := eval.OfFormulas(n) || syntax.TurnOfDegrees(n.Value.Text)
			for k, whole := range units.Customs(name) {
				dim, ok := lacks(b.line, x, whole, is)
				if !ok || dim.IsOne() || whole.IsOne() || ofFormula && (named || k > 0 && dim != units.BaseDim(units.Kilogram)) {
					continue // 2*F and 360*A lack nothing, the 2 of a weight 2*g does
				}
				unit := units.Preferred(dim, units.None).Behind(units.File)
				if slices.Contains(eval.PlainUnits[:], unit) || named && units.HasSymbol(dim) && len(b.numbers) == 1 {
					with := n.Value.Text + " " + unit
					say(b.line, n.Value.Text+" has no unit.", "Did you mean "+with+"?", x, is, "("+with+")")
					return true
				}
			}
		}
	}
	return false
}

// explains is the unit of a given with which the value is one of the quantities that its
// symbol is used for; "" if there is none. A letter that says what it is gets no unit of another
// kind: I = 2 in L = I*ω is in kg m^2, and not in amperes; the b of F = b*v says nothing, and is in
// kg/s. What it is used for most often comes first.
func (b *bare) explains(d *plan.Def, of []units.Dim, x syntax.Expr, is func(syntax.Expr) bool) (unit string) {
	usual, speaks := units.Usual(d.Name), units.Speaks(d.Name)
	for _, whole := range of {
		dim, ok := lacks(b.line, x, whole, is)
		switch {
		case !ok || dim.IsOne():
		case usual != "" && dim == units.Of(usual).Dim():
			return usual
		case unit == "" && (units.Customary(d.Name, dim) || !speaks && units.HasSymbol(dim)):
			unit = units.Preferred(dim, units.None).Behind(units.File)
		}
	}
	return unit
}

// mostBare is how many written numbers are told to have no unit: of more, most are figures of
// a fit or of a table.
const mostBare = 3

// constantBare cautions about a number that is a constant of nature without its unit, with
// which the value is what its symbol is used for: N = n*6.02e23 is no amount in mol.
//
// 6.02e23, 8.314 and 1.6e-19 are known by their digits, whatever the line calls them.
func constantBare(l *eval.Line, name string, x syntax.Expr, v *entry.Value, numbers []*syntax.Number) bool {
	if len(numbers) == 0 || l.Entry.Line > limit.Advised || syntax.IsPlain(x) || !units.Speaks(name) || units.Customary(name, v.Dim) && !v.Dim.IsOne() {
		return false
	}
	for _, n := range numbers {
		k, ok := units.ConstantOf(n.Value)
		if !ok {
			continue
		}
		u := units.Of(k.Unit)
		is := func(x syntax.Expr) bool { return x == syntax.Expr(n) }
		for _, whole := range units.Customs(name) {
			if dim, ok := lacks(l, x, whole, is); ok && dim == u.Dim() {
				with := n.Value.Text + " " + u.Behind(units.File)
				say(l, n.Value.Text+" has no unit. It looks like the "+k.Name+".", "Did you mean "+with+"?", x, is, "("+with+")")
				return true
			}
		}
	}
	return false
}

// oddKind cautions about a value that is not of the kind that its symbol is used for,
// where a common slip explains it: it would be in the unit that is wanted.
//
// E = m*v comes out in kg m/s: with v squared it would be an energy, and that is offered.
func oddKind(l *eval.Line, name string, x syntax.Expr, v *entry.Value, want *units.Unit) bool {
	return comesOut(l, name, x, v, l.LikelySlip(x, want, true))
}

// comesOut cautions about such a value with its slip, if there is one.
func comesOut(l *eval.Line, name string, x syntax.Expr, v *entry.Value, slip eval.Slip) bool {
	if slip.Hint == "" {
		return false
	}
	f := finding.New(finding.CommonSlip, x.Span(), unusual(name, v), "")
	slip.Put(&f)
	l.Find(f)
	return true
}

// unusual says that a value is of no kind that its symbol is used for.
func unusual(name string, v *entry.Value) string {
	if v.Dim.IsOne() {
		return name + " comes out as a number, which is unusual for it."
	}
	return name + " comes out in " + v.Unit.Screen() + ", which is unusual for it."
}

// meantIn asks whether a given was meant in a unit, as its line would be with it.
func meantIn(l *eval.Line, d *plan.Def, unit string) string {
	s, ok := l.EntryAt(d.Line).Stmt.(*syntax.Define)
	if !ok {
		return "Did you mean it in " + unit + "?" // the column of a table
	}
	x := syntax.Unbracket(s.X)
	switch x.(type) {
	case *syntax.Number, *syntax.List:
	default:
		x = &syntax.Paren{X: x}
	}
	return "Did you mean " + d.Name + " = " + syntax.PrintExpr(x) + " " + unit + "?"
}

// measured are the symbols of which a plain number is worth a look.
var measured = [...]string{"m", "v", "t", "d", "h", "F", "r", "s", "L", "M", "g"}

func isMeasured(name string) bool {
	return slices.Contains(measured[:], units.Symbol(strings.TrimPrefix(name, "Δ")))
}

// unitLeftOut cautions about a given that is a plain number, where its symbol is used
// for nothing that is one and a given above has a unit: h = 5 below v = 3 m/s.
//
// One number without a unit among givens that have theirs was hardly meant; a page on which none
// has a unit counts without them, and is left alone.
func unitLeftOut(l *eval.Line, s *syntax.Define) {
	n, ok := s.X.(*syntax.Number)
	if !ok || n.Value.Hi == 0 || s.In.Present() {
		return
	}
	lacks := func(message, unit string) {
		with := n.Value.Text + " " + unit
		l.Find(finding.New(finding.LackingUnit, n.At, message, "Did you mean "+s.Name+" = "+with+"?", with))
	}
	if is(s.Name, "η") && n.Value.Hi > 1 {
		lacks(s.Name+" is above 1, so it is no efficiency.", "%")
		return
	}
	if k, ok := units.ConstantCalled(s.Name, n.Value.Hi); ok {
		lacks(s.Name+" has no unit. It looks like the "+k.Name+".", units.Of(k.Unit).Behind(units.File))
		return
	}
	if !slices.Contains(neverPlain[:], units.Symbol(s.Name)) {
		return
	}
	measured := false
	// Backwards: the last given without a unit ends it, so that no page of them is
	// gone through for each.
	for _, d := range slices.Backward(l.Planner.Names.All()) {
		switch {
		case d == l.Planner.Names.Above(s.Name, l.Entry.Line+1), !d.Given, d.Failed(), d.Kind != plan.Quantity:
		case !l.Planner.Static(d.Slot).Dim.IsOne():
			measured = true
		case units.Speaks(d.Name) && !units.Customary(d.Name, units.Dim{}):
			return // this page counts without units
		}
	}
	if measured {
		lacks(s.Name+" has no unit.", units.Usual(s.Name))
	}
}

// neverPlain are those that no pure number goes by: an m may be an order, an r a ratio,
// a t a number of years.
var neverPlain = [...]string{"v", "d", "h", "F", "s", "L", "W"}

// bare is what an expression holds without a unit: names that are given as plain
// numbers, and written numbers but for those that formulas have, 1, 2 and 0.5.
// Exponents have none. Others tells that another name has a unit.
type bare struct {
	line    *eval.Line
	names   []*plan.Def
	numbers []*syntax.Number
	others  bool
}

// look notes what lacks a unit in a part of an expression; what a call lacks is said
// at once. It tells whether to look at the parts of the part.
func (b *bare) look(x syntax.Expr) bool {
	switch x := x.(type) {
	case *syntax.Binary:
		if x.Op == syntax.Pow {
			syntax.Walk(x.X, b.look)
			return false
		}
		if x.Op == syntax.Mul && ofPi(x.Y) && syntax.OfNumbers(x.X) { // 4π² is a number of formulas
			return false
		}
	case *syntax.Call:
		arguments(b.line, x)
		if f, ok := ops.Named(x.Func); ok && f.Takes <= ops.PureToAngle && syntax.OfNumbers(x.Args[0].X) {
			return false // the 4/3 of atan(4/3)
		}
	case *syntax.List:
		b.others = b.others || x.Unit.Present()
		return !x.Unit.Present() // (3.0, 4.0) N
	case *syntax.Number:
		if !eval.OfFormulas(x) {
			b.numbers = append(b.numbers, x)
		}
	case *syntax.Name:
		switch d, ok := b.line.Planner.Find(x); {
		case !ok || d.Failed() || d.Kind != plan.Quantity:
		case hasUnit(b.line, d):
			b.others = true
		case !slices.Contains(b.names, d) && lacksUnit(b.line, d):
			b.names = append(b.names, d)
		}
	}
	return true
}

// measured tells whether a quantity with a unit is in the expression, or given in a line above.
func (b *bare) measured(x syntax.Expr) bool {
	quantity := func(x syntax.Expr) bool { _, ok := x.(*syntax.Quantity); return ok }
	return b.others || syntax.Any(x, quantity) || slices.ContainsFunc(b.line.Planner.Names.All(), func(d *plan.Def) bool {
		return d.Given && d.Kind == plan.Quantity && !d.Failed() && hasUnit(b.line, d)
	})
}

// lacksUnit tells whether a name is given by plain numbers, or comes from such names and is none
// that pure numbers go by: the T of T = 1/f, where f = 440.
func lacksUnit(l *eval.Line, d *plan.Def) bool {
	if l.GivenNumber(d) {
		return true
	}
	_, plain := l.PlainNumber(d)
	return plain && units.Speaks(d.Name) && !units.Customary(d.Name, units.Dim{})
}

// hasUnit tells whether a quantity has a unit, which may be one of an angle.
func hasUnit(l *eval.Line, d *plan.Def) bool {
	st := l.Planner.Static(d.Slot)
	return !st.Dim.IsOne() || st.Tag == units.Angle
}

// ofPi tells whether an expression is π, or a power of it.
func ofPi(x syntax.Expr) bool {
	if p, ok := x.(*syntax.Binary); ok && p.Op == syntax.Pow {
		x = p.X
	}
	_, ok := x.(*syntax.Pi)
	return ok
}

// lacks is the dimension that something of an expression must have for the whole to have
// another; false if none makes it that.
//
// The part is planned as an unknown, and the whole as what it should be: the planner settles the
// unknown as it does in a solve. Of K = 1/2*m*v^2 in J the v must be a speed.
func lacks(l *eval.Line, x syntax.Expr, whole units.Dim, is func(syntax.Expr) bool) (units.Dim, bool) {
	m := l.Planner.Mark()
	defer l.Planner.Cut(m)
	names := []string{"without a unit", "the whole"} // no names
	of := []run.Static{l.Planner.Unknowns(1)[0], {Dim: whole}}
	put := syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) { return &syntax.Name{Name: names[0]}, is(x) })
	got := l.Planner.CompileOf(l.Entry.Text, names, of, syntax.Unplaced(put), &syntax.Name{Name: names[1]})
	st := l.Planner.Settled(of[0])
	return st.Dim, got.OK && st.Open == 0
}

// say cautions with the line as it would be with the unit.
func say(l *eval.Line, message, hint string, x syntax.Expr, is func(syntax.Expr) bool, with string) {
	text, from := "", 0
	for x := range syntax.Nodes(x) {
		if is(x) {
			text += l.Entry.Text[from:x.Span().From] + with
			from = x.Span().To
		}
	}
	l.Find(finding.New(finding.LackingUnit, syntax.Span{To: len(l.Entry.Text)}, message, hint, text+l.Entry.Text[from:]))
}
