package eval

import (
	"slices"
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
	"steelyard/units/writing"
)

// Instead is an expression with another, given as text, in the place of a part.
//
// It is tried as a text, since what is offered is typed later: what can't be read can't be
// offered.
func Instead(x syntax.Expr, of func(syntax.Expr) bool, with string) (syntax.Expr, bool) {
	put, fs := syntax.ParseExpr(with)
	if len(fs) > 0 {
		return nil, false
	}
	return syntax.Unplaced(syntax.Rewrite(x, func(x syntax.Expr) (syntax.Expr, bool) { return put, of(x) })), true
}

// hasDim tells whether an expression can be worked out and has some dimension.
func (l *Line) hasDim(x syntax.Expr, want units.Dim) bool {
	got := l.Try(x)
	return got.Slot != run.NoSlot && got.Static.Dim == want
}

// PlainUnits are those that a number is tried with where its own seems to be missing.
//
// They are the units of the givens of a first course; in any other the number is hardly left
// bare.
var PlainUnits = [...]string{"m", "s", "kg", "m/s", "m/s^2", "N"}

// Slip is what a line may have gone wrong by: a hint, and the whole line put right,
// or put right in several ways, which are still to be tried. Without a hint there is none.
type Slip struct {
	Hint  string
	Lines []string
}

// Put adds a slip to a finding.
func (s Slip) Put(f *finding.Finding) {
	f.Hint, f.Lines = s.Hint, s.Lines
}

// LikelySlip says which of the commonest slips explains that an expression of the line
// does not have the dimension of a unit. Of a result without a name the unit is as likely
// wrong: only what may be missing is tried then, and nothing that may be too much.
//
// Each slip is tried: the line with it put right is worked out, and counts if it has the
// dimension that was asked for. The order is how often they are seen: a given without its unit,
// a square, a number without its unit, a root, a mass for its weight, a power too many, a
// quotient upside down.
func (l *Line) LikelySlip(x syntax.Expr, want *units.Unit, named bool) Slip {
	text := syntax.PrintExpr(x)
	var found Slip
	try := func(says string, of syntax.Expr, with string) bool {
		y, ok := Instead(x, func(part syntax.Expr) bool { return part == of }, with)
		if !ok || !l.hasDim(y, want.Dim()) {
			return false
		}
		found = l.slip(says, x, y, want)
		return true
	}
	// A number without a unit is looked for first among the givens above: what was left out
	// there is wrong in every line that uses it, and the line itself is right.
	parts := slipParts(x)
	for _, p := range parts {
		d, ok := l.Planner.Find(&syntax.Name{Name: p.text})
		if unit := units.Usual(p.text); p.power > 0 && ok && l.GivenNumber(d) && unit != "" &&
			try("", p.x, "("+p.text+"*(1 "+unit+"))^"+strconv.Itoa(p.power)) {
			found.Hint = p.text + " (line " + strconv.Itoa(d.Line) + ") has no unit. Did you mean it in " + unit + "?"
			return found
		}
	}
	for _, p := range parts {
		if p.power == 1 && try("Is a square missing?", p.x, p.text+"^2") {
			return found
		}
	}
	for q := range syntax.Each[*syntax.Quantity](x) {
		if squared := Squared(q); squared != "" && try("", q, squared) {
			found.Hint = "Only the unit is squared in " + syntax.PrintExpr(q) + ". For the square, write " + squared + "."
			return found
		}
	}
	for _, p := range parts {
		for _, u := range PlainUnits {
			if with := p.text + " " + u; p.power == 0 && try("", p.x, with) {
				found.Hint = p.text + " has no unit. Did you mean " + with + "?"
				return found
			}
		}
	}
	// The root of one name alone is hardly ever meant.
	if _, one := x.(*syntax.Name); !one && !syntax.IsPlain(x) && try("Is a root missing?", x, "√("+text+")") {
		return found
	}
	for _, p := range parts {
		if p.power == 1 && l.hasDim(p.x, units.BaseDim(units.Kilogram)) && try("Is the weight "+p.text+"*g meant?", p.x, "("+p.text+"*g)") {
			return found
		}
	}
	for _, p := range parts {
		with := p.text
		if p.power > 2 {
			with += "^" + strconv.Itoa(p.power-1)
		}
		if named && p.power > 1 && try("Is a power too high?", p.x, with) {
			return found
		}
	}
	if slip := l.rootSlip(x, want); slip.Hint != "" {
		return slip
	}
	if slip := l.squareMoved(x, want); named && slip.Hint != "" {
		return slip
	}
	// A quotient upside down comes last, as putting it right changes the most.
	under := text
	if _, product := x.(*syntax.Binary); product {
		under = "(" + text + ")"
	}
	if named && try("Is it upside down?", x, "1/"+under) {
		return found
	}
	if slip := l.signSlip(x, want); named && slip.Hint != "" {
		return slip
	}
	return Slip{}
}

