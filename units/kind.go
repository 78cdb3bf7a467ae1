package units

import (
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
)

// Kind is a kind of quantity.
//
// Many kinds have one dimension, as energy and torque have; the tag tells some of them apart,
// and the unit that is asked for others.
type Kind struct {
	// Name is the term: "force per length".
	Name string
	// Article is "a", "an" or empty.
	Article string
	exps    exps
	Tag     Tag
	// Unit is the text of the unit that it is given in.
	Unit   string
	others string
}

// Dim returns the dimension of the kind.
func (k *Kind) Dim() Dim { return k.exps.dim() }

// Others returns other names of quantities of the same dimension.
func (k *Kind) Others() []string {
	if k.others == "" {
		return nil
	}
	return strings.Split(k.others, ", ")
}

// Articled returns the term with its article: "an energy".
func (k *Kind) Articled() string { return strings.TrimPrefix(k.Article+" "+k.Name, " ") }

// KindOf returns the kind that a dimension and tag is named after: an energy
// for kg m^2 s^-2, an angular velocity for an angle per time. Where no kind has the
// tag it is only a memory, and the dimension alone names the kind.
//
// The first row of a dimension names it. A tag that was only carried along, as that of an angle
// in a length r*θ, names nothing.
func KindOf(d Dim, t Tag) (Kind, bool) {
	if i, ok := kindRow(d, t); ok {
		return kindTable[i], true
	}
	if t != None && !(t < None && d.IsEnergy()) {
		return KindOf(d, None)
	}
	return Kind{}, false
}

// KindIn is KindOf for what is shown in a unit: an impulse in N s, though a momentum in kg m/s.
func KindIn(d Dim, t Tag, u *Unit) (Kind, bool) {
	own, ok := KindOf(d, t)
	for i := range kindTable {
		if k := &kindTable[i]; ok && k.exps == own.exps && k.Tag == own.Tag && k.Unit == u.text {
			return *k, true
		}
	}
	return own, ok
}

// FindKind returns the kinds that have a word among their names, those first
// that are named by it.
//
// acceleration finds its row, and velocity that of speed, among the other names.
func FindKind(word string) []Kind {
	word = strings.ToLower(strings.ReplaceAll(word, "_", " "))
	is := func(name string) bool { return strings.EqualFold(name, word) }
	var first, rest []Kind
	for _, k := range kindTable {
		if is(k.Name) {
			first = append(first, k)
		} else if slices.ContainsFunc(k.Others(), is) {
			rest = append(rest, k)
		}
	}
	return append(first, rest...)
}

// Kinds returns the whole catalogue of quantities.
func Kinds() []Kind { return slices.Clone(kindTable[:]) }

// kindKey is what the first row of a kind is found by.
type kindKey struct {
	exps exps
	tag  Tag
}

// kindRows are the places of the first rows of a dimension and tag in kindTable.
var kindRows = sync.OnceValue(func() map[kindKey]int {
	rows := make(map[kindKey]int, len(kindTable))
	for i := len(kindTable) - 1; i >= 0; i-- {
		rows[kindKey{kindTable[i].exps, kindTable[i].Tag}] = i
	}
	return rows
})

// kindRow is the place of the first row of a dimension and tag.
func kindRow(d Dim, t Tag) (int, bool) {
	e, whole := d.exps()
	i, ok := kindRows()[kindKey{e, t}]
	return i, ok && whole
}

// kindUnits are the units of the rows of kindTable, each read as it is first asked for.
var kindUnits [len(kindTable)]atomic.Pointer[Unit]

// kindUnit is the unit of a row of kindTable.
func kindUnit(i int) *Unit {
	u := kindUnits[i].Load()
	if u == nil {
		u, _ = NewTable().parse(kindTable[i].Unit, AloneInPlace)
		if !kindUnits[i].CompareAndSwap(nil, u) {
			u = kindUnits[i].Load()
		}
	}
	return u
}

// Preferred returns the unit that a result is shown in of its own accord: N,
// Pa, J … where the dimension is theirs, Hz only for a cycle, rad and rad/s
// for an angle, else the unit of the catalogue of quantities, else base units. It is
// coherent, and One for a pure number.
//
// A newcomer expects N and J and not kg m/s^2; where nobody has a unit of that name, base units
// say what it is made of.
func Preferred(d Dim, t Tag) *Unit {
	if i, ok := kindRow(d, t); ok {
		return kindUnit(i)
	}
	switch {
	case t < PerSquareAngle && d.IsEnergy():
		u, _ := NewTable().Parse("N m/rad^"+strconv.Itoa(int(PerAngle-t)), AloneInPlace)
		return u
	case t != None:
		return Preferred(d, None)
	}
	return BaseUnits(d)
}

// Coherent is the unit without its prefixes, J/kg for MJ/kg. Where that is no product of
// coherent SI units alone, as of km/h, or counts angles, it is the preferred one of the
// dimension.
//
// It is for a value that is shown in detail: 2 MJ/kg has another unit than its base units would
// say.
func (u *Unit) Coherent() *Unit {
	parts := make([]part, len(u.parts))
	for i, p := range u.parts {
		if row := p.atom.row; row != nil {
			if row.offset != "" {
				return Preferred(u.dim, None) // K for °C
			}
			p.atom = atom{row: row, text: row.text()}
			if kg, ok := findWord("kg"); ok && row.symbol == "g" {
				p.atom = kg.atom()
			}
		}
		parts[i] = p
	}
	if c := build(parts); c != nil && c.tag == None && c.scale == nil && !c.difference && c.size == (pair{1, 0}) {
		return c
	}
	return Preferred(u.dim, None)
}

var baseRows = [bases]string{"kg", "m", "s", "A", "K", "mol", "cd"}

// BaseUnits writes a dimension in base units, in the order kg m s A K mol cd,
// with one solidus: kg m^2/s^3.
//
// The order is that of the SI Brochure's table 2 with the kilogram first, as forces and
// energies are written.
func BaseUnits(d Dim) *Unit {
	parts := make([]part, 0, bases)
	for _, den := range []bool{false, true} {
		for i := range d.num {
			e := d.Exp(i)
			if e.IsZero() || den != (e.num < 0) {
				continue
			}
			w, ok := findWord(baseRows[i])
			if !ok {
				continue
			}
			if den {
				e = e.Neg()
			}
			parts = append(parts, part{w.atom(), e, den})
		}
	}
	if u := build(parts); u != nil {
		return u
	}
	return One
}
