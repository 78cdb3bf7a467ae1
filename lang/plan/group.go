package plan

import (
	"slices"
	"strings"
	"unicode/utf8"

	"steelyard/lang/run"
	"steelyard/lang/syntax"
	"steelyard/units"
	"steelyard/units/writing"
)

// group is a word that comes apart into symbols, as a product in print is written:
// μmg. At least one of them is a name here; those that have no value are lacking.
//
// A line such as mgh is read as three factors by every reader of physics, and by
// nobody as one name; but to take it so in silence would make a slip of the finger a
// product. So it is offered.
type group struct{ parts, lacking []string }

// maxLacking is how many symbols of a group may lack a value: of more, the word is
// more likely one of its own.
const maxLacking = 2

// group takes a word apart into names, a function with its argument at the end, and,
// where that is not enough, symbols without a value.
func (c *coder) group(word string) (group, bool) {
	for cut := range word {
		call, lacking, ok := c.gluedCall(word[cut:])
		if cut == 0 || !ok {
			continue
		}
		head, name := group{}, syntax.Canonical(word[:cut])
		switch {
		case c.known(name):
			head.parts = []string{name}
		case isSymbol(name):
			head = group{[]string{name}, []string{name}}
		default:
			head, ok = c.letters(word[:cut])
		}
		g := group{append(head.parts, call), append(head.lacking, lacking...)}
		return g, ok && len(g.lacking) < len(g.parts) && len(g.lacking) <= maxLacking
	}
	return c.letters(word)
}

// letters is group for a word without a function in it.
func (c *coder) letters(word string) (group, bool) {
	isWord := syntax.IsSpoken(word)
	parts, ok := syntax.Apart(word, func(part string) int {
		switch {
		case c.known(part):
			return 1
		case !isWord && isSymbol(part):
			return 100 // more than all known ones of a word
		}
		return 0
	})
	g := group{parts: parts}
	for i, p := range parts {
		if !c.known(p) {
			g.lacking = append(g.lacking, p)
			ok = ok && !slices.Contains(parts[:i], p)
		}
	}
	return g, ok && len(g.lacking) < len(parts) && len(g.lacking) <= maxLacking
}

// isSymbol tells whether a text is a letter, perhaps with a Δ before it and digits behind,
// that a quantity or a constant goes by. The e of print is mostly that of an exponential.
func isSymbol(text string) bool {
	text = strings.TrimPrefix(text, "Δ")
	if letter := strings.TrimRight(text, "0123456789"); letter == "e" || utf8.RuneCountInString(letter) != 1 {
		return false
	}
	_, constant := units.LookupConstant(text)
	return constant || units.Speaks(text)
}

// isLetter tells whether a name is one letter, which no longer word is a slip for.
func isLetter(name string) bool { return utf8.RuneCountInString(name) == 1 }

// misspelt tells whether a longer word is nearly a name that is no part of it.
func (c *coder) misspelt(word string, g group) bool {
	return len([]rune(word)) > 3 && slices.ContainsFunc(c.nearest(word), func(near string) bool { return !slices.Contains(g.parts, near) })
}

func (g group) product() string { return strings.Join(g.parts, "*") }

// says tells which symbols are known and which have no value.
func (g group) says() string {
	known := slices.DeleteFunc(slices.Clone(g.parts), func(p string) bool { return slices.Contains(g.lacking, p) || strings.HasSuffix(p, ")") })
	if len(known) == 0 {
		return g.lacks()
	}
	text := writing.List(known, "and") + " are known"
	if len(known) == 1 {
		text = known[0] + " is known"
	}
	if len(g.lacking) > 0 {
		text += ", but " + g.lacks()
	}
	return text
}

// lacks tells which symbols have no value.
func (g group) lacks() string {
	verb := " has no value"
	if len(g.lacking) > 1 {
		verb = " have no value"
	}
	return writing.List(g.lacking, "and") + verb
}

// Product takes a word apart into symbols, one of which is a name that the line gives:
// kx into k*x where k is solved for. It is "" for another word.
func (p *Planner) Product(word, name string) string {
	c := p.coder("")
	c.params = []param{{name: name, slot: run.NoSlot}}
	if g, ok := c.group(word); ok && slices.Contains(g.parts, name) {
		return g.product()
	}
	return ""
}

// ofNature says how a symbol without a value becomes a constant of nature, unless it
// stands for something else first and no quantity of a name comes of the product:
// hf is an energy with that constant, kx nothing.
func (c *coder) ofNature(g group, name string) string {
	k, ok := units.LookupConstant(name)
	if !ok {
		return ""
	}
	if units.Usual(name) != "" {
		dim := units.Of(k.Unit).Dim()
		for _, part := range g.parts {
			if d, ok := c.lookup(&syntax.Name{Name: part}); ok && d.Slot != run.NoSlot {
				dim = dim.Mul(c.p.Static(d.Slot).Dim)
			}
		}
		if _, named := units.KindOf(dim, units.None); !named {
			return ""
		}
	}
	return constantHint(name)
}

// hint says what to do about a group.
func (c *coder) hint(g group) string {
	hint := "Put `*` between the names"
	switch len(g.lacking) {
	case 0:
		return hint + "."
	case 1:
		hint += ", and give " + g.lacking[0] + " a value in a line above."
	default:
		hint += ", and give " + writing.List(g.lacking, "and") + " values in lines above."
	}
	for _, name := range g.lacking {
		if constant := c.ofNature(g, name); constant != "" {
			hint += " " + constant
		}
	}
	return hint
}

// likely tells whether symbols are likelier than a misspelt unit behind a number with
// a blank or a decimal point: a name of the page is among them, and one at most has no
// value, or they are no small letters. What has a slash looks more like a unit.
func (g group) likely(unit string) bool {
	if strings.Contains(unit, "/") {
		return false
	}
	given := slices.ContainsFunc(g.parts, func(p string) bool { return p != "g" && !slices.Contains(g.lacking, p) })
	return given && (len(g.lacking) <= 1 || strings.ToLower(unit) != unit)
}

// itself says of two letters that they may be one symbol too, as Fx is.
func (g group) itself(word string) string {
	if len(g.parts) > 2 || len(g.lacking) == 0 || strings.HasSuffix(g.parts[len(g.parts)-1], ")") {
		return ""
	}
	return " Or give " + word + " a value, if it is one symbol."
}

// constantHint says how a name becomes the constant of nature of that symbol; "" if
// there is none.
func constantHint(name string) string {
	if k, ok := units.LookupConstant(name); ok {
		return "For the " + k.Name + ", write `constants " + name + "`."
	}
	if k, ok := units.NearConstant(name); ok {
		return "For the " + k.Name + ", write `constants " + k.Symbol + "`, and then " + k.Symbol + "."
	}
	return ""
}