// FormulaSlip is LikelySlip for what is wrong in the formula alone, a lost square, a root or a
// sign: of an expression whose symbol may stand for several quantities.
func (l *Line) FormulaSlip(x syntax.Expr, want *units.Unit) Slip {
	for _, p := range slipParts(x) {
		if p.power != 1 {
			continue
		}
		if y, ok := Instead(x, func(part syntax.Expr) bool { return part == p.x }, p.text+"^2"); ok && l.hasDim(y, want.Dim()) {
			return l.slip("Is a square missing?", x, y, want)
		}
	}
	return l.structureSlip(x, want)
}

// structureSlip is a slip in how a formula is put together: a square on the wrong name, a root that
// ends too soon, the wrong sign of a product or a quotient.
func (l *Line) structureSlip(x syntax.Expr, want *units.Unit) Slip {
	for _, slip := range [...]func(syntax.Expr, *units.Unit) Slip{l.squareMoved, l.rootSlip, l.signSlip} {
		if found := slip(x, want); found.Hint != "" {
			return found
		}
	}
	return Slip{}
}

// squareMoved finds the square that should be that of another name: I*R^2 for I^2*R. Where several
// would do, none is named.
func (l *Line) squareMoved(x syntax.Expr, want *units.Unit) (found Slip) {
	parts := slipParts(x)
	for _, p := range parts {
		for _, q := range parts {
			if p.power != 2 || q.power != 1 || p.text == q.text {
				continue
			}
			y, ok := Instead(x, func(part syntax.Expr) bool { return part == p.x }, p.text)
			if !ok {
				continue
			}
			y, ok = Instead(y, func(part syntax.Expr) bool { n, is := part.(*syntax.Name); return is && n.Name == q.text }, q.text+"^2")
			if !ok || !l.hasDim(y, want.Dim()) {
				continue
			}
			if found.Hint != "" {
				return Slip{}
			}
			found = l.slip("Is the square on the wrong name?", x, y, want)
		}
	}
	return found
}

// rootSlip finds what is on the wrong side of a root: √(m)/k for √(m/k), and the quotient under
// one that is upside down, √(g/L) for √(L/g).
func (l *Line) rootSlip(x syntax.Expr, want *units.Unit) Slip {
	for part := range syntax.Nodes(x) {
		var with syntax.Expr
		says := "Does the root go on?"
		if q, ok := syntax.Unbracket(UnderRoot(part)).(*syntax.Binary); ok && q.Op == syntax.Div {
			above := q.X
			if _, product := above.(*syntax.Binary); product {
				above = &syntax.Paren{X: above}
			}
			says, with = "Is it upside down?", rootOf(&syntax.Binary{Op: syntax.Div, X: slim(q.Y, syntax.Add, syntax.Sub), Y: above})
		}
		if b, ok := part.(*syntax.Binary); ok && b.Op == syntax.Div {
			above := syntax.Factors(b.X)
			last := above[len(above)-1]
			if of := UnderRoot(last.X); of != nil && !last.Minus {
				with, _ = Instead(b.X, func(p syntax.Expr) bool { return p == last.X }, syntax.PrintExpr(rootOf(&syntax.Binary{Op: syntax.Div, X: slim(of, syntax.Add, syntax.Sub), Y: slim(b.Y, syntax.Add, syntax.Sub, syntax.Mul, syntax.Div)})))
			}
		}
		if with == nil {
			continue
		}
		if y, ok := Instead(x, func(p syntax.Expr) bool { return p == part }, syntax.PrintExpr(with)); ok && l.hasDim(y, want.Dim()) {
			return l.slip(says, x, y, want)
		}
	}
	return Slip{}
}

// UnderRoot is what a root is of; nil where there is none.
func UnderRoot(x syntax.Expr) syntax.Expr {
	switch x := x.(type) {
	case *syntax.Root:
		return x.X
	case *syntax.Call:
		if x.Func == "sqrt" && len(x.Args) == 1 {
			return x.Args[0].X
		}
	}
	return nil
}

// slim is an expression without brackets, unless they hold one of some operations.
func slim(x syntax.Expr, but ...syntax.Op) syntax.Expr {
	inner := syntax.Unbracket(x)
	if b, ok := inner.(*syntax.Binary); ok && slices.Contains(but, b.Op) {
		return x
	}
	return inner
}

func rootOf(x syntax.Expr) syntax.Expr { return &syntax.Root{X: &syntax.Paren{X: x}} }

