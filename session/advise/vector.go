package advise

import (
	"math"
	"slices"
	"strings"
	"sync"
	"unicode/utf8"

	"steelyard/lang/ops"
	"steelyard/lang/plan"
	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// What a teacher says of components, directions and magnitudes.

// quadrant finds atan(y/x) where x is negative, which is the opposite direction, and
// atan(v_x/v_y), which is the angle from the y axis.
//
// atan knows the quotient alone, and -3/4 is that of two directions: atan2(y, x) is told both.
func quadrant(l *eval.Line, c *syntax.Call) slip {
	f, _ := ops.Named(c.Func)
	if f.Op != ops.Atan {
		return slip{}
	}
	q, ok := syntax.Unbracket(c.Args[0].X).(*syntax.Binary)
	if !ok || q.Op != syntax.Div {
		return slip{}
	}
	y, x := syntax.PrintExpr(syntax.Unbracket(q.X)), syntax.PrintExpr(syntax.Unbracket(q.Y))
	v, a, _ := plan.AxisOf(y)
	w, b, part := plan.AxisOf(x)
	components := part && v == w && a+b == 1
	if a == 0 && components {
		x, y = y, x
	}
	right := "atan2(" + y + ", " + x + ")"
	if _, ok := l.Planner.VectorOf(x); ok && components {
		right = "direction(" + v + ")"
	}
	if a == 0 && components {
		return slip{"This is the angle from the y axis.", "The one from +x is", right}
	}
	if got := l.Try(q.Y); got.OK && got.Value < 0 && !syntax.OfNumbers(q) {
		return slip{x + " is negative, so atan points the opposite way.", "Write", right}
	}
	return slip{}
}

// alongRadius finds ω*r and ω×r with a number ω and a vector r: what turns moves at right angles to
// its radius, and a number times a vector goes along that.
func alongRadius(l *eval.Line, b *syntax.Binary) slip {
	turn, radius := b.X, b.Y
	if b.Op != syntax.Mul {
		return slip{}
	}
	if l.Try(turn).Static.IsVector() {
		turn, radius = radius, turn
	}
	w, r := l.Try(turn).Static, l.Try(radius).Static
	name, ok := radius.(*syntax.Name)
	if !ok || r.Shape != run.Vector || r.Components() != 2 || r.Dim != units.BaseDim(units.Metre) || w.IsVector() || w.Dim != units.Of("rad/s").Dim() || w.Tag != units.Angle {
		return slip{}
	}
	is := syntax.PrintExpr(turn)
	return slip{"`" + is + "` is a number, so this goes along " + name.Name + ". What turns moves at right angles to it.", "Write",
		"(-" + is + "*" + name.Name + "_y, " + is + "*" + name.Name + "_x)"}
}

// scalars are the dimensions of the quantities that no vector is, beside an energy.
var scalars = sync.OnceValue(func() (dims []units.Dim) {
	for _, unit := range [...]string{"s", "kg", "K", "W", "Hz"} {
		dims = append(dims, units.Of(unit).Dim())
	}
	return dims
})

// numberWanted finds a vector in the place of its magnitude: W = F*d*cos(35°) of a force
// F, v_0x = v_0*cos(40°). A work and a time have no direction, a component is a number, and
// the cosine of a vector's own direction makes one of its magnitude.
//
// A vector times a number is a vector, so that the line is right by its units and gives W a
// direction.
func numberWanted(l *eval.Line, name string, x syntax.Expr, v *entry.Value) slip {
	if v.List == nil || !v.List.Vector || name == "" {
		return slip{}
	}
	number := isComponent(name) || v.Dim.IsEnergy() && units.Usual(name) == "J" ||
		slices.Contains(scalars(), v.Dim)
	for n := range syntax.Each[*syntax.Name](x) {
		d, ok := l.Planner.Find(n)
		if !ok || d.Slot == run.NoSlot || l.Planner.Static(d.Slot).Shape != run.Vector {
			continue
		}
		if !number && !byOwnDirection(l, n, x) {
			return slip{}
		}
		return slip{n.Name + " is a vector, so " + name + " is one too.", "For a number, write", put(x, n.Name, "|"+n.Name+"|")}
	}
	return slip{}
}

// isComponent tells whether a name is a letter with an axis as its last index: Fx, v0x, but not
// F_max.
func isComponent(name string) bool {
	last := len(name) - 1
	letter := strings.TrimRight(name[:last], "_0123456789")
	return strings.Contains(syntax.Axes, name[last:]) && utf8.RuneCountInString(letter) == 1
}

// byOwnDirection tells whether the sine or cosine of a vector's own direction is in an
// expression.
func byOwnDirection(l *eval.Line, n *syntax.Name, x syntax.Expr) bool {
	own := l.Try(syntax.Calling("direction", n))
	return own.OK && syntax.Any(x, func(part syntax.Expr) bool {
		c, ok := part.(*syntax.Call)
		if !ok || c.Func != "cos" && c.Func != "sin" {
			return false
		}
		angle := l.Try(c.Args[0].X)
		return angle.OK && math.Abs(angle.Value-own.Value) < 1e-9
	})
}

// noDirection finds the direction of a zero vector, or an angle to one, which is shown as 0°.
//
// The 0° is what is shown for lack of anything better, as atan2(0, 0) is.
func noDirection(l *eval.Line, c *syntax.Call) slip {
	f, _ := ops.Named(c.Func)
	if f.Takes != ops.VectorToAngle && f.Takes != ops.VectorsToAngle {
		return slip{}
	}
	for _, a := range c.Args {
		got := l.Try(syntax.Calling("magnitude", a.X))
		if got.OK && !got.Static.Absent && got.Value == 0 {
			return slip{"`" + syntax.PrintExpr(a.X) + "` is zero here, and a zero vector has no direction.", "Don't use the 0°: it means nothing.", ""}
		}
	}
	return slip{}
}

// backwards finds a vector whose magnitude is written with a minus, or whose angle is, though
// a word says on which side it is.
func backwards(x *syntax.Polar) slip {
	q, ok := syntax.Unbracket(x.X).(*syntax.Quantity)
	turn, angle := syntax.Unbracket(x.Angle).(*syntax.Quantity)
	right := *x
	switch {
	case ok && q.Value.Float() < 0:
		plus := *q
		plus.Value = q.Value.Neg()
		right.X = &plus
		if x.Bearing == (syntax.Bearing{}) {
			half, _ := syntax.ParseExpr("180°")
			right.Angle = &syntax.Paren{X: &syntax.Binary{Op: syntax.Add, X: x.Angle, Y: half}}
			return slip{"A magnitude has no sign; this vector points the other way.", "If that is meant, write", syntax.PrintExpr(&right)}
		}
		return slip{"A magnitude has no sign; this vector points the other way.", "If that is not meant, write", syntax.PrintExpr(&right)}
	case angle && turn.Value.Float() < 0 && x.Bearing != (syntax.Bearing{}):
		plus := *turn
		plus.Value = turn.Value.Neg()
		right.Angle = &plus
		return slip{"The minus and the word `" + x.Bearing.Towards + "` cancel each other.", "If that is not meant, write", syntax.PrintExpr(&right)}
	}
	return slip{}
}

// magnitudesAdded finds |F1| + |F2| where that is not the magnitude of F1 + F2. Lengths are
// added along a way.
//
// 3 N and 4 N at a right angle are 5 N; the sum of the magnitudes, 7 N, is the most that they
// can be.
func magnitudesAdded(l *eval.Line, b *syntax.Binary) slip {
	v, one := inStrokes(b.X)
	w, two := inStrokes(b.Y)
	if !one || !two || b.Op != syntax.Add {
		return slip{}
	}
	sum := syntax.Calling("abs", &syntax.Binary{Op: syntax.Add, X: v, Y: w})
	all, apart := l.Try(sum), l.Try(b)
	first := l.Try(v)
	if !all.OK || !apart.OK || first.Static.Shape != run.Vector || first.Static.Dim == units.Of("m").Dim() ||
		math.Abs(all.Value-apart.Value) <= 1e-9*apart.Value {
		return slip{}
	}
	text := "|" + syntax.PrintExpr(v) + " + " + syntax.PrintExpr(w) + "|"
	return slip{"Magnitudes add up like this only if the vectors point the same way.", "The magnitude of the sum is", text}
}

// inStrokes is what stands between the strokes of a magnitude.
func inStrokes(x syntax.Expr) (syntax.Expr, bool) {
	c, ok := syntax.Unbracket(x).(*syntax.Call)
	if !ok {
		return nil, false
	}
	f, _ := ops.Named(c.Func)
	return c.Args[0].X, f.Takes == ops.VectorToSize || f.Op == ops.Abs && len(c.Args) == 1
}

// otherComponent finds v_x = v*sin(θ) and v_y = v*cos(θ) of a speed v.
//
// Where the angle is from the vertical, v_x = v*sin(θ) is right: the hint says so.
func otherComponent(l *eval.Line, name string, b *syntax.Binary) slip {
	v, axis, part := plan.AxisOf(name)
	n, one := b.X.(*syntax.Name)
	c, two := b.Y.(*syntax.Call)
	if !part || axis > 1 || b.Op != syntax.Mul || !one || !two || n.Name != v || len(c.Args) != 1 {
		return slip{}
	}
	words := [...]string{"cos", "sin"}
	d, ok := l.Planner.Find(n)
	if c.Func != words[1-axis] || !ok || d.Slot == run.NoSlot || l.Planner.Static(d.Slot).Dim != units.Of("m/s").Dim() {
		return slip{}
	}
	right := syntax.PrintExpr(b.X) + "*" + words[axis] + "(" + syntax.PrintExpr(c.Args[0].X) + ")"
	return slip{"With an angle from +x, the component along " + syntax.Axes[axis:axis+1] + " takes the " + [...]string{"cosine", "sine"}[axis] + ".",
		"If the angle is not from the y axis, write", right}
}
