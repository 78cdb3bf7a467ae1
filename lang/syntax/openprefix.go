package syntax

import (
	"slices"

	"steelyard/units"
)

// PrefixedUnit is a unit with a word that may be two, since its prefix is a unit too:
// W/mK may be W/(m K).
//
// 5 W/mK is read by the rules, as watts per millikelvin, with a caution that
// offers 5 W/(m K).
type PrefixedUnit struct {
	Unit  UnitText
	Word  string // of one unit by the rules: mK
	Apart string // the unit with it as two: W/(m K)
	Named string // the unit with its one unit by name: W/millikelvin
	Below bool   // it is right of a slash
}

// PrefixedIn finds the first such unit of an expression. Split takes a word apart.
//
// mK is the millikelvin by the rule of prefixes (SI Brochure 9, 3: no blank between prefix and
// unit, and no two prefixes). In W/mK it is nearly always W/(m K), which lacks its blank.
func PrefixedIn(x Expr, split func(word string) (head, rest, name string, ok bool)) (PrefixedUnit, bool) {
	for x := range Nodes(x) {
		if unit, ok := ownUnit(x); ok {
			if p := (PrefixedUnit{Unit: unit}); p.find(split) {
				return p, true
			}
		}
	}
	return PrefixedUnit{}, false
}

// find looks at the words of one unit, and fills the fields for the first that
// split takes apart.
func (p *PrefixedUnit) find(split func(string) (string, string, string, bool)) bool {
	s, some := units.Scanner{Text: p.Unit.Text}, false
	for part := s.Next(); part.Kind != units.PartEnd && !some; part = s.Next() {
		if part.Kind == units.PartWord {
			_, _, _, some = split(s.Text[part.From:part.To])
		}
	}
	if !some {
		return false // as of nearly all, which are not taken apart
	}
	fs, _ := unitFactors(p.Unit.Text)
	words := wordsOf(fs)
	for _, w := range words {
		head, rest, name, ok := split(w)
		if !ok || slices.Contains(words, head) { // m/ms is no m/(m s)
			continue
		}
		p.Word = w
		p.Apart = unitText(p.replaced(fs, []unitFactor{{word: head}, {joint: " ", word: rest}}, false))
		p.Named = unitText(p.replaced(fs, []unitFactor{{word: name}}, false))
		return true
	}
	return false
}

// replaced puts other factors in the place of the word, in a bracket where they are
// several below a slash; the power goes to the last of them.
func (p *PrefixedUnit) replaced(fs, by []unitFactor, below bool) []unitFactor {
	var out []unitFactor
	for _, f := range fs {
		under := below || f.joint == "/"
		switch {
		case f.within != nil:
			f.within = p.replaced(f.within, by, under)
		case f.word == p.Word:
			p.Below = p.Below || under
			with := slices.Clone(by)
			with[len(with)-1].power = f.power
			if f.joint != "/" || len(with) == 1 {
				with[0].joint = f.joint
				out = append(out, with...)
				continue
			}
			f = unitFactor{joint: "/", within: with}
		}
		out = append(out, f)
	}
	return out
}
