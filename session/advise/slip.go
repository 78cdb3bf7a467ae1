package advise

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"steelyard/lang/finding"
	"steelyard/lang/plan"
	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/session/eval"
	"steelyard/units"
)

// A slip is an expression that is often written by mistake: what is wrong, the words
// before the right expression, and that. Without a message there is none.
type slip struct{ message, lead, reading string }

const ifItIs = "If it is one, write"

// put is an expression with a text in the place of a name.
func put(x syntax.Expr, name, with string) string {
	y, _ := eval.Instead(x, func(part syntax.Expr) bool {
		n, ok := part.(*syntax.Name)
		return ok && n.Name == name
	}, with)
	return syntax.PrintExpr(y)
}

// commonSlip cautions where a line by itself shows a slip that is often made,
// though its units agree. The factors are those of the expression, if it is a product.
//
// One slip is told, the first that is found: the others may well come from it. The order within a
// kind of expression is from what is certain, R1*R2/R1 + R2, to what only a name suggests.
func commonSlip(l *eval.Line, name string, x syntax.Expr, f *factors, product bool, v *entry.Value) {
	var s slip
	is := func(found slip) bool { s = found; return s.message != "" }
	some, wide := false, l.Planner.Program.Main.Wide()
	switch x := syntax.Unbracket(x).(type) {
	case *syntax.Call:
		some = is(diameterGiven(l, x)) || is(quadrant(l, x)) || is(nearKnown(l, name, x)) || is(inSum(l, x))
	case *syntax.Polar:
		some = is(backwards(x))
	case *syntax.Binary:
		some = is(atRightAngles(x)) || is(firstMinusLast(name, x)) || is(cancels(x)) || is(unitSquared(l, x, v.Dim)) || is(magnitudesAdded(l, x)) || wide && is(alongRadius(l, x)) ||
			is(otherComponent(l, name, x)) || is(percentAdded(l, x)) || is(nearKnown(l, name, x)) ||
			product && f.root == nil && (is(wholeLength(l, x, f)) || is(diameter(l, x, f))) || !product && is(inSum(l, x))
	case *syntax.Root:
		some = is(nearKnown(l, name, x)) || is(inSum(l, x))
	}
	if !some && !is(givenE(l, x)) && !is(numberWanted(l, name, x, v)) && !(wide && syntax.Any(x, func(part syntax.Expr) bool {
		c, ok := part.(*syntax.Call) // within a product or a sum, too
		return ok && is(noDirection(l, c))
	})) {
		return
	}
	if s.reading == "" {
		l.Find(finding.New(finding.CommonSlip, x.Span(), s.message, s.lead))
		return
	}
	l.Find(finding.New(finding.CommonSlip, x.Span(), s.message, s.lead+" `"+s.reading+"`.", s.reading))
}

// givenE finds e^(-t/τ) where a line gives e: a restitution is raised to whole powers, and what has
// a ratio or a minus above it is the exponential function of most who write so.
func givenE(l *eval.Line, x syntax.Expr) slip {
	d, ok := l.Planner.Names.Lookup("e")
	if !ok || d.Kind != plan.Quantity || d.Failed() || !l.Planner.Static(d.Slot).Dim.IsOne() {
		return slip{} // the planner says so of a charge
	}
	for b := range syntax.Each[*syntax.Binary](x) {
		if n, ok := b.X.(*syntax.Name); b.Op != syntax.Pow || !ok || n.Name != "e" || n.Line != 0 {
			continue
		}
		decays := syntax.Any(b.Y, func(part syntax.Expr) bool {
			switch part := part.(type) {
			case *syntax.Number:
				return part.Value.Hi < 0
			case *syntax.Unary:
				return part.Op == syntax.Sub
			case *syntax.Binary:
				return part.Op == syntax.Div && !syntax.OfNumbers(part)
			}
			return false
		})
		right, ok := eval.Instead(x, func(part syntax.Expr) bool { return part == syntax.Expr(b) }, "exp("+syntax.PrintExpr(syntax.Unbracket(b.Y))+")")
		if decays && ok {
			return slip{"e is the one of line " + strconv.Itoa(d.Line) + ".", "For the exponential function, write", syntax.PrintExpr(right)}
		}
	}
	return slip{}
}

// twoNames are those of a sum or a difference of two; "" where it is none.
func twoNames(b *syntax.Binary, op syntax.Op) (string, string) {
	v, one := b.X.(*syntax.Name)
	w, two := b.Y.(*syntax.Name)
	if !one || !two || b.Op != op {
		return "", ""
	}
	return v.Name, w.Name
}

// cancels finds R1*R2/R1+R2: what is above and below the slash says that the sum was to
// be below it.
//
// By the order of operations R1*R2/R1 + R2 is R2 + R2. Nobody writes a factor to cancel it on the
// same line.
func cancels(b *syntax.Binary) slip {
	q, ok := b.X.(*syntax.Binary)
	if !ok || b.Op != syntax.Add && b.Op != syntax.Sub || q.Op != syntax.Div {
		return slip{}
	}
	below, one := q.Y.(*syntax.Name)
	above, product := apart(q.X)
	if !one || !product || !slices.Contains(above.names[:above.n], power{below.Name, 1}) {
		return slip{}
	}
	sum := &syntax.Binary{Op: b.Op, X: below, Y: b.Y}
	right := syntax.PrintExpr(&syntax.Binary{Op: syntax.Div, X: q.X, Y: &syntax.Paren{X: sum}})
	return slip{below.Name + " is above and below the slash, so it cancels.", "Write", right}
}

