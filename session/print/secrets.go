package print

import (
	"regexp"
	"strings"
	"sync"

	"steelyard/lang/syntax"
	"steelyard/session/draw"
	"steelyard/session/entry"
	"steelyard/units"
)

// guard makes sure that a handout gives no answer away. It looks for every
// result, rounded to two or more figures, in every unit of its dimension that
// the worksheet uses, in all that the handout holds. What holds one is left out,
// or its axes are drawn further; only a question stays as it was written, and is
// told of.
func (b *builder) guard() []string {
	g := newGuard(b.all)
	b.doc.Blocks = g.clean(b.doc.Blocks)
	var told []string
	for i := range b.doc.Parts {
		p := &b.doc.Parts[i]
		p.Blocks = g.clean(p.Blocks)
		if number := g.holds(p.Question); number != "" {
			told = append(told, "The question of part "+p.Label+" holds "+number+", which is a result of this worksheet.")
		}
	}
	if number := g.holds(b.doc.Title); number != "" {
		told = append(told, "The title holds "+number+", which is a result of this worksheet.")
	}
	return told
}

// guarded are the numbers that a handout must not hold.
type guarded struct{ secret map[string]bool }

// numbers are what looks like a number in a text, with its power of ten.
var numbers = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`[0-9]+(?:\.[0-9]+)?(?:(?:e|×10\^?|\*10\^)[-−+]?[0-9]+)?`)
})

// newGuard gathers the results of a worksheet, without the numbers that are
// put in.
func newGuard(all []*entry.Entry) *guarded {
	g := &guarded{secret: map[string]bool{}}
	used := unitsUsed(all)
	for _, e := range all {
		if !syntax.RoleOf(e.Stmt).Asks() {
			continue
		}
		for _, v := range e.Values() {
			for _, u := range used {
				if u.Dim() == v.Dim && !u.Affine() {
					g.hide(u.FromSI(v.SI))
				}
			}
		}
	}
	for _, e := range all {
		if syntax.RoleOf(e.Stmt).PutsIn() {
			for _, n := range numbers().FindAllString(e.Text, -1) {
				delete(g.secret, n)
			}
		}
	}
	return g
}

// unitsUsed lists the units in which a worksheet shows or writes anything.
func unitsUsed(all []*entry.Entry) []*units.Unit {
	var out []*units.Unit
	add := func(u *units.Unit) {
		for _, known := range out {
			if known.SameAs(u) {
				return
			}
		}
		out = append(out, u)
	}
	for _, e := range all {
		for _, v := range e.Values() {
			add(v.Unit)
			add(units.Preferred(v.Dim, v.Tag))
		}
	}
	return out
}

// hide notes a value as it may be printed with two figures and more.
func (g *guarded) hide(v float64) {
	if v < 0 {
		v = -v
	}
	for n := 2; n <= 6; n++ {
		for _, f := range []units.Figures{{N: n, Keep: true}, {N: n}} {
			for _, form := range []units.Form{units.File, units.Screen} {
				for _, text := range numbers().FindAllString(units.FormatNumber(v, f, units.HalfAway, form), 1) {
					if figures(text) >= 2 {
						g.secret[text] = true
					}
				}
			}
		}
	}
}

// figures counts the figures of a number as it is written.
func figures(text string) int {
	head, _, _ := strings.Cut(strings.ReplaceAll(text, "×", "e"), "e")
	return len(strings.TrimLeft(strings.ReplaceAll(head, ".", ""), "0"))
}

// holds returns a hidden number that a text shows, or nothing.
func (g *guarded) holds(text string) string {
	for _, n := range numbers().FindAllString(text, -1) {
		if g.secret[n] {
			return n
		}
	}
	return ""
}

// clean drops blocks that hold a hidden number, and what words say of a given if they
// do, and widens axes whose ticks do.
func (g *guarded) clean(blocks []block) []block {
	var out []block
	for _, b := range blocks {
		if fig, ok := b.(figure); ok {
			if g.redraw(fig.Graph) {
				out = append(out, fig)
			}
			continue
		}
		if given, ok := b.(givens); ok {
			for i := range given.Rows {
				if row := &given.Rows[i]; g.holds(row.Meaning) != "" {
					row.Meaning = ""
				}
			}
		}
		if g.holds(shownText(b)) == "" {
			out = append(out, b)
		}
	}
	return out
}

// shownText is all that a block of a handout shows, but for the givens, which
// are known.
func shownText(b block) string {
	switch b := b.(type) {
	case note:
		return b.Text
	case text:
		return strings.Join(b.Lines, " ")
	case working:
		text := ""
		for _, l := range b.Lines {
			text += " " + l.Lead
			if l.Right != nil {
				text += " " + syntax.PrintExpr(l.Right)
			}
		}
		return text
	}
	return ""
}

// stretches are the factors by which an axis is drawn further, one after the
// other, until its ticks give nothing away.
var stretches = []float64{1, 1.25, 1.5, 2, 3, 4, 5, 7, 10}

// redraw widens the y axis of blank axes until no tick is a result; false if none
// of the ranges tried is free of one.
func (g *guarded) redraw(axes *entry.Graph) bool {
	lo, hi := draw.Height(axes)
	for _, s := range stretches {
		axes.Y.From, axes.Y.To = draw.NiceRange(lo*s, hi*s)
		if g.holds(visibleText(draw.GraphSVG(axes, "g"))) == "" {
			return true
		}
	}
	return false
}

var marks = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?s)<style.*?</style>| (?:d|[xy][12]?|d[xy]|c[xy]|r|width|height|viewBox|points|transform|stroke-[a-z]+|font-size|patternUnits|patternTransform|content|stretchy|fill)="[^"]*"`)
})

// visibleText is the source of a page or a drawing without its style and the
// places and measures of what is drawn.
func visibleText(html string) string {
	return marks().ReplaceAllString(html, " ")
}
