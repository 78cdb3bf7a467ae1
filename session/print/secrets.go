package print

import (
	"iter"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"steelyard/lang/syntax"
	"steelyard/session/draw"
	"steelyard/session/entry"
	"steelyard/units"
)

// A handout gives no answer away: each number in its prose, with the unit behind it,
// is compared with all results by dimension and value, however it is spelled. What
// holds one is left out and told of; a question stays as it was written, and is told of
// too.

// guard knows the results of a worksheet, and the numbers that are put in.
type guard struct {
	secrets []secret
	known   []quantity
	units   *units.Table // with those that the worksheet defines
}

// quantity is a value in coherent SI units.
type quantity struct {
	si  float64
	dim units.Dim
}

// secret is a result that must not be read off a handout.
//
// A result in metres may be leaked in centimetres, so all are compared in SI.
type secret struct {
	quantity
	name string
	line int
	in   []*units.Unit // what a number without a unit may be meant in
}

// newGuard gathers the results of a worksheet, and the numbers that are put in.
func newGuard(all []*entry.Entry) *guard {
	g := &guard{units: units.NewTable()}
	for _, e := range all {
		role := syntax.RoleOf(e.Stmt)
		if own, ok := e.Stmt.(*syntax.UnitDef); ok {
			if of, si, ok := g.literal(own.X); ok {
				g.units.Define(own.Name, of, si)
			}
		}
		for _, v := range eachValue(e.Values()) {
			switch {
			case role.Asks() && v.SI != 0:
				in := []*units.Unit{v.Unit, units.Preferred(v.Dim, v.Tag)}
				g.secrets = append(g.secrets, secret{quantity{v.SI, v.Dim}, v.Name, e.Line, in})
			case role == syntax.Given && !polar(e.Stmt):
				g.known = append(g.known, quantity{v.SI, v.Dim})
			}
		}
		if role.PutsIn() || role == syntax.Given && polar(e.Stmt) {
			for _, x := range e.Stmt.Exprs() {
				for part := range literals(x) {
					if u, si, ok := g.literal(part); ok {
						g.known = append(g.known, quantity{si, u.Dim()})
					}
				}
			}
		}
	}
	return g
}

// eachValue is values one by one: lists have several, as have vectors, with their magnitude
// and direction, which may be told from either axis.
func eachValue(all []entry.Value) []entry.Value {
	var out []entry.Value
	for _, v := range all {
		out = append(out, v.Elements()...)
		for _, one := range v.Vectors() {
			out = append(out, one.Magnitude())
			turn, ok := one.Direction()
			if !ok {
				continue
			}
			out = append(out, turn)
			angle := math.Abs(turn.SI)
			for _, from := range [...]float64{math.Pi / 2, math.Pi, 2 * math.Pi} { // 20° west of north
				turn.SI = math.Abs(from - angle)
				turn.InUnit = turn.Unit.FromSI(turn.SI)
				out = append(out, turn)
			}
		}
	}
	return out
}

// polar tells whether a line gives a vector by its magnitude and direction, which are put in
// then, and no components.
func polar(s syntax.Stmt) bool {
	d, ok := s.(*syntax.Define)
	if ok {
		_, ok = syntax.Unbracket(d.X).(*syntax.Polar)
	}
	return ok
}

// literals are the parts of an expression, those of a list with its unit.
func literals(x syntax.Expr) iter.Seq[syntax.Expr] {
	return func(yield func(syntax.Expr) bool) {
		for part := range syntax.Nodes(x) {
			list, _ := part.(*syntax.List)
			for i := 0; list != nil && i < len(list.Elems); i++ {
				if !yield(list.Measured(i)) {
					return
				}
			}
			if !yield(part) {
				return
			}
		}
	}
}

// literal reads a number that is written with its unit, or without one.
func (g *guard) literal(x syntax.Expr) (u *units.Unit, si float64, ok bool) {
	switch x := x.(type) {
	case *syntax.Number:
		return units.One, x.Value.Float(), true
	case *syntax.Quantity:
		if u, bad := g.units.Parse(x.Unit.Text, units.AfterNumber); bad == nil {
			return u, u.ToSI(x.Value), true
		}
	}
	return nil, 0, false
}

// leak is a number of a text that is a result.
type leak struct {
	text string
	*secret
}

// String says what is held: "460 mJ, the result W of line 12".
func (l *leak) String() string {
	of := "the result "
	if l.name != "" {
		of += l.name + " "
	}
	return l.text + ", " + of + "of line " + strconv.Itoa(l.line)
}

