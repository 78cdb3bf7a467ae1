package eval

import (
	"math"
	"slices"
	"strings"

	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// radianSigns are what tells whether a value is in radians: the parts of the
// expression, and of the lines that its names come from.
//
// It is a product taken apart: each factor adds its sign with the power it has, so that the
// turns of n^2 count twice and those below a bar less. What a name came from in lines above is
// looked at in the same way.
type radianSigns struct {
	p      *Page
	number float64 // the product of the numbers, π among them
	pi     float64 // the power of π
	angle  bool    // a part is an angle, or a rate in radians by its symbol
	other  bool    // a part is neither a number nor a time: v/r and √(k/m) are in radians
	turn   bool    // it is divided by the length of one turn
	rev    float64 // the power of units in turns
	above  bool    // they were on the left, or above the bar
	stated bool    // the radian is written: N*(1 rad)/n
	depth  int

	unknown  map[string]*units.Unit // unknowns, with the units that they are shown in
	equation bool                   // it has two sides
	params   []string               // arguments, which are what their symbol is used for
}

// open tells whether turns are on one side of an equation and not on the other, and
// nothing says that this is in radians; right is nil where the left side is shown in
// turns if rev is -1, and else is no angle.
//
// A line is tried as it is and upside down, since which side counts turns depends on which one
// is taken for the equation's left: T = 1/n and n = 1/T are one slip.
func (w *radianSigns) open(left, right syntax.Expr) bool {
	shown := w.rev
	for _, e := range [...]float64{1, -1} { // the second time upside down
		*w = radianSigns{p: w.p, unknown: w.unknown, params: w.params, number: 1, rev: e * shown, above: e < 0, equation: right != nil}
		w.take(w.p.Opened(left, len(w.p.Entries)+1), e)
		if right != nil {
			w.take(w.p.Opened(right, len(w.p.Entries)+1), -e)
		}
		if w.rev <= 0 {
			break
		}
	}
	return w.rev < 0 && !w.radians()
}

// radians tells what was found. What has a length or a mass in it is in radians,
// unless it was divided by 2π; what has only numbers and times, if 2π is a factor.
//
// 2π below the bar says turns, and above it radians; a length or a mass beside a rate says
// radians too, since v = r*ω is right for radians alone.
func (w *radianSigns) radians() bool {
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
func (w *radianSigns) turns() bool { return w.turn || w.pi < 0 && near(w.number, 1/(2*math.Pi)) }

func near(a, b float64) bool { return math.Abs(a-b) < 0.01*math.Abs(b) }

// maxDepth bounds how far the lines of names are followed.
const maxDepth = 8

// take collects what the parts of an expression to the power e tell.
//
// Terms of a sum are of one kind, so the second adds nothing to the powers. A function that
// gives a pure number tells nothing, whatever is in it.
func (w *radianSigns) take(x syntax.Expr, e float64) {
	switch x := x.(type) {
	case *syntax.Pi:
		w.times(math.Pi, e)
		w.pi += e
	case *syntax.Number:
		w.times(x.Value.Float(), e)
		if syntax.HalfTurns(x.Value.Float()) > 0 {
			w.pi += e
		}
	case *syntax.Quantity:
		if u, bad := w.p.Planner.Unit(x.Unit, units.AfterNumber); bad == nil {
			w.rev += e * turnPower(u)
			w.angle = w.angle || u.Tag() == units.Angle && !partsOfTurn(u)
			w.stated = w.stated || u.Text() == "rad"
			w.other = w.other || !ofTime(u.Dim())
		}
	case *syntax.Name:
		w.name(x, e)
	// The line that `that` means is the last one with a result.
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
			if n := syntax.Rational(x.Y); !n.Lost() {
				w.take(x.X, e*n.Float())
			}
			return
		}
		w.take(x.X, e)
		rev := w.rev
		w.take(x.Y, right)
		if x.Op == syntax.Add || x.Op == syntax.Sub {
			w.rev = rev // the terms have the same
		}
	case *syntax.Call:
		switch x.Func {
		case "sqrt":
			e /= 2
		case "abs":
		default:
			return // a pure number
		}
		for _, a := range x.Args {
			w.take(a.X, e)
		}
	case *syntax.SlopeOf:
		w.curve(x.X, x.Var.Name, x.Place, e, -e)
	case *syntax.AreaUnder:
		w.curve(x.X, x.Var.Name, x.To, e, e)
	case *syntax.Paren:
		w.take(x.X, e)
	case *syntax.Unary:
		w.take(x.X, e)
	}
}

func (w *radianSigns) times(v, e float64) { w.number *= math.Pow(v, e) }

// curve collects what the parts of a curve tell, and what its variable does, which goes
// up to some place, to a power.
func (w *radianSigns) curve(x syntax.Expr, name string, place syntax.Expr, e, of float64) {
	outer := w.unknown
	w.unknown = map[string]*units.Unit{name: w.p.PartUnit(place)}
	w.take(x, e)
	w.name(&syntax.Name{Name: name}, of)
	w.unknown = outer
}

// name collects what a name tells, by its symbol, its unit, or its own line.
//
// The unit of its line says most, then the dimension, then what its letter is used for, and
// last the line that it was worked out in. An acceleration over a length, of which a root is
// taken, is the square of a rate in radians: √(g/L).
func (w *radianSigns) name(x *syntax.Name, e float64) {
	if slices.Contains(w.params, x.Name) {
		of := units.Customs(x.Name)
		w.other = w.other || len(of) == 0 || !ofTime(of[0])
		w.angle = w.angle || strings.HasPrefix(units.Usual(x.Name), "rad")
		return
	}
	if u, ok := w.unknown[x.Name]; ok {
		w.rev += e * turnPower(u)
		w.other = w.other || u != nil && !ofTime(u.Dim())
		w.angle = w.angle || !partsOfTurn(u) && strings.HasPrefix(units.Usual(x.Name), "rad")
		return
	}
	d, ok := w.p.Planner.Find(x)
	if !ok || d.Failed() || d.Slot == run.NoSlot || d.Kind != plan.Quantity && d.Kind != plan.Symbol {
		return
	}
	st := w.p.Planner.Static(d.Slot)
	usual := units.Usual(x.Name)
	switch {
	case partsOfTurn(d.Unit):
		w.rev += e * turnPower(d.Unit)
		w.other = w.other || !ofTime(st.Dim)
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
//
// v/(π*d) is turns in a time, as π*d is once round.
func (w *radianSigns) length(name string, d *plan.Def) bool {
	if near(w.number, 1/math.Pi) && (units.Symbol(name) == "d" || units.Symbol(name) == "D" || name == "diameter") {
		return true
	}
	own := radianSigns{p: w.p, number: 1, depth: w.depth}
	own.line(d.Line, 1)
	return own.pi == 1 && (near(own.number, 2*math.Pi) || near(own.number, math.Pi))
}

// line collects what the line tells that a name was worked out in.
func (w *radianSigns) line(n int, e float64) {
	if entry := w.p.EntryAt(n); entry != nil && entry.Stmt != nil {
		w.within(e, entry.Stmt.Exprs()...)
	}
}

// within collects what expressions of another line tell.
//
// A line that uses itself by way of others can't be; but many lines deep the sign is of little
// use.
func (w *radianSigns) within(e float64, of ...syntax.Expr) {
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
