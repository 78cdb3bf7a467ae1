package units

import "strings"

// ProblemKind tells what is wrong with the text of a unit.
type ProblemKind uint8

const (
	// ProblemUnknown: no unit has this name.
	ProblemUnknown ProblemKind = iota
	// ProblemText: it is not written as units are: kgm/s, m/s2, J/kg/K.
	ProblemText
	// ProblemRange: an exponent or the size is out of range.
	ProblemRange
)

// Problem is what is wrong with the text of a unit, in plain words.
type Problem struct {
	Kind ProblemKind
	// From and To are the bytes of the text that it is about.
	From, To int
	// Message says what was found, Hint what to do.
	Message, Hint string
	// Readings are whole texts of units to write instead; each can be read in
	// the same place.
	Readings []string
}

// parse reads the text of a unit without the table's memory.
// A text that is not written as units are is read all the same if nobody could mean
// another unit, and the unit then says so; otherwise what it may mean is offered. The
// one reading is read as any text is, so that no second set of rules reads it.
func (t *Table) parse(text string, place Place) (*Unit, *Problem) {
	s := shapeOf(text, place)
	u, bad := t.unitOf(&s, text)
	if bad == nil {
		return u, nil
	}
	p := t.diagnose(&s, bad, text, place)
	if len(p.Readings) != 1 || !t.sure(&s) {
		return nil, p
	}
	meant := shapeOf(p.Readings[0], place)
	if u, bad = t.unitOf(&meant, p.Readings[0]); bad != nil {
		return nil, p
	}
	u.loose = true
	return u, nil
}

// sure tells whether nobody could mean another unit than the one reading of a text
// that is not written as units are.
func (t *Table) sure(s *shape) bool {
	if s.fault != nil && !s.fault.sure {
		return false
	}
	for i := range s.factors {
		if !t.sureWord(&s.factors[i]) {
			return false
		}
	}
	return true
}

// sureWord tells it of one word: a unit, a short form that is no other's, a power
// without its sign, or symbols that can be taken apart in one way.
func (t *Table) sureWord(f *factor) bool {
	if _, ok := t.find(f.word); ok {
		return !f.metreSecond()
	}
	for i := range slips {
		if slips[i].wrong == f.word {
			return slips[i].read == everywhere || slips[i].read == below && f.den
		}
	}
	word := strings.TrimRight(f.word, "0123456789")
	_, glued := t.ways(f)
	return glued && (t.Has(word) || splits(word, "") == 1)
}

// trouble is what kept a text from being a unit: a fault of its shape, or the
// first factor that is none.
type trouble struct {
	fault  *fault
	factor int // index of the unknown factor, or -1
}

// unitOf looks up the words of a shape and puts them together.
//
// The first word that is none ends it: diagnose looks at the others when it puts a reading
// together.
func (t *Table) unitOf(s *shape, text string) (*Unit, *trouble) {
	if s.fault != nil {
		return nil, &trouble{s.fault, -1}
	}
	parts := make([]part, 0, len(s.factors))
	marked := [2]bool{}
	for i := range s.factors {
		f := &s.factors[i]
		a, ok := t.find(f.word)
		if !ok || f.metreSecond() {
			return nil, &trouble{nil, i}
		}
		// A sign such as ° ends a product, since a letter behind it would be read as its scale.
		// One above the solidus and one below are kept apart.
		if a.mark() {
			side := 0
			if f.den {
				side = 1
			}
			if marked[side] {
				return nil, &trouble{&fault{f.from, f.to, "`" + f.word + "` can only be the last of several units.", "Write the name instead: degree, percent.", false, true, false}, -1}
			}
			marked[side] = true
		}
		parts = together(parts, part{a, f.exp, f.den})
	}
	u := build(parts)
	if u == nil {
		return nil, &trouble{&fault{0, len(text), "The exponents of this unit are too large.", "Use exponents up to 99.", true, true, false}, -1}
	}
	return u, nil
}

// together adds a part. One that stands under the solidus already gets the sum
// of the exponents: metres per second per second are m/s^2.
//
// Above the solidus nothing is added up: m m is shown as it was written.
func together(parts []part, p part) []part {
	for i := range parts {
		if q := &parts[i]; p.den && q.den && q.atom == p.atom {
			if e := q.exp.Add(p.exp); !e.Lost() {
				q.exp = e
				return parts
			}
		}
	}
	return append(parts, p)
}

// metreSecond tells whether a factor reads ms^-1: per millisecond by the
// rules, but mostly meant as metres per second.
// It is refused, not read: the two differ by a factor of a thousand, and by the
// dimension.
func (f *factor) metreSecond() bool {
	return f.word == "ms" && !f.den && f.exp.num < 0
}
