package eval

import (
	"math"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// OpenTurns tells whether nothing says that a value without an angle is in radians,
// where it is shown in turns, or a rate in degrees, or compared with them: 1/T and N/t
// count turns as well.
// That is found then, with both readings.
func (l *Line) OpenTurns(st run.Static, u *units.Unit, x syntax.Expr) bool {
	if !plainTurns(st, u) {
		return false
	}
	w := rate{p: l.Page, number: 1}
	w.take(x, 1)
	if w.radians() {
		return false
	}
	text := syntax.PrintExpr(x)
	if wantsBrackets(x) {
		text = "(" + text + ")"
	}
	if w.turns() && u.Turns() {
		l.Find(finding.New(finding.AngleOrCycle, x.Span(), "`"+text+"` already counts turns, since it is divided by 2π; "+u.Screen()+" divides by 2π once more.",
			"Count them with `(1 rev)`. Or report it in Hz (1 Hz is 1 turn per second).", text+"*(1 rev)"))
	} else {
		l.Find(finding.New(finding.TwoReadings, x.Span(), "`"+text+"`"+mayCount, withUnits, text+"*(1 rev)", text+"*(1 rad)"))
	}
	return true
}

// wantsBrackets tells whether a factor behind an expression would not be one of the
// whole of it: in a sum, and behind a root without brackets.
func wantsBrackets(x syntax.Expr) bool {
	if b, ok := x.(*syntax.Binary); ok && (b.Op == syntax.Add || b.Op == syntax.Sub) {
		return true
	}
	for part := range syntax.Nodes(x) {
		if root, ok := part.(*syntax.Root); ok {
			if _, ok := root.X.(*syntax.Paren); !ok {
				return true
			}
		}
	}
	return false
}

// OpenEquation is OpenTurns for an unknown of an equation.
func (l *Line) OpenEquation(st run.Static, u *units.Unit, name string, left, right syntax.Expr) bool {
	if !plainTurns(st, u) || units.Usual(name) == "rad/s" {
		return false
	}
	w := rate{p: l.Page, number: 1}
	w.take(left, 1)
	w.take(right, -1)
	if w.pi > 0 {
		w.pi, w.number = -w.pi, 1/w.number // the unknown may be on either side
	}
	if w.radians() {
		return false
	}
	l.Find(finding.New(finding.TwoReadings, left.Span().Join(right.Span()), name+mayCount, withUnits))
	return true
}

// plainTurns tells whether a value without an angle is asked for in turns, or a rate
// in degrees.
func plainTurns(st run.Static, u *units.Unit) bool {
	return st.Tag == units.None && st.Open == 0 && st.Dim == u.Dim() && partsOfTurn(u)
}

// partsOfTurn tells whether a unit is one of turns, or of a rate in another part of a
// turn than the radian. A plain number in degrees is an angle in radians.
func partsOfTurn(u *units.Unit) bool {
	return u.Turns() || u.Tag() == units.Angle && !u.Dim().IsOne() && !strings.Contains(u.Text(), "rad")
}

const (
	mayCount  = " may count turns or radians; nothing here says which."
	withUnits = "Write turns with `(1 rev)`, radians with `(1 rad)`."
)

// InTurns is the unit in turns, or of a rate in degrees, that a part of an expression
// has, or nil.
func (p *Page) InTurns(x syntax.Expr) *units.Unit {
	for part := range syntax.Nodes(x) {
		u := p.WrittenUnit(part)
		if u == nil {
			u = p.RememberedUnit(part)
		}
		if u != nil && partsOfTurn(u) {
			return u
		}
	}
	return nil
}

// rate collects what tells whether a value is in radians: the parts of the
// expression, and of the lines that its names come from.
type rate struct {
	p      *Page
	number float64 // the product of the numbers, π among them
	pi     float64 // the power of π
	angle  bool    // a part is an angle, or a rate in radians by its symbol
	other  bool    // a part is neither a number nor a time: v/r and √(k/m) are in radians
	turn   bool    // it is divided by the length of one turn
	stated bool    // an angle in it is written with its unit: N/t*(1 rev)
	depth  int
}

// radians tells what was found. What has a length or a mass in it is in radians,
// unless it was divided by 2π; what has only numbers and times, if 2π is a factor.
func (w *rate) radians() bool {
	switch {
	case w.stated:
		return true
	case w.turns():
		return false
	case w.pi < 0:
		return w.other
	}
	return w.angle || w.other || w.pi > 0
}

// turns tells whether a value was divided by one turn.
func (w *rate) turns() bool { return w.turn || w.pi < 0 && near(w.number, 1/(2*math.Pi)) }

func near(a, b float64) bool { return math.Abs(a-b) < 0.01*math.Abs(b) }

// maxDepth bounds how far the lines of names are followed.
const maxDepth = 8

// take collects what the parts of an expression to the power e tell.
func (w *rate) take(x syntax.Expr, e float64) {
	switch x := x.(type) {
	case *syntax.Pi:
		w.times(math.Pi, e)
		w.pi += e
	case *syntax.Number:
		w.times(x.Value.Float(), e)
		if strings.HasPrefix(x.Value.Text, "3.14") || strings.HasPrefix(x.Value.Text, "6.28") {
			w.pi += e
		}
	case *syntax.Quantity:
		if u, bad := w.p.Planner.Unit(x.Unit, units.AfterNumber); bad == nil {
			w.stated = w.stated || u.Tag() == units.Angle && u.Dim().IsOne() && e > 0
			w.angle = w.angle || u.Tag() == units.Angle && !u.Turns()
			w.other = w.other || !ofTime(u.Dim())
		}
	case *syntax.Name:
		w.name(x, e)
	case *syntax.That:
		for i := len(w.p.Entries) - 1; i >= 0; i-- {
			if w.p.Entries[i].Result() != nil {
				w.line(w.p.Entries[i].Line, e)
				return
			}
		}
	case *syntax.Root:
		w.take(x.X, e/2)
	case *syntax.Binary:
		right := e
		switch x.Op {
		case syntax.Div:
			right = -e
		case syntax.Pow:
			if n, ok := syntax.Rational(x.Y); ok {
				w.take(x.X, e*n.Float())
			}
			return
		}
		w.take(x.X, e)
		w.take(x.Y, right)
	case *syntax.Call:
		if x.Func == "sqrt" {
			e /= 2
		}
		for _, a := range x.Args {
			w.take(a.X, e)
		}
		if d, ok := w.p.Planner.Names.Lookup(x.Func); ok && d.Kind == plan.Function && d.Func.X != nil {
			w.within(e, d.Func.X)
		}
	case *syntax.Paren:
		w.take(x.X, e)
	case *syntax.Unary:
		w.take(x.X, e)
	}
}

func (w *rate) times(v, e float64) { w.number *= math.Pow(v, e) }

// name collects what a name tells, by its symbol, its unit, or its own line.
func (w *rate) name(x *syntax.Name, e float64) {
	d, ok := w.p.Planner.Find(x)
	if !ok || d.Failed() || d.Slot == run.NoSlot || d.Kind != plan.Quantity && d.Kind != plan.Symbol {
		return
	}
	st := w.p.Planner.Static(d.Slot)
	usual := units.Usual(x.Name)
	switch {
	case st.Dim == units.BaseDim(units.Metre):
		w.other = true
		w.turn = w.turn || e == -1 && w.length(x.Name, d)
	case !ofTime(st.Dim):
		w.other = true
	case st.Tag == units.Angle, st.Dim.Exp(int(units.Second)).Num() == -2 && math.Abs(e) == 0.5:
		w.angle = true // √C is in radians where C is an acceleration over a length
	case usual == "rad/s" || strings.HasPrefix(usual, "rad") && st.Dim != units.BaseDim(units.Second):
		w.angle = true
	case units.Symbol(x.Name) == "T":
	default:
		w.line(d.Line, e)
	}
}

// length tells whether the length under a fraction bar makes the quotient one of
// turns: a circumference that was worked out above, or a diameter beside π.
func (w *rate) length(name string, d *plan.Def) bool {
	if near(w.number, 1/math.Pi) && (units.Symbol(name) == "d" || units.Symbol(name) == "D" || name == "diameter") {
		return true
	}
	own := rate{p: w.p, number: 1, depth: w.depth}
	own.line(d.Line, 1)
	return own.pi == 1 && (near(own.number, 2*math.Pi) || near(own.number, math.Pi))
}

// line collects what the line tells that a name was worked out in.
func (w *rate) line(n int, e float64) {
	if entry := w.p.EntryAt(n); entry != nil && entry.Stmt != nil {
		w.within(e, entry.Stmt.Exprs()...)
	}
}

// within collects what expressions of another line tell.
func (w *rate) within(e float64, of ...syntax.Expr) {
	if w.depth == maxDepth {
		return
	}
	w.depth++
	for _, x := range of {
		w.take(x, e)
	}
	w.depth--
}

// ofTime tells whether a dimension is that of a number or of a power of time.
func ofTime(d units.Dim) bool {
	for b := units.Kilogram; b <= units.Candela; b++ {
		if b != units.Second && !d.Exp(int(b)).IsZero() {
			return false
		}
	}
	return true
}
