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

// A change puts one slip right that formulas are often written with: a square that is missing, a root
// that ends too soon. It is tried at each part of a line.
type change struct {
	of   tried
	says string // what is asked of the line put right
	put  func(part)
	all  bool // where several would do, all are offered, and not the first alone
}

// part is a part of a line; of a name, alone or to a power, with that.
type part struct {
	syntax.Expr
	name  string
	power int
}

// tried tells of which lines a change is tried.
type tried int

const (
	missing   tried = 1 << iota // something may be missing, whatever the line is for
	mixed                       // something is too much or mixed up: not where the unit is as likely wrong
	ofFormula                   // the formula alone is wrong, and no given
)

// changes are in the order of how often the slips are seen. What was left out of a given comes first:
// it is wrong in every line that uses it, and the line itself is right. A quotient upside down comes
// late, as putting it right changes the most.
func (s *search) changes() []change {
	return []change{
		{of: missing, put: s.givenUnit},
		{of: missing | ofFormula, says: "Is a square missing?", put: s.square},
		{of: missing, put: func(p part) { // 0.3 m^2 for (0.3 m)^2
			if q, ok := p.Expr.(*syntax.Quantity); ok && Squared(q) != "" {
				s.put(p, Squared(q), "Only the unit is squared in "+syntax.PrintExpr(q)+". For the square, write "+Squared(q)+".")
			}
		}},
		{of: missing, put: func(p part) { // nobody forgets the unit of the 2 in 2*a*s
			if n, ok := p.Expr.(*syntax.Number); ok && !OfFormulas(n) {
				for _, u := range PlainUnits {
					s.put(p, n.Value.Text+" "+u, n.Value.Text+" has no unit. Did you mean "+n.Value.Text+" "+u+"?")
				}
			}
		}},
		{of: missing, says: "Is a root missing?", put: func(p part) { // that of one name is hardly ever meant
			if p.Expr == s.x && p.power != 1 && !syntax.IsPlain(p.Expr) {
				s.put(p, "√("+syntax.PrintExpr(p.Expr)+")", "")
			}
		}},
		{of: missing, put: func(p part) {
			if p.power == 1 && s.Try(p.Expr).Static.Dim == units.BaseDim(units.Kilogram) {
				s.says = "Is the weight " + p.name + "*g meant?"
				s.put(p, "("+p.name+"*g)", "")
			}
		}},
		{of: mixed, says: "Is a power too high?", put: func(p part) {
			if p.power > 1 {
				s.put(p, raised(p.name, p.power-1), "")
			}
		}},
		{of: missing | ofFormula, put: s.rootEnds},
		{of: mixed | ofFormula, says: "Is the square on the wrong name?", put: s.squareMoved, all: true},
		{of: mixed, says: "Is it upside down?", put: func(p part) {
			if _, product := p.Expr.(*syntax.Binary); p.Expr == s.x {
				under := syntax.PrintExpr(p.Expr)
				if product {
					under = "(" + under + ")"
				}
				s.put(p, "1/"+under, "")
			}
		}},
		{of: mixed | ofFormula, put: s.sign, all: true},
	}
}

// search tries the changes of an expression.
type search struct {
	*Line
	change
	x       syntax.Expr
	accepts func(syntax.Expr) bool
	right   []syntax.Expr // what it may have been meant to be
	hint    string        // of the first of them, if it has its own
}

// maxChanged bounds the parts of an expression at which a change is tried.
const maxChanged = 32

// LikelySlip says which of the commonest slips explains that an expression of the line
// does not have the dimension of a unit. Of a result without a name the unit is as likely
// wrong: only what may be missing is tried then, and nothing that may be too much.
//
// The line with it put right is worked out, and counts if it has the dimension that was asked for.
func (l *Line) LikelySlip(x syntax.Expr, want *units.Unit, named bool) Slip {
	if named {
		return l.slipOf(x, want, missing|mixed)
	}
	return l.slipOf(x, want, missing)
}

// FormulaSlip is LikelySlip for what is wrong in the formula alone, a lost square, a root or a
// sign: of an expression whose symbol may stand for several quantities.
func (l *Line) FormulaSlip(x syntax.Expr, want *units.Unit) Slip { return l.slipOf(x, want, ofFormula) }

// Changed is an expression with the first change of its formula that a test accepts.
func (l *Line) Changed(x syntax.Expr, accepts func(syntax.Expr) bool) (syntax.Expr, bool) {
	s := search{Line: l, x: x, accepts: accepts}
	for _, c := range s.changes() {
		if s.change = c; c.of&ofFormula != 0 {
			s.each()
		}
		if len(s.right) > 0 {
			return s.right[0], true
		}
	}
	return nil, false
}

func (l *Line) slipOf(x syntax.Expr, want *units.Unit, of tried) (out Slip) {
	s := search{Line: l, x: x, accepts: func(y syntax.Expr) bool {
		got := l.Try(y)
		return got.Slot != run.NoSlot && got.Static.Dim == want.Dim()
	}}
	for _, c := range s.changes() {
		if c.of&of != 0 {
			s.change = c
			s.each()
		}
		if len(s.right) > 0 {
			break
		}
	}
	var texts []string
	for _, y := range s.right {
		text := syntax.PrintExpr(syntax.Unbracket(y))
		texts = append(texts, "`"+text+"`")
		out.Lines = append(out.Lines, l.With(x.Span(), text))
	}
	switch {
	case s.hint != "":
		out.Hint = s.hint
	case len(texts) == 1:
		out.Hint = s.says + " " + texts[0] + " is in " + want.Screen() + "."
	case len(texts) > 1:
		out.Hint = s.says + " In " + want.Screen() + " are " + writing.List(texts, "and") + "."
	}
	return out
}