// signSlip finds the sign of a product that should be that of a quotient, or the other way
// round: √(m*k) for √(m/k). It may be one of several.
func (l *Line) signSlip(x syntax.Expr, want *units.Unit) (found Slip) {
	tried, right := 0, []string(nil)
	for b := range syntax.Each[*syntax.Binary](x) {
		op, says := syntax.Div, "Is it a quotient?"
		switch b.Op {
		case syntax.Mul:
		case syntax.Div:
			op, says = syntax.Mul, "Is it a product?"
		default:
			continue
		}
		if tried++; tried > maxSlipParts {
			return Slip{}
		}
		y, ok := Instead(x, func(part syntax.Expr) bool { return part == syntax.Expr(b) }, syntax.PrintExpr(&syntax.Binary{Op: op, X: b.X, Y: b.Y}))
		if !ok || !l.hasDim(y, want.Dim()) {
			continue
		}
		lines := found.Lines
		found = l.slip(says, x, y, want)
		found.Lines = append(lines, found.Lines...)
		right = append(right, "`"+syntax.PrintExpr(syntax.Unbracket(y))+"`")
	}
	if len(right) > 1 {
		found.Hint = "Is a `*` or a `/` wrong? In " + want.Screen() + " are " + writing.List(right, "and") + "."
	}
	return found
}

// slip says what an expression was probably meant to be.
func (l *Line) slip(says string, x, right syntax.Expr, want *units.Unit) Slip {
	text := syntax.PrintExpr(syntax.Unbracket(right))
	return Slip{says + " `" + text + "` is in " + want.Screen() + ".", []string{l.With(x.Span(), text)}}
}

// Squared is the square of a quantity of which the unit alone has a power of 2: (0.3 m)^2 of
// 0.3 m^2, (5 m/s)^2 of 5 m/s^2; "" where it has none.
func Squared(q *syntax.Quantity) string {
	unit, squared := strings.CutSuffix(strings.TrimSuffix(q.Unit.Text, "²"), "^2")
	if !squared && unit == q.Unit.Text || strings.ContainsAny(unit, "()") {
		return ""
	}
	return "(" + q.Value.Text + " " + unit + ")^2"
}

// With is the line with another text in a place.
func (l *Line) With(at syntax.Span, text string) string {
	return l.Entry.Text[:at.From] + text + l.Entry.Text[at.To:]
}

// slipPart is a part of an expression in which a slip may be: a name with its power,
// or a number, of which the power is 0.
type slipPart struct {
	x     syntax.Expr
	text  string
	power int
}

// maxSlipParts bounds the parts that are tried.
const maxSlipParts = 16

// slipParts lists the names and numbers of an expression, but for exponents and the
// numbers of formulas, 1, 2 and 1/2.
//
// Numbers that formulas have are never the slip: nobody forgets the unit of the 2 in 2*a*s.
func slipParts(x syntax.Expr) []slipPart {
	var out []slipPart
	syntax.Walk(x, func(x syntax.Expr) bool {
		if len(out) == maxSlipParts {
			return false
		}
		switch x := x.(type) {
		case *syntax.Number:
			if !OfFormulas(x) {
				out = append(out, slipPart{x, x.Value.Text, 0})
			}
		case *syntax.Name:
			if x.Line == 0 {
				out = append(out, slipPart{x, x.Name, 1})
			}
		case *syntax.Binary:
			if x.Op != syntax.Pow {
				return true
			}
			n, isName := x.X.(*syntax.Name)
			if e := syntax.Rational(x.Y); isName && n.Line == 0 && e.IsInt() && e.Num() > 1 {
				out = append(out, slipPart{x, n.Name, e.Num()})
			}
			return false
		}
		return true
	})
	return out
}

// OfFormulas tells whether a number is one that formulas have, which lacks no unit.
func OfFormulas(x *syntax.Number) bool {
	v := x.Value.Float()
	return v == 0 || v == 0.5 || v == 1 || v == 2
}

// unlikeSlips puts the likeliest slip in the place of the general hint where unlike
// quantities are added.
//
// Either side may be the wrong one: the left is tried against the right, then the other way
// round.
func (l *Line) unlikeSlips(x syntax.Expr, fs []finding.Finding) {
	for i := range fs {
		f := &fs[i]
		if f.ID != finding.UnlikeDimensions || len(f.Readings) > 0 {
			continue
		}
		for b := range syntax.Each[*syntax.Binary](x) {
			if b.At != f.At || b.Op != syntax.Add && b.Op != syntax.Sub {
				continue
			}
			for _, side := range [2][2]syntax.Expr{{b.X, b.Y}, {b.Y, b.X}} {
				other := l.Try(side[1])
				if other.Slot == run.NoSlot || other.Static.Dim.IsOne() {
					continue
				}
				if slip := l.LikelySlip(side[0], units.Preferred(other.Static.Dim, other.Static.Tag), false); slip.Hint != "" {
					slip.Put(f)
					break
				}
			}
			break
		}
	}
}