// reveals finds a result in a text, or nil.
func (g *guard) reveals(text string) *leak {
	for _, n := range readNumbers(text, g.units) {
		if s := g.of(&n); s != nil {
			return &leak{n.text, s}
		}
	}
	return nil
}

// of finds the result that a written number is, if it is none of those put in.
//
// A small number without a unit is mostly a count or the number of a line; with three figures, or
// behind a word such as is, it is suspect.
func (g *guard) of(n *written) *secret {
	for i := range g.secrets {
		s := &g.secrets[i]
		in := s.in
		if n.unit != nil {
			in = []*units.Unit{n.unit}
		} else if n.figures < 3 && (!n.told || n.figures < 2 || n.counts) || n.counts && n.figures < 4 {
			continue // any number of things may be 24
		}
		for _, u := range in {
			if n.is(s.quantity, u) && !g.putIn(n, u) {
				return s
			}
		}
	}
	return nil
}

// stated tells whether a number with its unit is one that is put in, or a result.
func (g *guard) stated(n *written) bool {
	return g.putIn(n, n.unit) || slices.ContainsFunc(g.secrets, func(s secret) bool { return n.is(s.quantity, n.unit) })
}

// putIn tells whether a number in a unit is one of those that are put in.
func (g *guard) putIn(n *written, u *units.Unit) bool {
	return slices.ContainsFunc(g.known, func(k quantity) bool { return n.is(k, u) })
}

// is tells whether a number in a unit is a value, rounded to two figures or more or, of
// three and more, cut off. A number of one figure is one only if it is exact, or has
// noughts for two more. A
// temperature may be a difference too, and signs don't count.
//
// The error of a false alarm is a note that was left out and told of. That of a miss is an answer
// on the paper of a test, so that the comparison is generous.
func (n *written) is(q quantity, u *units.Unit) bool {
	if u.Dim() != q.dim || n.value == 0 {
		return false
	}
	most := 0.5 * n.last
	switch {
	case n.figures < 2 && n.digits > 2:
		most *= math.Pow10(1 - n.digits) // 100 is 99.96 too
	case n.figures < 2:
		most = 1e-6 * n.value
	case n.figures > 2:
		most = n.last
	}
	for _, v := range [...]float64{u.FromSI(q.si), u.FromSIDifference(q.si)} {
		if math.Abs(math.Abs(v)-n.value) <= most*(1+1e-9) {
			return true
		}
	}
	return false
}

// stretches are the factors by which an axis is drawn further, one after the
// other, until its ticks give nothing away.
var stretches = []float64{1, 1.25, 1.5, 2, 3, 4, 5, 7, 10}

// redraw widens the y axis of blank axes until no tick is a result; if none of the
// ranges tried is free of one, it returns what the ticks hold, and the axes stay.
//
// A tick at the very answer is a hint that nobody meant to give.
func (g *guard) redraw(axes *entry.Graph) *leak {
	lo, hi := draw.Height(axes)
	var held *leak
	for _, s := range stretches {
		both := axes.X.From == axes.Y.From && axes.X.To == axes.Y.To && axes.Path
		axes.Y.From, axes.Y.To = draw.NiceRange(lo*s, hi*s)
		if both { // one scale for both
			axes.X.From, axes.X.To = axes.Y.From, axes.Y.To
		}
		found := g.ticks(axes)
		if found == nil {
			return nil
		}
		if held == nil {
			held = found
		}
	}
	axes.Y.From, axes.Y.To = lo, hi
	return held
}

// ticks finds a result among the numbers of a drawing, each in the unit of either axis.
func (g *guard) ticks(axes *entry.Graph) *leak {
	for _, n := range readNumbers(visibleText(string(draw.Graph(axes).SVG(nil, "g"))), g.units) {
		for _, u := range [...]*units.Unit{axes.X.Label.Unit, axes.Y.Label.Unit} {
			if n.unit = u; n.figures < 2 {
				continue
			}
			if s := g.of(&n); s != nil {
				return &leak{n.text, s}
			}
		}
	}
	return nil
}

var marks = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?s)<style.*?</style>| (?:d|[xy][12]?|d[xy]|c[xy]|r|width|height|viewBox|points|transform|stroke-[a-z]+|font-size|patternUnits|patternTransform|content|stretchy|fill)="[^"]*"`)
})

// visibleText is the source of a page or a drawing without its style and the
// places and measures of what is drawn.
func visibleText(html string) string {
	return strings.ReplaceAll(marks().ReplaceAllString(html, " "), "\u00a0", " ")
}
