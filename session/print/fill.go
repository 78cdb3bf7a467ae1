package print

import (
	"math"
	"strconv"

	"steelyard/lang/syntax"
	"steelyard/session/entry"
	"steelyard/units"
)

// blank is where an answer is written in the text of a handout.
const blank = "________"

// fill puts values in the place of names in braces: for the prose of a line that of the
// nearest line above; for the title, which has no line, the first.
//
// A problem says {m} once, and its text changes with the given. An answer in braces would be given
// away, so that a handout has a line to write on in its place.
func (b *builder) fill(text string, line int) string {
	return syntax.FillBraces(text, func(name string) (string, bool) {
		var found *entry.Value
		secret := false
		for _, e := range b.all {
			if line > 0 && e.Line >= line || line == 0 && found != nil {
				break
			}
			for i, v := range e.Values() {
				if v.Name == name {
					found, secret = &e.Values()[i], syntax.RoleOf(e.Stmt).Asks()
				}
			}
		}
		switch {
		case found == nil:
			return "", false
		case secret && b.edition == Handout:
			return blank, true
		}
		v := *found
		v.Figures.Guard = 0 // nobody goes on from prose
		return v.Shown(units.File), true
	})
}

// other tells of a number in a question that is none of those put in or worked out,
// where a given of the same kind of quantity has another value: one of the two may be
// from an earlier version of the problem.
//
// A teacher who changes m = 2 kg to 3 kg easily forgets the 2 kg in the question. Numbers that
// nothing in the worksheet is near to are told with the nearest given.
func (b *builder) other(e *entry.Entry, question string) {
	if !hasDigit(question) {
		return
	}
	for _, n := range readNumbers(question, b.guard().units) {
		if n.unit == nil || n.unit.Dim().IsOne() && n.unit.Text() == "%" || b.guard().stated(&n) {
			continue
		}
		near, best := "", math.Inf(1)
		for _, g := range b.all {
			for _, v := range g.Values() {
				if syntax.RoleOf(g.Stmt) != syntax.Given || v.Dim != n.unit.Dim() || v.Name == "" {
					continue
				}
				if far := math.Abs(math.Log(math.Abs(v.SI / n.unit.ToSIFloat(n.value)))); far < best {
					best, near = far, v.Name+" = "+v.Shown(units.Screen)+" in line "+strconv.Itoa(g.Line)
				}
			}
		}
		if near != "" {
			b.tell(e, "caution: the question says "+n.text+", and "+near+" is another value. A name in braces, as in {m}, is printed as its value.")
		}
	}
}
