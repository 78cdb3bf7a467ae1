package units

import (
	"strings"
	"sync"
)

// Kind is a kind of quantity.
type Kind struct {
	// Name is the term: "force per length".
	Name string
	// Article is "a", "an" or empty.
	Article string
	Dim     Dim
	Tag     Tag
	// Unit is the text of the unit that it is given in.
	Unit string
	// Others are other names of quantities of the same dimension.
	Others []string
}

type kindRow struct {
	name, article string
	exps          exps
	tag           Tag
	unit          string
	others        string
}

func (k *kindRow) kind() Kind {
	var others []string
	if k.others != "" {
		others = strings.Split(k.others, ", ")
	}
	return Kind{k.name, k.article, k.exps.dim(), k.tag, k.unit, others}
}

func kindRowOf(d Dim, t Tag) *kindRow {
	e, ok := d.exps()
	if !ok {
		return nil
	}
	for i := range kindTable {
		if k := &kindTable[i]; k.exps == e && k.tag == t {
			return k
		}
	}
	return nil
}

// KindOf returns the kind that a dimension and tag is named after: an energy
// for kg m^2 s^-2, an angular velocity for an angle per time.
func KindOf(d Dim, t Tag) (Kind, bool) {
	if k := kindRowOf(d, t); k != nil {
		return k.kind(), true
	}
	return Kind{}, false
}

// FindKind returns the kinds that have a word among their names, those first
// that are named by it.
func FindKind(word string) []Kind {
	word = strings.ToLower(strings.ReplaceAll(word, "_", " "))
	var first, rest []Kind
	for i := range kindTable {
		k := &kindTable[i]
		if strings.EqualFold(k.name, word) {
			first = append(first, k.kind())
			continue
		}
		for other := range strings.SplitSeq(k.others, ", ") {
			if other != "" && strings.EqualFold(other, word) {
				rest = append(rest, k.kind())
				break
			}
		}
	}
	return append(first, rest...)
}

// Kinds returns the whole catalogue of quantities.
func Kinds() []Kind {
	out := make([]Kind, len(kindTable))
	for i := range kindTable {
		out[i] = kindTable[i].kind()
	}
	return out
}

type kindKey struct {
	dim Dim
	tag Tag
}

// preferred are the units of the rows of kindTable, read once.
var preferred = sync.OnceValue(func() map[kindKey]*Unit {
	all := make(map[kindKey]*Unit, len(kindTable))
	table := NewTable()
	for i := range kindTable {
		k := &kindTable[i]
		key := kindKey{k.exps.dim(), k.tag}
		if all[key] != nil {
			continue // of quantities of one dimension the first row counts
		}
		if u, bad := table.parse(k.unit, AloneInPlace); bad == nil {
			all[key] = u
		}
	}
	return all
})

// Preferred returns the unit that a result is shown in of its own accord: N,
// Pa, J … where the dimension is theirs, Hz only for a cycle, rad and rad/s
// for an angle, else the unit of the catalogue of quantities, else base units.
func Preferred(d Dim, t Tag) *Unit {
	if u, ok := preferred()[kindKey{d, t}]; ok {
		return u
	}
	if t != None {
		return Preferred(d, None)
	}
	return BaseUnits(d)
}

// Coherent returns the coherent SI unit of a dimension, to be typed back: the
// one of the catalogue of quantities, else base units with one solidus. It is
// One for a pure number and rad for an angle.
func Coherent(d Dim, t Tag) *Unit { return Preferred(d, t) }

var baseRows = [bases]string{"kg", "m", "s", "A", "K", "mol", "cd"}

// BaseUnits writes a dimension in base units, in the order kg m s A K mol cd,
// with one solidus: kg m^2/s^3.
func BaseUnits(d Dim) *Unit {
	parts := make([]part, 0, bases)
	for _, den := range []bool{false, true} {
		for i, e := range d.e {
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
	u, ok := build(parts)
	if !ok {
		return One
	}
	return u
}