// percentAdded finds 100 + 10 %, which is 100.1. A part of 1 is meant by 1 + 10 %.
//
// On the keys of many calculators 100 + 10 % is 110; here % is the number 0.01.
func percentAdded(l *eval.Line, b *syntax.Binary) slip {
	q, ok := b.Y.(*syntax.Quantity)
	if !ok || q.Unit.Text != "%" || b.Op != syntax.Add && b.Op != syntax.Sub {
		return slip{}
	}
	switch x := b.X.(type) {
	case *syntax.Number:
		ok = math.Abs(x.Value.Float()) > 1
	case *syntax.Name:
		v, plain := 0.0, false
		if d, given := l.Planner.Find(x); given {
			v, plain = l.PlainNumber(d)
		}
		ok = plain && math.Abs(v) > 1
	default:
		return slip{}
	}
	if !ok {
		return slip{}
	}
	whole, part, sign := syntax.PrintExpr(b.X), syntax.PrintExpr(q), " + "
	if b.Op == syntax.Sub {
		sign = " - "
	}
	return slip{part + " is a plain number here, not a part of " + whole + ".", "For a part, write", whole + "*(1" + sign + part + ")"}
}

// wholeLength finds k*L for the force of a spring whose relaxed length L0 is known:
// the stretch is their difference.
//
// Hooke's law is about the stretch: a spring of 12 cm that is 10 cm long by itself pulls with k
// times 2 cm.
func wholeLength(l *eval.Line, x syntax.Expr, f *factors) slip {
	names := f.names[:f.n]
	isSpring := func(p power) bool { return p.exp == 1 && kindOfName(l, p.name) == "force per length" }
	for _, p := range names {
		if p.exp < 1 || !is(p.name, "L l") {
			continue
		}
		relaxed := p.name + "0"
		if _, known := l.Planner.Names.Lookup(relaxed); known && slices.ContainsFunc(names, isSpring) {
			return slip{p.name + " is the whole length of the spring; its force depends on the stretch.",
				"Write", put(x, p.name, "("+p.name+" - "+relaxed+")")}
		}
	}
	return slip{}
}

// diameter finds π*d^2 and 4/3*π*d^3, which want the radius. π*d^2 is right for the
// surface of a sphere alone; 4*π*d^2 may be one at a distance d.
func diameter(l *eval.Line, x syntax.Expr, f *factors) slip {
	for _, p := range f.names[:f.n] {
		circle := p.exp == 2 && within1Percent(f.number, math.Pi)
		ball := p.exp == 3 && within1Percent(f.number, 4*math.Pi/3)
		if (circle || ball) && is(p.name, "d D") && kindOfName(l, p.name) == "length" {
			return slip{"By its name, " + p.name + " is a diameter; this formula takes a radius.",
				ifItIs, put(x, p.name, "("+p.name+"/2)")}
		}
	}
	return slip{}
}

// diameterGiven finds a diameter that a formula is given for its radius, or the
// other way round.
func diameterGiven(l *eval.Line, c *syntax.Call) slip {
	f, ok := l.Formula(c.Func)
	if !ok {
		return slip{}
	}
	by := eval.Arguments(c, f)
	for _, sym := range f.Symbols {
		n, ok := syntax.Unbracket(by[sym.Name]).(*syntax.Name)
		if !ok {
			continue
		}
		takes := c.Func + " takes the " + sym.Meaning + " " + sym.Name + "; " + n.Name
		switch {
		case strings.Contains(sym.Meaning, "radius") && is(n.Name, "d D diameter"):
			return slip{takes + " is a diameter by its name.", ifItIs, put(c, n.Name, n.Name+"/2")}
		case strings.Contains(sym.Meaning, "diameter") && is(n.Name, "r R radius"):
			return slip{takes + " is a radius by its name.", ifItIs, put(c, n.Name, "2*"+n.Name)}
		}
	}
	return slip{}
}

// atRightAngles finds v_x + v_y: components are added as the sides of a triangle are.
//
// 3 m/s across and 4 m/s up are 5 m/s together, and not 7.
func atRightAngles(b *syntax.Binary) slip {
	v, w := twoNames(b, syntax.Add)
	across, x := strings.CutSuffix(v, "_x")
	up, y := strings.CutSuffix(w, "_y")
	if !x || !y || across != up {
		return slip{}
	}
	return slip{v + " and " + w + " are at right angles, so their sizes don't just add up.", "Write", "√(" + v + "^2 + " + w + "^2)"}
}

// firstMinusLast finds ΔK = K1 - K2: a change is the later value less the earlier.
//
// ΔK = K1 - K2 has the wrong sign, which no unit shows.
func firstMinusLast(name string, b *syntax.Binary) slip {
	v, w := twoNames(b, syntax.Sub)
	symbol := strings.TrimPrefix(name, "Δ")
	if name != "ΔK" && name != "Δv" {
		return slip{}
	}
	for _, order := range [...][2]string{{"1", "2"}, {"0", ""}, {"0", "1"}, {"_i", "_f"}} {
		if v == symbol+order[0] && w == symbol+order[1] {
			return slip{"A change is the later value minus the earlier one.", "Write", w + " - " + v}
		}
	}
	return slip{}
}

// is tells whether a name is one of several, alone or with an index.
func is(name, of string) bool {
	for of != "" {
		var one string
		if one, of, _ = strings.Cut(of, " "); name == one || units.Symbol(name) == one {
			return true
		}
	}
	return false
}

// kindOfName names the kind of quantity that a name is, or "".
func kindOfName(l *eval.Line, name string) string { return kindOf(l, &syntax.Name{Name: name}) }
