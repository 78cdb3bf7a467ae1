package units

import (
	"slices"
	"strings"
)

// Table is the catalogue together with the units that a worksheet defines. It
// remembers the texts it has read. It is not safe for concurrent use.
//
// A page reads the same few texts again and again: each is taken apart once. What was read is
// forgotten when a unit is defined, as it may have been a word of it.
type Table struct {
	own  map[string]*Unit
	read map[tableKey]outcome
}

// tableKey is a text and where it stands: 1/s is a unit by itself and none behind a number.
type tableKey struct {
	text  string
	place Place
}

// outcome is what a text was read as: a unit, or the problem of why it is none.
type outcome struct {
	unit    *Unit
	problem *Problem
}

// maxRemembered is the most texts that a table remembers at a time.
const maxRemembered = 4096

// NewTable returns a table without units of its own. It costs nothing until
// it is used.
func NewTable() *Table { return &Table{} }

// Parse reads the text of a unit. The texts "" and "1" are the unit of pure
// numbers. Exactly one of the results is nil.
//
// Very long texts are not remembered: no unit is that long, and a page of such texts would fill
// the memory.
func (t *Table) Parse(text string, p Place) (*Unit, *Problem) {
	key := tableKey{text, p}
	if o, ok := t.read[key]; ok {
		return o.unit, o.problem
	}
	u, bad := t.parse(text, p)
	if len(text) <= 256 {
		if t.read == nil || len(t.read) >= maxRemembered {
			t.read = make(map[tableKey]outcome, 8)
		}
		t.read[key] = outcome{u, bad}
	}
	return u, bad
}

// Of returns the unit of a text that is part of the program and can be read; One for
// any other text.
func Of(text string) *Unit {
	u, bad := NewTable().Parse(text, AloneInPlace)
	if bad != nil {
		return One
	}
	return u
}

// Define makes a unit of a worksheet's own: a name for a size in coherent SI units,
// with the dimension and the tag of another unit. Its plural in -s is read; it takes
// no prefixes. It reports false where a known unit has the name.
//
// A known unit can't be redefined, since worksheets that use it would change their meaning.
func (t *Table) Define(name string, of *Unit, size float64) (*Unit, bool) {
	if t.Has(name) || t.Has(name+"s") || name == "" || !(size > 0) || !finite(size) {
		return nil, false
	}
	u := &Unit{dim: of.dim, tag: of.tag, size: pair{size, 0}, text: name, screen: name}
	if t.own == nil {
		t.own = make(map[string]*Unit)
	}
	t.own[name] = u
	t.read = nil
	return u, true
}

// Remove takes back what Define made.
func (t *Table) Remove(name string) {
	delete(t.own, name)
	t.read = nil
}

// Has tells whether a word alone is a unit: a symbol, with or without prefix,
// an English name, or a unit of the worksheet's own.
func (t *Table) Has(word string) bool {
	_, ok := t.find(word)
	return ok
}

// find looks a word up in the worksheet's own units, then in the catalogue.
func (t *Table) find(text string) (atom, bool) {
	if len(t.own) > 0 {
		if u, ok := t.own[text]; ok {
			return atom{own: u, text: u.text}, true
		}
		if one, ok := strings.CutSuffix(text, "s"); ok {
			if u, ok := t.own[one]; ok {
				return atom{own: u, text: u.text}, true
			}
		}
	}
	return find(text)
}

// Complete lists the symbols and names of units that begin with a prefix,
// sorted. Symbols with an SI prefix are among them where the prefix given is
// not empty.
//
// With no letter typed, prefixed units would be thousands.
func (t *Table) Complete(prefix string) []string {
	var out []string
	add := func(s string) {
		if strings.HasPrefix(s, prefix) {
			out = append(out, s)
		}
	}
	for _, w := range words[lowerBound(prefix):] {
		if !strings.HasPrefix(w.text, prefix) {
			break
		}
		add(w.text)
	}
	for name := range t.own {
		add(name)
	}
	if prefix != "" {
		completePrefixed(prefix, add)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// completePrefixed adds the symbols and names with a prefix that begins with the same letter.
func completePrefixed(start string, add func(string)) {
	for i := range prefixTable {
		p := &prefixTable[i]
		for _, symbol := range []bool{true, false} {
			head := p.name
			if symbol {
				head = p.symbol
			}
			if head == "" || head[0] != start[0] {
				continue
			}
			for _, w := range words {
				if w.is(symbol) && w.takes(p) {
					add(head + w.text)
				}
			}
		}
	}
}
