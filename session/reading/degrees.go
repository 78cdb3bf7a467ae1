package reading

import (
	"math"
	"slices"

	"steelyard/lang/finding"
	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/units"
)

// placed is a name that has values in a line, which reach expressions by it: the θ of F(60), of
// area under F(θ) from 0 to 90, of F with θ = 60.
type placed struct {
	name   string
	of     []syntax.Expr
	values []syntax.Expr
	ranged bool
	with   bool // names of other lines have it, too
}

// degrees refuses a line in which a plain number beyond a turn reaches a sine, cosine or tangent
// through a name: 60 in F(60), where F(θ) is (5 N)*cos(θ). What is written in the function itself
// is asked about by its text (syntax.MayBeOpen).
//
// A range is asked about where it is that of the letter of an angle and its numbers are those of
// degrees, 0 to 90: sin(x)/x goes over radians, from 1 to 900 too.
func (s *settler) degrees() Verdict {
	for _, p := range s.placedIn() {
		open := func(x syntax.Expr) bool {
			v, ok := s.plainNumber(x)
			return ok && math.Abs(v) > 2*math.Pi && !(p.ranged && (math.Abs(v) < 30 || math.Mod(v, 15) != 0))
		}
		if p.ranged && units.Usual(p.name) != "rad" || !slices.ContainsFunc(p.values, open) || !slices.ContainsFunc(p.of, func(x syntax.Expr) bool { return s.turns(x, p.name, p.with, 0) }) {
			continue
		}
		var lines []string
		for _, unit := range [...]string{"°", " rad"} {
			if line := s.inAngle(p.values, unit); !s.offered || s.accepted(line) {
				lines = append(lines, line)
			}
		}
		return refuse(s.whole(finding.TwoReadings, "A number without a unit is in radians here.", "Did you mean degrees?", lines...))
	}
	return Verdict{}
}

// placedIn are the names that plain numbers are put for in a line.
func (s *settler) placedIn() (out []placed) {
	stmt := s.Entry.Stmt
	places := syntax.Placed(stmt)
	if g, ok := stmt.(*syntax.Graph); ok && g.By != nil {
		places = append(places, syntax.Binding{Name: g.Against.Name, X: g.By})
	}
	_, x, _ := syntax.AsResult(stmt)
	for _, b := range places {
		k := slices.IndexFunc(out, func(p placed) bool { return p.name == b.Name })
		if k < 0 {
			p := placed{name: b.Name}
			_, p.of = syntax.Bound(stmt)
			_, slope := x.(*syntax.SlopeOf)
			if with, ok := x.(*syntax.With); ok {
				p.of, p.with = []syntax.Expr{with.X}, true
			}
			p.ranged = !p.with && !slope
			k, out = len(out), append(out, p)
		}
		out[k].values = append(out[k].values, b.X)
	}
	bound, _ := syntax.Bound(stmt)
	if s.calls {
		for c := range syntax.Each[*syntax.Call](stmt.Exprs()...) {
			for i, param := range s.paramsOf(c) {
				if n, ok := c.Args[i].X.(*syntax.Name); ok && slices.Contains(bound, n.Name) {
					continue // the θ of area under F(θ)
				}
				out = append(out, placed{name: param, of: s.bodyOf(c), values: []syntax.Expr{c.Args[i].X}})
			}
		}
	}
	return out
}

// paramsOf are the arguments of a function of the worksheet that is called with as many.
func (s *settler) paramsOf(c *syntax.Call) []string {
	d, ok := s.planner.Names.Lookup(c.Func)
	if !ok || d.Failed() || d.Kind != plan.Function || len(d.Func.Params) != len(c.Args) {
		return nil
	}
	return d.Func.Params
}

// bodyOf are the expressions of such a function.
func (s *settler) bodyOf(c *syntax.Call) []syntax.Expr {
	d, _ := s.planner.Names.Lookup(c.Func)
	return d.Func.Exprs()
}

// plainNumber is the value of a plain number, or of a name that is one.
func (s *settler) plainNumber(x syntax.Expr) (float64, bool) {
	switch x := syntax.Unbracket(x).(type) {
	case *syntax.Number:
		return x.Value.Float(), true
	case *syntax.Unary:
		return s.plainNumber(x.X)
	case *syntax.Name:
		if x.Line == 0 {
			return s.Number(x.Name)
		}
	}
	return 0, false
}

// maxThrough is through how many functions and lines a number is followed.
const maxThrough = 8

// turns tells whether a name reaches a sine, cosine or tangent in an expression, among plain
// numbers: as θ in cos(2*θ), and neither in cos(θ*π/180) nor in cos(ω*t).
func (s *settler) turns(x syntax.Expr, name string, with bool, depth int) bool {
	if depth > maxThrough {
		return false
	}
	return syntax.Any(x, func(x syntax.Expr) bool {
		switch x := x.(type) {
		case *syntax.Call:
			if f, ok := ops.Named(x.Func); ok {
				return f.Takes == ops.AngleToPure && syntax.Holds(x.Args[0].X, name) && s.plainBut(x.Args[0].X, name)
			}
			for i, param := range s.paramsOf(x) {
				a := x.Args[i].X
				if syntax.Holds(a, name) && s.plainBut(a, name) && slices.ContainsFunc(s.bodyOf(x), func(b syntax.Expr) bool { return s.turns(b, param, false, depth+1) }) {
					return true
				}
			}
		case *syntax.Name: // F with θ = 60: what F comes from has it
			d, ok := s.planner.Names.Lookup(x.Name)
			if !with || !ok || x.Line != 0 || d.Given || d.Failed() || d.Line == 0 {
				return false
			}
			stmt, ok := s.EntryAt(d.Line).Stmt.(*syntax.Define)
			return ok && s.turns(stmt.X, name, true, depth+1)
		}
		return false
	})
}

// plainBut tells whether an expression holds a name and plain numbers alone.
func (s *settler) plainBut(x syntax.Expr, name string) bool {
	return !syntax.Any(x, func(x syntax.Expr) bool {
		switch x := x.(type) {
		case *syntax.Name:
			_, plain := s.Number(x.Name)
			return x.Name != name && !plain
		case *syntax.Number, *syntax.Paren, *syntax.Unary, *syntax.Binary, *syntax.Root:
			return false
		}
		return true
	})
}

// inAngle is the line with a unit of angle for some values; a 0 needs none.
func (s *settler) inAngle(values []syntax.Expr, unit string) string {
	text := s.Entry.Text
	for _, x := range slices.Backward(values) {
		at := x.Span()
		switch v, ok := s.plainNumber(x); {
		case !ok || v == 0:
		case syntax.IsPlain(x):
			text = text[:at.To] + unit + text[at.To:]
		default:
			text = text[:at.To] + "*1" + unit + text[at.To:]
		}
	}
	return text
}