// each tries a change at the parts of the expression. Exponents are none.
func (s *search) each() {
	left := maxChanged
	syntax.Walk(s.x, func(x syntax.Expr) bool {
		if left--; left < 0 {
			return false
		}
		p := partOf(x)
		s.change.put(p)
		b, ok := x.(*syntax.Binary)
		if ok && b.Op == syntax.Pow && p.power == 0 {
			syntax.Walk(b.X, func(x syntax.Expr) bool { s.change.put(partOf(x)); return true })
		}
		return !ok || b.Op != syntax.Pow
	})
}

// partOf is an expression as a part: of ω^2 the name is ω, and the power 2.
func partOf(x syntax.Expr) part {
	of, e := x, 1
	if b, ok := x.(*syntax.Binary); ok && b.Op == syntax.Pow {
		r := syntax.Rational(b.Y)
		if of, e = b.X, r.Num(); !r.IsInt() || e < 2 {
			return part{Expr: x}
		}
	}
	switch n := of.(type) {
	case *syntax.Name:
		if n.Line == 0 {
			return part{x, n.Name, e}
		}
	case *syntax.Pi:
		return part{x, "π", e}
	}
	return part{Expr: x}
}

// put tries a text in the place of a part, with what is said of it if it isn't asked of the whole.
func (s *search) put(p part, with, hint string) {
	if len(s.right) > 0 && !s.all {
		return
	}
	y, ok := Instead(s.x, func(x syntax.Expr) bool { return x == p.Expr }, with)
	if ok && s.accepts(y) {
		s.right, s.hint = append(s.right, y), hint
	}
}

// givenUnit finds a name that is given as a plain number.
func (s *search) givenUnit(p part) {
	d, ok := s.Planner.Find(&syntax.Name{Name: p.name})
	if unit := units.Usual(p.name); ok && unit != "" && s.GivenNumber(d) {
		s.put(p, raised("("+p.name+"*(1 "+unit+"))", p.power),
			p.name+" (line "+strconv.Itoa(d.Line)+") has no unit. Did you mean it in "+unit+"?")
	}
}

func raised(base string, power int) string {
	return strings.TrimSuffix(base+"^"+strconv.Itoa(power), "^1")
}

func (s *search) square(p part) {
	if p.power == 1 {
		s.put(p, p.name+"^2", "")
	}
}

// squareMoved finds the square that should be that of another name: I*R^2 for I^2*R.
func (s *search) squareMoved(p part) {
	if p.power != 2 {
		return
	}
	without, _ := Instead(s.x, func(x syntax.Expr) bool { return x == p.Expr }, p.name)
	other := search{Line: s.Line, x: without, accepts: s.accepts}
	other.change = change{all: true, put: func(q part) {
		if q.name != p.name {
			other.square(q)
		}
	}}
	other.each()
	s.right = append(s.right, other.right...)
}

// rootEnds finds what is on the wrong side of a root: √(m)/k for √(m/k), and the quotient under
// one that is upside down, √(g/L) for √(L/g).
func (s *search) rootEnds(p part) {
	if q, ok := syntax.Unbracket(UnderRoot(p.Expr)).(*syntax.Binary); ok && q.Op == syntax.Div && len(s.right) == 0 {
		above := q.X
		if _, product := above.(*syntax.Binary); product {
			above = &syntax.Paren{X: above}
		}
		s.says = "Is it upside down?"
		s.put(p, syntax.PrintExpr(rootOf(&syntax.Binary{Op: syntax.Div, X: slim(q.Y, syntax.Add, syntax.Sub), Y: above})), "")
	}
	if b, ok := p.Expr.(*syntax.Binary); ok && b.Op == syntax.Div && len(s.right) == 0 {
		above := syntax.Factors(b.X)
		last := above[len(above)-1]
		if of := UnderRoot(last.X); of != nil && !last.Minus {
			root := rootOf(&syntax.Binary{Op: syntax.Div, X: slim(of, syntax.Add, syntax.Sub), Y: slim(b.Y, syntax.Add, syntax.Sub, syntax.Mul, syntax.Div)})
			with, _ := Instead(b.X, func(x syntax.Expr) bool { return x == last.X }, syntax.PrintExpr(root))
			s.says = "Does the root go on?"
			s.put(p, syntax.PrintExpr(with), "")
		}
	}
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

// sign finds the sign of a product that should be that of a quotient, or the other way round:
// √(m*k) for √(m/k).
func (s *search) sign(p part) {
	b, ok := p.Expr.(*syntax.Binary)
	if !ok || b.Op != syntax.Mul && b.Op != syntax.Div {
		return
	}
	op, says, n := syntax.Div, "Is it a quotient?", len(s.right)
	if b.Op == syntax.Div {
		op, says = syntax.Mul, "Is it a product?"
	}
	s.put(p, syntax.PrintExpr(&syntax.Binary{Op: op, X: b.X, Y: b.Y}), "")
	switch {
	case n == len(s.right):
	case n > 0:
		s.says = "Is a `*` or a `/` wrong?"
	default:
		s.says = says
	}
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
