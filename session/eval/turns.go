package eval

import (
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// The rule of turns. A rate in turns is an angle per time here: 30 rpm is 3.14 rad/s.
// A formula counts turns as often as radians, and its value differs by 2π then: N/n is
// a time for N turns, and θ/n one for an angle. So a line is open, and is refused with
// both readings, where turns are on one side of it and not on the other, and nothing
// says that the other side is in radians:
//
//   - a value is shown in turns, or is compared with turns or added to them;
//   - a rate in turns is a factor of a value that is no angle: N/n, 1/n, n*T = 1;
//   - the same in what a function, a curve or an equation holds.
//
// Radians are said by 2π on the other side of the bar (2π/n, n/(2π)), by an angle
// (θ/n) or its symbol, and by a length, a mass or the like (v = r*n, M = P/n), unless
// they are divided by the 2π of a turn (v/(2π*r), M = P/(2π*n)).
// Turns are said with (1 rev). A rate in degrees per time is one of turns in this.

// OpenTurns tells whether a value is open by the rule of turns, and finds that. It is
// shown in a unit, which is nil where the line asks for none; uses are the names in it.
//
// For N = 300 rev/min a line T = 1/N is the time for one radian by dimension and for one turn
// by every formula of machines; both are offered, and none is taken.
func (l *Line) OpenTurns(name string, st run.Static, u *units.Unit, x syntax.Expr, uses []*plan.Def) bool {
	return l.mayTurn(st, u, uses) && l.open(l.TurnsIn(name, st, u, x))
}

// open tells of what is open, and whether it is.
func (l *Line) open(f finding.Finding, open bool) bool {
	if open {
		l.Find(f)
	}
	return open
}

// mayTurn tells whether there may be turns in a value.
func (l *Line) mayTurn(st run.Static, u *units.Unit, uses []*plan.Def) bool {
	return st.Open == 0 && (partsOfTurn(u) || l.Turning(uses))
}

// OpenCurve is OpenTurns for a curve, with the unit of the name that it is against.
func (l *Line) OpenCurve(st run.Static, u *units.Unit, x syntax.Expr, uses []*plan.Def, against map[string]*units.Unit) bool {
	return l.mayTurn(st, u, uses) && l.open(l.turnsIn(st, u, x, against))
}

// TurnsIn is what OpenTurns finds. A name that frequencies go by is asked about where it is an
// angle per time, as turns in a time are: f = N/t.
func (l *Line) TurnsIn(name string, st run.Static, u *units.Unit, x syntax.Expr) (finding.Finding, bool) {
	if units.Usual(name) == "Hz" && st.Tag == units.Angle && st.Dim == units.Of("Hz").Dim() && !syntax.IsPlain(x) {
		text := syntax.PrintExpr(x)
		return finding.New(finding.TwoReadings, x.Span(), "`"+text+"` is an angle per time, since a turn is an angle of 2π; "+name+" is mostly a frequency.",
			"Count turns with `(1 rev)`, or ask for rad/s.", by(x, "/(1 rev)"), text+" in rad/s"), true
	}
	return l.turnsIn(st, u, x, nil)
}

// A value that is shown as an angle, or as a rate of one, is in radians by its unit, whatever
// it was worked out from.
func (l *Line) turnsIn(st run.Static, u *units.Unit, x syntax.Expr, against map[string]*units.Unit) (finding.Finding, bool) {
	if f, open := l.openSum(x, against); open {
		return f, true
	}
	w := radianSigns{p: l.Page, unknown: against}
	switch {
	case partsOfTurn(u):
		if w.rev = -turnPower(u); st.Tag != units.None || st.Dim != u.Dim() {
			return finding.Finding{}, false
		}
	case st.Tag == units.Angle && (u == nil || u.Tag() == units.Angle) && ofTime(st.Dim) && st.Dim.Exp(int(units.Second)).Num() <= 0:
		return finding.Finding{}, false // an angle, or a rate of one, is shown in radians
	}
	if !w.open(x, nil) {
		return finding.Finding{}, false
	}
	return w.finding(x, u), true
}

// OpenBody is OpenTurns for the body of a function, of which the arguments are taken
// for what their symbols are used for.
func (l *Line) OpenBody(f *syntax.FuncDef, u *units.Unit) bool {
	w := radianSigns{p: l.Page, rev: -turnPower(u), params: f.Params}
	if f.X == nil || !partsOfTurn(u) || !w.open(f.X, nil) {
		return false
	}
	l.Find(w.finding(f.X, u))
	return true
}

// OpenSides is OpenTurns for the two sides of an equation, of which some names may be
// unknown, and shown in a unit.
//
// A sum within a side is looked at first: what is wrong inside it is nearer to the slip than
// the equation as a whole.
func (l *Line) OpenSides(left, right syntax.Expr, unknown map[string]*units.Unit, uses []*plan.Def) bool {
	asked := false
	for _, u := range unknown {
		asked = asked || partsOfTurn(u)
	}
	if !asked && !l.Turning(uses) {
		return false
	}
	f, open := l.openSum(left, unknown)
	if !open {
		f, open = l.openSum(right, unknown)
	}
	if !open {
		f, open = l.openSides(left, right, unknown)
	}
	if open {
		l.Find(f)
	}
	return open
}

// openSides finds which side of an equation may count turns as the other one does.
func (l *Line) openSides(left, right syntax.Expr, unknown map[string]*units.Unit) (finding.Finding, bool) {
	w := radianSigns{p: l.Page, unknown: unknown}
	if !w.open(left, right) {
		return finding.Finding{}, false
	}
	side, other := left, right
	if w.above {
		side, other = right, left
	}
	return w.finding(side, l.InTurns(other)), true
}

// openSum finds a sum of which one term is in turns.
func (l *Line) openSum(x syntax.Expr, unknown map[string]*units.Unit) (finding.Finding, bool) {
	for b := range syntax.Each[*syntax.Binary](x) {
		if b.Op != syntax.Add && b.Op != syntax.Sub || syntax.IsBareZero(b.X) || syntax.IsBareZero(b.Y) {
			continue
		}
		if f, open := l.openSides(b.X, b.Y, unknown); open {
			return f, true
		}
	}
	return finding.Finding{}, false
}

// Turning tells whether there may be turns in a line with these names.
//
// It is quick, and is asked of every line: a page on which nothing turns pays for a look at the
// text and at the units of the names.
func (l *Line) Turning(uses []*plan.Def) bool {
	text := l.Entry.Text
	return strings.Contains(text, "rpm") || strings.Contains(text, "rev") || strings.Contains(text, "°/") || l.usesTurns(uses)
}

// usesTurns tells whether a definition has a unit of turns, or is a function with such a unit
// written in it.
func (p *Page) usesTurns(uses []*plan.Def) bool {
	for _, d := range uses {
		if partsOfTurn(d.Unit) || d.Kind == plan.Function && d.Func != nil && d.Func.X != nil && p.InTurns(d.Func.X) != nil {
			return true
		}
	}
	return false
}

// partsOfTurn tells whether a unit is one of turns, or of a rate in another part of a
// turn than the radian. A plain number in degrees is an angle in radians.
func partsOfTurn(u *units.Unit) bool { return turnPower(u) != 0 }

// turnPower is the power of those turns; 0 of a unit that has none, and of nil.
//
// A unit in degrees per time counts as one of turns too: a formula that wants radians is off
// with it in the same way.
func turnPower(u *units.Unit) float64 {
	if u == nil {
		return 0
	}
	if n := u.TurnPower(); n != 0 {
		return n
	}
	if u.Tag() == units.Angle && !u.Dim().IsOne() && !strings.Contains(u.Text(), "rad") {
		return 1
	}
	return 0
}

// InTurns is the unit in turns, or of a rate in degrees, that a part of an expression
// has, or nil.
func (p *Page) InTurns(x syntax.Expr) *units.Unit {
	return p.unitWithin(x, partsOfTurn)
}

// PartUnit is the unit of a written quantity, or of the line of a name; nil of others.
//
// What is written says it by itself, and a name by its line; of a sum nothing is said here.
func (p *Page) PartUnit(x syntax.Expr) *units.Unit {
	if u := p.WrittenUnit(x); u != nil {
		return u
	}
	return p.RememberedUnit(x)
}

// finding says that an expression, which is shown in turns or meets them, may count
// turns itself.
//
// Where a line has divided by 2π and asks for rev/min as well, 2π would be in it twice, and
// only one reading is left to offer.
func (w *radianSigns) finding(x syntax.Expr, u *units.Unit) finding.Finding {
	text := syntax.PrintExpr(x)
	if u != nil && u.Turns() && w.turns() {
		return finding.New(finding.AngleOrCycle, x.Span(), "`"+text+"` already counts turns, since it is divided by 2π; "+u.Screen()+" divides by 2π once more.",
			"Multiply by `(1 rev)`, or report it in Hz: 1 Hz is 1 turn per second.", times(x, "(1 rev)"))
	}
	readings := []string{times(x, "(1 rev)"), times(x, "(1 rad)")}
	if b, ok := x.(*syntax.Binary); ok && b.Op == syntax.Div && w.below(b.Y) {
		unit := " rev"
		if turn := w.p.InTurns(b.Y); turn != nil && !turn.Turns() {
			unit = "°"
		}
		readings = over(b, unit)
	} else if w.above && !w.equation {
		readings = []string{by(x, "/(1 rev)"), by(x, "/(1 rad)")}
	}
	return finding.New(finding.TwoReadings, x.Span(), "`"+text+"` may count turns or radians; nothing here says which.",
		"Write turns with `(1 rev)`, radians with `(1 rad)`."+w.p.InHertz(x), readings...)
}

// InHertz says how a given in turns that expressions have becomes a number of turns a second, which
// needs no rev beside it: f = 45 rpm in Hz. Empty if they have none.
func (p *Page) InHertz(of ...syntax.Expr) string {
	for n := range syntax.Each[*syntax.Name](of...) {
		d, ok := p.Planner.Find(n)
		if !ok || d.Failed() || d.Unit == nil || !d.Unit.Turns() || p.EntryAt(d.Line) == nil {
			continue
		}
		if given, ok := p.EntryAt(d.Line).Stmt.(*syntax.Define); ok && given.Plain() && !given.In.Present() && d.Unit.Dim() == units.Of("Hz").Dim() {
			return " Or give " + d.Name + " in Hz, which counts turns alone: `" + p.EntryAt(d.Line).Text + " in Hz`."
		}
	}
	return ""
}

// below tells whether there are turns in what is below a fraction bar.
//
// 60/n is in question for the n below, and r*n for the n beside.
func (w *radianSigns) below(x syntax.Expr) bool {
	of := radianSigns{p: w.p, unknown: w.unknown, params: w.params, number: 1}
	of.take(x, 1)
	return of.rev > 0
}

// over writes turns, or degrees, and radians above a bar. A 60 there turns a number of turns per
// minute into a time, and is left out first.
//
// 60/n is the time for one turn in seconds where n is turns in a minute. Here n has its minute
// with it, so the 60 would count it once more.
func over(b *syntax.Binary, unit string) []string {
	below := "/" + syntax.PrintExpr(b.Y)
	if _, sum := b.Y.(*syntax.Binary); sum {
		below = "/(" + syntax.PrintExpr(b.Y) + ")"
	}
	switch top := syntax.Unbracket(b.X).(type) {
	case *syntax.Quantity:
		if top.Value.Text == "60" && top.Unit.Text == "s" || top.Value.Text == "1" && top.Unit.Text == "min" {
			return []string{"(1 rev)" + below}
		}
	case *syntax.Number:
		if top.Value.Text == "60" {
			return []string{"(1 rev)" + below}
		}
		return []string{"(" + top.Value.Text + unit + ")" + below, "(" + top.Value.Text + " rad)" + below}
	case *syntax.Binary:
		if n, ok := top.X.(*syntax.Number); ok && top.Op == syntax.Mul && n.Value.Text == "60" {
			return []string{times(top.Y, "(1 rev)") + below, times(top, "(1 rad)") + below}
		}
	}
	return []string{times(b.X, "(1 rev)") + below, times(b.X, "(1 rad)") + below}
}

// times is an expression with a factor behind it.
func times(x syntax.Expr, factor string) string {
	if n, ok := x.(*syntax.Number); ok && n.Value.Text == "1" {
		return factor
	}
	return by(x, "*"+factor)
}

// by is an expression with an operator and an operand behind it.
func by(x syntax.Expr, behind string) string {
	text := syntax.PrintExpr(x)
	if wantsBrackets(x) {
		text = "(" + text + ")"
	}
	return text + behind
}

// wantsBrackets tells whether a factor behind an expression would not be one of the
// whole of it: in a sum, and behind a root without brackets.
//
// √k/m*(1 rev) would leave open what is under the root.
func wantsBrackets(x syntax.Expr) bool {
	if b, ok := x.(*syntax.Binary); ok && (b.Op == syntax.Add || b.Op == syntax.Sub) {
		return true
	}
	return syntax.Any(x, func(part syntax.Expr) bool {
		root, ok := part.(*syntax.Root)
		return ok && syntax.Unbracket(root.X) == root.X
	})
}
