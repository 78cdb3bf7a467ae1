package plan

import (
	"iter"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"steelyard/lang/limit"
	"steelyard/lang/ops"
	"steelyard/lang/syntax"
	"steelyard/units"
	"steelyard/units/writing"
)

// nearest lists up to three known names that are spelled nearly like a word.
//
// The arguments of the function that is planned are among them: in its body they are
// the names that are most often meant.
func (c *coder) nearest(word string) []string {
	return writing.Nearest(word, func(yield func(string) bool) {
		for d := range c.p.Names.like(word) {
			if !yield(d.Name) {
				return
			}
		}
		for _, p := range c.params {
			if !yield(p.name) {
				return
			}
		}
	})
}

// Near lists up to three names of the page that are spelled nearly like a word.
func (p *Planner) Near(word string) []string {
	c := p.coder("")
	defer c.leave()
	return c.nearest(word)
}

// drops tells whether a name that is offered for a word would leave out a part of what
// was meant: a letter of a word that comes apart into names, given or not, as FN does for
// μFN; or digits behind a name, which may be a factor, as N0 does for N02.
func (c *coder) drops(word, near string) bool {
	if rest, ok := strings.CutPrefix(word, near); ok && strings.Trim(rest, "0123456789") == "" {
		return true
	}
	if !c.comesApart(word) {
		return false
	}
	near = strings.ToLower(near)
	for _, letter := range strings.ToLower(word) {
		rest := strings.Replace(near, string(letter), "", 1)
		if rest == near && unicode.IsLetter(letter) {
			return true
		}
		near = rest
	}
	return false
}

// endsWithFunction tells whether a word is names that run together with a function: Asin is
// A*sin, and no slip for asin.
func (c *coder) endsWithFunction(word string) bool {
	for cut := range word {
		if cut > 0 && ops.IsFunction(word[cut:]) && (c.isPart(word[:cut]) || c.comesApart(word[:cut])) {
			return true
		}
	}
	return false
}

// comesApart tells whether a word is names that run together, each there once, symbols that
// have no value among them where it is no word of a language.
func (c *coder) comesApart(word string) bool { return c.partsOf(word) != nil }

// partsOf are the names that a word comes apart into; nil for another word.
func (c *coder) partsOf(word string) []string {
	symbol := c.isPart
	if syntax.IsSpoken(word) {
		symbol = nil
	}
	parts, _, ok := syntax.Apart(word, c.known, symbol)
	if !ok || len(parts) == 1 || syntax.HasTwice(parts) {
		return nil
	}
	return parts
}

// productHint says how a word is written as a product of names, of which one at least has a
// value; nothing for another word.
func (c *coder) productHint(word string) string {
	parts := c.partsOf(word)
	if len(parts) < 2 || parts[0] == "Δ" || !slices.ContainsFunc(parts, c.known) {
		return ""
	}
	return "For a product, write " + strings.Join(parts, "*") + "."
}

// isPart tells whether a part of a word is a name, a symbol, or the Δ of a difference.
func (c *coder) isPart(part string) bool {
	return part == "Δ" || c.known(part) || units.IsSymbol(part)
}

// lengths sorts the first definition of each name by how many letters the name
// has, so that of a long worksheet only a few names are compared with one that
// is misspelt. It is brought up to date when it is asked, as most worksheets
// never do.
type lengths struct {
	taken []*Def   // a prefix of all definitions, as they were
	of    [][]*Def // of each length, in the order of the lines
}

// like goes through names of about the length of a word, those of the same
// length first and the last line first, no more than limit.Near of each length.
//
// A name that is much longer or shorter can't be reached by the few changes that make
// a misspelling, so its letters are never compared.
func (n *Names) like(word string) iter.Seq[*Def] {
	n.asked.every()
	n.lengths.follow(n)
	letters, reach := utf8.RuneCountInString(word), writing.Reach(word)
	return func(yield func(*Def) bool) {
		for gap := range 2*reach + 1 {
			length := letters + (gap+1)/2*(1-gap%2*2) // 0, -1, 1, -2, 2 …
			if length < 0 || length >= len(n.lengths.of) {
				continue
			}
			defs := n.lengths.of[length]
			for i := len(defs) - 1; i >= max(0, len(defs)-limit.Near); i-- {
				if !yield(defs[i]) {
					return
				}
			}
		}
	}
}

// follow takes back the definitions that are no more and adds the new ones.
//
// Lines come and go at the end of a worksheet, nearly always: what is still the same
// at the front is kept, and the rest is made anew.
func (l *lengths) follow(n *Names) {
	keep := min(len(l.taken), len(n.all))
	for keep > 0 && l.taken[keep-1] != n.all[keep-1] {
		keep--
	}
	for i := len(l.taken) - 1; i >= keep; i-- {
		d := l.taken[i]
		defs := l.of[utf8.RuneCountInString(d.Name)]
		if last := len(defs) - 1; last >= 0 && defs[last] == d {
			l.of[utf8.RuneCountInString(d.Name)] = defs[:last]
		}
	}
	l.taken = l.taken[:keep]
	for _, d := range n.all[keep:] {
		l.taken = append(l.taken, d)
		length := utf8.RuneCountInString(d.Name)
		for len(l.of) <= length {
			l.of = append(l.of, nil)
		}
		if d.above == nil {
			l.of[length] = append(l.of[length], d)
		}
	}
}
